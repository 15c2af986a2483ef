using MicRegister.Documents.Exports;

namespace MicRegister.Documents.Tests.Exports;

public sealed class ExportTableTests
{
    private static readonly ExportColumn[] One = [new("serial", "Serial number", "", "")];

    [Fact]
    public void A_cell_holds_a_text_a_number_or_nothing()
    {
        Assert.Equal("41001", ExportCell.Of("41001").Text);
        Assert.Null(ExportCell.Of("41001").Number);
        Assert.Equal(0.05, ExportCell.Of(0.05).Number);
        Assert.Null(ExportCell.Of(0.05).Text);
        Assert.Equal("2028-02-29", ExportCell.Of(new DateOnly(2028, 2, 29)).Text);
        ExportCell[] nothing = [ExportCell.Nothing, default, ExportCell.Of(""), ExportCell.Of((string?)null), ExportCell.Of((double?)null), ExportCell.Of((DateOnly?)null)];
        Assert.All(nothing, c => Assert.True(c.IsNothing));
        Assert.False(ExportCell.Of(0).IsNothing);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void A_number_that_is_not_finite_is_refused(double number) => Assert.Throws<ArgumentException>(() => ExportCell.Of(number));

    [Fact]
    public void A_row_has_a_cell_for_every_column() => Assert.Contains("Row 2 has 2 cells", Assert.Throws<ArgumentException>(() =>
        new ExportTable("", One, [[ExportCell.Nothing], [ExportCell.Nothing, ExportCell.Nothing]], [])).Message, StringComparison.Ordinal);

    [Theory]
    [InlineData(ExportType.Text, false)]
    [InlineData(ExportType.Instant, false)]
    [InlineData(ExportType.Number, true)]
    public void A_cell_is_what_its_column_says(ExportType type, bool isNumber)
    {
        ExportColumn[] columns = [One[0] with { Type = type }];
        ExportCell[] good = [isNumber ? ExportCell.Of(1) : ExportCell.Of("1")], bad = [isNumber ? ExportCell.Of("1") : ExportCell.Of(1)];

        Assert.Equal(2, new ExportTable("", columns, [good, [ExportCell.Nothing]], []).Rows.Count);
        Assert.Contains(
            "Row 2 holds something else in serial", Assert.Throws<ArgumentException>(() => new ExportTable("", columns, [good, bad], [])).Message,
            StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", ExportType.Text)]
    [InlineData("dB", ExportType.Number)]
    public void With_a_unit_a_column_holds_numbers(string unit, ExportType type) => Assert.Equal(type, new ExportColumn("a", "", unit, "").Type);

    [Fact]
    public void A_name_is_there_once()
    {
        Assert.Contains("'serial' is there twice", Assert.Throws<ArgumentException>(() => new ExportTable("", [One[0], One[0]], [], [])).Message, StringComparison.Ordinal);
        Assert.Contains("'register' is there twice", Assert.Throws<ArgumentException>(() => new ExportTable("", One, [], [("register", "a"), ("register", "b")])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new ExportTable("", [One[0] with { Key = " " }], [], []));
        Assert.Throws<ArgumentException>(() => new ExportTable("", [], [], []));
    }
}
