using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;

namespace MicRegister.Register.Comparison;

/// <summary>How two campaigns were set up, side by side, and whether their levels can be compared. A pure function of the register.</summary>
/// <param name="A">The first campaign.</param>
/// <param name="B">The second campaign.</param>
/// <param name="Rows">Both in words, in a fixed order.</param>
/// <param name="DifferenceDb">
/// How much higher the set-up of A alone makes a level than that of B at the same sound, in dB; null where a mount is not known or mixed.
/// </param>
/// <param name="CommonFromHz">Lower end of the band in which all mounts of both hold.</param>
/// <param name="CommonToHz">Its upper end; infinite where no mount sets one, not above the lower end where there is no such band.</param>
/// <param name="Verdict">Whether a comparison holds.</param>
/// <param name="Reasons">Why it does not hold, or only as an average; empty where it holds.</param>
/// <param name="ToDo">What has to be done to the levels before they are compared; empty where nothing.</param>
public sealed record SetupComparison(
    SetupSide A, SetupSide B, IReadOnlyList<SetupRow> Rows, double? DifferenceDb, double CommonFromHz, double CommonToHz,
    ComparisonVerdict Verdict, IReadOnlyList<string> Reasons, IReadOnlyList<string> ToDo)
{
    private const double SameDb = 0.005;

    /// <summary>Whether there is a band in which all mounts of both hold.</summary>
    public bool HasCommonBand => CommonFromHz < CommonToHz;

    /// <summary>Compares two campaigns.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaignA">Id of the first.</param>
    /// <param name="campaignB">Id of the second; the same id compares a campaign with itself.</param>
    /// <returns>Null where the plan of either is not known.</returns>
    public static SetupComparison? Of(Register register, string campaignA, string campaignB)
    {
        if (SetupSide.Of(register, campaignA) is not { } a || SetupSide.Of(register, campaignB) is not { } b) return null;
        List<SetupMount> mounts = [.. a.Mounts, .. b.Mounts];
        double from = mounts.Count == 0 ? 0 : mounts.Max(m => m.FromHz), to = mounts.Count == 0 ? 0 : mounts.Min(m => m.ToHz);
        double? difference = a.RaisesDb is { } raisesA && b.RaisesDb is { } raisesB ? raisesA - raisesB : null;
        List<string> against = [.. Against(a), .. campaignA == campaignB ? [] : Against(b)];
        if (mounts.Count > 0 && from >= to)
        {
            against.Add(FormattableString.Invariant(
                $"No band is common to all mounts: one holds from {from:0} Hz on, another up to {to:0} Hz."));
        }
        else if (mounts.Count > 0
            && Math.Max(from, Math.Max(a.Plan.LowestHz, b.Plan.LowestHz)) >= Math.Min(to, Math.Min(a.Plan.HighestHz, b.Plan.HighestHz)))
        {
            against.Add("The band that is common to all mounts lies outside of what the campaigns were interested in.");
        }
        if (difference is { } d && Math.Abs(d) > SameDb && (a.IsNormalisationMissing || b.IsNormalisationMissing))
        {
            against.Add($"The mounts differ by {QuantityText.Of(Math.Abs(d), "dB", 2)}, and that is not taken off all levels: "
                + "at some stations the mount's normalisation is not applied.");
        }
        List<string> average = [];
        if (mounts.Any(m => m.Mount == Mount.GroundStand))
        {
            average.Add("On a stand over the ground direct and reflected sound interfere: "
                + "3.01 dB hold as an average over bands, never for a tone (common practice, no source).");
        }
        var verdict = against.Count > 0
            ? ComparisonVerdict.DoesNotHold
            : average.Count > 0 ? ComparisonVerdict.HoldsAsBandAverage : ComparisonVerdict.Holds;
        return new(a, b, Table(a, b), difference, from, to, verdict, [.. against, .. average], [.. Steps(a, b, difference)]);
    }

    private static IEnumerable<string> Against(SetupSide side)
    {
        if (side.Mounts.Count == 0) yield return $"{side.Name}: no mount is known, since no station was planned.";
        if (side.Unplanned.Count > 0)
            yield return $"{side.Name}: the mount at {string.Join(", ", side.Unplanned)} is not known, since the station was not planned.";
        var words = string.Join(", ", side.Mounts.Select(m => m.Mount.InWords));
        if (side.Mounts.Count > 1) yield return $"{side.Name}: its mounts are mixed ({words}); compare stations of one mount.";
        if (MountPractice.Takes(Mount.InvertedPlate, side.Plan.Source) == false && side.Mounts.Any(m => m.Mount == Mount.InvertedPlate))
        {
            yield return $"{side.Name}: inverted over a plate does not suit small multirotors, "
                + "whose sound runs above 10 kHz (common practice, no source).";
        }
        if (side.Checks == 0) yield return $"{side.Name}: no chain was checked, so that nobody knows what its levels rest on.";
    }

    private static IEnumerable<string> Steps(SetupSide a, SetupSide b, double? difference)
    {
        if (difference is not { } d || Math.Abs(d) <= SameDb) yield break;
        var (toA, toB) = (QuantityText.Change(0 - a.RaisesDb, "dB", 2), QuantityText.Change(0 - b.RaisesDb, "dB", 2));
        yield return $"Bring both to the free field first: add {toA} to levels of {a.Name} and {toB} to levels of {b.Name}, each once; "
            + $"as measured they differ by {QuantityText.Change(d, "dB", 2)} at the same sound (common practice, no source).";
    }

    private static IReadOnlyList<SetupRow> Table(SetupSide a, SetupSide b) =>
    [
        Row("source", a, b, s => s.Plan.Source.InWords),
        Row("band of interest", a, b, s => FormattableString.Invariant($"{s.Plan.LowestHz:0.#} Hz to {s.Plan.HighestHz:0.#} Hz")),
        Row("mounts", a, b, s => Listed(s.Mounts.Select(Words).Concat(s.Unplanned.Select(u => $"not known: {u}")))),
        Row(
            "normalisation to the free field", a, b,
            s => Listed(s.Mounts.Select(m => $"{m.Mount.InWords}: {QuantityText.Change(0 - m.RaisesDb, "dB", 2)}"))),
        Row("band of use", a, b, s => Listed(s.Mounts.Select(m => $"{m.Mount.InWords}: {Band(m.FromHz, m.ToHz)}"))),
        Row("sensitivity applied", a, b, s => s.Rule.InWords),
        Row("response types of microphones", a, b, s => Listed(s.ResponseTypes.Select(t => $"{t.Type}: {t.Microphones}"))),
        Row(
            "stations checked before and after", a, b,
            s => s.CheckedShare is { } share ? FormattableString.Invariant($"{100 * share:0} %") : "none used"),
        Row(
            "greatest difference of checks", a, b,
            s => s.GreatestDifferenceDb is { } db ? QuantityText.Of(db, "dB", 3) : "none compares"),
        Row(
            "median expanded uncertainty of sensitivities in V/Pa", a, b,
            s => s.MedianExpandedDb is { } u ? $"{QuantityText.Of(u, "dB", 3)} over {s.SampledEvents} events" : "none applied"),
        Row("profile", a, b, s => s.Profile),
        Row("calibrators", a, b, s => Listed(s.Calibrators)),
    ];

    private static SetupRow Row(string what, SetupSide a, SetupSide b, Func<SetupSide, string> tell) => new(what, tell(a), tell(b));

    private static string Listed(IEnumerable<string> parts) => string.Join("; ", parts) is { Length: > 0 } text ? text : "none";

    private static string Words(SetupMount mount)
    {
        var heights = string.Join(", ", mount.HeightsM.Select(h => FormattableString.Invariant($"{h:0.####} m")));
        return FormattableString.Invariant($"{mount.Mount.InWords}: {mount.Stations} at {heights}");
    }

    private static string Band(double fromHz, double toHz) =>
        double.IsPositiveInfinity(toHz)
            ? FormattableString.Invariant($"{fromHz:0} Hz and up")
            : FormattableString.Invariant($"{fromHz:0} Hz to {toHz:0} Hz");
}

