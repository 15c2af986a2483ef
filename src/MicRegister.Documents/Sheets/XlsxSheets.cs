using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;

namespace MicRegister.Documents.Sheets;

/// <summary>
/// Workbooks of ISO/IEC 29500 (.xlsx), read as a stream: stored values of formulas, texts and numbers as they stand, dates by the
/// cell's format and the workbook's epoch, merged cells filled with their value.
/// </summary>
/// <remarks>Read with the framework's own zip and XML readers: typed mapping misread values, and here every part is bounded.</remarks>
internal static partial class XlsxSheets
{
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string StrictRelations = "http://purl.oclc.org/ooxml/officeDocument/relationships";

    public static IEnumerable<Sheet> Read(Stream content, string name, SheetLimits limits)
    {
        using var package = new XlsxPackage(content, name, limits);
        var (sheets, uses1904) = Workbook(package);
        var styles = XlsxStyles.Read(package);
        var texts = SharedTexts(package, limits);
        foreach (var (title, part, isHidden) in sheets)
        {
            var merges = Merges(package, part, limits);
            yield return new(title, Rows(package, part, title, styles, texts, merges, uses1904, limits)) { IsHidden = isHidden, Uses1904 = uses1904 };
        }
    }

    private static (List<(string Title, string Part, bool IsHidden)> Sheets, bool Uses1904) Workbook(XlsxPackage package)
    {
        var targets = new Dictionary<string, string>();
        package.Each("xl/_rels/workbook.xml.rels", xml =>
        {
            if (xml.LocalName == "Relationship") targets[xml.GetAttribute("Id") ?? ""] = xml.GetAttribute("Target") ?? "";
        });
        var sheets = new List<(string, string, bool)>();
        var uses1904 = false;
        package.Each("xl/workbook.xml", xml =>
        {
            if (xml.LocalName == "workbookPr") uses1904 = xml.GetAttribute("date1904") is "1" or "true";
            if (xml.LocalName != "sheet") return;
            var id = xml.GetAttribute("id", Relations) ?? xml.GetAttribute("id", StrictRelations) ?? "";
            if (!targets.TryGetValue(id, out var target)) throw package.Damaged($"sheet {xml.GetAttribute("name")} has no part");
            sheets.Add((xml.GetAttribute("name") ?? "", target.StartsWith('/') ? target[1..] : "xl/" + target,
                xml.GetAttribute("state") is "hidden" or "veryHidden"));
        });
        return sheets.Count > 0 ? (sheets, uses1904) : throw package.Damaged("it has no sheet");
    }

    private static List<string> SharedTexts(XlsxPackage package, SheetLimits limits)
    {
        var texts = new List<string>();
        if (!package.Has("xl/sharedStrings.xml")) return texts;
        long characters = 0;
        using var xml = package.Open("xl/sharedStrings.xml");
        package.Guard(() =>
        {
            while (xml.ReadToFollowing("si"))
            {
                var text = Text(xml, "si", package, limits);
                characters += text.Length;
                if (characters > limits.TextCharacters) throw new SheetException($"{package.Name}: the shared texts have more than {limits.TextCharacters} characters.");
                texts.Add(text);
            }
        });
        return texts;
    }

    // All t within an element, without the phonetic hints in rPh.
    private static string Text(XmlReader xml, string element, XlsxPackage package, SheetLimits limits)
    {
        if (xml.IsEmptyElement) return "";
        var text = new StringBuilder();
        var hint = 0;
        while (xml.Read() && !(xml.NodeType == XmlNodeType.EndElement && xml.LocalName == element))
        {
            if (xml.LocalName == "rPh" && !xml.IsEmptyElement) hint += xml.NodeType == XmlNodeType.Element ? 1 : -1;
            if (hint == 0 && xml.NodeType is XmlNodeType.Text or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace or XmlNodeType.CDATA)
                Append(text, xml.Value, package, limits);
        }
        return Escape()
            .Replace(text.ToString(), m => $"{(char)int.Parse(m.ValueSpan[2..6], NumberStyles.HexNumber, CultureInfo.InvariantCulture)}")
            .Trim(' ', '\u00A0', '\n', '\r');
    }

    // ISO/IEC 29500-1, 22.9.2.19 (from memory): _x0041_ stands for an A.
    [GeneratedRegex("_x[0-9A-Fa-f]{4}_")]
    private static partial Regex Escape();

    private static void Append(StringBuilder text, string value, XlsxPackage package, SheetLimits limits)
    {
        if (text.Length + value.Length > limits.CellCharacters) throw new SheetException($"{package.Name}: a cell has more than {limits.CellCharacters} characters.");
        text.Append(value);
    }

    private static List<Merge> Merges(XlsxPackage package, string part, SheetLimits limits)
    {
        var merges = new List<Merge>();
        package.Each(part, xml =>
        {
            if (xml.LocalName != "mergeCell" || xml.GetAttribute("ref")?.Split(':') is not [var from, var to]) return;
            var (top, left) = Place(from, package);
            var (bottom, right) = Place(to, package);
            if (right >= limits.Columns || bottom - top > 10_000 || merges.Count > 100_000) return; // no table's header
            merges.Add(new(top, left, bottom, right));
        });
        return merges;
    }

