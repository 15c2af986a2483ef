using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Events;

public sealed class RecorderClockTests
{
    /// <summary>Europe/Berlin: clocks go forward at 01:00 UTC on 29 March 2026 and back at 01:00 UTC on 25 October 2026 (Directive 2000/84/EC: last Sundays).</summary>
    internal static readonly IReadOnlyList<ZoneOffset> Berlin =
        [new("2025-10-26T01:00:00.000Z", 60), new("2026-03-29T01:00:00.000Z", 120), new("2026-10-25T01:00:00.000Z", 60)];

    [Theory]
    [InlineData("2026-05-04T10:11:30.345", "2026-05-04T10:11:12.345Z")] // 18 s since 2017
    [InlineData("1990-06-01T00:00:06.000", "1990-06-01T00:00:00.000Z")] // 6 s since 1990
    [InlineData("1981-06-30T12:00:00.000", "1981-06-30T12:00:00.000Z")] // none yet
    [InlineData("2017-01-01T00:00:16.999", "2016-12-31T23:59:59.999Z")] // the last millisecond with 17 s
    [InlineData("2017-01-01T00:00:17.500", "2016-12-31T23:59:59.500Z")] // the leap second itself, 23:59:60.5
    [InlineData("2017-01-01T00:00:18.000", "2017-01-01T00:00:00.000Z")] // the first with 18 s
    public void A_clock_in_gps_time_runs_ahead_by_the_leap_seconds(string shown, string utc)
    {
        var reading = RecorderClock.Of(TimeScale.Gps, Berlin, [], []).Read(shown);
        Assert.Equal(Ms(utc), reading.UnixMilliseconds);
        Assert.Equal(0, reading.OffsetS);
    }

