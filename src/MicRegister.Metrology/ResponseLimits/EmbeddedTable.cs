using System.Globalization;
using System.Text;

namespace MicRegister.Metrology.ResponseLimits;

/// <summary>Reads the printed tables that stand beside this file: a header, then rows; a cell with a comma stands in quotes.</summary>
internal static class EmbeddedTable
{
    /// <summary>The rows of a table, each cell by its header.</summary>
    /// <param name="name">Name of its file, such as <c>iec61672-1-2013.csv</c>.</param>
    /// <exception cref="InvalidOperationException">There is no such file, or a row has more or fewer cells than the header.</exception>
    public static IReadOnlyList<IReadOnlyDictionary<string, string>> Rows(string name)
    {
        using var stream = typeof(EmbeddedTable).Assembly.GetManifestResourceStream("ResponseLimits." + name)
            ?? throw new InvalidOperationException($"The table {name} is not embedded.");
        using var reader = new StreamReader(stream, Encoding.UTF8);
        var head = Cells(reader.ReadLine()!);
        var rows = new List<IReadOnlyDictionary<string, string>>();
        while (reader.ReadLine() is { } line)
        {
            var cells = Cells(line);
            if (cells.Count != head.Count)
                throw new InvalidOperationException($"{name}, row {rows.Count + 2}: {cells.Count} cells; {head.Count} are wanted.");
            rows.Add(head.Zip(cells).ToDictionary(p => p.First, p => p.Second));
        }
        return rows;
    }

    /// <summary>A limit in dB: a number, or <c>-inf</c> where there is none on that side.</summary>
    public static double Db(string cell) =>
        cell == "-inf" ? double.NegativeInfinity : double.Parse(cell, NumberStyles.Float, CultureInfo.InvariantCulture);

    /// <summary>The one text of a column; a table of two editions or two marks is none.</summary>
    public static string One(IReadOnlyList<IReadOnlyDictionary<string, string>> rows, string column) =>
        rows.Select(r => r[column]).Distinct().Single();

    private static List<string> Cells(string line)
    {
        var cells = new List<string>();
        var (cell, isQuoted) = (new StringBuilder(), false);
        foreach (var c in line)
        {
            if (c == '"') isQuoted = !isQuoted;
            else if (c != ',' || isQuoted) cell.Append(c);
            else
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
        }
        cells.Add(cell.ToString());
        return cells;
    }
}
