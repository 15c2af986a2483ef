using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Every question of a trace has a case in which it gives its reason; weights and words are stated here by hand.</summary>
public sealed class TraceQuestionTests
{
    private const string Label = "2AYS641TS";

    private static readonly Fact[] Flight = Heath.Flight();

    // Checks on other days, with nothing in between.
    private static readonly Fact[] Week =
    [
        Heath.Written((LimitKey.CheckSpanHours, 240), (LimitKey.InPlaceHours, 24)),
        Heath.Placed("S1", "06-01 06:00"), Heath.Checked("S1", "06-01 07:00", CheckMoment.Before, -38.15),
        Heath.Event("E1", "06-04 10:00", "06-04 10:01"), Heath.Checked("S1", "06-08 07:00", CheckMoment.After, -38.15),
    ];

    public static TheoryData<string> Keys => [.. TraceQuestions.All.Select(q => q.Key)];

    [Theory]
    [MemberData(nameof(Keys))]
    public void Each_question_gives_its_reason_where_something_is_the_matter_and_none_where_nothing_is(string key)
    {
        var question = TraceQuestions.All.Single(q => q.Key == key);
        var wrong = Cases().Single(c => c.Key == key);

        var chain = Chains(wrong.Facts)[0];
        Assert.Equal(question.IsOfNothing, chain.Placement is null);
        var reasons = question.Ask(chain).ToList();
        Assert.All(reasons, r => Assert.Equal(wrong.Weight, r.Weight));
        Assert.All(reasons, r => Assert.NotEmpty(r.Source));
        Assert.Contains(reasons, r => r.Text.Contains(wrong.Says, StringComparison.Ordinal));
        Assert.All(reasons, r => Assert.Contains(r, Tracer.Of(Heath.With(wrong.Facts), "E1", "S1")!.Stations[0].Reasons));

        Assert.Empty(question.Ask(Assert.Single(Chains(Flight))));
    }

    [Fact]
    public void Each_question_has_a_plain_key_of_its_own_and_one_case()
    {
        var keys = TraceQuestions.All.Select(q => q.Key).ToList();

        Assert.Equal(keys.Distinct(StringComparer.Ordinal), keys);
        Assert.All(keys, k => Assert.Matches("^[a-z]+(-[a-z]+)*$", k));
        Assert.All(TraceQuestions.All, q => Assert.EndsWith("?", q.Title, StringComparison.Ordinal));
        Assert.Equal(keys, Cases().Select(c => c.Key));
    }

    private static List<TracedChain> Chains(Fact[] facts) => [.. Tracer.Chains(Tracer.ContextOf(Heath.With(facts), "E1")!, "S1")];