    [Fact]
    public void A_clock_that_nobody_checked_is_taken_to_be_right_and_says_so()
    {
        var reading = RecorderClock.Of(TimeScale.Utc, Berlin, [], []).Read("2026-05-04T10:11:12.345");

        Assert.Equal(Ms("2026-05-04T10:11:12.345Z"), reading.UnixMilliseconds); // the offsets are not of its concern
        Assert.True(reading.IsUnchecked);
        Assert.Null(reading.UncertaintyS);
        Assert.False(reading.IsExtrapolated);
        Assert.Contains("nobody checked", reading.Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2020-07-01T12:00:00.000", "2020-07-01T11:00:00.000Z")] // before all offsets the first holds
    [InlineData("2026-03-29T01:59:59.999", "2026-03-29T00:59:59.999Z")]
    [InlineData("2026-03-29T03:00:00.000", "2026-03-29T01:00:00.000Z")]
    [InlineData("2026-10-25T01:59:59.999", "2026-10-24T23:59:59.999Z")]
    [InlineData("2026-10-25T03:00:00.000", "2026-10-25T02:00:00.000Z")]
    [InlineData("2026-06-01T00:00:00.000", "2026-05-31T22:00:00.000Z")] // midnight
    [InlineData("2028-02-29T23:59:59.500", "2028-02-29T22:59:59.500Z")] // a leap day
    [InlineData("2028-03-01T00:30:00.000", "2028-02-29T23:30:00.000Z")]
    public void A_local_clock_follows_its_zone(string shown, string utc) =>
        Assert.Equal(Ms(utc), RecorderClock.Of(TimeScale.Local, Berlin, [], []).Read(shown).UnixMilliseconds);

    [Theory]
    [InlineData("2026-03-29T02:00:00.000")]
    [InlineData("2026-03-29T02:59:59.999")]
    public void A_local_time_that_was_skipped_has_no_instant(string shown)
    {
        var reading = RecorderClock.Of(TimeScale.Local, Berlin, [], []).Read(shown);
        Assert.True(reading.Skipped);
        Assert.Null(reading.UnixMilliseconds);
    }

    [Fact]
    public void What_a_skipped_time_may_have_meant_is_said()
    {
        var reading = RecorderClock.Of(TimeScale.Local, Berlin, [], []).Read("2026-03-29T02:30:00.000");
        // By the offset after, 120 min, and by the one before, 60 min.
        Assert.Equal([Ms("2026-03-29T00:30:00.000Z"), Ms("2026-03-29T01:30:00.000Z")], reading.Candidates);
        Assert.Contains("2026-03-29T00:30:00.000Z or 2026-03-29T01:30:00.000Z", reading.Sentence, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2026-10-25T02:00:00.000", "2026-10-25T00:00:00.000Z", "2026-10-25T01:00:00.000Z")]
    [InlineData("2026-10-25T02:59:59.999", "2026-10-25T00:59:59.999Z", "2026-10-25T01:59:59.999Z")]
    public void A_local_time_that_came_twice_has_no_instant_until_somebody_chooses(string shown, string first, string second)
    {
        var open = RecorderClock.Of(TimeScale.Local, Berlin, [], []).Read(shown);
        Assert.True(open.Ambiguous);
        Assert.Null(open.UnixMilliseconds);
        Assert.Equal([Ms(first), Ms(second)], open.Candidates);

        foreach (var isFirst in new[] { true, false })
        {
            var chosen = RecorderClock.Of(TimeScale.Local, Berlin, [], [new("R1", shown, !isFirst, "a slip"), new("R1", shown, isFirst, "by the log")]).Read(shown);
            Assert.False(chosen.Ambiguous);
            Assert.Empty(chosen.Candidates);
            Assert.Equal(Ms(isFirst ? first : second), chosen.UnixMilliseconds);
        }
    }

    [Fact]
    public void A_choice_holds_for_its_own_shown_time_only()
    {
        var clock = RecorderClock.Of(TimeScale.Local, Berlin, [], [new("R1", "2026-10-25T02:15:00.000", true, "by the log")]);
        Assert.True(clock.Read("2026-10-25T02:15:00.001").Ambiguous);
    }

    // A clock set to UTC - 7 h that gains 3 s a day.
    // Check 1: at 4 May 08:00:00 it showed 4 May 01:00:00, offset -25200 s.
    // Check 2: 48 h later it showed 6 May 01:00:06, offset -25200 + 6 = -25194 s.
    private static readonly RecorderTimeChecked[] Drifting =
    [
        new("R1", "2026-05-06T01:00:06.000", "2026-05-06T08:00:00.000Z", 0.5, "GPS"),
        new("R1", "2026-05-04T01:00:00.000", "2026-05-04T08:00:00.000Z", 0.25, "GPS"),
    ];

    [Fact]
    public void A_clock_seven_hours_off_drifts_evenly_between_two_checks()
    {
        // Half-way by what it shows: 86403 s of 172806 s after check 1, 5 May 01:00:03. Offset -25200 + 3 = -25197 s, so that it
        // is 01:00:03 + 6:59:57 = 08:00:00. Uncertainty (0.25 + 0.5) / 2 = 0.375 s.
        var reading = RecorderClock.Of(TimeScale.Utc, [], Drifting, []).Read("2026-05-05T01:00:03.000");

        Assert.Equal(Ms("2026-05-05T08:00:00.000Z"), reading.UnixMilliseconds);
        Assert.Equal(-25_197, reading.OffsetS, 9);
        Assert.Equal(0.375, reading.UncertaintyS!.Value, 9);
        Assert.False(reading.IsExtrapolated);
        Assert.False(reading.WasSetBetween);
        Assert.Contains("6 h 59 min 57 s behind", reading.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void At_a_check_the_reading_is_the_check()
    {
        foreach (var check in Drifting)
        {
            var reading = RecorderClock.Of(TimeScale.Utc, [], Drifting, []).Read(check.Shown);
            Assert.Equal(Ms(check.TrueUtc), reading.UnixMilliseconds);
            Assert.Equal(check.UncertaintyS!.Value, reading.UncertaintyS!.Value, 9);
            Assert.False(reading.IsExtrapolated);
        }
    }

    [Fact]
    public void Outside_the_checks_the_nearest_offset_holds_and_the_uncertainty_grows_by_20_ppm()
    {
        var clock = RecorderClock.Of(TimeScale.Utc, [], Drifting, []);

        // 10 h after check 2: 11:00:06 + 6:59:54 = 18:00:00; 36000 s of 20 ppm are 0.72 s.
        var after = clock.Read("2026-05-06T11:00:06.000");
        Assert.Equal(Ms("2026-05-06T18:00:00.000Z"), after.UnixMilliseconds);
        Assert.Equal(1.22, after.UncertaintyS!.Value, 9);
        Assert.True(after.IsExtrapolated);
        Assert.Equal(10, after.HoursBeyond, 9);

        // 5 h before check 1: 20:00 + 7 h = 03:00 on the next day; 18000 s of 20 ppm are 0.36 s.
        var before = clock.Read("2026-05-03T20:00:00.000");
        Assert.Equal(Ms("2026-05-04T03:00:00.000Z"), before.UnixMilliseconds);
        Assert.Equal(0.61, before.UncertaintyS!.Value, 9);
        Assert.True(before.IsExtrapolated);
        Assert.Equal(5, before.HoursBeyond, 9);
    }

    [Fact]
    public void One_check_gives_a_constant_offset_and_one_second_where_it_states_no_uncertainty()
    {
        var clock = RecorderClock.Of(TimeScale.Utc, [], [new("R1", "2026-05-04T08:00:02.500", "2026-05-04T08:00:00.000Z", null, null)], []);

        // 50000 s later, which adds 1 s.
        var reading = clock.Read("2026-05-04T21:53:22.500");
        Assert.Equal(Ms("2026-05-04T21:53:20.000Z"), reading.UnixMilliseconds);
        Assert.Equal(2.5, reading.OffsetS, 9);
        Assert.Equal(2, reading.UncertaintyS!.Value, 9);
    }

    [Fact]
    public void The_order_of_checks_does_not_matter()
    {
        var (one, other) = (RecorderClock.Of(TimeScale.Utc, [], Drifting, []), RecorderClock.Of(TimeScale.Utc, [], [Drifting[1], Drifting[0]], []));
        foreach (var shown in new[] { "2026-05-03T20:00:00.000", "2026-05-04T13:00:00.000", "2026-05-07T00:00:00.000" })
        {
            Assert.Equal(one.Read(shown).UnixMilliseconds, other.Read(shown).UnixMilliseconds);
        }
    }

    [Fact]
    public void A_clock_that_was_set_between_two_checks_is_as_uncertain_as_it_was_set_by()
    {
        // Seven hours behind at 08:00, right at 20:00: no drift of 12 h.
        var clock = RecorderClock.Of(TimeScale.Utc, [], [new("R1", "2026-05-04T01:00:00.000", "2026-05-04T08:00:00.000Z", 0.5, null), new("R1", "2026-05-04T20:00:00.000", "2026-05-04T20:00:00.000Z", 0.5, null)], []);

        var reading = clock.Read("2026-05-04T12:00:00.000");
        Assert.True(reading.WasSetBetween);
        Assert.Equal(25_200, reading.UncertaintyS!.Value, 9);
        Assert.Contains("7 h", reading.Sentence, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_rough_checks_soon_after_each_other_are_no_setting()
    {
        // 1 s apart within a minute, each known to 1 s.
        var clock = RecorderClock.Of(TimeScale.Utc, [], [new("R1", "2026-05-04T08:00:00.000", "2026-05-04T08:00:00.000Z", 1, null), new("R1", "2026-05-04T08:01:01.000", "2026-05-04T08:01:00.000Z", 1, null)], []);
        Assert.False(clock.Read("2026-05-04T08:00:30.000").WasSetBetween);
    }

    [Fact]
    public void A_check_in_the_hour_that_came_twice_takes_the_hour_nearer_to_the_truth()
    {
        // 02:30:00 was 00:30:00Z or 01:30:00Z; the truth is 5 s after the second: 5 s behind.
        RecorderTimeChecked check = new("R1", "2026-10-25T02:30:00.000", "2026-10-25T01:30:05.000Z", 0.5, null);
        var reading = RecorderClock.Of(TimeScale.Local, Berlin, [check], []).Read("2026-10-25T04:00:00.000");
        Assert.Equal(-5, reading.OffsetS, 9);
        Assert.Equal(Ms("2026-10-25T03:00:05.000Z"), reading.UnixMilliseconds);

        // A person who knows better is followed: 1 h 5 s behind.
        Assert.Equal(-3605, RecorderClock.Of(TimeScale.Local, Berlin, [check], [new("R1", check.Shown, true, "by the log")]).Read("2026-10-25T04:00:00.000").OffsetS, 9);
    }

    [Fact]
    public void The_two_hours_are_stated_with_the_offset_taken_off()
    {
        var clock = RecorderClock.Of(TimeScale.Local, Berlin, [new("R1", "2026-10-24T12:00:02.000", "2026-10-24T10:00:00.000Z", 0.5, null)], []);
        Assert.Equal([Ms("2026-10-25T00:29:58.000Z"), Ms("2026-10-25T01:29:58.000Z")], clock.Read("2026-10-25T02:30:00.000").Candidates);
    }

    [Fact]
    public void Checks_that_cannot_be_used_are_named_and_left_out()
    {
        var clock = RecorderClock.Of(
            TimeScale.Local, Berlin,
            [
                new("R1", "2026-02-29T12:00:00.000", "2026-03-01T12:00:00.000Z", 0.5, null), // no leap year
                new("R1", "2026-05-04T12:00:00.000", "2026-05-04", 0.5, null),
                new("R1", "2026-05-04T12:00:00.000", "2026-05-04T10:00:00.000Z", -1, null),
                new("R1", "2026-05-04T12:00:00.000", "2026-05-04T10:00:00.000Z", double.NaN, null),
                new("R1", "2026-03-29T02:30:00.000", "2026-03-29T01:30:00.000Z", 0.5, null), // skipped
            ],
            [new("R1", "02:30", true, "by the log")]);

        Assert.Equal(6, clock.Unused.Count);
        Assert.True(clock.Read("2026-05-04T12:00:00.000").IsUnchecked);
    }

    [Theory]
    [InlineData("")]
    [InlineData("2026-02-29T12:00:00.000")]
    [InlineData("2026-05-04T12:00:00.000Z")]
    [InlineData("2026-05-04 12:00:00")]
    public void What_is_no_shown_time_has_no_instant(string shown)
    {
        var reading = RecorderClock.Of(TimeScale.Utc, [], [], []).Read(shown);
        Assert.Null(reading.UnixMilliseconds);
        Assert.False(reading.Ambiguous || reading.Skipped);
    }

    [Fact]
    public void A_clock_at_the_end_of_all_days_is_still_put_in_words()
    {
        var clock = RecorderClock.Of(TimeScale.Utc, [], [new("R1", "0001-01-01T00:00:00.000", "2026-05-04T10:00:00.000Z", 0.5, null)], []);
        Assert.Contains("9999", clock.Read("9999-12-31T23:59:59.999").Sentence, StringComparison.Ordinal);
    }

    private static long Ms(string instant) => Make.On(instant).UnixMilliseconds;
}
