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
    private readonly Column? _column;
    private readonly bool _isLeftOut;

    private RepeatedHeadings(Dictionary<int, string> texts, Column? column, bool isLeftOut) =>
        (_texts, _column, _isLeftOut) = (texts, column, isLeftOut);

    /// <summary>Finds them: rows with one cell that names no device, each with a row of a device below it.</summary>
    public static RepeatedHeadings Of(IReadOnlyList<SheetRow> rows, TableHeader header, ImportMapping rules)
    {
        var texts = new Dictionary<int, string>();
        if (header.Row.Cells.Count(c => !c.IsBlank) < 3) return new(texts, null, false);
        for (var i = 0; i + 1 < rows.Count; i++)
        {
            if (RowHeading.Lone(rows[i]) is not { } text || RowHeading.Lone(rows[i + 1]) is not null || !MayBe(text, rules)) continue;
            if (header.Places.TryGetValue(Column.Serial, out var serial) && !rows[i].At(serial).IsBlank && serial != 0) continue;
            texts[rows[i].Number] = text;
        }
        var said = rules.Of(Rule);
        return new(texts, said is null ? Settled([.. texts.Values], header) : Column.OfKey(said), said == Column.LeftOut.Key);
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
