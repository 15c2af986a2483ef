using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Doubts;

/// <summary>A doubt by the rule that holds where it matters: each campaign's own limits, each quantity in its unit.</summary>
public sealed class DoubtRuleTests
{
    private static readonly Fact Stepped = Make.Of(Make.Issued(94.25, 0.1, "level", "dB"), "2026-07-01", "device:K1");

    [Fact]
    public void A_calibrator_that_moved_by_a_quarter_of_a_decibel_is_in_doubt_where_a_fifth_is_allowed_and_nowhere_else()
    {
        // Usual practice allows 0.3 dB; the heath's rules say nothing, or 0.2 dB.
        var usual = Heath.With([.. Heath.Flight(), Stepped]);
        Assert.Empty(DoubtBook.All(usual));
        Assert.Equal(TraceVerdict.Valid, Heath.One(usual).Verdict);

        Fact strict = Heath.Written((LimitKey.CalibratorStepDb, 0.2));
        var register = Heath.With([.. Heath.Flight(), Stepped, strict]);
        var doubt = Assert.Single(DoubtBook.All(register));
        Assert.EndsWith("+0.250 dB from its calibration of 2026-01-05 on 2026-07-01; 0.2 dB are allowed.", doubt.Text, StringComparison.Ordinal);
        Assert.Equal("E1", Assert.Single(DoubtReport.Of(register, doubt).Open).Event.Id);
        Assert.Equal((TraceVerdict.Doubtful, doubt.Text), (Heath.One(register).Verdict, Assert.Single(Heath.One(register).Reasons).Text));
        Assert.Empty(DoubtBook.OfDevice(register, "K1", register.Profile(BuiltInProfiles.Usual)));
    }

    [Fact]
    public void One_doubt_touches_the_campaign_whose_profile_raises_it_alone()
    {
        // A second campaign on the same heath is judged by usual practice.
        Fact[] other =
        [
            Make.Of(new CampaignPlanned("Moor", new(2026, 6, 1), new(2026, 6, 10), "Zone/Heath", [], "Moor", 20, SourceClass.Propeller, 20, 10_000, null, null, BuiltInProfiles.Usual, 0, null), "2026-05-01", Subject.Campaign("MOOR-26")),
            Moved(Heath.Placed("S1", "06-03 06:00")), Moved(Heath.Checked("S1", "06-03 06:30", CheckMoment.Before, -38.16)),
            Make.Of(new EventHappened("Flight E2", "2026-06-03T10:00:00.000Z", "2026-06-03T10:01:00.000Z", EventKind.FlyOver, null, [], null), "2026-06-03", Subject.Event("E2"), Subject.Campaign("MOOR-26")),
        ];
        var register = Heath.With([.. Heath.Flight(), Stepped, Heath.Written((LimitKey.CalibratorStepDb, 0.2)), .. other]);

        Assert.Equal(["E1"], DoubtReport.Of(register, Assert.Single(DoubtBook.All(register))).Touched.Select(t => t.Event.Id));
        Assert.DoesNotContain(Heath.One(register, "E2").Reasons, r => r.Text.Contains("was found", StringComparison.Ordinal));
        Assert.NotNull(Heath.One(register, "E2").Before);

        static Fact Moved(Fact f) => FactText.WriteDerived(new(f.Occurred, "P1", "phone-2.ABCD", 9), f.Body, [Subject.Campaign("MOOR-26"), .. f.Subjects.Where(Subject.IsDevice)]);
    }

    [Theory]
    [InlineData(0.19, 0)]
    [InlineData(0.2, 0)]
    [InlineData(0.21, 1)]
    public void Readiness_and_doubt_hold_one_limit_against_a_calibrator(double movedDb, int expected)
    {
        var moved = Make.Of(Make.Issued(94.00 + movedDb, 0.1, "level", "dB"), "2026-05-20", "device:K1");
        var kit = Make.Of(new KitPlanned(KitPurpose.Check, ["K1"]), "2026-05-02", Subject.Campaign(Heath.C), "device:K1");
        var register = Heath.With(Heath.Written((LimitKey.CalibratorStepDb, 0.2)), moved, kit);

        var report = CampaignReadiness.Judge(register, Heath.C, new(2026, 5, 25))!;
        Assert.Equal(expected, report.Findings.Count(f => f.Rule == "calibrator-step"));
        Assert.Equal(expected, DoubtBook.OfDevice(register, "K1", register.Profile(Heath.Rules)).Count);
    }

