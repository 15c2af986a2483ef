using static MicRegister.Register.Readiness.CalibrationRules;
using static MicRegister.Register.Readiness.ChainLimitRules;
using static MicRegister.Register.Readiness.ChainRules;
using static MicRegister.Register.Readiness.CheckClockRules;
using static MicRegister.Register.Readiness.CheckKitRules;
using static MicRegister.Register.Readiness.CheckRules;
using static MicRegister.Register.Readiness.ClassRules;
using static MicRegister.Register.Readiness.PlanRules;
using static MicRegister.Register.Readiness.PlateRules;
using static MicRegister.Register.Readiness.ResponseRules;
using static MicRegister.Register.Readiness.UseRules;

namespace MicRegister.Register.Readiness;

/// <summary>Every rule of readiness, in the order in which people read them.</summary>
public static class ReadinessRules
{
    public static IReadOnlyList<ReadinessRule> All { get; } =
    [
        OfPlan("newer-facts", "Facts about the device cannot be read by this version", WrittenByNewer),
        OfPlan("not-registered", "The plan names a device that is not registered", NotRegistered),
        OfDevice(
            "contradiction", "Facts about the device contradict each other",
            "Do the registrations of each device agree?", Contradicted, c => c.InUse),
        OfDevice(
            "unfit", "The device is out of service, lost, away or retired",
            "Was each device in service?", Unfit, c => c.InUse),
        OfPlan("double-booked", "The device is planned twice at the same time", DoubleBooked),
        OfPlan("chain-incomplete", "A station lacks a part of its chain", ChainIncomplete),
        OfDevice(
            "never-calibrated", "A calibration that the profile asks for is missing",
            "Is there each calibration that the profile asks for?", NeverCalibrated, c => c.InUse),
        OfDevice(
            "due", "A calibration is out of date before the campaign ends",
            "Was each calibration in date?", Due, c => c.InUse),
        OfDevice(
            "begun-anew", "Work after the newest calibration made another device of it",
            "Has each device been the same since its certificate?", BegunAnew, c => c.InUse),
        OfDevice(
            "change-in-bands", "A curve changed in a third-octave band since the certificate before",
            "Is each curve, band by band, as it was at the certificate before?", BandRules.ChangeInBands, c => c.InUse),
        OfDevice(
            "greatest-error", "A certificate's figure lies too far from the nominal one",
            "Does each figure lie near enough to the nominal one?", ErrorRules.ErrorWithin, c => c.InUse),
        OfDevice(
            "one-day-twice", "Two certificates of one quantity and day differ, and nobody chose",
            "Is it plain which certificate of a day is in force?", OneDayTwice, c => c.InUse),
        OfFuture("no-uncertainty", "No result states an uncertainty, so that nothing can be forecast", NoUncertainty),
        OfFuture("forecast", "The device may leave its limit before the campaign ends", Forecast),
        OfFuture("step", "A change of sensitivity that nobody looked at yet", StepNotLookedAt),
        OfChain(
            "set-parted", "Devices calibrated as a set are not together",
            "Did devices stand together that were calibrated as a set?", SetParted),
        OfChain(
            "response-type", "The microphone's response does not suit the mount",
            "Does the microphone's response suit the mount?", s => ResponseType(s).Concat(ResponseAllowed(s))),
        OfChain(
            "frequency-range", "The microphone does not cover the band of interest",
            "Does the microphone cover the band of interest?", FrequencyRange),
        OfChain(
            "response-limits", "The microphone's response leaves the limits that the profile names, or does not decide about them",
            "Did the microphone's response keep within the limits that the profile names?", WithinLimits),
        OfChain(
            "response-by-angle", "The microphone's response differs with the angle by more than the profile allows",
            "Did the microphone's response keep within limits by angle?", WithinLimitsByAngle),
        OfChain(
            "mount", "The mount does not suit the source, the band or the profile",
            "Does the mount suit the source, the band and the profile?", MountSuits),
        OfChain(
            "highest-level", "The microphone may be driven too high",
            "Does the microphone bear the levels that were expected?", HighestLevel),
        OfChain(
            "noise-floor", "The microphone's own noise is too near",
            "Does the microphone's own noise lie low enough?", NoiseFloor),
        OfChain(
            "parts-fit", "Parts of the chain do not fit each other",
            "Do the parts of the chain fit each other?", PartsFit),
        OfDevice(
            "plate-inspection", "The plate was not inspected in time, or failed",
            "Was the plate inspected in time, and sound?", PlateInspected, c => c.InUse.Where(c.IsAtStation)),
        OfChain(
            "plate-geometry", "The capsule does not sit in the plate as it must",
            "Did the capsule sit in the plate as it must?", s => PlateGeometry(s).Concat(CapsulePlace(s))),
        OfPlan("plates-alike", "Plates of one campaign differ", PlatesAlike),
        OfPlan("no-calibrator", "No calibrator goes along", CalibratorPresent),
        OfDevice(
            "calibrator-class", "The calibrator's class does not suffice",
            "Does the calibrator's class suffice?", ClassRules.CalibratorClass, c => c.CheckKit),
        OfDevice(
            "calibrator-limits", "The calibrator's certificate does not keep its class",
            "Does the calibrator's certificate keep the limits of its class?", CalibratorLimits, c => c.CheckKit),
        OfDevice(
            "instrument-class", "The class of a filter or meter does not suffice",
            "Do the classes of filters and meters suffice?", InstrumentClass, c => c.InUse),
        OfDevice(
            "calibrator-step", "The calibrator changed since its certificate before",
            "Was the calibrator as it was at its certificate before, or did somebody look at it?", CalibratorStep, c => c.CheckKit),
        OfDevice(
            "level-uncertainty", "The calibrator's certificate states no uncertainty",
            "Does the calibrator's certificate state an uncertainty?", LevelUncertainty, c => c.CheckKit),
        OfPlan("calibrator-fit", "No calibrator fits a microphone of the campaign", CalibratorFits),
        OfPlan("altitude-range", "The site's altitude cannot be", AltitudeRange),
        OfKit(
            "altitude", "The site's pressure is outside what a calibrator covers",
            "Does the calibrator cover the pressure that it was used at?", PressureCovered),
        OfKit(
            "barometer", "A pistonphone goes along without a barometer",
            "Was static pressure read where the calibrator's level follows it?", PressureRead),
        OfPlan("check", "A check with a calibrator was rejected", Rejected),
        OfPlan("check-missing", "A chain was checked before or after its recordings only", CheckRules.Missing),
        OfPlan("check-clock", "Checks by the clock: what the profile asks for, and what lies too far apart", ByTheClock),
        OfPlan("check-air", "Checks for the air of the test day, where the profile asks for it", AirOfDay),
        OfPlan("check-unsound", "A check states what cannot be", Unsound),
        OfPlan("spares", "Too few spares go along", Spares),
        OfPlan("profile", "The profile is missing or unchecked", ProfileChecked),
    ];

