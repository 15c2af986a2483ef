using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Where a doubt ends: what lies at its very edge, what rests on it over certificates, and what a report says of it.</summary>
public sealed class DoubtEdgeTests
{
    [Theory]
    [InlineData("06-02 10:19", "06-02 10:39", "S1")]
    [InlineData("06-02 10:20", "06-02 10:39", "S1")] // it stood at S1 until then
    [InlineData("06-02 10:21", "06-02 10:39", "")]
    [InlineData("06-02 10:21", "06-02 10:40", "S2")] // it stands at S2 from then on
    [InlineData("06-02 10:20", "06-02 10:40", "S1 S2")]
    public void A_chain_is_touched_where_it_stood_during_the_doubt_and_both_ends_count(string from, string to, string stations)
    {
        // The event goes on all the while.
        var register = Heath.With(
            Heath.Placed("S1", "06-02 06:00"), Heath.Event("E1", "06-02 10:00", "06-02 11:00"), Heath.TakenIn("S1", "06-02 10:20"),
            Heath.Placed("S2", "06-02 10:40", Heath.Chain("S1")));

        var touched = DoubtReport.Of(register, Doubted("M1", Heath.Ms(from), Heath.Ms(to))).Touched;

        Assert.Equal(stations, string.Join(' ', touched.SelectMany(t => t.Stations).Select(s => s.Station)));
    }

    [Fact]
    public void An_event_during_which_the_device_in_doubt_stood_nowhere_is_not_touched()
    {
        var register = Heath.With(
            Heath.Event("E0", "06-02 05:00", "06-02 05:01"), Heath.Placed("S1", "06-02 06:00"),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"));

        var touched = DoubtReport.Of(register, Doubted("M1", Heath.Ms("06-02 00:00"), Heath.Ms("06-02 23:00"))).Touched;

        Assert.Equal("E1", Assert.Single(touched).Event.Id);
    }

    [Theory]
    [InlineData("05-29 12:00", "05-30 22:00", "05-30 22:00", "05-31 10:00")] // 1 June begins there on 31 May at 22:00 UTC
    [InlineData("06-11 22:00", "06-12 12:00", "06-11 22:00", "06-12 10:00")] // 10 June ends there at 22:00 UTC
    public void A_campaign_ran_from_a_day_before_its_first_to_a_day_after_its_last_and_both_ends_count(
        string from, string to, string check, string @event)
    {
        // The doubt and the campaign meet in the one instant of the check, twelve hours and one local day from the event.
        var register = Heath.With(
            Heath.Placed("S1", "05-29 06:00"), Heath.Checked("S1", check, CheckMoment.Before, -38.16), Heath.Event("E1", @event, @event));

        var report = DoubtReport.Of(register, Doubted("K1", Heath.Ms(from), Heath.Ms(to), isOfChecks: true));

        Assert.Equal(1, report.Checks);
        Assert.Equal("E1", Assert.Single(report.Touched).Event.Id);
    }

    [Theory]
    [InlineData("06-02 10:00", "06-02 10:01", false)] // over when it was placed
    [InlineData("06-02 10:00", "06-02 10:02", true)]
    [InlineData("06-02 10:01", "06-02 10:01", true)] // without a length it is as long as a millisecond
    public void A_chain_that_was_placed_as_an_event_ended_has_no_part_in_it(string from, string to, bool hasPart)
    {
        var register = Heath.With(
            Heath.Event("E1", from, to), Heath.Placed("S1", "06-02 10:01"), Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.16));

        var touched = DoubtReport.Of(register, Doubted("K1", Heath.Ms("06-02 00:00"), Heath.Ms("06-02 23:00"), isOfChecks: true)).Touched;

        Assert.Equal(hasPart ? 1 : 0, touched.Count);
        Assert.Equal(hasPart, Heath.One(register).Placement is not null);
    }

    [Theory]
    [InlineData("K1", "K2", "after")]
    [InlineData("K2", "K1", "before")]
    [InlineData("K1", "K1", "")]
    public void Checks_of_a_bare_day_are_in_doubt_and_rescue_by_their_moment(string before, string after, string rescue)
    {
        var first = Heath.Checked("S1", "06-02", CheckMoment.Before, -38.16, before);
        var last = Heath.Checked("S1", "06-02", CheckMoment.After, -38.16, after);
        // That of another day says nothing of the event.
        var next = Heath.Checked("S1", "06-03", CheckMoment.After, -38.16, "K2");
        var register = Heath.With(Heath.Placed("S1", "06-02 06:00"), first, last, next, Heath.Event("E1", "06-02 10:00", "06-02 10:01"));

        var touched = DoubtReport.Of(register, Doubted("K1", Heath.Ms("06-01 00:00"), Heath.Ms("06-03 00:00"), isOfChecks: true)).Touched;

        string? expected = rescue switch { "before" => first.Id.ToString(), "after" => last.Id.ToString(), _ => null };
        Assert.Equal(new TouchedStation("S1", expected), Assert.Single(Assert.Single(touched).Stations));
    }

