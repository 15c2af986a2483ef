using MathNet.Numerics.Distributions;

namespace MicRegister.Metrology.Uncertainty;

/// <summary>The contributions to the uncertainty of one result, and what they come to.</summary>
/// <remarks>
/// GUM (JCGM 100:2008) 5.1.2 and 5.2.2: contributions of one source add up with their signs before they are squared, so that what is common to
/// two results cancels in their difference and stays whole in their mean. Effective degrees of freedom by Welch-Satterthwaite, G.4.1, with a
/// source as one term.
/// </remarks>
public sealed class UncertaintyBudget
{
    /// <summary>Share of 2 standard deviations on both sides of a normal distribution.</summary>
    public const double UsualCoverage = 0.9545;

    /// <param name="components">At least one; standard uncertainties and coefficients finite, degrees of freedom above 0.</param>
    /// <exception cref="ArgumentException">No component, or a figure out of range.</exception>
    public UncertaintyBudget(IReadOnlyList<UncertaintyComponent> components)
    {
        if (components.Count == 0) throw new ArgumentException("A budget needs at least one component.");
        foreach (var c in components)
        {
            if (!(c.StandardUncertainty >= 0) || !double.IsFinite(c.StandardUncertainty) || !double.IsFinite(c.Sensitivity) || !(c.DegreesOfFreedom > 0))
                throw new ArgumentException($"{c.Name}: a component needs a standard uncertainty that is not negative ({c.StandardUncertainty}), a finite coefficient ({c.Sensitivity}) and degrees of freedom above 0 ({c.DegreesOfFreedom}).");
        }
        Components = components;
        var (variance, spread) = (0.0, 0.0);
        for (var i = 0; i < components.Count; i++)
        {
            if (IsOfEarlier(components, i)) continue;
            var (sum, freedom) = Together(components, i);
            variance += sum * sum;
            if (double.IsFinite(freedom)) spread += Math.Pow(sum, 4) / freedom;
        }
        Standard = Math.Sqrt(variance);
        EffectiveDegreesOfFreedom = spread > 0 ? Math.Pow(Standard, 4) / spread : double.PositiveInfinity;
    }

    // A budget has a dozen lines: looking through them is faster than a table of their sources.
    private static bool IsOfEarlier(IReadOnlyList<UncertaintyComponent> components, int at)
    {
        for (var i = 0; i < at; i++)
        {
            if (components[i].Source == components[at].Source) return true;
        }
        return false;
    }

    // What one source contributes, and its least degrees of freedom.
    private static (double Sum, double Freedom) Together(IReadOnlyList<UncertaintyComponent> components, int first)
    {
        var (sum, freedom) = (0.0, double.PositiveInfinity);
        for (var i = first; i < components.Count; i++)
        {
            if (components[i].Source != components[first].Source) continue;
            sum += components[i].Contribution;
            freedom = Math.Min(freedom, components[i].DegreesOfFreedom);
        }
        return (sum, freedom);
    }

    public IReadOnlyList<UncertaintyComponent> Components { get; }

    /// <summary>Combined standard uncertainty, in the result's unit.</summary>
    public double Standard { get; }

    public double EffectiveDegreesOfFreedom { get; }

    /// <summary>Coverage factor: Student's t with the effective degrees of freedom, cut to a whole number.</summary>
    /// <param name="coverage">Share between 0 and 1, both exclusive.</param>
    public double CoverageFactor(double coverage = UsualCoverage)
    {
        if (coverage is not (> 0 and < 1)) throw new ArgumentOutOfRangeException(nameof(coverage), coverage, "A coverage lies between 0 and 1, both exclusive.");
        var upper = (1 + coverage) / 2;
        // The last bits of a whole number of degrees of freedom must not cost one. Beyond a million the t distribution is the normal one to six digits.
        return EffectiveDegreesOfFreedom > 1e6 ? Normal.InvCDF(0, 1, upper) : StudentT.InvCDF(0, 1, Math.Max(1, Math.Floor((EffectiveDegreesOfFreedom * (1 + 1e-12)) + 1e-9)), upper);
    }

    /// <summary>Expanded uncertainty, in the result's unit.</summary>
    public double Expanded(double coverage = UsualCoverage) => CoverageFactor(coverage) * Standard;

    /// <summary>Covariance of two results, in the square of their unit: what they have in common, each with its sign.</summary>
    /// <remarks>GUM (JCGM 100:2008) F.1.2.3, equation F.2: the sum over common sources of the product of both contributions.</remarks>
    /// <param name="a">Contributions to one result.</param>
    /// <param name="b">Those to the other; of the same result the covariance is its variance.</param>
    public static double Covariance(IEnumerable<UncertaintyComponent> a, IEnumerable<UncertaintyComponent> b)
    {
        var others = b.GroupBy(c => c.Source, StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => g.Sum(c => c.Contribution), StringComparer.Ordinal);
        return a.GroupBy(c => c.Source, StringComparer.Ordinal)
            .Sum(g => others.TryGetValue(g.Key, out var other) ? g.Sum(c => c.Contribution) * other : 0);
    }

    /// <summary>The budget of a weighted sum of results, such as after minus before (1, -1) or a mean (½, ½).</summary>
    /// <param name="terms">Each result's budget with its weight.</param>
    public static UncertaintyBudget OfSum(params IReadOnlyList<(UncertaintyBudget Budget, double Weight)> terms) =>
        new([.. terms.SelectMany(t => t.Budget.Components.Select(c => c with { Sensitivity = t.Weight * c.Sensitivity }))]);
}
