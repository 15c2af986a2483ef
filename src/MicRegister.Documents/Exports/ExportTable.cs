namespace MicRegister.Documents.Exports;

/// <summary>A table that leaves the register, with the meaning of its columns and where it came from.</summary>
/// <param name="Title">What the table is, for people.</param>
/// <param name="Columns">Its columns, each with a key of its own.</param>
/// <param name="Rows">Its rows, each with one cell for every column.</param>
/// <param name="Provenance">Where it came from: register, sequence, chain hash and the like, each name once.</param>
/// <exception cref="ArgumentException">
/// A key or a name is empty or there twice,
/// a row has another number of cells than there are columns, or a cell is no number where its column holds numbers, or one elsewhere.
/// </exception>
public sealed record ExportTable(
    string Title, IReadOnlyList<ExportColumn> Columns, IReadOnlyList<IReadOnlyList<ExportCell>> Rows, IReadOnlyList<(string Name, string Value)> Provenance)
{
    /// <summary>Its columns, in order.</summary>
    public IReadOnlyList<ExportColumn> Columns { get; } = Columns.Count > 0
        ? Named(Columns, Columns.Select(c => c.Key), nameof(Columns))
        : throw new ArgumentException("An export has at least one column.", nameof(Columns));

    /// <summary>Its rows, in order.</summary>
    public IReadOnlyList<IReadOnlyList<ExportCell>> Rows { get; } = Fitting(Rows, Columns);

    /// <summary>Where it came from, in order.</summary>
    public IReadOnlyList<(string Name, string Value)> Provenance { get; } = Named(Provenance, Provenance.Select(p => p.Name), nameof(Provenance));

    /// <summary>What must be known of all of it; empty where nothing.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    // A name that is there twice would make an object of JSON that readers take differently.
    private static IReadOnlyList<T> Named<T>(IReadOnlyList<T> items, IEnumerable<string> names, string what)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var name in names)
        {
            if (string.IsNullOrWhiteSpace(name)) throw new ArgumentException("A name is empty.", what);
            if (!seen.Add(name)) throw new ArgumentException($"'{name}' is there twice.", what);
        }
        return items;
    }

    private static IReadOnlyList<IReadOnlyList<ExportCell>> Fitting(
        IReadOnlyList<IReadOnlyList<ExportCell>> rows, IReadOnlyList<ExportColumn> columns)
    {
        for (var i = 0; i < rows.Count; i++)
        {
            if (rows[i].Count != columns.Count)
                throw Wrong(i, FormattableString.Invariant($"has {rows[i].Count} cells; there are {columns.Count} columns."));
            for (var j = 0; j < columns.Count; j++)
            {
                if (!rows[i][j].IsNothing && rows[i][j].Number is not null != (columns[j].Type == ExportType.Number))
                    throw Wrong(i, $"holds something else in {columns[j].Key} than the column says.");
            }
        }
        return rows;
    }

    private static ArgumentException Wrong(int row, string what) =>
        new(FormattableString.Invariant($"Row {row + 1} {what}"));
}
