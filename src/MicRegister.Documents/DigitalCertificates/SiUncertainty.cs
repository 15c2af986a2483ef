using System.Xml.Linq;
using MicRegister.Metrology.Lines;
using MicRegister.Metrology.Uncertainty;

namespace MicRegister.Documents.DigitalCertificates;

/// <summary>The uncertainty of D-SI values, in the forms to 2.1 and from 2.2.</summary>
/// <param name="Expanded">One for each value; null where none was read.</param>
/// <param name="Factor">Coverage factor of each.</param>
/// <param name="Remark">Where it is from, or why none was read.</param>
internal sealed record SiUncertainty(IReadOnlyList<double>? Expanded, IReadOnlyList<double>? Factor, string Remark)
{
    // Of 95 % intervals without a factor the rectangular distribution has the smallest, 0.95 times the square root of 3, so that no
    // standard uncertainty comes out too small.
    private static readonly double LeastFactor = 0.95 * Math.Sqrt(3);

    private const double LeastStated = 1;
    private const double GreatestStated = 10;

    private static readonly string[] Speaking = ["unc", "mu", "coverage", "interval", "distribution"];

    // Figures of two forms of one uncertainty were rounded apart.
    private const double Rounding = 0.05;

    private bool IsHalf { get; init; }

    /// <summary>Reads the uncertainty that stands within a value; several forms of it must say the same.</summary>
    public static SiUncertainty Read(XElement real, IReadOnlyList<double> values, string name)
    {
        var univariate = SiQuantity.Children(real, "measurementUncertaintyUnivariate").ToList();
        List<SiUncertainty> found =
        [
            .. univariate.SelectMany(m => SiQuantity.Children(m, "expandedMU"))
                .Select(e => Expanding(e, "valueExpandedMU", "expandedMU of D-SI from 2.2", values, name)),
            .. SiQuantity.Children(real, "expandedUnc").Select(
                e => Expanding(e, "uncertainty", "expandedUnc of D-SI to 2.1", values, name)),
            .. univariate.SelectMany(m => SiQuantity.Children(m, "standardMU"))
                .Select(e => Standard(SiQuantity.Numbers(e, "valueStandardMU", name), "standardMU of D-SI from 2.2", values, name)),
            .. univariate.SelectMany(m => SiQuantity.Children(m, "coverageIntervalMU"))
                .Select(e => Interval(e, "valueStandardMU", "coverageIntervalMU of D-SI from 2.2", values, name)),
            .. SiQuantity.Children(real, "coverageInterval").Select(
                e => Interval(e, "standardUnc", "coverageInterval of D-SI to 2.1", values, name)),
        ];
        if (found.Find(f => f.Expanded is null) is { } unread) return unread;
        if (found.Skip(1).FirstOrDefault(f => !found[0].Agrees(f)) is { } other)
            return None($"{found[0].Remark} and {other.Remark} contradict each other");
        if (found.Count > 0) return found[0];
        var unknown = univariate.SelectMany(m => m.Elements()).Concat(real.Elements()).FirstOrDefault(e => IsUnknown(e.Name.LocalName));
        return None(unknown is null ? "none was found" : $"it stands in {unknown.Name.LocalName}, which is not known here");
    }

    private static bool IsUnknown(string element) => !element.StartsWith("measurementUncertaintyUnivariate", StringComparison.Ordinal)
        && Array.Exists(Speaking, s => element.Contains(s, StringComparison.OrdinalIgnoreCase));

    // By standard uncertainties; half an interval has no factor of its own, and is held against what is expanded.
    private bool Agrees(SiUncertainty other) => Enumerable.Range(0, Expanded!.Count).All(i =>
    {
        var isByHalf = IsHalf || other.IsHalf;
        var (a, b) = isByHalf ? (Expanded[i], other.Expanded![i])
            : (Expanded[i] / Factor![i], other.Expanded![i] / other.Factor![i]);
        return Math.Abs(a - b) <= Rounding * Math.Max(a, b);
    });