    [Fact]
    public void A_profile_may_say_what_a_barometer_may_move_in_its_own_unit()
    {
        Fact[] facts = [Make.Registered("B1", "701", "barometer"), Pressure("2026-03-01", 101.30), Pressure("2026-07-01", 101.60)];
        double Allowed(double kPa) => DoubtBook.OfDevice(Heath.With([.. facts, Heath.Written((LimitKey.Change + "barometer/static-pressure", kPa))]), "B1", Heath.With(Heath.Written((LimitKey.Change + "barometer/static-pressure", kPa))).Profile(Heath.Rules)).Count;

        Assert.Equal((1, 0), (Allowed(0.29), Allowed(0.3)));
        Assert.Equal(("kPa", 0.001), (LimitKey.Find(LimitKey.Change + "barometer/static-pressure")!.Unit, LimitKey.Find(LimitKey.Change + "barometer/static-pressure")!.Least));
        Assert.Equal("dB", LimitKey.Find(LimitKey.Change + "microphone/sensitivity")!.Unit);
        Assert.Null(LimitKey.Find(LimitKey.Change + "nothing/level"));
    }

    [Fact]
    public void A_barometer_that_was_read_puts_the_check_in_doubt_and_one_that_nobody_named_does_not()
    {
        Fact[] facts = [Make.Registered("B1", "701", "barometer"), Pressure("2026-03-01", 101.30), Pressure("2026-07-01", 103.80), Heath.Placed("S1", "06-02 06:00"), Heath.Event("E1", "06-02 10:00", "06-02 10:01")];
        Fact read = With(Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16), c => c with { Barometer = "B1" });
        Fact unnamed = Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16);

        var register = Heath.With([.. facts, read]);
        var doubt = Assert.Single(DoubtBook.All(register));
        Assert.True(doubt.IsOfChecks);
        Assert.Contains("+2.500 kPa", doubt.Text, StringComparison.Ordinal);
        Assert.Contains(Heath.One(register).Reasons, r => r.Text == doubt.Text);
        Assert.Equal(("E1", 1), (Assert.Single(DoubtReport.Of(register, doubt).Open).Event.Id, DoubtReport.Of(register, doubt).Checks));

        var before = Heath.With([.. facts, unnamed]);
        Assert.DoesNotContain(Heath.One(before).Reasons, r => r.Text.Contains("kPa", StringComparison.Ordinal));
    }

    [Fact]
    public void A_settlement_of_no_events_leaves_open_what_a_stricter_profile_raises_since()
    {
        // Said before profiles were written down: usual practice, 0.3 dB, had raised 0.4 dB, and never 0.25 dB.
        Fact Old(string key) => Make.Of(new DoubtSettled(key, false, [], "seen"), "2026-07-02", "device:K1");
        var strict = Heath.Written((LimitKey.CalibratorStepDb, 0.2));
        var far = Make.Of(Make.Issued(94.40, 0.1, "level", "dB"), "2026-07-01", "device:K1");

        Assert.Empty(Report(far, Old($"OutOfTolerance:K1:{far.Id}")).Open);
        Assert.Single(Report(Stepped, Old($"OutOfTolerance:K1:{Stepped.Id}")).Open);

        // What is said now speaks of all that raise it now.
        var register = Heath.With([.. Heath.Flight(), Stepped, strict]);
        var answer = DoubtBook.Settle(register, new(new(Heath.At("07-03 08:00"), "P1", "desk", 1)), $"OutOfTolerance:K1:{Stepped.Id}", false, [], "seen");
        var said = Assert.Single(Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(answer).Value);
        Assert.Equal([Heath.Rules], Assert.IsType<DoubtSettled>(said.Body).Profiles);
        var after = Heath.With([.. Heath.Flight(), Stepped, strict, said]);
        Assert.Empty(DoubtReport.Of(after, Assert.Single(DoubtBook.All(after))).Open);

        DoubtReport Report(Fact moved, Fact settled)
        {
            var facts = Heath.With([.. Heath.Flight(), moved, strict, settled]);
            return DoubtReport.Of(facts, Assert.Single(DoubtBook.All(facts)));
        }
    }

    [Fact]
    public void A_repair_bounds_a_doubt_of_unknown_size_from_the_last_good_check_on()
    {
        var repair = Make.Of(new DeviceServiced(ServiceKind.Repair, "new diaphragm", true), "2026-06-20", "device:M1");
        var anew = Make.Certificate("M1", "2026-07-01", -37.00);
        var flight = Heath.Flight();

        // With no good check it reaches from the certificate; the certificate after the repair is no change of one device.
        var open = Assert.Single(DoubtBook.OfDevice(Heath.With([flight[0], flight[2], repair, anew]), "M1"));
        Assert.Equal((DoubtKind.Repaired, null, Heath.Ms("02-28 22:00"), Heath.Ms("06-20 22:00") - 1), (open.Kind, open.GreatestDb, open.FromMs, open.ToMs));
        Assert.EndsWith("new diaphragm (repair of 2026-06-20); nothing tells how it was before.", open.Text, StringComparison.Ordinal);

        // The last check was good: what was recorded until then is not in doubt.
        var register = Heath.With([.. flight, repair, anew]);
        Assert.Equal(Heath.Ms("06-02 16:00"), Assert.Single(DoubtBook.OfDevice(register, "M1")).FromMs);
        Assert.Equal(TraceVerdict.Valid, Heath.One(register).Verdict);

        // What was found on the day of the repair tells how it was, and by how much.
        var found = Make.Of(Make.Issued(0) with { Results = [new(AdjustmentState.AsFound, -38.70, "dB re 1 V/Pa", 0.06, "dB", 2), new(AdjustmentState.AsLeft, -38.06, "dB re 1 V/Pa", 0.06, "dB", 2)] }, "2026-06-20", "device:M1");
        var known = Assert.Single(DoubtBook.OfDevice(Heath.With([.. flight, repair, found]), "M1"));
        Assert.Equal((DoubtKind.OutOfTolerance, 0.64), (known.Kind, Math.Round(known.GreatestDb!.Value, 9)));
    }

    [Fact]
    public void A_check_that_was_made_in_doubt_neither_rescues_nor_shows_that_a_device_was_good()
    {
        // The microphone got wet on 3 June; the check of 2 June, 16:00, was good, by a calibrator that was found off.
        var damage = Heath.Damaged("M1", "06-03 12:00");
        var flight = Heath.Flight();
        var off = Make.Of(Make.Issued(94.60, 0.1, "level", "dB"), "2026-07-01", "device:K1");

        var sound = Heath.With([.. flight, damage]);
        Assert.Equal(Heath.Ms("06-02 16:00"), Assert.Single(DoubtBook.OfDevice(sound, "M1")).FromMs);
        Assert.Equal(TraceVerdict.Valid, Heath.One(sound).Verdict);

        var unsound = Heath.With([.. flight, damage, off]);
        var reported = Assert.Single(DoubtBook.OfDevice(unsound, "M1"));
        Assert.Equal(Heath.Ms("02-28 22:00"), reported.FromMs);
        Assert.Null(Assert.Single(DoubtReport.Of(unsound, reported).Touched).Stations[0].Rescue);
        Assert.Equal([off.Id, damage.Id], Heath.One(unsound).Reasons.Where(r => r.Weight == TraceVerdict.Doubtful).Select(r => FactId.Parse(r.Source["fact ".Length..])).OrderByDescending(i => i == off.Id));
    }

    [Fact]
    public void Two_calibrators_in_doubt_for_reasons_of_their_own_do_not_rescue_each_other()
    {
        Fact[] facts =
        [
            Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16), Heath.Event("E1", "06-02 10:00", "06-02 10:01"),
            Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.41, "K2"), Make.Of(Make.Issued(94.50, 0.1, "level", "dB"), "2026-07-01", "device:K1"),
        ];
        var second = Make.Of(Make.Issued(94.60, 0.1, "level", "dB"), "2026-07-01", 1, "device:K2");

        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With(facts)).Verdict);
        var both = Heath.With([.. facts, second]);
        Assert.Equal(2, Heath.One(both).Reasons.Count(r => r.Weight == TraceVerdict.Doubtful));
        Assert.All(DoubtBook.All(both), d => Assert.Single(DoubtReport.Of(both, d).Open));
    }

    [Theory]
    [InlineData(-38.16, true)]
    [InlineData(-38.35, true)]
    [InlineData(-38.37, false)]
    public void A_second_calibrator_that_says_the_same_shows_that_the_first_was_good_until_then(double secondDb, bool isNarrowed)
    {
        // Found 0.4 dB off in July: what differs by half of that at most speaks for how it was before.
        Fact[] facts =
        [
            .. Heath.Flight(-38.16, -38.16),
            Heath.Checked("S1", "06-05 09:00", CheckMoment.Other, -38.16), Heath.Checked("S1", "06-05 10:00", CheckMoment.Other, secondDb, "K2"),
            Make.Of(Make.Issued(94.40, 0.1, "level", "dB"), "2026-07-01", "device:K1"),
        ];
        var register = Heath.With(facts);
        var doubt = Assert.Single(DoubtBook.OfDevice(register, "K1"));

        Assert.Equal(isNarrowed ? Heath.Ms("06-05 09:00") + 1 : Heath.Ms("01-04 23:00") - (60 * 60_000), doubt.FromMs);
        Assert.Equal(isNarrowed ? TraceVerdict.Valid : TraceVerdict.Doubtful, Heath.One(register).Verdict);

        // One that was measured against it says nothing, nor one in doubt itself.
        var against = Make.Of(Make.Issued(94.10, 0.1, "level", "dB") with { ReferenceDevice = "K1" }, "2026-02-06", "device:K2");
        Assert.Equal(Heath.Ms("01-04 22:00"), DoubtBook.OfDevice(Heath.With([.. facts, against]), "K1").Min(d => d.FromMs));
        var inDoubt = Heath.Damaged("K2", "06-06 12:00", "fell");
        Assert.Equal(Heath.Ms("01-04 22:00"), DoubtBook.OfDevice(Heath.With([.. facts, inDoubt]), "K1").Min(d => d.FromMs));
    }

    [Fact]
    public void A_doubt_reaches_events_that_were_recorded_outside_of_the_campaign_s_days()
    {
        // Two weeks after its last day.
        Fact[] facts =
        [
            Heath.Placed("S1", "06-24 06:00"), Heath.Checked("S1", "06-24 06:30", CheckMoment.Before, -38.16), Heath.Event("E9", "06-24 10:00", "06-24 10:01"),
            Heath.Damaged("K1", "06-24 07:00", "fell"),
        ];
        var register = Heath.With([.. facts, Make.Certificate("K1", "2026-06-23", 94.00, 0.1, "level", "dB")]);
        Assert.Equal("E9", Assert.Single(DoubtReport.Of(register, Assert.Single(DoubtBook.OfDevice(register, "K1"))).Open).Event.Id);
    }

    [Fact]
    public void A_half_that_stays_in_doubt_leaves_the_mean_and_makes_no_uncertainty_smaller()
    {
        // K1 was found 0.5 dB off; the check after, with K2, stands. Without the doubt the mean is (-38.16 - 38.26) / 2.
        Fact[] facts =
        [
            Heath.Placed("S1", "06-02 06:00"), Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.16), Heath.Event("E1", "06-02 10:00", "06-02 10:01"),
            Heath.Checked("S1", "06-02 16:00", CheckMoment.After, -38.42, "K2"),
        ];
        var off = Make.Of(Make.Issued(94.50, 0.1, "level", "dB"), "2026-07-01", "device:K1");
        var (sure, doubted) = (Heath.One(Heath.With(facts)).Applied!, Heath.One(Heath.With([.. facts, off])).Applied!);

        Assert.Equal((-38.29, -38.42), (Math.Round(sure.VoltsDb, 6), Math.Round(doubted.VoltsDb, 6)));
        Assert.Equal($"fact {facts[3].Id}", doubted.Terms[0].Source);
        Assert.Equal("The check before is left out of the mean: Sound calibrator Model 501 is in doubt.", doubted.Terms[0].Remark);
        Assert.Contains(doubted.Terms[0].Remark!, doubted.Caution, StringComparison.Ordinal);
        Assert.True(doubted.StandardDb >= sure.StandardDb);
    }

    [Fact]
    public void Where_every_check_is_in_doubt_its_decibels_are_part_of_the_uncertainty()
    {
        var off = Make.Of(Make.Issued(94.50, 0.1, "level", "dB"), "2026-07-01", "device:K1");
        var (sure, doubted) = (Heath.One(Heath.With(Heath.Flight())).Applied!, Heath.One(Heath.With([.. Heath.Flight(), off])).Applied!);

        // Both checks move alike: u² grows by (0.5 / √3)².
        Assert.Equal((sure.StandardDb * sure.StandardDb) + (0.25 / 3), doubted.StandardDb * doubted.StandardDb, 1e-9);
        Assert.Equal(sure.VoltsDb, doubted.VoltsDb, 1e-12);
        // A fall says nothing of its size.
        var fell = Heath.One(Heath.With([.. Heath.Flight(), Heath.Damaged("K1", "06-02 17:00", "fell")])).Applied!;
        Assert.Contains("By how much Sound calibrator Model 501 is wrong nobody knows", fell.Caution, StringComparison.Ordinal);
    }

    [Fact]
    public void A_calibrator_that_fell_stays_in_doubt_until_it_is_calibrated_or_put_right()
    {
        Fact[] facts = [.. Heath.Flight(), Heath.Damaged("K1", "06-01 12:00", "fell")];
        Assert.Equal(TraceVerdict.Doubtful, Heath.One(Heath.With(facts)).Verdict);
        Assert.Equal(long.MaxValue, Assert.Single(DoubtBook.OfDevice(Heath.With(facts), "K1")).ToMs);
        Assert.Equal("E1", Assert.Single(DoubtReport.Of(Heath.With(facts), Assert.Single(DoubtBook.All(Heath.With(facts)))).Open).Event.Id);

        var verified = Make.Of(new DeviceServiced(ServiceKind.Verification, "compared with the other", false), "2026-06-02", "device:K1");
        Assert.Equal(TraceVerdict.Valid, Heath.One(Heath.With([.. facts, verified])).Verdict);
        // A microphone is checked after it fell: a good check ends what the report said of it.
        Assert.Equal(Heath.Ms("06-01 12:00"), Assert.Single(DoubtBook.OfDevice(Heath.With(Heath.Damaged("M1", "06-01 12:00")), "M1")).ToMs);
    }

    [Fact]
    public void A_repair_and_a_calibration_of_one_day_leave_the_time_before_in_doubt()
    {
        var repair = Make.Of(new DeviceServiced(ServiceKind.Repair, "new diaphragm", true), "2026-06-20", "device:M1");
        var anew = Make.Certificate("M1", "2026-06-20", -37.80);
        var flight = Heath.Flight();
        var doubt = Assert.Single(DoubtBook.OfDevice(Heath.With([flight[0], flight[2], repair, anew]), "M1"));
        Assert.Equal((DoubtKind.Repaired, Heath.Ms("02-28 22:00")), (doubt.Kind, doubt.FromMs));
    }

    private static Fact With(Fact f, Func<ChainChecked, ChainChecked> change)
    {
        var check = change((ChainChecked)f.Body);
        return FactText.WriteDerived(new(f.Occurred, "P1", "phone-1.ABCD", 8), check, [.. f.Subjects, .. check.Barometer is { } b ? new[] { Subject.Device(b) } : []]);
    }

    private static Fact Pressure(string day, double kPa) => Make.Of(
        Make.Issued(kPa, quantity: "static-pressure") with { FrequencyHz = null, Results = [new(AdjustmentState.AsFoundAndLeft, kPa, "kPa", 0.06, "kPa", 2)] }, day, "device:B1");
}
