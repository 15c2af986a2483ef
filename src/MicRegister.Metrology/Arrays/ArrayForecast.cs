using MicRegister.Metrology.Drift;

namespace MicRegister.Metrology.Arrays;

/// <summary>How many devices of an array are outside their limits, when a shift common to all may be part of what is not known of each.</summary>
/// <remarks>
/// Given a common shift c ~ N(0, uc²) inside each standard deviation, the devices are independent: 61 values of c from -6 uc to 6 uc, trapezoid;
/// given c the number outside is Poisson-binomial. A device whose own deviation could not hold uc shares in the shift only as far as three
/// quarters of its variance, so that its own probability is the same with and without a common shift.
/// </remarks>
public sealed class ArrayForecast
{
    private const int Nodes = 61;
    private const double GreatestShare = 0.75;

    private readonly double[] _outside;

    private ArrayForecast(double commonDb, double[] outside, double product)
    {
        CommonUncertaintyDb = commonDb;
        _outside = outside;
        ProductOfSingle = product;
    }

    /// <summary>Standard uncertainty of the common shift, in dB.</summary>
    public double CommonUncertaintyDb { get; }

    /// <summary>Product of the single probabilities: a safe lower bound of <see cref="AllWithin"/>, but not of the spares needed.</summary>
    public double ProductOfSingle { get; }

    /// <summary>Probability that all devices are within their limits.</summary>
    public double AllWithin => _outside[0];

    /// <summary>Probability of each number of devices outside, from none to all.</summary>
    public IReadOnlyList<double> Outside => _outside;

    /// <summary>Expected number outside.</summary>
    public double MeanOutside => _outside.Select((p, k) => p * k).Sum();

    /// <summary>Standard deviation of the number outside.</summary>
    public double StandardDeviationOutside => Math.Sqrt(Math.Max(0, _outside.Select((p, k) => p * k * k).Sum() - (MeanOutside * MeanOutside)));

    /// <summary>Probability that at most some devices are outside.</summary>
    public double AtMost(int outside) => Math.Min(1, _outside.Take(outside + 1).Sum());

    /// <summary>How many spares it takes so that, with a probability, all who are outside can be replaced.</summary>
    public int Spares(double probability)
    {
        double sum = 0;
        for (var k = 0; k < _outside.Length; k++)
        {
            sum += _outside[k];
            if (sum >= probability) return k;
        }
        return _outside.Length - 1;
    }

    /// <summary>Works out an array.</summary>
    /// <param name="devices">The devices.</param>
    /// <param name="limitDb">Allowed deviation in dB.</param>
    /// <param name="commonDb">Standard uncertainty of a shift common to all, in dB, not negative; 0 takes the devices as independent.</param>
    public static ArrayForecast Of(IReadOnlyList<ArrayMember> devices, double limitDb, double commonDb)
    {
        if (!(commonDb >= 0) || !double.IsFinite(commonDb)) throw new ArgumentOutOfRangeException(nameof(commonDb), commonDb, "The uncertainty of a common shift is a finite number, not negative.");
        double product = 1;
        foreach (var d in devices) product *= d.Otherwise * d.Forecast.ProbabilityWithin(d.ReferenceDb, limitDb);

        var outside = new double[devices.Count + 1];
        foreach (var (z, weight) in Shifts(commonDb))
        {
            var given = LossCount.Distribution(devices.Select(d => d.Otherwise * Within(d.Forecast, d.ReferenceDb, limitDb, commonDb, z)));
            for (var k = 0; k < outside.Length; k++) outside[k] += weight * given[k];
        }
        return new(commonDb, outside, product);
    }

    /// <summary>Two arrays beside each other, independent of each other.</summary>
    public ArrayForecast And(ArrayForecast other)
    {
        var both = new double[_outside.Length + other._outside.Length - 1];
        for (var i = 0; i < _outside.Length; i++)
        {
            for (var k = 0; k < other._outside.Length; k++) both[i + k] += _outside[i] * other._outside[k];
        }
        return new(Math.Max(CommonUncertaintyDb, other.CommonUncertaintyDb), both, ProductOfSingle * other.ProductOfSingle);
    }

    /// <summary>The values of a common shift that are summed over, in parts of its standard uncertainty, and the weight of each.</summary>
    /// <param name="commonDb">Its standard uncertainty in dB; 0 is one value.</param>
    public static IEnumerable<(double Z, double Weight)> Shifts(double commonDb)
    {
        if (commonDb == 0) return [(0, 1)];
        return Enumerable.Range(0, Nodes).Select(node =>
        {
            var z = -6 + (12.0 * node / (Nodes - 1));
            return (z, Math.Exp(-0.5 * z * z) / Math.Sqrt(2 * Math.PI) * (12.0 / (Nodes - 1)) * (node is 0 or Nodes - 1 ? 0.5 : 1));
        });
    }

    /// <summary>Probability that a device is within its limit, given the common shift.</summary>
    /// <param name="forecast">What is expected of its level.</param>
    /// <param name="referenceDb">Level that it must stay near, in dB.</param>
    /// <param name="limitDb">Allowed deviation in dB.</param>
    /// <param name="commonDb">Standard uncertainty of the shift in dB.</param>
    /// <param name="z">The shift in parts of it.</param>
    public static double Within(LevelForecast forecast, double referenceDb, double limitDb, double commonDb, double z)
    {
        if (commonDb == 0) return forecast.ProbabilityWithin(referenceDb, limitDb);
        double outside = 0;
        for (var i = 0; i < forecast.Weights.Count; i++)
        {
            var own = forecast.Deviations[i];
            var shared = Math.Min(commonDb, Math.Sqrt(GreatestShare) * own);
            var left = Math.Sqrt((own * own) - (shared * shared));
            var mean = forecast.Means[i] + (shared * z) - referenceDb;
            outside += forecast.Weights[i] * (LevelForecast.Phi((mean - limitDb) / left) + LevelForecast.Phi((-limitDb - mean) / left));
        }
        return Math.Clamp(1 - outside, 0, 1);
    }
}

/// <summary>A device in an array.</summary>
/// <param name="Forecast">What is expected of its level on the day.</param>
/// <param name="ReferenceDb">Level that it must stay near, in dB.</param>
/// <param name="Otherwise">Probability that all else of its station holds, from 0 to 1.</param>
public readonly record struct ArrayMember(LevelForecast Forecast, double ReferenceDb, double Otherwise = 1);
