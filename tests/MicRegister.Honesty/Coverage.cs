using MicRegister.Metrology.Drift;

namespace MicRegister.Honesty;

/// <summary>How often the 95 % band holds the truth, and how wide it is beside one that knows the parameters.</summary>
internal static class Coverage
{
    private const int Devices = 9_000;
    private const int Seed = 810_000;
    private static readonly double[] Horizons = [0.25, 1, 2];
    private static readonly (double Walk, double Slope)[] Truths = [(0, 0), (.005, 0), (.02, .01), (.04, .02), (.08, .03)];
    private static readonly int[] Sizes = [1, 3, 5, 10, 30, 100];

    // Lowest and highest coverage in per cent of an independent simulation (numpy 1.24, scipy 1.10; 3,000 devices a cell, its own seeds), by fleet size.
    private static readonly Dictionary<Scatter, (int Low, int High, double Width)[]> Before = new()
    {
        [Scatter.AsStated] = [(96, 100, 2.55), (95, 100, 1.95), (95, 100, 1.74), (95, 100, 1.50), (95, 100, 1.23), (94, 98, 1.09)],
        [Scatter.OneAndAHalf] = [(95, 100, 2.29), (95, 100, 1.88), (96, 100, 1.66), (95, 100, 1.43), (95, 99, 1.22), (92, 98, 1.09)],
        [Scatter.Half] = [(95, 100, 1.19), (93, 100, 0.99), (95, 100, 0.98), (94, 100, 0.99), (95, 100, 1.00), (96, 100, 1.02)],
        [Scatter.HalfAndConstantRest] = [(94, 100, 1.22), (92, 99, 1.01), (93, 99, 0.99), (94, 99, 0.98), (95, 97, 0.99), (95, 97, 0.99)],
        [Scatter.HeavyTailsSameDeviation] = [(96, 100, 2.55), (95, 100, 2.01), (95, 100, 1.84), (95, 100, 1.67), (95, 99, 1.48), (95, 99, 1.34)],
        [Scatter.HeavyTailsSameScale] = [(95, 100, 2.97), (95, 100, 2.44), (95, 100, 2.18), (95, 100, 1.89), (95, 99, 1.66), (95, 99, 1.61)],
        [Scatter.SomeDevicesWalkTenfold] = [(95, 100, 2.73), (95, 99, 2.17), (95, 99, 1.98), (95, 99, 1.76), (96, 98, 1.50), (96, 98, 1.45)],
        [Scatter.GrossErrors] = [(98, 100, 3.29), (97, 100, 2.73), (97, 100, 2.50), (96, 100, 2.17), (95, 99, 2.00), (94, 100, 2.01)],
    };

    public static void Run(Judge judge)
    {
        Console.WriteLine("Coverage of 95 % bands in per cent, lowest to highest of 5 truths × 3 horizons; w: mean over the truths of the width at 1 year over that with known parameters. Before: an independent simulation.");
        Console.WriteLine($"| situation | {string.Join(" | ", Sizes.Select(s => $"{s} devices"))} |");
        Console.WriteLine("|---|" + string.Concat(Sizes.Select(_ => "---|")));
        foreach (var scatter in Enum.GetValues<Scatter>())
        {
            var cells = new List<string>();
            for (var s = 0; s < Sizes.Length; s++)
            {
                var figures = new List<(double Percent, double Error)>();
                double ratio = 0;
                for (var truth = 0; truth < Truths.Length; truth++)
                {
                    var (shares, wide, ideal) = Cell(scatter, Sizes[s], truth);
                    figures.AddRange(shares.Select(f => (f.Percent, f.StandardError)));
                    ratio += wide / ideal / Truths.Length;
                }
                foreach (var f in figures) judge.Band(f.Percent);
                var (lowest, highest) = (figures.MinBy(f => f.Percent), figures.MaxBy(f => f.Percent));
                var before = Before[scatter][s];
                var errorBefore = Sizes[s] < 100 ? 0.4 : 0.8;
                judge.Compare($"{scatter}, {Sizes[s]} devices, lowest coverage", lowest.Percent, lowest.Error, before.Low, errorBefore);
                judge.Compare($"{scatter}, {Sizes[s]} devices, highest coverage", highest.Percent, highest.Error, before.High, errorBefore);
                cells.Add(FormattableString.Invariant($"{lowest.Percent:0.0}-{highest.Percent:0.0} w{ratio:0.00} (before {before.Low}-{before.High} w{before.Width:0.00})"));
            }
            Console.WriteLine($"| {scatter} | {string.Join(" | ", cells)} |");
        }
    }

