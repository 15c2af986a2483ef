using MicRegister.Metrology.Drift;

namespace MicRegister.Metrology.Tests.Drift;

public sealed class DriftForecastTests
{
    // Hand algebra: u = 0.05, two years at 0.05 dB a year: sqrt(0.05² + 0.1²).
    [Fact]
    public void One_result_stays_constant_and_grows_by_the_default_slope()
    {
        var forecast = DriftForecast.At(new([100], [-26.0], [0.05]), 100 + 730.5, ForecastAssumptions.Default);

        Assert.Equal(-26.0, forecast.LevelDb);
        Assert.Equal(Math.Sqrt(0.0125), forecast.StandardDeviationDb, 12);
        Assert.Equal(1, forecast.Results);
    }

    // Hand algebra: two results of one day, u 0.05 and 0.10: weights 4:1, so -26.02; the newest one's u stays.
    [Fact]
    public void Results_of_one_day_are_averaged_by_weight()
    {
        var forecast = DriftForecast.At(new([100, 100], [-26.0, -26.1], [0.05, 0.10]), 100, ForecastAssumptions.Default);

        Assert.Equal(-26.02, forecast.LevelDb, 12);
        Assert.Equal(0.10, forecast.StandardDeviationDb, 12);
    }

    // Hand algebra: 0 and 0.1 dB a year apart with u = 0.05; a year on: 0.2 dB, variance 0.05² (1/2 + 1.5²/0.5) = 5 u².
    [Fact]
    public void Two_results_are_carried_on_with_the_uncertainty_of_both()
    {
        var forecast = DriftForecast.At(new([0, 365], [0, 0.1], [0.05, 0.05]), 730, ForecastAssumptions.Default);

        Assert.Equal(0.2, forecast.LevelDb, 12);
        Assert.Equal(0.05 * Math.Sqrt(5), forecast.StandardDeviationDb, 12);
    }

    [Fact]
    public void Many_results_never_claim_less_than_the_newest_certificate()
    {
        double[] days = [.. Enumerable.Range(0, 50).Select(i => i * 100.0)];
        var forecast = DriftForecast.At(new(days, [.. days.Select(_ => -26.0)], [.. days.Select(_ => 0.04)]), 4900, ForecastAssumptions.Default);

        Assert.Equal(0.04, forecast.StandardDeviationDb);
    }

    // Phi(2) - Phi(-2) = 0.954500 (R 4.2).
    [Fact]
    public void Probability_is_taken_around_the_reference()
    {
        var forecast = new LevelForecast(-26.0, 0.1, 5, "given");

        Assert.Equal(0.9544997, forecast.ProbabilityWithin(-26.0, 0.2), 6);
        Assert.Equal(0.5, forecast.ProbabilityWithin(-26.2, 0.2), 4);
    }

    [Fact]
    public void A_forecast_refuses_to_look_back() =>
        Assert.Throws<ArgumentException>(() => DriftForecast.At(new([100], [0], [0.1]), 99, ForecastAssumptions.Default));

    [Fact]
    public void Impossible_histories_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new ResultHistory([], [], []));
        Assert.Throws<ArgumentException>(() => new ResultHistory([1, 2], [0], [0.1, 0.1]));
        Assert.Throws<ArgumentException>(() => new ResultHistory([2, 1], [0, 0], [0.1, 0.1]));
        Assert.Throws<ArgumentException>(() => new ResultHistory([1], [0], [0]));
        Assert.Throws<ArgumentException>(() => new ResultHistory([1], [double.NaN], [0.1]));
    }

    // Hand algebra: u(change) = 0.05; 2.576 of it is 0.1288 dB. At the limit nothing is found.
    [Theory]
    [InlineData(0.1288, 0)]
    [InlineData(0.128802, 1)]
    [InlineData(-0.13, 1)]
    public void A_step_is_a_change_beyond_its_uncertainty(double changeDb, int expected)
    {
        var steps = Steps.Find(new([0, 365, 730], [0, 0, changeDb], [0.03, 0.03, 0.04]));

        Assert.Equal(expected, steps.Count);
        Assert.All(steps, s => Assert.Equal((2, changeDb), (s.Index, s.ChangeDb)));
    }
}