    private static SiUncertainty Expanding(XElement from, string value, string where, IReadOnlyList<double> values, string name)
    {
        if (SiQuantity.Numbers(from, value, name) is not { Count: > 0 } stated) return None($"{where} holds no {value}");
        if (SiQuantity.Numbers(from, "coverageFactor", name) is not { Count: > 0 } factors) return None(
            $"{where} holds no coverage factor");
        if (SiQuantity.Numbers(from, "coverageProbability", name) is { Count: > 0 } probabilities)
        {
            var (k, p) = (SiQuantity.Each(factors, values.Count, name, "coverage factors"),
                SiQuantity.Each(probabilities, values.Count, name, "coverage probabilities"));
            for (var i = 0; i < values.Count; i++)
            {
                if (p[i] is not (> 0 and < 1)) return None(FormattableString.Invariant(
                    $"{where} states a coverage probability of {p[i]}; allowed is a number between 0 and 1"));
                if (!CoverageProbability.Fits(k[i], p[i]) && k[i] is >= LeastStated and <= GreatestStated)
                    return None(
                    FormattableString.Invariant($"{where} states k = {k[i]} and a coverage probability of {p[i]}, which contradict each other"));
            }
        }
        return Sound(stated, factors, where, values, name);
    }

    private static SiUncertainty Standard(List<double>? stated, string where, IReadOnlyList<double> values, string name) =>
        stated is { Count: > 0 } ? Sound(stated, [1], where, values, name) : None($"{where} holds no value");

    // A stated standard uncertainty counts; otherwise the greater half of an interval of 95 %.
    private static SiUncertainty Interval(XElement from, string standard, string where, IReadOnlyList<double> values, string name)
    {
        var limits = Limits(from, values, name);
        if (limits is var (low, high) && Enumerable.Range(0, values.Count).Any(i => !(values[i] >= low[i] && values[i] <= high[i])))
            return None($"{where} does not contain its value");
        var probability = SiQuantity.Numbers(from, "coverageProbability", name);
        List<double>? halves = limits is var (lower, upper)
            ? [.. values.Select((v, i) => Math.Max(upper[i] - v, v - lower[i]))] : null;
        if (SiQuantity.Numbers(from, standard, name) is { Count: > 0 } stated)
        {
            var u = SiQuantity.Each(stated, values.Count, name, "uncertainties");
            // By the narrower of both: half the width, since an interval need not lie even about its value.
            if (limits is var (from0, to0) && probability is [var p] && Enumerable.Range(0, values.Count).Any(
                i => u[i] > 0 && !FitsInterval((to0[i] - from0[i]) / 2 / u[i], p)))
            {
                return None(FormattableString.Invariant(
                    $"{where} has limits and a standard uncertainty that contradict each other at a coverage probability of {p}"));
            }
            return Sound(stated, [1], where, values, name);
        }
        if (halves is null) return None($"{where} holds no limits");
        if (probability is not { Count: > 0 } || probability.Exists(p => Math.Abs(p - 0.95) > 0.01))
            return None($"{where} is none of 95 %");
        return Sound(halves, [LeastFactor], $"the greater half of {where}; no factor is stated, k = {LeastFactor:0.00} is taken", values,
            name) with
        { IsHalf = true };
    }

    // An interval may be that of an arcsine distribution, whose factor is the smallest: sqrt 2 · sin(π p / 2), 1.41 at 95 %.
    private static bool FitsInterval(double factor, double p) => CoverageProbability.Fits(factor, p)
        || (p is > 0 and < 1 && factor >= 0.99 * Math.Sqrt(2) * Math.Sin(Math.PI * p / 2) && factor <= Quantile.Normal(p));

    private static (IReadOnlyList<double> Lower, IReadOnlyList<double> Upper)? Limits(
        XElement from, IReadOnlyList<double> values, string name) =>
        SiQuantity.Numbers(from, "intervalMin", name) is { Count: > 0 } least
        && SiQuantity.Numbers(from, "intervalMax", name) is { Count: > 0 } greatest
            ? (SiQuantity.Each(least, values.Count, name, "limits"), SiQuantity.Each(greatest, values.Count, name, "limits"))
            : null;

    private static SiUncertainty Sound(List<double> stated, List<double> factors, string where, IReadOnlyList<double> values, string name)
    {
        var (expanded, factor) = (
            SiQuantity.Each(stated, values.Count, name, "uncertainties"), SiQuantity.Each(factors, values.Count, name, "coverage factors"));
        if (expanded.Any(u => !(u > 0 && double.IsFinite(u)))) return None($"{where} holds a figure that is not above 0");
        return factor.Any(k => !(k is >= LeastStated and <= GreatestStated))
            ? None(FormattableString.Invariant($"{where} holds a coverage factor beyond {LeastStated} to {GreatestStated}"))
            : new(expanded, factor, where);
    }

    private static SiUncertainty None(string why) => new(null, null, $"{DigitalValue.NotRead}: {why}");
}
