using MicRegister.Metrology.Drift;

namespace MicRegister.Honesty;

/// <summary>Whether what was said to be probable came true as often.</summary>
internal static class ReliabilityOfProbability
{
    private const int Devices = 3_600;
    private const int Seed = 940_000;
    private static readonly int[] Sizes = [3, 10, 30];
    private static readonly double[] Years = [0.25, 1, 2];
    private static readonly double[] Edges = [0, .7, .81, .9, .955, .99, 1.0001];

    public static void Run(Judge judge)
    {
        Console.WriteLine();
        Console.WriteLine("Said probability to be within ±0.2 dB of the newest result, and how often it came true (3 to 30 devices, walk .005 to .08, .25, 1 and 2 years). Before: .62 .76 .86 .93 .976 .996 came true .59 .77 .89 .96 .989 .999.");
        Console.WriteLine("| said | came true | forecasts |");
        Console.WriteLine("|---|---|---|");
        double[] before = [59, 77, 89, 96, 98.9, 99.9];
        Share[] came = [.. before.Select(_ => new Share())];
        var said = new double[before.Length];
        var counts = new int[before.Length];
        (double Walk, double Slope)[] truths = [(.005, 0), (.02, .01), (.04, .02), (.08, .03)];
        Parallel.ForEach(truths.SelectMany((t, k) => Sizes.SelectMany(size => Enumerable.Range(0, Devices / size / truths.Length * 2).Select(n => (Truth: t, K: k, Size: size, N: n)))), cell =>
        {
            var random = new Chance(Seed + (cell.K * 100_000) + (cell.Size * 1_000_000) + cell.N);
            Invented[] devices = [.. Enumerable.Range(0, cell.Size).Select(_ => Invented.Of(random, cell.Truth.Walk, cell.Truth.Slope, 2, 12))];
            var fleet = FleetDrift.Estimate([.. devices.Select(d => d.History)], looksForSteps: false);
            var (hits, all) = (new int[before.Length], new int[before.Length]);
            for (var i = 0; i < cell.Size; i++)
            {
                var device = fleet.Forecast(i);
                foreach (var years in Years)
                {
                    var p = device.At(device.NewestDay + (365.25 * years)).ProbabilityWithin(device.ReferenceDb, 0.2);
                    var bin = Array.FindLastIndex(Edges, e => p >= e);
                    var isWithin = Math.Abs(devices[i].TrueAfter(random, years) - device.ReferenceDb) <= 0.2;
                    all[bin]++;
                    if (isWithin) hits[bin]++;
                    lock (said)
                    {
                        said[bin] += p;
                        counts[bin]++;
                    }
                }
            }
            for (var b = 0; b < all.Length; b++)
            {
                if (all[b] > 0) came[b].Add(hits[b], all[b]);
            }
        });
        for (var b = 0; b < before.Length; b++)
        {
            // Honest to slightly cautious: what came true is not less often than said, within its error.
            var mean = 100 * said[b] / counts[b];
            judge.Compare(FormattableString.Invariant($"said {mean:0.0} % came true"), Math.Min(came[b].Percent, mean), came[b].StandardError, mean, 0);
            Console.WriteLine(FormattableString.Invariant($"| {mean / 100:0.000} | {came[b].Percent / 100:0.000} ± {came[b].StandardError / 100:0.000} | {counts[b]} |"));
        }
    }
}
