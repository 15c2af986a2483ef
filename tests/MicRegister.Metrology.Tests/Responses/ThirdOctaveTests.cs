using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.Tests.Responses;

public sealed class ThirdOctaveTests
{
    // Nominal middles of IEC 61260-1:2014, table of nominal frequencies (25 Hz to 20 kHz seen in two libraries, 20 Hz from memory).
    private static readonly double[] Audible =
    [
        20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10_000, 12_500, 16_000, 20_000,
    ];

    [Fact]
    public void Bands_of_a_span_carry_the_nominal_figures_and_both_ends_count()
    {
        var bands = ThirdOctave.Between(20, 20_000);

        Assert.Equal(Audible.Length, bands.Count);
        foreach (var (nominal, band) in Audible.Zip(bands)) AssertClose.Relative(nominal, band.NominalHz, 1e-12);
        Assert.Equal((-17, 13), (bands[0].Index, bands[^1].Index));
    }

    [Theory]
    [InlineData(-15, 31.622776601683793)] // 1000 · 10^-1.5
    [InlineData(0, 1000)]
    [InlineData(1, 1258.925411794167)] // 1000 · 10^0.1
    [InlineData(13, 19952.62314968880)] // 1000 · 10^1.3
    public void The_exact_middle_lies_on_base_ten(int index, double hz) => AssertClose.Relative(hz, new ThirdOctave(index).MiddleHz, 1e-12);

    [Fact]
    public void Between_two_nominal_figures_there_may_be_none_and_a_span_must_be_one()
    {
        Assert.Empty(ThirdOctave.Between(101, 124));
        Assert.Equal(100, Assert.Single(ThirdOctave.Between(100, 100)).NominalHz, 1e-9);
        Assert.Throws<ArgumentOutOfRangeException>(() => ThirdOctave.Between(0, 100));
        Assert.Throws<ArgumentOutOfRangeException>(() => ThirdOctave.Between(100, 99));
        Assert.Throws<ArgumentOutOfRangeException>(() => ThirdOctave.Between(100, double.PositiveInfinity));
    }
}
