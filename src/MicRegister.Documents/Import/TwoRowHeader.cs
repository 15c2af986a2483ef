using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>Headers that stand in two rows: <i>Microphone | Calibration</i> above <i>Type | S/N | Date</i>.</summary>
internal static class TwoRowHeader
{
    /// <summary>The header that begins with a row, and how many rows it takes.</summary>
    public static (TableHeader Header, int Used) At(IReadOnlyList<SheetRow> rows, int i, ImportMapping rules)
    {
        var one = TableHeader.Read(rows[i], rules);
        if (i + 1 >= rows.Count || rows[i + 1].Fault is not null || rows[i].Cells.Count(c => !c.IsBlank) < 2) return (one, 1);
        // "Page 1 / 3 | 06/2026" above the header that each page repeats is no part of it.
        if (rows[i].Cells.FirstOrDefault(c => !c.IsBlank) is { IsBlank: false } first && NoRow.IsNoHeading(first.Shown)) return (one, 1);
        if (SplitsColumns(rows[i], rows[i + 1])) return (TableHeader.Read(Joined(rows[i], rows[i + 1]), rules), 2);
        if (NamesKinds(rows[i]) && rows[i + 1].Cells.Count(c => !c.IsBlank) > rows[i].Cells.Count(c => !c.IsBlank) + 1
            && TableHeader.Read(Joined(rows[i], rows[i + 1]), rules) is { NamesRows: true, Known: >= 2 } parts) return (parts, 2);
        if (!IsWords(rows[i + 1])) return (one, 1);
        var two = TableHeader.Read(rows[i + 1], rules);
        var joined = TableHeader.Read(Joined(rows[i], rows[i + 1]), rules);
        if (!joined.NamesRows) return (one, 1);
        // A word broken over two rows makes no more columns, but loses its unit or its meaning where the second is left out.
        return joined.Known > Math.Max(one.Known, two.Known) || (joined.Known >= one.Known && two.Known < joined.Known) ? (joined, 2)
            : (one, 1);
    }

    // "2023" over two columns, and below it "mV/Pa" and "dB": a row of units that tells columns apart which have no header of their own.
    private static bool SplitsColumns(SheetRow above, SheetRow units) =>
        units.Cells.All(c => c.IsBlank || c.Shown == "k" || MeasuredText.Unit(c.Shown) is not null)
            && Enumerable.Range(1, Math.Max(0, units.Cells.Length - 1)).Any(n => !units.At(n).IsBlank && above.At(n).IsBlank);

    // "Microphone | | | Preamplifier |": titles that say of which device the columns below them are.
    private static bool NamesKinds(SheetRow row)
    {
        var kinds = row.Cells.Where(c => !c.IsBlank)
            .Select(c => c.Day is null && !c.Shown.Any(char.IsAsciiDigit) ? Words.Kind(c.Shown) : null).ToList();
        return kinds.Count > 1 && !kinds.Contains(null) && kinds.Distinct().Count() == kinds.Count;
    }

    // Every cell is made of words of headers, or a unit: no row of a device is.
    private static bool IsWords(SheetRow row)
    {
        var filled = row.Cells.Where(c => !c.IsBlank).ToList();
        if (filled.Count < 2 || filled.All(c => MeasuredText.Unit(c.Shown) is not null)) return false;
        return filled.TrueForAll(c => c.Day is null && (MeasuredText.Unit(c.Shown) is not null
            || (HeaderConcepts.Of(MeasuredText.WithoutUnit(c.Shown)) is { Unknown: 0, HasSlip: false }
                && c.Shown.Any(char.IsLetter) && !c.Shown.Any(char.IsAsciiDigit) && Words.Kind(c.Shown) is null)));
    }

    /// <summary>Two rows as one header.</summary>
    public static SheetRow Joined(SheetRow above, SheetRow below)
    {
        var cells = new Cell[Math.Max(above.Cells.Length, below.Cells.Length)];
        var last = "";
        for (var i = 0; i < cells.Length; i++)
        {
            // A title over several columns stands in the first of them.
            if (!above.At(i).IsBlank) last = above.At(i).Shown;
            var (top, bottom) = (above.At(i).IsBlank && !below.At(i).IsBlank ? last : above.At(i).Shown, below.At(i).Shown);
            cells[i] = new(bottom == "k" ? bottom : bottom.Length == 0 || bottom == top ? top : top.Length == 0 ? bottom : top + " "
                + bottom);
        }
        return below with { Cells = cells };
    }
}
