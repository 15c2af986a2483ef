using System.Globalization;

namespace MicRegister.Documents.Exports;

/// <summary>What stands in one cell of an export: a text, a number, or nothing. The default is nothing.</summary>
public readonly record struct ExportCell
{
    private readonly bool _isOfHertz;

    private ExportCell(string? text, double? number, bool isOfHertz = false) => (Text, Number, _isOfHertz) = (text, number, isOfHertz);

    /// <summary>A cell in which nothing stands.</summary>
    public static ExportCell Nothing => default;

    /// <summary>A text; null and the empty text are nothing, because a file of comma-separated values cannot tell them apart.</summary>
    public static ExportCell Of(string? text) => new(string.IsNullOrEmpty(text) ? null : text, null);

    /// <summary>A number, in the unit of its column; null is nothing.</summary>
    /// <exception cref="ArgumentException">It is not finite: neither a workbook nor JSON has a word for that.</exception>
    public static ExportCell Of(double? number) => number is null || double.IsFinite(number.Value)
        ? new ExportCell(null, number)
        : throw new ArgumentException("A number of an export is finite; where there is no value, the cell is nothing.", nameof(number));

    /// <summary>
    /// A frequency in Hz: one with three decimals is written with a fourth, since 1.585 could be a number of thousands; null is nothing.
    /// </summary>
    /// <exception cref="ArgumentException">It is not finite.</exception>
    public static ExportCell OfHertz(double? number) => new(null, Of(number).Number, isOfHertz: true);

    /// <summary>A day, as the text 2026-05-04 (ISO 8601), which no spreadsheet shifts to another epoch; null is nothing.</summary>
    public static ExportCell Of(DateOnly? day) => new(day?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), null);

    /// <summary>The text; null where there is none.</summary>
    public string? Text { get; }

    /// <summary>The number; null where there is none.</summary>
    public double? Number { get; }

    /// <summary>The number in the shortest form that reads back the same; null where there is none.</summary>
    public string? Digits
    {
        get
        {
            if (Number is not { } number) return null;
            var digits = number.ToString("R", CultureInfo.InvariantCulture);
            var point = digits.IndexOf('.', StringComparison.Ordinal);
            return _isOfHertz && point > 0 && point == digits.Length - 4 ? digits + "0" : digits;
        }
    }

    /// <summary>Whether nothing stands in the cell.</summary>
    public bool IsNothing => Text is null && Number is null;
}
