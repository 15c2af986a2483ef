namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A column of a table: its header, and its cell for a device and one of its results.</summary>
internal sealed record Column(string Header, Func<Instrument, Calibrated?, Cell> Write);

/// <summary>Lays columns out.</summary>
internal static class Tables
{
    public static Line Header(this IReadOnlyList<Column> columns) => new(LineSort.Header, columns.Select(c => new Cell(c.Header)));

    public static Line Row(this IReadOnlyList<Column> columns, Instrument device, Calibrated? result = null) =>
        new(LineSort.Data, columns.Select(c => c.Write(device, result)));

    /// <summary>A table of one row a device, with its last result.</summary>
    public static void Table(this Grid grid, IReadOnlyList<Column> columns, IEnumerable<Instrument> devices) =>
        grid.Table(columns, devices.Select(d => (d, d.Last)));

    public static void Table(this Grid grid, IReadOnlyList<Column> columns, IEnumerable<(Instrument, Calibrated?)> rows)
    {
        grid.Lines.Add(columns.Header());
        grid.Rows(columns, rows);
    }

    public static void Rows(this Grid grid, IReadOnlyList<Column> columns, IEnumerable<(Instrument Device, Calibrated? Result)> rows) =>
        grid.Lines.AddRange(rows.Select(r => columns.Row(r.Device, r.Result)));

    /// <summary>One row a result.</summary>
    public static IEnumerable<(Instrument, Calibrated?)> EachResult(this IEnumerable<Instrument> devices) =>
        devices.SelectMany(d => d.Results.Select(r => (d, (Calibrated?)r)));

    /// <summary>Lets every row of a sheet say the kind that its heading, title or name says.</summary>
    public static void ImplyKind(this IEnumerable<Line> lines)
    {
        foreach (var line in lines.Where(l => l.Sort == LineSort.Data))
        {
            foreach (var owner in line.Cells.SelectMany(c => c.Means).Select(m => m.Owner).Distinct().ToList())
                line.Implied.Add(new(Said.Kind, owner, null, new(owner.Kind)));
        }
    }

    public static string Letter(int column) => ((char)('A' + column)).ToString();
}