    [Fact]
    public void Stations_that_a_calibrator_touches_come_by_name_whichever_was_checked_first()
    {
        var register = Heath.With(
            Heath.Placed("S2", "06-02 06:00"), Heath.Placed("S1", "06-02 06:01"),
            Heath.Checked("S2", "06-02 06:20", CheckMoment.Before, -38.16), Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"));

        var touched = DoubtReport.Of(register, Doubted("K1", Heath.Ms("06-02 00:00"), Heath.Ms("06-02 23:00"), isOfChecks: true)).Touched;

        Assert.Equal(["S1", "S2"], Assert.Single(touched).Stations.Select(s => s.Station));
    }

    [Fact]
    public void A_doubt_without_an_end_touches_events_also_where_checks_count_for_a_millisecond_alone()
    {
        // An hour and a half parted by 3 600 000: a check has to lie within 1.5 ms, cut down to 1 ms.
        var register = Heath.With(
            Heath.Written((LimitKey.CheckSpanHours, 1.5 / 3_600_000)), Heath.Placed("S1", "06-02 06:00"),
            Heath.Checked("S1", "06-02 10:00", CheckMoment.Before, -38.16), Heath.Event("E1", "06-02 10:00", "06-02 10:01"));

        var touched = DoubtReport.Of(register, Doubted("K1", Heath.Ms("06-02 00:00"), long.MaxValue, isOfChecks: true)).Touched;

        Assert.Equal("E1", Assert.Single(touched).Event.Id);
    }

    [Fact]
    public void Where_a_check_rescues_all_that_is_touched_nothing_is_to_be_held_back_or_weighed()
    {
        // 0.64 dB off on 1 July; the check after the event was good.
        var register = Heath.With([.. Heath.Flight(), Make.Certificate("M1", "2026-07-01", -38.70)]);

        Assert.Equal(
        [
            "1 of 1 events are rescued by a check; nothing is to be done for them.",
            "Keep Microphone Model 101 out of use until its cause is known (6.4.9), and keep this report (7.10.2).",
        ], DoubtReport.Of(register, Assert.Single(DoubtBook.All(register))).ToDo);
    }

    [Fact]
    public void A_station_that_a_doubt_comes_to_in_two_ways_is_told_once_and_a_check_has_to_rescue_it_from_both()
    {
        // Microphone and calibrators were measured against a reference that was 0.6 dB off on 1 May, the second calibrator anew later.
        var own = Make.Of(Make.Issued(-38.06) with { ReferenceDevice = "REF" }, "2026-04-01", "device:M1");
        var anew = Make.Of(Make.Issued(94.10, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-05-20", "device:K2");
        var found = Make.Of(Make.Issued(-38.90, 0.04), "2026-05-01", "device:REF");
        var flight = Heath.Flight();
        var second = Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.19, "K2", on: Heath.With(anew));
        TouchedStation Touched(Fact after)
        {
            var register = Heath.With(own, anew, found, flight[0], flight[1], flight[2], after);
            var report = DoubtReport.Of(register, Assert.Single(DoubtBook.OfDevice(register, "REF")));
            return Assert.Single(Assert.Single(report.Touched).Stations);
        }

        Assert.Equal(new TouchedStation("S1", second.Id.ToString()), Touched(second));
        Assert.Equal(new TouchedStation("S1", null), Touched(flight[3])); // with the first calibrator again
    }

    [Theory]
    [InlineData(10, true)]
    [InlineData(11, false)]
    public void A_doubt_reaches_over_ten_certificates_and_no_more(int steps, bool reaches)
    {
        // T0 was measured against T1, that against T2, and so on; the last one was damaged.
        var register = Heath.With(
        [
            .. Enumerable.Range(0, steps + 1).Select(i => Make.Registered("T" + i, "7" + i)),
            .. Enumerable.Range(0, steps).Select(i => Make.Of(
                Make.Issued(-38.30) with { ReferenceDevice = "T" + (i + 1) }, "2026-02-01", "device:T" + i)),
            Heath.Damaged("T" + steps, "06-02 12:00"),
        ]);
        var doubt = Assert.Single(DoubtBook.OfDevice(register, "T" + steps));

        (string, int)[] expected = reaches ? [(doubt.Key, 10)] : [];
        Assert.Equal(expected, DoubtReach.Of(register, "T0", register.Device("T0"), null).Select(r => (r.Doubt.Key, r.Through.Count)));
        Assert.Equal(reaches, DoubtReach.From(register, doubt).Any(r => r.Doubt.Device == "T0"));
    }

    [Fact]
    public void A_certificate_that_names_its_own_device_as_reference_tells_no_doubt_twice()
    {
        var own = Make.Of(Make.Issued(-38.06) with { ReferenceDevice = "M1" }, "2026-04-01", "device:M1");
        var register = Heath.With(own, Heath.Damaged("M1", "06-02 12:00"));

        Assert.Empty(Assert.Single(DoubtReach.Of(register, "M1", register.Device("M1"), null)).Through);
        Assert.Single(DoubtReach.From(register, Assert.Single(DoubtBook.OfDevice(register, "M1"))));
    }

    [Fact]
    public void What_rests_on_a_reference_in_doubt_is_in_doubt_itself_until_the_last_millisecond_before_its_next_certificate()
    {
        var next = Make.Of(Make.Issued(94.00, 0.1, "level", "dB"), "2026-05-10", "device:K1");
        var register = Heath.With(next, Heath.Damaged("REF", "06-02 12:00"));

        var reached = DoubtReach.From(register, Assert.Single(DoubtBook.OfDevice(register, "REF")));

        // 5 January and 10 May begin two hours before UTC's; the second calibrator has no certificate after that of 6 January.
        (string, long, long)[] expected =
            [("K1", Heath.Ms("01-04 22:00"), Heath.Ms("05-09 22:00") - 1), ("K2", Heath.Ms("01-05 22:00"), long.MaxValue)];
        Assert.Equal(
            expected, reached.Skip(1).OrderBy(r => r.Doubt.Device, StringComparer.Ordinal)
                .Select(r => (r.Doubt.Device, r.Doubt.FromMs, r.Doubt.ToMs)));
    }

    private static Doubt Doubted(string device, long fromMs, long toMs, bool isOfChecks = false) =>
        new("Reported:" + device, DoubtKind.Reported, device, default, fromMs, toMs, null, "as stated here", isOfChecks, []);
}
