using System.Runtime.Intrinsics;

namespace MicRegister.Metrology.Drift;

/// <summary>
/// What one pass over a history leaves for each walk and scale: all that likelihood and forecast need, for every slope spread.
/// Index: scale · <see cref="DriftGrid.AllWalks"/> + walk.
/// </summary>
/// <remarks>
/// A local level with exact diffuse start, filtered beside the time itself, so that the slope is a regression on what the filter leaves.
/// Four walks are filtered at once, each by the same operations in the same order as one alone: the bits do not depend on the machine's width.
/// </remarks>
internal sealed class WalkSums
{
    private const int Count = DriftGrid.AllWalks * DriftGrid.Scales;

    /// <summary>After so many results the product of the variances is turned into a logarithm: it stays far from the ends of a double.</summary>
    private const int LogEvery = 8;

    private static readonly double[] WalkSquared = [.. DriftGrid.Walk.Select(w => w * w)];

    public double[] Stt { get; } = new double[Count];

    public double[] Sty { get; } = new double[Count];

    public double[] Syy { get; } = new double[Count];

    /// <summary>Sum of the logarithms of the innovations' variances.</summary>
    public double[] LogF { get; } = new double[Count];

    /// <summary>Filtered level after the newest result, in dB from the first result.</summary>
    public double[] Level { get; } = new double[Count];

    /// <summary>The time filtered in the same way, in years.</summary>
    public double[] Time { get; } = new double[Count];

    /// <summary>Variance of the filtered level for a known slope.</summary>
    public double[] Variance { get; } = new double[Count];

    public static WalkSums Of(UsedResults used)
    {
        var sums = new WalkSums();
        for (var scale = 0; scale < DriftGrid.Scales; scale++)
        {
            var k2 = DriftGrid.Scale[scale] * DriftGrid.Scale[scale];
            for (var walk = 0; walk < DriftGrid.AllWalks; walk += Vector256<double>.Count)
                sums.Pass(used, k2, Vector256.Create(WalkSquared, walk), (scale * DriftGrid.AllWalks) + walk);
        }
        return sums;
    }

    private void Pass(UsedResults used, double k2, Vector256<double> w2, int at)
    {
        double[] years = used.Years, levels = used.Levels, variances = used.Variances;
        var begins = used.Begins;
        var (aY, aT, p) = (Vector256.Create(levels[0]), Vector256.Create(years[0]), Vector256.Create(k2 * variances[0]));
        var (stt, sty, syy, logF, product) = (Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.One);
        var multiplied = 0;
        for (var i = 1; i < years.Length; i++)
        {
            var (y, t, noise) = (Vector256.Create(levels[i]), Vector256.Create(years[i]), Vector256.Create(k2 * variances[i]));
            if (begins[i])
            {
                (aY, aT, p) = (y, t, noise);
                continue;
            }
            var predicted = p + (w2 * Vector256.Create(years[i] - years[i - 1]));
            var f = predicted + noise;
            var inverse = Vector256<double>.One / f;
            var gain = predicted * inverse;
            var (vy, vt) = (y - aY, t - aT);
            var weighted = vt * inverse;
            stt += vt * weighted;
            sty += vy * weighted;
            syy += vy * vy * inverse;
            product *= f;
            if (++multiplied % LogEvery == 0)
            {
                logF += Log(product);
                product = Vector256<double>.One;
            }
            aY += gain * vy;
            aT += gain * vt;
            p = noise * gain;
        }
        logF += Log(product);
        stt.CopyTo(Stt, at);
        sty.CopyTo(Sty, at);
        syy.CopyTo(Syy, at);
        logF.CopyTo(LogF, at);
        aY.CopyTo(Level, at);
        aT.CopyTo(Time, at);
        p.CopyTo(Variance, at);
    }

    private static Vector256<double> Log(Vector256<double> x) => Vector256.Create(Math.Log(x[0]), Math.Log(x[1]), Math.Log(x[2]), Math.Log(x[3]));

    /// <summary>Log-likelihood of one walk, scale and slope spread; the constant 2 pi is left out.</summary>
    public double LogLikelihood(int walk, int scale, int slope)
    {
        var i = (scale * DriftGrid.AllWalks) + walk;
        var tau2 = DriftGrid.Slope[slope] * DriftGrid.Slope[slope];
        var z = 1 + (tau2 * Stt[i]);
        return (-0.5 * (LogF[i] + Syy[i])) - (0.5 * Math.Log(z)) + (0.5 * tau2 * Sty[i] * Sty[i] / z);
    }

    /// <summary>Log-likelihood of each node for a device that is steady or, rarely, restless.</summary>
    public double[] LogLikelihoods()
    {
        var single = new double[DriftGrid.AllWalks * DriftGrid.Scales * DriftGrid.Slopes];
        for (var walk = 0; walk < DriftGrid.AllWalks; walk++)
        {
            for (var scale = 0; scale < DriftGrid.Scales; scale++)
            {
                for (var slope = 0; slope < DriftGrid.Slopes; slope++) single[DriftGrid.Node(walk, scale, slope)] = LogLikelihood(walk, scale, slope);
            }
        }
        var mixed = new double[DriftGrid.Nodes];
        var restless = DriftGrid.Node(DriftGrid.RestlessSteps, 0, 0);
        for (var node = 0; node < mixed.Length; node++) mixed[node] = Classes.Mix(single[node], single[node + restless]);
        return mixed;
    }
}

/// <summary>Steady devices and restless ones, five in a hundred.</summary>
internal static class Classes
{
    private static readonly double LogSteady = Math.Log(1 - DriftGrid.RestlessShare);
    private static readonly double LogRestless = Math.Log(DriftGrid.RestlessShare);

    /// <summary>Log-likelihood of a device of either class.</summary>
    public static double Mix(double steady, double restless)
    {
        var (a, b) = (steady + LogSteady, restless + LogRestless);
        return a >= b ? a + Math.Log(1 + Math.Exp(b - a)) : b + Math.Log(1 + Math.Exp(a - b));
    }

    /// <summary>Probability that a device is steady, given both log-likelihoods.</summary>
    public static double ShareSteady(double steady, double restless) => 1 / (1 + Math.Exp(restless + LogRestless - steady - LogSteady));
}
