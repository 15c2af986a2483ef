using System.Globalization;
using System.IO.Compression;
using System.Xml.Linq;
using MicRegister.Documents.Exports;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Exports;

public sealed class XlsxExportTests
{
    private static readonly XNamespace Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

    [Fact]
    public void The_register_reads_its_own_workbook()
    {
        using var content = Written(Tables.Of(
            [ExportCell.Of("½\" \"quoted\" <a&b>\ntwo 🎤"), ExportCell.Of(1e-7), ExportCell.Of(new DateOnly(2026, 5, 4))],
            [ExportCell.Nothing, ExportCell.Of(-26.020599913279624), ExportCell.Nothing]));

        var sheets = Read(content);

        Assert.Equal(["data", "columns", "provenance"], sheets.Select(s => s.Name));
        Assert.Equal(["serial", "sensitivity-v-per-pa", "calibrated-on"], Shown(sheets[0].Rows[0]));
        Assert.Equal(["½\" \"quoted\" <a&b>\ntwo 🎤", "1E-07", "2026-05-04"], Shown(sheets[0].Rows[1]));
        // Whatever seventeen digits it is written with, the same number is read.
        Assert.Equal(-26.020599913279624, double.Parse(Shown(sheets[0].Rows[2]).ElementAt(1), System.Globalization.CultureInfo.InvariantCulture));
        Assert.Equal(["key", "label", "unit", "meaning"], Shown(sheets[1].Rows[0]));
        Assert.Equal(["sensitivity-v-per-pa", "Sensitivity", "V/Pa", "Open-circuit sensitivity at 250 Hz."], Shown(sheets[1].Rows[2]));
        Assert.Equal(["name", "value"], Shown(sheets[2].Rows[0]));
        Assert.Equal(["title", "Microphones of Quillmere"], Shown(sheets[2].Rows[1]));
        Assert.Equal(["note", "=1"], Shown(sheets[2].Rows[4]));
    }

    [Fact]
    public void Numbers_are_numbers_and_texts_are_texts_without_formulas()
    {
        using var content = Written(Tables.OfTexts(["41001", "=1+1"]));

        var cells = Part(content, "xl/worksheets/sheet1.xml").Descendants(Main + "c").ToDictionary(c => c.Attribute("r")!.Value);

        Assert.Equal("inlineStr", cells["A2"].Attribute("t")!.Value);
        Assert.Equal("preserve", cells["A2"].Descendants(Main + "t").Single().Attribute(XNamespace.Xml + "space")!.Value);
        Assert.Null(cells["B2"].Attribute("t"));
        Assert.Equal(-3.5, double.Parse(cells["B2"].Element(Main + "v")!.Value, CultureInfo.InvariantCulture)); // exact in binary
        Assert.Equal("1", cells["A1"].Attribute("s")!.Value);
        Assert.False(cells.ContainsKey("C2"));
        Assert.Empty(cells.Values.Descendants(Main + "f"));
    }

    [Fact]
    public void No_text_runs_when_it_is_copied_into_another_file()
    {
        // The reader trims, and a character that no document may have is gone: those that remain come back as they were.
        string[] texts = [.. Tables.Injections.Where(t => !t.Contains('\0', StringComparison.Ordinal)), .. Tables.Harmless.Where(t => t.Trim() == t)];
        using var content = Written(Tables.OfTexts(texts));

        var read = Read(content)[0].Rows.Skip(1).Select(r => r.At(0).Shown).ToList();
        var stored = Part(content, "xl/worksheets/sheet1.xml").Descendants(Main + "c")
            .Where(c => c.Attribute("r")!.Value is ['A', _, ..] and not "A1").Select(c => c.Value).ToList();

        Assert.Equal(texts.Select(t => t.Trim(' ', '\u00A0', '\r', '\n')), read);
        Assert.Equal(texts, stored.Select(CsvExport.Plain));
        Assert.All(stored.Take(Tables.Injections.Count - 1), t => Assert.Equal('\'', t[0]));
    }

    [Theory]
    [InlineData("a\u0001b\u001Fc", "a\uFFFDb\uFFFDc")]
    [InlineData("a\tb\nc\rd\r\ne", "a\tb\nc\rd\r\ne")]
    [InlineData("a🎤b", "a🎤b")]
    [InlineData("_x0041_", "_x005F_x0041_")] // a reader that knows 22.9.2.19 makes _x0041_ of it
    [InlineData("_x_ _x41_", "_x_ _x41_")]
    public void What_no_document_may_have_is_replaced(string text, string stored)
    {
        using var content = Written(Tables.OfTexts([text]));

        Assert.Equal(stored, Text(content));
    }

    [Fact]
    public void Half_a_character_and_what_is_none_are_replaced()
    {
        // Not as data of a theory: a runner would write such a text into its report and mend it.
        using var content = Written(Tables.OfTexts(["a" + (char)0xD83C + "b" + (char)0xDFA4 + "c\uFFFEd\uFFFF"]));

        Assert.Equal("a\uFFFDb\uFFFDc\uFFFDd\uFFFD", Text(content));
    }

