using MicRegister.Register.Events;

namespace MicRegister.Register.Tests.Events;

public sealed class BextStartTests
{
    private static readonly DateOnly Day = new(2026, 5, 4);

    [Theory]
    [InlineData("2026-05-04", "12:34:56")]
    [InlineData("2026:05:04", "12-34-56")]
    [InlineData("2026_05_04", "12 34 56")]
    public void The_time_reference_gives_the_start_to_the_millisecond(string date, string time)
    {
        // 12:34:56.25 is 45296.25 s, at 48 kHz 2174220000 samples.
        Assert.Equal(new BextStart("2026-05-04T12:34:56.250", null, null), BextStart.Of(date, time, 2_174_220_000, 48_000));
    }

    [Theory]
    [InlineData(2, "2026-05-04T12:00:02.000", true)]
    [InlineData(-2, "2026-05-04T11:59:58.000", true)]
    [InlineData(3, "2026-05-04T12:00:03.000", false)]
    [InlineData(-3, "2026-05-04T11:59:57.000", false)]
    public void Two_seconds_between_the_two_are_no_doubt_and_more_are(int seconds, string shown, bool agree)
    {
        var start = BextStart.Of(Day, new TimeOnly(12, 0, 0), (ulong)((43_200 + seconds) * 48_000L), 48_000);
        Assert.Equal(shown, start.Shown);
        Assert.Equal(agree, start.Doubt is null);
    }

    [Fact]
    public void A_time_reference_of_zero_was_not_written()
    {
        var start = BextStart.Of("2026-05-04", "12:34:56", 0, 48_000);
        Assert.Equal("2026-05-04T12:34:56.000", start.Shown);
        Assert.Contains("not written", start.Doubt, StringComparison.Ordinal);
    }

    [Fact]
    public void Zero_and_midnight_are_midnight_with_a_doubt()
    {
        var start = BextStart.Of("2026-05-04", "00:00:00", 0, 48_000);
        Assert.Equal("2026-05-04T00:00:00.000", start.Shown);
        Assert.NotNull(start.Doubt);
    }

    [Theory]
    // The header was written at 23:59:59, the first sample came 0.5 s after midnight.
    [InlineData(4, 23, 59, 59, 0.5, "2026-05-05T00:00:00.500")]
    // The other way round.
    [InlineData(5, 0, 0, 0, 86_399.5, "2026-05-04T23:59:59.500")]
    // Counted on over midnight from the day before, 24 h 10 min: the time of day agrees, so the day is right.
    [InlineData(5, 0, 10, 0, 87_000.0, "2026-05-05T00:10:00.000")]
    // Counted on over midnight, and the time is that of the beginning at 22:00: 24 h 10 min after the day began.
    [InlineData(4, 22, 0, 0, 87_000.0, "2026-05-05T00:10:00.000")]
    public void Around_midnight_the_day_is_found_with_a_doubt(int day, int hour, int minute, int second, double referenceS, string shown)
    {
        var start = BextStart.Of(new DateOnly(2026, 5, day), new TimeOnly(hour, minute, second), (ulong)(referenceS * 48_000), 48_000);
        Assert.Equal(shown, start.Shown);
        Assert.Contains("midnight", start.Doubt, StringComparison.Ordinal);
    }

    [Fact]
    public void A_leap_day_is_a_day_and_rolls_into_march()
    {
        Assert.Equal("2028-02-29T12:00:00.000", BextStart.Of("2028-02-29", "12:00:00", 43_200 * 48_000L, 48_000).Shown);
        Assert.Equal("2028-03-01T00:00:01.000", BextStart.Of("2028-02-29", "23:00:00", 86_401 * 48_000L, 48_000).Shown);
    }

    [Theory]
    [InlineData("2026-02-29")]
    [InlineData("2026-13-01")]
    [InlineData("0000-00-00")]
    [InlineData("")]
    public void A_day_that_does_not_exist_gives_a_reason(string date)
    {
        var start = BextStart.Of(date, "12:00:00", 43_200 * 48_000L, 48_000);
        Assert.Null(start.Shown);
        Assert.NotNull(start.Reason);
    }

    [Fact]
    public void Without_a_time_the_time_reference_is_taken_and_without_both_there_is_none()
    {
        Assert.Equal("2026-05-04T12:00:00.000", BextStart.Of(Day, null, 43_200 * 48_000UL, 48_000).Shown);
        Assert.NotNull(BextStart.Of(Day, null, 0UL, 48_000).Reason);
    }

    [Theory]
    [InlineData(-1L)]
    [InlineData(long.MaxValue)]
    public void A_count_beyond_all_days_is_passed_over(long timeReference)
    {
        var start = BextStart.Of("2026-05-04", "12:34:56", timeReference, 48_000);
        Assert.Equal("2026-05-04T12:34:56.000", start.Shown);
        Assert.NotNull(start.Doubt);
        Assert.NotNull(BextStart.Of("2026-05-04", "", timeReference, 48_000).Reason);
    }

    [Theory]
    [InlineData("0001-01-01", "00:00:00", 86_399L)]
    [InlineData("9999-12-31", "23:59:59", 1L)]
    public void The_ends_of_all_days_break_nothing(string date, string time, long seconds) =>
        Assert.NotNull(BextStart.Of(date, time, seconds * 48_000, 48_000).Reason);

    [Theory]
    [InlineData(0.0)]
    [InlineData(-48_000.0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_sample_rate_is_positive_and_finite(double rate) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => BextStart.Of("2026-05-04", "12:00:00", 1, rate));
}