/// <summary>One thing about two set-ups, in words.</summary>
/// <param name="What">What it is.</param>
/// <param name="A">In the first campaign.</param>
/// <param name="B">In the second.</param>
public sealed record SetupRow(string What, string A, string B)
{
    /// <summary>Whether both say the same.</summary>
    public bool IsSame => string.Equals(A, B, StringComparison.Ordinal);
}

/// <summary>A mount as a campaign used it.</summary>
/// <param name="Mount">The mount.</param>
/// <param name="Stations">At how many stations.</param>
/// <param name="HeightsM">Heights of the diaphragm over ground or plate in m, each once, lowest first.</param>
/// <param name="FromHz">Lowest frequency in Hz at which all of them keep their normalisation.</param>
/// <param name="ToHz">Highest; infinite where nothing sets one.</param>
public sealed record SetupMount(Mount Mount, int Stations, IReadOnlyList<double> HeightsM, double FromHz, double ToHz)
{
    /// <summary>
    /// How much higher a level is than in the free field, in dB: 20 lg 2 at a plate, 10 lg 2 as an average
    /// on a stand, 0 on a pole (common practice, no source).
    /// </summary>
    public double RaisesDb => Mount.RaisesDb;
}

/// <summary>Whether levels of two campaigns can be compared.</summary>
public enum ComparisonVerdict
{
    /// <summary>Once both are brought to the free field, within the common band.</summary>
    Holds,

    /// <summary>The same, for averages over bands alone, never for a tone.</summary>
    HoldsAsBandAverage,

    DoesNotHold,
}
