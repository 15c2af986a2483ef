using System.Text.Json;
using System.Text.Json.Nodes;
using MicRegister.Documents.Import;

namespace MicRegister.Server.Imports;

/// <summary>Says what became of files, to people and to programs.</summary>
internal static class ImportText
{
    /// <summary>What may become of a row, in words, in the order in which it is told.</summary>
    public static IReadOnlyList<(RowSort Sort, string Words)> Sorts { get; } =
    [
        (RowSort.New, "new"), (RowSort.Changed, "changed"), (RowSort.AlreadyThere, "already there"),
        (RowSort.Questioned, "questioned"), (RowSort.Refused, "refused"), (RowSort.PassedOver, "passed over"),
        (RowSort.NewerStands, "newer stands"),
    ];

    public static string Words(RowSort sort) => Sorts.First(s => s.Sort == sort).Words;

    public static void Write(FileReport report, bool everyRow, TextWriter to) => Write(ImportedFile.Of(report), everyRow, to);

    public static void Write(ImportedFile file, bool everyRow, TextWriter to)
    {
        var counts = file.Counts.Where(c => c.Value > 0).Select(c => $"{c.Value} {c.Key}");
        to.WriteLine($"{file.File}: {file.Rows} rows: {string.Join(", ", counts)}; {file.Facts} new facts");
        if (file.AsOf is { } day) to.WriteLine($"  It is taken to speak {new AsOfDay(day, file.AsOfIsStated).InWords}.");
        if (file.AsksAsOf) to.WriteLine($"  {AsOfDay.Question}: answer with --as-of.");
        foreach (var notice in file.Notices) to.WriteLine("  " + notice);
        foreach (var problem in file.Problems) to.WriteLine("  refused: " + problem);
        foreach (var question in file.Questions)
        {
            var where = question.Sheet.Length > 0 ? " of sheet " + question.Sheet : "";
            to.WriteLine($"  asked{where}, for {question.Rows} rows: {Plain(question.Text)}");
            foreach (var choice in question.Choices) to.WriteLine($"    {Plain(choice.Words)}: {Options(choice)}");
            foreach (var part in question.Parts)
            {
                to.WriteLine($"    {Plain(part.Text)}");
                foreach (var choice in part.Choices) to.WriteLine($"      {Plain(choice.Words)}: {Options(choice)}");
            }
        }
        var (questioned, refused) = (Words(RowSort.Questioned), Words(RowSort.Refused));
        foreach (var row in file.Outcomes)
        {
            // Rows that wait for one answer are counted with its question.
            if (everyRow || row.NewerStands || ((row.Outcome == questioned || row.Outcome == refused) && row.Question is null))
                to.WriteLine(
                    $"  {(row.Sheet.Length > 0 ? row.Sheet + ", " : "")}row {row.Number}: {row.Outcome}: {Plain(row.Text)}");
        }
    }

    private static string Options(ImportedFile.Choice choice) =>
        string.Join(' ', choice.Rule.Split('\n').Select(r => $"--answer '{Plain(r)}'"));

    /// <summary>The same text without what would command the terminal: a cell may hold such characters.</summary>
    public static string Plain(string text) => string.Concat(text.Select(c => char.IsControl(c) ? ' ' : c));

    public static JsonObject Json(FileReport report) => Json(ImportedFile.Of(report));

    public static JsonObject Json(ImportedFile file) => (JsonObject)JsonSerializer.SerializeToNode(file, JsonSerializerOptions.Web)!;
}
