using MicRegister.Metrology.Drift;

namespace MicRegister.Metrology.Tests.Drift;

/// <summary>Annual flow of the Nile at Aswan, 1871 to 1970: J. Durbin and S. J. Koopman, Time Series Analysis by State Space Methods, chapter 2.</summary>
public sealed class LocalLevelTests
{
    private const double Noise = 15099;
    private const double Walk = 1469.1;

    private static readonly double[] Nile = ReferenceTable.Column("nile.csv", "volume");

    // Columns recomputed with R StructTS, statsmodels 0.13.5 and a filter of its own; the book's figures agree as far as it prints them.
    [Fact]
    public void Each_row_is_that_of_the_table()
    {
        var rows = LocalLevel.Filter(Nile, Noise, Walk);
        var expected = ReferenceTable.Rows("nile-filter.csv");
        Assert.Equal(expected.Count, rows.Count);
        for (var i = 0; i < rows.Count; i++)
        {
            AssertClose.Absolute(ReferenceTable.Number(expected[i]["a_pred"]), rows[i].Predicted, 1e-8);
            AssertClose.Absolute(ReferenceTable.Number(expected[i]["P_pred"]), rows[i].PredictedVariance, 1e-7);
            AssertClose.Absolute(ReferenceTable.Number(expected[i]["v"]), rows[i].Innovation, 1e-8);
            AssertClose.Absolute(ReferenceTable.Number(expected[i]["F"]), rows[i].InnovationVariance, 1e-6);
            AssertClose.Absolute(ReferenceTable.Number(expected[i]["a_filt"]), rows[i].Level, 1e-8);
            AssertClose.Absolute(ReferenceTable.Number(expected[i]["P_filt"]), rows[i].Variance, 1e-7);
        }
        AssertClose.Absolute(798.370292608364, rows[^1].Level, 1e-8);
        AssertClose.Absolute(4032.15794180848, rows[^1].Variance, 1e-7);
        // Steady gain, and the standard deviation of the next observation: recomputed.
        AssertClose.Absolute(0.26704801257, rows[^1].PredictedVariance / rows[^1].InnovationVariance, 1e-10);
        AssertClose.Absolute(143.527899524129, Math.Sqrt(rows[^1].Variance + Walk + Noise), 1e-8);
        AssertClose.Absolute(183.9080149, Math.Sqrt(rows[^1].Variance + (10 * Walk) + Noise), 1e-6);
    }

    // Maximum likelihood: recomputed three ways. 99 terms with -½ ln 2π each; with the constant of the first one as well it is -633.4645636.
    [Fact]
    public void Maximum_likelihood_is_that_of_the_book()
    {
        var (noise, walk, logLikelihood) = LocalLevel.Fit(Nile);
        AssertClose.Absolute(15098.5182, noise, 0.05);
        AssertClose.Absolute(1469.1764, walk, 0.05);
        AssertClose.Absolute(-632.5456251, logLikelihood, 1e-6);
        AssertClose.Absolute(-633.4645636, logLikelihood - (0.5 * Math.Log(2 * Math.PI)), 1e-6);
        Assert.True(LocalLevel.LogLikelihood(Nile, noise * 1.01, walk) < logLikelihood && LocalLevel.LogLikelihood(Nile, noise, walk * 0.99) < logLikelihood);
    }

    // Section 2.7 of the book: observations 21 to 40 and 61 to 80 are taken out; the level stays and its variance grows by the walk's.
    [Fact]
    public void Missing_values_leave_the_level_and_widen_it()
    {
        var gaps = Nile.ToArray();
        for (var t = 20; t < 40; t++) gaps[t] = gaps[t + 40] = double.NaN;
        var rows = LocalLevel.Filter(gaps, Noise, Walk);
        var before = rows[18];
        for (var k = 1; k <= 20; k++)
        {
            Assert.Equal(before.Level, rows[18 + k].Level);
            AssertClose.Relative(before.Variance + (k * Walk), rows[18 + k].Variance, 1e-12);
        }
        Assert.True(rows[39].Variance < rows[38].Variance);
        Assert.True(double.IsFinite(LocalLevel.LogLikelihood(gaps, Noise, Walk)));
        Assert.Throws<ArgumentException>(() => LocalLevel.Filter([double.NaN, 1], 1, 1));
        Assert.Throws<ArgumentException>(() => LocalLevel.Fit([1, 2]));
    }
}
