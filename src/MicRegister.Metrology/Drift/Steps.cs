using MicRegister.Metrology.Conformity;

namespace MicRegister.Metrology.Drift;

/// <summary>A change between two results that follow each other which their uncertainties do not explain.</summary>
/// <param name="Index">Index of the later result.</param>
/// <param name="ChangeDb">Later minus earlier, in dB.</param>
/// <param name="LimitDb">Greatest change that would have been taken for scatter, in dB.</param>
public readonly record struct Step(int Index, double ChangeDb, double LimitDb);

/// <summary>Finds steps between results that follow each other.</summary>
public static class Steps
{
    /// <summary>Factor for 1 % false alarms of a normal change, two-sided: Phi^-1(0.995).</summary>
    public const double Factor = 2.576;

    /// <summary>All steps of a history, oldest first.</summary>
    /// <remarks>
    /// |y_i - y_(i-1)| > 2.576 sqrt(u_i² + u_(i-1)²). The two results are taken as uncorrelated: a part common to both, such as one
    /// laboratory's reference, would make the change better known than this, so the test errs towards silence.
    /// </remarks>
    public static IReadOnlyList<Step> Find(ResultHistory history)
    {
        var found = new List<Step>();
        for (var i = 1; i < history.Count; i++)
        {
            double a = history.StandardUncertaintiesDb[i - 1], b = history.StandardUncertaintiesDb[i];
            var change = history.LevelsDb[i] - history.LevelsDb[i - 1];
            var limit = Factor * Math.Sqrt((a * a) + (b * b));
            if (!DecisionLimit.AtMost(Math.Abs(change), limit)) found.Add(new(i, change, limit));
        }
        return found;
    }
}
