using MicRegister.Metrology.Conformity;

namespace MicRegister.Metrology.Checks;

/// <summary>The checks before and after a day's recordings.</summary>
/// <param name="BeforeDb">Sensitivity level before, in dB.</param>
/// <param name="AfterDb">Sensitivity level after, in dB.</param>
public readonly record struct BeforeAndAfter(double BeforeDb, double AfterDb)
{
    public double DifferenceDb => AfterDb - BeforeDb;

    /// <summary>Level to be applied: the mean of both in dB.</summary>
    /// <remarks>14 CFR 36, A36.3.9.8 (seen, 2021 edition): the arithmetic mean of the levels.</remarks>
    public double AppliedDb => (BeforeDb + AfterDb) / 2;

    /// <summary>Whether both agree within a limit; equality passes, after rounding to 1e-6 dB.</summary>
    public bool Agrees(double limitDb) => DecisionLimit.AtMost(Math.Abs(DifferenceDb), limitDb);

    /// <summary>Probability that the chain truly moved by no more than the limit.</summary>
    /// <param name="limitDb">Limit in dB.</param>
    /// <param name="standardUncertaintyDb">Standard uncertainty of the difference: what both checks share is not in it.</param>
    public double ProbabilityWithin(double limitDb, double standardUncertaintyDb) => Tolerance.Around(0, limitDb).Probability(DifferenceDb, standardUncertaintyDb);
}
