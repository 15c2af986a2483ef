using static MicRegister.Register.Campaigns.CertificateLimits;
using static MicRegister.Register.Campaigns.LimitKey;
using static MicRegister.Register.Campaigns.LimitSource;

namespace MicRegister.Register.Campaigns;

/// <summary>
/// The requirement profiles that come with the program. They paraphrase published rules with their clauses; all figures are
/// unchecked against the current text until a person confirms them, and the authority's current text decides.
/// </summary>
/// <remarks>
/// Figures of 14 CFR part 36 were read in the text of 2021. Those of ISO 3744, and that ICAO Annex 16 volume I asks the same, are from
/// memory. What the program cannot judge of a clause is said in the statement.
/// </remarks>
public static class BuiltInProfiles
{
    private const string Follow = " Figures are paraphrased and unchecked against the current text; follow the authority's current text.";
    private const string FederalCalibrator = "IEC 60942:1997 1L or later";
    private const string AsAmended = "class 1L of IEC 60942 as amended; 36.6: edition of 1997";
    private const string AnyClassOne = "IEC 942:1988 1 or later";

    /// <summary>Id of the profile by which is judged where no campaign names one.</summary>
    public const string Usual = "engineering-practice";

    // 14 CFR 36, A36.3.5.4 gives it in a picture, table A36-1, that nobody here could read.
    private static ProfileLimit ByAngle { get; } = new(
        ResponseByAngle, null, "IEC 61265:1995", "IEC 61265:1995, table 1, which 14 CFR 36, A36.3.5.4 is said to ask in table A36-1", Memory)
    {
        Document = "IEC 61265",
        Edition = "1995",
        Clause = "table 1",
    };

