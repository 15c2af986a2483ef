using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Drift;

namespace MicRegister.Metrology.Intervals;

/// <summary>How long a device may go until its next calibration, by the forecast of its own level.</summary>
/// <param name="Days">Days from the newest result; 0 is due now.</param>
/// <param name="Why">What decided.</param>
public readonly record struct ForecastInterval(int Days, IntervalReason Why)
{
    /// <summary>Least interval that is worth a calibration, in days: a shorter one is due now.</summary>
    public const int FloorDays = 30;

    /// <summary>Greatest interval without evidence of a longer one, in days.</summary>
    public const int CapDays = 730;

    private const int StepDays = 7;

    // What sums of some hundred parts may be off by, many times over.
    private const double SumError = 1e-12;

    /// <summary>The first day on which the probability to be within the limit falls under a target.</summary>
    /// <param name="device">The device's forecast.</param>
    /// <param name="referenceDb">Level of the certificate in use, in dB.</param>
    /// <param name="limitDb">Allowed deviation in dB.</param>
    /// <param name="target">Least probability, such as 0.95.</param>
    /// <param name="capDays">Greatest interval, in days. Data that span no longer gap bear no longer one.</param>
    /// <param name="floorDays">A day under it counts as due now: rounding it up would promise days that lie past the target.</param>
    /// <remarks>
    /// Seven-day steps, then bisection to a whole day. Steps between which the probability cannot fall under the target are not looked at.
    /// </remarks>
    public static ForecastInterval Of(DeviceForecast device, double referenceDb, double limitDb, double target, int capDays = CapDays, int floorDays = FloorDays)
    {
        var first = FirstUnder(days => device.At(device.NewestDay + days), Holds, IsSafe, capDays);
        if (first is null) return new(capDays, IntervalReason.Cap);
        if (first >= floorDays) return new(first.Value, IntervalReason.Forecast);

        // With k = 2 and nothing but the certificate known, even a device that never drifts could not reach the target.
        var u = device.History.StandardUncertaintiesDb[^1];
        var isCoarse = Tolerance.Around(0, limitDb).Probability(0, u) < target + 0.01;
        return new(0, device.IsNewestOpen ? IntervalReason.OpenNewest : isCoarse ? IntervalReason.CoarseCertificate : IntervalReason.Forecast);

        bool Holds(LevelForecast on) => DecisionLimit.AtLeast(on.ProbabilityWithin(referenceDb, limitDb), target);
        bool IsSafe(LevelForecast from, LevelForecast to) => LevelForecast.LeastWithin(from, to, referenceDb, limitDb) >= target + SumError;
    }

    /// <summary>The greatest interval that a history can bear: two years, or twice the longest gap that its results span.</summary>
    public static int CapOf(ResultHistory history)
    {
        double longest = 0;
        for (var i = 1; i < history.Count; i++) longest = Math.Max(longest, history.Days[i] - history.Days[i - 1]);
        return Math.Max(CapDays, (int)(2 * longest));
    }

    private static int? FirstUnder(
        Func<int, LevelForecast> at, Func<LevelForecast, bool> holds, Func<LevelForecast, LevelForecast, bool> isSafe, int capDays)
    {
        var now = at(0);
        if (!holds(now)) return 0;
        if (capDays <= 0 || FirstStep(0, now, capDays, at(capDays)) is not { } high) return null;
        var low = (high - 1) / StepDays * StepDays;
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (holds(at(middle))) low = middle;
            else high = middle;
        }
        return high;

        // The first step under the target after one that is not; the last step may be a shorter one.
        int? FirstStep(int low, LevelForecast atLow, int high, LevelForecast atHigh)
        {
            if (high - low <= StepDays) return holds(atHigh) ? null : high;
            if (isSafe(atLow, atHigh)) return null;
            var middle = low + (StepDays * ((high - low + StepDays - 1) / StepDays / 2));
            var atMiddle = at(middle);
            return FirstStep(low, atLow, middle, atMiddle) ?? FirstStep(middle, atMiddle, high, atHigh);
        }
    }
}

/// <summary>What decided an interval.</summary>
public enum IntervalReason
{
    /// <summary>The forecast falls under the target.</summary>
    Forecast,

    /// <summary>The forecast never does within what the data bear.</summary>
    Cap,

    /// <summary>Due now: the certificate is too coarse for this limit; the device need not have drifted.</summary>
    CoarseCertificate,

    /// <summary>Due now: the newest result deviates, and only another can tell what it was.</summary>
    OpenNewest,
}
