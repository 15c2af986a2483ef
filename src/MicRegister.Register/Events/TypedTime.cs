using System.Globalization;

namespace MicRegister.Register.Events;

/// <summary>A time as people type it or a table states it. The default is midnight without a day.</summary>
/// <param name="Ms">Milliseconds since 1970 on the clock that is meant; since midnight where no day was stated.</param>
/// <param name="HasDay">Whether a day was stated.</param>
/// <param name="EndsInZ">Whether it says that it is UTC.</param>
public readonly record struct TypedTime(long Ms, bool HasDay, bool EndsInZ)
{
    // One digit or two for the hour; minutes and seconds always have two.
    private static readonly string[] Clock = ["H:mm", "H:mm:ss", "H:mm:ss.FFFFFFF"];
    private static readonly string[] WithDay = [.. Clock.SelectMany(c => new[] { "yyyy-MM-dd " + c, "yyyy-MM-dd'T'" + c })];

    /// <summary>Reads a time.</summary>
    /// <param name="text">
    /// A time of day such as 9:10, 9:10:00 or 09:10:00.5, with or without its day before it (2026-05-04 9:10:00, or a T between); a comma
    /// serves as the point, a Z at the end says UTC. What is finer than a millisecond is cut off. No day of today's is put in.
    /// </param>
    /// <returns>Null where it is none, or of a year before 1970 or after 9998.</returns>
    public static TypedTime? Of(string text)
    {
        var trimmed = text.Trim();
        var isUtc = trimmed.EndsWith('Z');
        var bare = (isUtc ? trimmed[..^1] : trimmed).Replace(',', '.');
        if (bare.EndsWith('.')) return null;
        if (DateTime.TryParseExact(bare, WithDay, CultureInfo.InvariantCulture, DateTimeStyles.None, out var time))
        {
            return time.Year is >= 1970 and <= 9998 ? new(ShownTime.Milliseconds(time), true, isUtc) : null;
        }
        return DateTime.TryParseExact(bare, Clock, CultureInfo.InvariantCulture, DateTimeStyles.NoCurrentDateDefault, out var alone)
            ? new((long)alone.TimeOfDay.TotalMilliseconds, false, isUtc)
            : null;
    }
}
