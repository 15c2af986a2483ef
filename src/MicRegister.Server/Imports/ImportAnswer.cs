using System.Text.Json.Serialization;
using MicRegister.Documents.Import;

namespace MicRegister.Server.Imports;

/// <summary>What files would do to a register, or did: as commands print it, wherever it was worked out.</summary>
/// <param name="Files">The files that could be read.</param>
/// <param name="Unreadable">Those that could not.</param>
/// <param name="IsGood">Whether every row is good.</param>
/// <param name="StopsAll">What has to be answered before anything can be stored; null where nothing.</param>
/// <param name="Today">Day of the import.</param>
/// <param name="Aside">Rows put aside, where they were asked for.</param>
public sealed record ImportAnswer(
    IReadOnlyList<ImportedFile> Files, IReadOnlyList<UnreadableFile> Unreadable, bool IsGood, string? StopsAll, DateOnly Today,
    IReadOnlyList<MendTable> Aside)
{
    /// <summary>Hash of the plan, by which it can be stored; null where it was worked out on the folder itself.</summary>
    public string? Plan { get; init; }

    /// <summary>How many facts were stored.</summary>
    public int Stored { get; init; }

    internal static ImportAnswer Of(Importing importing, DateOnly today, bool aside) => new(
        [.. importing.Reports.Select(ImportedFile.Of)], [.. importing.Unreadable.Select(u => new UnreadableFile(u.Name, u.Why))],
        importing.IsGood, importing.StopsAll, today, aside ? importing.Aside() : []);
}

/// <summary>A file that could not be read at all, with the reason.</summary>
public sealed record UnreadableFile(string File, string Why);

/// <summary>What became of a file, row by row.</summary>
/// <param name="File">Its name.</param>
/// <param name="Rows">How many rows it has.</param>
/// <param name="Facts">How many new facts they stand for.</param>
/// <param name="AsOf">Day as of which it speaks; null where nobody knows.</param>
/// <param name="AsOfIsStated">Whether a person said so.</param>
/// <param name="AsksAsOf">Whether rows wait to be told that day.</param>
/// <param name="Newer">How many rows say otherwise than what the register holds of a later day.</param>
/// <param name="Counts">How many rows are new, changed and so on, by these words.</param>
/// <param name="Problems">What would be lost of the table as a whole.</param>
/// <param name="Notices">What people should know beside the rows.</param>
/// <param name="Questions">What only a person can say.</param>
/// <param name="Outcomes">One a row.</param>
public sealed record ImportedFile(
    string File, int Rows, int Facts, DateOnly? AsOf, bool AsOfIsStated, bool AsksAsOf, int Newer, IReadOnlyDictionary<string, int> Counts,
    IReadOnlyList<string> Problems, IReadOnlyList<string> Notices, IReadOnlyList<ImportedFile.Question> Questions,
    IReadOnlyList<ImportedFile.Row> Outcomes)
{
    internal static ImportedFile Of(FileReport report) => new(
        report.Name, report.Rows, report.Facts, report.AsOf?.Day, report.AsOf?.IsStated ?? false, report.AsksAsOf, report.Newer,
        ImportText.Sorts.ToDictionary(s => s.Words, s => report.Count(s.Sort)), [.. report.Problems], [.. report.Notices],
        [.. report.Questions.Select(Question.Of)],
        [.. report.Outcomes.Select(o => new Row(
            o.Sheet, o.Row, ImportText.Words(o.Sort), o.Text, o.Header, o.Value, o.Question, o.NewerStands))]);

    /// <summary>
    /// A question with the answers to choose from; where it has parts, each has choices of its own, those of the whole answer all parts
    /// alike, and rows name the key of their part.
    /// </summary>
    public sealed record Question(
        string Key, string Sheet, string Text, int Rows, IReadOnlyList<string> Examples, IReadOnlyList<Choice> Choices,
        IReadOnlyList<Question> Parts)
    {
        internal static Question Of(ImportQuestion q) => new(
            q.Key, q.Sheet, q.Text, q.Rows, [.. q.Examples], [.. q.Choices.Select(c => new Choice(c.Words, q.RuleOf(c)))],
            [.. q.Parts.Select(Of)]);
    }

    /// <summary>An answer in words, and as the rule that gives it; a line for each part where it answers several.</summary>
    public sealed record Choice(string Words, string Rule);

    /// <summary>What became of a row.</summary>
    public sealed record Row(
        string Sheet, [property: JsonPropertyName("row")] int Number, string Outcome, string Text, string? Header, string? Value,
        string? Question, bool NewerStands);
}
