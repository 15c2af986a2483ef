namespace MicRegister.Metrology.Lines;

/// <summary>Two-sided coverage factors.</summary>
public static class Quantile
{
    /// <summary>The factor k for which k standard deviations on both sides of a normal mean hold the given share.</summary>
    /// <param name="coverage">Share between 0 and 1, both exclusive; 0.95 gives 1.95996.</param>
    public static double Normal(double coverage) => MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (1 + Checked(coverage)) / 2);

    /// <summary>The same factor where the standard deviation itself was estimated.</summary>
    /// <param name="coverage">Share between 0 and 1, both exclusive.</param>
    /// <param name="degreesOfFreedom">At least 1.</param>
    public static double StudentT(double coverage, int degreesOfFreedom) => degreesOfFreedom >= 1
        ? MathNet.Numerics.Distributions.StudentT.InvCDF(0, 1, degreesOfFreedom, (1 + Checked(coverage)) / 2)
        : throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "At least one degree of freedom is needed.");

    private static double Checked(double coverage) => coverage is > 0 and < 1
        ? coverage
        : throw new ArgumentOutOfRangeException(nameof(coverage), coverage, "A coverage lies between 0 and 1, both exclusive.");
}
