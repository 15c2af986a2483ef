using MicRegister.Metrology.Drift;

namespace MicRegister.Honesty;

/// <summary>How the results of an invented fleet scatter around the truth.</summary>
internal enum Scatter
{
    AsStated,
    OneAndAHalf,
    Half,
    HalfAndConstantRest,
    HeavyTailsSameDeviation,
    HeavyTailsSameScale,
    SomeDevicesWalkTenfold,
    GrossErrors,
}

/// <summary>A device whose truth is known.</summary>
/// <param name="History">Its results.</param>
/// <param name="Slope">True slope in dB per year.</param>
/// <param name="Walk">True walk in dB per square root of a year.</param>
/// <param name="TrueNewestDb">True level on the day of the newest result, in dB.</param>
internal sealed record Invented(ResultHistory History, double Slope, double Walk, double TrueNewestDb)
{
    /// <summary>Makes a device.</summary>
    /// <param name="random">Where chance comes from.</param>
    /// <param name="walk">Walk of the model.</param>
    /// <param name="slopeSpread">Slope spread of the model.</param>
    /// <param name="least">Least number of results.</param>
    /// <param name="greatest">Greatest number of results, inclusive.</param>
    /// <param name="scatter">How results scatter.</param>
    /// <param name="spoil">Changes results, in dB, before they are taken for true; null leaves them.</param>
    public static Invented Of(Chance random, double walk, double slopeSpread, int least, int greatest, Scatter scatter = Scatter.AsStated, Action<double[]>? spoil = null)
    {
        var n = least + random.Below(greatest - least + 1);
        var (days, levels, u) = (new double[n], new double[n], new double[n]);
        if (scatter == Scatter.SomeDevicesWalkTenfold && random.Uniform() < 0.05) walk *= 10;
        double slope = slopeSpread * random.Normal(), level = -30, day = 730_000 + random.Below(500);
        for (var i = 0; i < n; i++) u[i] = 0.025 + (0.075 * random.Uniform());
        // What no result shows: the laboratory's reference, off by the same share of each certificate's own uncertainty.
        var rest = scatter == Scatter.HalfAndConstantRest ? Math.Sqrt(0.75) * random.Normal() : 0;
        for (var i = 0; i < n; i++)
        {
            if (i > 0)
            {
                var gap = Math.Round((0.4 + (0.9 * random.Uniform())) * 365.25);
                day += gap;
                level += (slope * gap / 365.25) + (walk * Math.Sqrt(gap / 365.25) * random.Normal());
            }
            days[i] = day;
            levels[i] = level + (u[i] * (rest + Error(random, scatter)));
            if (scatter == Scatter.GrossErrors && random.Uniform() < 0.02) levels[i] += (random.Uniform() < 0.5 ? -1 : 1) * (0.2 + (0.3 * random.Uniform()));
        }
        spoil?.Invoke(levels);
        return new(new(days, levels, u), slope, walk, level);
    }

    /// <summary>True level some years after the newest result.</summary>
    public double TrueAfter(Chance random, double years) => TrueNewestDb + (Slope * years) + (Walk * Math.Sqrt(years) * random.Normal());

    private static double Error(Chance random, Scatter scatter) => scatter switch
    {
        Scatter.OneAndAHalf => 1.5 * random.Normal(),
        Scatter.Half or Scatter.HalfAndConstantRest => 0.5 * random.Normal(),
        Scatter.HeavyTailsSameDeviation => random.Student4() / Math.Sqrt(2),
        Scatter.HeavyTailsSameScale => random.Student4(),
        _ => random.Normal(),
    };
}

/// <summary>Seeded chance.</summary>
internal sealed class Chance(int seed)
{
    private readonly Random _random = new(seed);

    public double Uniform() => _random.NextDouble();

    public int Below(int n) => _random.Next(n);

    public double Normal() => Math.Sqrt(-2 * Math.Log(1 - _random.NextDouble())) * Math.Cos(2 * Math.PI * _random.NextDouble());

    /// <summary>Student's t with four degrees of freedom.</summary>
    public double Student4()
    {
        var normal = Normal();
        double chi = 0;
        for (var i = 0; i < 4; i++)
        {
            var z = Normal();
            chi += z * z;
        }
        return normal / Math.Sqrt(chi / 4);
    }
}

/// <summary>A share of successes whose devices come in fleets: errors within a fleet go together, so the fleet is what is drawn again.</summary>
internal sealed class Share
{
    private readonly List<(int Hits, int Count)> _fleets = [];

    public void Add(int hits, int count)
    {
        lock (_fleets) _fleets.Add((hits, count));
    }

    public double Percent => 100.0 * _fleets.Sum(f => f.Hits) / Math.Max(1, _fleets.Sum(f => f.Count));

    public int Count => _fleets.Sum(f => f.Count);

    /// <summary>Standard error in per cent, by 200 bootstrap draws over fleets.</summary>
    public double StandardError
    {
        get
        {
            // Added in any order by many threads; sorted, so that the draws repeat.
            var fleets = _fleets.OrderBy(f => f.Hits).ThenBy(f => f.Count).ToList();
            var random = new Random(fleets.Count);
            var draws = new double[200];
            for (var d = 0; d < draws.Length; d++)
            {
                int hits = 0, count = 0;
                for (var i = 0; i < fleets.Count; i++)
                {
                    var (h, c) = fleets[random.Next(fleets.Count)];
                    hits += h;
                    count += c;
                }
                draws[d] = count == 0 ? 0 : 100.0 * hits / count;
            }
            var mean = draws.Average();
            return Math.Sqrt(draws.Sum(x => (x - mean) * (x - mean)) / (draws.Length - 1));
        }
    }
}
