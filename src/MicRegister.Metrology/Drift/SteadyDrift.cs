using MicRegister.Metrology.Lines;

namespace MicRegister.Metrology.Drift;

/// <summary>
/// A device that drifts steadily in a fleet that does not: its pool takes the ramp for steps, so that its forecast stays behind.
/// The straight line through its results is shown beside the forecast; it does not change it.
/// </summary>
/// <param name="SlopeDbPerYear">Slope of the line in dB per year.</param>
/// <param name="Line">The line over day numbers.</param>
/// <param name="StepChiSquared">Weighted squares that the steps leave; the line leaves its own <see cref="StraightLine.ChiSquared"/>.</param>
public sealed record SteadyDrift(double SlopeDbPerYear, StraightLine Line, double StepChiSquared)
{
    /// <summary>Results that it takes to tell a ramp from a step.</summary>
    private const int LeastResults = 4;

    /// <summary>How much worse a line may fit and still explain a history as well: the lead that decides between a step and a bad result.</summary>
    private const double Lead = 2;

    /// <summary>Looks whether a line explains a history at least as well as a step that was found in it.</summary>
    /// <param name="history">The history.</param>
    /// <param name="findings">What was found in it.</param>
    /// <returns>Null where no step was found, where results are few, or where the step explains them better.</returns>
    public static SteadyDrift? Of(ResultHistory history, IReadOnlyList<DriftFinding> findings)
    {
        var steps = findings.Where(f => f.BeginsAnew || f.Kind == DriftFindingKind.NewestOpen).ToList();
        if (steps.Count == 0 || history.Count < LeastResults || history.Restarts.Count > 0 || history.Days[^1] == history.Days[0]) return null;
        var kept = Enumerable.Range(0, history.Count).Where(i => findings.All(f => !f.LeavesOut || f.Index != i)).ToList();
        if (kept.Count < LeastResults) return null;
        double[] days = [.. kept.Select(i => history.Days[i])], levels = [.. kept.Select(i => history.LevelsDb[i])], u = [.. kept.Select(i => history.StandardUncertaintiesDb[i])];
        var line = StraightLine.FitKnown(days, levels, u);

        var begins = steps.Select(s => kept.FindIndex(i => i >= s.Index)).Where(i => i > 0).Distinct().Order().Append(kept.Count).ToList();
        var (from, ofSteps) = (0, 0.0);
        foreach (var to in begins)
        {
            double weights = 0, mean = 0;
            for (var i = from; i < to; i++)
            {
                weights += 1 / Square(u[i]);
                mean += (levels[i] - levels[0]) / Square(u[i]);
            }
            mean = levels[0] + (mean / weights);
            for (var i = from; i < to; i++) ofSteps += Square((levels[i] - mean) / u[i]);
            from = to;
        }
        return line.ChiSquared <= ofSteps + Lead ? new(line.Slope * DriftGrid.DaysPerYear, line, ofSteps) : null;
    }

    private static double Square(double x) => x * x;
}
