using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Deployment;

/// <summary>
/// The weather that was noted or logged at the site of a campaign, each quantity by its instant. What was noted of a day without a time
/// is left out.
/// </summary>
public sealed class WeatherLog
{
    /// <summary>How far a note may lie from what it is used for, in ms: three hours (common practice, no source).</summary>
    public const long SpanMs = 3 * 3_600_000;

    private static readonly IReadOnlySet<string> Kinds =
        FactKinds.NamesOf<WeatherNoted>().Concat(FactKinds.NamesOf<WeatherLogged>()).ToHashSet(StringComparer.Ordinal);

    private static readonly WeatherLog None = new([], new HashSet<string>(StringComparer.Ordinal));

    private readonly Dictionary<WeatherQuantity, WeatherReading[]> _readings;
    private readonly WeatherSample[] _samples;
    private readonly IReadOnlySet<string> _files;

    private WeatherLog(IEnumerable<WeatherSample> samples, IReadOnlySet<string> files)
    {
        _files = files;
        // Of one instant, the order of ids decides, so that the order in which they came does not.
        _samples = [.. samples.OrderBy(s => s.Instant).ThenBy(s => s.Fact)];
        _readings = Enum.GetValues<WeatherQuantity>().ToDictionary(q => q, q => _samples.Where(s => s.Of(q) is not null)
            .Select(s => new WeatherReading(s.Instant, s.Of(q)!.Value, s.Fact)).ToArray());
    }

    /// <summary>The log of a campaign, folded once a state.</summary>
    public static WeatherLog Of(Register register, string campaign) =>
        register.FoldEntries(Subject.Campaign(campaign), entries => Fold(register, entries), None);

    /// <summary>SHA-256 of the files of loggers that were taken over.</summary>
    public static IReadOnlySet<string> Files(Register register, string campaign) => Of(register, campaign)._files;

    /// <summary>All that was noted or logged, in the order of time.</summary>
    public IReadOnlyList<WeatherSample> Samples => _samples;

    /// <summary>What was noted or logged from one instant to another, both themselves included.</summary>
    public ReadOnlySpan<WeatherSample> Between(long from, long to)
    {
        var begin = FirstFrom(_samples, s => s.Instant, from);
        return _samples.AsSpan(begin, Math.Max(0, FirstFrom(_samples, s => s.Instant, to + 1) - begin));
    }

    /// <summary>
    /// The reading of a quantity nearest to an instant, at most <see cref="SpanMs"/> away, itself allowed; of two equally near the
    /// earlier one. Null where there is none.
    /// </summary>
    /// <param name="quantity">What was read.</param>
    /// <param name="instant">Milliseconds since 1970.</param>
    public WeatherReading? Nearest(WeatherQuantity quantity, long instant)
    {
        var readings = _readings[quantity];
        var next = FirstFrom(readings, r => r.Instant, instant);
        var later = next < readings.Length ? readings[next] : null;
        var earlier = next > 0 ? readings[FirstFrom(readings, r => r.Instant, readings[next - 1].Instant)] : null;
        var nearest = earlier is null || (later is not null && later.Instant - instant < instant - earlier.Instant) ? later : earlier;
        return nearest is not null && Math.Abs(nearest.Instant - instant) <= SpanMs ? nearest : null;
    }

    private static WeatherLog Fold(Register register, TimelineEntry[] entries)
    {
        var samples = new List<WeatherSample>();
        var files = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (entry, fact) in register.ReadKinds(entries, Kinds))
        {
            if (fact.Body is WeatherNoted noted && fact.Occurred.IsInstant) samples.Add(new(entry.Milliseconds, fact.Id, noted, null));
            if (fact.Body is not WeatherLogged logged) continue;
            files.Add(logged.Sha256);
            foreach (var r in logged.Readings)
            {
                if (Occurred.TryParse(r.At, out var at) && at.IsInstant)
                {
                    samples.Add(new(
                        at.UnixMilliseconds, fact.Id, new(r.WindFromDeg, r.WindMs, r.TemperatureC, r.HumidityPercent, r.PressureKPa),
                        r.GustMs));
                }
            }
        }
        return new(samples, files);
    }

    private static int FirstFrom<T>(T[] ordered, Func<T, long> instantOf, long instant)
    {
        var (low, high) = (0, ordered.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (instantOf(ordered[middle]) < instant) low = middle + 1;
            else high = middle;
        }
        return low;
    }
}

/// <summary>The weather at one instant, as it was noted or logged.</summary>
/// <param name="Instant">Milliseconds since 1970; of a note its client's clock put right.</param>
/// <param name="Fact">Id of the fact that says so.</param>
/// <param name="Said">What was read.</param>
/// <param name="GustMs">Greatest speed of the wind in m/s; null where it was not read.</param>
public sealed record WeatherSample(long Instant, FactId Fact, WeatherNoted Said, double? GustMs)
{
    internal double? Of(WeatherQuantity quantity) => quantity switch
    {
        WeatherQuantity.WindFrom => Said.WindFromDeg,
        WeatherQuantity.Wind => Said.WindMs,
        WeatherQuantity.Gust => GustMs,
        WeatherQuantity.Temperature => Said.TemperatureC,
        WeatherQuantity.Humidity => Said.HumidityPercent,
        WeatherQuantity.Pressure => Said.PressureKPa,
        _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, null),
    };
}

/// <summary>One quantity of the weather, as it was read.</summary>
/// <param name="Instant">Milliseconds since 1970, its client's clock put right.</param>
/// <param name="Value">In the unit of its quantity.</param>
/// <param name="Fact">Id of the fact that says so.</param>
public sealed record WeatherReading(long Instant, double Value, FactId Fact);

/// <summary>What is read of the weather.</summary>
public enum WeatherQuantity
{
    /// <summary>Direction that the wind comes from, in ° clockwise from north.</summary>
    WindFrom,

    /// <summary>Its speed in m/s.</summary>
    Wind,

    /// <summary>Its greatest speed in m/s.</summary>
    Gust,

    /// <summary>Temperature in °C.</summary>
    Temperature,

    /// <summary>Relative humidity in %.</summary>
    Humidity,

    /// <summary>Static pressure at the place in kPa.</summary>
    Pressure,
}
