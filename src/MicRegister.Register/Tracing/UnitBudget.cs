using MicRegister.Metrology.Uncertainty;

namespace MicRegister.Register.Tracing;

/// <summary>What a sensitivity level is relative to.</summary>
public enum SensitivityUnit
{
    /// <summary>1 V/Pa.</summary>
    Volts,

    /// <summary>1 full scale/Pa.</summary>
    FullScale,
}

/// <summary>
/// Where the uncertainty of a level comes from that is given in V/Pa and in full scale/Pa. Between both stands the gain of the recorder
/// channel: a level that a voltage told needs it in full scale/Pa, one that a recorded tone told in V/Pa.
/// </summary>
/// <remarks>
/// With r the share that recorded tones told: level in V/Pa = told - r · gain, in full scale/Pa = told + (1 - r) · gain, so that the
/// coefficients of the gain are -r and 1 - r (JCGM 100:2008, 5.1.3). Its certificate is one source: two checks by recorded tones do not
/// halve it (5.2.2), and stations that share the certificate are correlated by it.
/// </remarks>
/// <param name="Common">What counts in both units.</param>
/// <param name="Gain">How well the gain is known, with its coefficient as if it were the result; empty where nothing says how well.</param>
/// <param name="RecordedShare">Which share of the level recorded tones told, 0 to 1; the rest was told in V/Pa.</param>
/// <param name="HasFullScale">Whether a level in full scale/Pa is known at all.</param>
public sealed record UnitBudget(
    IReadOnlyList<UncertaintyComponent> Common, IReadOnlyList<UncertaintyComponent> Gain, double RecordedShare, bool HasFullScale)
{
    /// <summary>Coefficient of the channel's gain in a unit, in dB for each dB.</summary>
    public double OfGain(SensitivityUnit unit) => OfGain(unit, RecordedShare);

    /// <summary>The contributions in a unit.</summary>
    public IReadOnlyList<UncertaintyComponent> In(SensitivityUnit unit)
    {
        var ofGain = OfGain(unit);
        return ofGain == 0 || Gain.Count == 0 ? Common : [.. Common, .. Gain.Select(g => g with { Sensitivity = ofGain * g.Sensitivity })];
    }

    /// <summary>The same with what counts in both units besides.</summary>
    public UnitBudget With(IEnumerable<UncertaintyComponent> more) => this with { Common = [.. Common, .. more] };

    /// <summary>The lines of the budget, each with its coefficients in both units; contributions of one quantity are one line.</summary>
    public IReadOnlyList<BudgetOfSource> Sources
    {
        get
        {
            var (volts, fullScale) = (OfGain(SensitivityUnit.Volts), OfGain(SensitivityUnit.FullScale));
            var lines = Common.Select(c => (Quantity: c, Volts: c.Sensitivity, FullScale: c.Sensitivity));
            if (HasFullScale || volts != 0)
                lines = lines.Concat(Gain.Select(g => (Quantity: g, Volts: volts * g.Sensitivity, FullScale: fullScale * g.Sensitivity)));
            return [.. lines.GroupBy(l => l.Quantity with { Sensitivity = 1 }).Select(g => BudgetOfSource.Of(
                g.Key with { Sensitivity = g.Sum(l => l.Volts) }, HasFullScale ? g.Sum(l => l.FullScale) : null))];
        }
    }

    internal static double OfGain(SensitivityUnit unit, double recordedShare) =>
        unit == SensitivityUnit.Volts ? -recordedShare : 1 - recordedShare;
}

/// <summary>How well a level is known in one unit.</summary>
/// <param name="Budget">Where its uncertainty comes from; one source counts once, with its sign.</param>
public sealed record UnitUncertainty(IReadOnlyList<UncertaintyComponent> Budget)
{
    private readonly UncertaintyBudget _all = new(Budget);

    /// <summary>Combined standard uncertainty in dB.</summary>
    public double StandardDb => _all.Standard;

    /// <summary>k, for 95.45 %.</summary>
    public double CoverageFactor => field == 0 ? field = _all.CoverageFactor() : field;

    /// <summary>Expanded uncertainty in dB.</summary>
    public double ExpandedDb => CoverageFactor * StandardDb;

    /// <summary>Uncertainty of one part, without the other.</summary>
    public PartUncertainty Part(UncertaintyPart part) => PartUncertainty.Of(Budget, part);
}
