using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.Tests.Responses;

public sealed class CurveChangeTests
{
    private static ResponseCurve Curve(params (double Hz, double Db)[] points) => new([.. points.Select(p => new CurvePoint(p.Hz, p.Db, 0.3))]);

    [Fact]
    public void Each_band_takes_what_its_own_points_say()
    {
        // 250 Hz by its round figure and 251.19 Hz by its exact one are one band.
        var change = CurveChange.Of(Curve((250, 1.0), (500, 2.0), (1000, 3.0)), Curve((251.19, 0.6), (501.19, 2.5)));

        Assert.Equal([(-6, 0.4), (-3, -0.5)], change.Bands.Select(b => (b.Band.Index, Math.Round(b.Db, 9))));
        Assert.Equal([0], change.InOneOnly.Select(b => b.Index));
    }

    [Fact]
    public void Of_several_points_in_a_band_the_nearest_to_the_middle_counts()
    {
        var change = CurveChange.Of(Curve((950, 9), (1010, 1), (1100, 9)), Curve((1000, 0.5)));

        Assert.Equal(0.5, Assert.Single(change.Bands).Db, 1e-12);
    }

    // By hand: sqrt(0.3² + 0.4²) / 2 = 0.25.
    [Fact]
    public void Its_uncertainty_is_that_of_both()
    {
        ResponseCurve Of(double? expanded) => new([new(1000, 0, expanded)]);

        Assert.Equal(0.25, CurveChange.Of(Of(0.3), Of(0.4)).Bands[0].StandardDb!.Value, 1e-12);
        Assert.Null(CurveChange.Of(Of(0.3), Of(null)).Bands[0].StandardDb);
        Assert.Null(CurveChange.Of(Of(null), Of(0.4)).Bands[0].StandardDb);
    }

    // x - x is nothing, and turning the two round turns the sign.
    [Fact]
    public void A_curve_does_not_differ_from_itself_and_the_order_gives_the_sign()
    {
        var (a, b) = (Curve((100, 1), (1000, 2), (4000, -1)), Curve((100, 1.5), (1000, 1), (8000, 0)));

        Assert.All(CurveChange.Of(a, a).Bands, c => Assert.Equal(0, c.Db));
        Assert.Empty(CurveChange.Of(a, a).InOneOnly);
        Assert.Equal(CurveChange.Of(a, b).Bands.Select(c => -c.Db), CurveChange.Of(b, a).Bands.Select(c => c.Db));
        Assert.Equal(CurveChange.Of(a, b).InOneOnly, CurveChange.Of(b, a).InOneOnly);
    }

    // The upper edge of 1 kHz lies at 1000 · 10^(1/20) = 1122.02 Hz.
    [Theory]
    [InlineData(1122.0, 0)]
    [InlineData(1122.1, 1)]
    [InlineData(891.3, 0)]
    [InlineData(891.2, -1)]
    [InlineData(31.5, -15)]
    [InlineData(20_000, 13)]
    public void A_frequency_lies_in_the_band_between_whose_edges_it_is(double hz, int index) => Assert.Equal(index, ThirdOctave.Of(hz).Index);

    [Theory]
    [InlineData(0)]
    [InlineData(-1)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void No_band_holds_what_is_no_frequency(double hz) => Assert.Throws<ArgumentOutOfRangeException>(() => ThirdOctave.Of(hz));
}
