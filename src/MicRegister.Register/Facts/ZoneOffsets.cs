namespace MicRegister.Register.Facts;

/// <summary>Local days and UTC instants of a place whose offsets a fact holds.</summary>
public static class ZoneOffsets
{
    /// <summary>No zone of the world lies further from UTC: 14 hours ahead and 12 behind, and a little room.</summary>
    private const int MostMinutes = 18 * 60;

    /// <summary>Why offsets cannot be those of a zone; null where they can. None at all is UTC.</summary>
    /// <param name="offsets">As they were stated.</param>
    public static string? Wrong(IReadOnlyList<ZoneOffset> offsets)
    {
        var before = long.MinValue;
        foreach (var (from, minutes) in offsets)
        {
            if (!Occurred.TryParse(from, out var at) || !at.IsInstant)
                return $"Offset from '{from}': allowed is an instant in UTC such as 2026-03-29T01:00:00.000Z.";
            if (at.UnixMilliseconds <= before) return $"Offset from '{from}': each begins after the one before it.";
            if (Math.Abs(minutes) > MostMinutes)
                return FormattableString.Invariant($"Offset '{minutes}' minutes: allowed is from {-MostMinutes} to {MostMinutes}.");
            before = at.UnixMilliseconds;
        }
        return null;
    }

    /// <summary>The instant at which a local day begins, in milliseconds since 1970.</summary>
    /// <param name="day">The local day.</param>
    /// <param name="offsets">Oldest first; none is UTC.</param>
    public static long StartOfDay(DateOnly day, IReadOnlyList<ZoneOffset> offsets)
    {
        var utc = Occurred.On(day).UnixMilliseconds;
        if (offsets.Count == 0) return utc;
        var minutes = offsets[0].Minutes;
        foreach (var offset in offsets)
        {
            if (Occurred.TryParse(offset.FromUtc, out var from) && from.UnixMilliseconds <= utc - (offset.Minutes * 60_000L))
                minutes = offset.Minutes;
        }
        return utc - (minutes * 60_000L);
    }

    /// <summary>What a local clock shows at an instant, in milliseconds since 1970 on that clock.</summary>
    /// <param name="utcMilliseconds">Milliseconds since 1970.</param>
    /// <param name="offsets">Oldest first; the first holds for all times before as well; none is UTC.</param>
    public static long LocalOf(long utcMilliseconds, IReadOnlyList<ZoneOffset> offsets)
    {
        var minutes = offsets.Count == 0 ? 0 : offsets[0].Minutes;
        foreach (var offset in offsets)
        {
            if (Occurred.TryParse(offset.FromUtc, out var from) && from.UnixMilliseconds <= utcMilliseconds) minutes = offset.Minutes;
        }
        return utcMilliseconds + (minutes * 60_000L);
    }

    /// <summary>The local day of an instant.</summary>
    /// <param name="utcMilliseconds">Milliseconds since 1970.</param>
    /// <param name="offsets">Oldest first; none is UTC.</param>
    public static DateOnly LocalDay(long utcMilliseconds, IReadOnlyList<ZoneOffset> offsets) =>
        // A clock that was never set may lie near the end of all days.
        Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(
            Math.Clamp(
                LocalOf(utcMilliseconds, offsets),
                DateTimeOffset.MinValue.ToUnixTimeMilliseconds(),
                DateTimeOffset.MaxValue.ToUnixTimeMilliseconds()))).Day;
}
