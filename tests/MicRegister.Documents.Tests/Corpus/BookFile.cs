using System.Globalization;
using System.IO.Compression;
using System.Security;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Writes a draft as a workbook, part by part (ISO/IEC 29500).</summary>
internal static class BookFile
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/package/2006/relationships";
    private const string Office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string Types = "http://schemas.openxmlformats.org/package/2006/content-types";
    private static readonly DateTimeOffset EntryTime = new(1980, 1, 1, 0, 0, 0, TimeSpan.Zero);

    public static byte[] Of(Draft draft)
    {
        using var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            Part(zip, "[Content_Types].xml",
                $"<Types xmlns=\"{Types}\"><Default Extension=\"xml\" ContentType=\"application/xml\"/></Types>");
            Part(zip, "xl/workbook.xml", Workbook(draft));
            Part(zip, "xl/_rels/workbook.xml.rels", Related(draft));
            // Format 0 is plain, format 1 a built-in day.
            Part(zip, "xl/styles.xml",
                $"<styleSheet xmlns=\"{Main}\"><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/></cellXfs></styleSheet>");
            for (var n = 0; n < draft.Grids.Count; n++) Part(zip, $"xl/worksheets/sheet{n + 1}.xml", Sheet(draft.Grids[n]));
        }
        return stream.ToArray();
    }

    private static string Workbook(Draft draft)
    {
        var epoch = draft.Uses1904 ? " date1904=\"1\"" : "";
        var sheets = draft.Grids.Select((g, n) =>
        {
            var state = g.IsHidden ? " state=\"hidden\"" : "";
            return $"<sheet name=\"{SecurityElement.Escape(g.Name)}\" sheetId=\"{n + 1}\"{state} r:id=\"rId{n + 1}\"/>";
        });
        return $"<workbook xmlns=\"{Main}\" xmlns:r=\"{Office}\"><workbookPr{epoch}/><sheets>{string.Concat(sheets)}</sheets></workbook>";
    }

    private static string Related(Draft draft)
    {
        var each = draft.Grids.Select((_, n) =>
            $"<Relationship Id=\"rId{n + 1}\" Type=\"{Office}/worksheet\" Target=\"worksheets/sheet{n + 1}.xml\"/>");
        return $"<Relationships xmlns=\"{Relations}\">{string.Concat(each)}</Relationships>";
    }

    private static string Sheet(Grid grid)
    {
        var merges = string.Concat(grid.Merges.Select(m => $"<mergeCell ref=\"{m}\"/>"));
        if (merges.Length > 0) merges = $"<mergeCells>{merges}</mergeCells>";
        var rows = string.Concat(grid.Lines.Select((l, n) => Row(l, n + 1)));
        return $"<worksheet xmlns=\"{Main}\"><sheetData>{rows}</sheetData>{merges}</worksheet>";
    }

    private static string Row(Line line, int number)
    {
        var hidden = line.IsHidden ? " hidden=\"1\"" : "";
        return $"<row r=\"{number}\"{hidden}>{string.Concat(line.Cells.Select((c, n) => Written(c, $"{Tables.Letter(n)}{number}")))}</row>";
    }

    private static string Written(Cell cell, string place)
    {
        var style = cell.Shown == Shown.Day ? " s=\"1\"" : "";
        if (cell.IsUnworked) return $"<c r=\"{place}\"{style}><f>VLOOKUP(A1,[1]Sheet1!A:B,2,0)</f></c>";
        if (cell.Typed is { } number) return $"<c r=\"{place}\"{style}><v>{number.ToString("R", CultureInfo.InvariantCulture)}</v></c>";
        return cell.Text.Length == 0 ? ""
            : $"<c r=\"{place}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{SecurityElement.Escape(cell.Text)}</t></is></c>";
    }

    private static void Part(ZipArchive zip, string name, string xml)
    {
        var entry = zip.CreateEntry(name, CompressionLevel.Fastest);
        entry.LastWriteTime = EntryTime;
        using var writer = new StreamWriter(entry.Open());
        writer.Write(xml);
    }
}
