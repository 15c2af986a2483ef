using System.Text.Json;
using System.Text.Json.Nodes;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Checks;
using MicRegister.Register.Tracing;

namespace MicRegister.Server.Tests.Recompute;

/// <summary>Every figure of one station of a trace, by its place: those of its JSON, and those of the checks that it names.</summary>
internal static class TraceFigures
{
    // No figures: how deep a link lies, when something was, and which file, channel and reading went in.
    // The budget is held by source, not by the order of its lines.
    private static readonly string[] NoFigures = ["depth", "instant", "budget"];
    private static readonly string[] Inputs = ["readings", "resolution", "rangeV", "air", "tone"];

    public static Dictionary<string, double> Of(StationTrace station, JsonObject view)
    {
        var figures = new Dictionary<string, double>(StringComparer.Ordinal);
        Add(figures, "", view, NoFigures);
        Sources(figures, view["applied"]?["budget"]?.AsArray() ?? []);
        for (var i = 0; i < station.Links.Count; i++)
        {
            if (station.Links[i].DifferenceDb is { } by) figures[$"links[{i}].differenceDb"] = by;
        }
        foreach (var (at, check) in new[] { ("before", station.Before), ("after", station.After) })
        {
            if (check is not null) Check(figures, at, check);
        }
        if (station is { Before: { } before, After: { } after } && after.Since(before) is { } moved)
        {
            figures["difference.db"] = moved;
            Budget(figures, "difference.standardDb", "difference.coverageFactor", after.SinceBudget(before));
        }
        return figures;
    }

    private static void Sources(Dictionary<string, double> figures, JsonArray budget)
    {
        foreach (var source in budget.GroupBy(l => (string)l!["source"]!, StringComparer.Ordinal))
        {
            foreach (var (line, i) in source.Select((l, i) => (l, i))) Add(figures, $"applied.budget[{source.Key}][{i}]", line, []);
        }
    }

    private static void Check(Dictionary<string, double> figures, string at, CheckRecord check)
    {
        Add(figures, at, JsonSerializer.SerializeToNode(check.Check, CitedFacts.Web), Inputs);
        if (check.DeviationBudget is { } budget) Budget(figures, at + ".deviationStandardDb", at + ".deviationCoverageFactor", budget);
    }

    private static void Budget(Dictionary<string, double> figures, string standard, string factor, UncertaintyBudget budget) =>
        (figures[standard], figures[factor]) = (budget.Standard, budget.CoverageFactor());

    private static void Add(Dictionary<string, double> figures, string at, JsonNode? node, string[] without)
    {
        switch (node)
        {
            case JsonObject all:
                foreach (var (key, value) in all.Where(p => !without.Contains(p.Key)))
                    Add(figures, at.Length == 0 ? key : $"{at}.{key}", value, without);
                break;
            case JsonArray all:
                for (var i = 0; i < all.Count; i++) Add(figures, $"{at}[{i}]", all[i], without);
                break;
            case JsonValue value when value.GetValueKind() == JsonValueKind.Number:
                figures[at] = (double)value;
                break;
        }
    }
}
