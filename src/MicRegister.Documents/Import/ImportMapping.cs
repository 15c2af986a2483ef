using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// The legend of a file: what a user says about it that its headers do not. One rule a line:
/// <c>header = column key [unit]</c> (a header with signs of its own in quotes; <c>left-out</c> and <c>noted</c> are keys too),
/// <c>column key := value for every row</c>, <c>word column key "text" := meaning</c>, <c>dates := day-first</c> or <c>month-first</c>,
/// <c>epoch := 1904</c>, <c>as-of := 2024-11-30</c>, and the settled questions of <see cref="Settlements"/>. Below <c>[sheet NAME]</c>, or behind it on one line, rules are of that sheet alone.
/// Blank lines and lines with # are left out.
/// </summary>
public sealed record ImportMapping(
    IReadOnlyDictionary<string, (Column Column, string? Unit)> Headers, IReadOnlyDictionary<Column, string> Constants, DateOrder? Dates,
        bool Uses1904)
{
    /// <summary>Questions that a legend settles by a word, and the words that it may use.</summary>
    public static IReadOnlyDictionary<string, string[]> Settlements { get; } = new Dictionary<string, string[]>(StringComparer.Ordinal)
    {
        ["days-without-results"] = ["keep", "leave-out"],
        ["missing-results"] = ["keep", "leave-out"],
        ["hidden-rows"] = ["read", "leave-out"],
        ["struck-rows"] = ["take", "leave-out"],
        ["ditto"] = ["above", "keep"],
        ["due-months"] = ["begin", "end"],
        ["results-without-days"] = ["leave-out"],
        ["headings"] = ["place", "model", "maker", "status", "laboratory", "left-out"],
        ["sheet"] = ["read", "leave-out"],
        ["day-numbers"] = ["1900", "1904"],
        ["odd-signs"] = ["usual"],
        ["capitals"] = ["same"],
        ["mV"] = ["mV/Pa"],
        ["times"] = ["site", "utc"],
        ["missing-pressure"] = ["estimate"],
        ["mojibake"] = ["mend", "keep"],
        ["far-stations"] = ["keep", "swap"],
        ["one-spot"] = ["keep"],
    };

    public static ImportMapping None { get; } = new(new Dictionary<string, (Column, string?)>(), new Dictionary<Column, string>(), null,
        false);

    /// <summary>What a word under a column means: key of the column, word in small letters, meaning.</summary>
    public IReadOnlyDictionary<(string Column, string Word), string> Meanings { get; init; } = new Dictionary<(string, string), string>();

    /// <summary>Questions that were settled by a word.</summary>
    public IReadOnlyDictionary<string, string> Settled { get; init; } = new Dictionary<string, string>();

    /// <summary>Rules of single sheets, by their names in small letters.</summary>
    public IReadOnlyDictionary<string, ImportMapping> Sheets { get; init; } = new Dictionary<string, ImportMapping>();

    /// <summary>Day as of which the file speaks; null where nobody says.</summary>
    public DateOnly? AsOf { get; init; }

    /// <summary>Whether the epoch was stated.</summary>
    public bool SaysEpoch { get; init; }

    /// <summary>The rules for a sheet: its own before those of the file.</summary>
    public ImportMapping For(string sheet) => Sheets.GetValueOrDefault(sheet.ToLowerInvariant()) is not { } own
        ? this
        : new(Over(Headers, own.Headers), Over(Constants, own.Constants), own.Dates ?? Dates, own.SaysEpoch ? own.Uses1904 : Uses1904)
        {
            Meanings = Over(Meanings, own.Meanings),
            Settled = Over(Settled, own.Settled),
            SaysEpoch = SaysEpoch || own.SaysEpoch,
            AsOf = AsOf,
        };

    /// <summary>What was said of a header, by its exact text or by its words; null where nothing.</summary>
    public (Column Column, string? Unit)? OfHeader(string header) =>
        Headers.Count > 0 && (Headers.TryGetValue(Exactly(header), out var said) || Headers.TryGetValue(Column.Plain(header), out said))
            ? said : null;

    /// <summary>Key of a header that stands in quotes: with its brackets and signs.</summary>
    internal static string Exactly(string header) => "\"" + header.Replace('\n', ' ').Replace('\r', ' ').Trim().ToLowerInvariant();

    /// <summary>What was settled of a question; null where nothing.</summary>
    public string? Of(string question) => Settled.GetValueOrDefault(question);

    /// <summary>What a word under a column was said to mean; the word itself where nothing was said.</summary>
    public string Meaning(Column column, string text) =>
        Meanings.Count > 0 && Meanings.TryGetValue((column.Key, text.Trim().ToLowerInvariant()), out var meaning) ? meaning : text;

    /// <summary>Reads a legend.</summary>
    /// <exception cref="SheetException">A line is no rule, or names a column that does not exist.</exception>
    public static ImportMapping Read(TextReader text, string name) => LegendText.Read(text, name);

    public static DateOrder? Order(string text) => text switch
    {
        "day-first" => DateOrder.DayFirst,
        "month-first" => DateOrder.MonthFirst,
        _ => null,
    };

    private static Dictionary<TKey, TValue> Over<TKey, TValue>(IReadOnlyDictionary<TKey, TValue> of, IReadOnlyDictionary<TKey, TValue> own)
        where TKey : notnull
    {
        var all = new Dictionary<TKey, TValue>(of);
        foreach (var (key, value) in own) all[key] = value;
        return all;
    }
}
