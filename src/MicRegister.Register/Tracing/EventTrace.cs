using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;

namespace MicRegister.Register.Tracing;

/// <summary>What applies to an event: each station's chain, its sensitivity and whether it can be relied on.</summary>
/// <param name="Event">The event.</param>
/// <param name="Rule">Which sensitivity is applied.</param>
/// <param name="Stations">In order of stations, then of time: a swap in mid-event parts a station in two.</param>
public sealed record EventTrace(RecordedEvent Event, SensitivityRule Rule, IReadOnlyList<StationTrace> Stations)
{
    /// <summary>The one verdict of its stations, as every list of events says it.</summary>
    public TraceVerdict Verdict { get; } = EventVerdict.Of(Stations).Verdict;

    /// <summary>What is known of its recording, in a sentence.</summary>
    public required string Recorded { get; init; }
}

/// <summary>What applies to one station during an event, or during a part of it.</summary>
/// <param name="Station">Name of the station.</param>
/// <param name="FromMs">Begin of the part, in milliseconds since 1970.</param>
/// <param name="ToMs">Its end.</param>
/// <param name="Plan">The planned place and mount; null where the station was not planned.</param>
/// <param name="Placement">What stood there; null where nothing did.</param>
/// <param name="Chain">Its devices as they were known on that day.</param>
/// <param name="Before">Check before; null where none is within the span.</param>
/// <param name="After">Check after; null where none is within the span.</param>
/// <param name="Links">Certificates that the result rests on, and what they rest on.</param>
/// <param name="Applied">What to apply; null where nothing is known.</param>
/// <param name="Verdict">The worst of the reasons.</param>
/// <param name="Reasons">Why, each with its source; empty where it is valid.</param>
public sealed record StationTrace(
    string Station, long FromMs, long ToMs, StationPlanned? Plan, Placement? Placement, IReadOnlyList<DeviceState> Chain,
    CheckRecord? Before, CheckRecord? After, IReadOnlyList<TraceLink> Links, AppliedSensitivity? Applied,
    TraceVerdict Verdict, IReadOnlyList<TraceReason> Reasons)
{
    /// <summary>Local day of the event.</summary>
    public DateOnly Day { get; init; }

    /// <summary>Where it is: as surveyed, otherwise as planned; null where the station was not planned.</summary>
    public StationPlace? Place { get; init; }

    /// <summary>Recorder that the chain was recorded with; null where nobody said.</summary>
    public string? Recorder { get; init; }

    /// <summary>Channel of that recorder, from 1; null where nobody said.</summary>
    public int? Channel { get; init; }

    /// <summary>Comparisons in place around it, the one before first.</summary>
    public IReadOnlyList<InPlaceEvidence> InPlace { get; init; } = [];

    /// <summary>Curves that act on what the chain recorded.</summary>
    public IReadOnlyList<ActingCurve> Curves { get; init; } = [];

    /// <summary>The direction that the sound came from; null where nobody said.</summary>
    public StatedIncidence? Incidence { get; init; }

    public DeviceState? Of(DeviceKind kind) => Chain.FirstOrDefault(d => d.Kind == kind.Key);
}

/// <summary>A certificate on the way down to a laboratory.</summary>
/// <param name="Depth">0 for a device of the chain or its calibrator, one more for each reference below.</param>
/// <param name="Device">The device.</param>
/// <param name="Certificate">
/// Its certificate in force that day, or the one that a check took the calibrator's level from or held the chain against; null where it
/// has none.
/// </param>
/// <param name="RestsOn">What the certificate was measured against, in words; null where it does not say.</param>
public sealed record TraceLink(int Depth, DeviceState Device, DeviceCertificate? Certificate, string? RestsOn)
{
    /// <summary>Day on which it was relied on: that of the event, or of the certificate above.</summary>
    public DateOnly Day { get; init; }

    /// <summary>The certificate that is in force now for the day of the check, where that is another one and says otherwise.</summary>
    public DeviceCertificate? InForce { get; init; }

    /// <summary>By how much that one lies above what was used, in dB; null where it is the same.</summary>
    public double? DifferenceDb { get; init; }
}

/// <summary>Why a result is not simply valid.</summary>
/// <param name="Weight">What it makes of it.</param>
/// <param name="Text">What is the matter.</param>
/// <param name="Source">Where that comes from: a fact, a limit of the profile, or common practice.</param>
public sealed record TraceReason(TraceVerdict Weight, string Text, string Source)
{
    /// <summary>Key of the question that it answers: reasons with one key are of one sort, whatever device they name.</summary>
    public string Question { get; init; } = "";
}

/// <summary>Whether a result can be relied on.</summary>
public enum TraceVerdict
{
    Valid,

    /// <summary>Something stands against it that a person should weigh.</summary>
    Doubtful,

