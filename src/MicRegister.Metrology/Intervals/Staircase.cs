using MicRegister.Metrology.Conformity;

namespace MicRegister.Metrology.Intervals;

/// <summary>The next interval from the last one and how the device was found: longer when well within its limit, shorter when outside.</summary>
/// <remarks>
/// ILAC-G24:2022 / OIML D 10:2022, 6.2, method 1 (staircase): lengthened if found within a stated share of the permissible error, for example 80 %,
/// shortened if outside it. The guide prescribes no step; here lengthening and shortening balance at the target reliability.
/// </remarks>
public static class Staircase
{
    /// <summary>The share of the limit up to which the interval is lengthened.</summary>
    public const double WellWithin = 0.8;

    /// <summary>Share by which an interval is lengthened.</summary>
    public const double Lengthening = 0.1;

    /// <summary>The next interval.</summary>
    /// <param name="days">The last interval in days, above 0.</param>
    /// <param name="deviationDb">Deviation found at its end, in dB.</param>
    /// <param name="limitDb">Limit in dB, above 0.</param>
    /// <param name="target">Reliability at which lengthening and shortening balance, such as 0.95.</param>
    /// <param name="leastDays">Least interval in days.</param>
    /// <param name="greatestDays">Greatest interval in days.</param>
    public static double Next(double days, double deviationDb, double limitDb, double target, double leastDays, double greatestDays)
    {
        if (!(days > 0) || !(limitDb > 0)) throw new ArgumentException($"The staircase needs an interval ({days}) and a limit ({limitDb}) above 0.");
        var found = Math.Abs(deviationDb);
        var next = DecisionLimit.AtMost(found, WellWithin * limitDb) ? days * (1 + Lengthening) : DecisionLimit.AtMost(found, limitDb) ? days : days * (1 - Shortening(Lengthening, target));
        return Math.Clamp(next, leastDays, greatestDays);
    }

    /// <summary>The share b by which an interval is shortened, so that (1 + a)^R (1 - b)^(1 - R) = 1.</summary>
    /// <param name="lengthening">a, above 0.</param>
    /// <param name="target">R, between 0 and 1, both exclusive.</param>
    public static double Shortening(double lengthening, double target) => target is > 0 and < 1 && lengthening > 0
        ? 1 - Math.Pow(1 + lengthening, -target / (1 - target))
        : throw new ArgumentException($"A staircase needs a lengthening above 0 ({lengthening}) and a target between 0 and 1 ({target}).");
}
