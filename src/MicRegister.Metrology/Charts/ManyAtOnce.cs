using MathNet.Numerics.Distributions;

namespace MicRegister.Metrology.Charts;

/// <summary>Limits for many devices that are looked at together: at three sigma, one of 50 healthy channels alarms in every eighth check.</summary>
public static class ManyAtOnce
{
    /// <summary>Multiple of the standard deviation that all devices together exceed with a given probability when all are healthy.</summary>
    /// <param name="devices">How many, at least 1.</param>
    /// <param name="falseAlarm">Probability of at least one false alarm, between 0 and 1, both exclusive.</param>
    /// <remarks>Šidák: each has 1 - (1 - α)^(1/n), two-sided. Devices are taken as independent.</remarks>
    public static double Multiple(int devices, double falseAlarm) => devices >= 1 && falseAlarm is > 0 and < 1
        ? -Normal.InvCDF(0, 1, (1 - Math.Pow(1 - falseAlarm, 1.0 / devices)) / 2)
        : throw new ArgumentException($"There must be a device ({devices}) and a probability between 0 and 1 ({falseAlarm}).");

    /// <summary>Probability that at least one of some healthy devices exceeds a multiple.</summary>
    public static double FalseAlarm(int devices, double multiple) => 1 - Math.Pow(1 - (2 * Normal.CDF(0, 1, -multiple)), devices);
}
