using System.Numerics;
using System.Runtime.InteropServices;

namespace MicRegister.Metrology.Lines;

/// <summary>
/// A straight line through results, kept at the weighted mean of its times, where level and slope are uncorrelated.
/// </summary>
/// <remarks>
/// Times and values are centred before any square is summed: raw day numbers near 20 000 would lose half of the digits.
/// The residuals are summed from themselves, not from a difference of large sums, for the same reason.
/// </remarks>
public readonly record struct StraightLine
{
    private readonly double _weightSum;
    private readonly double _timeSpread;
    private readonly double _scale;

    private StraightLine(int count, double meanTime, double level, double slope, double weightSum, double timeSpread, double chiSquared, bool known)
    {
        Count = count;
        MeanTime = meanTime;
        LevelAtMean = level;
        Slope = slope;
        ChiSquared = chiSquared;
        UncertaintiesWereKnown = known;
        _weightSum = weightSum;
        _timeSpread = timeSpread;
        var perDegree = count > 2 ? chiSquared / (count - 2) : 0;
        _scale = known ? Math.Max(1, perDegree) : perDegree;
    }

    /// <summary>Fits results whose standard uncertainties are known.</summary>
    /// <param name="times">At least two finite times, not all equal, in any unit.</param>
    /// <param name="values">One finite value for each time.</param>
    /// <param name="standardUncertainties">One for each value, above 0, in the unit of the values.</param>
    /// <returns>
    /// The weighted line. Its covariance follows from the uncertainties alone, widened by chi²/ν when that is over 1; with two
    /// results nothing can widen it. Intervals use the normal quantile.
    /// </returns>
    /// <exception cref="ArgumentException">Lengths differ, fewer than two results, equal times, or a figure out of range.</exception>
    /// <remarks>Weights 1/u². JCGM 100:2008, H.3 for the equations; the widening is the usual Birge ratio (common practice).</remarks>
    public static StraightLine FitKnown(ReadOnlySpan<double> times, ReadOnlySpan<double> values, ReadOnlySpan<double> standardUncertainties)
    {
        if (standardUncertainties.Length != times.Length)
            throw new ArgumentException($"{times.Length} times, but {standardUncertainties.Length} uncertainties.");
        return Fit(times, values, standardUncertainties, known: true);
    }

    /// <summary>Fits results of equal but unknown uncertainty, which is estimated from the residuals.</summary>
    /// <param name="times">At least three finite times, not all equal, in any unit.</param>
    /// <param name="values">One finite value for each time.</param>
    /// <returns>The least-squares line. Intervals use Student's t with n - 2 degrees of freedom.</returns>
    /// <exception cref="ArgumentException">Lengths differ, fewer than three results, equal times, or a figure is not finite.</exception>
    /// <remarks>JCGM 100:2008, H.3, eq. (H.13a) to (H.13f).</remarks>
    public static StraightLine FitEqual(ReadOnlySpan<double> times, ReadOnlySpan<double> values)
    {
        if (times.Length < 3)
            throw new ArgumentException($"A residual needs at least three results; there are {times.Length}.");
        return Fit(times, values, default, known: false);
    }

    /// <summary>Number of results.</summary>
    public int Count { get; }

    /// <summary>Weighted mean of the times.</summary>
    public double MeanTime { get; }

    /// <summary>Value of the line at <see cref="MeanTime"/>.</summary>
    public double LevelAtMean { get; }

    /// <summary>Change of the value in one unit of time.</summary>
    public double Slope { get; }

    /// <summary>Weighted sum of squared residuals; with unit weights where the uncertainties were not known.</summary>
    public double ChiSquared { get; }

    /// <summary>Whether the line was fitted with known uncertainties.</summary>
    public bool UncertaintiesWereKnown { get; }

    /// <summary>n - 2.</summary>
    public int DegreesOfFreedom => Count - 2;

    /// <summary>Standard deviation of a residual, sqrt(chi²/ν); 0 where ν is 0. Without known uncertainties it is s in the unit of the values.</summary>
    public double ResidualDeviation => DegreesOfFreedom > 0 ? Math.Sqrt(ChiSquared / DegreesOfFreedom) : 0;

    /// <summary>Standard uncertainty of the slope.</summary>
    public double SlopeUncertainty => Math.Sqrt(_scale / _timeSpread);

    /// <summary>Value of the line.</summary>
    public double At(double time) => LevelAtMean + (Slope * (time - MeanTime));

    /// <summary>Standard uncertainty of the line's value, from level and slope and their covariance.</summary>
    public double UncertaintyAt(double time)
    {
        var away = time - MeanTime;
        return Math.Sqrt(_scale * ((1 / _weightSum) + (away * away / _timeSpread)));
    }

    /// <summary>Covariance of the value at a time with the slope; 0 at <see cref="MeanTime"/>.</summary>
    public double CovarianceAt(double time) => _scale * (time - MeanTime) / _timeSpread;

    /// <summary>Correlation of the value at a time with the slope, from -1 to 1.</summary>
    public double CorrelationAt(double time) => CovarianceAt(time) / (UncertaintyAt(time) * SlopeUncertainty);

    /// <summary>Standard uncertainty of one new result at a time.</summary>
    /// <param name="time">Time of the new result.</param>
    /// <param name="newUncertainty">
    /// Its own standard uncertainty, not negative. Without known uncertainties <see cref="ResidualDeviation"/> is the usual choice.
    /// </param>
    public double PredictionUncertainty(double time, double newUncertainty)
    {
        var line = UncertaintyAt(time);
        return Math.Sqrt((line * line) + (newUncertainty * newUncertainty));
    }

    /// <summary>The interval that holds one new result with the given coverage.</summary>
    /// <param name="time">Time of the new result.</param>
    /// <param name="newUncertainty">Its own standard uncertainty, not negative.</param>
    /// <param name="coverage">Share between 0 and 1, both exclusive.</param>
    public (double Lower, double Upper) PredictionInterval(double time, double newUncertainty, double coverage)
    {
        var factor = UncertaintiesWereKnown ? Quantile.Normal(coverage) : Quantile.StudentT(coverage, DegreesOfFreedom);
        return IntervalWithFactor(time, newUncertainty, factor);
    }

    /// <summary>The same interval for a coverage factor that the caller worked out once for many lines.</summary>
    public (double Lower, double Upper) IntervalWithFactor(double time, double newUncertainty, double coverageFactor)
    {
        var half = coverageFactor * PredictionUncertainty(time, newUncertainty);
        var value = At(time);
        return (value - half, value + half);
    }

    private static StraightLine Fit(ReadOnlySpan<double> times, ReadOnlySpan<double> values, ReadOnlySpan<double> uncertainties, bool known)
    {
        var n = times.Length;
        if (values.Length != n) throw new ArgumentException($"{n} times, but {values.Length} values.");
        if (n < 2) throw new ArgumentException($"A line needs at least two results; there are {n}.");

        Span<double> weights = n <= 256 ? stackalloc double[n] : new double[n];
        if (known) Weigh(uncertainties, weights);
        else weights.Fill(1);

        // Sums are taken from the first result, so that large offsets cancel exactly.
        double t0 = times[0], y0 = values[0];
        var (w, wt, wy) = MeanSums(times, values, weights, t0, y0);
        double tm = wt / w, ym = wy / w;
        var (stt, sty) = CentredSums(times, values, weights, t0 + tm, y0 + ym);
        if (!double.IsFinite(w) || !double.IsFinite(stt) || !double.IsFinite(sty))
            throw new ArgumentException("Times, values and uncertainties must be finite, and uncertainties above 0.");
        if (!(stt > 0)) throw new ArgumentException("All results have the same time; no line can be drawn.");

        var slope = sty / stt;
        var chi = Residuals(times, values, weights, t0 + tm, y0 + ym, slope);
        return new(n, t0 + tm, y0 + ym, slope, w, stt, chi, known);
    }

    private static void Weigh(ReadOnlySpan<double> uncertainties, Span<double> weights)
    {
        var u = MemoryMarshal.Cast<double, Vector<double>>(uncertainties);
        var w = MemoryMarshal.Cast<double, Vector<double>>(weights);
        var bad = Vector<long>.Zero;
        for (var i = 0; i < u.Length; i++)
        {
            bad |= ~Vector.GreaterThan(u[i], Vector<double>.Zero);
            w[i] = Vector<double>.One / (u[i] * u[i]);
        }
        var allGood = bad == Vector<long>.Zero;
        for (var i = u.Length * Vector<double>.Count; i < weights.Length; i++)
        {
            allGood &= uncertainties[i] > 0;
            weights[i] = 1 / (uncertainties[i] * uncertainties[i]);
        }
        if (!allGood) throw new ArgumentException("Each standard uncertainty must be above 0.", nameof(uncertainties));
    }

    private static (double W, double Wt, double Wy) MeanSums(
        ReadOnlySpan<double> times, ReadOnlySpan<double> values, ReadOnlySpan<double> weights, double t0, double y0)
    {
        var t = MemoryMarshal.Cast<double, Vector<double>>(times);
        var y = MemoryMarshal.Cast<double, Vector<double>>(values);
        var w = MemoryMarshal.Cast<double, Vector<double>>(weights);
        Vector<double> vt0 = new(t0), vy0 = new(y0), sw = default, st = default, sy = default;
        for (var i = 0; i < w.Length && i < t.Length && i < y.Length; i++)
        {
            sw += w[i];
            st += w[i] * (t[i] - vt0);
            sy += w[i] * (y[i] - vy0);
        }
        double a = Vector.Sum(sw), b = Vector.Sum(st), c = Vector.Sum(sy);
        for (var i = w.Length * Vector<double>.Count; i < weights.Length; i++)
        {
            a += weights[i];
            b += weights[i] * (times[i] - t0);
            c += weights[i] * (values[i] - y0);
        }
        return (a, b, c);
    }

    private static (double Stt, double Sty) CentredSums(
        ReadOnlySpan<double> times, ReadOnlySpan<double> values, ReadOnlySpan<double> weights, double tm, double ym)
    {
        var t = MemoryMarshal.Cast<double, Vector<double>>(times);
        var y = MemoryMarshal.Cast<double, Vector<double>>(values);
        var w = MemoryMarshal.Cast<double, Vector<double>>(weights);
        Vector<double> vtm = new(tm), vym = new(ym), stt = default, sty = default;
        for (var i = 0; i < w.Length && i < t.Length && i < y.Length; i++)
        {
            var dt = t[i] - vtm;
            var wdt = w[i] * dt;
            stt += wdt * dt;
            sty += wdt * (y[i] - vym);
        }
        double a = Vector.Sum(stt), b = Vector.Sum(sty);
        for (var i = w.Length * Vector<double>.Count; i < weights.Length; i++)
        {
            var dt = times[i] - tm;
            a += weights[i] * dt * dt;
            b += weights[i] * dt * (values[i] - ym);
        }
        return (a, b);
    }

    private static double Residuals(
        ReadOnlySpan<double> times, ReadOnlySpan<double> values, ReadOnlySpan<double> weights, double tm, double ym, double slope)
    {
        var t = MemoryMarshal.Cast<double, Vector<double>>(times);
        var y = MemoryMarshal.Cast<double, Vector<double>>(values);
        var w = MemoryMarshal.Cast<double, Vector<double>>(weights);
        Vector<double> vtm = new(tm), vym = new(ym), vb = new(slope), sum = default;
        for (var i = 0; i < w.Length && i < t.Length && i < y.Length; i++)
        {
            var r = y[i] - vym - (vb * (t[i] - vtm));
            sum += w[i] * r * r;
        }
        var chi = Vector.Sum(sum);
        for (var i = w.Length * Vector<double>.Count; i < weights.Length; i++)
        {
            var r = values[i] - ym - (slope * (times[i] - tm));
            chi += weights[i] * r * r;
        }
        return chi;
    }
}
