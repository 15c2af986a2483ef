using FsCheck;
using FsCheck.Fluent;
using MicRegister.Metrology.Lines;

namespace MicRegister.Metrology.Tests.Lines;

public sealed class StraightLineTests
{
    // JCGM 100:2008, H.3, table H.6: printed values y1 = -0.1712, u = 0.0029, y2 = 0.00218, u = 0.00067, r = -0.930, s = 0.0035,
    // b(30) = -0.1494, u = 0.0041; the digits here are recomputed in exact rational arithmetic (Reference/exact_lines.py), hence 1e-11.
    [Fact]
    public void Thermometer_example_gives_its_line_covariance_and_prediction()
    {
        var line = StraightLine.FitEqual(ReferenceTable.Column("gum-h3.csv", "t_k_degC"), ReferenceTable.Column("gum-h3.csv", "b_k_degC"));

        AssertClose.Relative(-0.171203790131350, line.At(20), 1e-11);
        AssertClose.Relative(0.00287759783516, line.UncertaintyAt(20), 1e-11);
        AssertClose.Relative(0.00218269773988728, line.Slope, 1e-11);
        AssertClose.Relative(0.000667938773227832, line.SlopeUncertainty, 1e-11);
        AssertClose.Relative(-0.930429603093446, line.CorrelationAt(20), 1e-11);
        AssertClose.Relative(0.00349756396350528, line.ResidualDeviation, 1e-11);
        AssertClose.Relative(-0.149376812732477, line.At(30), 1e-9);
        AssertClose.Relative(0.00413859575285495, line.UncertaintyAt(30), 1e-11);
        AssertClose.Relative(0.005418572550438, line.PredictionUncertainty(30, line.ResidualDeviation), 1e-11);
        Assert.Equal(9, line.DegreesOfFreedom);
    }

    // Interval of one new reading at 30 °C: t(97.5 %, 9) = 2.2621571627 (R 4.2, qt) times 0.005418572550438.
    [Fact]
    public void Prediction_interval_uses_students_t_when_the_spread_was_estimated()
    {
        var line = StraightLine.FitEqual(ReferenceTable.Column("gum-h3.csv", "t_k_degC"), ReferenceTable.Column("gum-h3.csv", "b_k_degC"));

        var (lower, upper) = line.PredictionInterval(30, line.ResidualDeviation, 0.95);

        AssertClose.Relative(2.2621571627 * 0.005418572550438, (upper - lower) / 2, 1e-9);
    }

    // NIST StRD, Norris, certified values. A residual of 0.88 is left of values near 1000, so 1e-11 is what doubles can hold.
    [Fact]
    public void Norris_reaches_the_certified_values()
    {
        var line = StraightLine.FitEqual(ReferenceTable.Column("norris.csv", "x"), ReferenceTable.Column("norris.csv", "y"));

        AssertClose.Relative(-0.262323073774029, line.At(0), 1e-11);
        AssertClose.Relative(1.00211681802045, line.Slope, 1e-14);
        AssertClose.Relative(0.232818234301152, line.UncertaintyAt(0), 1e-12);
        AssertClose.Relative(0.429796848199937E-03, line.SlopeUncertainty, 1e-12);
        AssertClose.Relative(0.884796396144373, line.ResidualDeviation, 1e-12);
        // Exact rational arithmetic (Python 3.11); values in circulation differ from the eleventh digit on.
        AssertClose.Relative(-7.743275363156437e-05, line.CovarianceAt(0), 1e-12);
    }

    // Exact rational arithmetic on the Longley data, one predictor at a time. Years near 1950 with slopes on top lose 3 of 16 digits.
    [Fact]
    public void Longley_lines_keep_their_digits_far_from_the_origin()
    {
        var lines = ReferenceTable.Rows("exact-lines.csv").Where(r => r["data"] == "longley").ToList();
        Assert.Equal(6, lines.Count);
        foreach (var expected in lines)
        {
            var line = StraightLine.FitEqual(ReferenceTable.Column("longley.csv", expected["x"]), ReferenceTable.Column("longley.csv", "y"));

            AssertClose.Relative(ReferenceTable.Number(expected["intercept"]), line.At(0), 1e-12);
            AssertClose.Relative(ReferenceTable.Number(expected["slope"]), line.Slope, 1e-13);
            AssertClose.Relative(ReferenceTable.Number(expected["u_intercept"]), line.UncertaintyAt(0), 1e-12);
            AssertClose.Relative(ReferenceTable.Number(expected["u_slope"]), line.SlopeUncertainty, 1e-12);
            AssertClose.Relative(ReferenceTable.Number(expected["residual_sd"]), line.ResidualDeviation, 1e-12);
        }
    }

    // Hand algebra: values 0 and 1 at times 0 and 1 with u 1 and 2: slope 1, its variance 1 + 4; the line at 0 has variance 1, at 1 4.
    [Fact]
    public void Two_results_take_their_covariance_from_their_uncertainties_alone()
    {
        var line = StraightLine.FitKnown([0, 1], [0, 1], [1, 2]);

        AssertClose.Relative(1, line.Slope, 1e-15);
        AssertClose.Relative(Math.Sqrt(5), line.SlopeUncertainty, 1e-15);
        AssertClose.Relative(1, line.UncertaintyAt(0), 1e-15);
        AssertClose.Relative(2, line.UncertaintyAt(1), 1e-15);
    }

