using System.IO.Compression;
using System.Text;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>What stands in the files is what the draft says; the expected bytes are worked out by hand.</summary>
public sealed class WriterTests
{
    [Fact]
    public void Text_is_quoted_where_it_must_be_and_short_lines_stay_short()
    {
        var draft = Draft(["A", "B"], ["1/2\"", "x,y"], ["short"]);

        Assert.Equal("A,B\r\n\"1/2\"\"\",\"x,y\"\r\nshort\r\n", Encoding.UTF8.GetString(TextFile.Of(draft)));

        (draft.LeavesQuotes, draft.Separator, draft.HasHint) = (true, '\t', true);
        Assert.Equal("sep=\t\r\nA\tB\r\n1/2\"\tx,y\r\nshort\r\n", Encoding.UTF8.GetString(TextFile.Of(draft)));
    }

    [Fact]
    public void Codes_are_written_as_their_bytes()
    {
        var draft = Draft(["é"], ["ü"]);

        draft.Code = TextCode.Windows1252;
        Assert.Equal<byte>([0xE9, 13, 10, 0xFC, 13, 10], TextFile.Of(draft));
        draft.Code = TextCode.Mixed;
        Assert.Equal<byte>([0xC3, 0xA9, 13, 10, 0xFC, 13, 10], TextFile.Of(draft));
        draft.Code = TextCode.Utf16;
        Assert.Equal<byte>([0xFF, 0xFE, 0xE9, 0, 13, 0, 10, 0, 0xFC, 0, 13, 0, 10, 0], TextFile.Of(draft));
        draft.Code = TextCode.Utf8WithMark;
        Assert.Equal<byte>([0xEF, 0xBB, 0xBF, 0xC3, 0xA9, 13, 10, 0xC3, 0xBC, 13, 10], TextFile.Of(draft));
    }

    [Fact]
    public void A_workbook_holds_numbers_days_hidden_rows_merges_and_formulas_that_nobody_worked_out()
    {
        var grid = new Grid("A & B");
        grid.Lines.Add(new(LineSort.Data,
            [new("12,5") { Typed = 12.5 }, new("x") { Typed = 45000, Shown = Shown.Day }, new("a<b")])
        { IsHidden = true });
        grid.Lines.Add(new(LineSort.Data, [new("9") { IsUnworked = true }]));
        grid.Merges.Add("A1:B1");

        using var zip = new ZipArchive(new MemoryStream(BookFile.Of(new("s", Tongue.English, [grid])
        {
            IsWorkbook = true,
            Uses1904 = true
        })));

        var sheet = Part("xl/worksheets/sheet1.xml");
        Assert.Contains("<row r=\"1\" hidden=\"1\"><c r=\"A1\"><v>12.5</v></c><c r=\"B1\" s=\"1\"><v>45000</v></c><c r=\"C1\"", sheet,
            StringComparison.Ordinal);
        Assert.Contains(">a&lt;b<", sheet, StringComparison.Ordinal);
        Assert.Contains("<c r=\"A2\"><f>", sheet, StringComparison.Ordinal);
        Assert.DoesNotContain(">9<", sheet, StringComparison.Ordinal);
        Assert.EndsWith("<mergeCells><mergeCell ref=\"A1:B1\"/></mergeCells></worksheet>", sheet, StringComparison.Ordinal);
        Assert.Contains("date1904=\"1\"", Part("xl/workbook.xml"), StringComparison.Ordinal);
        Assert.Contains("A &amp; B", Part("xl/workbook.xml"), StringComparison.Ordinal);

        string Part(string name) => new StreamReader(zip.GetEntry(name)!.Open()).ReadToEnd();
    }

    // 2025-02-03 is 45691 in a spreadsheet, and 44229 where days count from 1904: 1462 days less.
    [Theory]
    [InlineData(nameof(DayStyle.Iso), "2025-02-03")]
    [InlineData(nameof(DayStyle.Dots), "03.02.2025")]
    [InlineData(nameof(DayStyle.ShortDots), "03.02.25")]
    [InlineData(nameof(DayStyle.Slashes), "03/02/2025")]
    [InlineData(nameof(DayStyle.MonthFirst), "2/3/25")]
    [InlineData(nameof(DayStyle.Dashes), "03-02-2025")]
    [InlineData(nameof(DayStyle.ShortMonth), "3-Feb-25")]
    [InlineData(nameof(DayStyle.LongMonth), "3. Februar 2025")]
    [InlineData(nameof(DayStyle.Bare), "45691")]
    public void Days_are_written_in_every_way(string style, string expected)
    {
        var day = new DateOnly(2025, 2, 3);

        Assert.Equal(expected, DayText.Of(day, Enum.Parse<DayStyle>(style), Vocabulary.Of(Tongue.German)));
        Assert.Equal(44229, DayText.Number(day, true));
    }

    private static Draft Draft(params string[][] lines)
    {
        var grid = new Grid("");
        grid.Lines.AddRange(lines.Select(l => new Line(LineSort.Data, l.Select(t => new Cell(t)))));
        return new("s", Tongue.English, [grid]);
    }
}
