using MicRegister.Metrology.Quantities;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Reports;

/// <summary>Where the uncertainties of what was applied come from, by source, and what stations have in common.</summary>
internal static class UncertaintyEvidence
{
    private static readonly string[] Head =
    [
        "What is not exactly known", "Identity of the source", "Standard uncertainty", "Coefficient in V/Pa, dB for each unit",
        "Greatest part of u in V/Pa, dB", "Greatest part of u in FS/Pa, dB", "Stations",
    ];

    public static IEnumerable<ReportBlock> Of(Evidence e)
    {
        var results = e.Traces.SelectMany(t => t.Stations).Where(s => s.Applied is not null)
            .Select(s => new Result(s.Station, s.Applied!, s.Applied!.Sources)).ToList();
        if (results.Count == 0) yield break;
        yield return new ReportHeading(2, "Where the uncertainties come from");
        yield return new ReportText(
            "What one source contributes to several results it contributes to all of them alike: their covariance is the sum over common "
            + "sources of the products of both contributions (JCGM 100:2008, 5.2.2 and F.1.2.3). Tables of budgets and covariances leave "
            + "the register as files. Between V/Pa and FS/Pa stands the gain of the recorder channel: it counts in FS/Pa where a voltage "
            + "told the sensitivity, and in V/Pa where a recorded tone did.");
        var note = results.Select(r => r.Applied).Where(a => a.UncertaintyNote is not null).ToList();
        if (note.Count > 0)
        {
            var least = FormattableString.Invariant($"{Math.Floor(1000 * note.Min(a => a.MountShare)) / 10:0.0} %");
            yield return new ReportText(
                $"In {Evidence.Count(note.Count, "result", "results")} of {results.Count} U is nearly all the assumed limit of the mount: "
                + $"at least {least} of its square. The sensitivity alone is known better, as the table above says.");
        }
        yield return new ReportTable("Sources of uncertainty", Head, [.. Shared(results), .. Own(results)]);
    }

    private static IEnumerable<string[]> Shared(IReadOnlyList<Result> results) =>
        BySource(results).Where(g => Stations(g).Count > 1).Select(g => Row(g, g.First().Line.Source));

    // A campaign has thousands that belong to one station alone; they are told by their sort.
    private static IEnumerable<string[]> Own(IReadOnlyList<Result> results) =>
        BySource(results).Where(g => Stations(g).Count == 1).GroupBy(g => g.First().Line.Name, StringComparer.Ordinal)
            .Select(g => Row(g.SelectMany(s => s), Evidence.Count(g.Count(), "source", "sources") + ", each of one station alone"));

    private static IEnumerable<IEnumerable<(string Station, BudgetOfSource Line)>> BySource(IReadOnlyList<Result> results) =>
        results.SelectMany(r => r.Sources.Select(l => (r.Station, Line: l)))
            .Where(l => l.Line is not { ContributionDb: 0, FullScaleContributionDb: 0 or null })
            .GroupBy(l => l.Line.Source, StringComparer.Ordinal);

    private static List<string> Stations(IEnumerable<(string Station, BudgetOfSource Line)> lines) =>
        [.. lines.Select(l => l.Station).Distinct(StringComparer.Ordinal)];

    private static string[] Row(IEnumerable<(string Station, BudgetOfSource Line)> lines, string source)
    {
        var all = lines.ToList();
        var greatest = all.MaxBy(l => Math.Abs(l.Line.ContributionDb)).Line;
        return Evidence.Row(
            greatest.Name, source, QuantityText.Of(greatest.StandardUncertainty, greatest.Unit, 4),
            QuantityText.Number(greatest.Sensitivity, 3), QuantityText.Number(Math.Abs(greatest.ContributionDb), 4),
            all.Max(l => Math.Abs(l.Line.FullScaleContributionDb ?? double.NegativeInfinity)) is var fs && double.IsFinite(fs)
                ? QuantityText.Number(fs, 4)
                : "range not known",
            EventEvidence.Listed(Stations(all)));
    }

    private sealed record Result(string Station, AppliedSensitivity Applied, IReadOnlyList<BudgetOfSource> Sources);
}
