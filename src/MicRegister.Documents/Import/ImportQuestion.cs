namespace MicRegister.Documents.Import;

/// <summary>What only a person can say of a file, asked once for all rows that it concerns.</summary>
/// <param name="Key">What tells it from others of the file; the same at each reading.</param>
/// <param name="Sheet">Name of the sheet; empty in a text file, or where it concerns the whole file.</param>
/// <param name="Text">The question.</param>
/// <param name="Choices">Answers to choose from, the likeliest first; each is a rule for the file's legend.</param>
public sealed record ImportQuestion(string Key, string Sheet, string Text, IReadOnlyList<ImportChoice> Choices)
{
    /// <summary>
    /// Questions that are answered together, each with choices of its own; empty where it is asked alone. The choices of the whole then
    /// answer all of them alike.
    /// </summary>
    public IReadOnlyList<ImportQuestion> Parts { get; init; } = [];

    /// <summary>The header or the word that it is about, as it stands in the file.</summary>
    public string Name { get; init; } = "";

    /// <summary>Values that raised it, as they stand in the file; at most five, each once.</summary>
    public List<string> Examples { get; } = [];

    /// <summary>Whether the column that it is about may be what devices are known by.</summary>
    internal bool MayName { get; set; }

    /// <summary>How many rows wait for the answer.</summary>
    public int Rows { get; internal set; }

    /// <summary>
    /// Whether its answer holds for every sheet that raises it: the same header, or the same word, means the same in one workbook.
    /// </summary>
    internal bool IsOfAllSheets => Key.StartsWith("column ", StringComparison.Ordinal) || Key.StartsWith("word ", StringComparison.Ordinal)
        || Key is "missing-results" or "days-without-results" or "hidden-rows" or "dates";

    /// <summary>The line of a legend that gives an answer, for the sheet alone where the question is of one.</summary>
    public string RuleOf(ImportChoice choice) => Sheet.Length == 0 ? choice.Rule : $"[sheet {Sheet}] {choice.Rule}";

    /// <summary>The lines of a legend that answer several parts at once.</summary>
    /// <param name="rest">What holds for parts of which nothing else is said; null leaves them open.</param>
    /// <param name="rules">Rules for single parts.</param>
    public string Together(ImportChoice? rest, IEnumerable<string> rules) =>
        rules.Aggregate(rest is null ? "" : RuleOf(rest), LegendLines.With);

    internal ImportQuestion Seen(string? example)
    {
        Rows++;
        if (!string.IsNullOrEmpty(example) && Examples.Count < 5 && !Examples.Contains(example)) Examples.Add(example);
        return this;
    }
}

/// <summary>An answer to a question.</summary>
/// <param name="Words">The answer for people.</param>
/// <param name="Rule">The rule that gives it, a line of a legend; a line for each part where it answers several.</param>
public sealed record ImportChoice(string Words, string Rule);
