using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Intervals;

namespace MicRegister.Register.Drift;

/// <summary>How devices of one model were found at the end of each interval, within a limit of the certificate before or outside it, and what that proves.</summary>
/// <param name="Reliability">The exponential fit over time in months; null where no interval is on file.</param>
/// <param name="MedianMonths">Median interval on file, in months.</param>
/// <param name="Words">The evidence in words.</param>
public sealed record ToleranceRecord(Reliability? Reliability, double MedianMonths, string Words)
{
    /// <summary>Share that has to be within its limit at the end of an interval, and confidence with which that is proven.</summary>
    public const double Target = 0.95;

    private const double DaysPerMonth = 365.25 / 12;
    private const double LeastMonths = 1;

    /// <summary>Interval that the record proves, never longer than twice the median interval on file; null where no interval is on file.</summary>
    public double? ProvenMonths => Reliability is { } r ? Math.Min(r.ProvenTimeTo(Target), MedianMonths * 2) : null;

    /// <summary>Works out the record.</summary>
    /// <param name="devices">Devices of one model.</param>
    /// <param name="limitDb">Limit in dB.</param>
    public static ToleranceRecord Of(IReadOnlyList<DeviceDrift> devices, double limitDb)
    {
        var found = devices.SelectMany(d => d.Series.Levels).SelectMany(level => level.Zip(level.Skip(1)))
            .Select(p => (Months: (p.Second.Day.DayNumber - p.First.Day.DayNumber) / DaysPerMonth, IsWithin: DecisionLimit.AtMost(Math.Abs(p.Second.LevelDb - p.First.LevelDb), limitDb))).Where(p => p.Months >= LeastMonths).ToList();
        if (found.Count == 0) return new(null, 0, "No device was calibrated twice yet, so that there is no record.");
        var groups = found.GroupBy(f => Math.Round(f.Months)).OrderBy(g => g.Key).Select(g => new CalibrationGroup(g.Average(f => f.Months), g.Count(), g.Count(f => f.IsWithin))).ToList();
        var (reliability, median) = (Metrology.Intervals.Reliability.Of(groups, Target), found.Select(f => f.Months).Order().ElementAt(found.Count / 2));
        var proven = Math.Min(reliability.ProvenTimeTo(Target), median * 2);
        return new(reliability, median, reliability.Failed == 0
            ? FormattableString.Invariant($"All {found.Count} calibrations after {median:0} months (median) found the device within ±{limitDb} dB. With 95 % confidence that proves 95 % for {proven:0} months; nothing ever failed, so that no longer interval can be told.")
            : FormattableString.Invariant($"{found.Count - reliability.Failed} of {found.Count} calibrations after {median:0} months (median) found the device within ±{limitDb} dB. The best estimate for 95 % is {Math.Min(reliability.TimeTo(Target), median * 2):0} months; with 95 % confidence it is {proven:0}."));
    }
}
