using System.Globalization;
using System.Text.Json.Nodes;
using MicRegister.Documents.Import;

namespace MicRegister.Server.Imports;

/// <summary>Says what became of files, to people and to programs.</summary>
internal static class ImportText
{
    private static readonly (RowSort Sort, string Words)[] Sorts =
    [
        (RowSort.New, "new"), (RowSort.Changed, "changed"), (RowSort.AlreadyThere, "already there"),
        (RowSort.Questioned, "questioned"), (RowSort.Refused, "refused"), (RowSort.PassedOver, "passed over"),
        (RowSort.NewerStands, "newer stands"),
    ];

    public static void Write(FileReport report, bool everyRow, TextWriter to)
    {
        var counts = Sorts.Where(s => report.Count(s.Sort) > 0).Select(s => $"{report.Count(s.Sort)} {s.Words}");
        to.WriteLine($"{report.Name}: {report.Rows} rows: {string.Join(", ", counts)}; {report.Facts} new facts");
        if (report.AsOf is { } asOf) to.WriteLine($"  It is taken to speak {asOf.InWords}.");
        if (report.AsksAsOf) to.WriteLine($"  {AsOfDay.Question}: answer with --as-of.");
        foreach (var notice in report.Notices) to.WriteLine("  " + notice);
        foreach (var problem in report.Problems) to.WriteLine("  refused: " + problem);
        foreach (var question in report.Questions)
        {
            var where = question.Sheet.Length > 0 ? " of sheet " + question.Sheet : "";
            to.WriteLine($"  asked{where}, for {question.Rows} rows: {Plain(question.Text)}");
            foreach (var choice in question.Choices) to.WriteLine($"    {Plain(choice.Words)}: --answer '{Plain(question.RuleOf(choice))}'");
        }
        foreach (var outcome in report.Outcomes)
        {
            // Rows that wait for one answer are counted with its question.
            if (everyRow || outcome.NewerStands || (outcome.Sort is RowSort.Questioned or RowSort.Refused && outcome.Question is null))
                to.WriteLine(
                    $"  {(outcome.Sheet.Length > 0 ? outcome.Sheet + ", " : "")}row {outcome.Row}: "
                    + $"{Sorts.First(s => s.Sort == outcome.Sort).Words}: {Plain(outcome.Text)}");
        }
    }

    // A cell may hold characters that would command the terminal.
    private static string Plain(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));

    public static JsonNode Json(FileReport report) => new JsonObject
    {
        ["file"] = report.Name,
        ["rows"] = report.Rows,
        ["facts"] = report.Facts,
        ["asOf"] = report.AsOf?.Day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
        ["asOfIsStated"] = report.AsOf?.IsStated ?? false,
        ["asksAsOf"] = report.AsksAsOf,
        ["newer"] = report.Newer,
        ["counts"] = new JsonObject(Sorts.Select(s => KeyValuePair.Create<string, JsonNode?>(s.Words, report.Count(s.Sort)))),
        ["problems"] = new JsonArray([.. report.Problems.Select(n => (JsonNode)n)]),
        ["notices"] = new JsonArray([.. report.Notices.Select(n => (JsonNode)n)]),
        ["questions"] = new JsonArray([.. report.Questions.Select(q => (JsonNode)new JsonObject
        {
            ["key"] = q.Key, ["sheet"] = q.Sheet, ["text"] = q.Text, ["rows"] = q.Rows,
            ["examples"] = new JsonArray([.. q.Examples.Select(e => (JsonNode)e)]),
            ["choices"] = new JsonArray([.. q.Choices.Select(c => (JsonNode)new JsonObject { ["words"] = c.Words, ["rule"] = q.RuleOf(c) })]),
        })]),
        ["outcomes"] = new JsonArray([.. report.Outcomes.Select(o => (JsonNode)new JsonObject
        {
            ["sheet"] = o.Sheet, ["row"] = o.Row, ["outcome"] = Sorts.First(s => s.Sort == o.Sort).Words,
            ["text"] = o.Text, ["header"] = o.Header, ["value"] = o.Value, ["question"] = o.Question, ["newerStands"] = o.NewerStands,
        })]),
    };
}
