namespace MicRegister.Metrology.Drift;

/// <summary>What is expected of a device's true level on a day: a mixture of normal distributions.</summary>
public sealed class LevelForecast
{
    private readonly double[] _weights;
    private readonly double[] _means;
    private readonly double[] _deviations;

    internal LevelForecast(double[] weights, double[] means, double[] deviations)
    {
        (_weights, _means, _deviations) = (weights, means, deviations);
        // About the first mean, so that the level's own size costs no digits.
        var origin = means[0];
        double mean = 0;
        for (var i = 0; i < weights.Length; i++) mean += weights[i] * (means[i] - origin);
        double variance = 0;
        for (var i = 0; i < weights.Length; i++) variance += weights[i] * ((deviations[i] * deviations[i]) + ((means[i] - origin - mean) * (means[i] - origin - mean)));
        LevelDb = origin + mean;
        StandardDeviationDb = Math.Sqrt(variance);
    }

    /// <summary>A forecast that is one normal distribution, as where a level was measured and nothing else is known.</summary>
    /// <param name="levelDb">Mean in dB.</param>
    /// <param name="standardDeviationDb">Standard deviation in dB, above 0.</param>
    public static LevelForecast Normal(double levelDb, double standardDeviationDb) => new([1], [levelDb], [standardDeviationDb]);

    /// <summary>Expected level in dB.</summary>
    public double LevelDb { get; }

    /// <summary>Standard deviation of the true level around it, in dB.</summary>
    public double StandardDeviationDb { get; }

    internal IReadOnlyList<double> Weights => _weights;

    internal IReadOnlyList<double> Means => _means;

    internal IReadOnlyList<double> Deviations => _deviations;

    /// <summary>Probability that the true level is within a limit on both sides of a reference level.</summary>
    /// <param name="referenceDb">Usually the certificate in use, in dB.</param>
    /// <param name="limitDb">Allowed deviation in dB, not negative.</param>
    /// <returns>From 0 to 1.</returns>
    public double ProbabilityWithin(double referenceDb, double limitDb)
    {
        if (!double.IsFinite(referenceDb) || !(limitDb >= 0)) throw new ArgumentException($"A probability needs a finite reference ({referenceDb}) and a limit that is not negative ({limitDb}).");
        double outside = 0;
        for (var i = 0; i < _weights.Length; i++)
        {
            // Both tails, so that a very safe level keeps its digits.
            outside += _weights[i] * (Phi((_means[i] - referenceDb - limitDb) / _deviations[i]) + Phi((referenceDb - limitDb - _means[i]) / _deviations[i]));
        }
        return Math.Clamp(1 - outside, 0, 1);
    }

    /// <summary>A figure under which the probability to be within a limit does not fall on any day from one to another.</summary>
    /// <param name="from">Forecast for the first day.</param>
    /// <param name="to">That of the same device for the last day.</param>
    /// <param name="referenceDb">Usually the certificate in use, in dB.</param>
    /// <param name="limitDb">Allowed deviation in dB, not negative.</param>
    /// <returns>
    /// Possibly under 0; that of the last day itself where all means move away from the reference and stay within the limit.
    /// </returns>
    /// <remarks>
    /// By hand: between two days each part's mean moves on a line and its deviation only grows. With d = |mean - reference|, the part
    /// outside is Phi((d - L) / s) + Phi(-(d + L) / s). It grows with d; its first term grows with s where d is under L and falls above,
    /// its second grows.
    /// </remarks>
    internal static double LeastWithin(LevelForecast from, LevelForecast to, double referenceDb, double limitDb)
    {
        double outside = 0;
        for (var i = 0; i < to._weights.Length; i++)
        {
            var d = Math.Max(Math.Abs(from._means[i] - referenceDb), Math.Abs(to._means[i] - referenceDb));
            var worst = (d > limitDb ? from : to)._deviations[i];
            outside += to._weights[i] * (Phi((d - limitDb) / worst) + Phi(-(d + limitDb) / to._deviations[i]));
        }
        return 1 - outside;
    }

    /// <summary>Probability that the true level is at most some level.</summary>
    public double Cumulative(double levelDb)
    {
        double sum = 0;
        for (var i = 0; i < _weights.Length; i++) sum += _weights[i] * Phi((levelDb - _means[i]) / _deviations[i]);
        return sum;
    }

    /// <summary>The level under which the true level lies with a probability.</summary>
    /// <param name="probability">Between 0 and 1, both exclusive.</param>
    /// <returns>In dB, to 1e-12.</returns>
    /// <remarks>A quantile of the mixture, not a multiple of its standard deviation: tails of a mixture are heavier. Newton, held by bisection.</remarks>
    public double Quantile(double probability)
    {
        if (probability is not (> 0 and < 1)) throw new ArgumentOutOfRangeException(nameof(probability), probability, "A probability lies between 0 and 1, both exclusive.");
        double low = double.PositiveInfinity, high = double.NegativeInfinity;
        for (var i = 0; i < _weights.Length; i++)
        {
            low = Math.Min(low, _means[i] - (12 * _deviations[i]));
            high = Math.Max(high, _means[i] + (12 * _deviations[i]));
        }
        var x = Math.Clamp(LevelDb + (StandardDeviationDb * MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, probability)), low, high);
        for (var step = 0; step < 200 && high - low > 1e-13 * Math.Max(1, Math.Abs(x)); step++)
        {
            double error = -probability, density = 0;
            for (var i = 0; i < _weights.Length; i++)
            {
                var z = (x - _means[i]) / _deviations[i];
                error += _weights[i] * Phi(z);
                density += _weights[i] / _deviations[i] * Math.Exp(-0.5 * z * z);
            }
            if (error > 0) high = x;
            else low = x;
            var newton = x - (error / (density / Math.Sqrt(2 * Math.PI)));
            var next = newton > low && newton < high ? newton : (low + high) / 2;
            if (Math.Abs(next - x) < 1e-13) return next;
            x = next;
        }
        return x;
    }

    /// <summary>The middle 95 %: 2.5 and 97.5 % quantiles, in dB.</summary>
    public (double LowDb, double HighDb) Band() => (Quantile(0.025), Quantile(0.975));

    internal (LevelForecast First, LevelForecast Second) Split()
    {
        var half = _weights.Length / 2;
        LevelForecast Part(Range part) => new(Array.ConvertAll(_weights[part], w => 2 * w), _means[part], _deviations[part]);
        return (Part(..half), Part(half..));
    }

    internal static double Phi(double z) => MathNet.Numerics.Distributions.Normal.CDF(0, 1, z);
}
