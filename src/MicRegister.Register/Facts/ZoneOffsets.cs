namespace MicRegister.Register.Facts;

/// <summary>Local days and UTC instants of a place whose offsets a fact holds.</summary>
public static class ZoneOffsets
{
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