    public static IReadOnlyList<ProfileState> All { get; } =
    [
        Profile("transport-1200mm", "Transport aeroplanes, microphones at 1.2 m",
            "Paraphrases 14 CFR Part 36, appendix A, A36.3. Not judged: noise of the site at least 20 dB below in PNL (A36.3.10.1) and "
                + "3 dB in each band (A36.3.10.2), precipitation." + Follow,
            [
                Cfr(Mounts, null, "A36.3.5.2", "ground-stand", more: "1.2 m above the local ground, grazing incidence"),
                Cfr(ResponseClass, null, "A36.3.5.3", "14 CFR 36 A36.3.5.3"),
                ByAngle,
                .. Calibrations(null),
                Cfr(CheckTestDay, null, "A36.3.9.8", SiteDay, more: "before and after each series on each day"),
                Cfr(CalibratorClassLeast, null, "A36.3.8.1", FederalCalibrator, more: AsAmended),
                .. AircraftKit(),
                .. Weather(),
                .. Shared(),
            ]),
        Profile("small-propeller-inverted", "Small propeller aeroplanes, inverted 7 mm over a plate",
            "Paraphrases 14 CFR Part 36, appendix G, G36.107, and what G36.105(f) takes from A36.3.8 and A36.3.9; ICAO Annex 16 volume I, "
                + "appendix 6, 4.4 is said to ask the same (from memory, unchecked). Not judged: a plate flush with the ground and no "
                + "cavity below it (G36.107(a)), noise of the site at least 10 dB(A) below (G36.107(c)), windscreens above 5 kt "
                + "(G36.105(g))." + Follow,
            [
                Cfr(Mounts, null, "G36.107(a)", "inverted-plate", more: "inverted, diaphragm parallel to a plate flush with the ground"),
                Cfr(ResponseTypes, null, "G36.107(a)", "pressure", more: "pressure type of 12.7 mm with its grid"),
                Cfr(GapMm, 7, "G36.107(a)"),
                Own(GapToleranceMm, 1),
                Cfr(PlateDiameterMm, 400, "G36.107(a)", more: "40 cm wide"),
                Cfr(PlateThicknessMm, 2.5, "G36.107(a)"),
                Cfr(CapsuleShare, 0.75, "G36.107(a)", more: "three quarters of the way to the edge, 150 mm of 200 mm (computed)"),
                Own(CapsuleToleranceMm, 10),
                .. Calibrations("G36.105(f)"),
                Cfr(CheckTestDay, null, "G36.107(b)", SiteDay, more: "immediately before and after each test; A36.3.9.8"),
                Cfr(CalibratorClassLeast, null, "A36.3.8.1", FederalCalibrator, "G36.105(f)", AsAmended),
                Cfr(MeterClassLeast, null, "G36.105(b)", "IEC 651:1979 1", more: "Type 1 of IEC 651; 36.6: edition of 1979"),
                .. AircraftKit(),
                Cfr(WindMs, Knots(10), "G36.101", more: "10 kt"),
                Cfr(CrosswindMs, Knots(5), "G36.101", more: "5 kt"),
                .. Plates(),
                .. Shared(),
            ]),
        Profile("light-helicopter-1200mm", "Light helicopters, microphones at 1.2 m, checked every hour",
            "Paraphrases 14 CFR Part 36, appendix J, J36.109, with an integrating meter, and what (c)(4) takes from A36.3.9. Not judged: "
                + "noise of the site at least 15 dB(A) below (J36.109(f)(3)), grazing incidence (J36.109(f)(1)), weather." + Follow,
            [
                Cfr(Mounts, null, "J36.109(f)(1)", "ground-stand", more: "4 ft above the ground, grazing incidence"),
                Cfr(ResponseTypes, null, "J36.109(f)(1)", "pressure"),
                Cfr(CheckTestDay, null, "J36.109(e)(2)(i)", SiteDay, more: "before and after"),
                Cfr(CheckIntervalMinutes, 60, "J36.109(e)(2)(i)", more: "at intervals of at most one hour"),
                Cfr(CheckToEventMinutes, 60, "J36.109(e)(2)(i)", more: "no event lies further from a check where checks lie so near"),
                Cfr(CheckVariationDb, 0.5, "J36.109(e)(2)(ii)"),
                Cfr(CheckDifferenceDb, 0.5, "J36.109(e)(2)(ii)"),
                Cfr(IntervalMonths + "sound-calibrator/level", 6, "J36.109(e)(2)(iii)", ToFirstDay),
                Cfr(IntervalMonths + "reference-microphone/sensitivity", 6, "J36.109(e)(2)(iii)", ToFirstDay),
                Cfr(IntervalMonths + "voltage-insertion/insertion-voltage", 6, "J36.109(e)(2)(iii)", ToFirstDay),
                .. Calibrations("J36.109(c)(4)").Where(l => l.Key is not (CheckDifferenceDb or IntervalMonths + "sound-calibrator/level")),
                Own(CalibratorClassLeast, null, AnyClassOne),
                .. AircraftKit(),
                .. Shared(),
            ]),
        Profile(Usual, "Engineering-grade practice",
            "Paraphrases ISO 3744:2010, 5.2, as commonly applied." + Follow,
            [
                Iso(IntervalMonths + "sound-calibrator/level", 12),
                Iso(IntervalMonths + "microphone/sensitivity", 24),
                Iso(IntervalMonths + "preamplifier/gain", 24),
                Iso(IntervalMonths + "recorder-channel/gain", 24),
                Iso(CheckDifferenceDb, 0.5),
                Iso(CalibratorClassLeast, null, AnyClassOne, "class 1; which edition it means is not known here, so that any counts"),
                Own(CalibratorStepDb, 0.3),
                Own(IntervalMonths + "barometer/static-pressure", 24),
                Own(DriftDb, 0.5),
                Own(MountToleranceDb, 1),
                .. Plates(),
                .. Shared(),
            ]),
        Profile("small-unmanned-flush", "Small unmanned aircraft, flush in a plate",
            "Own profile after common practice for small multirotors; no published rule is paraphrased." + Follow,
            [
                Own(Mounts, null, "flush-plate"),
                .. Instruments(),
                Own(CheckDifferenceDb, 0.3),
                Own(DriftDb, 0.3),
                Own(PlateDiameterMm, 400),
                .. Plates(),
                .. Shared(),
            ]),
        Profile("array-left-out", "Array left out for days, checked before and after",
            "Own profile after common practice for arrays that stand unattended; no published rule is paraphrased." + Follow,
            [
                Own(CheckSpanHours, 336),
                Own(InPlaceHours, 24),
                Own(InPlaceDb, 0.5),
                .. Instruments(),
                Own(CheckDifferenceDb, 0.5),
                Own(DriftDb, 0.5),
                .. Plates(),
                .. Shared(),
            ]),
    ];

    public static ProfileState? Find(string id) => All.FirstOrDefault(p => p.Id == id);

    private static ProfileState Profile(string id, string name, string statement, IReadOnlyList<ProfileLimit> limits) =>
        new(id, new(name, statement, limits), null, true) { Edition = ProfileEdition.BuiltIn };

