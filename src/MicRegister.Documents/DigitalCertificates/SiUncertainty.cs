using System.Xml.Linq;

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

    private static readonly string[] Speaking = ["unc", "mu", "coverage", "interval", "distribution"];

    /// <summary>Reads the uncertainty that stands within a value.</summary>
    public static SiUncertainty Read(XElement real, IReadOnlyList<double> values, string name)
    {
        var univariate = SiQuantity.Child(real, "measurementUncertaintyUnivariate");
        if (SiQuantity.Child(univariate, "expandedMU") is { } expandedMu)
            return Expanding(expandedMu, "valueExpandedMU", "expandedMU of D-SI from 2.2", values, name);
        if (SiQuantity.Child(real, "expandedUnc") is { } expandedUnc)
            return Expanding(expandedUnc, "uncertainty", "expandedUnc of D-SI to 2.1", values, name);
        if (SiQuantity.Child(univariate, "standardMU") is { } standardMu)
            return Standard(SiQuantity.Numbers(standardMu, "valueStandardMU", name), "standardMU of D-SI from 2.2", values, name);
        if (SiQuantity.Child(univariate, "coverageIntervalMU") is { } intervalMu)
            return Interval(intervalMu, "valueStandardMU", "coverageIntervalMU of D-SI from 2.2", values, name);
        if (SiQuantity.Child(real, "coverageInterval") is { } interval)
            return Interval(interval, "standardUnc", "coverageInterval of D-SI to 2.1", values, name);
        var unknown = (univariate?.Elements() ?? real.Elements())
            .FirstOrDefault(e => Array.Exists(Speaking, s => e.Name.LocalName.Contains(s, StringComparison.OrdinalIgnoreCase)));
        return None(unknown is null ? "none was found" : $"it stands in {unknown.Name.LocalName}, which is not known here");
    }

    private static SiUncertainty Expanding(XElement from, string value, string where, IReadOnlyList<double> values, string name)
    {
        if (SiQuantity.Numbers(from, value, name) is not { Count: > 0 } stated) return None($"{where} holds no {value}");
        if (SiQuantity.Numbers(from, "coverageFactor", name) is not { Count: > 0 } factors) return None(
            $"{where} holds no coverage factor");
        return Sound(stated, factors, where, values, name);
    }

    private static SiUncertainty Standard(List<double>? stated, string where, IReadOnlyList<double> values, string name) =>
        stated is { Count: > 0 } ? Sound(stated, [1], where, values, name) : None($"{where} holds no value");

    // A stated standard uncertainty counts; otherwise the greater half of an interval of 95 %.
    private static SiUncertainty Interval(XElement from, string standard, string where, IReadOnlyList<double> values, string name)
    {
        if (SiQuantity.Numbers(from, standard, name) is { Count: > 0 } stated) return Sound(stated, [1], where, values, name);
        if (SiQuantity.Numbers(from, "intervalMin", name) is not { Count: > 0 } least
            || SiQuantity.Numbers(from, "intervalMax", name) is not { Count: > 0 } greatest)
        {
            return None($"{where} holds no limits");
        }
        if (SiQuantity.Numbers(from, "coverageProbability", name) is not { Count: > 0 } probability
            || probability.Exists(p => Math.Abs(p - 0.95) > 0.01))
            return None($"{where} is none of 95 %");
        var (lower, upper) = (
            SiQuantity.Each(least, values.Count, name, "limits"), SiQuantity.Each(greatest, values.Count, name, "limits"));
        List<double> halves = [.. values.Select(
            (v, i) => v >= lower[i] && v <= upper[i] ? Math.Max(upper[i] - v, v - lower[i]) : double.NaN)];
        return Sound(halves, [LeastFactor], $"the greater half of {where}; no factor is stated, k = {LeastFactor:0.00} is taken", values,
            name);
    }

    private static SiUncertainty Sound(List<double> stated, List<double> factors, string where, IReadOnlyList<double> values, string name)
    {
        var (expanded, factor) = (
            SiQuantity.Each(stated, values.Count, name, "uncertainties"), SiQuantity.Each(factors, values.Count, name, "coverage factors"));
        if (expanded.Any(u => !(u > 0 && double.IsFinite(u)))) return None($"{where} holds a figure that is not above 0");
        return factor.Any(k => !(k is >= 1 and <= 10)) ? None($"{where} holds a coverage factor beyond 1 to 10")
            : new(expanded, factor, where);
    }

    private static SiUncertainty None(string why) => new(null, null, $"{DigitalValue.NotRead}: {why}");
}
