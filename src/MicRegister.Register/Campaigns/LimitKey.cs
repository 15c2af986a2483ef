using MicRegister.Metrology.Classes;

namespace MicRegister.Register.Campaigns;

/// <summary>The limits that a requirement profile can hold. Intervals name a kind of device and a quantity.</summary>
/// <param name="Key">Stored key.</param>
/// <param name="Label">Words for people.</param>
/// <param name="Unit">Unit of the number; empty where the limit is a list of words.</param>
/// <param name="Least">Least number allowed, inclusive.</param>
/// <param name="Greatest">Greatest number allowed, inclusive.</param>
public sealed record LimitKey(string Key, string Label, string Unit, double Least = 0, double Greatest = 1e6)
{
    public const string DriftDb = "drift-db";
    public const string DeviceProbability = "device-probability";
    public const string DeviceProbabilityStop = "device-probability-stop";
    public const string ArrayProbability = "array-probability";
    public const string CalibratorStepDb = "calibrator-step-db";
    public const string CheckDifferenceDb = "check-difference-db";
    public const string CheckDeviationDb = "check-deviation-db";
    public const string CheckSpanHours = "check-span-hours";
    public const string CheckTestDay = "check-test-day";
    public const string CheckSpreadDb = "check-spread-db";
    public const string CheckIntervalMinutes = "check-interval-minutes";
    public const string CheckToEventMinutes = "check-to-event-minutes";
    public const string CheckVariationDb = "check-variation-db";
    public const string CheckAir = "check-air";
    public const string InPlaceDb = "in-place-db";
    public const string InPlaceHours = "in-place-hours";
    public const string DecisionRule = "decision-rule";
    public const string DecisionProbability = "decision-probability";
    public const string CalibratorClasses = "calibrator-classes";
    public const string CalibratorClassLeast = "calibrator-class-least";
    public const string FilterClassLeast = "filter-class-least";
    public const string MeterClassLeast = "meter-class-least";
    public const string Mounts = "mounts";
    public const string ResponseTypes = "response-types";
    public const string MountToleranceDb = "mount-tolerance-db";
    public const string PlateInspectionMonths = "plate-inspection-months";
    public const string FlushStepMm = "flush-step-mm";
    public const string GapMm = "gap-mm";
    public const string GapToleranceMm = "gap-tolerance-mm";
    public const string FlatnessMm = "flatness-mm";
    public const string PlateDiameterMm = "plate-diameter-mm";
    public const string PlateThicknessMm = "plate-thickness-mm";
    public const string CapsuleShare = "capsule-share";
    public const string CapsuleToleranceMm = "capsule-tolerance-mm";
    public const string LevelMarginDb = "level-margin-db";
    public const string NoiseMarginDb = "noise-margin-db";
    public const string SpareShare = "spare-share";
    public const string BandFromHz = "band-from-hz";
    public const string BandToHz = "band-to-hz";
    public const string ResponseClass = "response-class";
    public const string ResponseByAngle = "response-by-angle";
    public const string WindMs = "wind-ms";
    public const string GustMs = "gust-ms";
    public const string CrosswindMs = "crosswind-ms";
    public const string CrosswindGustMs = "crosswind-gust-ms";
    public const string TemperatureLeastC = "temperature-least-c";
    public const string TemperatureMostC = "temperature-most-c";
    public const string HumidityLeastPercent = "humidity-least-percent";
    public const string HumidityMostPercent = "humidity-most-percent";
    public const string WeatherMinutes = "weather-minutes";

    /// <summary>Begin of the key of an interval in calendar months: <c>interval-months/KIND/QUANTITY</c>.</summary>
    public const string IntervalMonths = "interval-months/";

    /// <summary>Begin of the key of an interval in days.</summary>
    public const string IntervalDays = "interval-days/";

    /// <summary>
    /// Begin of the key of the greatest change between two calibrations, in the unit of the quantity: <c>change/KIND/QUANTITY</c>.
    /// </summary>
    public const string Change = "change/";

    /// <summary>Text of an interval that is counted to the first day of the campaign only; otherwise it is to the last.</summary>
    public const string ToFirstDay = "to the first day";