    private static (Share[] Shares, double Wide, double Ideal) Cell(Scatter scatter, int size, int truth)
    {
        Share[] shares = [.. Horizons.Select(_ => new Share())];
        var (walk, slope) = Truths[truth];
        var widths = new (double Ours, double Ideal)[Devices / size];
        Parallel.For(0, Devices / size, fleetNumber =>
        {
            var random = new Chance(Seed + (100_000 * (int)scatter) + (10_000 * truth) + (1_000_000 * size) + fleetNumber);
            Invented[] devices = [.. Enumerable.Range(0, size).Select(_ => Invented.Of(random, walk, slope, 2, 12, scatter))];
            var fleet = FleetDrift.Estimate([.. devices.Select(d => d.History)], looksForSteps: false);
            var hits = new int[Horizons.Length];
            for (var i = 0; i < size; i++)
            {
                var device = fleet.Forecast(i);
                for (var h = 0; h < Horizons.Length; h++)
                {
                    var forecast = device.At(device.NewestDay + (365.25 * Horizons[h]));
                    var below = forecast.Cumulative(devices[i].TrueAfter(random, Horizons[h]));
                    if (below is >= 0.025 and <= 0.975) hits[h]++;
                    // Widths cost quantiles; every eighth device tells enough.
                    if (h == 1 && (fleetNumber + i) % 8 == 0)
                    {
                        var (low, high) = forecast.Band();
                        widths[fleetNumber].Ours += high - low;
                        widths[fleetNumber].Ideal += KnownWidth(devices[i], walk, slope, scatter);
                    }
                }
            }
            for (var h = 0; h < Horizons.Length; h++) shares[h].Add(hits[h], size);
        });
        return (shares, widths.Sum(w => w.Ours), widths.Sum(w => w.Ideal));
    }

    // Width at one year of the band that knows walk, slope spread and scatter: the filter at the truth.
    private static double KnownWidth(Invented device, double walk, double slope, Scatter scatter)
    {
        var history = device.History;
        var scale = scatter switch { Scatter.OneAndAHalf => 1.5, Scatter.Half or Scatter.HalfAndConstantRest => 0.5, _ => 1 };
        double p = 0, aT = 0, stt = 0;
        for (var i = 0; i < history.Count; i++)
        {
            var t = (history.Days[i] - history.Days[0]) / 365.25;
            var noise = scale * scale * history.StandardUncertaintiesDb[i] * history.StandardUncertaintiesDb[i];
            if (i == 0)
            {
                (p, aT) = (noise, t);
                continue;
            }
            var predicted = p + (walk * walk * (history.Days[i] - history.Days[i - 1]) / 365.25);
            var f = predicted + noise;
            var gain = predicted / f;
            stt += (t - aT) * (t - aT) / f;
            aT += gain * (t - aT);
            p = noise * gain;
        }
        var ahead = ((history.Days[^1] - history.Days[0]) / 365.25) + 1 - aT;
        var rest = scatter is Scatter.Half or Scatter.HalfAndConstantRest ? 0.75 * history.StandardUncertaintiesDb[^1] * history.StandardUncertaintiesDb[^1] : 0;
        return 2 * 1.959964 * Math.Sqrt(p + (walk * walk) + (ahead * ahead * slope * slope / (1 + (slope * slope * stt))) + rest);
    }
}