    private static ReadinessRule OfPlan(string key, string title, Func<ReadinessContext, IEnumerable<Finding>> judge) =>
        new(key, title, RuleScope.Plan, judge);

    private static ReadinessRule OfFuture(string key, string title, Func<ReadinessContext, IEnumerable<Finding>> judge) =>
        new(key, title, RuleScope.Future, judge);

    private static ReadinessRule OfChain(string key, string title, string question, Func<StandingChain, IEnumerable<Fault>> ask) =>
        new(key, title, RuleScope.Instant, c => c.Chains.SelectMany(chain => ask(c.Standing(chain)).Select(f =>
            c.About(key, f.Gravity, chain, f.Device, f.Clearing, f.Text, f.Figures))))
        {
            AskChain = ask,
            Question = question,
        };

    private static ReadinessRule OfDevice(
        string key, string title, string question, Func<StandingDevice, IEnumerable<Fault>> ask,
        Func<ReadinessContext, IEnumerable<Devices.DeviceState>> asked) =>
        new(key, title, RuleScope.Instant, c => asked(c).SelectMany(d => ask(c.Standing(d)).Select(f =>
            c.About(key, f.Gravity, d, f.From ?? c.Plan.FirstDay, f.Clearing, f.Text, f.Figures))))
        {
            AskDevice = ask,
            Question = question,
        };

    /// <summary>Rules that are asked of a campaign that is over as well: what its evidence lacks.</summary>
    internal static IReadOnlyList<ReadinessRule> OfEvidence { get; } =
        [.. All.Where(r => r.Key is "newer-facts" or "check" or "check-missing" or "check-clock" or "check-air" or "check-unsound")];

    private static ReadinessRule OfKit(string key, string title, string question, Func<StandingKit, IEnumerable<Fault>> ask) =>
        new(key, title, RuleScope.Instant, c => ask(c.StandingKit).Select(f => f.Device is { } device
            ? c.About(key, f.Gravity, device, c.Plan.FirstDay, f.Clearing, f.Text, f.Figures)
            : c.About(key, f.Gravity, f.Clearing, f.Text, f.Figures)))
        {
            AskKit = ask,
            Question = question,
        };

    private static readonly Dictionary<string, ReadinessRule> ByKey = All.ToDictionary(r => r.Key);

    public static ReadinessRule? Find(string key) => ByKey.GetValueOrDefault(key);
}

/// <param name="Key">Stable key, shown with each finding.</param>
/// <param name="Title">What it looks for.</param>
/// <param name="Scope">What it is a rule of.</param>
/// <param name="Judge">The rule itself: a pure function.</param>
public sealed record ReadinessRule(string Key, string Title, RuleScope Scope, Func<ReadinessContext, IEnumerable<Finding>> Judge)
{
    /// <summary>What a trace asks by it; null for rules that are not of an instant.</summary>
    internal string? Question { get; init; }

    /// <summary>The rule as it is asked of a chain at an instant; null for all others.</summary>
    internal Func<StandingChain, IEnumerable<Fault>>? AskChain { get; init; }

    /// <summary>The rule as it is asked of what a check is made with; null for all others.</summary>
    internal Func<StandingKit, IEnumerable<Fault>>? AskKit { get; init; }

    /// <summary>The rule as it is asked of one device at an instant; null for all others.</summary>
    internal Func<StandingDevice, IEnumerable<Fault>>? AskDevice { get; init; }
}

/// <summary>What a rule of readiness is a rule of.</summary>
public enum RuleScope
{
    /// <summary>Of a chain, or a device of one, at an instant: asked of what is planned and of what stood alike.</summary>
    Instant,

    /// <summary>Of the plan alone, or of what was done for it as a whole.</summary>
    Plan,

    /// <summary>Of the future alone: what was checked since then overrules it.</summary>
    Future,
}
