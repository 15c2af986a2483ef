using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Checks;

/// <summary>Checks cite what they were worked out from, and are worked out again by what is in force now.</summary>
public sealed class CheckReworkTests
{
    // Entered after the flight, of a day before it: 0.07 dB above that of January.
    private static readonly Fact Late = Make.Of(Make.Issued(94.07, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-05-20", "device:K1");

    private static readonly Fact[] Flight = Heath.Flight();

    private static Saying Desk => new(new(Heath.At("07-01 08:00"), "P7", "desk", 9));

    [Fact]
    public void A_late_certificate_is_named_beside_the_one_that_the_figure_rests_on()
    {
        var (before, after) = (Heath.One(Heath.With(Flight)), Heath.One(Heath.With([.. Flight, Late])));

        Assert.Equal(before.Applied!.VoltsDb, after.Applied!.VoltsDb);
        var link = Assert.Single(after.Links, l => l.Device.Id == "K1");
        Assert.Equal((Heath.FirstCalibrator.Id, Late.Id), (link.Certificate!.Fact, link.InForce!.Fact));
        Assert.Equal(0.07, link.DifferenceDb!.Value, 1e-9);
        Assert.Equal(TraceVerdict.Doubtful, after.Verdict);
        Assert.Equal(2, after.Reasons.Count(r => r.Text.EndsWith("says +0.070 dB. Work the check out again.", StringComparison.Ordinal)));
        Assert.Contains(after.Reasons, r => r.Source == $"facts {Flight[1].Id}, {Late.Id}");
        Assert.Null(Assert.Single(before.Links, l => l.Device.Id == "K1").InForce);
    }

    [Fact]
    public void Worked_out_again_the_checks_rest_on_the_certificate_in_force_and_move_by_its_difference()
    {
        var register = Heath.With([.. Flight, Late]);
        var reworked = CheckRework.Of(register, CheckBook.OfCampaign(register, Heath.C));
        Assert.Equal(2, reworked.Count);
        // A louder calibrator: the chain is less sensitive by as much.
        Assert.All(reworked, r => Assert.Equal((0.07, -0.07), (Math.Round(r.CalibratorChangeDb!.Value, 6), Math.Round(r.ChangeDb!.Value, 6))));

        var facts = Accepted(CheckRework.State(register, Desk, [.. reworked.Select(r => r.Record.Fact.ToString())]));
        Assert.Equal([Flight[1].Id, Flight[3].Id], facts.Select(f => f.Replaces!.Value));
        Assert.All(facts.Zip([Flight[1], Flight[3]]), f => Assert.Equal((f.Second.Occurred, f.Second.Author), (f.First.Occurred, ((ChainChecked)f.First.Body).MadeBy)));

        var now = Heath.With([.. Flight, Late, .. facts]);
        var trace = Heath.One(now);
        Assert.Equal(TraceVerdict.Valid, trace.Verdict);
        Assert.Equal(Heath.One(register).Applied!.VoltsDb - 0.07, trace.Applied!.VoltsDb, 1e-6);
        Assert.Equal(Late.Id, Assert.Single(trace.Links, l => l.Device.Id == "K1").Certificate!.Fact);
        Assert.Empty(CheckRework.Of(now, CheckBook.OfCampaign(now, Heath.C)));
        Assert.Equal("P1", trace.Before!.Author);
        // Nothing but the certificate was changed.
        var (old, anew) = ((ChainChecked)Flight[1].Body, (ChainChecked)facts[0].Body);
        Assert.Equal((old.Readings, old.ExpandedDb, old.RangeV, old.Station, old.Moment), (anew.Readings, anew.ExpandedDb, anew.RangeV, anew.Station, anew.Moment));
    }

    [Fact]
    public void A_certificate_that_was_withdrawn_and_stated_anew_leaves_no_doubt_once_the_checks_are_worked_out_again()
    {
        var anew = Make.Replacing(Heath.FirstCalibrator, Make.Issued(94.07, 0.1, "level", "dB") with { ReferenceDevice = "REF" });
        var register = Heath.With([.. Flight, anew]);
        Assert.Contains(Heath.One(register).Reasons, r => r.Text.Contains("does not count any more", StringComparison.Ordinal));

        var facts = Accepted(CheckRework.State(register, Desk, [Flight[1].Id.ToString(), Flight[3].Id.ToString()]));
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. Flight, anew, .. facts])).Verdict);
    }

    [Fact]
    public void A_check_that_was_held_against_a_certificate_of_the_microphone_in_force_no_longer_says_so()
    {
        var late = Make.Certificate("M1", "2026-05-20", -38.30);
        var reasons = Heath.One(Heath.With([.. Flight, late])).Reasons;

        Assert.Equal(2, reasons.Count(r => r.Text.Contains("is held against a certificate of Microphone Model 101 that is in force no longer, that of 2026-03-01; the one in force, of 2026-05-20, says −0.240 dB", StringComparison.Ordinal)));
    }

    [Fact]
    public void What_rests_on_the_certificates_in_force_or_is_no_check_is_not_worked_out_again()
    {
        var register = Heath.With([.. Flight, Late, Heath.Checked("S2", "06-02 06:30", CheckMoment.Before, -38.16, on: Heath.With(Late))]);
        string id = CheckBook.OfCampaign(register, Heath.C).Single(k => k.Check.Station == "S2").Fact.ToString();

        Assert.Equal(RejectionSort.Conflict, Rejected(id).Sort);
        Assert.Equal(RejectionSort.NotFound, Rejected(Late.Id.ToString()).Sort);
        Assert.Equal(RejectionSort.Invalid, Rejected(Flight[1].Id.ToString(), Flight[1].Id.ToString()).Sort);
        Assert.Equal(RejectionSort.Invalid, Rejected().Sort);
        // All or none: one that cannot be changed keeps the others as they are.
        Assert.Equal(RejectionSort.Conflict, Rejected(Flight[1].Id.ToString(), id).Sort);

        Rejection Rejected(params string[] ids) => Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(CheckRework.State(register, Desk, ids)).Why;
    }

    [Fact]
    public void One_of_two_certificates_of_a_day_is_in_force_alike_for_plan_trace_and_forecast_until_a_person_chooses()
    {
        Fact[] both = [Make.Of(Make.Issued(-38.20), "2026-05-20", 1, "device:M1"), Make.Of(Make.Issued(-38.40), "2026-05-20", 2, "device:M1")];
        var (last, first) = both[0].Id > both[1].Id ? (both[0], both[1]) : (both[1], both[0]);
        Fact[] facts = [Heath.Placed("S1", "06-02 06:00"), Heath.Event("E1", "06-02 10:00", "06-02 10:01"), Heath.Chosen(SensitivityRule.Certificate), .. both];
        Same(last, facts, isOpen: true);
        var choice = Make.Of(new CertificateChosen(first.Id.ToString(), "the other was a trial"), "2026-05-21", "device:M1");
        Same(first, [.. facts, choice], isOpen: false);
        // The last word counts, and taking it back leaves the one before.
        var again = Make.Of(new CertificateChosen(last.Id.ToString(), "no, that one"), "2026-05-22", "device:M1");
        Same(last, [.. facts, choice, again], isOpen: false);
        Same(first, [.. facts, choice, again, Make.Annulling(again)], isOpen: false);

        static void Same(Fact expected, Fact[] facts, bool isOpen)
        {
            var register = Heath.With(facts);
            var device = register.Device("M1")!;
            var levelDb = ((CertificateIssued)expected.Body).Results[0].Value;
            Assert.Equal(expected.Id, CalibrationSeries.Newest(device, "sensitivity")!.Fact);
            Assert.Equal(levelDb, CalibrationSeries.Of(device, "sensitivity")!.InUseDb, 1e-12);
            Assert.Equal(levelDb, CalibrationSeries.Of(device, "sensitivity")!.Current.Newest.LevelDb, 1e-12);
            var trace = Heath.One(register);
            Assert.Equal(levelDb, trace.Applied!.Terms[0].ValueDb, 1e-12);
            Assert.Equal(isOpen, trace.Reasons.Any(r => r.Text.Contains("has two sensitivity certificates of 2026-05-20", StringComparison.Ordinal)));
            Assert.Equal(isOpen, ReadinessRules.Find("one-day-twice")!.AskDevice!(new(device, null, new(2026, 6, 1), new(2026, 6, 2))).Any());
        }
    }

    [Fact]
    public void Only_a_certificate_that_counts_can_be_chosen()
    {
        var gone = Make.Certificate("M1", "2026-04-01", -38.20);
        var register = Heath.With(gone, Make.Annulling(gone));
        RejectionSort Why(string device, string certificate, string reason) => Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(CalibrationDecisions.Choose(register, Desk, device, certificate, reason)).Why.Sort;

        Assert.Equal(RejectionSort.NotFound, Why("M7", gone.Id.ToString(), "why"));
        Assert.Equal(RejectionSort.NotFound, Why("M1", Heath.FirstCalibrator.Id.ToString(), "why"));
        Assert.Equal(RejectionSort.Conflict, Why("M1", gone.Id.ToString(), "why"));
        Assert.Equal(RejectionSort.Invalid, Why("M1", Heath.FirstMicrophone.Id.ToString(), " "));
    }

    [Fact]
    public void The_usable_band_ends_where_windscreen_and_profile_do()
    {
        string[] chain = [.. Heath.Chain("S1"), "W1"];
        var screen = Make.Registered("W1", "701", "windscreen", ("lowest-hz", 30), ("highest-hz", 9000));
        Fact[] facts = [screen, Heath.Placed("S1", "06-02 06:00", chain), .. Flight[1..]];
        var applied = Heath.One(Heath.With(facts)).Applied!;
        Assert.Equal((30, 9000, null), (applied.UsableFromHz, applied.UsableToHz, applied.Caution));

        applied = Heath.One(Heath.With([.. facts, Heath.Written((LimitKey.BandFromHz, 44.7), (LimitKey.BandToHz, 5600))])).Applied!;
        Assert.Equal((44.7, 5600), (applied.UsableFromHz, applied.UsableToHz));

        applied = Heath.One(Heath.With([Make.Registered("W1", "701", "windscreen"), .. facts[1..]])).Applied!;
        Assert.Contains("Up to where Windscreen or rain protection Model 701 may be used is not known", applied.Caution, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.4, null)]
    [InlineData(null, null)]
    [InlineData(0.1, 95.0)]
    public void The_same_level_with_another_uncertainty_or_for_another_pressure_is_another_statement(double? expanded, double? kPa)
    {
        var late = Make.Of(Make.Issued(94.00, expanded, "level", "dB") with { ReferenceDevice = "REF", StatedForKPa = kPa }, "2026-05-20", "device:K1");
        var register = Heath.With([.. Flight, late]);

        Assert.Contains(Heath.One(register).Reasons, r => r.Text.Contains("says 0.000 dB with another uncertainty, pressure or frequency", StringComparison.Ordinal));
        Assert.Equal(2, CheckRework.Of(register, CheckBook.OfCampaign(register, Heath.C)).Count);
        // Stated once more word for word it changes nothing.
        var same = Make.Of(Make.Issued(94.00, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-05-20", "device:K1");
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. Flight, same])).Verdict);
    }

    [Fact]
    public void A_check_that_takes_another_level_than_its_certificate_states_is_not_valid()
    {
        var check = (ChainChecked)Flight[1].Body;
        var wrong = check with { CalibratorDb = check.CalibratorDb + 1, CalibratorTerms = [check.CalibratorTerms[0] with { ValueDb = check.CalibratorTerms[0].ValueDb + 1 }, .. check.CalibratorTerms.Skip(1)], SensitivityDb = check.SensitivityDb - 1 };
        var said = FactText.WriteDerived(new(Flight[1].Occurred, "P1", "phone-1.ABCD", 9), wrong, Flight[1].Subjects);

        var reasons = Heath.One(Heath.With([Flight[0], said, .. Flight[2..]])).Reasons;
        Assert.Contains(reasons, r => r.Weight == TraceVerdict.NotValid && r.Text.Contains("takes 95.000 dB from a certificate of Sound calibrator Model 501 that states 94.000 dB", StringComparison.Ordinal));
        Assert.Contains(reasons, r => r.Text.EndsWith("its deviation is not that of its level from its certificates.", StringComparison.Ordinal));
    }

    [Fact]
    public void Each_day_of_an_event_counts_for_what_stood_and_each_day_of_a_check_for_what_it_was_made_with()
    {
        // 20:00 to 23:30 UTC on 2 June is 22:00 to 01:30 at the heath.
        Fact[] night =
        [
            Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S1", "06-02 19:00", CheckMoment.Before, -38.16), Heath.Event("E1", "06-02 20:00", "06-02 23:30"),
            Heath.Checked("S1", "06-03 00:10", CheckMoment.After, -38.16),
        ];
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With(night)).Verdict);
        var lost = Make.Of(new DeviceStatusChanged(DeviceStatus.OutOfService, "from midnight on"), "2026-06-03", "device:M1");
        Assert.Contains(Heath.One(Heath.With([.. night, lost])).Reasons, r => r.Weight == TraceVerdict.NotValid && r.Text.Contains("is out of service", StringComparison.Ordinal));
        // Due on 2 June: in date for the check before, not for the one after.
        var due = Make.Replacing(Heath.FirstCalibrator, Make.Issued(94.00, 0.1, "level", "dB") with { ReferenceDevice = "REF", DueDay = new(2026, 6, 2) });
        Assert.Contains(Heath.One(Heath.With([.. night, due])).Reasons, r => r.Text.Contains("Sound calibrator Model 501: its level calibration is valid through 2026-06-02", StringComparison.Ordinal));
        Assert.DoesNotContain(Heath.One(Heath.With([.. night[..3], due])).Reasons, r => r.Text.Contains("is valid through 2026-06-02", StringComparison.Ordinal));
    }

    [Fact]
    public void A_barometer_that_alone_goes_along_counts_for_checks_that_name_none_where_the_calibrator_needs_one()
    {
        Fact[] facts =
        [
            .. Flight, Make.Registered("B1", "701", "barometer"), Heath.Described("K1", ("pressure-law", "adiabatic")),
            Make.Of(new KitPlanned(KitPurpose.Check, ["K1", "B1"]), "2026-05-02", Subject.Campaign(Heath.C), "device:K1", "device:B1"),
            Heath.Written((LimitKey.IntervalMonths + "barometer/static-pressure", 12)),
        ];
        Assert.Contains(Heath.One(Heath.With(facts)).Reasons, r => r.Text.Contains("701 has no static-pressure calibration", StringComparison.Ordinal));
        // Of two nobody can say which.
        Fact[] two = [.. facts, Make.Registered("B2", "702", "barometer"), Make.Of(new KitPlanned(KitPurpose.Check, ["K1", "B1", "B2"]), "2026-05-03", Subject.Campaign(Heath.C), "device:K1", "device:B1", "device:B2")];
        Assert.DoesNotContain(Heath.One(Heath.With(two)).Reasons, r => r.Text.Contains("no static-pressure calibration", StringComparison.Ordinal));
        // Where none goes along, none tells the pressure.
        Fact[] none = [.. Flight, Heath.Described("K1", ("pressure-law", "adiabatic")), Make.Of(new KitPlanned(KitPurpose.Check, ["K1"]), "2026-05-02", Subject.Campaign(Heath.C), "device:K1")];
        Assert.Contains(Heath.One(Heath.With(none)).Reasons, r => r.Text.Contains("no barometer tells it", StringComparison.Ordinal));
    }

    private static IReadOnlyList<Fact> Accepted(Result<IReadOnlyList<Fact>> result) => Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(result).Value;
}
