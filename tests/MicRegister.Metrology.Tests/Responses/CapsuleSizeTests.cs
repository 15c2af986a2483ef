using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.Tests.Responses;

/// <summary>Sums of the columns of IEC 61183:1994, table B.1 for half-inch laboratory standard microphones, as transcribed elsewhere.</summary>
public sealed class CapsuleSizeTests
{
    [Theory]
    [InlineData(500, 0)]
    [InlineData(800, 0)]
    [InlineData(1000, .05)]
    [InlineData(4000, 1.10)]
    [InlineData(8000, 3.65)]
    [InlineData(10_000, 5.20)]
    [InlineData(16_000, 8.35)]
    [InlineData(20_000, 8.90)]
    public void Half_an_inch_rises_as_the_table_says(double hz, double db) =>
        AssertClose.Absolute(db, CapsuleSize.Of(12.7, hz, 340)!.RiseDb!.Value, 1e-9);

    // A body of half the size does at twice the frequency what the whole one does.
    [Fact]
    public void Other_sizes_follow_wavelength_over_diameter()
    {
        Assert.Equal(CapsuleSize.Of(12.7, 10_000, 340).RiseDb, CapsuleSize.Of(6.35, 20_000, 340).RiseDb);
        Assert.Equal(CapsuleSize.Of(12.7, 10_000, 340).RiseDb, CapsuleSize.Of(25.4, 5_000, 340).RiseDb);
        AssertClose.Absolute(340 / 10_000.0 / 0.0127, CapsuleSize.Of(12.7, 10_000, 340).WavesAcross, 1e-9);
    }

    [Fact]
    public void Beyond_the_table_nothing_is_told() => Assert.Null(CapsuleSize.Of(25.4, 10_001, 340).RiseDb);

    [Fact]
    public void Between_its_rows_it_lies_between_them()
    {
        var rise = CapsuleSize.Of(12.7, 9000, 340).RiseDb!.Value;

        // 3.65 + (5.20 - 3.65) · ln(9/8) / ln(10/8) = 4.4681
        AssertClose.Absolute(4.4681, rise, 1e-4);
    }

    [Theory]
    [InlineData(0, 1000, 340)]
    [InlineData(12.7, -1, 340)]
    [InlineData(12.7, 1000, double.NaN)]
    public void What_cannot_be_is_refused(double mm, double hz, double speed) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => CapsuleSize.Of(mm, hz, speed));
}
