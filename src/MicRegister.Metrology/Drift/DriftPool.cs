namespace MicRegister.Metrology.Drift;

/// <summary>What the devices of one model tell together: a weight for each node of the grid.</summary>
public sealed class DriftPool
{
    /// <summary>Share of the weight that forecasts leave out, in nodes that hardly weigh anything.</summary>
    private const double LeftOut = 1e-12;

    private DriftPool(double[] logWeights, int devices, int results)
    {
        LogWeights = logWeights;
        Devices = devices;
        Results = results;
        var weights = Array.ConvertAll(logWeights, Math.Exp);
        double logWalk = 0, slope2 = 0, scale = 0;
        for (var w = 0; w < DriftGrid.Walks; w++)
        {
            for (var k = 0; k < DriftGrid.Scales; k++)
            {
                for (var s = 0; s < DriftGrid.Slopes; s++)
                {
                    var weight = weights[DriftGrid.Node(w, k, s)];
                    logWalk += weight * Math.Log(DriftGrid.Walk[w]);
                    slope2 += weight * DriftGrid.Slope[s] * DriftGrid.Slope[s];
                    scale += weight * DriftGrid.Scale[k];
                }
            }
        }
        Walk = Math.Exp(logWalk);
        SlopeSpread = Math.Sqrt(slope2);
        Scatter = scale;
        ScanScale = Math.Max(1, scale);
        Kept = Heaviest(weights);
    }

    /// <summary>Normalised logarithms of the weights.</summary>
    internal double[] LogWeights { get; }

    /// <summary>Devices behind it.</summary>
    public int Devices { get; }

    /// <summary>Results behind it.</summary>
    public int Results { get; }

    /// <summary>Mean walk in dB per square root of a year: exp of the mean logarithm.</summary>
    public double Walk { get; }

    /// <summary>Root mean square of the slope spread in dB per year.</summary>
    public double SlopeSpread { get; }

    /// <summary>Mean scatter of results as a multiple of their stated standard uncertainty.</summary>
    public double Scatter { get; }

    /// <summary>The same for looking for steps: never under 1.</summary>
    public double ScanScale { get; }

    /// <summary>Whether the fleet walks more than the forecasts were tried with: their bands are then too narrow for few devices.</summary>
    public bool IsOutsideTried => Walk > 0.1;

    /// <summary>Nodes that forecasts average over, with weights that add up to 1.</summary>
    internal (int Walk, int Scale, int Slope, double Weight)[] Kept { get; }

    /// <summary>Pools the log-likelihoods of devices, in the order given: the same order gives the same bits.</summary>
    /// <param name="logLikelihoods">One array of all nodes for each device; none leaves the priors.</param>
    /// <param name="results">Results behind them.</param>
    internal static DriftPool Of(IReadOnlyList<double[]> logLikelihoods, int results) => Of(Total(logLikelihoods), logLikelihoods.Count, results);

    internal static DriftPool Of(double[] total, int devices, int results)
    {
        var logs = new double[DriftGrid.Nodes];
        var greatest = double.NegativeInfinity;
        for (var n = 0; n < logs.Length; n++)
        {
            logs[n] = total[n] + DriftGrid.LogPrior[n];
            greatest = Math.Max(greatest, logs[n]);
        }
        double sum = 0;
        foreach (var log in logs) sum += Math.Exp(log - greatest);
        var normal = greatest + Math.Log(sum);
        for (var n = 0; n < logs.Length; n++) logs[n] -= normal;
        return new(logs, devices, results);
    }

    /// <summary>Sum over devices, first in blocks of neighbours: what changes in one device leaves the other blocks as they are.</summary>
    internal static double[] Total(IReadOnlyList<double[]> logLikelihoods, double[]?[]? blocks = null)
    {
        blocks ??= new double[]?[Blocks(logLikelihoods.Count)];
        var total = new double[DriftGrid.Nodes];
        for (var b = 0; b < blocks.Length; b++)
        {
            var block = blocks[b] ??= Sum(logLikelihoods, b * BlockSize, Math.Min(logLikelihoods.Count, (b + 1) * BlockSize));
            for (var n = 0; n < total.Length; n++) total[n] += block[n];
        }
        return total;
    }

    internal const int BlockSize = 64;

    internal static int Blocks(int devices) => (devices + BlockSize - 1) / BlockSize;

    private static double[] Sum(IReadOnlyList<double[]> logLikelihoods, int from, int to)
    {
        var sum = new double[DriftGrid.Nodes];
        for (var i = from; i < to; i++)
        {
            var device = logLikelihoods[i];
            for (var n = 0; n < sum.Length; n++) sum[n] += device[n];
        }
        return sum;
    }

    private static (int, int, int, double)[] Heaviest(double[] weights)
    {
        var order = Enumerable.Range(0, weights.Length).OrderBy(n => weights[n]).ThenBy(n => n).ToArray();
        double gone = 0;
        var from = 0;
        while (from < order.Length && gone + weights[order[from]] <= LeftOut) gone += weights[order[from++]];
        var kept = order[from..].Order().ToArray();
        var sum = kept.Sum(n => weights[n]);
        return [.. kept.Select(n => (n / (DriftGrid.Scales * DriftGrid.Slopes), n / DriftGrid.Slopes % DriftGrid.Scales, n % DriftGrid.Slopes, weights[n] / sum))];
    }
}
