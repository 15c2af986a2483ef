using MicRegister.Documents.Import;

namespace MicRegister.Server.Pages.Imports;

/// <summary>A row of a file with what would become of it.</summary>
internal readonly record struct PlanRow(string File, RowOutcome Outcome)
{
    /// <summary>Whether all words stand in what is told of it.</summary>
    public bool Holds(string[] words)
    {
        foreach (var word in words)
        {
            if (!Has(Outcome.Text, word) && !Has(Outcome.About, word) && !Has(Outcome.Sheet, word) && !Has(File, word)
                && !Outcome.Changes.Any(c => Has(c.Field, word) || Has(c.Before, word) || Has(c.After, word))) return false;
        }
        return true;
    }

    private static bool Has(string? text, string word) => text is not null && text.Contains(word, StringComparison.OrdinalIgnoreCase);
}

/// <summary>How the outcomes of rows are told on the page: a sign and words, so that colour is not needed.</summary>
internal sealed record PlanSorts(RowSort Sort, string Sign, string Words, string? Class)
{
    /// <summary>All, in the order in which they are told.</summary>
    public static IReadOnlyList<PlanSorts> All { get; } =
    [
        new(RowSort.New, "+", "new", "ready"), new(RowSort.Changed, "△", "changed", "risks"),
            new(RowSort.AlreadyThere, "=", "already there", "quiet"),
        new(RowSort.NewerStands, "◇", "left: newer stands", "risks"), new(RowSort.Questioned, "▲", "questioned", "risks"),
        new(RowSort.Refused, "■", "refused", "stops"), new(RowSort.PassedOver, "○", "passed over", "quiet"),
    ];

    /// <summary>Sign and words beside a row.</summary>
    public string InRow => $"{Sign} {Words}";

    /// <summary>How many rows of a file become what.</summary>
    public static string Count(FileReport report) =>
        string.Join(", ", All.Where(s => report.Count(s.Sort) > 0).Select(s => $"{report.Count(s.Sort)} {s.Words}"));

    public static PlanSorts Of(RowSort sort) => All.First(s => s.Sort == sort);
}
