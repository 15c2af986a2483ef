using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Intervals;

namespace MicRegister.Metrology.Tests.Intervals;

/// <summary>What intervals do at the edges that their comments state.</summary>
public sealed class IntervalEdgeTests
{
    // With confidence one half and no failure in 10 · 12 months the bound of the rate is ln 2 / 120.
    [Fact]
    public void Confidence_goes_from_one_half_to_under_one()
    {
        AssertClose.Relative(Math.Log(2) / 120, Reliability.Of([new(12, 10, 10)], 0.5).UpperRate, 1e-12);
        Assert.Throws<ArgumentException>(() => Reliability.Of([new(12, 10, 10)], 0.4999));
        Assert.Throws<ArgumentException>(() => Reliability.Of([new(12, 10, 10)], 1));
        Assert.Throws<ArgumentException>(() => Reliability.Of([new(12, 10, 10)], double.NaN));
        // At one half the bound of a rate that was found is the rate itself: the normal distribution's median.
        var found = Reliability.Of([new(12, 100, 90)], 0.5);
        AssertClose.Relative(found.Rate, found.UpperRate, 1e-12);
    }

    [Theory]
    [InlineData(0, 5, 5)]
    [InlineData(-1, 5, 5)]
    [InlineData(double.PositiveInfinity, 5, 5)]
    [InlineData(double.NaN, 5, 5)]
    [InlineData(12, 0, 0)]
    [InlineData(12, 5, -1)]
    [InlineData(12, 5, 6)]
    public void A_group_that_cannot_be_is_refused(double time, int count, int within) =>
        Assert.Throws<ArgumentException>(() => Reliability.Of([new(12, 10, 9), new(time, count, within)]));

    [Fact]
    public void The_smallest_group_and_one_of_which_all_failed_count()
    {
        // One of one within: ln 20 / 12 bounds the rate with 95 % (0.05 = exp(-12 rate)).
        AssertClose.Relative(Math.Log(20) / 12, Reliability.Of([new(12, 1, 1)]).UpperRate, 1e-12);
        var whole = Reliability.Of([new(12, 1, 1)]);
        Assert.Equal(
            (0.0, double.PositiveInfinity, 1, 0, 0.0),
            (whole.Rate, whole.StandardError, whole.Count, whole.Failed, whole.Deviance));
        var failed = Reliability.Of([new(12, 1, 0)]);
        Assert.Equal(0, failed.Deviance);
        Assert.All([failed.Rate, failed.StandardError, failed.UpperRate], f => Assert.Equal(double.PositiveInfinity, f));
        Assert.Equal((1, 1), (failed.Count, failed.Failed));
        Assert.Equal(0, failed.ProvenTimeTo(0.95));
        Assert.Equal(0, failed.At(12));
    }

    // Half of the devices within at 10 months: rate ln 2 / 10. The least time is 1 and all of that group failed, so that the rate lies
    // beyond 1/10.
    [Fact]
    public void A_rate_far_above_one_over_the_least_time_is_found()
    {
        AssertClose.Relative(Math.Log(2) / 10, Reliability.Of([new(10, 40, 20)]).Rate, 1e-9);
        AssertClose.Relative(-Math.Log(0.001) / 10, Reliability.Of([new(10, 1000, 1)]).Rate, 1e-9);
    }

    // The deviance compares with shares of their own: 0 for one group, and for two by hand: 2 Σ w ln(share/p) + f ln((1 - share)/(1 - p)).
    [Fact]
    public void The_deviance_is_nought_for_one_group_and_by_hand_for_two()
    {
        AssertClose.Absolute(0, Reliability.Of([new(12, 100, 90)]).Deviance, 1e-9);
        var found = Reliability.Of([new(6, 10, 10), new(12, 10, 8)]);
        double p6 = Math.Exp(-found.Rate * 6), p12 = Math.Exp(-found.Rate * 12);
        AssertClose.Relative(
            2 * ((10 * Math.Log(1 / p6)) + (8 * Math.Log(0.8 / p12)) + (2 * Math.Log(0.2 / (1 - p12)))), found.Deviance, 1e-9);
    }

    // A certificate of u = 0.03 dB holds ±0.1 dB with 0.9991, so that it is not coarse; a fleet that walks 0.25 dB in a year does not hold it
    // for a month: 0.25 dB · sqrt(30 / 365) = 0.07 dB.
    [Fact]
    public void A_fine_certificate_of_a_restless_device_leaves_no_interval_because_of_the_forecast()
    {
        var random = new Random(20261129);
        ResultHistory Restless()
        {
            var levels = new double[12];
            for (var i = 1; i < levels.Length; i++)
                levels[i] = levels[i - 1]
                    + (0.25 * Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble()));
            return new([.. levels.Select((_, i) => 730_000 + (365.25 * i))], levels, [.. levels.Select(_ => 0.03)]);
        }
        var fleet = FleetDrift.Estimate([.. Enumerable.Range(0, 10).Select(_ => Restless())]);
        var calm = Enumerable.Range(0, fleet.Count).Select(fleet.Forecast).First(d => !d.IsNewestOpen);

        Assert.Equal(new ForecastInterval(0, IntervalReason.Forecast), ForecastInterval.Of(calm, calm.ReferenceDb, 0.1, 0.95));
    }

    // 0.8 of 0.2 dB is 0.16 dB: at it the interval grows by a tenth, just above it stays, at the limit it stays, beyond it shrinks.
    [Theory]
    [InlineData(0.16, 110)]
    [InlineData(-0.16, 110)]
    [InlineData(0.160001, 100)]
    [InlineData(0.2, 100)]
    [InlineData(0.200001, 42.40976)] // 100 · (1 - 0.5759024)
    public void The_staircase_turns_at_four_fifths_and_at_the_limit(double deviationDb, double days) =>
        AssertClose.Absolute(days, Staircase.Next(100, deviationDb, 0.2, 0.9, 30, 730), 1e-4);

    [Fact]
    public void The_staircase_stays_within_its_ends_and_asks_for_what_it_needs()
    {
        Assert.Equal(60, Staircase.Next(100, 1, 0.2, 0.9, 60, 730));
        Assert.Equal(105, Staircase.Next(100, 0, 0.2, 0.9, 60, 105));
        foreach (var (days, limit) in new[] { (0.0, 0.2), (-1, 0.2), (100, 0), (100, -1), (double.NaN, 0.2), (100, double.NaN) })
            Assert.Throws<ArgumentException>(() => Staircase.Next(days, 0, limit, 0.9, 30, 730));
        foreach (var (lengthening, target) in new[] { (0.0, 0.9), (-0.1, 0.9), (0.1, 0), (0.1, 1), (0.1, double.NaN) })
            Assert.Throws<ArgumentException>(() => Staircase.Shortening(lengthening, target));
        AssertClose.Relative(1 - (1 / 1.1), Staircase.Shortening(0.1, 0.5), 1e-12); // 1.1^-1
    }
}
