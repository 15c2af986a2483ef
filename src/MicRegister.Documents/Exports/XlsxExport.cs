using System.Globalization;
using System.IO.Compression;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Exports;

/// <summary>
/// Writes an export as a workbook (.xlsx) of three sheets: data, with the keys in its first row; columns, with what they mean; provenance.
/// </summary>
/// <remarks>
/// ISO/IEC 29500-1 (clauses from memory): sheets 18.3, inline texts 18.3.1.53, styles 18.8, package ISO/IEC 29500-2. Numbers are numbers,
/// days are texts. A text has at most 32,767 characters (Excel's limit, seen in its maker's list) and is cut there; characters that XML 1.0
/// does not allow (2.2) become U+FFFD. One table gives the same bytes each time on one machine: no clock is read, each part is dated
/// 1980-01-01. The provenance begins with the title and what must be known of the table.
/// </remarks>
public static partial class XlsxExport
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Xml = "http://www.w3.org/XML/1998/namespace";
    private const int TextCharacters = 32_767;
    private const int SheetRows = 1_048_576;
    private const int SheetColumns = 16_384;
    private const int NarrowestCharacters = 8;
    private const int WidestCharacters = 60;
    private const string Bold = "1"; // the second format of the styles

    // The first instant that a zip entry can have.
    private static readonly DateTimeOffset EntryTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    // A line break stays as it is, a carriage return is written as a reference: a reader would make one break of both.
    private static readonly XmlWriterSettings Settings = new()
    {
        Encoding = new UTF8Encoding(false),
        NewLineHandling = NewLineHandling.Entitize
    };

    private static readonly ExportCell[] ColumnHeader = Texts([.. BesideTables.ColumnsHeader]);
    private static readonly ExportCell[] ProvenanceHeader = Texts([.. BesideTables.ProvenanceHeader]);
    private const string Spreadsheet = "application/vnd.openxmlformats-officedocument.spreadsheetml";
    private const string Relation = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    /// <summary>Writes a table.</summary>
    /// <param name="table">What is written.</param>
    /// <param name="content">Where to; it is left open.</param>
    /// <exception cref="ArgumentException">It has more rows or columns than a sheet holds.</exception>
    public static void Write(ExportTable table, Stream content)
    {
        Check(table);
        var (notes, provenance) = (table.Notes.Select(n => Texts("note", n)), table.Provenance.Select(p => Texts(p.Name, p.Value)));
        Book(
            [
                ("data", Data(table)),
                (BesideTables.Columns, [ColumnHeader, .. table.Columns.Select(c => Texts(c.Key, c.Label, c.Unit, c.Meaning))]),
                (BesideTables.Provenance, [ProvenanceHeader, Texts("title", table.Title), .. notes, .. provenance]),
            ],
            content);
    }

    /// <summary>Writes several tables, each as a sheet, with what their columns mean and where they came from in two sheets more.</summary>
    /// <param name="tables">Each with the name of its sheet, of at most 31 letters.</param>
    /// <param name="title">What they are, for people.</param>
    /// <param name="notes">What must be known of all of them.</param>
    /// <param name="provenance">Where they came from.</param>
    /// <param name="content">Where to; it is left open.</param>
    /// <exception cref="ArgumentException">One has more rows or columns than a sheet holds.</exception>
    public static void Write(
        IReadOnlyList<(string Sheet, ExportTable Table)> tables, string title, IReadOnlyList<string> notes,
        IReadOnlyList<(string Name, string Value)> provenance, Stream content)
    {
        foreach (var (_, table) in tables) Check(table);
        var columns = tables.SelectMany(t => t.Table.Columns.Select(c => Texts(t.Sheet, c.Key, c.Label, c.Unit, c.Meaning)));
        Book(
            [
                .. tables.Select(t => (t.Sheet, Data(t.Table))),
                (BesideTables.Columns, [[ExportCell.Of("sheet"), .. ColumnHeader], .. columns]),
                (BesideTables.Provenance,
                    [
                        ProvenanceHeader, Texts("title", title), .. notes.Select(n => Texts("note", n)),
                        .. provenance.Select(p => Texts(p.Name, p.Value)),
                    ]),
            ],
            content);
    }

    private static void Check(ExportTable table)
    {
        if (table.Rows.Count >= SheetRows || table.Columns.Count > SheetColumns)
            throw new ArgumentException(FormattableString.Invariant($"{table.Rows.Count} rows of {table.Columns.Count} columns; a sheet holds at most {SheetRows - 1} below its header, of {SheetColumns}."), nameof(table));
    }

    private static List<IReadOnlyList<ExportCell>> Data(ExportTable table) =>
        [[.. table.Columns.Select(c => ExportCell.Of(c.Key))], .. table.Rows];

    private static void Book(List<(string Name, List<IReadOnlyList<ExportCell>> Rows)> sheets, Stream content)
    {
        using var zip = new ZipArchive(content, ZipArchiveMode.Create, leaveOpen: true);
        var numbers = Enumerable.Range(1, sheets.Count).Select(n => n.ToString(CultureInfo.InvariantCulture)).ToList();
        string Filled(string part, Func<string, int, string> one) =>
            string.Format(CultureInfo.InvariantCulture, part, string.Concat(numbers.Select(one)));
        Part(zip, "[Content_Types].xml", Filled(ContentTypes, (n, _) =>
            $"<Override PartName=\"/xl/worksheets/sheet{n}.xml\" ContentType=\"{Spreadsheet}.worksheet+xml\"/>"));
        Part(zip, "_rels/.rels", PackageRelations);
        Part(zip, "xl/workbook.xml", Filled(Workbook, (n, i) => $"<sheet name=\"{sheets[i].Name}\" sheetId=\"{n}\" r:id=\"rId{n}\"/>"));
        Part(zip, "xl/_rels/workbook.xml.rels", Filled(WorkbookRelations, (n, _) =>
            $"<Relationship Id=\"rId{n}\" Type=\"{Relation}/worksheet\" Target=\"worksheets/sheet{n}.xml\"/>"));
        Part(zip, "xl/styles.xml", Styles);
        for (var i = 0; i < sheets.Count; i++) Sheet(zip, i + 1, sheets[i].Rows);
    }

    private static void Part(ZipArchive zip, string name, string xml)
    {
        using var part = Open(zip, name);
        part.Write(Encoding.UTF8.GetBytes(xml));
    }

    private static Stream Open(ZipArchive zip, string name)
    {
        var entry = zip.CreateEntry(name, CompressionLevel.Optimal);
        entry.LastWriteTime = EntryTime;
        return entry.Open();
    }

    private static void Sheet(ZipArchive zip, int number, List<IReadOnlyList<ExportCell>> rows)
    {
        using var part = Open(zip, FormattableString.Invariant($"xl/worksheets/sheet{number}.xml"));
        using var xml = XmlWriter.Create(part, Settings);
        xml.WriteStartElement("worksheet", Main);
        FreezeHeader(xml, isFirst: number == 1);
        Widths(xml, rows);
        xml.WriteStartElement("sheetData", Main);
        for (var i = 0; i < rows.Count; i++)
        {
            var row = (i + 1).ToString(CultureInfo.InvariantCulture);
            xml.WriteStartElement("row", Main);
            xml.WriteAttributeString("r", row);
            for (var j = 0; j < rows[i].Count; j++)
            {
                if (!rows[i][j].IsNothing) Cell(xml, rows[i][j], Letters(j) + row, isHeader: i == 0);
            }
            xml.WriteEndElement();
        }
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void FreezeHeader(XmlWriter xml, bool isFirst)
    {
        xml.WriteStartElement("sheetViews", Main);
        xml.WriteStartElement("sheetView", Main);
        if (isFirst) xml.WriteAttributeString("tabSelected", "1");
        xml.WriteAttributeString("workbookViewId", "0");
        xml.WriteStartElement("pane", Main);
        xml.WriteAttributeString("ySplit", "1");
        xml.WriteAttributeString("topLeftCell", "A2");
        xml.WriteAttributeString("activePane", "bottomLeft");
        xml.WriteAttributeString("state", "frozen");
        xml.WriteEndElement();
        xml.WriteEndElement();
        xml.WriteEndElement();
    }

    private static void Widths(XmlWriter xml, List<IReadOnlyList<ExportCell>> rows)
    {
        xml.WriteStartElement("cols", Main);
        for (var j = 0; j < rows[0].Count; j++)
        {
            var column = (j + 1).ToString(CultureInfo.InvariantCulture);
            // The first rows are enough to see how wide a column is; two characters more leave room for the cell's edges.
            var widest = rows.Take(200).Max(r => (r[j].Digits ?? r[j].Text)?.Length ?? 0) + 2;
            xml.WriteStartElement("col", Main);
            xml.WriteAttributeString("min", column);
            xml.WriteAttributeString("max", column);
            xml.WriteAttributeString("width", Math.Clamp(widest, NarrowestCharacters, WidestCharacters)
                .ToString(CultureInfo.InvariantCulture));
            xml.WriteAttributeString("customWidth", "1");
            xml.WriteEndElement();
        }
        xml.WriteEndElement();
    }

    private static void Cell(XmlWriter xml, ExportCell cell, string place, bool isHeader)
    {
        xml.WriteStartElement("c", Main);
        xml.WriteAttributeString("r", place);
        if (isHeader) xml.WriteAttributeString("s", Bold);
        if (cell.Digits is { } digits)
        {
            xml.WriteElementString("v", Main, digits);
        }
        else
        {
            xml.WriteAttributeString("t", "inlineStr");
            xml.WriteStartElement("is", Main);
            xml.WriteStartElement("t", Main);
            xml.WriteAttributeString("xml", "space", Xml, "preserve");
            // An inline text is never run as a formula. But people save the sheet as comma-separated values, or copy cells into such
            // a file, and there it would be: the apostrophe goes with it.
            xml.WriteString(Allowed(FormulaGuard.Guarded(cell.Text ?? "")));
            xml.WriteEndElement();
            xml.WriteEndElement();
        }
        xml.WriteEndElement();
    }

    private static string Allowed(string text)
    {
        var allowed = new StringBuilder(Math.Min(text.Length, TextCharacters));
        for (var i = 0; i < text.Length && allowed.Length < TextCharacters; i++)
        {
            var isPair = i + 1 < text.Length && char.IsSurrogatePair(text[i], text[i + 1]);
            // Half a pair at the cut would be no character.
            if (isPair && allowed.Length + 2 > TextCharacters) break;
            if (isPair) allowed.Append(text[i]).Append(text[++i]);
            else allowed.Append(XmlConvert.IsXmlChar(text[i]) ? text[i] : '\uFFFD');
        }
        // Readers take _x0041_ as an A (22.9.2.19); the underscore itself is written as _x005F_ where a text has such a sequence.
        return Escape().Replace(allowed.ToString(), "_x005F_");
    }

    // 0 is A, 25 is Z, 26 is AA.
    private static string Letters(int column)
    {
        var letters = "";
        for (var n = column + 1; n > 0; n = (n - 1) / 26) letters = (char)('A' + ((n - 1) % 26)) + letters;
        return letters;
    }

    private static ExportCell[] Texts(params string[] texts) => [.. texts.Select(t => ExportCell.Of(t))];

    [GeneratedRegex("_(?=x[0-9A-Fa-f]{4}_)")]
    private static partial Regex Escape();

    private const string ContentTypes = """
        <?xml version="1.0" encoding="UTF-8" standalone="yes"?>
        <Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types">
        <Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>
        <Default Extension="xml" ContentType="application/xml"/>
        <Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/>
        <Override PartName="/xl/styles.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.styles+xml"/>
        {0}
        </Types>
        """;

    private const string PackageRelations = """
        <?xml version="1.0" encoding="UTF-8" standalone="yes"?>
        <Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
        <Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/officeDocument" Target="xl/workbook.xml"/>
        </Relationships>
        """;

    private const string Workbook = """
        <?xml version="1.0" encoding="UTF-8" standalone="yes"?>
        <workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships">
        <bookViews><workbookView/></bookViews>
        <sheets>{0}</sheets>
        </workbook>
        """;

    private const string WorkbookRelations = """
        <?xml version="1.0" encoding="UTF-8" standalone="yes"?>
        <Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships">
        {0}
        <Relationship Id="rIdStyles" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/styles" Target="styles.xml"/>
        </Relationships>
        """;

    // The first two fills are fixed by the format, whatever a workbook says; without both, spreadsheets call it damaged.
    private const string Styles = """
        <?xml version="1.0" encoding="UTF-8" standalone="yes"?>
        <styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">
        <fonts count="2"><font><sz val="11"/><name val="Calibri"/></font><font><b/><sz val="11"/><name val="Calibri"/></font></fonts>
        <fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>
        <borders count="1"><border><left/><right/><top/><bottom/><diagonal/></border></borders>
        <cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>
        <cellXfs count="2"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/><xf numFmtId="0" fontId="1" fillId="0" borderId="0" xfId="0" applyFont="1"/></cellXfs>
        <cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles>
        </styleSheet>
        """;
}
