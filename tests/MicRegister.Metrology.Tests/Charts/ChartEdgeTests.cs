using MicRegister.Metrology.Charts;
using MicRegister.Metrology.Lines;

namespace MicRegister.Metrology.Tests.Charts;

/// <summary>What charts and quantiles do at the edges that their comments state.</summary>
public sealed class ChartEdgeTests
{
    // With the whole weight on the newest value the average is that value and the limits are 3 standard deviations from the start.
    [Fact]
    public void A_weight_of_one_is_a_chart_of_the_values_themselves()
    {
        var chart = EwmaChart.Of([53, 47, 53.00001, 46.99999], 50, 1, lambda: 1);

        Assert.Equal([53, 47, 53.00001, 46.99999], chart.Points.Select(p => p.Average));
        Assert.All(chart.Points, p => Assert.Equal((47, 53), (p.Lower, p.Upper)));
        Assert.Equal([true, true, false, false], chart.Points.Select(p => p.Holds));
    }

    [Theory]
    [InlineData(0, 0.2, 3)]
    [InlineData(-1, 0.2, 3)]
    [InlineData(1, 0, 3)]
    [InlineData(1, 1.01, 3)]
    [InlineData(1, -0.1, 3)]
    [InlineData(1, 0.2, 0)]
    [InlineData(1, 0.2, -3)]
    [InlineData(double.NaN, 0.2, 3)]
    [InlineData(1, double.NaN, 3)]
    [InlineData(1, 0.2, double.NaN)]
    public void A_chart_that_cannot_be_is_refused(double standardDeviation, double lambda, double multiple) =>
        Assert.Throws<ArgumentException>(() => EwmaChart.Of([1], 0, standardDeviation, lambda, multiple));

    // 1, 2, 4: ranges 1 and 2, mean range 1.5; mean 7/3; reach 2 · 1.5 / 1.128 (hand algebra).
    [Fact]
    public void A_chart_of_few_values_is_worked_out_by_hand_and_holds_up_to_both_limits()
    {
        var chart = IndividualsChart.Of([1, 2, 4], 2);

        AssertClose.Relative(1.5, chart.MeanRange, 1e-12);
        AssertClose.Relative((7 / 3.0) + (3 / 1.128), chart.Upper, 1e-12);
        AssertClose.Relative((7 / 3.0) - (3 / 1.128), chart.Lower, 1e-12);
        AssertClose.Relative(1.5 * 3.267, chart.UpperRange, 1e-12);
        Assert.True(chart.Holds(chart.Lower));
        Assert.False(chart.Holds(chart.Lower - 1e-5));
        Assert.Equal(1, IndividualsChart.Of([2, 1]).MeanRange); // two values are enough
        Assert.Throws<ArgumentException>(() => IndividualsChart.Of([]));
    }

    // Of one channel the multiple is the normal quantile: 1.959964 for 5 %.
    [Fact]
    public void One_channel_alone_alarms_at_the_plain_quantile()
    {
        AssertClose.Absolute(1.959964, ManyAtOnce.Multiple(1, 0.05), 1e-6);
        foreach (var share in new[] { 0, 1, -0.1, 1.1, double.NaN }) Assert.Throws<ArgumentException>(() => ManyAtOnce.Multiple(5, share));
        Assert.Throws<ArgumentException>(() => ManyAtOnce.Multiple(-1, 0.05));
    }

    // Any table: t(0.975, 1) = 12.7062, z(0.975) = 1.959964, z(0.84134) = 1.
    [Fact]
    public void Quantiles_are_two_sided_and_open_at_their_ends()
    {
        AssertClose.Absolute(12.7062, Quantile.StudentT(0.95, 1), 1e-4);
        AssertClose.Absolute(1.959964, Quantile.Normal(0.95), 1e-6);
        AssertClose.Absolute(1, Quantile.Normal(0.6826895), 1e-6);
        Assert.Throws<ArgumentOutOfRangeException>(() => Quantile.StudentT(0.95, 0));
        foreach (var coverage in new[] { 0, 1, -0.5, 1.5, double.NaN })
        {
            Assert.Throws<ArgumentOutOfRangeException>(() => Quantile.Normal(coverage));
            Assert.Throws<ArgumentOutOfRangeException>(() => Quantile.StudentT(coverage, 5));
        }
    }

    // More than 256 results leave the stack: 300 of them on 2 + 3 t lie on it exactly, with chi-squared 0.
    [Fact]
    public void A_long_history_is_a_line_too_and_two_results_have_no_residual()
    {
        double[] times = [.. Enumerable.Range(0, 300).Select(i => (double)i)];

        var line = StraightLine.FitEqual(times, [.. times.Select(t => 2 + (3 * t))]);

        AssertClose.Relative(3, line.Slope, 1e-12);
        AssertClose.Absolute(2, line.At(0), 1e-9);
        AssertClose.Absolute(0, line.ChiSquared, 1e-15);
        var two = StraightLine.FitKnown([0, 1], [0, 1], [1, 2]);
        Assert.Equal((0, 0.0), (two.DegreesOfFreedom, two.ResidualDeviation));
        // The third result is the first that has a residual: 0, 3, 0 leaves 6 for one degree of freedom.
        AssertClose.Relative(Math.Sqrt(6), StraightLine.FitEqual([-1, 0, 1], [0, 3, 0]).ResidualDeviation, 1e-12);
    }
}
