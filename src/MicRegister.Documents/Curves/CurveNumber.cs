using System.Globalization;
using System.Text.RegularExpressions;

namespace MicRegister.Documents.Curves;

/// <summary>A figure of a curve file, read under one way of taking commas and points.</summary>
internal static partial class CurveNumber
{
    private static readonly HashSet<string> Missing = new(StringComparer.OrdinalIgnoreCase)
    {
        "", "-", "--", "---", "\u2013", "\u2014", ".", "\u2026", "nan", "-nan", "nan(ind)", "-nan(ind)", "n/a", "na", "n.a.", "#n/a",
            "#num!",
        "#value!", "#div/0!", "#nv", "inf", "-inf", "+inf", "infinity", "-infinity", "\u221E", "-\u221E", "1.#qnan", "-1.#ind", "1.#inf",
            "-1.#inf",
        "null", "none",
    };

    /// <summary>Whether a cell says that there is no figure.</summary>
    public static bool IsMissing(string text) => Missing.Contains(text.Trim());

    /// <summary>Whether a cell is a figure, whichever way commas and points are taken.</summary>
    public static bool IsNumber(string text) => Read(text, '.') is not null || Read(text, ',') is not null;

    /// <summary>Whether a comma or point stands where it can be a decimal mark as well as part thousands: 1,250.</summary>
    public static bool IsOpen(string text) => Open().IsMatch(Parts(text).Digits);

    /// <summary>Whether it holds a comma or a point.</summary>
    public static bool HasMark(string text) => Parts(text).Digits.AsSpan().IndexOfAny(',', '.') >= 0;

    /// <summary>Reads a figure.</summary>
    /// <param name="text">Digits with marks, a sign of any sort, an exponent, a unit behind it.</param>
    /// <param name="decimalMark">A comma or a point; the other one, blanks and apostrophes part thousands.</param>
    /// <returns>The figure and its unit, empty where none is stated; null where it is no figure.</returns>
    public static (double Value, string Unit)? Read(string text, char decimalMark)
    {
        var (digits, unit) = Parts(text);
        if (digits.Length == 0 || !(decimalMark == ',' ? WithComma() : WithPoint()).IsMatch(digits)) return null;
        var plain = string.Concat(digits.Where(c => char.IsAsciiDigit(c) || c is '+' or '-' or 'e' or 'E' || c == decimalMark)).Replace(
            decimalMark, '.');
        return double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var value)
            && double.IsFinite(value) ? (value, unit) : null;
    }

    /// <summary>Reads an open figure, such as 1,250, as thousands, any other one with that mark as its decimal mark.</summary>
    public static (double Value, string Unit)? ReadThousands(string text, char mark) =>
        Read(text, IsOpen(text) ? mark == ',' ? '.' : ',' : mark);

    private static (string Digits, string Unit) Parts(string text)
    {
        var plain = text.Trim().Replace('\u2212', '-').Replace('\u2013', '-').TrimStart('±');
        var m = WithUnit().Match(plain);
        return m.Success ? (m.Groups[1].Value, Unit(m.Groups[2].Value)) : (plain, "");
    }

    private static string Unit(string text) =>
        text.ToLowerInvariant() switch { "hz" => "Hz", "khz" => "kHz", "db" => "dB", "%" => "%", _ => "°" };

    [GeneratedRegex(@"^(.*?\d)\s*(k?hz|db|%|°|deg)$", RegexOptions.IgnoreCase)]
    private static partial Regex WithUnit();

    [GeneratedRegex(@"^[+-]?[1-9]\d{0,2}[.,]\d{3}$")]
    private static partial Regex Open();

    [GeneratedRegex("^[+-]?(?:[1-9]\\d{0,2}(?:[.'\u2019\u00A0\u202F ]\\d{3})+(?:,\\d*)?|\\d+(?:,\\d*)?|,\\d+)(?:[eE][+-]?\\d{1,3})?$")]
    private static partial Regex WithComma();

    [GeneratedRegex("^[+-]?(?:[1-9]\\d{0,2}(?:[,'\u2019\u00A0\u202F "
        + "]\\d{3})+(?:\\.\\d*)?|\\d+(?:\\.\\d*)?|\\.\\d+)(?:[eE][+-]?\\d{1,3})?$")]
    private static partial Regex WithPoint();
}
