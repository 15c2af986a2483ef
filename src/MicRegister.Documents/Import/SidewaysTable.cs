using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>A table that lies on its side: a device a column, its headers in the first one.</summary>
internal static class SidewaysTable
{
    private const int MostColumns = 2000;
    private const int RowsLookedAt = 60;

    /// <summary>The table with its columns as rows, numbered as they stand; null where it does not lie on its side.</summary>
    public static IReadOnlyList<SheetRow>? Turned(IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        if (rows.Count is < 3 or > RowsLookedAt * 2) return null;
        var column = new SheetRow(1, [.. rows.Take(RowsLookedAt).Select(r => r.At(0))]);
        var down = TableHeader.Read(column, rules);
        if (down.Known < 3 || !down.NamesRows || down.Known * 2 < column.Cells.Count(c => !c.IsBlank)) return null;
        // Kinds of devices stand below each other in an upright table, and beside each other in one on its side.
        var best = rows.Take(RowsLookedAt).Max(r => TableHeader.Read(r, rules) is { NamesRows: true } h ? h.Headed : 0);
        if (best >= down.Headed || IsCard(rows, rules)) return null;
        var width = Math.Min(MostColumns, rows.Max(r => r.Cells.Length));
        return width < 2 ? null : [.. Enumerable.Range(0, width).Select(i => new SheetRow(i + 1, [.. rows.Select(r => r.At(i))]))
            .Where(r => !r.IsBlank)];
    }

    // Lines that say which device it is, and below them a table of its results.
    private static bool IsCard(IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        var isNamed = false;
        foreach (var row in rows.Take(RowsLookedAt))
        {
            if (LabelledLine.AllOf(row, rules) is { Count: > 0 } lines) isNamed |= lines.Any(l => l.NamesDevice);
            else if (isNamed && TableHeader.Read(row, rules) is { HoldsResults: true, Known: >= 2 } && !row.Cells.Any(c => c.Day is not null
                || MeasuredText.TryRead(c.Shown, out _, out _))) return true;
        }
        return false;
    }
}
