using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// Headings among the rows of a table that name no kind: places, states of use, models. What all of them are is settled once, by what
/// they say or by a person, for what they say would be lost.
/// </summary>
internal sealed class RepeatedHeadings
{
    private const string Rule = "headings";
    private readonly Dictionary<int, string> _texts;
    private readonly HashSet<int> _numbered;
    private readonly Column? _column;
    private readonly bool _isLeftOut;

    private RepeatedHeadings(Dictionary<int, string> texts, Column? column, bool isLeftOut, HashSet<int> numbered) =>
        (_texts, _column, _isLeftOut, _numbered) = (texts, column, isLeftOut, numbered);

    /// <summary>Finds them: rows with one cell that names no device, each with a row of a device below it.</summary>
    public static RepeatedHeadings Of(IReadOnlyList<SheetRow> rows, TableHeader header, ImportMapping rules)
    {
        var texts = new Dictionary<int, string>();
        var numbered = new HashSet<int>();
        if (header.Row.Cells.Count(c => !c.IsBlank) < 3) return new(texts, null, false, numbered);
        for (var i = 0; i + 1 < rows.Count; i++)
        {
            if (Numbered(rows[i], header) is { } beside && !SectionLines.RowNames(rows[i], header)
                && SectionLines.RowNames(rows[i + 1], header))
            {
                texts[rows[i].Number] = beside;
                numbered.Add(rows[i].Number);
                continue;
            }
            if (RowHeading.Lone(rows[i]) is not { } text || RowHeading.Lone(rows[i + 1]) is not null || !MayBe(text, rules)) continue;
            if (header.Places.TryGetValue(Column.Serial, out var serial) && !rows[i].At(serial).IsBlank && serial != 0) continue;
            texts[rows[i].Number] = text;
        }
        // "May 2026" among the rows sorts them by days that stand in the rows themselves.
        var said = rules.Of(Rule) ?? (texts.Count > 0 && (header.Has(Column.Day) || header.Has(Column.Due))
            && texts.Values.All(t => MonthNames.ReadMonth(t) is not null) ? Column.LeftOut.Key : null);
        return new(texts, said is null ? Settled([.. texts.Values], header) : Column.OfKey(said), said == Column.LeftOut.Key, numbered);
    }

    /// <summary>Whether a row is a heading with its number before it, as in <i>2 | Set 2</i>.</summary>
    public bool IsNumbered(SheetRow row) => _numbered.Contains(row.Number);

    // Two cells: a number, and a text that is no kind.
    private static string? Numbered(SheetRow row, TableHeader header)
    {
        var filled = row.Fault is null ? row.Cells.Where(c => !c.IsBlank).Take(3).ToList() : [];
        return filled.Count == 2 && filled[0].Day is null && filled[0].Shown.All(c => char.IsAsciiDigit(c) || c == '.')
            && filled[1].Shown is { Length: <= 40 } text && text.Any(char.IsLetter) && Words.Kind(text) is null
            && !header.Has(Column.Station) ? text : null;
    }

    /// <summary>What a row that is such a heading says of the rows below it; null where it is none, or nobody knows.</summary>
    public LabelledLine? Says(SheetRow row) =>
        _column is not null && !_isLeftOut && _texts.TryGetValue(row.Number, out var text) ? new(_column, text, true) : null;

    /// <summary>What only a person can say of them.</summary>
    public ImportQuestion? Question(string sheet)
    {
        if (_column is not null || _isLeftOut || _texts.Count == 0) return null;
        Column[] likely = [Column.Place, Column.Model, Column.Maker, Column.Status, Column.Laboratory, Column.LeftOut];
        var question = new ImportQuestion(Rule, sheet, $"Headings stand among the rows ({string.Join(", ", _texts.Values.Distinct().Take(3))}). "
            + "What do they say of the rows below them?", [.. likely.Select(c => new ImportChoice(c.Meaning, $"{Rule} := {c.Key}"))]);
        foreach (var text in _texts.Values) question.Seen(text);
        return question;
    }

    private static bool MayBe(string text, ImportMapping rules) => text.Length <= 40 && text.Any(char.IsLetter) && !text.EndsWith('.')
        && !text.Contains(':', StringComparison.Ordinal) && !NoRow.IsNoHeading(text)
            && RowHeading.Of(rules.Meaning(Column.Kind, text)) is null;

    private static Column? Settled(List<string> texts, TableHeader header)
    {
        if (texts.Count == 0) return null;
        if (!header.Has(Column.Status) && texts.TrueForAll(t => Words.Status(t) is not null)) return Column.Status;
        if (!header.Has(Column.Place) && texts.TrueForAll(t =>
            HeaderConcepts.Of(t).Concepts.Any(c => c is "place" or "room" or "key"))) return Column.Place;
        // "MK-50" is a model; "Van 1" may be anything.
        return !header.Has(Column.Model) && texts.TrueForAll(t => t.Any(char.IsAsciiDigit) && !t.Contains(' ', StringComparison.Ordinal))
            ? Column.Model : null;
    }
}