    private static List<Case> Cases() =>
    [
        new("nothing-placed", TraceVerdict.NotValid, "Nothing stood there.", [Flight[2]]),
        new("part-of-event", TraceVerdict.Doubtful, "of the event only, 10:00:00 UTC to 10:01:00 UTC.", [
            .. Flight[..2], Heath.Event("E1", "06-02 10:00", "06-02 10:02"), Flight[3], Heath.TakenIn("S1", "06-02 10:01")]),
        new("unknown-label", TraceVerdict.NotValid, "the label " + Label, Placing(["P1", "R1"], unknown: [Label])),
        new("not-registered", TraceVerdict.NotValid, "ZZ is not in the register.", Placing(["M1", "ZZ"])),
        new("no-microphone", TraceVerdict.NotValid, "No microphone was placed there.", Placing(["P1", "R1"])),
        new("no-channel", TraceVerdict.Doubtful, "No recorder channel was placed with it.", Placing(["M1", "P1"])),
        new("missing-part", TraceVerdict.Doubtful, "No ground plate was placed with it", With(
            Make.Of(new ChainPlanned("S1", Heath.Chain("S1")), "2026-05-03", [Subject.Campaign(Heath.C), .. Heath.Chain("S1").Select(Subject.Device)]))),
        new("two-places", TraceVerdict.Doubtful, "at the same time", With(Heath.Placed("S2", "06-02 07:00", ["M1", "P2", "R2"]))),
        new("newer-facts", TraceVerdict.Undecided, "cannot be used here (newer version", With(Make.Newer("M1"))),
        new("unread-steps", TraceVerdict.Undecided, "A chain placed of 09:00:00 UTC cannot be used here", With(
            NewerFacts.Newer("chain-placed", "06-02 09:00", "S1"))),
        new("other-microphone", TraceVerdict.Undecided, "which of both it was is not decided", With(
            Make.Replacing(Flight[0], ((ChainPlaced)Flight[0].Body) with { Devices = ["M9", "P1", "R1"] }, "campaign:" + Heath.C, "device:M9"))),
        new("recorded", TraceVerdict.Doubtful, "No file is stated of it", With(Heath.Said(
            "06-02 12:00", 4,
            new EventHappened(
                "Flight E2", "2026-06-02T12:00:00.000Z", "2026-06-02T12:01:00.000Z", EventKind.FlyOver, null,
                [new("a.wav", 1, new string('a', 64), "REC-A", "2026-06-02T12:00:00.000", 60, [1])], null),
            [Subject.Event("E2"), Subject.Campaign(Heath.C)]))),
        new("not-flush", TraceVerdict.Doubtful, "was not flush with its plate", [NotFlush(), .. Flight[1..]]),
        new("weather-limits", TraceVerdict.NotValid, "During it the temperature was 27 °C; the profile asks for at most 25 °C.", With(
            Heath.Written((LimitKey.TemperatureMostC, 25)), Heath.Weather("06-02 10:01", 27))),
        new("check-before-missing", TraceVerdict.Doubtful, "not checked before it", [Flight[0], .. Flight[2..]]),
        // -38.50 + 38.16 = -0.34 dB from the certificates; 0.3 dB are allowed.
        new("check-before-judged", TraceVerdict.NotValid, "The check before is rejected: −0.340 dB", Heath.Flight(-38.50, -38.50)),
        new("check-before-range", TraceVerdict.Doubtful, "The check before was made at a range of 10 V",
            Placing(Heath.Chain("S1"), rangeV: 1)),
        new("check-after-missing", TraceVerdict.Doubtful, "not checked after it", Flight[..3]),
        new("check-after-judged", TraceVerdict.NotValid, "The check after is rejected: −0.340 dB", Heath.Flight(-38.50, -38.50)),
        new("check-after-range", TraceVerdict.Doubtful, "The check after was made at a range of 10 V",
            Placing(Heath.Chain("S1"), rangeV: 1)),
        // 06:30 to 16:00.
        new("check-clock", TraceVerdict.Doubtful, "and 16:00:00 UTC around it lie 570 min; the profile allows 60 min.", With(
            Heath.Written((LimitKey.CheckIntervalMinutes, 60)))),
        new("check-variation", TraceVerdict.NotValid, "Checks of its day differ by 0.080 dB; 0.05 dB are allowed over a day.", With(
            Heath.Written((LimitKey.CheckVariationDb, 0.05)))),
        new("check-air", TraceVerdict.Doubtful, "At the check before no temperature of the day was read", With(
            Heath.WrittenWords(LimitKey.CheckAir, "temperature"))),
        new("swapped-since-check", TraceVerdict.Doubtful, "A part was swapped between the check before and the event.", With(
            Heath.Placed("S1", "06-02 09:00", swap: new("M9", "M1", "no signal")))),
        new("work-between-checks", TraceVerdict.Doubtful, "Between the checks: ", With(Heath.Damaged("M1", "06-02 12:00"))),
        new("no-certificate", TraceVerdict.NotValid, "had no certificate on 2026-01-05.", With(Make.Annulling(Heath.ReferenceCertificate))),
        new("check-fit", TraceVerdict.Doubtful, "made with fits a 6.35 mm capsule", With(
            Heath.Described("M1", ("size-mm", 6.35)), Heath.Described("P1", ("size-mm", 6.35)), Heath.Described("K1", ("fits-mm", 12.7)))),
        new("check-figures", TraceVerdict.NotValid, "The check before does not follow from what was read: its level is not that of its readings.", [
            Flight[0], Louder(Flight[1]), .. Flight[2..]]),
        // Entered late: of a day before the checks, which rest on the one of January.
        new("check-superseded", TraceVerdict.Doubtful, "in force no longer, that of 2026-01-05; the one in force, of 2026-05-20, says +0.070 dB.", With(
            Make.Of(Make.Issued(94.07, 0.1, "level", "dB") with { ReferenceDevice = "REF" }, "2026-05-20", "device:K1"))),
        new("contradiction", TraceVerdict.Doubtful, "Two registrations disagree: serial", With(Make.Registered("M1", "191"))),
        new("unfit", TraceVerdict.NotValid, "is out of service: dropped.", With(
            Make.Of(new DeviceStatusChanged(DeviceStatus.OutOfService, "dropped"), "2026-06-01", "device:M1"))),
        new("never-calibrated", TraceVerdict.NotValid, "has no response calibration; the profile asks for one", With(
            Heath.Written((LimitKey.IntervalMonths + "microphone/response", 12)))),
        // Two months from 1 March.
        new("due", TraceVerdict.NotValid, "is valid through 2026-05-01 (profile: 2 months)", With(
            Heath.Written((LimitKey.IntervalMonths + "microphone/sensitivity", 2)))),
        new("begun-anew", TraceVerdict.NotValid, "begin anew with the work of 2026-05-20", With(
            Make.Of(new DeviceServiced(ServiceKind.Repair, "new diaphragm", true), "2026-05-20", "device:M1"))),
        new("change-in-bands", TraceVerdict.Doubtful, "not known; the certificate of 2026-05-20 holds no curve", With(
            Heath.Written((CertificateLimits.ChangeInBands + "preamplifier/gain", 0.2)),
            Make.Certificate("P1", "2026-05-20", -0.1, 0.04, "gain", "dB"))),
        // -0.1 dB against a nominal gain of 0.1 dB.
        new("greatest-error", TraceVerdict.NotValid, "its gain of 2026-02-01 is −0.200 dB off its nominal 0.1 dB; at most 0.1 dB", With(
            Heath.Written((CertificateLimits.GreatestError + "preamplifier/gain", 0.1)), Heath.Described("P1", ("gain-db", 0.1)))),
        new("one-day-twice", TraceVerdict.Doubtful, "has two sensitivity certificates of 2026-03-01; the one entered last is in force", With(
            Make.Certificate("M1", "2026-03-01", -38.20))),
        new("set-parted", TraceVerdict.NotValid, "was calibrated as a set on 2026-03-02", With(
            Make.Of(Make.Issued(-38.06), "2026-03-02", "device:M1", "device:P9"))),
        new("response-type", TraceVerdict.NotValid, "is a free-field type", With(Heath.Described("M1", ("response-type", "free-field")))),
        new("frequency-range", TraceVerdict.NotValid, "covers 0 Hz to 9000 Hz", With(Heath.Described("M1", ("highest-hz", 9000)))),
        new("response-limits", TraceVerdict.NotValid, "leaves the limits of IEC 61672-1:2013 class 1 (invented) by 0.55 dB at 1 kHz", With(
            Heath.WrittenWords(LimitKey.ResponseClass, Curved.Class1), Curved.Certified("M1", Curved.High))),
        new("response-by-angle", TraceVerdict.NotValid, "leaves the limits of IEC 61265:1995 (invented) by 0.25 dB at 1 kHz and 30°", With(
            Heath.WrittenWords(LimitKey.ResponseByAngle, "IEC 61265:1995"), Curved.Certified("M1", Curved.Uneven, "free-field"))),
        new("mount", TraceVerdict.NotValid, "Station S1 stands flush in a ground plate; the profile allows", With(
            Heath.WrittenWords(LimitKey.Mounts, "pole"))),
        new("highest-level", TraceVerdict.NotValid, "takes 130 dB; 125 dB are expected and 10 dB of margin", With(
            Heath.Written((LimitKey.LevelMarginDb, 10)), Heath.Planned(highestDb: 125), Heath.Described("M1", ("highest-level-db", 130)))),
        new("noise-floor", TraceVerdict.Doubtful, "has a noise floor of 25 dB; levels from 30 dB matter", With(
            Heath.Written((LimitKey.NoiseMarginDb, 10)), Heath.Planned(lowestDb: 30), Heath.Described("M1", ("noise-floor-db", 25)))),
        new("parts-fit", TraceVerdict.NotValid, "wants 200 V of polarisation, the preamplifier gives 0 V", With(
            Heath.Described("M1", ("polarisation-v", 200)), Heath.Described("P1", ("polarisation-v", 0)))),
        new("plate-inspection", TraceVerdict.NotValid, "failed its inspection of 2026-05-03", [
            .. Plated, Heath.Written((LimitKey.PlateInspectionMonths, 12)),
            Make.Of(new DeviceInspected(false, null, null, null, null), "2026-05-03", "device:G1"), .. Flight[1..]]),
        new("plate-geometry", TraceVerdict.NotValid, "holds the capsule 0.4 mm proud of its surface; at most 0.3 mm", [
            .. Plated, Heath.Written((LimitKey.FlushStepMm, 0.3)),
            Make.Of(new DeviceInspected(true, 0.4, null, null, null), "2026-05-03", "device:G1"), .. Flight[1..]]),
        new("calibrator-class", TraceVerdict.NotValid, "is of class 1; the profile allows LS", With(
            Heath.WrittenWords(LimitKey.CalibratorClasses, "LS"))),
        // 94.00 dB beside 93.70 dB: 0.30 dB, and class 1 of 2017 allows 0.25 dB.
        new("calibrator-limits", TraceVerdict.Doubtful, "deviates from the nominal one by +0.30 dB with U = 0.10 dB", With(
            Heath.Described(
                "K1", ("calibrator-class", "1"), ("calibrator-edition", "2017"), ("nominal-level-db", 93.7), ("frequency-hz", 250)))),
        new("instrument-class", TraceVerdict.NotValid, "is of type 2 of IEC 651:1979; the profile asks for at least type 1", With(
            Heath.WrittenWords(LimitKey.MeterClassLeast, "IEC 651:1979 1"), Heath.Described("R1", ("meter-class", "type 2, IEC 651:1979")))),
        // 0.4 dB from the certificate of January; usual practice allows 0.3 dB.
        new("calibrator-step", TraceVerdict.NotValid, "changed by +0.400 dB from 2026-01-05 to 2026-05-20; at most 0.3 dB are allowed.", With(
            Make.Certificate("K1", "2026-05-20", 94.40, 0.1, "level", "dB"))),
        new("level-uncertainty", TraceVerdict.Doubtful, "states no uncertainty: every U that rests on it is too small.", With(
            Make.Certificate("K1", "2026-05-20", 94.00, null, "level", "dB"))),
        new("altitude", TraceVerdict.NotValid, "holds from 103 kPa to 108 kPa; 100.0 kPa were read there.", [
            Flight[0], Heath.Checked("S1", "06-02 06:30", CheckMoment.Before, -38.11, air: new(100, 20, 50)), Flight[2], Flight[3],
            Heath.Described("K1", ("lowest-kpa", 103))]),
        new("barometer", TraceVerdict.Doubtful, "follows static pressure, and no barometer tells it.", [
            .. Flight[..2], Flight[2], Estimated(Flight[3]), Heath.Described("K1", ("pressure-law", "adiabatic"))]),
        new("in-place-missing", TraceVerdict.Doubtful, "no comparison in place, within 24 h, shows", Week),
        new("in-place-moved", TraceVerdict.Doubtful, "it lay −0.80 dB from the others", With(
            Heath.Compared(
                "06-02 10:00", 0.4, ("S1", Heath.Chain("S1"), 69.2), ("X2", ["M2"], 70), ("X3", ["M3"], 70),
                ("X4", ["M9"], 70), ("X5", ["P9"], 70)))),
        new("doubt", TraceVerdict.Doubtful, "water in the capsule", [.. Flight[..3], Heath.Damaged("M1", "06-02 12:00")]),
        new("certificates-for-checks", TraceVerdict.Doubtful, "Its certificates are applied", [Flight[0], Flight[2]]),
        new("no-certificate-after", TraceVerdict.Doubtful, "There is no certificate after it yet", With(
            Heath.Chosen(SensitivityRule.LinearBetween))),
        new("no-sensitivity", TraceVerdict.NotValid, "No sensitivity is known", Placing(["P1", "R1"])),
    ];