    [Theory]
    [InlineData(32_767, "", 32_767)]
    [InlineData(32_768, "", 32_767)]
    [InlineData(32_765, "🎤", 32_767)]
    [InlineData(32_766, "🎤", 32_766)] // the pair does not fit, and half of it is no character
    public void A_text_is_cut_where_a_cell_ends(int letters, string last, int length)
    {
        using var content = Written(Tables.OfTexts([new string('x', letters) + last]));

        Assert.Equal(length, Text(content).Length);
        Assert.Equal(length, Read(content)[0].Rows[1].At(0).Shown.Length);
    }

    [Fact]
    public void The_first_row_is_frozen_in_every_sheet_and_columns_have_a_width()
    {
        using var content = Written(Tables.OfTexts([new string('x', 500)]));

        for (var i = 1; i <= 3; i++)
        {
            var sheet = Part(content, FormattableString.Invariant($"xl/worksheets/sheet{i}.xml")).Root!;
            Assert.Equal(["sheetViews", "cols", "sheetData"], sheet.Elements().Select(e => e.Name.LocalName)); // the schema's order
            var pane = sheet.Descendants(Main + "pane").Single();
            Assert.Equal(("1", "frozen", "A2"), (pane.Attribute("ySplit")!.Value, pane.Attribute("state")!.Value, pane.Attribute("topLeftCell")!.Value));
            Assert.All(sheet.Descendants(Main + "col"), c => Assert.InRange(int.Parse(c.Attribute("width")!.Value, CultureInfo.InvariantCulture), 8, 60));
        }
    }

    [Fact]
    public void Every_part_that_is_named_is_there_and_has_a_type()
    {
        using var content = Written(Tables.Of());
        XNamespace types = "http://schemas.openxmlformats.org/package/2006/content-types", relations = "http://schemas.openxmlformats.org/package/2006/relationships";

        string[] typed = [.. Part(content, "[Content_Types].xml").Descendants(types + "Override").Select(o => o.Attribute("PartName")!.Value.TrimStart('/'))];
        string[] related =
        [
            .. Part(content, "_rels/.rels").Descendants(relations + "Relationship").Select(r => r.Attribute("Target")!.Value),
            .. Part(content, "xl/_rels/workbook.xml.rels").Descendants(relations + "Relationship").Select(r => "xl/" + r.Attribute("Target")!.Value),
        ];

        Assert.Equal(typed.Order(StringComparer.Ordinal), related.Order(StringComparer.Ordinal));
        using var zip = new ZipArchive(content, ZipArchiveMode.Read, leaveOpen: true);
        Assert.All(typed, p => Assert.NotNull(zip.GetEntry(p)));
    }

    [Fact]
    public void Columns_after_Z_have_two_letters()
    {
        ExportColumn[] columns = [.. Enumerable.Range(0, 30).Select(i => new ExportColumn(FormattableString.Invariant($"k{i}"), "", "", ""))];
        using var content = Written(new ExportTable("", columns, [], []));

        var places = Part(content, "xl/worksheets/sheet1.xml").Descendants(Main + "c").Select(c => c.Attribute("r")!.Value).ToList();

        Assert.Equal(("A1", "Z1", "AA1", "AD1"), (places[0], places[25], places[26], places[29]));
    }

    [Fact]
    public void One_table_gives_the_same_bytes()
    {
        using var first = Written(Tables.OfTexts(Tables.Injections));
        using var second = Written(Tables.OfTexts(Tables.Injections));

        Assert.Equal(first.ToArray(), second.ToArray());
        using var zip = new ZipArchive(first, ZipArchiveMode.Read, leaveOpen: true);
        Assert.All(zip.Entries, e => Assert.Equal(new DateTime(1980, 1, 1), e.LastWriteTime.DateTime));
    }

    private static MemoryStream Written(ExportTable table)
    {
        var content = new MemoryStream();
        XlsxExport.Write(table, content);
        content.Position = 0;
        return content;
    }

    private static List<(string Name, List<SheetRow> Rows)> Read(MemoryStream content)
    {
        var sheets = new List<(string, List<SheetRow>)>();
        foreach (var sheet in SheetFile.Open(content, "export.xlsx", SheetLimits.Usual with { CellCharacters = 40_000 })) sheets.Add((sheet.Name, [.. sheet.Rows]));
        return sheets;
    }

    private static IEnumerable<string> Shown(SheetRow row) => row.Cells.Select(c => c.Shown);

    private static XDocument Part(MemoryStream content, string name)
    {
        using var zip = new ZipArchive(content, ZipArchiveMode.Read, leaveOpen: true);
        using var part = zip.GetEntry(name)!.Open();
        return XDocument.Load(part, LoadOptions.PreserveWhitespace);
    }

    // As it is stored, untrimmed: the text below the header in the first column.
    private static string Text(MemoryStream content) => Part(content, "xl/worksheets/sheet1.xml").Descendants(Main + "c").Single(c => c.Attribute("r")!.Value == "A2").Value;
}
