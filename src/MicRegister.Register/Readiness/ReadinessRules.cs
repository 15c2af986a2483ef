using static MicRegister.Register.Readiness.CalibrationRules;
using static MicRegister.Register.Readiness.ChainRules;
using static MicRegister.Register.Readiness.CheckKitRules;
using static MicRegister.Register.Readiness.CheckRules;
using static MicRegister.Register.Readiness.PlanRules;
using static MicRegister.Register.Readiness.PlateRules;
using static MicRegister.Register.Readiness.UseRules;

namespace MicRegister.Register.Readiness;

/// <summary>Every rule of readiness, in the order in which people read them.</summary>
public static class ReadinessRules
{
    public static IReadOnlyList<ReadinessRule> All { get; } =
    [
        new("newer-facts", "Facts about the device cannot be read by this version", WrittenByNewer),
        new("not-registered", "The plan names a device that is not registered", NotRegistered),
        new("contradiction", "Facts about the device contradict each other", Contradicted),
        new("unfit", "The device is out of service, lost, away or retired", Unfit),
        new("double-booked", "The device is planned twice at the same time", DoubleBooked),
        new("chain-incomplete", "A station lacks a part of its chain", ChainIncomplete),
        new("never-calibrated", "A calibration that the profile asks for is missing", NeverCalibrated),
        new("due", "A calibration is out of date before the campaign ends", Due),
        new("begun-anew", "Work after the newest calibration made another device of it", BegunAnew),
        new("no-uncertainty", "No result states an uncertainty, so that nothing can be forecast", NoUncertainty),
        new("forecast", "The device may leave its limit before the campaign ends", Forecast),
        new("step", "A change of sensitivity that nobody looked at yet", StepNotLookedAt),
        new("set-parted", "Devices calibrated as a set are not together", SetParted),
        new("response-type", "The microphone's response does not suit the mount", ResponseType),
        new("frequency-range", "The microphone does not cover the band of interest", FrequencyRange),
        new("mount", "The mount does not suit the source, the band or the profile", MountSuits),
        new("highest-level", "The microphone may be driven too high", HighestLevel),
        new("noise-floor", "The microphone's own noise is too near", NoiseFloor),
        new("parts-fit", "Parts of the chain do not fit each other", PartsFit),
        new("plate-inspection", "The plate was not inspected in time, or failed", PlateInspected),
        new("plate-geometry", "The capsule does not sit in the plate as it must", PlateGeometry),
        new("plates-alike", "Plates of one campaign differ", PlatesAlike),
        new("no-calibrator", "No calibrator goes along", CalibratorPresent),
        new("calibrator-class", "The calibrator's class does not suffice", CalibratorClass),
        new("calibrator-step", "The calibrator changed since its certificate before", CalibratorStep),
        new("calibrator-fit", "No calibrator fits a microphone of the campaign", CalibratorFits),
        new("altitude", "The site's pressure is outside what corrections cover", Altitude),
        new("barometer", "A pistonphone goes along without a barometer in date", Barometer),
        new("check", "A check with a calibrator was rejected", Rejected),
        new("check-missing", "A chain was checked before or after its recordings only", CheckRules.Missing),
        new("check-unsound", "A check states what cannot be", Unsound),
        new("spares", "Too few spares go along", Spares),
        new("profile", "The profile is missing or unchecked", ProfileChecked),
    ];

    private static readonly Dictionary<string, ReadinessRule> ByKey = All.ToDictionary(r => r.Key);

    public static ReadinessRule? Find(string key) => ByKey.GetValueOrDefault(key);
}

/// <param name="Key">Stable key, shown with each finding.</param>
/// <param name="Title">What it looks for.</param>
/// <param name="Judge">The rule itself: a pure function.</param>
public sealed record ReadinessRule(string Key, string Title, Func<ReadinessContext, IEnumerable<Finding>> Judge);
