using System.Globalization;
using MicRegister.Documents.Exports;
using MicRegister.Documents.Import;
using MicRegister.Register;

namespace MicRegister.Documents.Tests.Exports;

/// <summary>Empty tables are understood without a question, and an example row of each goes in.</summary>
public sealed class ImportTemplateTests
{
    [Fact]
    public void There_is_one_for_each_sort_of_table() => Assert.Equal(
        ["devices", "results", "inspections", "campaigns", "stations", "kit", "limits", "settings"], ImportTemplate.All.Select(t => t.Key));

    [Theory]
    [InlineData("csv")]
    [InlineData("xlsx")]
    public void An_empty_one_asks_nothing_and_each_header_is_sure(string format)
    {
        foreach (var template in ImportTemplate.All)
        {
            var report = Session().Take(File(template.Table, format), $"{template.Key}.{format}", ImportMapping.None);

            Assert.True(report.IsGood, template.Key);
            Assert.Equal((1, 0), (report.Tables, report.Rows));
            Assert.All(report.Understood, c => Assert.Equal(ColumnCertainty.Sure, c.Sort));
            Assert.Equal(template.Columns.Select(c => c.Header), report.Understood.Select(c => c.Header));
            Assert.All(template.Columns.Zip(report.Understood), c =>
                Assert.StartsWith(c.First.Column.Meaning, c.Second.Meaning, StringComparison.Ordinal));
        }
    }

    // Stations name devices and a campaign of rows before, so all go into one register.
    [Theory]
    [InlineData("csv")]
    [InlineData("xlsx")]
    public void An_example_row_of_each_goes_in(string format)
    {
        var session = Session();
        foreach (var template in ImportTemplate.All)
        {
            // As a person types it: what has a unit is a number.
            var filled = new ExportTable(
                template.Table.Title,
                [.. template.Table.Columns.Select(c => c with { Type = IsNumber(c.Key) ? ExportType.Number : ExportType.Text })],
                [[.. template.Columns.Select(c => IsNumber(c.Header)
                    ? ExportCell.Of(double.Parse(c.Example, CultureInfo.InvariantCulture)) : ExportCell.Of(c.Example))]], []);
            var report = session.Take(File(filled, format), $"{template.Key}.{format}", ImportMapping.None);

            Assert.True(report.IsGood, $"{template.Key}: {string.Join("; ", report.Outcomes.Select(o => o.Text))}");
            Assert.True(report.Outcomes is [{ Sort: RowSort.New or RowSort.Changed }], template.Key);
            Assert.True(report.Facts > 0, template.Key);
        }
    }

    private static bool IsNumber(string header) => header.Contains('[', StringComparison.Ordinal);

    private static ImportSession Session() => new(Register.Register.Empty(new FactList()), new DateOnly(2026, 8, 3));

    private static MemoryStream File(ExportTable table, string format)
    {
        var content = new MemoryStream();
        if (format == "csv") CsvExport.Write(table, content);
        else XlsxExport.Write(table, content);
        content.Position = 0;
        return content;
    }
}
