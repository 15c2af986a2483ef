using System.Globalization;
using System.Text.RegularExpressions;

namespace MicRegister.Documents.Import;

/// <summary>Reads a number with or without a unit, as people write it.</summary>
public static partial class MeasuredText
{
    private static readonly Dictionary<string, string> Units = new (string Written, string Usual)[]
    {
        ("mv/pa", "mV/Pa"), ("mv / pa", "mV/Pa"), ("v/pa", "V/Pa"), ("db re 1 v/pa", "dB re 1 V/Pa"), ("db re 1v/pa", "dB re 1 V/Pa"),
        ("db re v/pa", "dB re 1 V/Pa"), ("db(v/pa)", "dB re 1 V/Pa"), ("db", "dB"), ("db re 20 µpa", "dB"), ("db re 20 upa", "dB"), ("db spl", "dB"),
        ("%", "%"), ("kpa", "kPa"), ("hpa", "hPa"), ("mbar", "hPa"), ("pa", "Pa"), ("hz", "Hz"), ("khz", "kHz"), ("mm", "mm"), ("cm", "cm"), ("m", "m"),
        ("v", "V"), ("months", "months"), ("month", "months"), ("years", "years"), ("year", "years"), ("a", "years"), ("°c", "°C"), ("c", "°C"), ("% rh", "%"), ("%rh", "%"),
        ("\"", "in"), ("in", "in"), ("inch", "in"), ("mm³", "mm³"), ("mm3", "mm³"), ("db/kpa", "dB/kPa"), ("db/k", "dB/K"), ("°", "°"),
    }.ToDictionary(u => u.Written, u => u.Usual, StringComparer.OrdinalIgnoreCase);

    /// <summary>Reads a number.</summary>
    /// <param name="text">
    /// Digits with a point or one comma as decimal mark; where both stand, the later one is it. A minus of any sort. A unit may follow.
    /// </param>
    /// <param name="value">The number.</param>
    /// <param name="unit">The unit in its usual writing; null where none stands there.</param>
    /// <returns>False where it is none.</returns>
    public static bool TryRead(string text, out double value, out string? unit)
    {
        unit = null;
        value = double.NaN;
        var plain = text.Trim().Replace('\u2212', '-').Replace('\u2013', '-').Replace('\u00A0', ' ').Replace('\u202F', ' ').TrimStart('±');
        if (Number().Match(plain) is not { Success: true } m) return false;
        var digits = m.Groups[1].Value.Replace(" ", "", StringComparison.Ordinal);
        int comma = digits.LastIndexOf(','), point = digits.LastIndexOf('.');
        if (comma >= 0 && point >= 0) digits = comma > point ? digits.Replace(".", "", StringComparison.Ordinal).Replace(',', '.') : digits.Replace(",", "", StringComparison.Ordinal);
        else if (comma >= 0 && digits.IndexOf(',', StringComparison.Ordinal) == comma) digits = digits.Replace(',', '.');
        if (!double.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out value) || !double.IsFinite(value)) return false;
        var rest = m.Groups[2].Value.Trim();
        if (rest.Length == 0) return true;
        unit = Unit(rest);
        return unit is not null;
    }

    /// <summary>A unit in its usual writing; null where it is not known.</summary>
    public static string? Unit(string text) => Units.GetValueOrDefault(text.Trim().Trim('[', ']', '(', ')').Trim().Replace('\u00A0', ' '));

    /// <summary>The unit in brackets, or behind a comma or slash, of a header such as "Sensitivity [mV/Pa]"; null where none stands there.</summary>
    public static string? UnitOfHeader(string header)
    {
        foreach (Match m in Bracketed().Matches(header))
        {
            if (Unit(m.Groups[1].Value) is { } unit) return unit;
        }
        var cut = header.LastIndexOfAny([',', ';']);
        if (cut > 0 && Unit(header[(cut + 1)..]) is { } behind) return behind;
        for (var blank = header.IndexOf(' ', StringComparison.Ordinal); blank > 0; blank = header.IndexOf(' ', blank + 1))
        {
            if (Unit(header[(blank + 1)..]) is { } last && last is not ("m" or "V" or "°C" or "years")) return last;
        }
        return null;
    }

    /// <summary>A header without the unit behind its comma or first blank.</summary>
    public static string WithoutUnit(string header)
    {
        var cut = header.LastIndexOfAny([',', ';']);
        if (cut > 0 && Unit(header[(cut + 1)..]) is not null) return header[..cut];
        var blank = header.IndexOf(' ', StringComparison.Ordinal);
        while (blank > 0)
        {
            if (Unit(header[(blank + 1)..]) is not null) return header[..blank];
            blank = header.IndexOf(' ', blank + 1);
        }
        return header;
    }

    /// <summary>Brings a number from its unit to another.</summary>
    /// <returns>Null where that cannot be.</returns>
    public static double? Convert(double value, string? from, string to) => (from ?? to, to) switch
    {
        var (f, t) when f == t => value,
        ("hPa", "kPa") => value / 10,
        ("Pa", "kPa") => value / 1000,
        ("kHz", "Hz") => value * 1000,
        ("cm", "mm") => value * 10,
        ("m", "mm") => value * 1000,
        ("mm", "m") => value / 1000,
        ("years", "months") => value * 12,
        ("in", "mm") => CapsuleSize(value),
        _ => null,
    };

    /// <summary>Nominal diameters of capsules are not 25.4 mm times the inch (IEC 61094-4; from memory, unchecked).</summary>
    public static double CapsuleSize(double inch) => inch switch
    {
        1 => 23.77,
        0.5 => 12.7,
        0.25 => 6.35,
        0.125 => 3.175,
        _ => inch * 25.4,
    };

    /// <summary>Reads 1/2", 1/4 inch and the like.</summary>
    public static double? InchFraction(string text) =>
        Fraction().Match(text.Trim()) is { Success: true } m && int.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture) is var d and > 0
            ? int.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture) / (double)d
            : null;

    [GeneratedRegex(@"^([+-]?\d[\d ]*(?:[.,]\d+)*(?:[eE][+-]?\d+)?|[+-]?[.,]\d+)(.*)$", RegexOptions.Singleline)]
    private static partial Regex Number();

    [GeneratedRegex(@"[\[(]([^\])]*)[\])]")]
    private static partial Regex Bracketed();

    [GeneratedRegex(@"^(\d)\s*/\s*(\d+)\s*(?:""|''|in\.?|inch|zoll|″)?$", RegexOptions.IgnoreCase)]
    private static partial Regex Fraction();
}
