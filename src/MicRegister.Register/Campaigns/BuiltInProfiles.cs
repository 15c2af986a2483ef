using static MicRegister.Register.Campaigns.LimitKey;

namespace MicRegister.Register.Campaigns;

/// <summary>
/// The requirement profiles that come with the program. They paraphrase published rules with their clauses; all figures are
/// unchecked against the current text until a person confirms them, and the authority's current text decides.
/// </summary>
public static class BuiltInProfiles
{
    private const string Follow = " Figures are paraphrased and unchecked against the current text; follow the authority's current text.";
    private const string Practice = "common practice, no source";
    private const string Seen = "seen, 2021 edition";
    private const string Memory = "from memory, unchecked";

    /// <summary>Id of the profile by which is judged where no campaign names one.</summary>
    public const string Usual = "engineering-practice";

    public static IReadOnlyList<ProfileState> All { get; } =
    [
        Profile("transport-1200mm", "Transport aeroplanes, microphones at 1.2 m",
            "Paraphrases 14 CFR Part 36, appendix A, A36.3." + Follow,
            [
                new(IntervalMonths + "sound-calibrator/level", 6, ToFirstDay, "14 CFR 36, A36.3.9.7", Memory),
                new(CalibratorStepDb, 0.2, null, "14 CFR 36, A36.3.9.7", Memory),
                new(IntervalDays + "microphone/response", 90, ToFirstDay, "14 CFR 36, A36.3.9.2", Memory),
                new(CheckDifferenceDb, 0.5, null, "14 CFR 36, A36.3.9.8", Memory),
                new(CheckTestDay, null, SiteDay, "14 CFR 36, A36.3.9.8: before and after each series on each day", Seen),
                new(IntervalMonths + "windscreen/insertion-loss", 6, ToFirstDay, "14 CFR 36, A36.3.9.10", Memory),
                new(IntervalMonths + "noise-source/noise-level", 6, ToFirstDay, "14 CFR 36, A36.3.9.5", Memory),
                new(IntervalMonths + "attenuator/attenuation", 6, ToFirstDay, "14 CFR 36, A36.3.9.6", Memory),
                new(Mounts, null, "ground-stand", "14 CFR 36, A36.3.5.2: 1.2 m above the local ground, grazing incidence", "seen, 2019 edition"),
                new(IntervalMonths + "microphone/sensitivity", 12, null, Practice, Practice),
                new(IntervalMonths + "barometer/static-pressure", 12, null, Practice, Practice),
                new(CalibratorClasses, null, "LS, LS/M, LS/C, 1, 1/M, 1/C", Practice, Practice),
                new(DriftDb, 0.3, null, Practice, Practice),
                .. Weather(),
                .. Shared(),
            ]),
        Profile("small-propeller-inverted", "Small propeller aeroplanes, inverted 7 mm over a plate",
            "Paraphrases 14 CFR Part 36, appendix G, G36.107, and ICAO Annex 16 volume I, appendix 6, 4.4." + Follow,
            [
                new(Mounts, null, "inverted-plate", "14 CFR 36, G36.107(a)", Memory),
                new(GapMm, 7, null, "14 CFR 36, G36.107(a)", Memory),
                new(GapToleranceMm, 1, null, Practice, Practice),
                new(PlateDiameterMm, 400, null, "14 CFR 36, G36.107(a)", Memory),
                new(PlateThicknessMm, 2.5, null, "14 CFR 36, G36.107(a)", Memory),
                new(CheckDifferenceDb, 0.5, null, "14 CFR 36, A36.3.9.8", Memory),
                new(CheckTestDay, null, SiteDay, "14 CFR 36, G36.107(b): immediately before and after each test; A36.3.9.8", Seen),
                new(IntervalMonths + "sound-calibrator/level", 6, ToFirstDay, "14 CFR 36, A36.3.9.7", Memory),
                new(CalibratorStepDb, 0.2, null, "14 CFR 36, A36.3.9.7", Memory),
                new(IntervalMonths + "microphone/sensitivity", 12, null, Practice, Practice),
                new(IntervalMonths + "barometer/static-pressure", 12, null, Practice, Practice),
                new(CalibratorClasses, null, "LS, LS/M, LS/C, 1, 1/M, 1/C", "14 CFR 36, G36.105: the system follows class 1", "seen, 2019 edition"),
                new(DriftDb, 0.3, null, Practice, Practice),
                new(WindMs, Knots(10), null, "14 CFR 36, G36.101: 10 kt", Seen),
                new(CrosswindMs, Knots(5), null, "14 CFR 36, G36.101: 5 kt", Seen),
                .. Plates(),
                .. Shared(),
            ]),
        Profile(Usual, "Engineering-grade practice",
            "Paraphrases ISO 3744:2010, 5.2, as commonly applied." + Follow,
            [
                new(IntervalMonths + "sound-calibrator/level", 12, null, "ISO 3744:2010, 5.2", Memory),
                new(IntervalMonths + "microphone/sensitivity", 24, null, "ISO 3744:2010, 5.2", Memory),
                new(IntervalMonths + "preamplifier/gain", 24, null, "ISO 3744:2010, 5.2", Memory),
                new(IntervalMonths + "recorder-channel/gain", 24, null, "ISO 3744:2010, 5.2", Memory),
                new(CheckDifferenceDb, 0.5, null, "ISO 3744:2010, 5.2", Memory),
                new(CalibratorClasses, null, "LS, LS/M, LS/C, 1, 1/M, 1/C", "ISO 3744:2010, 5.2", Memory),
                new(CalibratorStepDb, 0.3, null, Practice, Practice),
                new(IntervalMonths + "barometer/static-pressure", 24, null, Practice, Practice),
                new(DriftDb, 0.5, null, Practice, Practice),
                new(MountToleranceDb, 1, null, Practice, Practice),
                .. Plates(),
                .. Shared(),
            ]),
        Profile("small-unmanned-flush", "Small unmanned aircraft, flush in a plate",
            "Own profile after common practice for small multirotors; no published rule is paraphrased." + Follow,
            [
                new(Mounts, null, "flush-plate", Practice, Practice),
                .. Instruments(),
                new(CheckDifferenceDb, 0.3, null, Practice, Practice),
                new(DriftDb, 0.3, null, Practice, Practice),
                new(PlateDiameterMm, 400, null, Practice, Practice),
                .. Plates(),
                .. Shared(),
            ]),
        Profile("array-left-out", "Array left out for days, checked before and after",
            "Own profile after common practice for arrays that stand unattended; no published rule is paraphrased." + Follow,
            [
                new(CheckSpanHours, 336, null, Practice, Practice),
                new(InPlaceHours, 24, null, Practice, Practice),
                new(InPlaceDb, 0.5, null, Practice, Practice),
                .. Instruments(),
                new(CheckDifferenceDb, 0.5, null, Practice, Practice),
                new(DriftDb, 0.5, null, Practice, Practice),
                .. Plates(),
                .. Shared(),
            ]),
    ];

