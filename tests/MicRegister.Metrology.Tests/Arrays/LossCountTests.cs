using MathNet.Numerics.Distributions;
using MicRegister.Metrology.Arrays;

namespace MicRegister.Metrology.Tests.Arrays;

public sealed class LossCountTests
{
    // 72 stations at p = 0.98758 each: product 0.4067 (recomputed with SciPy 1.10); the counts are the binomial distribution's.
    [Fact]
    public void Equal_stations_follow_the_binomial_distribution()
    {
        double[] array = [.. Enumerable.Repeat(0.98758, 72)];

        AssertClose.Absolute(0.4067, LossCount.ProbabilityAtMost(array, 0), 1e-4);
        for (var k = 0; k < 8; k++)
            AssertClose.Relative(new Binomial(1 - 0.98758, 72).CumulativeDistribution(k), LossCount.ProbabilityAtMost(array, k), 1e-11);
    }

    // Hand algebra: 0.9 · 0.8 = 0.72; at most one lost: 0.72 + 0.1 · 0.8 + 0.9 · 0.2 = 0.98.
    [Fact]
    public void Two_unlike_stations_are_worked_out_by_hand()
    {
        AssertClose.Absolute(0.72, LossCount.ProbabilityAtMost([0.9, 0.8], 0), 1e-15);
        AssertClose.Absolute(0.98, LossCount.ProbabilityAtMost([0.9, 0.8], 1), 1e-15);
        AssertClose.Absolute(1, LossCount.ProbabilityAtMost([0.9, 0.8], 2), 1e-15);
    }

    [Fact]
    public void Edges()
    {
        Assert.Equal(1, LossCount.ProbabilityAtMost([], 0));
        Assert.Equal(0, LossCount.ProbabilityAtMost([0, 1], 0));
        Assert.Throws<ArgumentException>(() => LossCount.ProbabilityAtMost([1.01], 0));
        Assert.Throws<ArgumentException>(() => LossCount.ProbabilityAtMost([double.NaN], 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => LossCount.ProbabilityAtMost([1], -1));
    }
}