    private static IEnumerable<SheetRow> Rows(
        XlsxPackage package, string part, string title, XlsxStyles styles, List<string> texts, List<Merge> merges, bool uses1904, SheetLimits limits)
    {
        var byTop = merges.ToLookup(m => m.Top);
        var open = new List<(Merge Merge, Cell Value)>();
        using var xml = package.Open(part);
        var number = 0;
        var cells = new List<Cell>();
        while (package.Guard(() => xml.ReadToFollowing("row")))
        {
            number = int.TryParse(xml.GetAttribute("r"), NumberStyles.None, CultureInfo.InvariantCulture, out var stated) ? stated : number + 1;
            if (number > limits.Rows) throw new SheetException($"{package.Name}, sheet {title}: more than {limits.Rows} rows.");
            cells.Clear();
            var isHidden = xml.GetAttribute("hidden") is "1" or "true";
            var struck = package.Guard(() => ReadRow(xml, cells, number, package, title, styles, texts, uses1904, limits));
            var isStruck = struck > 0 && struck * 2 > cells.Count(c => !c.IsBlank);
            open.RemoveAll(o => o.Merge.Bottom < number);
            foreach (var merge in byTop[number]) open.Add((merge, merge.Left < cells.Count ? cells[merge.Left] : default));
            foreach (var (merge, value) in open)
            {
                for (var column = merge.Left; column <= merge.Right; column++)
                {
                    while (cells.Count <= column) cells.Add(default);
                    if (cells[column].IsBlank) cells[column] = value;
                }
            }
            yield return new(number, [.. cells], isHidden) { IsStruck = isStruck };
        }
    }

    /// <returns>How many of its texts are struck through.</returns>
    private static int ReadRow(
        XmlReader xml, List<Cell> cells, int row, XlsxPackage package, string title, XlsxStyles styles, List<string> texts, bool uses1904,
            SheetLimits limits)
    {
        if (xml.IsEmptyElement) return 0;
        var (column, struck) = (-1, 0);
        while (xml.Read() && !(xml.NodeType == XmlNodeType.EndElement && xml.LocalName == "row"))
        {
            if (xml.NodeType != XmlNodeType.Element || xml.LocalName != "c") continue;
            column = xml.GetAttribute("r") is { } place ? Place(place, package).Column : column + 1;
            if (column >= limits.Columns) throw new SheetException($"{package.Name}, sheet {title}, row {row}: more than {limits.Columns} columns.");
            while (cells.Count <= column) cells.Add(default);
            var type = xml.GetAttribute("t");
            var style = int.TryParse(xml.GetAttribute("s"), NumberStyles.None, CultureInfo.InvariantCulture, out var s) ? s : 0;
            var cell = Value(xml, type, styles.IsDate(style), styles.IsPercent(style), package, title, row, texts, uses1904, limits);
            if (!cell.IsBlank && styles.IsStruck(style)) struck++;
            cells[column] = cell.IsNumber && styles.Filled(style, cell.Text!) is var shown && shown != cell.Text ? new(shown) : cell;
        }
        return struck;
    }

    private static Cell Value(
        XmlReader xml, string? type, bool isDate, bool isPercent, XlsxPackage package, string title, int row, List<string> texts,
            bool uses1904, SheetLimits limits)
    {
        if (xml.IsEmptyElement) return default;
        string? value = null;
        var (isFormula, isOfToday) = (false, false);
        while (xml.Read() && !(xml.NodeType == XmlNodeType.EndElement && xml.LocalName == "c"))
        {
            if (xml.NodeType != XmlNodeType.Element) continue;
            if (xml.LocalName == "f")
            {
                isFormula = true;
                if (!xml.IsEmptyElement) isOfToday |= IsOfToday(Text(xml, "f", package, limits));
            }
            else if (xml.LocalName is "v") value = Text(xml, "v", package, limits);
            else if (xml.LocalName == "is") value = Text(xml, "is", package, limits);
        }
        if (string.IsNullOrEmpty(value)) return isFormula && type is null ? new(Cell.NoStoredValue) : default;
        switch (type)
        {
            case "s":
                return int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var index) && index < texts.Count
                    ? new(CsvSheet.Clean(texts[index]))
                    : throw package.Damaged($"sheet {title}, row {row} names a text that does not exist");
            case "e":
                return new(value); // an error such as #N/A: shown as it stands, refused where a value is wanted
            case "b":
                return new(value == "1" ? "yes" : "no");
            case "d":
                return DateOnly.TryParseExact(value.Split('T')[0], "yyyy-MM-dd", out var stated) ? new(value, stated) : new(value);
            case "str" or "inlineStr":
                return new(CsvSheet.Clean(value));
            default:
                if (isDate && DateText.FromSerial(value, uses1904) is { } day) return new(value, day, isOfToday);
                return isPercent && double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var share)
                    ? new(Math.Round(share * 100, 10).ToString(CultureInfo.InvariantCulture) + "%")
                    : new(value) { IsNumber = true };
        }
    }

    private static bool IsOfToday(string formula) =>
        formula.Contains("TODAY(", StringComparison.OrdinalIgnoreCase) || formula.Contains("NOW(", StringComparison.OrdinalIgnoreCase);

    // "BC12" is row 12, column 54 (from 0).
    private static (int Row, int Column) Place(string reference, XlsxPackage package)
    {
        int column = 0, i = 0;
        for (; i < reference.Length && reference[i] is >= 'A' and <= 'Z' && i < 4; i++) column = (column * 26) + reference[i] - 'A' + 1;
        return column > 0 && int.TryParse(reference.AsSpan(i), NumberStyles.None, CultureInfo.InvariantCulture, out var row)
            ? (row, column - 1)
            : throw package.Damaged($"'{reference}' is no cell");
    }

    private readonly record struct Merge(int Top, int Left, int Bottom, int Right);
}
