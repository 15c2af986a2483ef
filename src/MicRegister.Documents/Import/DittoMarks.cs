using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>Marks such as <i>dito</i> that stand for the cell above: asked once, since they may be what they say.</summary>
internal static class DittoMarks
{
    private const string Key = "ditto";

    private static readonly HashSet<string> Marks = new(StringComparer.OrdinalIgnoreCase)
    {
        "dito", "ditto", "detto", "do.", "dto.", "idem", "id.", "same", "same as above", "as above", "wie oben", "s.o.", "\"", "\"\"",
            "''", "\u3003", "\u201D", "\u201C", "\u201E", "-\"-", "-''-", "comme ci-dessus", "igual", "como arriba", "come sopra",
            "idem dito", "zelfde", "als boven",
    };

    /// <summary>Rows with what their marks stand for, where somebody said so; otherwise which rows have marks.</summary>
    public static (IReadOnlyList<SheetRow> Rows, IReadOnlyDictionary<int, string> Open) Of(
        IReadOnlyList<SheetRow> rows, TableHeader header, ImportMapping rules)
    {
        var open = new Dictionary<int, string>();
        var said = rules.Of(Key);
        if (said == "keep" || TableFinder.LeftARegister(header.Row)) return (rows, open);
        List<SheetRow>? filled = null;
        var above = new Cell[header.Row.Cells.Length];
        for (var r = 0; r < rows.Count; r++)
        {
            var row = rows[r];
            if (row.Fault is not null) continue;
            Cell[]? cells = null;
            for (var i = 0; i < Math.Min(above.Length, row.Cells.Length); i++)
            {
                var cell = row.Cells[i];
                if (cell.IsBlank) continue;
                // Above the first cell of a column there is nothing that it could stand for.
                if (cell.Text is not { Length: <= 16 } text || !Marks.Contains(text.Trim()) || above[i].IsBlank
                    || above[i].Text == text) above[i] = cell;
                else if (said is null) open.TryAdd(row.Number, text);
                else (cells ??= [.. row.Cells])[i] = above[i];
            }
            if (cells is null) continue;
            filled ??= [.. rows];
            filled[r] = row with { Cells = cells };
        }
        return (filled ?? rows, open);
    }

    public static ImportQuestion Question(string sheet) =>
        new(Key, sheet, "Some cells hold a mark such as 'ditto'. What do they stand for?",
        [new("The cell above", Key + " := above"), new("They say what they say", Key + " := keep")]);
}
