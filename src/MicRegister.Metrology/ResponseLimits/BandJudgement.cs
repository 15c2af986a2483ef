using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.ResponseLimits;

/// <summary>What a curve says about the limits of one band.</summary>
/// <param name="Band">The band.</param>
/// <param name="AngleDeg">Angle of incidence in °, where the limits are by angle; otherwise null.</param>
/// <param name="Step">The limits; null where the table has none.</param>
/// <param name="Point">The measured point that decides, its level the deviation; null where the curve has none in the band.</param>
/// <param name="Verdict">What it comes to.</param>
/// <param name="ByDb">How far the deviation lies outside of the limits in dB, above 0; null where it does not.</param>
/// <param name="Why">Why it is not decided or not covered, and what must be known of it; empty where nothing.</param>
public sealed record BandJudgement(
    ThirdOctave Band, double? AngleDeg, LimitStep? Step, CurvePoint? Point, BandVerdict Verdict, double? ByDb, string Why)
{
    /// <summary>Decides a point against the limits of its band.</summary>
    /// <param name="step">The limits.</param>
    /// <param name="deviationDb">Measured deviation in dB, finite; at a limit it is met.</param>
    /// <param name="expandedDb">Its expanded uncertainty (k = 2) in dB; null where none is stated.</param>
    /// <returns>The verdict, how far it lies outside in dB (null where it does not), and why it is open.</returns>
    /// <remarks>
    /// Where the document states the greatest uncertainty permitted, the measured value decides while U is not greater (IEC 61672-1:2013
    /// asks for both; from memory, unchecked); with a greater one only what lies outside by more than U is exceeded. Where it states
    /// none, limits are kept with U and left with U (JCGM 106:2012, 8.3.2 and 8.3.3, w = U). Without an uncertainty nothing is met.
    /// </remarks>
    internal static (BandVerdict Verdict, double? ByDb, string Why) Decide(LimitStep step, double deviationDb, double? expandedDb)
    {
        var tolerance = new Tolerance(step.LowerDb, step.UpperDb);
        double? by = tolerance.Simple(deviationDb) == ConformityVerdict.Conforms
            ? null
            : Math.Max(deviationDb - step.UpperDb, step.LowerDb - deviationDb);
        if (expandedDb is not { } u)
        {
            return by is null
                ? (BandVerdict.Undecided, by, "no uncertainty is stated")
                : (BandVerdict.Exceeded, by, "no uncertainty is stated");
        }
        if (step.MostExpandedDb is { } most && DecisionLimit.AtMost(u, most)) return (by is null ? BandVerdict.Met : BandVerdict.Exceeded, by, "");
        var verdict = tolerance.Guarded(deviationDb, u, 1);
        if (verdict == ConformityVerdict.DoesNotConform) return (BandVerdict.Exceeded, by, "");
        if (step.MostExpandedDb is { } permitted)
            return (BandVerdict.Undecided, by, $"U is greater than the {QuantityText.Of(permitted, "dB", 2)} that are permitted");
        return verdict == ConformityVerdict.Conforms
            ? (BandVerdict.Met, by, "")
            : (BandVerdict.Undecided, by, "the limit lies within U");
    }
}

/// <summary>What a curve says about a limit.</summary>
public enum BandVerdict
{
    /// <summary>Within the limits.</summary>
    Met,

    /// <summary>Outside of the limits.</summary>
    Exceeded,

    /// <summary>The uncertainty, or what is known of the measurement, does not let anybody decide.</summary>
    Undecided,

    /// <summary>The table has no limit there, or the curve no point.</summary>
    NotCovered,
}