    // What A36.3.9 asks of instruments, for its own appendix and for those that lead to it.
    private static IEnumerable<ProfileLimit> Calibrations(string? by) =>
    [
        Cfr(IntervalMonths + "sound-calibrator/level", 6, "A36.3.9.7", ToFirstDay, by),
        Cfr(CalibratorStepDb, 0.2, "A36.3.9.7", null, by),
        Cfr(CheckAir, null, "A36.3.9.7", "pressure, temperature", by, "the level in the coupler for those of the test day"),
        Cfr(IntervalDays + "microphone/response", 90, "A36.3.9.2", AroundFirstDay, by, "within 90 days of each series"),
        Cfr(CheckDifferenceDb, 0.5, "A36.3.9.8", null, by),
        // Six months are one way for windscreens, the maker's data of an intact one the other.
        Cfr(IntervalMonths + "windscreen/insertion-loss", 6, "A36.3.9.10", ToFirstDay, by),
        Cfr(ChangeInBands + "windscreen/insertion-loss", 0.4, "A36.3.9.10", null, by),
        Cfr(MakersData + "windscreen/insertion-loss", null, "A36.3.9.10", UntilDamaged, by,
            "undamaged and uncontaminated, the maker's data may be used"),
        Cfr(IntervalMonths + "noise-source/noise-level", 6, "A36.3.9.5", ToFirstDay, by),
        Cfr(ChangeInBands + "noise-source/noise-level", 0.2, "A36.3.9.5", null, by),
        Cfr(IntervalMonths + "attenuator/attenuation", 6, "A36.3.9.6", ToFirstDay, by),
        Cfr(GreatestError + "attenuator/attenuation", 0.1, "A36.3.9.6", null, by),
    ];

    // What own practice asks of instruments beside the rules of aircraft.
    private static IEnumerable<ProfileLimit> AircraftKit() =>
    [
        Own(IntervalMonths + "microphone/sensitivity", 12),
        Own(IntervalMonths + "barometer/static-pressure", 12),
        Own(DriftDb, 0.3),
    ];

    // What own profiles ask of instruments.
    private static IEnumerable<ProfileLimit> Instruments() =>
    [
        Own(MountToleranceDb, 1),
        Own(IntervalMonths + "sound-calibrator/level", 12),
        Own(CalibratorStepDb, 0.2),
        Own(IntervalMonths + "microphone/sensitivity", 24),
        Own(IntervalMonths + "preamplifier/gain", 24),
        Own(IntervalMonths + "recorder-channel/gain", 24),
        Own(IntervalMonths + "barometer/static-pressure", 12),
        Own(CalibratorClassLeast, null, AnyClassOne),
    ];

    // Measured at 10 m over the ground, within 30 minutes of each test. No precipitation and the attenuation of high bands are not judged.
    private static IEnumerable<ProfileLimit> Weather()
    {
        const string clause = "A36.2.2.2";
        return
        [
            Cfr(WindMs, Knots(12), clause, more: "12 kt"),
            Cfr(GustMs, Knots(15), clause, more: "15 kt"),
            Cfr(CrosswindMs, Knots(7), clause, more: "7 kt"),
            Cfr(CrosswindGustMs, Knots(10), clause, more: "10 kt"),
            Cfr(TemperatureLeastC, -10, clause),
            Cfr(TemperatureMostC, 35, clause),
            Cfr(HumidityLeastPercent, 20, clause),
            Cfr(HumidityMostPercent, 95, clause),
            Cfr(WeatherMinutes, 30, "A36.2.2"),
        ];
    }

    // Exact: 1852 m in an hour.
    private static double Knots(double knots) => knots * 1852 / 3600;

    private static IEnumerable<ProfileLimit> Plates() =>
    [
        Own(PlateInspectionMonths, 12),
        Own(FlushStepMm, 0.2),
        Own(FlatnessMm, 1),
    ];

    // Margins of a microphone's own range are practice: what published rules limit is the noise of the site.
    private static IEnumerable<ProfileLimit> Shared() =>
    [
        Own(DeviceProbability, 0.95),
        Own(DeviceProbabilityStop, 0.5),
        Own(ArrayProbability, 0.95),
        Own(LevelMarginDb, 3),
        Own(NoiseMarginDb, 10),
        Own(SpareShare, 0.05),
        Own(CheckSpreadDb, 0.1),
        Own(Change + "barometer/static-pressure", 0.2),
        Own(DecisionRule, null, "simple", "ISO/IEC 17025:2017, 7.8.6.1 asks that the rule be named"),
    ];
}