    /// <summary>
    /// Text of an interval that counts both ways from the first day of the campaign: what was calibrated within it afterwards serves too,
    /// once it is done.
    /// </summary>
    public const string AroundFirstDay = "before or after the first day";

    /// <summary>Word of <see cref="CheckTestDay"/>: checks serve the testing of one day at the site, or of one stated session, alone.</summary>
    public const string SiteDay = "site-day";

    /// <summary>Words of <see cref="CheckAir"/>.</summary>
    public static IReadOnlyList<string> AirWords { get; } = ["pressure", "temperature"];

    /// <summary>Whether a limit is a list of words, of which those are allowed that it names.</summary>
    public static bool IsList(string key) =>
        key is Mounts or CalibratorClasses or ResponseTypes or CheckAir or CheckTestDay or DecisionRule
            || TablesOf(key) is not null || SortOf(key) is not null;

    /// <summary>All keys but the intervals.</summary>
    public static IReadOnlyList<LimitKey> All { get; } =
    [
        new(DriftDb, "Greatest deviation from the certificate in use", "dB", 0.001, 60),
        new(DeviceProbability, "Least probability that a device stays within it", "", 0, 1),
        new(DeviceProbabilityStop, "Probability under which it must not be used", "", 0, 1),
        new(ArrayProbability, "Least probability that the array holds", "", 0, 1),
        new(CalibratorStepDb, "Greatest change of a calibrator since its certificate before", "dB"),
        new(CheckDifferenceDb, "Greatest difference of the checks before and after", "dB"),
        new(CheckDeviationDb, "Greatest deviation of a chain from its certificates in a check", "dB", 0.001, 60),
        new(CheckSpreadDb, "Greatest spread of the insertions of one check", "dB", 0.001, 60),
        new(CheckSpanHours, "Longest time from a check to what was recorded; without it the same local day, or one session", "h", 0.1, 8760),
        new(CheckTestDay,
            "Checks before and after each day's testing, " + SiteDay + ": the day by the site's clock, or a session that was stated; "
                + "without it also one that runs over midnight",
            ""),
        new(CheckIntervalMinutes, "Longest time by the clock between two checks of a chain around what was recorded", "min", 1, 1440),
        new(CheckToEventMinutes, "Longest time by the clock from a check to what was recorded, whatever day or session", "min", 1, 1440),
        new(CheckVariationDb, "Greatest difference of any two checks of a chain over a day or session", "dB", 0.001, 60),
        new(CheckAir, "What of the day's air the calibrator's level is worked out for: " + string.Join(", ", AirWords), ""),
        new(InPlaceDb, "Greatest move of a chain against the others between comparisons in place; without it as between checks", "dB", 0.001, 60),
        new(InPlaceHours,
            "Longest time from a comparison in place to what was recorded, where its checks lie on other days; "
                + "without it the same local day, or one session",
            "h", 0.1, 8760),
        new(DecisionRule, "Decision rule of checks: " + string.Join(", ", Metrology.Conformity.DecisionRule.Names), ""),
        new(DecisionProbability, "Least probability for the rule by probability", "", 0.5, 1),
        new(CalibratorClasses, "Classes of calibrator allowed", ""),
        new(CalibratorClassLeast, "Least class of calibrator with its edition, such as IEC 60942:1997 1L or later", ""),
        new(FilterClassLeast, "Least class of filters with its edition, such as IEC 61260:1995 1", ""),
        new(MeterClassLeast, "Least class of sound level meters with its edition, such as IEC 651:1979 1", ""),
        new(Mounts, "Mounts allowed", ""),
        new(ResponseTypes, "Response types allowed", ""),
        new(MountToleranceDb, "Greatest loss of the mount over the band of interest", "dB", 0.01, 60),
        new(PlateInspectionMonths, "Greatest age of a plate's inspection", "months", 1, 600),
        new(FlushStepMm, "Greatest step between diaphragm and plate", "mm"),
        new(GapMm, "Gap of an inverted capsule", "mm"),
        new(GapToleranceMm, "Tolerance of that gap", "mm"),
        new(FlatnessMm, "Greatest deviation of a plate from flat", "mm"),
        new(PlateDiameterMm, "Least diameter of a plate", "mm"),
        new(PlateThicknessMm, "Least thickness of a plate", "mm"),
        new(CapsuleShare, "Distance of an inverted capsule from the plate's centre, as a share of its radius", "", 0, 1),
        new(CapsuleToleranceMm, "Tolerance of that distance", "mm"),
        new(LevelMarginDb, "Margin to a microphone's highest level", "dB"),
        // Of the microphone's own noise: that of the site, which published rules limit, is not known here.
        new(NoiseMarginDb, "Margin to a microphone's noise floor", "dB"),
        new(SpareShare, "Spare microphones for each station", "", 0, 10),
        new(BandFromHz, "Lowest frequency that results are used at", "Hz", 0.1, 1e6),
        new(BandToHz, "Highest frequency that results are used at", "Hz", 0.1, 1e6),
        new(ResponseClass, "Limits of a microphone's response: " + string.Join(" or ", Metrology.ResponseLimits.ResponseTable.Keys), ""),
        new(ResponseByAngle, "Limits of a microphone's response by angle: " + string.Join(" or ", Metrology.ResponseLimits.AngleTable.Keys), ""),
        new(WindMs, "Greatest wind at an event, mean", "m/s", 0, 100),
        new(GustMs, "Greatest wind at an event, gusts", "m/s", 0, 150),
        new(CrosswindMs, "Greatest wind across the track at an event, mean", "m/s", 0, 100),
        new(CrosswindGustMs, "Greatest wind across the track at an event, gusts", "m/s", 0, 150),
        new(TemperatureLeastC, "Lowest temperature at an event", "°C", -50, 70),
        new(TemperatureMostC, "Highest temperature at an event", "°C", -50, 70),
        new(HumidityLeastPercent, "Least humidity at an event", "%", 0, 100),
        new(HumidityMostPercent, "Greatest humidity at an event", "%", 0, 100),
        new(WeatherMinutes, "Longest time from a reading of the weather to an event that has none of its own; without it three hours",
            "min", 1, 1440),
    ];

