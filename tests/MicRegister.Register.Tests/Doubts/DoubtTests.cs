using MicRegister.Register.Calibration;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Doubts;

/// <summary>What is in doubt and what it touches. Limits are the built-in usual ones: 0.5 dB for a microphone, 0.3 dB for a calibrator.</summary>
public sealed class DoubtTests
{
    private const long DayMs = 86_400_000;

    [Fact]
    public void Out_of_tolerance_doubts_all_from_the_last_good_result_to_the_end_of_the_day_it_was_found()
    {
        var found = Make.Certificate("M1", "2026-07-01", -38.70);
        var doubt = Assert.Single(DoubtBook.OfDevice(Heath.With(found), "M1"));

        Assert.Equal((DoubtKind.OutOfTolerance, "M1", found.Id, $"OutOfTolerance:M1:{found.Id}", false), (doubt.Kind, doubt.Device, doubt.Fact, doubt.Key, doubt.IsOfChecks));
        Assert.Equal(Heath.Ms("02-28 22:00"), doubt.FromMs); // 1 March begins two hours before UTC's
        Assert.Equal(Heath.Ms("06-30 22:00") + DayMs - 1, doubt.ToMs); // 1 July ends
        Assert.Equal(0.64, doubt.GreatestDb!.Value, 1e-9); // 38.70 - 38.06
        Assert.Contains(
            "−0.640 dB from its calibration of 2026-03-01 on 2026-07-01; 0.5 dB are allowed", doubt.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_doubt_about_a_barometer_is_told_in_kilopascals()
    {
        var (first, found) = (Pressure("2026-03-01", 101.30), Pressure("2026-07-01", 102.00));
        string[] chain = [.. Heath.Chain("S1"), "B1"];
        Fact[] facts = [Make.Registered("B1", "701", "barometer"), first];
        var register = Heath.With(
            [.. facts, found, Heath.Placed("S1", "06-02 06:00", chain), Heath.Event("E1", "06-02 10:00", "06-02 10:01")]);
        var doubt = Assert.Single(DoubtBook.OfDevice(register, "B1"));

        Assert.Equal((DoubtKind.OutOfTolerance, "kPa"), (doubt.Kind, doubt.Unit));
        Assert.Equal(0.70, doubt.GreatestDb!.Value, 1e-9); // 102.00 - 101.30
        Assert.Contains(
            "+0.700 kPa from its calibration of 2026-03-01 on 2026-07-01; 0.2 kPa are allowed", doubt.Text, StringComparison.Ordinal);
        Assert.DoesNotContain("dB", doubt.Text, StringComparison.Ordinal);
        var toDo = DoubtReport.Of(register, doubt).ToDo;
        Assert.Contains(toDo, t => t.StartsWith("Weigh whether 0.700 kPa matter", StringComparison.Ordinal));
        Assert.DoesNotContain(toDo, t => t.Contains("dB", StringComparison.Ordinal));

        var withdrawn = Assert.Single(DoubtBook.OfDevice(
            Heath.With([.. facts, Make.Replacing(first, Pressure("2026-03-01", 101.60).Body)]), "B1"));
        Assert.Equal((DoubtKind.Withdrawn, "kPa"), (withdrawn.Kind, withdrawn.Unit));
        Assert.Equal(0.30, withdrawn.GreatestDb!.Value, 1e-9); // 101.60 - 101.30
        Assert.EndsWith("what counts instead lies +0.300 kPa away.", withdrawn.Text, StringComparison.Ordinal);
        // All else is in dB.
        Assert.Equal("dB", Assert.Single(DoubtBook.OfDevice(Heath.With(Make.Certificate("M1", "2026-07-01", -38.70)), "M1")).Unit);

        static Fact Pressure(string day, double kPa) => Make.Of(
            Make.Issued(kPa, quantity: "static-pressure") with
            {
                FrequencyHz = null,
                Results = [new(AdjustmentState.AsFoundAndLeft, kPa, "kPa", 0.06, "kPa", 2)],
            },
            day, "device:B1");
    }

    [Fact]
    public void The_limit_itself_passes_and_what_was_found_counts_not_what_it_was_set_to()
    {
        var adjusted = Make.Issued(0) with { Results = [new(AdjustmentState.AsFound, -38.70, "dB re 1 V/Pa", 0.06, "dB", 2), new(AdjustmentState.AsLeft, -38.06, "dB re 1 V/Pa", 0.06, "dB", 2)] };

        Assert.Empty(DoubtBook.OfDevice(Heath.With(Make.Certificate("M1", "2026-07-01", -38.56)), "M1"));
        Assert.Equal(0.64, Assert.Single(DoubtBook.OfDevice(Heath.With(Make.Of(adjusted, "2026-07-01", "device:M1")), "M1")).GreatestDb!.Value, 1e-9);
    }

    [Fact]
    public void An_accepted_check_after_an_event_rescues_it_and_the_event_after_that_is_held_back()
    {
        var flight = Heath.Flight();
        Fact[] facts = [.. flight, Heath.Event("E2", "06-03 10:00", "06-03 10:01"), Make.Certificate("M1", "2026-07-01", -38.70)];
        var register = Heath.With(facts);
        var report = DoubtReport.Of(register, Assert.Single(DoubtBook.All(register)));

        Assert.Equal([("E1", true), ("E2", false)], report.Touched.Select(t => (t.Event.Id, t.IsRescued)));
        Assert.Equal(new TouchedStation("S1", flight[3].Id.ToString()), Assert.Single(report.Touched[0].Stations));
        Assert.Equal("E2", Assert.Single(report.Open).Event.Id);
        Assert.Equal("Hold back the results of 1 event until they are decided (ISO/IEC 17025:2017, 7.10.1 a and b).", report.ToDo[0]);
        Assert.StartsWith("Weigh whether 0.640 dB matter", report.ToDo[1], StringComparison.Ordinal);
        Assert.Contains("1 of 2 events are rescued by a check; nothing is to be done for them.", report.ToDo);
        Assert.Equal(TraceVerdict.Valid, Heath.One(register).Verdict);
        Assert.Contains(Heath.One(register, "E2").Reasons, r => r.Source == $"fact {facts[^1].Id}" && r.Weight == TraceVerdict.Doubtful);
    }

    [Fact]
    public void A_check_that_is_rejected_rescues_nothing()
    {
        var register = Heath.With([.. Heath.Flight(-38.16, -38.60), Make.Certificate("M1", "2026-07-01", -38.70)]);

        Assert.Equal("E1", Assert.Single(DoubtReport.Of(register, Assert.Single(DoubtBook.All(register))).Open).Event.Id);
        Assert.Contains(Heath.One(register).Reasons, r => r.Text.Contains("−0.640 dB", StringComparison.Ordinal));
    }

    [Fact]
    public void A_calibrator_that_stepped_touches_what_it_checked_and_a_second_one_rescues()
    {
        Fact[] facts =
        [
            .. Heath.Flight(),
            // The second calibrator finds the chain 0.25 dB lower: nearer to the step of 0.40 dB than to none.
            .. Day("E2", "06-03", "K1", "K2", -38.41),
            .. Day("E3", "06-04", "K2", "K2", -38.16),
            Make.Of(Make.Issued(94.40, 0.1, "level", "dB"), "2026-07-01", "device:K1"),
        ];
        var register = Heath.With(facts);
        var doubt = Assert.Single(DoubtBook.All(register));
        var report = DoubtReport.Of(register, doubt);

        Assert.True(doubt.IsOfChecks);
        Assert.Equal(0.40, doubt.GreatestDb!.Value, 1e-9);
        Assert.Equal(3, report.Checks);
        Assert.Equal(["E1 -", $"E2 {facts[6].Id}"], report.Touched.Select(t => $"{t.Event.Id} {Assert.Single(t.Stations).Rescue ?? "-"}"));
        Assert.Equal(TraceVerdict.Doubtful, Heath.One(register).Verdict);
        Assert.Equal(doubt.Text, Assert.Single(Heath.One(register).Reasons).Text);
        Assert.Equal((TraceVerdict.Valid, TraceVerdict.Valid), (Heath.One(register, "E2").Verdict, Heath.One(register, "E3").Verdict));
        Assert.Contains(Heath.One(register, "E2").Reasons, r => r.Weight == TraceVerdict.Valid && r.Source == $"fact {doubt.Fact}, rescued by fact {facts[6].Id}"
            && r.Text.EndsWith("Rescued by the check of 2026-06-03 16:00 UTC with Sound calibrator Model 502, made by P1.", StringComparison.Ordinal));
        static Fact[] Day(string id, string day, string before, string after, double afterDb) =>
            [Heath.Checked("S1", day + " 06:30", CheckMoment.Before, -38.16, before), Heath.Event(id, day + " 10:00", day + " 10:01"), Heath.Checked("S1", day + " 16:00", CheckMoment.After, afterDb, after)];
    }

    [Fact]
    public void Trace_and_report_agree_on_an_event_after_a_check_that_was_made_in_doubt()
    {
        // The calibrator fell at noon, after the morning's check; the afternoon rests on that check.
        Fact[] facts = [Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16), Heath.Damaged("K1", "06-02 12:00", "fell"), Heath.Event("E1", "06-02 13:00", "06-02 13:01")];
        var register = Heath.With(facts);

        Assert.Equal("E1", Assert.Single(DoubtReport.Of(register, Assert.Single(DoubtBook.All(register))).Open).Event.Id);
        Assert.Contains(Heath.One(register).Reasons, r => r.Source == $"fact {facts[2].Id}");
    }

    [Fact]
    public void An_annulled_certificate_is_withdrawn_until_the_next_one()
    {
        var annulled = Make.Annulling(Heath.FirstMicrophone);
        var open = Assert.Single(DoubtBook.OfDevice(Heath.With(annulled), "M1"));
        var ended = Assert.Single(DoubtBook.OfDevice(Heath.With(annulled, Make.Certificate("M1", "2026-07-01", -38.06)), "M1"));

        Assert.Equal((DoubtKind.Withdrawn, Heath.FirstMicrophone.Id, Heath.Ms("02-28 22:00"), long.MaxValue), (open.Kind, open.Fact, open.FromMs, open.ToMs));
        Assert.Null(open.GreatestDb);
        Assert.EndsWith("does not count any more; nothing stands in its place.", open.Text, StringComparison.Ordinal);
        Assert.Equal(Heath.Ms("06-30 22:00") - 1, ended.ToMs);
    }

    [Fact]
    public void A_certificate_that_is_stated_anew_is_in_doubt_only_where_its_figure_changed()
    {
        var annulled = Make.Annulling(Heath.FirstMicrophone);
        Fact Anew(double db) => Make.Of(Make.Issued(db), "2026-03-01", 1, "device:M1");

        Assert.Empty(DoubtBook.OfDevice(Heath.With(annulled, Anew(-38.06)), "M1"));
        Assert.Equal(0.10, Assert.Single(DoubtBook.OfDevice(Heath.With(annulled, Anew(-38.16)), "M1")).GreatestDb!.Value, 1e-9);
        Assert.Equal(0.10, Assert.Single(DoubtBook.OfDevice(Heath.With(Make.Replacing(Heath.FirstMicrophone, Make.Issued(-37.96))), "M1")).GreatestDb!.Value, 1e-9);
    }

    [Fact]
    public void Nobody_knows_by_how_much_a_withdrawn_certificate_is_wrong()
    {
        var register = Heath.With(Heath.Placed("S1", "06-02 06:00"), Heath.Event("E1", "06-02 10:00", "06-02 10:01"), Make.Annulling(Heath.FirstMicrophone));

        Assert.Contains(DoubtReport.Of(register, Assert.Single(DoubtBook.All(register))).ToDo, t => t.StartsWith("Nobody knows by how much they are wrong", StringComparison.Ordinal));
    }

    [Fact]
    public void Damage_is_doubted_from_the_last_good_check_to_when_it_was_reported()
    {
        Fact[] facts = [.. Heath.Flight(), Heath.Event("E2", "06-03 10:00", "06-03 10:01"), Heath.Damaged("M1", "06-03 12:00")];
        var register = Heath.With(facts);
        var doubt = Assert.Single(DoubtBook.All(register));

        Assert.Equal((DoubtKind.Reported, Heath.Ms("06-02 16:00"), Heath.Ms("06-03 12:00")), (doubt.Kind, doubt.FromMs, doubt.ToMs));
        Assert.Equal("E2", Assert.Single(DoubtReport.Of(register, doubt).Touched).Event.Id);
        Assert.Equal(TraceVerdict.Valid, Heath.One(register).Verdict);
        // A rejected check is no good one, and without any it goes back to the certificate.
        Assert.Equal(Heath.Ms("06-02 06:30"), Assert.Single(DoubtBook.All(Heath.With([.. Heath.Flight(-38.16, -38.60), facts[^1]]))).FromMs);
        Assert.Equal(Heath.Ms("02-28 22:00"), Assert.Single(DoubtBook.All(Heath.With(facts[^1]))).FromMs);
    }

    [Fact]
    public void What_a_person_cleared_leaves_the_trace_and_what_they_confirmed_makes_it_not_valid()
    {
        var damage = Heath.Damaged("M1", "06-03 12:00");
        Fact[] facts = [Heath.Placed("S1", "06-03 06:00"), Heath.Checked("S1", "06-03 06:30", CheckMoment.Before, -38.16), Heath.Event("E1", "06-03 10:00", "06-03 10:01"), damage];
        var register = Heath.With(facts);
        var key = $"Reported:M1:{damage.Id}";
        Fact Settled(Register on, int counter, bool isConfirmed, params string[] events) =>
            Assert.Single(Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(DoubtBook.Settle(on, new(new(Heath.At("07-01 08:00"), "P1", "desk", counter)), key, isConfirmed, events, " looked at it ")).Value);
        var (cleared, confirmed) = (Settled(register, 1, false, "E1"), Settled(register, 2, true));

        Assert.Contains(Heath.One(register).Reasons, r => r.Source == $"fact {damage.Id}" && r.Weight == TraceVerdict.Doubtful);

        var clear = Heath.With([.. facts, cleared]);
        Assert.Equal(["device:M1", "event:E1"], cleared.Subjects);
        var said = Assert.Single(Heath.One(clear).Reasons, r => r.Source == $"fact {damage.Id}, settled by fact {cleared.Id}");
        Assert.Equal(TraceVerdict.Valid, said.Weight);
        Assert.EndsWith("Cleared by P1 on 2026-07-01: looked at it", said.Text, StringComparison.Ordinal);
        Assert.Empty(DoubtReport.Of(clear, DoubtBook.Find(clear, key)!).Open);
        Assert.DoesNotContain(DoubtReport.Of(clear, DoubtBook.Find(clear, key)!).ToDo, t => t.StartsWith("Hold back", StringComparison.Ordinal));

        // The last word counts; one that names no events speaks of all.
        var confirm = Heath.With([.. facts, confirmed, cleared]);
        Assert.Equal(TraceVerdict.NotValid, Heath.One(confirm).Verdict);
        Assert.Contains(Heath.One(confirm).Reasons, r => r.Weight == TraceVerdict.NotValid && r.Text.EndsWith("Confirmed by P1 on 2026-07-01: looked at it", StringComparison.Ordinal));
        Assert.Single(DoubtReport.Of(confirm, DoubtBook.Find(confirm, key)!).Open);
    }

    [Fact]
    public void A_doubt_or_an_event_that_is_not_there_cannot_be_settled()
    {
        var damage = Heath.Damaged("M1", "06-03 12:00");
        var (register, saying) = (Heath.With(damage), new Saying(new(Heath.At("07-01 08:00"), "P1", "desk", 1)));
        RejectionSort Why(string key, string[] events, string reason) => Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(DoubtBook.Settle(register, saying, key, false, events, reason)).Why.Sort;

        Assert.Equal(RejectionSort.NotFound, Why("Reported:M1:01JD8XK3ZZ0000000000000000", [], "why"));
        Assert.Equal(RejectionSort.NotFound, Why($"Reported:M1:{damage.Id}", ["E9"], "why"));
        Assert.Equal(RejectionSort.Invalid, Why($"Reported:M1:{damage.Id}", [], " "));
    }

    [Fact]
    public void A_doubt_that_touches_nothing_says_so()
    {
        var register = Heath.With(Heath.Damaged("P1", "06-03 12:00"), Make.Of(new DeviceServiced(ServiceKind.Maintenance, "cleaned", false), "2026-06-04", "device:P2"));
        var report = DoubtReport.Of(register, Assert.Single(DoubtBook.All(register)));

        Assert.Empty(report.Touched);
        Assert.StartsWith("No event lies in that time", report.ToDo[0], StringComparison.Ordinal);
    }

    [Fact]
    public void A_reference_standard_that_moved_reaches_the_events_through_what_was_measured_against_it()
    {
        // Found 0.6 dB off on 1 May; both calibrators were measured against it in January, and S1 was checked with the first.
        var found = Make.Of(Make.Issued(-38.90, 0.04) with { Laboratory = "National laboratory" }, "2026-05-01", "device:REF");
        var flight = Heath.Flight();
        var register = Heath.With([.. flight, found]);
        var doubt = Assert.Single(DoubtBook.All(register));
        Assert.Equal(("REF", false), (doubt.Device, doubt.IsOfChecks));

        var report = DoubtReport.Of(register, doubt);
        Assert.Equal(("E1", "S1", null), (Assert.Single(report.Touched).Event.Id, report.Touched[0].Stations[0].Station, report.Touched[0].Stations[0].Rescue));
        Assert.Equal(2, report.Checks);
        var reason = Assert.Single(Heath.One(register).Reasons);
        Assert.Equal((TraceVerdict.Doubtful, $"fact {found.Id}"), (reason.Weight, reason.Source));
        Assert.EndsWith("The level certificate of 2026-01-05 of Sound calibrator Model 501 rests on it.", reason.Text, StringComparison.Ordinal);

        // A check with the second calibrator is no rescue: it rests on the same reference. One that was measured anew afterwards is.
        Fact anew = Make.Of(Make.Issued(94.10, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-05-20", "device:K2"), second = Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.19, "K2", on: Heath.With(anew));
        Assert.Null(Assert.Single(DoubtReport.Of(Heath.With(flight[0], flight[1], flight[2], Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.19, "K2"), found), doubt).Touched).Stations[0].Rescue);
        Assert.Equal(second.Id.ToString(), Assert.Single(DoubtReport.Of(Heath.With(flight[0], flight[1], flight[2], anew, second, found), doubt).Touched).Stations[0].Rescue);
        // What was measured against it before the last good result, or after it was found, rests on it as it was known.
        var later = Make.Of(Make.Issued(94.00, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-05-10", "device:K1");
        Assert.Empty(DoubtReport.Of(Heath.With([.. flight, found, later]), doubt).Touched);
    }

    [Fact]
    public void References_in_a_circle_end()
    {
        var circle = Make.Of(Make.Issued(-38.30, 0.04) with { ReferenceDevice = "K1" }, "2026-01-02", "device:REF");
        var register = Heath.With([.. Heath.Flight(), circle, Make.Of(Make.Issued(94.9, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-04-01", "device:K1")]);

        Assert.NotEmpty(DoubtBook.All(register).Select(d => DoubtReport.Of(register, d)));
        Assert.NotNull(Tracer.Of(register, "E1"));
    }
}
