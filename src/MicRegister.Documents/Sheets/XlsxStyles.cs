using System.Globalization;

namespace MicRegister.Documents.Sheets;

/// <summary>Which of a workbook's cell formats show a date.</summary>
internal sealed class XlsxStyles
{
    private readonly List<bool> _isDate;

    private XlsxStyles(List<bool> isDate) => _isDate = isDate;

    public bool IsDate(int style) => style >= 0 && style < _isDate.Count && _isDate[style];

    public static XlsxStyles Read(XlsxPackage package)
    {
        var custom = new Dictionary<int, bool>();
        var isDate = new List<bool>();
        if (!package.Has("xl/styles.xml")) return new(isDate);
        var inCellFormats = false;
        package.Each("xl/styles.xml", xml =>
        {
            switch (xml.LocalName)
            {
                case "numFmt": custom[Number(xml.GetAttribute("numFmtId"))] = ShowsDate(xml.GetAttribute("formatCode") ?? ""); break;
                case "cellXfs": inCellFormats = true; break;
                case "cellStyleXfs" or "cellStyles" or "dxfs": inCellFormats = false; break;
                case "xf" when inCellFormats:
                    var id = Number(xml.GetAttribute("numFmtId"));
                    isDate.Add(custom.TryGetValue(id, out var shows) ? shows : id is (>= 14 and <= 22) or (>= 27 and <= 36) or (>= 50 and <= 58));
                    break;
                default: break;
            }
        });
        return new(isDate);
    }

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

    private static int Number(string? text) => int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : -1;
}