    /// <summary>Stored words of the printed tables that a limit can name, edition included; null for limits that are no table.</summary>
    public static IReadOnlyList<string>? TablesOf(string key) => key switch
    {
        ResponseClass => Metrology.ResponseLimits.ResponseTable.Keys,
        ResponseByAngle => Metrology.ResponseLimits.AngleTable.Keys,
        _ => null,
    };

    /// <summary>The first word of a limit that names no table that is held here; null where all do.</summary>
    public static string? UnknownTable(string key, string? words) => TablesOf(key) is { } tables
        ? (words ?? "").Split(',', StringSplitOptions.TrimEntries).FirstOrDefault(t => !tables.Contains(t))
        : null;

    /// <summary>The sort of instrument whose least class a key limits; null for all other keys.</summary>
    public static InstrumentSort? SortOf(string key) => key switch
    {
        CalibratorClassLeast => InstrumentSort.Calibrator,
        FilterClassLeast => InstrumentSort.Filter,
        MeterClassLeast => InstrumentSort.Meter,
        _ => null,
    };

    private static readonly Dictionary<string, LimitKey> ByKey = All.ToDictionary(k => k.Key);

    /// <summary>Words and unit of a key; null where it is none.</summary>
    public static LimitKey? Find(string key)
    {
        if (ByKey.TryGetValue(key, out var known)) return known;
        var parts = key.Split('/');
        if (CertificateLimits.Find(key, parts) is { } ofCertificates) return ofCertificates;
        if (parts is ["change", var changing, var quantity] && Devices.DeviceKind.Find(changing) is { } changes)
        {
            return new(key, $"{changes.Label}: greatest change of its {quantity} between calibrations",
                Devices.DeviceKind.UnitOf(quantity), 0.001, 60);
        }
        return parts.Length == 3 && Devices.DeviceKind.Find(parts[1]) is { } kind && parts[0] is "interval-months" or "interval-days"
            ? new(key, $"{Devices.DeviceKind.Find(parts[1])!.Label}: age of its {parts[2]} calibration",
                parts[0] == "interval-days" ? "days" : "months", 1, parts[0] == "interval-days" ? 18_000 : 600)
            : null;
    }
}
