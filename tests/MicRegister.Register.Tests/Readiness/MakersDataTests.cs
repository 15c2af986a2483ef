using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using static MicRegister.Register.Campaigns.CertificateLimits;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>
/// The two ways of 14 CFR 36, A36.3.9.10 (seen, 2021 edition): an intact windscreen with its maker's data, or one that was measured within
/// six months with at most 0.4 dB change in each band.
/// </summary>
public sealed class MakersDataTests
{
    private const string Never = "never-calibrated";
    private const string Due = "due";
    private const string Bands = "change-in-bands";

    // The campaign begins on 1 June 2026: six calendar months before is 1 December 2025.
    private static Screens Asked(double? months = null) => new Screens().Limit(LimitKey.IntervalMonths, 6, LimitKey.ToFirstDay)
        .Limit(ChangeInBands, 0.4).Limit(MakersData, months, months is null ? UntilDamaged : null);

    [Theory]
    [InlineData("2025-12-01", true)]
    [InlineData("2025-11-30", false)]
    public void Measured_within_six_months_serves(string day, bool passes)
    {
        var screens = Asked().With(day, Screens.Curve());

        if (passes) screens.Passes(Due);
        else screens.Finds(Due, Gravity.Stops, "valid through 2026-05-30", "Its maker's data would serve too");
    }

    [Fact]
    public void With_neither_both_ways_are_named() => Asked().Finds(Never, Gravity.Stops, "has no insertion-loss calibration", "maker's data would serve too");

    [Fact]
    public void An_intact_one_with_its_makers_data_needs_no_certificate()
    {
        Asked().Inspected("2024-05-01", Screens.Intact).Passes(Never);
        Asked().With("2023-01-01", Screens.Curve()).Inspected("2024-05-01", Screens.Intact).Passes(Due);
        Asked().With("2023-01-01", Screens.Curve()).With("2023-02-01", Screens.Curve(5)).Inspected("2024-05-01", Screens.Intact).Passes(Bands);
        Asked().With("2023-01-01", Screens.Curve()).Serviced("2023-05-01", ServiceKind.Repair, true).Inspected("2024-05-01", Screens.Intact).Passes("begun-anew");
    }

    [Fact]
    public void A_profile_that_does_not_allow_it_asks_for_the_certificate() => new Screens().Limit(LimitKey.IntervalMonths, 6, LimitKey.ToFirstDay)
        .Inspected("2026-05-01", Screens.Intact).Finds(Never, Gravity.Stops, "has no insertion-loss calibration; the profile asks for one (14 CFR 36, A36.3.9.10).");

    [Fact]
    public void Words_that_are_not_known_allow_nothing()
    {
        var screens = new Screens().Limit(LimitKey.IntervalMonths, 6, LimitKey.ToFirstDay).Limit(MakersData, null, "for ever")
            .Inspected("2026-05-01", Screens.Intact);

        screens.Finds(Never, Gravity.Stops, "has no insertion-loss calibration; the profile asks for one (14 CFR 36, A36.3.9.10).");
    }

    [Theory]
    [InlineData(true, true, null, true)]
    [InlineData(true, null, "data sheet", true)]
    [InlineData(null, true, "data sheet", true)]
    [InlineData(true, true, "data sheet", false)]
    public void Each_part_must_be_stated(bool? undamaged, bool? uncontaminated, string? data, bool passed) => Asked()
        .Inspected("2026-05-01", new(passed, null, null, null, null) { Undamaged = undamaged, Uncontaminated = uncontaminated, MakersData = data })
        .Finds(Never, Gravity.Stops, "would serve too, once an inspection finds it undamaged and uncontaminated and names them");

    [Fact]
    public void An_attached_data_sheet_is_one() =>
        Asked().Inspected("2026-05-01", Screens.Intact with { MakersData = null, Attachment = new string('a', 64) }).Passes(Never);

    [Fact]
    public void Damage_ends_it()
    {
        var damaged = Asked().Inspected("2026-05-01", Screens.Intact).Serviced("2026-05-10", ServiceKind.Damage);
        damaged.Finds(Never, Gravity.Stops, "serve no more since 2026-05-10: torn foam (damage)");

        damaged.Inspected("2026-05-11", Screens.Intact).Passes(Never);
    }

    [Fact]
    public void Damage_before_the_inspection_or_after_the_event_does_not()
    {
        Asked().Serviced("2026-04-30", ServiceKind.Damage).Inspected("2026-05-01", Screens.Intact).Passes(Never);
        Assert.Empty(Asked().Inspected("2026-05-01", Screens.Intact).Serviced("2026-06-03", ServiceKind.Damage).Trace(Never));
        Assert.Single(Asked().Inspected("2026-05-01", Screens.Intact).Serviced("2026-06-02", ServiceKind.Damage).Trace(Never));
    }

