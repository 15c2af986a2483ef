using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.Tests.Responses;

/// <summary>Curves over frequency by hand algebra: straight over the logarithm of frequency.</summary>
public sealed class ResponseCurveTests
{
    private const double Db = 1e-12;

    private static readonly ResponseCurve Curve = new([new(100, 1, 0.2), new(1000, 3, 0.4), new(10_000, -1, 0.8)]);

    [Theory]
    [InlineData(100, 1)]
    [InlineData(316.22776601683796, 2)] // half a decade
    [InlineData(1000, 3)]
    [InlineData(3162.2776601683795, 1)]
    [InlineData(10_000, -1)]
    public void Between_two_points_the_level_is_straight_over_the_logarithm(double hz, double levelDb) =>
        Assert.Equal(levelDb, Curve.At(hz)!.Value, Db);

    [Theory]
    [InlineData(99.999)]
    [InlineData(10_000.001)]
    [InlineData(double.NaN)]
    public void Outside_its_points_a_level_is_not_known(double hz) => Assert.Null(Curve.At(hz));

    // A band within 1 % of an end takes the end's figure; inside and right at the end nothing is moved.
    [Theory]
    [InlineData(99.01, 1.0, 0.2)]
    [InlineData(10_099, -1.0, 0.8)]
    [InlineData(100, 1.0, 0.2)]
    [InlineData(316.22776601683796, 2.0, 0.3)]
    [InlineData(99, null, null)]
    [InlineData(10_100, null, null)]
    public void A_band_takes_the_end_within_one_per_cent(double hz, double? levelDb, double? expandedDb)
    {
        var found = Curve.AtBand(hz);

        Assert.Equal(levelDb is null, found is null);
        if (found is not { } band) return;
        Assert.Equal(levelDb!.Value, band.LevelDb, Db);
        Assert.Equal(expandedDb!.Value, band.ExpandedDb!.Value, Db);
    }

    [Fact]
    public void A_curve_is_shifted_by_its_own_figure_or_a_given_one()
    {
        Assert.Equal([-2, 0, -4], Curve.RelativeTo(1000).Points.Select(p => Math.Round(p.LevelDb, 12)));
        Assert.Equal([-1, 1, -3], Curve.RelativeTo(316.22776601683796).Points.Select(p => Math.Round(p.LevelDb, 12)));
        Assert.Same(Curve, Curve.RelativeTo(50)); // not known there
        Assert.Equal([0.5, 2.5, -1.5], Curve.Less(0.5).Points.Select(p => p.LevelDb));
        Assert.Equal(7, new ResponseCurve([new(500, 7, null)]).At(500));
        Assert.Null(new ResponseCurve([new(500, 7, null)]).At(501));
    }

    // Both relative to 1 kHz: now -2, 0, -4; before -1, 0, -4.5 (and nothing at 20 Hz): -1 at 100 Hz is the greatest, though 0.5 lies
    // higher.
    [Fact]
    public void The_greatest_change_counts_whatever_its_sign_and_only_where_both_are_known()
    {
        var before = new ResponseCurve([new(100, -1, null), new(1000, 0, null), new(10_000, -4.5, null)]);

        var (hz, difference) = Curve.GreatestChange(before, 1000)!.Value;

        Assert.Equal(100, hz);
        Assert.Equal(-1, difference, Db);
        Assert.Null(Curve.GreatestChange(new([new(20, 0, null), new(50, 0, null)]), 1000));
    }

    // A curve for every 30°: at the lowest angle less 30° it holds, and further it does not; at a curve's own angle no other one takes
    // part.
    [Fact]
    public void At_the_angle_of_a_curve_that_curve_alone_counts()
    {
        var reaches = new ResponseCurve([new(100, 0, 0.2), new(10_000, 0, 0.2)]);
        var ends = new ResponseCurve([new(100, 0, 0.2), new(500, 0, 0.2)]);
        var both = new DirectionalResponse([new(40, reaches, "a"), new(80, ends, "b"), new(120, reaches, "c")]);

        Assert.NotNull(both.At(1000, 40));
        Assert.NotNull(both.At(1000, 120));
        Assert.NotNull(both.At(1000, 10)); // 30° below the lowest
        Assert.Null(both.At(1000, 9.9));
        Assert.Null(both.At(1000, 60));
        Assert.Null(both.At(1000, 80));
        Assert.Null(both.Anywhere(1000)); // one of the curves does not say
        Assert.NotNull(both.Anywhere(200));
    }

    [Fact]
    public void A_half_width_stops_at_the_front_and_the_back()
    {
        ResponseCurve Flat(double db) => new([new(100, db, 0.2), new(10_000, db, 0.2)]);
        var response = new DirectionalResponse(
            [new(0, Flat(0), "a"), new(60, Flat(6), "b"), new(120, Flat(0), "c"), new(180, Flat(-12), "d")]);

        Assert.Equal(4, response.At(1000, 20, 40)!.Value.HalfWidthDb, Db); // from 0° (0 dB) over 2 dB to 60° (6 dB)
        Assert.Equal(4, response.At(1000, 160, 50)!.Value.LevelDb + 12, Db);
        Assert.Equal(9, response.At(1000, 160, 50)!.Value.HalfWidthDb, Db); // from 110° (1 dB) to 180° (-12 dB): 1 - (-8)
        Assert.Throws<ArgumentOutOfRangeException>(() => response.At(1000, 0, 181));
        Assert.Throws<ArgumentOutOfRangeException>(() => response.At(1000, 181));
        Assert.NotNull(response.At(1000, 180, 180));
    }
}
