using System.IO.Compression;

namespace MicRegister.Documents.Tests.Sheets;

/// <summary>Workbooks written by hand, part by part, as other programs write them (ISO/IEC 29500).</summary>
internal static class Workbook
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

    /// <summary>A workbook of one sheet.</summary>
    /// <param name="sheetData">Content of sheetData.</param>
    /// <param name="merges">Ranges that are merged.</param>
    /// <param name="uses1904">Whether dates count from 1904.</param>
    /// <param name="texts">Shared texts.</param>
    /// <param name="change">Changes parts before they are packed.</param>
    public static MemoryStream Of(string sheetData, string[]? merges = null, bool uses1904 = false, string[]? texts = null, Action<Dictionary<string, string>>? change = null)
    {
        var parts = new Dictionary<string, string>
        {
            ["xl/workbook.xml"] = $"<workbook xmlns=\"{Main}\" xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><workbookPr{(uses1904 ? " date1904=\"1\"" : "")}/><sheets><sheet name=\"Fleet\" sheetId=\"1\" r:id=\"rId1\"/></sheets></workbook>",
            ["xl/_rels/workbook.xml.rels"] = "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"rId1\" Type=\"t\" Target=\"worksheets/sheet1.xml\"/></Relationships>",
            // Format 0 plain, 1 a built-in date, 2 a date of its own, 3 a number whose code holds a quoted d.
            ["xl/styles.xml"] = $"<styleSheet xmlns=\"{Main}\"><numFmts><numFmt numFmtId=\"164\" formatCode=\"yyyy\\-mm\\-dd\"/><numFmt numFmtId=\"165\" formatCode=\"0.0&quot;dB&quot;\"/></numFmts><cellStyleXfs><xf numFmtId=\"14\"/></cellStyleXfs><cellXfs><xf numFmtId=\"0\"/><xf numFmtId=\"14\"/><xf numFmtId=\"164\"/><xf numFmtId=\"165\"/></cellXfs></styleSheet>",
            ["xl/sharedStrings.xml"] = $"<sst xmlns=\"{Main}\">{string.Concat((texts ?? []).Select(t => $"<si>{t}</si>"))}</sst>",
            ["xl/worksheets/sheet1.xml"] = $"<worksheet xmlns=\"{Main}\"><sheetData>{sheetData}</sheetData>{(merges is null ? "" : $"<mergeCells>{string.Concat(merges.Select(m => $"<mergeCell ref=\"{m}\"/>"))}</mergeCells>")}</worksheet>",
        };
        change?.Invoke(parts);
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, content) in parts)
            {
                using var writer = new StreamWriter(zip.CreateEntry(name, CompressionLevel.Fastest).Open());
                writer.Write(content);
            }
        }
        stream.Position = 0;
        return stream;
    }
}