    // Days alone tell what came first, so that the day itself counts against it.
    [Fact]
    public void Damage_of_the_same_day_ends_it() => Asked().Serviced("2026-05-01", ServiceKind.Damage).Inspected("2026-05-01", Screens.Intact)
        .Finds(Never, Gravity.Stops, "serve no more since 2026-05-01");

    [Theory]
    [InlineData(ServiceKind.Maintenance, false, true)]
    [InlineData(ServiceKind.Repair, true, false)]
    [InlineData(ServiceKind.Malfunction, false, false)]
    public void Work_ends_it_where_it_makes_another_device(ServiceKind what, bool beginsAnew, bool passes)
    {
        var screens = Asked().Inspected("2026-05-01", Screens.Intact).Serviced("2026-05-10", what, beginsAnew);

        if (passes) screens.Passes(Never);
        else screens.Finds(Never, Gravity.Stops, "serve no more");
    }

    [Fact]
    public void A_later_inspection_ends_it_where_it_finds_it_amiss()
    {
        Asked().Inspected("2026-05-01", Screens.Intact)
            .Inspected("2026-05-02", new(false, null, null, null, null) { Uncontaminated = false }).Finds(Never, Gravity.Stops, "found contaminated on 2026-05-02");
        Asked().Inspected("2026-05-01", Screens.Intact).Inspected("2026-05-02", new(false, null, null, null, null)).Finds(Never, Gravity.Stops, "found failed");
        Asked().Inspected("2026-05-01", Screens.Intact).Inspected("2026-05-02", new(true, null, null, null, "seen")).Passes(Never);
    }

    [Fact]
    public void An_annulled_statement_lets_nothing_stand()
    {
        var stated = Make.Of(Screens.Intact, "2026-05-01", Subject.Device(Screens.Screen));

        Asked().Add(stated, Make.Annulling(stated)).Finds(Never, Gravity.Stops);
    }

    // Six calendar months to the last day that is asked: the flight's, 2 June.
    [Theory]
    [InlineData("2025-12-02", true)]
    [InlineData("2025-12-01", false)]
    public void The_profile_can_say_for_how_long(string day, bool passes) =>
        Assert.Equal(passes, Asked(6).Inspected(day, Screens.Intact).Trace(Never).Count == 0);

    [Fact]
    public void Months_are_counted_to_the_plans_last_day_ahead()
    {
        Assert.Empty(Asked(6).Inspected("2025-12-10", Screens.Intact).Plan(Never));
        Assert.Contains("lets its maker's data serve through 2026-06-09 only", Assert.Single(Asked(6).Inspected("2025-12-09", Screens.Intact).Plan(Never)).Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_device_without_a_campaign_is_judged_alike()
    {
        var profile = Asked().Inspected("2026-05-01", Screens.Intact).Register().Profile(Heath.Rules)!;
        DeviceState State(Screens screens) => screens.Register().Device(Screens.Screen)!;
        var book = Asked().Register().Drift(Make.Day("2026-06-01"));

        Assert.Equal(ReadinessVerdict.Ready, DeviceOnDay.Judge(book, State(Asked().Inspected("2026-05-01", Screens.Intact)), profile, Make.Day("2026-06-01")).Verdict);
        Assert.Equal(ReadinessVerdict.NotReady, DeviceOnDay.Judge(book, State(Asked()), profile, Make.Day("2026-06-01")).Verdict);
    }

    [Fact]
    public void What_was_found_damaged_cannot_pass()
    {
        var register = Asked().Register();
        Result<IReadOnlyList<Fact>> Say(DeviceInspected seen) => DeviceDecisions.Inspect(
            register, new(new(Occurred.On(Make.Day("2026-05-01")), "P1", "desk", 1), null), Screens.Screen, Make.Day("2026-05-01"), seen);

        Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(Say(Screens.Intact));
        Assert.Contains("found damaged", Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(Say(Screens.Intact with { Undamaged = false })).Why.Text, StringComparison.Ordinal);
        Assert.Contains("found contaminated", Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(Say(Screens.Intact with { Uncontaminated = false })).Why.Text, StringComparison.Ordinal);
        Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(Say(Screens.Intact with { Attachment = "abc" }));
        Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(Say(Screens.Intact with { MakersData = " " }));
    }
}
