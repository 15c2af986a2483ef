using MicRegister.Register.Facts;

namespace MicRegister.Register.Deployment;

/// <summary>
/// The weather that was noted at the site of a campaign, each quantity by its instant. What was noted of a day without a time is left out.
/// </summary>
internal sealed class WeatherLog
{
    /// <summary>How far a note may lie from what it is used for, in ms: three hours (common practice, no source).</summary>
    public const long SpanMs = 3 * 3_600_000;

    private static readonly IReadOnlySet<string> Kinds = FactKinds.NamesOf<WeatherNoted>();
    private static readonly WeatherLog None = new([]);

    private readonly Dictionary<WeatherQuantity, WeatherReading[]> _readings;

    private WeatherLog(IEnumerable<(long Instant, Fact Fact, WeatherNoted Said)> notes)
    {
        // Of one instant, the order of ids decides, so that the order in which they came does not.
        var ordered = notes.OrderBy(n => n.Instant).ThenBy(n => n.Fact.Id).ToList();
        _readings = Enum.GetValues<WeatherQuantity>().ToDictionary(q => q, q => ordered.Where(n => Of(n.Said, q) is not null)
            .Select(n => new WeatherReading(n.Instant, Of(n.Said, q)!.Value, n.Fact.Id)).ToArray());
    }

    /// <summary>The log of a campaign, folded once a state.</summary>
    public static WeatherLog Of(Register register, string campaign) => register.FoldEntries(
        Subject.Campaign(campaign),
        entries => new WeatherLog(register.ReadKinds(entries, Kinds).Where(e => e.Fact.Occurred.IsInstant && e.Fact.Body is WeatherNoted)
            .Select(e => (e.Entry.Milliseconds, e.Fact, (WeatherNoted)e.Fact.Body))),
        None);

    /// <summary>
    /// The reading of a quantity nearest to an instant, at most <see cref="SpanMs"/> away, itself allowed; of two equally near the
    /// earlier one. Null where there is none.
    /// </summary>
    /// <param name="quantity">What was read.</param>
    /// <param name="instant">Milliseconds since 1970.</param>
    public WeatherReading? Nearest(WeatherQuantity quantity, long instant)
    {
        var readings = _readings[quantity];
        var next = FirstFrom(readings, instant);
        var later = next < readings.Length ? readings[next] : null;
        var earlier = next > 0 ? readings[FirstFrom(readings, readings[next - 1].Instant)] : null;
        var nearest = earlier is null || (later is not null && later.Instant - instant < instant - earlier.Instant) ? later : earlier;
        return nearest is not null && Math.Abs(nearest.Instant - instant) <= SpanMs ? nearest : null;
    }

    private static int FirstFrom(WeatherReading[] readings, long instant)
    {
        var (low, high) = (0, readings.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (readings[middle].Instant < instant) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    private static double? Of(WeatherNoted said, WeatherQuantity quantity) => quantity switch
    {
        WeatherQuantity.WindFrom => said.WindFromDeg,
        WeatherQuantity.Wind => said.WindMs,
        WeatherQuantity.Temperature => said.TemperatureC,
        WeatherQuantity.Humidity => said.HumidityPercent,
        WeatherQuantity.Pressure => said.PressureKPa,
        _ => throw new ArgumentOutOfRangeException(nameof(quantity), quantity, null),
    };
}

/// <summary>One quantity of the weather, as it was read.</summary>
/// <param name="Instant">Milliseconds since 1970, its client's clock put right.</param>
/// <param name="Value">In the unit of its quantity.</param>
/// <param name="Fact">Id of the fact that says so.</param>
internal sealed record WeatherReading(long Instant, double Value, FactId Fact);

/// <summary>What is read of the weather.</summary>
internal enum WeatherQuantity
{
    /// <summary>Direction that the wind comes from, in ° clockwise from north.</summary>
    WindFrom,

    /// <summary>Its speed in m/s.</summary>
    Wind,

    /// <summary>Temperature in °C.</summary>
    Temperature,

    /// <summary>Relative humidity in %.</summary>
    Humidity,

    /// <summary>Static pressure at the place in kPa.</summary>
    Pressure,
}
