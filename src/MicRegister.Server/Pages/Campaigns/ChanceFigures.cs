using MicRegister.Metrology.Quantities;
using MicRegister.Register.Readiness;
using MicRegister.Server.Pages.Parts;

namespace MicRegister.Server.Pages.Campaigns;

/// <summary>Where the probabilities of a campaign come from, for the page that shows them.</summary>
internal static class ChanceFigures
{
    private const int MostNamed = 12;

    private const string Own = "The forecast of each device's drift (a model of this project); stations fail independently of each other, "
        + "which the sentence about microphones of one laboratory and day corrects";

    /// <summary>That all stations hold.</summary>
    public static Derivation Whole(ReadinessReport report) => new(
        "The array holds", P(report.ArrayProbability), $"the product of the probabilities of its {report.Stations.Count} stations",
        Weakest(report), Own, [], Doubt(report));

    /// <summary>That no more fail than may.</summary>
    public static Derivation WithLosses(ReadinessReport report, int permitted) => new(
        "The array holds with its permitted losses", P(report.WithLossesProbability),
        $"the probability that at most {permitted} of {report.Stations.Count} stations fail (a sum of independent chances, each its own)",
        [new("stations that may fail", $"{permitted}", "the plan"), .. Weakest(report)], Own, [], Doubt(report));

    /// <summary>That no more fail than may, with spares in their place.</summary>
    public static Derivation WithSpares(ReadinessReport report, int permitted) => new(
        "The array holds with losses and spares", (report.IsWithSparesAtLeast ? "at least " : "") + P(report.WithSparesProbability),
        $"as with {permitted} permitted losses, where a sound spare of the same kind stands in for a device that fails",
        [
            .. report.Spares.Select(s => new DerivationInput(s.Name, s.Why is null ? P(s.Probability) : "does not count",
                s.Why ?? $"could stand in at {s.Stations} stations")),
            .. Weakest(report),
        ],
        Own, [], Doubt(report));

    private static IReadOnlyList<DerivationInput> Weakest(ReadinessReport report)
    {
        var below = report.Stations.Where(s => s.Probability < 1).OrderBy(s => s.Probability)
            .ThenBy(s => s.Station, StringComparer.Ordinal).ToList();
        IEnumerable<DerivationInput> named = below.Take(MostNamed).Select(s => new DerivationInput(
            s.Station, P(s.Probability),
            s.Probability == 0 ? "something stops it: see the findings" : "its chain stays within the limit through the last day"));
        return below.Count <= MostNamed ? [.. named]
            : [.. named, new($"{below.Count - MostNamed} more", $"each at least {P(below[MostNamed].Probability)}", null)];
    }

    private static string? Doubt(ReadinessReport report) =>
        report.Stations.Count(s => s.Verdict == ReadinessVerdict.Undecided) is var n and > 0
            ? $"{n} stations are undecided: what is not known of them counts as failing." : null;

    private static string P(double p) => QuantityText.Number(p, 3);
}
