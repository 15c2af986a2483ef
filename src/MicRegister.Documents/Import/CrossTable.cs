using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>A table of results with a day a row and a device a column: serial numbers as headers, days in the first column.</summary>
internal static class CrossTable
{
    private const int MostRows = 5000;
    private const int RowsAbove = 12;

    /// <summary>The same with a row a result, numbered as the row in which it stands; null where it is no such table.</summary>
    public static IReadOnlyList<SheetRow>? Turned(IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        if (rows.Count is < 3 or > MostRows) return null;
        for (var i = 0; i < Math.Min(RowsAbove, rows.Count - 2); i++)
        {
            if (SerialsOf(rows[i]) is not { Count: > 1 } places) continue;
            var below = rows.Skip(i + 1).TakeWhile(r => IsDay(r.At(0))).ToList();
            if (below.Count < 2 || i + 1 + below.Count < rows.Count
                || !below.TrueForAll(r => places.TrueForAll(p => IsNumberOrBlank(r.At(p))))) return null;
            return [.. rows.Take(i).Where(r => Label(r, places, rules) is null), .. Long(rows, i, places, below, rules)];
        }
        return null;
    }

    private static IEnumerable<SheetRow> Long(IReadOnlyList<SheetRow> rows, int at, List<int> places, List<SheetRow> below,
        ImportMapping rules)
    {
        var labels = rows.Take(at).Select(r => (Row: r, Label: Label(r, places, rules))).Where(l => l.Label is not null).ToList();
        yield return new(rows[at].Number, [.. labels.Select(l => new Cell(l.Label)), new("Serial number"), new("Calibration date"),
            new("Result")]);
        foreach (var row in below)
        {
            foreach (var place in places.Where(p => !row.At(p).IsBlank))
                yield return row with { Cells = [.. labels.Select(l => l.Row.At(place)), rows[at].At(place), row.At(0), row.At(place)] };
        }
    }

    // "Model | MK-50 | MK-50 | MK-12" above the serial numbers.
    private static string? Label(SheetRow row, List<int> places, ImportMapping rules) =>
        !row.At(0).IsBlank && places.TrueForAll(p => !row.At(p).IsBlank)
            && (rules.OfHeader(row.At(0).Shown) is not null || HeaderReading.Of(row.At(0).Shown) is { Column: not null, IsGuess: false })
                ? row.At(0).Shown : null;

    // Every header but the first names one device.
    private static List<int>? SerialsOf(SheetRow row)
    {
        var first = row.At(0).IsBlank ? null : HeaderReading.Of(row.At(0).Shown).Column;
        if (row.Fault is not null || (!row.At(0).IsBlank && first != Column.Day && first != Column.Serial)) return null;
        var places = Enumerable.Range(1, Math.Max(0, row.Cells.Length - 1)).Where(n => !row.At(n).IsBlank).ToList();
        var texts = places.Select(n => row.At(n)).ToList();
        return texts.TrueForAll(c => c.Day is null && c.Shown.Count(char.IsAsciiDigit) >= 2
            && !c.Shown.Contains(' ', StringComparison.Ordinal)
            && HeaderReading.Of(c.Shown) is { Year: null, Column: null, Unit: null }) && texts.Select(c => c.Shown).Distinct()
                .Count() == texts.Count ? places : null;
    }

    private static bool IsDay(Cell cell) => !cell.IsBlank && (cell.Day is not null || (!cell.Shown.All(char.IsAsciiDigit)
        && (DateText.TryRead(cell, DateOrder.DayFirst, false, out _) is null
            || DateText.TryRead(cell, DateOrder.MonthFirst, false, out _) is null)));

    private static bool IsNumberOrBlank(Cell cell) => cell.IsBlank || RowReader.IsAbsent(cell.Shown)
        || MeasuredText.TryRead(cell.Shown, out _, out _);
}
