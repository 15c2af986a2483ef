using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// Rows that say several things one below the other in their cells: three days and three results, or three serial numbers.
/// </summary>
internal static class SplitRows
{
    private const int MostOfARow = 60;

    /// <summary>The rows with each of those as a row of its own; the number stays that of the row in which it stands.</summary>
    public static IReadOnlyList<SheetRow> Of(IReadOnlyList<SheetRow> rows, TableHeader header)
    {
        List<SheetRow>? split = null;
        var counts = Counts(header);
        for (var i = 0; i < rows.Count; i++)
        {
            var parts = Parts(rows[i], header, counts);
            if (parts is not null) split ??= [.. rows.Take(i)];
            split?.AddRange(parts ?? [rows[i]]);
        }
        return split ?? rows;
    }

    private static List<SheetRow>? Parts(SheetRow row, TableHeader header, IReadOnlyList<int> counts)
    {
        if (row.Fault is not null) return null;
        if (Lines(row, header) is { } lines) return lines;
        if (!header.Places.TryGetValue(Column.Serial, out var place) || header.Divided.ContainsKey(place)) return null;
        if (Counted(row, counts) is not { } count || Serials(row.At(place).Shown) is not { } serials
            || serials.Length != count) return null;
        return [.. serials.Select(s => With(row, c => c == place ? new Cell(s) : row.At(c)))];
    }

    /// <summary>Several serial numbers in one cell; null where it holds one.</summary>
    public static string[]? Serials(string text)
    {
        var parts = text.Split([',', ';', '\n'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        return parts.Length is > 1 and <= MostOfARow && parts.All(p => p.Any(char.IsAsciiDigit)
            && !p.Contains(' ', StringComparison.Ordinal)) ? parts : null;
    }

    // The columns of quantities, which say how many there are.
    private static IReadOnlyList<int> Counts(TableHeader header) => !header.Places.ContainsKey(Column.Serial) ? []
        : [.. Enumerable.Range(0, header.Row.Cells.Length)
            .Where(i => HeaderConcepts.Of(header.Row.At(i).Shown).Concepts.Contains("quantity_of"))];

    private static int? Counted(SheetRow row, IReadOnlyList<int> counts)
    {
        foreach (var i in counts)
        {
            if (int.TryParse(row.At(i).Shown, out var count)) return count;
        }
        return null;
    }

    // As many lines under the days as under the results.
    private static List<SheetRow>? Lines(SheetRow row, TableHeader header)
    {
        if (!header.Places.TryGetValue(Column.Day, out var day) || !header.Places.TryGetValue(Column.Value, out var value)) return null;
        var days = row.At(day).Shown.Split('\n', StringSplitOptions.TrimEntries);
        if (days.Length is < 2 or > MostOfARow || row.At(value).Shown.Split('\n').Length != days.Length) return null;
        return [.. Enumerable.Range(0, days.Length).Select(n => With(row, c =>
            row.At(c).Shown.Split('\n', StringSplitOptions.TrimEntries) is var lines && lines.Length == days.Length ? new Cell(lines[n])
                : row.At(c)))];
    }

    private static SheetRow With(SheetRow row, Func<int, Cell> cell) =>
        row with { Cells = [.. Enumerable.Range(0, row.Cells.Length).Select(cell)] };
}
