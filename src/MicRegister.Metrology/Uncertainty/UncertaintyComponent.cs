namespace MicRegister.Metrology.Uncertainty;

/// <summary>One contribution to the uncertainty of a result.</summary>
/// <param name="Name">What it is, in words.</param>
/// <param name="Source">What it comes from. Contributions of one source, in one budget or in several, are fully correlated.</param>
/// <param name="StandardUncertainty">Standard uncertainty of the quantity, in its unit, not negative.</param>
/// <param name="Sensitivity">Sensitivity coefficient: how much the result moves with the quantity.</param>
/// <param name="DegreesOfFreedom">How well the standard uncertainty is known; infinite where it is taken as exact.</param>
/// <param name="Distribution">What is assumed of the quantity.</param>
public sealed record UncertaintyComponent(string Name, string Source, double StandardUncertainty, double Sensitivity = 1, double DegreesOfFreedom = double.PositiveInfinity, UncertaintyDistribution Distribution = UncertaintyDistribution.Normal)
{
    /// <summary>Unit of the quantity.</summary>
    public string Unit { get; init; } = "dB";

    /// <summary>Contribution to the result, with its sign, in the result's unit.</summary>
    public double Contribution => Sensitivity * StandardUncertainty;

    /// <summary>From an expanded uncertainty and its coverage factor, as a certificate states them.</summary>
    public static UncertaintyComponent FromExpanded(string name, string source, double expanded, double coverageFactor, double sensitivity = 1) => new(name, source, expanded / coverageFactor, sensitivity);

    /// <summary>From the half-width of an interval in which the quantity lies for sure.</summary>
    /// <remarks>GUM (JCGM 100:2008) 4.3.7 and 4.3.9: a/√3 rectangular, a/√6 triangular; a/√2 for what swings between its ends.</remarks>
    public static UncertaintyComponent FromHalfWidth(string name, string source, double halfWidth, UncertaintyDistribution distribution, double sensitivity = 1, double degreesOfFreedom = double.PositiveInfinity) => new(
        name, source, distribution switch
        {
            UncertaintyDistribution.Rectangular => halfWidth / Math.Sqrt(3),
            UncertaintyDistribution.Triangular => halfWidth / Math.Sqrt(6),
            UncertaintyDistribution.UShaped => halfWidth / Math.Sqrt(2),
            _ => throw new ArgumentException($"A half-width belongs to a rectangular, triangular or U-shaped distribution, not to {distribution}.", nameof(distribution)),
        }, sensitivity, degreesOfFreedom, distribution);

    /// <summary>From repeated readings: the standard deviation of their mean.</summary>
    /// <param name="name">What it is.</param>
    /// <param name="source">What it comes from; readings of their own are a source of their own.</param>
    /// <param name="readings">At least two.</param>
    /// <remarks>GUM 4.2.3.</remarks>
    public static UncertaintyComponent FromReadings(string name, string source, IReadOnlyList<double> readings)
    {
        if (readings.Count < 2) throw new ArgumentException($"Repeatability needs at least two readings, not {readings.Count}.");
        var mean = readings.Average();
        var variance = readings.Sum(r => (r - mean) * (r - mean)) / (readings.Count - 1);
        return new(name, source, Math.Sqrt(variance / readings.Count), 1, readings.Count - 1);
    }
}

/// <summary>What is assumed of a quantity that is not exactly known.</summary>
public enum UncertaintyDistribution
{
    Normal,
    Rectangular,
    Triangular,
    UShaped,
}
