using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register.InPlace;

namespace MicRegister.Documents.Tests.Import;

public sealed class ComparisonFileTests
{
    [Theory]
    [InlineData("S01; 71,2\nS02; 71,0; -0,3\n")]
    [InlineData("Station,Level [dB],Expected\nS01,71.2,\nS02,71.0,-0.3\n")]
    [InlineData("S01\t71.2 dB\n\nS02\t71.0\t-0.3\n")]
    public void Rows_of_station_level_and_expectation_are_read(string text) =>
        Assert.Equal([("S01", 71.2, 0), ("S02", 71.0, -0.3)], Read(text).Select(c => (c.Station, c.LevelDb, c.ExpectedDb)));

    [Theory]
    [InlineData("S01; 7l,2\n", "row 1: level '7l,2': allowed is a number in dB")] // no header: it holds a digit
    [InlineData("S01; 71,2\nS02; x\n", "row 2: level 'x'")]
    [InlineData("S01; 71,2; y\n", "row 1: expected 'y'")]
    [InlineData("; 71,2\n", "row 1: the station is missing")]
    [InlineData("S01;\n", "row 1: level ''")]
    public void What_cannot_be_read_is_named_by_row_and_value(string text, string says) => Assert.Contains(says, Assert.Throws<SheetException>(() => Read(text)).Message, StringComparison.Ordinal);

    private static IReadOnlyList<ComparedChain> Read(string text) => ComparisonFile.Read(new MemoryStream(Encoding.UTF8.GetBytes(text)), "levels.csv");
}
