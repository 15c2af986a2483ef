using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// Within 90 days of a series, before or after: 14 CFR 36, A36.3.9.2, seen, 2021 edition. The series begins on 1 June 2026; 90 days before
/// is 3 March, 90 days after is 30 August (by hand: 31 - 3 + 30 + 31 + 1 = 90; 29 + 31 + 30 = 90).
/// </summary>
public sealed class AroundIntervalTests
{
    private const string Never = "never-calibrated";
    private const string Due = "due";

    private static Screens Asked() => new Screens().Limit(LimitKey.IntervalDays, 90, LimitKey.AroundFirstDay);

    [Theory]
    [InlineData("2026-03-03", true)]
    [InlineData("2026-03-02", false)]
    public void One_before_serves_as_ever(string day, bool passes)
    {
        var screens = Asked().With(day, null);

        if (passes) screens.Passes(Due);
        else screens.Finds(Due, Gravity.Stops, "valid through 2026-05-31 (profile: 90 days)", "through 2026-06-01. One made afterwards, through 2026-08-30, serves as well");
    }

    // An interval that says nothing of the first day lasts through the last one, 10 June 2026.
    [Theory]
    [InlineData(null, "2025-12-10", true)]
    [InlineData(null, "2025-12-09", false)]
    [InlineData(LimitKey.ToFirstDay, "2025-12-01", true)]
    [InlineData(LimitKey.ToFirstDay, "2025-11-30", false)]
    public void Another_interval_lasts_through_the_last_day_where_it_does_not_say_the_first(string? text, string day, bool passes) =>
        Assert.Equal(passes, new Screens().Limit(LimitKey.IntervalMonths, 6, text).With(day, null).Plan(Due).Count == 0);

    // Once it is done, what was recorded before it is served; a plan ahead knows of none and says until when one would serve.
    [Theory]
    [InlineData("2026-08-30", true)]
    [InlineData("2026-08-31", false)]
    public void One_afterwards_serves_what_was_recorded(string day, bool passes)
    {
        var old = Asked().With("2026-01-01", null).With(day, null);
        Assert.Equal(passes, old.Trace(Due).Count == 0);
        Assert.Contains("One made afterwards, through 2026-08-30, serves as well, once it is done.", Assert.Single(old.Plan(Due)).Text, StringComparison.Ordinal);

        var none = Asked().With(day, null);
        Assert.Equal(passes, none.Trace(Never).Count == 0);
        Assert.Contains("One made afterwards, through 2026-08-30", Assert.Single(none.Plan(Never)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void One_that_was_found_bad_or_annulled_serves_nothing()
    {
        var screens = Asked().With("2026-01-01", null);
        var later = screens.Certified("2026-07-01", null);
        Assert.Empty(screens.Trace(Due));

        Assert.Single(screens.Add(Make.Annulling(later)).Trace(Due));
    }

    // Without the word both ways, what is measured later serves nothing, as in profiles of earlier releases.
    [Theory]
    [InlineData(LimitKey.ToFirstDay)]
    [InlineData(null)]
    public void Without_the_word_one_afterwards_serves_nothing(string? text) =>
        Assert.Single(new Screens().Limit(LimitKey.IntervalDays, 90, text).With("2026-01-01", null).With("2026-07-01", null).Trace(Due));

    // Calendar months keep the day of the month: six before 1 June is 1 December, six after it is 1 December.
    [Theory]
    [InlineData("2025-12-01", true)]
    [InlineData("2025-11-30", false)]
    [InlineData("2026-12-01", true)]
    [InlineData("2026-12-02", false)]
    public void Months_count_both_ways_too(string day, bool passes)
    {
        var screens = new Screens().Limit(LimitKey.IntervalMonths, 6, LimitKey.AroundFirstDay).With("2020-01-01", null).With(day, null);

        Assert.Equal(passes, screens.Trace(Due).Count == 0);
    }

    // 31 August and six months is 28 February 2027; from 28 February six months back is 28 August.
    [Theory]
    [InlineData("2026-08-31", "2027-02-28", true)]
    [InlineData("2026-08-31", "2027-03-01", false)]
    [InlineData("2027-08-28", "2027-02-28", true)]
    [InlineData("2027-08-29", "2027-02-28", false)]
    public void Months_are_clamped_as_all_are(string certified, string first, bool serves)
    {
        var device = new Screens().With(certified, null).Register().Device(Screens.Screen)!;

        Assert.Equal(serves, new AroundInterval(6, false).ServedBy(device, "insertion-loss", Make.Day(first)) is not null);
    }

    [Fact]
    public void Where_no_series_is_named_it_is_due_after_its_length()
    {
        var register = Asked().With("2026-03-03", null).Register();

        Assert.Equal(Make.Day("2026-06-01"), DueDay.Of(register.Device(Screens.Screen)!, register.Profile(Tracing.Heath.Rules)));
    }
}
