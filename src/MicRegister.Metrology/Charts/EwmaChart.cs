namespace MicRegister.Metrology.Charts;

/// <summary>Exponentially weighted moving average: sees small shifts sooner than single values do.</summary>
/// <remarks>
/// NIST/SEMATECH e-Handbook, 6.3.2.4. Limits widen with time: ± k s √(λ/(2-λ) (1 - (1-λ)^(2t))). With λ equal to the steady gain of a local
/// level filter it is that filter.
/// </remarks>
public sealed class EwmaChart
{
    private readonly EwmaPoint[] _points;

    private EwmaChart(EwmaPoint[] points) => _points = points;

    /// <summary>A point for each value.</summary>
    public IReadOnlyList<EwmaPoint> Points => _points;

    /// <summary>Works out a chart.</summary>
    /// <param name="values">Values in the order of time.</param>
    /// <param name="start">What was expected before the first one, such as the mean of a quiet past.</param>
    /// <param name="standardDeviation">Standard deviation of one value, above 0.</param>
    /// <param name="lambda">Weight of the newest value, above 0 up to 1; 0.2 to 0.3 for drift (e-Handbook, chapter 2.2, from memory).</param>
    /// <param name="multiple">k, the multiple of the standard deviation at which the limits stand.</param>
    public static EwmaChart Of(IReadOnlyList<double> values, double start, double standardDeviation, double lambda = 0.2, double multiple = 3)
    {
        if (!(standardDeviation > 0) || lambda is not (> 0 and <= 1) || !(multiple > 0))
            throw new ArgumentException($"A chart needs a standard deviation above 0 ({standardDeviation}), a weight above 0 up to 1 ({lambda}) and a multiple above 0 ({multiple}).");
        var points = new EwmaPoint[values.Count];
        double average = start, left = 1;
        for (var i = 0; i < points.Length; i++)
        {
            average += lambda * (values[i] - average);
            left *= (1 - lambda) * (1 - lambda);
            var reach = multiple * standardDeviation * Math.Sqrt(lambda / (2 - lambda) * (1 - left));
            points[i] = new(average, start - reach, start + reach);
        }
        return new(points);
    }
}

/// <summary>One point of the chart.</summary>
/// <param name="Average">The average after this value.</param>
/// <param name="Lower">Lower limit at this time.</param>
/// <param name="Upper">Upper limit at this time.</param>
public readonly record struct EwmaPoint(double Average, double Lower, double Upper)
{
    /// <summary>Whether the average lies within its limits; a limit itself passes.</summary>
    public bool Holds => Conformity.DecisionLimit.AtMost(Average, Upper) && Conformity.DecisionLimit.AtLeast(Average, Lower);
}
