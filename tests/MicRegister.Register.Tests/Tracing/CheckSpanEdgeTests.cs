using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>What lies at the very edge of an event, of the time between its checks, or of a limit of time.</summary>
public sealed class CheckSpanEdgeTests
{
    [Theory]
    [InlineData("06-02 10:00", "06-02 10:02", false)] // as it began and as it ended
    [InlineData("06-02 10:01", "06-02 10:02", true)]
    [InlineData("06-02 10:00", "06-02 10:01", true)]
    public void A_chain_that_stood_there_from_the_begin_to_the_end_stood_there_for_all_of_it(string placed, string takenIn, bool isPart)
    {
        var register = Heath.With(
            Heath.Placed("S1", placed), Heath.Event("E1", "06-02 10:00", "06-02 10:02"), Heath.TakenIn("S1", takenIn));

        var reasons = Heath.One(register).Reasons;
        Assert.Equal(isPart, reasons.Any(r => r.Text.StartsWith("It stood there during a part", StringComparison.Ordinal)));
    }

    [Fact]
    public void A_plate_makes_no_sound_so_a_check_may_name_it_or_leave_it_out()
    {
        var plate = Make.Registered("G1", "801", "ground-plate");
        string[] parts = [.. Heath.Chain("S1"), "G1"];
        var before = Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.11, devices: parts, on: Heath.With(plate));
        var after = Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.19);

        var trace = Heath.One(Heath.With(
            plate, Heath.Placed("S1", "06-02 06:00", parts), before, Heath.Event("E1", "06-02 10:00", "06-02 10:01"), after));

        Assert.Equal(before.Id, trace.Before?.Fact);
        Assert.Equal(after.Id, trace.After?.Fact);
    }

    [Theory]
    [InlineData("06-02 06:29", false)]
    [InlineData("06-02 06:30", true)] // at the instant of the check before
    [InlineData("06-02 08:00", true)]
    [InlineData("06-02 16:00", true)] // at that of the check after
    [InlineData("06-02 16:01", false)]
    public void Damage_from_the_check_before_to_the_check_after_lies_between_them(string at, bool isBetween)
    {
        var trace = Heath.One(Heath.With([.. Heath.Flight(), Heath.Damaged("M1", at)]));

        Assert.Equal(isBetween, trace.Reasons.Any(r => r.Text.StartsWith("Between the checks: ", StringComparison.Ordinal)));
    }

    [Theory]
    [InlineData("2026-06-02T07:00:00.000Z", -38.23)] // three hours: -38.15 - 0.02 dB/K · (27 - 23) K
    [InlineData("2026-06-02T06:59:59.999Z", -38.15)] // a millisecond more
    public void Weather_counts_up_to_three_hours_away(string at, double db)
    {
        var weather = FactText.WriteDerived(
            new(Make.On(at), "P1", "phone-1.ABCD", 5), new WeatherNoted(null, null, 27, null, null), [Subject.Campaign(Heath.C)]);

        Assert.Equal(db, Heath.One(Heath.With([Follows(), .. Flight(), weather])).Applied!.VoltsDb, 1e-6);
    }

    [Theory]
    [InlineData("06-02 08:00", "06-02 10:30")] // the later one is nearer to 10:00
    [InlineData("06-02 12:00", "06-02 09:30")] // the earlier one
    [InlineData("06-02 08:00", "06-02 09:30")]
    [InlineData("06-02 12:00", "06-02 10:30")]
    public void Of_two_notes_of_the_weather_the_nearer_one_counts(string far, string near)
    {
        var register = Heath.With([Follows(), .. Flight(), Heath.Weather(far, 27), Heath.Weather(near, 18)]);

        Assert.Equal(-38.05, Heath.One(register).Applied!.VoltsDb, 1e-6); // -38.15 - 0.02 dB/K · (18 - 23) K
    }

    [Theory]
    [InlineData(LimitKey.ToFirstDay, false)] // valid through 1 June, the campaign's first day
    [InlineData(null, true)]
    public void An_interval_to_the_first_day_has_to_last_to_that_day_alone(string? text, bool isDue)
    {
        // Three months from 1 March.
        var rules = Make.Of(
            new ProfileWritten(
                "Heath rules", "Invented.", [new(LimitKey.IntervalMonths + "microphone/sensitivity", 3, text, "invented", "own")]),
            "2026-05-01", 1, Subject.Profile(Heath.Rules));
        var register = Heath.With(rules, Heath.Placed("S1", "06-03 06:00"), Heath.Event("E1", "06-03 10:00", "06-03 10:01"));

        var reasons = Heath.One(register).Reasons;
        Assert.Equal(isDue, reasons.Any(r => r.Text.Contains("is valid through 2026-06-01 (", StringComparison.Ordinal)));
    }

    [Fact]
    public void The_day_of_an_event_is_that_of_its_campaigns_site_not_that_at_home()
    {
        // The site lies ten hours behind UTC, the home two hours ahead of it.
        var plan = Make.Of(
            new CampaignPlanned(
                "Heath", new(2026, 6, 1), new(2026, 6, 10), "Zone/Far", [new("2020-01-01T00:00:00.000Z", -600)], "Heath", 20,
                SourceClass.Propeller, 20, 10_000, null, null, Heath.Rules, 0, null),
            "2026-05-03", Subject.Campaign(Heath.C));
        var register = Heath.With(plan, Heath.Placed("S1", "06-01 06:00"), Heath.Event("E1", "06-02 05:00", "06-02 05:01"));

        Assert.Equal(new DateOnly(2026, 6, 1), Heath.One(register).Day); // 19:00 on 1 June
    }

    [Fact]
    public void A_station_that_nobody_knows_gives_no_trace_and_nothing_that_is_valid()
    {
        var trace = Tracer.Of(Heath.With(Heath.Flight()), "E1", "S9")!;

        Assert.Empty(trace.Stations);
        Assert.Equal(TraceVerdict.NotValid, trace.Verdict);
    }

    [Fact]
    public void A_part_of_a_traced_chain_is_found_by_its_kind()
    {
        var trace = Heath.One(Heath.With(Heath.Flight()));

        DeviceKind[] kinds = [DeviceKind.Microphone, DeviceKind.Preamplifier, DeviceKind.RecorderChannel];
        Assert.Equal(["M1", "P1", "R1"], kinds.Select(k => trace.Of(k)!.Id));
        Assert.Null(trace.Of(DeviceKind.Windscreen));
    }

    // The checks were made at 23 °C.
    private static Fact[] Flight() => Heath.Flight(airBefore: new(null, 23, null), airAfter: new(null, 23, null));

    // Its level falls by 0.02 dB/K.
    private static Fact Follows() =>
        Make.Of(new DeviceDescribed(Make.Details(("temperature-db-per-k", -0.02)), []), "2026-05-02", "device:M1");
}
