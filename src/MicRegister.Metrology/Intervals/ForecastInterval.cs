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

    /// <summary>The first day on which the probability to be within the limit falls under a target.</summary>
    /// <param name="device">The device's forecast.</param>
    /// <param name="referenceDb">Level of the certificate in use, in dB.</param>
    /// <param name="limitDb">Allowed deviation in dB.</param>
    /// <param name="target">Least probability, such as 0.95.</param>
    /// <param name="capDays">Greatest interval, in days. Data that span no longer gap bear no longer one.</param>
    /// <param name="floorDays">A day under it counts as due now: rounding it up would promise days that lie past the target.</param>
    /// <remarks>Seven-day steps, then bisection to a whole day.</remarks>
    public static ForecastInterval Of(DeviceForecast device, double referenceDb, double limitDb, double target, int capDays = CapDays, int floorDays = FloorDays)
    {
        bool Holds(int days) => DecisionLimit.AtLeast(device.At(device.NewestDay + days).ProbabilityWithin(referenceDb, limitDb), target);

        var first = FirstUnder(Holds, capDays);
        if (first is null) return new(capDays, IntervalReason.Cap);
        if (first >= floorDays) return new(first.Value, IntervalReason.Forecast);

        // With k = 2 and nothing but the certificate known, even a device that never drifts could not reach the target.
        var u = device.History.StandardUncertaintiesDb[^1];
        var isCoarse = Tolerance.Around(0, limitDb).Probability(0, u) < target + 0.01;
        return new(0, device.IsNewestOpen ? IntervalReason.OpenNewest : isCoarse ? IntervalReason.CoarseCertificate : IntervalReason.Forecast);
    }

    /// <summary>The greatest interval that a history can bear: two years, or twice the longest gap that its results span.</summary>
    public static int CapOf(ResultHistory history)
    {
        double longest = 0;
        for (var i = 1; i < history.Count; i++) longest = Math.Max(longest, history.Days[i] - history.Days[i - 1]);
        return Math.Max(CapDays, (int)(2 * longest));
    }

    private static int? FirstUnder(Func<int, bool> holds, int capDays)
    {
        if (!holds(0)) return 0;
        for (var low = 0; low < capDays;)
        {
            var high = Math.Min(low + StepDays, capDays);
            if (!holds(high))
            {
                while (high - low > 1)
                {
                    var middle = (low + high) / 2;
                    if (holds(middle)) low = middle;
                    else high = middle;
                }
                return high;
            }
            low = high;
        }
        return null;
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
