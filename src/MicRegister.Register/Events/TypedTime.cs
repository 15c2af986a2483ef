using System.Globalization;

namespace MicRegister.Register.Events;

/// <summary>A time as people type it or a table states it. The default is midnight without a day.</summary>
/// <param name="Ms">Milliseconds since 1970 on the clock that is meant; since midnight where no day was stated.</param>
/// <param name="HasDay">Whether a day was stated.</param>
/// <param name="EndsInZ">
/// Whether it says by itself which instant it is, by a Z or an offset from UTC; then <paramref name="Ms"/> is UTC.
/// </param>
public readonly record struct TypedTime(long Ms, bool HasDay, bool EndsInZ)
{
    // One digit or two for the hour; minutes and seconds always have two.
    private static readonly string[] Clock = ["H:mm", "H:mm:ss", "H:mm:ss.FFFFFFF"];
    private static readonly string[] WithDay = [.. Clock.SelectMany(c => new[] { "yyyy-MM-dd " + c, "yyyy-MM-dd'T'" + c })];

    /// <summary>Reads a time.</summary>
    /// <param name="text">
    /// A time of day such as 9:10, 9:10:00 or 09:10:00.5, with or without its day before it (2026-05-04 9:10:00, or a T between); a comma
    /// serves as the point, a Z at the end says UTC; behind a day and a time, so does an offset such as +02:00.
    /// What is finer than a millisecond is cut off. No day of today's is put in.
    /// </param>
    /// <returns>Null where it is none, or of a year before 1970 or after 9998.</returns>
    public static TypedTime? Of(string text)
    {
        var trimmed = text.Trim();
        var isUtc = trimmed.EndsWith('Z');
        var bare = (isUtc ? trimmed[..^1] : trimmed).Replace(',', '.');
        if (bare.EndsWith('.')) return null;
        if (!isUtc && OffsetAtEnd(bare) is var (local, minutes))
            return Of(local) is { HasDay: true, EndsInZ: false } stated ? new(stated.Ms - (minutes * 60_000L), true, true) : null;
        if (DateTime.TryParseExact(bare, WithDay, CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
        {
            return time.Year is >= 1970 and <= 9998 ? new(ShownTime.Milliseconds(time), true, isUtc) : null;
        }
        return DateTime.TryParseExact(bare, Clock, CultureInfo.InvariantCulture, DateTimeStyles.NoCurrentDateDefault, out var alone)
            ? new((long)alone.TimeOfDay.TotalMilliseconds, false, isUtc)
            : null;
    }

    // "09:10+02:00" and "09:10 -0330"; the dashes of a day are none.
    private static (string Local, int Minutes)? OffsetAtEnd(string text)
    {
        var at = text.LastIndexOfAny(['+', '-']);
        if (at <= text.IndexOf(':', StringComparison.Ordinal) || at < 0) return null;
        return TimeSpan.TryParseExact(text[(at + 1)..], [@"hh\:mm", "hhmm"], CultureInfo.InvariantCulture, out var span)
            && span.TotalHours <= 18
            ? (text[..at].TrimEnd(), (text[at] == '-' ? -1 : 1) * (int)span.TotalMinutes)
            : null;
    }
}
