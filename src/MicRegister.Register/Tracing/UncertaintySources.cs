using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Mounting;

namespace MicRegister.Register.Tracing;

/// <summary>Which part of a result's uncertainty a source belongs to.</summary>
public enum UncertaintyPart
{
    /// <summary>How well the sensitivity is known: calibrations, checks, air, responses.</summary>
    Sensitivity,

    /// <summary>How well it is known what mount and direction of the sound make of a level.</summary>
    MountAndDirection,
}

/// <summary>The identities of sources that are no facts.</summary>
internal static class UncertaintySources
{
    /// <summary>The direction that the sound came from.</summary>
    public const string Angle = "angle of incidence";

    private const string OfMount = "mount ";

    /// <summary>
    /// What is assumed of a sort of mount. Stations of one sort get one normalisation, so that its error is common to them.
    /// </summary>
    public static string Mount(Campaigns.Mount mount) => OfMount + mount.Key;

    /// <summary>The part that a contribution belongs to.</summary>
    public static UncertaintyPart PartOf(UncertaintyComponent c) =>
        c.Source == Angle || c.Source.StartsWith(OfMount, StringComparison.Ordinal)
            ? UncertaintyPart.MountAndDirection
            : UncertaintyPart.Sensitivity;
}

/// <summary>One line of the budget of a result: what one source contributes.</summary>
/// <param name="Part">The part of the uncertainty that it belongs to.</param>
/// <param name="Name">What it is.</param>
/// <param name="Source">
/// Its identity. Lines of one source, in one budget or in those of several stations and events, are fully correlated; all others are not.
/// </param>
/// <param name="Unit">Unit of the quantity.</param>
/// <param name="StandardUncertainty">Standard uncertainty of the quantity, in its unit.</param>
/// <param name="Sensitivity">Sensitivity coefficient of the level in V/Pa, in dB for each unit, with its sign.</param>
/// <param name="ContributionDb">The product of both, in dB, with its sign: its contribution in V/Pa.</param>
/// <param name="DegreesOfFreedom">How well the standard uncertainty is known; null where it is taken as exact.</param>
/// <param name="Distribution">What is assumed of the quantity.</param>
public sealed record BudgetOfSource(
    UncertaintyPart Part, string Name, string Source, string Unit, double StandardUncertainty, double Sensitivity, double ContributionDb,
    double? DegreesOfFreedom, UncertaintyDistribution Distribution)
{
    /// <summary>Sensitivity coefficient of the level in full scale/Pa; null where that is not known.</summary>
    public double? FullScaleSensitivity { get; init; }

    /// <summary>Contribution to the level in full scale/Pa, in dB, with its sign; null where that is not known.</summary>
    public double? FullScaleContributionDb => FullScaleSensitivity * StandardUncertainty;

    /// <summary>The line of a quantity.</summary>
    /// <param name="c">The quantity, with its coefficient in V/Pa.</param>
    /// <param name="fullScale">Its coefficient in full scale/Pa; null where that is not known.</param>
    internal static BudgetOfSource Of(UncertaintyComponent c, double? fullScale) => new(
        UncertaintySources.PartOf(c), c.Name, c.Source, c.Unit, c.StandardUncertainty, c.Sensitivity, c.Contribution,
        double.IsFinite(c.DegreesOfFreedom) ? c.DegreesOfFreedom : null, c.Distribution)
    { FullScaleSensitivity = fullScale };
}

/// <summary>The uncertainty of one part of a result.</summary>
/// <param name="StandardDb">Combined standard uncertainty in dB.</param>
/// <param name="CoverageFactor">k.</param>
public sealed record PartUncertainty(double StandardDb, double CoverageFactor)
{
    /// <summary>Expanded uncertainty in dB.</summary>
    public double ExpandedDb => CoverageFactor * StandardDb;

    /// <summary>That of one part of a budget; nought where nothing contributes to it.</summary>
    internal static PartUncertainty Of(IEnumerable<UncertaintyComponent> components, UncertaintyPart part)
    {
        List<UncertaintyComponent> own = [.. components.Where(c => UncertaintySources.PartOf(c) == part)];
        var budget = new UncertaintyBudget(own.Count > 0 ? own : [new("nothing", "none", 0)]);
        return new(budget.Standard, budget.CoverageFactor());
    }
}
