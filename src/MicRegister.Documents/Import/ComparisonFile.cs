using MicRegister.Documents.Sheets;
using MicRegister.Register.InPlace;

namespace MicRegister.Documents.Import;

/// <summary>
/// Reads levels of chains compared in place: rows of station, level and, where places are not alike, what is to be expected of them.
/// </summary>
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
            chains.Add(Chain(row.At(0).Text, row.At(1).Text, row.At(2).Text, out var wrong)
                ?? throw new SheetException($"{name}, row {row.Number}: {wrong}."));
        }
        return chains;
    }

    /// <summary>One chain, without its devices.</summary>
    /// <param name="station">Name of its station.</param>
    /// <param name="level">Its level, in dB.</param>
    /// <param name="expected">What is to be expected of its place, in dB; nothing is 0.</param>
    /// <param name="wrong">What is wrong, with what is allowed.</param>
    /// <returns>Null where something is wrong.</returns>
    internal static ComparedChain? Chain(string? station, string? level, string? expected, out string? wrong)
    {
        var (levelDb, expectedDb) = (Decibels(level), string.IsNullOrWhiteSpace(expected) ? 0 : Decibels(expected));
        wrong = string.IsNullOrWhiteSpace(station) ? "the station is missing"
            : levelDb is null ? $"level '{level}': allowed is a number in dB"
            : expectedDb is null ? $"expected '{expected}': allowed is a number in dB"
            : null;
        return wrong is null ? new(station!.Trim(), [], levelDb!.Value, expectedDb!.Value) : null;
    }

    private static double? Decibels(string? text) =>
        MeasuredText.TryRead(text ?? "", out var number, out var stated) ? MeasuredText.Convert(number, stated, "dB") : null;
}
