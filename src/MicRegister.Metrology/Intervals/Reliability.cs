using MathNet.Numerics.Distributions;
using MathNet.Numerics.RootFinding;

namespace MicRegister.Metrology.Intervals;

/// <summary>Calibrations after about the same time: how many devices were looked at and how many were within their limits.</summary>
/// <param name="Time">Time since the calibration before, above 0, in any unit that all groups share.</param>
/// <param name="Count">Devices, at least 1.</param>
/// <param name="Within">Devices found within their limits.</param>
public readonly record struct CalibrationGroup(double Time, int Count, int Within);

/// <summary>Exponential reliability R(t) = exp(-λ t) from records that say only in or out on the day of calibration.</summary>
/// <param name="Rate">λ, per unit of time; 0 where nothing ever failed.</param>
/// <param name="StandardError">By the expected information; infinite where nothing ever failed or all did.</param>
/// <param name="UpperRate">Upper bound of λ at the confidence asked for, one-sided.</param>
/// <param name="Count">Calibrations behind it.</param>
/// <param name="Failed">How many of them found a device outside.</param>
/// <param name="Deviance">Deviance against groups with rates of their own; on groups - 1 degrees of freedom it tells whether the exponential fits.</param>
public readonly record struct Reliability(double Rate, double StandardError, double UpperRate, int Count, int Failed, double Deviance)
{
    /// <summary>Maximum likelihood over groups.</summary>
    /// <param name="groups">At least one group.</param>
    /// <param name="confidence">One-sided confidence of the upper bound, between 0.5 and 1.</param>
    /// <remarks>
    /// Score: sum of -g t + (n - g) t e^(-λt) / (1 - e^(-λt)) = 0. Upper bound: where nothing failed, 1 - confidence = exp(-λ Σ n t), exact;
    /// otherwise λ plus the normal factor times its standard error.
    /// </remarks>
    /// <exception cref="ArgumentException">No group, or a figure out of range.</exception>
    public static Reliability Of(IReadOnlyList<CalibrationGroup> groups, double confidence = 0.95)
    {
        if (groups.Count == 0) throw new ArgumentException("A reliability needs at least one calibration.");
        if (confidence is not (>= 0.5 and < 1)) throw new ArgumentException($"Confidence {confidence}: allowed is from 0.5 to under 1.");
        foreach (var g in groups)
        {
            if (!(g.Time > 0) || !double.IsFinite(g.Time) || g.Count < 1 || g.Within < 0 || g.Within > g.Count)
                throw new ArgumentException($"A group needs a time above 0 ({g.Time}) and from 0 to all of its devices within ({g.Within} of {g.Count}).");
        }
        var (count, failed) = (groups.Sum(g => g.Count), groups.Sum(g => g.Count - g.Within));
        var exposure = groups.Sum(g => g.Count * g.Time);
        if (failed == 0) return new(0, double.PositiveInfinity, -Math.Log(1 - confidence) / exposure, count, 0, 0);
        if (failed == count) return new(double.PositiveInfinity, double.PositiveInfinity, double.PositiveInfinity, count, failed, 0);

        double Score(double rate) => groups.Sum(g => (-g.Within * g.Time) + ((g.Count - g.Within) * g.Time / (Math.Exp(rate * g.Time) - 1)));
        double low = 1e-12 / exposure, high = 1 / groups.Min(g => g.Time);
        while (Score(high) > 0) high *= 2;
        var rate = Brent.FindRoot(Score, low, high, 1e-16, 500);
        var information = groups.Sum(g => g.Count * g.Time * g.Time / (Math.Exp(rate * g.Time) - 1));
        var error = 1 / Math.Sqrt(information);
        return new(rate, error, rate + (Normal.InvCDF(0, 1, confidence) * error), count, failed, DevianceOf(groups, rate));
    }

    /// <summary>Share that is still within its limits after a time.</summary>
    public double At(double time) => Math.Exp(-Rate * time);

    /// <summary>Time until the share falls to a target; infinite where nothing ever failed, so that a cap must decide.</summary>
    public double TimeTo(double target) => -Math.Log(target) / Rate;

    /// <summary>The same by the upper bound of the rate: what the record proves.</summary>
    public double ProvenTimeTo(double target) => -Math.Log(target) / UpperRate;

    private static double DevianceOf(IReadOnlyList<CalibrationGroup> groups, double rate)
    {
        double sum = 0;
        foreach (var g in groups)
        {
            double p = Math.Exp(-rate * g.Time), share = (double)g.Within / g.Count;
            if (g.Within > 0) sum += g.Within * Math.Log(share / p);
            if (g.Within < g.Count) sum += (g.Count - g.Within) * Math.Log((1 - share) / (1 - p));
        }
        return 2 * sum;
    }
}
