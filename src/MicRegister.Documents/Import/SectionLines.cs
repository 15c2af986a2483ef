using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// Lines among the rows of a table that hold a label and what it says, and name no device: <i>Location | Room 204</i> above the rows of
/// that room. A label that nobody understands is asked once.
/// </summary>
internal sealed class SectionLines
{
    private const int FewestOfALabel = 2;
    private const int LongestLabel = 40;

    private readonly Dictionary<int, (string Label, string Text)> _lines = [];
    private readonly ImportMapping _rules;

    private SectionLines(ImportMapping rules) => _rules = rules;

    /// <summary>Finds them: two cells side by side, the first of them in the first column.</summary>
    public static SectionLines Of(IReadOnlyList<SheetRow> rows, TableHeader header, ImportMapping rules)
    {
        var sections = new SectionLines(rules);
        if (header.Row.Cells.Count(c => !c.IsBlank) < 3) return sections;
        var found = rows.Where(r => r.Fault is null && Halves(r, header) is not null)
            .Select(r => (r.Number, Line: Halves(r, header)!.Value)).ToList();
        foreach (var same in found.GroupBy(f => f.Line.Label, StringComparer.OrdinalIgnoreCase))
        {
            // A row that tells little of a device stands alone, or its first cell is of the column that it stands in.
            if (same.Count() < FewestOfALabel || !IsLabel(same.Key)) continue;
            foreach (var (number, line) in same) sections._lines[number] = line;
        }
        return sections;
    }

    /// <summary>Whether a row is such a line.</summary>
    public bool Holds(SheetRow row) => _lines.ContainsKey(row.Number);

    /// <summary>What such a line says of the rows below it; null where nobody knows, or it says nothing.</summary>
    public LabelledLine? Says(SheetRow row) =>
        _lines.TryGetValue(row.Number, out var line) && LabelledLine.OfSection(line.Label, line.Text, _rules) is { } said
            && said.Column != Column.LeftOut && said.Column != Column.Noted ? said : null;

    /// <summary>What only a person can say of labels.</summary>
    public IEnumerable<ImportQuestion> Questions(string sheet) =>
        _lines.Values.Where(l => LabelledLine.OfSection(l.Label, l.Text, _rules) is null)
            .GroupBy(l => l.Label, StringComparer.OrdinalIgnoreCase).Select(same => same.Aggregate(LabelledLine.Question(same.Key, sheet,
                $"What does '{same.Key}' say of the rows below it? ({string.Join(", ", same.Select(l => l.Text).Distinct().Take(3))})"),
                (question, line) => question.Seen(line.Text)));

    private static bool IsLabel(string text) => text.Any(char.IsLetter) && !text.Any(char.IsAsciiDigit) && text.Length <= LongestLabel
        && Words.Kind(text) is null && Words.Status(text) is null && !NoRow.IsNoHeading(text);

    private static (string Label, string Text)? Halves(SheetRow row, TableHeader header)
    {
        if (row.At(0).IsBlank || row.At(1).IsBlank || row.Cells.Count(c => !c.IsBlank) != 2) return null;
        return RowNames(row, header) ? null : (row.At(0).Shown.Trim(' ', ':', '='), row.At(1).Shown);
    }

    /// <summary>Whether a row says which device it is of.</summary>
    internal static bool RowNames(SheetRow row, TableHeader header) =>
        TableHeader.Naming.Any(c => header.Places.TryGetValue(c, out var place) && !RowReader.IsAbsent(row.At(place).Shown))
        || header.Devices.Any(d => d.Places.TryGetValue(Column.Serial, out var place) && !RowReader.IsAbsent(row.At(place).Shown))
        || (header is { IsThing: false, Described: { } described } && !row.At(described).IsBlank);
}
