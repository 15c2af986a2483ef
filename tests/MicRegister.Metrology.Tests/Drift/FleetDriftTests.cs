using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Lines;

namespace MicRegister.Metrology.Tests.Drift;

public sealed class FleetDriftTests
{
    private static ResultHistory Made(int seed, int results, double walk = 0.02, IReadOnlyCollection<int>? restarts = null, IReadOnlyCollection<int>? reviewed = null, Action<double[]>? change = null)
    {
        var random = new Random(seed);
        var (days, levels, u) = (new double[results], new double[results], new double[results]);
        double day = 730_000 + random.Next(900), level = -30 + random.NextDouble();
        for (var i = 0; i < results; i++)
        {
            (days[i], u[i]) = (day, 0.03 + (0.05 * random.NextDouble()));
            levels[i] = level + (u[i] * Normal(random));
            var gap = 200 + random.Next(300);
            day += gap;
            level += walk * Math.Sqrt(gap / 365.25) * Normal(random);
        }
        change?.Invoke(levels);
        return new(days, levels, u, restarts, reviewed);
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    // Where the noise is so large that the walk is nothing beside it, the sums of the filter are those of the weighted straight line.
    [Fact]
    public void Without_a_walk_the_filter_is_the_straight_line()
    {
        double[] days = [0, 300, 700, 1000, 1461], levels = [0, 12, 3, 40, 55], u = [10, 12, 8, 10, 15];
        var used = UsedResults.Of(new(days, levels, u), []);
        var sums = WalkSums.Of(used);
        var line = StraightLine.FitKnown([.. days.Select(d => d / 365.25)], levels, u);
        var node = 3 * DriftGrid.AllWalks; // least walk, scale 1

        AssertClose.Relative(line.Slope, sums.Sty[node] / sums.Stt[node], 1e-6);
        AssertClose.Relative(line.At(5), sums.Level[node] + (sums.Sty[node] / sums.Stt[node] * (5 - sums.Time[node])), 1e-6);
        double[] weights = [.. u.Select(v => 1 / (v * v))], years = [.. days.Select(d => d / 365.25)];
        var mean = years.Zip(weights, (t, w) => t * w).Sum() / weights.Sum();
        AssertClose.Relative(years.Zip(weights, (t, w) => w * (t - mean) * (t - mean)).Sum(), sums.Stt[node], 1e-6); // hand algebra
    }

    [Fact]
    public void The_order_of_devices_is_irrelevant()
    {
        ResultHistory[] histories = [.. Enumerable.Range(0, 9).Select(i => Made(i, 3 + i))];
        var (one, other) = (FleetDrift.Estimate(histories), FleetDrift.Estimate([.. histories.Reverse()]));

        AssertClose.Relative(one.Pool.Walk, other.Pool.Walk, 1e-12);
        AssertClose.Relative(one.Forecast(2).At(735_000).StandardDeviationDb, other.Forecast(6).At(735_000).StandardDeviationDb, 1e-12);
    }

    [Theory]
    [InlineData(3)]
    [InlineData(200)]
    public void What_was_updated_result_by_result_ends_at_the_same_bits_as_a_fresh_run(int devices)
    {
        ResultHistory[] histories = [.. Enumerable.Range(0, devices).Select(i => Made(i, 5 + (i % 4), change: i % 7 == 3 ? y => y[2] += 0.5 : null))];
        ResultHistory Shorter(ResultHistory h) => new([.. h.Days.Take(h.Count - 1)], [.. h.LevelsDb.Take(h.Count - 1)], [.. h.StandardUncertaintiesDb.Take(h.Count - 1)]);
        var fleet = FleetDrift.Estimate([.. histories.Select(Shorter)]);
        for (var i = 0; i < devices; i++)
        {
            fleet = fleet.With(i, histories[i]);
            Assert.True(fleet.IsProvisional);
            if (i % 50 == 1) fleet = FleetDrift.Estimate([.. Enumerable.Range(0, devices).Select(fleet.History)], fleet);
        }
        var (settled, fresh) = (FleetDrift.Estimate(histories, fleet), FleetDrift.Estimate(histories));

        Assert.False(settled.IsProvisional);
        Assert.Equal(fresh.Pool.LogWeights, settled.Pool.LogWeights);
        for (var i = 0; i < devices; i++)
        {
            Assert.Equal(fresh.Findings(i), settled.Findings(i));
            Assert.Equal(fresh.Forecast(i).At(740_000).Band(), settled.Forecast(i).At(740_000).Band());
        }
        if (devices > 3) Assert.Contains(Enumerable.Range(0, devices), i => fresh.Findings(i).Count > 0);
    }

    [Fact]
    public void A_level_that_is_known_to_begin_anew_is_no_finding_and_costs_no_certainty()
    {
        static void Up(double[] y)
        {
            for (var i = 4; i < y.Length; i++) y[i] += 1;
        }
        var fleet = FleetDrift.Estimate([Made(1, 8, change: Up), Made(2, 8), Made(3, 8)]);
        var found = Assert.Single(fleet.Findings(0));
        Assert.Equal((DriftFindingKind.LastingStep, 4), (found.Kind, found.Index));

        var known = FleetDrift.Estimate([Made(1, 8, restarts: [4], change: Up), Made(2, 8), Made(3, 8)]);
        Assert.Empty(known.Findings(0));
        AssertClose.Relative(fleet.Forecast(0).At(740_000).LevelDb, known.Forecast(0).At(740_000).LevelDb, 1e-12);
    }

    [Fact]
    public void What_a_person_found_in_order_is_not_found_again()
    {
        static void Off(double[] y) => y[3] += 0.5;
        Assert.Equal(DriftFindingKind.BadResult, Assert.Single(FleetDrift.Estimate([Made(1, 8, change: Off), Made(2, 8), Made(3, 8)]).Findings(0)).Kind);
        Assert.DoesNotContain(FleetDrift.Estimate([Made(1, 8, reviewed: [3], change: Off), Made(2, 8), Made(3, 8)]).Findings(0), f => f.Index == 3);
    }

    [Fact]
    public void No_history_gives_a_figure_that_is_none()
    {
        ResultHistory[] odd =
        [
            new([730_000], [-26], [0.05]),
            new([730_000, 730_000, 730_000], [-26, -26.1, -25.9], [0.05, 0.05, 0.05]),
            new([.. Enumerable.Range(0, 41).Select(i => 715_000 + (i * 365.25))], [.. Enumerable.Range(0, 41).Select(i => -26 + (i * 0.01))], [.. Enumerable.Repeat(0.05, 41)]),
            new([0, 14_610], [-26, 50], [ResultHistory.LeastUncertaintyDb, 1e3]),
            Made(5, 1_000),
        ];
        foreach (var fleet in odd.Select(h => FleetDrift.Estimate([h])).Append(FleetDrift.Estimate(odd)))
        {
            for (var i = 0; i < fleet.Count; i++)
            {
                var device = fleet.Forecast(i);
                var forecast = device.At(device.NewestDay + 730);
                var (low, high) = forecast.Band();
                Assert.True(double.IsFinite(forecast.LevelDb) && forecast.StandardDeviationDb > 0 && low < high, $"{forecast.LevelDb} {forecast.StandardDeviationDb} {low} {high}");
                Assert.InRange(forecast.ProbabilityWithin(device.ReferenceDb, 0.3), 0, 1);
            }
        }
        Assert.True(double.IsFinite(FleetDrift.Estimate([Made(6, 10_000, 0.001)]).Forecast(0).At(1e7).LevelDb));
    }

    [Fact]
    public void Nothing_but_figures_makes_a_history()
    {
        Assert.Throws<ArgumentException>(() => new ResultHistory([1], [-26], [0]));
        Assert.Throws<ArgumentException>(() => new ResultHistory([1], [double.NaN], [0.05]));
        Assert.Throws<ArgumentException>(() => new ResultHistory([2, 1], [-26, -26], [0.05, 0.05]));
        Assert.Throws<ArgumentException>(() => new ResultHistory([], [], []));
        var device = FleetDrift.Estimate([new([100], [-26], [0.05])]).Forecast(0);
        Assert.Throws<ArgumentException>(() => device.At(99));
        Assert.Throws<ArgumentException>(() => device.Check(99, -26, 0.05));
    }

    [Fact]
    public void What_decides_a_forecast_is_named()
    {
        Assert.Equal(ForecastBasis.Priors, FleetDrift.Estimate([new([730_000], [-26], [0.02])]).Forecast(0).Basis(730_700));
        Assert.Equal(ForecastBasis.Certificate, FleetDrift.Estimate([new([730_000], [-26], [0.2])]).Forecast(0).Basis(730_030));
        Assert.Equal(ForecastBasis.OpenNewest, FleetDrift.Estimate([new([730_000, 730_400], [-26, -25], [0.05, 0.05])]).Forecast(0).Basis(730_400));
        Assert.Equal(ForecastBasis.Drift, FleetDrift.Estimate([.. Enumerable.Range(0, 6).Select(i => Made(i, 8, 0.08))]).Forecast(0).Basis(740_000));
        Assert.True(FleetDrift.Estimate([.. Enumerable.Range(0, 10).Select(i => Made(i, 10, 0.25))]).Pool.IsOutsideTried);
    }
}
