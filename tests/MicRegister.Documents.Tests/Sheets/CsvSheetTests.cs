using System.Text;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Sheets;

public sealed class CsvSheetTests
{
    // RFC 4180, section 2 (rules 1 to 5 seen in two copies, 6 and 7 from memory): quotes, doubled quotes, line breaks within quotes, blank
    // last field; a byte order mark at the start.
    [Fact]
    public void Quoted_cells_are_read_as_the_standard_says()
    {
        var rows = Read("\uFEFFa,b,c\r\n\"x\"\"y\",\"two\r\nlines\",\r\n1,2,3");

        Assert.Equal(["a", "b", "c"], rows[0].Cells.Select(c => c.Shown));
        Assert.Equal(["x\"y", "two\r\nlines", ""], rows[1].Cells.Select(c => c.Shown));
        Assert.Equal((1, 2, 4), (rows[0].Number, rows[1].Number, rows[2].Number));
    }

    [Theory]
    [InlineData("Serial;Wert\n1;-38,06\n2;-38,07\n", "-38,06")]
    [InlineData("Serial\tWert\n1\t-38,06\n2\t-38,07\n", "-38,06")]
    [InlineData("Serial,Wert\n1,-38.06\n2,-38.07\n", "-38.06")]
    [InlineData("sep=;\nSerial;Wert\n1;-38,06\n", "-38,06")]
    public void The_separator_is_found_and_decimal_commas_stay(string text, string value) => Assert.Equal(value, Read(text)[1].At(1).Shown);

    [Theory]
    [InlineData("utf-8", true)]
    [InlineData("utf-8", false)]
    [InlineData("utf-16", true)]
    [InlineData("utf-16", false)]
    [InlineData("utf-16BE", true)]
    [InlineData("utf-16BE", false)]
    [InlineData("windows-1252", false)]
    public void The_encoding_is_found(string name, bool mark)
    {
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        var encoding = Encoding.GetEncoding(name);
        byte[] bytes = [.. mark ? encoding.GetPreamble() : [], .. encoding.GetBytes("Seriennummer;Größe\n1;12,7 µ\n")];

        var rows = Rows(bytes);

        Assert.Equal(["Seriennummer", "Größe"], rows[0].Cells.Select(c => c.Shown));
        Assert.Equal("12,7 µ", rows[1].At(1).Shown);
    }

    [Theory]
    [InlineData("a,b\nx,b\"c\n", "line 2", "quote")]
    [InlineData("a,b\n1,\"never closed\n2,3\n", "line 2", "quote")]
    [InlineData("a,b\n1,\0\n", "NUL", "NUL")]
    public void Broken_texts_name_the_place(string text, string place, string what)
    {
        var refusal = Assert.Throws<SheetException>(() => Rows(Encoding.UTF8.GetBytes(text.Replace("never closed", "never closed" + new string('x', 20_000), StringComparison.Ordinal))));

        Assert.Contains(place, refusal.Message, StringComparison.Ordinal);
        Assert.Contains(what, refusal.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void An_inch_mark_ends_a_cell()
    {
        var row = Read("Serial,Size,Place\n1,1/2\",Hall\n2,\"1/4\"\"\",Hall\n");

        Assert.Equal(["1", "1/2\"", "Hall"], row[1].Cells.Select(c => c.Shown));
        Assert.Equal(["2", "1/4\"", "Hall"], row[2].Cells.Select(c => c.Shown));
    }

    [Fact]
    public void Too_much_of_anything_is_refused()
    {
        var limits = new SheetLimits(FileBytes: 1000, Rows: 10, Columns: 5, CellCharacters: 50);
        Assert.Contains("bytes", Refusal(new string('a', 1001), limits), StringComparison.Ordinal);
        Assert.Contains("rows", Refusal(string.Concat(Enumerable.Repeat("a,b\n", 11)), limits), StringComparison.Ordinal);
        Assert.Contains("columns", Refusal("a,b,c,d,e,f\n", limits), StringComparison.Ordinal);
        Assert.Contains("characters", Refusal(new string('a', 51) + ",b\n", limits), StringComparison.Ordinal);
        Assert.Contains("empty", Refusal("", limits), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(new byte[] { 0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1 }, "old binary")]
    [InlineData(new byte[] { 0x25, 0x50, 0x44, 0x46, 0x2D, 0x31, 0x2E, 0x37 }, "PDF")]
    public void Other_files_are_named_for_what_they_are(byte[] bytes, string what) =>
        Assert.Contains(what, Assert.Throws<SheetException>(() => Rows(bytes)).Message, StringComparison.Ordinal);

    // A guarded formula comes back as it was before it was guarded.
    [Theory]
    [InlineData("'=1+1", "=1+1")]
    [InlineData("'@x", "@x")]
    [InlineData("'plain", "'plain")]
    [InlineData("''=x", "'=x")]
    public void One_guarding_quote_is_taken_off(string cell, string read) => Assert.Equal(read, Read($"a,b\n{cell},1\n")[1].At(0).Shown);

    private static string Refusal(string text, SheetLimits limits) =>
        Assert.Throws<SheetException>(() => SheetFile.Open(new MemoryStream(Encoding.UTF8.GetBytes(text)), "f.csv", limits).SelectMany(s => s.Rows).ToList()).Message;

    private static List<SheetRow> Read(string text) => Rows(Encoding.UTF8.GetBytes(text));

    private static List<SheetRow> Rows(byte[] bytes) => [.. SheetFile.Open(new MemoryStream(bytes), "f.csv", SheetLimits.Usual).Single().Rows];
}
