using System.Globalization;
using System.Text;
using MicRegister.Documents.Exports;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Tests.Exports;

public sealed class CsvExportTests
{
    [Fact]
    public void A_table_is_written_as_the_standard_says() => Assert.Equal(
        "serial,sensitivity-v-per-pa,calibrated-on\r\n" +
        "41001,0.05012,2026-05-04\r\n" +
        "\"1/2\"\" a, b\",-1E-07,\r\n",
        Written(Tables.Of(
            [ExportCell.Of("41001"), ExportCell.Of(0.05012), ExportCell.Of(new DateOnly(2026, 5, 4))],
            [ExportCell.Of("1/2\" a, b"), ExportCell.Of(-1e-7), ExportCell.Nothing])));

    [Fact]
    public void There_is_no_byte_order_mark_and_the_stream_stays_open()
    {
        using var content = new MemoryStream();
        CsvExport.Write(Tables.Of(), content);

        Assert.Equal((byte)'s', content.ToArray()[0]);
        Assert.True(content.CanWrite);
    }

    [Fact]
    public void No_text_is_run_and_every_text_comes_back()
    {
        string[] texts = [.. Tables.Injections, .. Tables.Harmless];

        var rows = Parsed(Written(Tables.OfTexts(texts))).Skip(1).Take(texts.Length).ToList();

        Assert.Equal(texts, rows.Select(r => CsvExport.Plain(r[0])));
        Assert.All(rows.Take(Tables.Injections.Count), r => Assert.Equal('\'', r[0][0]));
        Assert.Equal(Tables.Harmless, rows.Skip(Tables.Injections.Count).Select(r => r[0]));
        // A number below zero begins with a sign too, and is left alone.
        Assert.All(rows, r => Assert.Equal("-3.5", r[1]));
    }

    [Fact]
    public void Any_beginning_of_the_signs_that_matter_comes_back()
    {
        // All texts of up to four of these: those that run, those that are passed over, and one that ends the matter.
        const string signs = "'\" =-\ta";
        IEnumerable<string> texts = [""];
        for (var length = 1; length <= 4; length++) texts = [.. texts, .. texts.Where(t => t.Length == length - 1).SelectMany(t => signs.Select(s => t + s))];

        Assert.All(texts.Where(t => t.Length > 0), t => Assert.Equal(t, CsvExport.Plain(Parsed(Written(Tables.OfTexts([t])))[1][0])));
    }

    [Theory]
    [InlineData(1e-7)]
    [InlineData(0.1)]
    [InlineData(-26.020599913279624)]
    [InlineData(double.MaxValue)]
    [InlineData(double.Epsilon)]
    [InlineData(1.2345678901234568e17)]
    public void A_number_reads_back_the_same(double number)
    {
        var field = Parsed(Written(Tables.Of([ExportCell.Of("1"), ExportCell.Of(number), ExportCell.Nothing])))[1][1];

        Assert.Equal(number, double.Parse(field, NumberStyles.Float, CultureInfo.InvariantCulture)); // exact: the shortest form that reads back
    }

    [Fact]
    public void A_blank_cell_of_the_only_column_is_a_row() => Assert.Equal(
        "serial\r\n\"\"\r\n41001\r\n",
        Written(new ExportTable("", [new("serial", "Serial number", "", "")], [[ExportCell.Nothing], [ExportCell.Of("41001")]], [])));

    [Fact]
    public void The_register_reads_its_own_file()
    {
        using var content = new MemoryStream(Encoding.UTF8.GetBytes(Written(Tables.Of([ExportCell.Of("½\"; a, b\nc 🎤"), ExportCell.Of(1e-7), ExportCell.Of(new DateOnly(2026, 5, 4))]))));

        var rows = SheetFile.Open(content, "export.csv", SheetLimits.Usual).Single().Rows.ToList();

        Assert.Equal(["serial", "sensitivity-v-per-pa", "calibrated-on"], rows[0].Cells.Select(c => c.Shown));
        Assert.Equal(["½\"; a, b\nc 🎤", "1E-07", "2026-05-04"], rows[1].Cells.Select(c => c.Shown));
        Assert.Equal(2, rows.Count);
    }

    private static string Written(ExportTable table)
    {
        using var content = new MemoryStream();
        CsvExport.Write(table, content);
        return Encoding.UTF8.GetString(content.ToArray());
    }

    /// <summary>A second, strict reader of RFC 4180: what it does not know it refuses, and it trims nothing.</summary>
    private static List<List<string>> Parsed(string text)
    {
        var rows = new List<List<string>>();
        var row = new List<string>();
        var i = 0;
        while (i < text.Length)
        {
            var field = new StringBuilder();
            if (text[i] == '"')
            {
                for (i++; text[i] != '"' || (i + 1 < text.Length && text[i + 1] == '"'); i++)
                {
                    if (text[i] == '"') i++;
                    field.Append(text[i]);
                }
                i++;
            }
            else
            {
                for (; text[i] is not (',' or '\r'); i++)
                {
                    Assert.False(text[i] is '"' or '\n', "a quote or a line feed stands in a cell without quotes");
                    field.Append(text[i]);
                }
            }
            row.Add(field.ToString());
            if (text[i] == ',')
            {
                i++;
                continue;
            }
            Assert.Equal('\r', text[i]);
            Assert.Equal('\n', text[i + 1]);
            i += 2;
            rows.Add(row);
            row = [];
        }
        return rows;
    }
}