    /// <summary>It cannot be decided here: something was said of it that this register cannot use.</summary>
    Undecided,

    /// <summary>It must not be used.</summary>
    NotValid,
}

/// <summary>What to apply to a recording.</summary>
/// <param name="Rule">How the sensitivity was told; another than the campaign's where that could not be followed.</param>
/// <param name="Terms">Level of the chain term by term, in dB re 1 V/Pa.</param>
/// <param name="VoltsDb">Sensitivity level in dB re 1 V/Pa: the sum of the terms.</param>
/// <param name="FullScaleDb">The same in dB re 1 full scale/Pa; null where the range is not known.</param>
/// <param name="NormalisationDb">To be added to a measured level for the free field, by the mount.</param>
/// <param name="UsableFromHz">Lowest frequency that the normalisation holds for.</param>
/// <param name="UsableToHz">
/// Highest frequency; infinite where the mount sets none. The mount's band ends where it loses what the profile allows, and 1 dB where that
/// says nothing (common practice, no source).
/// </param>
/// <param name="Caution">What must be known of the normalisation, of the air and of the channel's gain; null where nothing.</param>
/// <param name="Known">
/// Where its uncertainty comes from, in both units: how well the channel's gain is known counts where it converts.
/// </param>
public sealed record AppliedSensitivity(
    SensitivityRule Rule, IReadOnlyList<CheckTerm> Terms, double VoltsDb, double? FullScaleDb, double NormalisationDb,
    double UsableFromHz, double UsableToHz, string? Caution, UnitBudget Known)
{
    /// <summary>Share of the square of U from which one source is said to be nearly all of it (common practice, no source).</summary>
    public const double NearlyAll = 0.9;

    /// <summary>Frequency that the sensitivity holds for, in Hz: that of the calibrator, or of the certificate; null where neither says.</summary>
    public double? ReferenceHz { get; init; }

    /// <summary>Sensitivity in V/Pa.</summary>
    public double VoltsPerPascal => Math.Pow(10, VoltsDb / 20);

    /// <summary>Sensitivity in full scale/Pa; null where the range is not known.</summary>
    public double? FullScalePerPascal => FullScaleDb is { } db ? Math.Pow(10, db / 20) : null;

    /// <summary>What leads from V/Pa to full scale/Pa, term by term; empty where the range is not known.</summary>
    public IReadOnlyList<CheckTerm> FullScaleTerms { get; init; } = [];

    /// <summary>How well it is known in V/Pa.</summary>
    public UnitUncertainty InVolts { get; } = new(Known.In(SensitivityUnit.Volts));

    /// <summary>How well it is known in full scale/Pa; null where the range is not known.</summary>
    public UnitUncertainty? InFullScale => FullScaleDb is null ? null : field ??= new(Known.In(SensitivityUnit.FullScale));

    /// <summary>
    /// What is not in the uncertainty in the one or the other unit, since nothing says how well the channel's gain is
    /// known; otherwise null.
    /// </summary>
    public string? GainCaution { get; init; }

    /// <summary>Where the uncertainty in V/Pa comes from.</summary>
    public IReadOnlyList<Metrology.Uncertainty.UncertaintyComponent> Budget => InVolts.Budget;

    /// <summary>Combined standard uncertainty in dB, in V/Pa.</summary>
    public double StandardDb => InVolts.StandardDb;

    /// <summary>k, in V/Pa.</summary>
    public double CoverageFactor => InVolts.CoverageFactor;

    /// <summary>Expanded uncertainty in dB, in V/Pa.</summary>
    public double ExpandedDb => InVolts.ExpandedDb;

    /// <summary>The budget by source, with what identifies each and its coefficients in both units.</summary>
    public IReadOnlyList<BudgetOfSource> Sources => Known.Sources;

    /// <summary>Uncertainty of one part in V/Pa, without the other.</summary>
    public PartUncertainty Part(UncertaintyPart part) => InVolts.Part(part);

    /// <summary>How well it is known in a unit; null in full scale/Pa where the range is not known.</summary>
    public UnitUncertainty? In(SensitivityUnit unit) => unit == SensitivityUnit.Volts ? InVolts : InFullScale;

    /// <summary>Which part of the square of the uncertainty in V/Pa comes from mount and direction, 0 to 1.</summary>
    public double MountShare => StandardDb > 0 ? Math.Pow(Part(UncertaintyPart.MountAndDirection).StandardDb / StandardDb, 2) : 0;

    /// <summary>What must be known of the uncertainty; null where nothing.</summary>
    public string? UncertaintyNote => MountShare >= NearlyAll
        ? FormattableString.Invariant($"U is nearly all the assumed limit of the mount: {Math.Floor(1000 * MountShare) / 10:0.0} % ")
            + "of its square; the sensitivity alone is known better."
        : null;
}