    public static ProfileState? Find(string id) => All.FirstOrDefault(p => p.Id == id);

    private static ProfileState Profile(string id, string name, string statement, IReadOnlyList<ProfileLimit> limits) =>
        new(id, new(name, statement, limits), null, true) { Edition = ProfileEdition.BuiltIn };

    // What own profiles ask of instruments.
    private static IEnumerable<ProfileLimit> Instruments() =>
    [
        new(MountToleranceDb, 1, null, Practice, Practice),
        new(IntervalMonths + "sound-calibrator/level", 12, null, Practice, Practice),
        new(CalibratorStepDb, 0.2, null, Practice, Practice),
        new(IntervalMonths + "microphone/sensitivity", 24, null, Practice, Practice),
        new(IntervalMonths + "preamplifier/gain", 24, null, Practice, Practice),
        new(IntervalMonths + "recorder-channel/gain", 24, null, Practice, Practice),
        new(IntervalMonths + "barometer/static-pressure", 12, null, Practice, Practice),
        new(CalibratorClasses, null, "LS, LS/M, LS/C, 1, 1/M, 1/C", Practice, Practice),
    ];

    // Measured at 10 m over the ground, within 30 minutes of each test. No precipitation and the attenuation of high bands are not judged.
    private static IEnumerable<ProfileLimit> Weather()
    {
        const string clause = "14 CFR 36, A36.2.2.2";
        return
        [
            new(WindMs, Knots(12), null, clause + ": 12 kt", Seen),
            new(GustMs, Knots(15), null, clause + ": 15 kt", Seen),
            new(CrosswindMs, Knots(7), null, clause + ": 7 kt", Seen),
            new(CrosswindGustMs, Knots(10), null, clause + ": 10 kt", Seen),
            new(TemperatureLeastC, -10, null, clause, Seen),
            new(TemperatureMostC, 35, null, clause, Seen),
            new(HumidityLeastPercent, 20, null, clause, Seen),
            new(HumidityMostPercent, 95, null, clause, Seen),
            new(WeatherMinutes, 30, null, "14 CFR 36, A36.2.2", Seen),
        ];
    }

    // Exact: 1852 m in an hour.
    private static double Knots(double knots) => knots * 1852 / 3600;

    private static IEnumerable<ProfileLimit> Plates() =>
    [
        new(PlateInspectionMonths, 12, null, Practice, Practice),
        new(FlushStepMm, 0.2, null, Practice, Practice),
        new(FlatnessMm, 1, null, Practice, Practice),
    ];

    private static IEnumerable<ProfileLimit> Shared() =>
    [
        new(DeviceProbability, 0.95, null, Practice, Practice),
        new(DeviceProbabilityStop, 0.5, null, Practice, Practice),
        new(ArrayProbability, 0.95, null, Practice, Practice),
        new(LevelMarginDb, 3, null, Practice, Practice),
        new(NoiseMarginDb, 10, null, Practice, Practice),
        new(SpareShare, 0.05, null, Practice, Practice),
        new(CheckSpreadDb, 0.1, null, Practice, Practice),
        new(Change + "barometer/static-pressure", 0.2, null, Practice, Practice),
        new(DecisionRule, null, "simple", "ISO/IEC 17025:2017, 7.8.6.1 asks that the rule be named; simple acceptance: common practice", Practice),
    ];
}