    private static Fact[] Plated =>
        [Make.Registered("G1", "401", "ground-plate"), Heath.Placed("S1", "06-02 06:00", [.. Heath.Chain("S1"), "G1"])];

    private static Fact[] With(params Fact[] more) => [.. Flight, .. more];

    private static Fact[] Placing(string[] devices, double? rangeV = null, double? gapMm = null, string[]? unknown = null) =>
        [Heath.Placed("S1", "06-02 06:00", devices, rangeV, unknown: unknown, gapMm: gapMm), .. Flight[1..]];

    private static Fact Louder(Fact f) => FactText.WriteDerived(
        new(f.Occurred, "P1", "phone-1.ABCD", 9), (ChainChecked)f.Body is var k ? k with { SensitivityDb = k.SensitivityDb - 1 } : k, f.Subjects);

    private static Fact Estimated(Fact f) =>
        FactText.WriteDerived(new(f.Occurred, "P1", "phone-1.ABCD", 9), (ChainChecked)f.Body with { PressureIsEstimated = true }, f.Subjects);

    private static Fact NotFlush() => Heath.Said(
        "06-02 06:00", 1, new ChainPlaced("S1", Heath.Chain("S1"), [], null, false, null, null, null, [], null),
        [Subject.Campaign(Heath.C), .. Heath.Chain("S1").Select(Subject.Device)]);

    private sealed record Case(string Key, TraceVerdict Weight, string Says, Fact[] Facts);
}
