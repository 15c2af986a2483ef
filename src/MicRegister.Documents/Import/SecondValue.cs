using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Sensitivities;

namespace MicRegister.Documents.Import;

/// <summary>Holds two columns of one result in two units against each other.</summary>
internal static class SecondValue
{
    // Lists round both to two or three figures: a tenth of a decibel is more than that makes, and less than any mistake.
    private const double AgreesWithinDb = 0.1;

    /// <summary>The first row whose two results differ by more than rounding makes; null where all agree.</summary>
    public static SheetRow? Disagreeing(IEnumerable<SheetRow> rows, int first, string? firstUnit, int second, string? secondUnit)
    {
        foreach (var row in rows)
        {
            if (Level(row.At(first).Shown, firstUnit) is { } a && Level(row.At(second).Shown, secondUnit) is { } b
                && Math.Abs(a - b) > AgreesWithinDb) return row;
        }
        return null;
    }

    /// <summary>Whether two writings of one result agree; false also where one cannot be read.</summary>
    public static bool Agree(string first, string second) =>
        Level(first, null) is { } a && Level(second, null) is { } b && Math.Abs(a - b) <= AgreesWithinDb;

    private static double? Level(string text, string? unitAbove)
    {
        if (!MeasuredText.TryRead(text, out var value, out var unit)) return null;
        return (unit ?? unitAbove) switch
        {
            "mV/Pa" when value > 0 => Sensitivity.FromMillivoltsPerPascal(value).Level.Decibels,
            "V/Pa" when value > 0 => Sensitivity.FromMillivoltsPerPascal(value * 1000).Level.Decibels,
            "dB re 1 V/Pa" or "dB" => value,
            _ => null,
        };
    }
}
