using System.IO.Compression;
using System.Text;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Sheets;

public sealed class XlsxSheetsTests
{
    [Fact]
    public void Cells_come_as_they_are_stored()
    {
        var row = Rows(Workbook.Of(
            """<row r="3"><c r="A3" t="s"><v>0</v></c><c r="B3" t="s"><v>1</v></c><c r="D3"><v>-26.1</v></c><c r="E3" t="inlineStr"><is><t>-26,1</t></is></c><c r="F3" t="str"><f>A1&amp;"x"</f><v>made</v></c><c r="G3"><f>1+1</f><v>2</v></c><c r="H3" t="b"><v>1</v></c><c r="I3" t="e"><v>#N/A</v></c><c r="J3" s="3"><v>4.5</v></c></row>""",
            texts: ["<t>Serial</t>", "<r><t>Two </t></r><r><t>runs</t></r><rPh sb=\"0\" eb=\"1\"><t>hint</t></rPh>"])).Single();

        Assert.Equal(3, row.Number);
        // The text -26,1 stays a text: a typed mapping was seen to make -261 of it.
        Assert.Equal(["Serial", "Two runs", "", "-26.1", "-26,1", "made", "2", "yes", "#N/A", "4.5"], row.Cells.Select(c => c.Shown));
        Assert.Null(row.At(9).Day); // the code 0.0"dB" shows no date
    }

    // 45000 is 2023-03-15 from 1900 and 1462 days later from 1904 (ISO/IEC 29500-1, 18.17.4.1; recomputed with Python 3.11).
    [Theory]
    [InlineData(false, 1, "2023-03-15")]
    [InlineData(false, 2, "2023-03-15")]
    [InlineData(true, 1, "2027-03-16")]
    public void Dates_follow_the_format_and_the_epoch(bool uses1904, int style, string day) =>
        Assert.Equal(day, Rows(Workbook.Of($"<row r=\"1\"><c r=\"A1\" s=\"{style}\"><v>45000.5</v></c></row>", uses1904: uses1904)).Single().At(0).Shown);

    // Format 9 is 0 %: the cell shows 1 %, stored is 0.01 (ISO/IEC 29500-1, 18.8.30).
    [Fact]
    public void A_percentage_is_read_as_it_is_shown() => Assert.Equal("1%", Rows(Workbook.Of("<row r=\"1\"><c r=\"A1\" s=\"1\"><v>0.01</v></c></row>",
        change: p => p["xl/styles.xml"] = p["xl/styles.xml"].Replace("<xf numFmtId=\"14\"/><xf numFmtId=\"164\"/>", "<xf numFmtId=\"9\"/><xf numFmtId=\"164\"/>", StringComparison.Ordinal))).Single().At(0).Shown);

    [Fact]
    public void A_formula_that_was_saved_without_its_value_says_so() =>
        Assert.Equal(Cell.NoStoredValue, Rows(Workbook.Of("<row r=\"1\"><c r=\"A1\"><f>1+1</f></c></row>")).Single().At(0).Shown);

    [Fact]
    public void Merged_cells_are_filled_to_the_right_and_down()
    {
        var rows = Rows(Workbook.Of(
            """<row r="1"><c r="A1" t="inlineStr"><is><t>Cal</t></is></c></row><row r="2"><c r="A2"><v>1</v></c><c r="B2"><v>2</v></c></row><row r="3"><c r="B3"><v>3</v></c></row>""",
            merges: ["A1:B1", "A2:A3"]));

        Assert.Equal(["Cal", "Cal"], rows[0].Cells.Select(c => c.Shown));
        Assert.Equal(["1", "3"], rows[2].Cells.Select(c => c.Shown));
    }

    [Fact]
    public void Rows_and_cells_without_a_place_follow_each_other() =>
        Assert.Equal([1, 2], Rows(Workbook.Of("<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row>")).Select(r => r.Number));

    [Theory]
    [InlineData("xl/workbook.xml", "no workbook")]
    [InlineData("xl/_rels/workbook.xml.rels", "is missing")]
    [InlineData("xl/worksheets/sheet1.xml", "is missing")]
    public void A_missing_part_is_named(string part, string what) =>
        Assert.Contains(what, Refusal(Workbook.Of("<row><c><v>1</v></c></row>", change: p => p.Remove(part))), StringComparison.Ordinal);

