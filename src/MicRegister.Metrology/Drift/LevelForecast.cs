using MicRegister.Metrology.Conformity;

namespace MicRegister.Metrology.Drift;

/// <summary>What is expected of a device's true level on a day.</summary>
/// <param name="LevelDb">Expected level in dB.</param>
/// <param name="StandardDeviationDb">Standard deviation of the true level around it, in dB.</param>
/// <param name="Results">How many results stand behind it.</param>
/// <param name="Assumption">Which assumption decided the spread, in words.</param>
public sealed record LevelForecast(double LevelDb, double StandardDeviationDb, int Results, string Assumption)
{
    /// <summary>Probability that the true level is within a limit on both sides of a reference level.</summary>
    /// <param name="referenceDb">Usually the certificate in use, in dB.</param>
    /// <param name="limitDb">Allowed deviation in dB, not negative.</param>
    /// <returns>From 0 to 1.</returns>
    public double ProbabilityWithin(double referenceDb, double limitDb) =>
        Tolerance.Around(referenceDb, limitDb).Probability(LevelDb, StandardDeviationDb);
}
