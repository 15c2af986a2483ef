namespace MicRegister.Metrology.Drift;

/// <summary>A level that walks, seen through noise: the filter on which the drift model rests, with both variances unknown or given.</summary>
/// <remarks>
/// y_t = level_t + e_t, level_(t+1) = level_t + n_t. The first value is the level's diffuse start: it is exact, no large variance stands for it.
/// The log-likelihood is that of all values after the first.
/// </remarks>
public static class LocalLevel
{
    /// <summary>One step of the filter.</summary>
    /// <param name="Predicted">Level expected before the value.</param>
    /// <param name="PredictedVariance">Its variance.</param>
    /// <param name="Innovation">Value minus predicted level; NaN where the value is missing.</param>
    /// <param name="InnovationVariance">Variance of the innovation.</param>
    /// <param name="Level">Level after the value.</param>
    /// <param name="Variance">Its variance.</param>
    public readonly record struct Row(double Predicted, double PredictedVariance, double Innovation, double InnovationVariance, double Level, double Variance);

    /// <summary>Filters a series.</summary>
    /// <param name="values">Values in equal steps; NaN is missing. The first is there.</param>
    /// <param name="noise">Variance of a value around its level.</param>
    /// <param name="walk">Variance of the level's change in a step.</param>
    /// <returns>A row for each value after the first.</returns>
    public static IReadOnlyList<Row> Filter(ReadOnlySpan<double> values, double noise, double walk)
    {
        if (values.IsEmpty || double.IsNaN(values[0])) throw new ArgumentException("The first value of a series cannot be missing: the level starts with it.");
        var rows = new Row[values.Length - 1];
        double level = values[0], variance = noise;
        for (var t = 1; t < values.Length; t++)
        {
            var predicted = variance + walk;
            var f = predicted + noise;
            var v = values[t] - level;
            var before = level;
            var isThere = !double.IsNaN(v);
            if (isThere) level += predicted / f * v;
            variance = isThere ? predicted * noise / f : predicted;
            rows[t - 1] = new(before, predicted, v, f, level, variance);
        }
        return rows;
    }

    /// <summary>Log-likelihood of all values after the first, with a constant of -½ ln 2π each.</summary>
    public static double LogLikelihood(ReadOnlySpan<double> values, double noise, double walk)
    {
        double sum = 0;
        foreach (var row in Filter(values, noise, walk))
        {
            if (!double.IsNaN(row.Innovation)) sum -= 0.5 * (Math.Log(2 * Math.PI) + Math.Log(row.InnovationVariance) + (row.Innovation * row.Innovation / row.InnovationVariance));
        }
        return sum;
    }

    /// <summary>Both variances by maximum likelihood: the noise is concentrated out, so that one number is searched.</summary>
    /// <param name="values">At least three values, none missing.</param>
    /// <returns>Noise and walk variances and the log-likelihood.</returns>
    public static (double Noise, double Walk, double LogLikelihood) Fit(ReadOnlySpan<double> values)
    {
        if (values.Length < 3) throw new ArgumentException($"Two variances need at least three values, not {values.Length}.");
        double low = -16, high = 12;
        const double Golden = 0.6180339887498949;
        double x = high - (Golden * (high - low)), z = low + (Golden * (high - low));
        double fx = Concentrated(values, Math.Exp(x)).Deviance, fz = Concentrated(values, Math.Exp(z)).Deviance;
        while (high - low > 1e-8)
        {
            if (fx < fz)
            {
                (high, z, fz) = (z, x, fx);
                x = high - (Golden * (high - low));
                fx = Concentrated(values, Math.Exp(x)).Deviance;
            }
            else
            {
                (low, x, fx) = (x, z, fz);
                z = low + (Golden * (high - low));
                fz = Concentrated(values, Math.Exp(z)).Deviance;
            }
        }
        var ratio = Math.Exp((low + high) / 2);
        var noise = Concentrated(values, ratio).Noise;
        return (noise, noise * ratio, LogLikelihood(values, noise, noise * ratio));
    }

    // Relative to noise 1; products instead of logarithms, since the logarithm is the cost.
    private static (double Deviance, double Noise) Concentrated(ReadOnlySpan<double> values, double ratio)
    {
        double level = values[0], variance = 1, squares = 0, logs = 0, product = 1;
        for (var t = 1; t < values.Length; t++)
        {
            var predicted = variance + ratio;
            var f = predicted + 1;
            var inverse = 1 / f;
            var gain = predicted * inverse;
            var v = values[t] - level;
            squares += v * v * inverse;
            product *= f;
            if ((t & 15) == 0)
            {
                logs += Math.Log(product);
                product = 1;
            }
            level += gain * v;
            variance = gain;
        }
        var n = values.Length - 1;
        var noise = squares / n;
        return ((n * Math.Log(noise)) + logs + Math.Log(product), noise);
    }
}
