using System.Globalization;
using System.Text.RegularExpressions;

namespace MicRegister.Documents.Sheets;

/// <summary>Which of a workbook's cell formats show a date.</summary>
internal sealed partial class XlsxStyles
{
    private readonly List<bool> _isDate;
    private readonly List<bool> _isPercent;
    private readonly List<(string Before, int Digits)?> _filled;
    private readonly List<bool> _isStruck;

    private XlsxStyles(List<bool> isDate, List<bool> isPercent, List<(string Before, int Digits)?> filled, List<bool> isStruck) =>
        (_isDate, _isPercent, _filled, _isStruck) = (isDate, isPercent, filled, isStruck);

    /// <summary>
    /// A whole number as a format such as <c>00000</c> or <c>"S"0000</c> shows it: it may be a serial number; others as they are.
    /// </summary>
    public string Filled(int style, string number) =>
        style >= 0 && style < _filled.Count && _filled[style] is var (before, digits) && number.Length > 0 && number.All(char.IsAsciiDigit)
            ? before + number.PadLeft(digits, '0') : number;

    /// <summary>Whether a format strikes its text through.</summary>
    public bool IsStruck(int style) => style >= 0 && style < _isStruck.Count && _isStruck[style];

    public bool IsDate(int style) => style >= 0 && style < _isDate.Count && _isDate[style];

    /// <summary>Whether a format shows a number a hundred times as large, with a percent sign.</summary>
    public bool IsPercent(int style) => style >= 0 && style < _isPercent.Count && _isPercent[style];

    public static XlsxStyles Read(XlsxPackage package)
    {
        var custom = new Dictionary<int, string>();
        var isDate = new List<bool>();
        var isPercent = new List<bool>();
        var filled = new List<(string, int)?>();
        var (isStruck, fonts) = (new List<bool>(), new List<bool>());
        if (!package.Has("xl/styles.xml")) return new(isDate, isPercent, filled, isStruck);
        var (inCellFormats, inFonts) = (false, false);
        package.Each("xl/styles.xml", xml =>
        {
            switch (xml.LocalName)
            {
                case "numFmt": custom[Number(xml.GetAttribute("numFmtId"))] = xml.GetAttribute("formatCode") ?? ""; break;
                case "fonts": inFonts = true; break;
                case "font" when inFonts: fonts.Add(false); break;
                case "strike" when inFonts && fonts.Count > 0: fonts[^1] = xml.GetAttribute("val") is not ("0" or "false"); break;
                case "fills": inFonts = false; break;
                case "cellXfs": (inCellFormats, inFonts) = (true, false); break;
                case "cellStyleXfs" or "cellStyles" or "dxfs": (inCellFormats, inFonts) = (false, false); break;
                case "xf" when inCellFormats:
                    var id = Number(xml.GetAttribute("numFmtId"));
                    isDate.Add(custom.TryGetValue(id, out var code) ? ShowsDate(code)
                        : id is (>= 14 and <= 22) or (>= 27 and <= 36) or (>= 50 and <= 58));
                    filled.Add(code is not null && OfZeros().Match(code) is { Success: true } m ? (m.Groups[1].Value, m.Groups[2].Length)
                        : null);
                    isStruck.Add(Number(xml.GetAttribute("fontId")) is var font and >= 0 && font < fonts.Count && fonts[font]);
                    isPercent.Add(code is null ? id is 9 or 10 : Unquoted(code).Contains('%', StringComparison.Ordinal));
                    break;
                default: break;
            }
        });
        return new(isDate, isPercent, filled, isStruck);
    }

    [GeneratedRegex("^(?:\"([^\"]*)\")?(0{2,})$")]
    private static partial Regex OfZeros();

    /// <summary>Whether a format code has a day, month or year outside quoted texts and brackets.</summary>
    internal static bool ShowsDate(string code)
    {
        var quoted = false;
        var bracket = false;
        for (var i = 0; i < code.Length; i++)
        {
            var c = char.ToLowerInvariant(code[i]);
            if (c == '"') quoted = !quoted;
            else if (quoted) continue;
            else if (c is '\\' or '_' or '*') i++;
            else if (c == '[') bracket = true;
            else if (c == ']') bracket = false;
            else if (!bracket && c is 'y' or 'd') return true;
            else if (!bracket && c == ';') return false;
        }
        return false;
    }

    private static string Unquoted(string code) => string.Concat(code.Split('"').Where((_, i) => i % 2 == 0));

    private static int Number(string? text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : -1;
}