    [Theory]
    [InlineData("<row><c t=\"s\"><v>7</v></c></row>", "does not exist")]
    [InlineData("<row r=\"1\"><c r=\"A1\"><v>1</v></row>", "damaged")]
    [InlineData("<row r=\"1\"><c r=\"1A\"><v>1</v></c></row>", "no cell")]
    [InlineData("<row r=\"1\"><c r=\"ZZZ1\"><v>1</v></c></row>", "columns")]
    [InlineData("<row r=\"1200000\"><c><v>1</v></c></row>", "rows")]
    public void A_damaged_sheet_is_refused(string data, string what) => Assert.Contains(what, Refusal(Workbook.Of(data)), StringComparison.Ordinal);

    [Fact]
    public void Entities_are_not_expanded() => Assert.Contains("damaged", Refusal(Workbook.Of("", change: p => p["xl/sharedStrings.xml"] =
        "<!DOCTYPE x [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;\">]><sst xmlns=\"x\"><si><t>&b;</t></si></sst>")), StringComparison.Ordinal);

    [Fact]
    public void A_bomb_ends_early_and_in_little_memory()
    {
        // 64 MiB of blanks pack into some 64 KiB; with 1 MiB allowed, reading stops after about 2.
        var bomb = Workbook.Of("", change: p => p["xl/sharedStrings.xml"] = "<sst>" + new string(' ', 64 << 20) + "</sst>");
        Assert.InRange(bomb.Length, 1, 1 << 20);
        var before = GC.GetAllocatedBytesForCurrentThread();

        var refusal = Refusal(bomb, new SheetLimits(UnpackedBytes: 1 << 20));

        Assert.Contains("at most 1048576 are read", refusal, StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 32 << 20);
    }

    [Fact]
    public void A_huge_cell_and_too_many_texts_are_refused()
    {
        Assert.Contains("characters", Refusal(Workbook.Of($"<row><c t=\"inlineStr\"><is><t>{new string('x', 10_001)}</t></is></c></row>")), StringComparison.Ordinal);
        Assert.Contains("shared texts", Refusal(Workbook.Of("", texts: [.. Enumerable.Repeat($"<t>{new string('x', 900)}</t>", 20)]), new SheetLimits(TextCharacters: 10_000)), StringComparison.Ordinal);
    }

    /// <summary>2,000 workbooks with bytes changed or cut: each is read or refused with a message, never anything else.</summary>
    [Fact]
    public void Damaged_packages_are_read_or_refused()
    {
        var whole = Workbook.Of("<row r=\"1\"><c r=\"A1\" t=\"s\"><v>0</v></c><c r=\"B1\" s=\"1\"><v>45000</v></c></row>", ["A1:A2"], texts: ["<t>Serial</t>"]).ToArray();
        var random = new Random(20263);
        var refused = 0;
        for (var i = 0; i < 2000; i++)
        {
            var bytes = whole.ToArray();
            for (var n = random.Next(1, 6); n > 0; n--) bytes[random.Next(4, bytes.Length)] = (byte)random.Next(256);
            if (i % 3 == 0) bytes = bytes[..random.Next(4, bytes.Length)];
            try
            {
                _ = SheetFile.Open(new MemoryStream(bytes), "f.xlsx", SheetLimits.Usual).SelectMany(s => s.Rows).ToList();
            }
            catch (SheetException e)
            {
                refused++;
                Assert.Contains("f.xlsx", e.Message, StringComparison.Ordinal);
            }
        }
        Assert.InRange(refused, 1000, 2000);
    }

    [Fact]
    public void A_packed_file_that_is_no_workbook_is_refused()
    {
        var stream = new MemoryStream();
        using (var zip = new ZipArchive(stream, ZipArchiveMode.Create, leaveOpen: true)) zip.CreateEntry("readme.txt").Open().Dispose();

        Assert.Contains("no workbook", Refusal(stream), StringComparison.Ordinal);
        Assert.Contains("damaged", Refusal(new MemoryStream(Encoding.ASCII.GetBytes("PK and nothing else"))), StringComparison.Ordinal);
    }

    private static List<SheetRow> Rows(Stream workbook) => [.. SheetFile.Open(workbook, "f.xlsx", SheetLimits.Usual).SelectMany(s => s.Rows)];

    private static string Refusal(Stream workbook, SheetLimits? limits = null) =>
        Assert.Throws<SheetException>(() => SheetFile.Open(workbook, "f.xlsx", limits ?? SheetLimits.Usual).SelectMany(s => s.Rows).ToList()).Message;
}
