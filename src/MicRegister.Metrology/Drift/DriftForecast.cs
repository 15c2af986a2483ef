using MicRegister.Metrology.Lines;

namespace MicRegister.Metrology.Drift;

/// <summary>The one place that forecasts a device's level: whoever judges readiness asks here and nowhere else.</summary>
public static class DriftForecast
{
    private const double DaysPerYear = 365.25;

    /// <summary>The level to be expected on a day.</summary>
    /// <param name="history">Results of one series, none left out that counts and none kept that does not.</param>
    /// <param name="day">Day number, not before the newest result.</param>
    /// <param name="assumptions">What to take for granted where the results do not tell.</param>
    /// <returns>
    /// Two results of different days or more: the weighted straight line, with its uncertainty on that day, but never less than
    /// the newest result's own, since a laboratory's common part does not average out. One day only: the weighted mean, the
    /// newest result's uncertainty, and the default slope's growth since.
    /// </returns>
    /// <exception cref="ArgumentException">The day lies before the newest result.</exception>
    public static LevelForecast At(ResultHistory history, double day, ForecastAssumptions assumptions)
    {
        var newest = history.Count - 1;
        if (!(day >= history.Days[newest]))
            throw new ArgumentException($"A forecast looks forward: day {day} lies before the newest result, {history.Days[newest]}.", nameof(day));

        var u = history.StandardUncertaintiesDb[newest];
        if (history.IsOneDay)
        {
            var growth = assumptions.DefaultSlopeDbPerYear * (day - history.Days[newest]) / DaysPerYear;
            return new(WeightedMean(history), Math.Sqrt((u * u) + (growth * growth)), history.Count, "default slope, results of one day");
        }

        var line = StraightLine.FitKnown(Copy(history.Days), Copy(history.LevelsDb), Copy(history.StandardUncertaintiesDb));
        var spread = line.UncertaintyAt(day);
        return spread >= u
            ? new(line.At(day), spread, history.Count, "straight line through the results")
            : new(line.At(day), u, history.Count, "straight line, spread not under the newest certificate's own");
    }

    private static double WeightedMean(ResultHistory history)
    {
        double sum = 0, weights = 0;
        for (var i = 0; i < history.Count; i++)
        {
            var w = 1 / (history.StandardUncertaintiesDb[i] * history.StandardUncertaintiesDb[i]);
            weights += w;
            sum += w * (history.LevelsDb[i] - history.LevelsDb[0]);
        }
        return history.LevelsDb[0] + (sum / weights);
    }

    private static double[] Copy(IReadOnlyList<double> list) => list as double[] ?? [.. list];
}
