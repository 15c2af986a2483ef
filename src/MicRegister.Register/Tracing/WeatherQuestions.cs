using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;

namespace MicRegister.Register.Tracing;

/// <summary>
/// Whether the weather was as the profile asks. What was read during the event and lies outside makes it not valid; the nearest reading
/// before or after it makes it doubtful, as does a limit on what nobody read.
/// </summary>
internal static class WeatherQuestions
{
    private const double MinuteMs = 60_000;

    private static readonly WeatherLimit[] Limits =
    [
        new(LimitKey.WindMs, "the wind", "m/s", WeatherQuantity.Wind),
        new(LimitKey.GustMs, "the greatest gust", "m/s", WeatherQuantity.Gust),
        new(LimitKey.CrosswindMs, "the wind across the track", "m/s", WeatherQuantity.Wind) { IsAcross = true },
        new(LimitKey.CrosswindGustMs, "the greatest gust across the track", "m/s", WeatherQuantity.Gust) { IsAcross = true },
        new(LimitKey.TemperatureLeastC, "the temperature", "°C", WeatherQuantity.Temperature) { IsLeast = true },
        new(LimitKey.TemperatureMostC, "the temperature", "°C", WeatherQuantity.Temperature),
        new(LimitKey.HumidityLeastPercent, "the humidity", "%", WeatherQuantity.Humidity) { IsLeast = true },
        new(LimitKey.HumidityMostPercent, "the humidity", "%", WeatherQuantity.Humidity),
    ];

    public static IEnumerable<TraceReason> WeatherLimits(TracedChain c)
    {
        if (c.Profile is not { } profile) return [];
        var known = c.Shared.WeatherReasons;
        if (!known.TryGetValue((c.FromMs, c.ToMs), out var reasons)) known[(c.FromMs, c.ToMs)] = reasons = [.. Judged(c, profile)];
        return reasons;
    }

    private static IEnumerable<TraceReason> Judged(TracedChain c, ProfileState profile)
    {
        var minutes = profile.Value(LimitKey.WeatherMinutes);
        var spanMs = minutes is { } m ? (long)(m * MinuteMs) : WeatherLog.SpanMs;
        var unknown = new List<string>();
        foreach (var limit in Limits)
        {
            if (profile.Value(limit.Key) is not { } bound) continue;
            double? Value(WeatherSample s) => limit.Of(s, c.Campaign.Plan?.TrackDeg, bound);
            var during = c.Shared.Weather.Between(c.FromMs, c.ToMs).ToArray().Where(s => s.Of(limit.Quantity) is not null).ToList();
            var isDuring = during.Count > 0;
            if (!isDuring && Nearest(c, spanMs, limit.Quantity) is { } nearest) during.Add(nearest);
            if (during.Count == 0 || during.Exists(s => Value(s) is null)) unknown.Add(limit.Name);
            var told = during.Where(s => Value(s) is not null);
            if ((limit.IsLeast ? told.MinBy(Value) : told.MaxBy(Value)) is not { } found) continue;
            var value = Value(found)!.Value;
            if (limit.IsLeast ? DecisionLimit.AtLeast(value, bound) : DecisionLimit.AtMost(value, bound)) continue;
            var allowed = $"{(limit.IsLeast ? "at least" : "at most")} {QuantityText.UpTo(bound, 2)} {limit.Unit}";
            var text = $"{limit.Name} was {QuantityText.UpTo(value, 2)} {limit.Unit}; the profile asks for {allowed}.";
            var apart = found.Instant < c.FromMs ? c.FromMs - found.Instant : found.Instant - c.ToMs;
            yield return new(
                isDuring ? TraceVerdict.NotValid : TraceVerdict.Doubtful,
                isDuring ? "During it " + text
                    : $"{QuantityText.Number(Math.Ceiling(apart / MinuteMs), 0)} min {(found.Instant < c.FromMs ? "before" : "after")} it, "
                        + "where the nearest reading was taken, " + text,
                $"fact {found.Fact}, profile {profile.Id}, {limit.Key}");
        }
        if (unknown.Count == 0) yield break;
        var within = minutes is { } n ? $"{QuantityText.UpTo(n, 1)} min" : "three hours";
        yield return new(
            TraceVerdict.Doubtful,
            $"What {string.Join(", ", unknown.Distinct(StringComparer.Ordinal))} was at it is not known: nothing tells it within {within}, "
                + "and the profile limits it.",
            $"profile {profile.Id}");
    }

    // Of two equally near the earlier one.
    private static WeatherSample? Nearest(TracedChain c, long spanMs, WeatherQuantity quantity)
    {
        WeatherSample? earlier = null, later = null;
        foreach (var s in c.Shared.Weather.Between(c.FromMs - spanMs, c.FromMs - 1))
        {
            if (s.Of(quantity) is not null && s.Instant != earlier?.Instant) earlier = s;
        }
        foreach (var s in c.Shared.Weather.Between(c.ToMs + 1, c.ToMs + spanMs))
        {
            if (s.Of(quantity) is null) continue;
            later = s;
            break;
        }
        return earlier is null || (later is not null && later.Instant - c.ToMs < c.FromMs - earlier.Instant) ? later : earlier;
    }

    /// <summary>A limit of a profile.</summary>
    /// <param name="Key">Its key.</param>
    /// <param name="Name">What is limited.</param>
    /// <param name="Unit">Its unit.</param>
    /// <param name="Quantity">What tells it.</param>
    private sealed record WeatherLimit(string Key, string Name, string Unit, WeatherQuantity Quantity)
    {
        /// <summary>Whether it is the least that is allowed, rather than the greatest.</summary>
        public bool IsLeast { get; init; }

        /// <summary>Whether only the part across the track is limited.</summary>
        public bool IsAcross { get; init; }

        /// <summary>The value by a sample; null where the sample does not tell it.</summary>
        public double? Of(WeatherSample s, double? trackDeg, double mostMs)
        {
            if (s.Of(Quantity) is not { } value || !IsAcross) return s.Of(Quantity);
            if (s.Said.WindFromDeg is { } from && trackDeg is { } track) return value * Math.Abs(Math.Sin((from - track) * Math.PI / 180));
            // Wind that is weak enough in any direction needs none.
            return DecisionLimit.AtMost(value, mostMs) ? value : null;
        }
    }
}