    // Hand algebra: 0, 3, 0 at -1, 0, 1 with u = 1: level 1, residuals -1, 2, -1, chi² = 6, ν = 1; the level's variance is 6/3.
    [Fact]
    public void Scatter_beyond_the_known_uncertainties_widens_the_covariance()
    {
        var line = StraightLine.FitKnown([-1, 0, 1], [0, 3, 0], [1, 1, 1]);

        AssertClose.Relative(6, line.ChiSquared, 1e-14);
        AssertClose.Relative(Math.Sqrt(2), line.UncertaintyAt(0), 1e-14);
    }

    // Hand algebra: the same three results with u = 10: chi² = 0.06 < ν, so the variance of the level is 100/3.
    [Fact]
    public void Scatter_below_the_known_uncertainties_narrows_nothing()
    {
        var line = StraightLine.FitKnown([-1, 0, 1], [0, 3, 0], [10, 10, 10]);

        AssertClose.Relative(Math.Sqrt(100.0 / 3), line.UncertaintyAt(0), 1e-14);
        var (lower, upper) = line.PredictionInterval(0, 0, 0.95);
        AssertClose.Relative(1.959963984540054 * Math.Sqrt(100.0 / 3), (upper - lower) / 2, 1e-12); // Phi^-1(0.975), R 4.2
    }

    [Fact]
    public void Level_and_slope_are_uncorrelated_at_the_mean_time()
    {
        var line = StraightLine.FitKnown([1, 2, 5], [0, 1, 1], [0.1, 0.2, 0.1]);

        Assert.Equal(0, line.CovarianceAt(line.MeanTime));
    }

    [Theory]
    [InlineData(new double[] { 1 }, new double[] { 1 }, new double[] { 1 })]
    [InlineData(new double[] { 1, 1 }, new double[] { 1, 2 }, new double[] { 1, 1 })]
    [InlineData(new double[] { 1, 2 }, new double[] { 1 }, new double[] { 1, 1 })]
    [InlineData(new double[] { 1, 2 }, new double[] { 1, 2 }, new double[] { 1 })]
    [InlineData(new double[] { 1, 2 }, new double[] { 1, 2 }, new double[] { 1, 0 })]
    [InlineData(new double[] { 1, 2 }, new double[] { 1, 2 }, new double[] { 1, -1 })]
    [InlineData(new double[] { 1, 2 }, new double[] { 1, 2 }, new double[] { 1, double.NaN })]
    [InlineData(new double[] { 1, 2 }, new double[] { 1, double.NaN }, new double[] { 1, 1 })]
    [InlineData(new double[] { 1, double.PositiveInfinity }, new double[] { 1, 2 }, new double[] { 1, 1 })]
    public void Impossible_results_are_refused(double[] times, double[] values, double[] u) =>
        Assert.Throws<ArgumentException>(() => StraightLine.FitKnown(times, values, u));

    [Fact]
    public void Equal_weights_need_a_residual() =>
        Assert.Throws<ArgumentException>(() => StraightLine.FitEqual([1, 2], [1, 2]));

    // Properties over 500 random histories of 3 to 60 results (the vector path and its remainder).
    [Fact]
    public void Shifting_and_scaling_the_values_shifts_and_scales_the_line() => Check.One(Config.QuickThrowOnFailure.WithMaxTest(500), Prop.ForAll(Histories(), h =>
    {
        var line = StraightLine.FitKnown(h.T, h.Y, h.U);
        var moved = StraightLine.FitKnown(h.T, [.. h.Y.Select(y => (2 * y) + 7)], [.. h.U.Select(u => 2 * u)]);
        var reversed = StraightLine.FitKnown([.. h.T.Reverse()], [.. h.Y.Reverse()], [.. h.U.Reverse()]);
        AssertClose.Absolute((2 * line.At(3)) + 7, moved.At(3), 1e-9);
        AssertClose.Relative(2 * line.UncertaintyAt(3), moved.UncertaintyAt(3), 1e-9);
        AssertClose.Absolute(line.At(3), reversed.At(3), 1e-9);
        AssertClose.Relative(line.UncertaintyAt(3), reversed.UncertaintyAt(3), 1e-9);
    }));

    private static Arbitrary<(double[] T, double[] Y, double[] U)> Histories() => Arb.From(
        from n in Gen.Choose(3, 60)
        from gaps in Gen.ArrayOf(Gen.Choose(1, 400), n)
        from y in Gen.ArrayOf(Gen.Choose(-1000, 1000), n)
        from u in Gen.ArrayOf(Gen.Choose(1, 50), n)
        select (gaps.Select((_, i) => gaps.Take(i + 1).Sum() / 365.25).ToArray(), y.Select(v => v / 1000.0).ToArray(), u.Select(v => v / 100.0).ToArray()));
}
