namespace MicRegister.Metrology.Charts;

/// <summary>Chart of single values with their moving ranges.</summary>
/// <param name="Mean">Centre line.</param>
/// <param name="MeanRange">Mean moving range.</param>
/// <param name="Upper">Upper limit of values.</param>
/// <param name="Lower">Lower limit of values.</param>
/// <param name="UpperRange">Upper limit of moving ranges.</param>
/// <remarks>NIST/SEMATECH e-Handbook, 6.3.2.2: mean ± 3 MR/d2, MR limit D4 MR, for ranges of two values.</remarks>
public readonly record struct IndividualsChart(double Mean, double MeanRange, double Upper, double Lower, double UpperRange)
{
    /// <summary>Mean range of two normal values over their standard deviation, to three decimals as tables print it; exactly 2/√π.</summary>
    public const double D2 = 1.128;

    /// <summary>Upper limit of a range of two over its mean, to three decimals as tables print it.</summary>
    public const double D4 = 3.267;

    /// <summary>A chart from values in the order of time.</summary>
    /// <param name="values">At least two values, finite.</param>
    /// <param name="multiple">Multiple of the standard deviation at which the limits stand.</param>
    public static IndividualsChart Of(IReadOnlyList<double> values, double multiple = 3)
    {
        if (values.Count < 2) throw new ArgumentException($"A chart needs at least two values, not {values.Count}.");
        double range = 0;
        for (var i = 1; i < values.Count; i++) range += Math.Abs(values[i] - values[i - 1]);
        range /= values.Count - 1;
        var mean = values.Average();
        var reach = multiple * range / D2;
        return new(mean, range, mean + reach, mean - reach, D4 * range);
    }

    /// <summary>Whether a value lies within the limits; a limit itself passes.</summary>
    public bool Holds(double value) => Conformity.DecisionLimit.AtMost(value, Upper) && Conformity.DecisionLimit.AtLeast(value, Lower);
}
