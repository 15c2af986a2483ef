using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>Reads a number with or without a unit, as people write it.</summary>
public static partial class MeasuredText
{
    private static readonly Dictionary<string, string> Units = new (string Usual, string[] Written)[]
    {
        ("mV/Pa", ["mv/pa", "mv pa", "mv pro pa", "mv par pa", "mv por pa", "mv a pa", "mv je pa", "millivolt/pascal"]), ("V/Pa",
            ["v/pa"]), ("mV", ["mv"]),
        ("dB re 1 V/Pa", ["db re 1 v/pa", "db re v/pa", "dbv/pa", "db 1 v/pa", "db/1 v/pa", "db re 1 v pa"]),
        ("dB", ["db", "db re 20 upa", "db spl"]), ("%", ["%", "% rh", "%rf", "%hr", "%ur", "%rv", "%rlf", "percent", "pct", "prozent"]),
        ("kPa", ["kpa"]), ("hPa", ["hpa", "mbar"]), ("mmHg", ["mmhg", "torr"]), ("Pa", ["pa"]), ("Hz", ["hz"]), ("kHz", ["khz"]), ("mm",
            ["mm"]), ("cm", ["cm"]),
            ("m", ["m"]), ("V", ["v"]),
        ("months", ["months", "month", "mth", "monate", "monat", "mois", "meses", "mesi", "maanden", "mnd", "mon", "mos", "maand", "mes",
            "mese"]),
        ("years", ["years", "year", "a", "yrs", "jahre", "jahr", "ans", "anos", "anni", "jaar", "an", "année", "années", "años", "año",
            "anno", "jr", "yr"]), ("°C", ["°c", "c", "degc", "grad c", "celsius", "° celsius", "grad celsius", "ºc"]),
        ("in", ["\"", "in", "inch", "inches", "zoll", "pouce", "pouces", "pulgada", "pulgadas", "pollice", "pollici", "duim", "\u2033"]),
        ("mm³", ["mm³", "mm3"]), ("dB/kPa", ["db/kpa"]), ("dB/K", ["db/k"]), ("°", ["°"]), ("pF", ["pf"]),
    }.SelectMany(u => u.Written.Select(w => (Written: Canonical(w), u.Usual)))
        .ToDictionary(u => u.Written, u => u.Usual, StringComparer.Ordinal);

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
        if (IsPlainNumber(text)) return double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out value);
        var plain = FoldedText.Usual(text).TrimStart('±');
        if (Number().Match(plain) is not { Success: true } m) return false;
        var digits = m.Groups[1].Value.Replace(" ", "", StringComparison.Ordinal);
        int comma = digits.LastIndexOf(','), point = digits.LastIndexOf('.');
        if (comma >= 0 && point >= 0) digits = comma > point ? digits.Replace(".", "", StringComparison.Ordinal).Replace(',', '.')
            : digits.Replace(",", "", StringComparison.Ordinal);
        else if (comma >= 0 && digits.IndexOf(',', StringComparison.Ordinal) == comma) digits = digits.Replace(',', '.');
        if (!double.TryParse(digits, NumberStyles.Float, CultureInfo.InvariantCulture, out value) || !double.IsFinite(value)) return false;
        var rest = m.Groups[2].Value.Trim();
        if (rest.Length == 0) return true;
        unit = Unit(rest);
        return unit is not null;
    }

    // Digits with one point at most: what large lists are made of.
    private static bool IsPlainNumber(string text)
    {
        var points = 0;
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '.') points++;
            else if (!char.IsAsciiDigit(text[i]) && !(i == 0 && text[i] == '-')) return false;
        }
        return points <= 1 && text.Length is > 0 and < 16 && char.IsAsciiDigit(text[^1]) && (char.IsAsciiDigit(text[0]) || text.Length > 1);
    }

    /// <summary>Whether a unit, in its usual writing, is one that only sensitivities of microphones have.</summary>
    public static bool IsOfSensitivity(string? unit) => unit is "mV/Pa" or "V/Pa" or "dB re 1 V/Pa";

    /// <summary>A unit in its usual writing; null where it is not known.</summary>
    public static string? Unit(string text) => Units.GetValueOrDefault(Canonical(text));

    // One writing for the many of a unit: "dB (rel. 1V/Pa)" and "dB re 1 V/Pa" are one.
    private static string Canonical(string text)
    {
        var canonical = new StringBuilder(text.Length);
        foreach (var c in text.ToLowerInvariant())
        {
            if (c is not (' ' or '\u00A0' or '\u202F' or '\u2009' or '[' or ']' or '(' or ')' or '.' or ':' or '·' or ',')) canonical.Append(c is 'µ' or 'μ' ? 'u' : c);
        }
        var s = canonical.ToString();
        if (s.Length < 5) return s;
        s = s.Replace("pascal", "pa", StringComparison.Ordinal).Replace("volt", "v", StringComparison.Ordinal)
            .Replace("per", "/", StringComparison.Ordinal)
            .Replace("bezogenauf", "re", StringComparison.Ordinal).Replace("bez", "re", StringComparison.Ordinal)
            .Replace("ref", "re", StringComparison.Ordinal).Replace("rel", "re", StringComparison.Ordinal);
        return s.EndsWith("vpa-1", StringComparison.Ordinal) || s.EndsWith("vpa⁻¹", StringComparison.Ordinal) ? s[..^4] + "/pa" : s;
    }

    /// <summary>
    /// The unit in brackets, or behind a comma or slash, of a header such as "Sensitivity [mV/Pa]"; null where none stands there.
    /// </summary>
    public static string? UnitOfHeader(string header)
    {
        foreach (Match m in Bracketed().Matches(header))
        {
            if (Unit(m.Groups[1].Value) is { } unit) return unit;
        }
        header = Bracketed().Replace(header, " ").TrimEnd();
        var cut = header.LastIndexOfAny([',', ';']);
        if (cut > 0 && Unit(header[(cut + 1)..]) is { } behind) return behind;
        for (var blank = header.IndexOf(' ', StringComparison.Ordinal); blank > 0; blank = header.IndexOf(' ', blank + 1))
        {
            if (!IsPreposition(header[(blank + 1)..]) && Unit(header[(blank + 1)..]) is { } last
                && last is not ("m" or "V" or "°C" or "years")) return last;
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
            if (!IsPreposition(header[(blank + 1)..]) && Unit(header[(blank + 1)..]) is not null) return header[..blank];
            blank = header.IndexOf(' ', blank + 1);
        }
        return header;
    }

    // "Expressed in" and "Angegeben in" speak of no inches.
    private static bool IsPreposition(string word) => word.Trim() is "in" or "In" or "a" or "A" or "an";

    /// <summary>Brings a number from its unit to another.</summary>
    /// <returns>Null where that cannot be.</returns>
    public static double? Convert(double value, string? from, string to) => (from ?? to, to) switch
    {
        var (f, t) when f == t => value,
        ("hPa", "kPa") => value / 10,
        ("Pa", "kPa") => value / 1000,
        ("mmHg", "kPa") => value * 0.133322, // NIST SP 811, appendix B (from memory)
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
        Fraction().Match(text.Trim().Replace("½", "1/2", StringComparison.Ordinal).Replace("¼", "1/4", StringComparison.Ordinal)
            .Replace("⅛", "1/8", StringComparison.Ordinal)) is { Success: true } m
            && int.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture) is var d and > 0
            ? int.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture) / (double)d
            : null;

    [GeneratedRegex(@"^([+-]?[0-9][0-9 ]*(?:[.,][0-9]+)*(?:[eE][+-]?[0-9]+)?|[+-]?[.,][0-9]+)(.*)$", RegexOptions.Singleline)]
    private static partial Regex Number();

    [GeneratedRegex(@"[\[(]([^\])]*)[\])]")]
    private static partial Regex Bracketed();

    [GeneratedRegex(@"^([0-9])\s*/\s*([0-9]+)\s*-?\s*(?:""|''|[″”“]|in\.?|inch(?:es)?|zoll|pouces?|pulgadas?|pollic[ei]|duim)?$", RegexOptions.IgnoreCase)]
    private static partial Regex Fraction();
}
