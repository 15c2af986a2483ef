using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// Rows that say what the rows below them share, in columns of their own: a line a product, and below it each piece that there is of it.
/// </summary>
internal static class ParentRows
{
    private const int FewestCells = 2;

    /// <summary>The rows, each piece with what the line above says of it, and the numbers of those lines.</summary>
    public static (IReadOnlyList<SheetRow> Rows, IReadOnlySet<int> Parents) Of(IReadOnlyList<SheetRow> rows, TableHeader header)
    {
        var none = (rows, (IReadOnlySet<int>)new HashSet<int>());
        if (rows.Count < 4 || rows[0].Fault is not null) return none;
        var shared = Filled(rows[0], header);
        if (shared.Count < FewestCells || shared.Count >= header.Row.Cells.Length - 1
            || (header.Places.Any(p => TableHeader.Naming.Contains(p.Key))
                && !header.Places.Any(p => TableHeader.Naming.Contains(p.Key) && !shared.Contains(p.Value)))) return none;
        var parents = new HashSet<int>();
        var (pieces, others) = (0, 0);
        foreach (var row in rows)
        {
            var filled = row.Fault is null ? Filled(row, header) : [];
            if (filled.Count >= FewestCells && filled.IsSubsetOf(shared)) parents.Add(row.Number);
            else if (filled.Count >= FewestCells && !filled.Overlaps(shared)) pieces++;
            else others++;
        }
        if (parents.Count < 2 || pieces < parents.Count || others * 10 > rows.Count) return none;
        var joined = new List<SheetRow>();
        SheetRow? above = null;
        foreach (var row in rows)
        {
            if (parents.Contains(row.Number)) above = row;
            joined.Add(above is { } parent && row.Fault is null && !parents.Contains(row.Number)
                && Filled(row, header) is { Count: >= FewestCells } own && !own.Overlaps(shared)
                ? row with
                {
                    Cells = [.. Enumerable.Range(0, header.Row.Cells.Length).Select(i => shared.Contains(i) ? parent.At(i) : row.At(i))],
                } : row);
        }
        return (joined, parents);
    }

    private static HashSet<int> Filled(SheetRow row, TableHeader header) =>
        [.. Enumerable.Range(0, header.Row.Cells.Length).Where(i => !row.At(i).IsBlank)];
}
