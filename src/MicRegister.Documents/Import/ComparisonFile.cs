using MicRegister.Documents.Sheets;
using MicRegister.Register.InPlace;

namespace MicRegister.Documents.Import;

/// <summary>Reads levels of chains compared in place: rows of station, level and, where places are not alike, what is to be expected of them.</summary>
public static class ComparisonFile
{
    private const int MostRows = 1001;

    /// <summary>Reads a text table: comma, semicolon or tab; point or decimal comma; a first row of headers is passed over.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <returns>Chains without their devices: those that stood there are meant.</returns>
    /// <exception cref="SheetException">It cannot be read; the message names row and value, and what is allowed.</exception>
    public static IReadOnlyList<ComparedChain> Read(Stream content, string name)
    {
        var chains = new List<ComparedChain>();
        var isFirst = true;
        foreach (var row in CsvSheet.Read(content, name, SheetLimits.Usual with { Rows = MostRows }).Rows)
        {
            if (row.IsBlank) continue;
            var isHeader = isFirst && !row.At(1).IsBlank && !row.At(1).Text!.Any(char.IsAsciiDigit);
            isFirst = false;
            if (isHeader) continue;
            if (row.At(0).IsBlank) throw new SheetException($"{name}, row {row.Number}: the station is missing.");
            chains.Add(new(row.At(0).Text!.Trim(), [], Number(name, row, 1, "level"), row.At(2).IsBlank ? 0 : Number(name, row, 2, "expected")));
        }
        return chains;
    }

    private static double Number(string name, SheetRow row, int column, string field) =>
        MeasuredText.TryRead(row.At(column).Text ?? "", out var number, out var stated) && MeasuredText.Convert(number, stated, "dB") is { } db
            ? db : throw new SheetException($"{name}, row {row.Number}: {field} '{row.At(column).Text}': allowed is a number in dB.");
}
