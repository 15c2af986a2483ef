namespace MicRegister.Documents.Import;

/// <summary>
/// Puts questions that one act answers into one: columns that nobody understands, and words that nobody knows. Each part keeps its key, its
/// text and its choices; the answer is a line of the legend for each part.
/// </summary>
internal static class QuestionForms
{
    /// <summary>Key of the question of all columns that are not understood.</summary>
    public const string Columns = "columns";

    /// <summary>Key of the question of all words that are not known.</summary>
    public const string Words = "words";

    /// <summary>Key of the question which column names the devices of a table.</summary>
    public const string Names = "serial";

    private const int HeadersShown = 6;

    /// <summary>Questions as people are asked: each form stands where the first of its parts stood.</summary>
    public static IReadOnlyList<ImportQuestion> Of(IReadOnlyList<ImportQuestion> asked)
    {
        var columns = asked.Where(q => q.Key == Names
            || (RuleFor(q, Column.Noted) is not null && RuleFor(q, Column.LeftOut) is not null)).ToList();
        var words = asked.Where(q => q.Key.StartsWith("word ", StringComparison.Ordinal)).ToList();
        var forms = new List<ImportQuestion>(asked);
        if (columns.Count > 1) Put(forms, columns, OfColumns(columns));
        if (words.Count > 1) Put(forms, words, OfWords(words));
        return forms;
    }

    private static void Put(List<ImportQuestion> forms, List<ImportQuestion> parts, ImportQuestion form)
    {
        forms.Insert(forms.IndexOf(parts[0]), form);
        forms.RemoveAll(parts.Contains);
    }

    private static ImportQuestion OfColumns(List<ImportQuestion> parts)
    {
        var open = parts.Where(p => p.Key != Names).ToList();
        if (open.Count == 0)
            return Form(Columns, "Of several tables nobody knows which column holds the serial numbers. Which one does?", parts, [],
                parts.Max(p => p.Rows));
        var headers = open.Take(HeadersShown).Select(p => $"'{p.Name}'" + (p.Examples.Count > 0 ? $" ({p.Examples[0]})" : ""));
        var more = open.Count > HeadersShown ? $" and {open.Count - HeadersShown} more" : "";
        ImportChoice All(string words, Column column) => new(words, string.Join('\n', open.Select(p => RuleFor(p, column))));
        var first = open.Count == 1 ? "A column is" : $"{open.Count} columns are";
        return Form(Columns, $"{first} not understood: {string.Join(", ", headers)}{more}. What do they hold?", parts,
            [All("Keep them all as notes of the devices", Column.Noted), All("Leave them all out", Column.LeftOut)],
            parts.Max(p => p.Rows));
    }

    private static ImportQuestion OfWords(List<ImportQuestion> parts) =>
        Form(Words, $"{parts.Count} words are not known: {string.Join(", ", parts.Take(HeadersShown).Select(p => $"'{p.Name}'"))}"
            + (parts.Count > HeadersShown ? $" and {parts.Count - HeadersShown} more" : "") + ". What do they mean?",
            parts, [], parts.Sum(p => p.Rows));

    private static ImportQuestion Form(
        string key, string text, List<ImportQuestion> parts, IReadOnlyList<ImportChoice> choices, int rows) =>
        new(key, "", text, choices) { Parts = parts, Rows = rows };

    // The line that sets a column aside, as a note or altogether; null where the question is of something else.
    private static string? RuleFor(ImportQuestion question, Column column) =>
        question.Key.StartsWith("column ", StringComparison.Ordinal)
            && question.Choices.FirstOrDefault(c => c.Rule.EndsWith($"= {column.Key}", StringComparison.Ordinal)) is { } choice
            ? question.RuleOf(choice) : null;
}
