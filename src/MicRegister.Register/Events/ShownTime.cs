using System.Globalization;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>
/// A date and a time of day as a clock shows them: <c>2026-05-04T10:11:12.345</c>, with no word on the zone. As a number it is
/// the milliseconds since 1970-01-01T00:00 on that same clock.
/// </summary>
public static class ShownTime
{
    private const string Format = "yyyy-MM-dd'T'HH:mm:ss.fff";

    private static readonly long Earliest = DateTimeOffset.MinValue.ToUnixTimeMilliseconds();
    private static readonly long Latest = DateTimeOffset.MaxValue.ToUnixTimeMilliseconds();

    /// <summary>Reads a shown time, exactly as facts write it.</summary>
    /// <param name="text">Such as <c>2026-05-04T10:11:12.345</c>; a day that does not exist is not read.</param>
    /// <param name="milliseconds">Milliseconds since 1970 on the clock that showed it.</param>
    public static bool TryParse(string? text, out long milliseconds)
    {
        var ok = DateTime.TryParseExact(text, Format, CultureInfo.InvariantCulture, DateTimeStyles.None, out var shown);
        milliseconds = ok ? Milliseconds(shown) : 0;
        return ok;
    }

    /// <summary>Writes a shown time as facts do.</summary>
    /// <param name="milliseconds">Milliseconds since 1970 on the clock that showed it, within the years 1 to 9999.</param>
    public static string Text(long milliseconds) =>
        new DateTime(DateTime.UnixEpoch.Ticks + (milliseconds * TimeSpan.TicksPerMillisecond), DateTimeKind.Unspecified)
            .ToString(Format, CultureInfo.InvariantCulture);

    /// <summary>Milliseconds since 1970 of a clock's date and time; what is finer is cut off.</summary>
    internal static long Milliseconds(DateTime shown) =>
        (shown.Ticks / TimeSpan.TicksPerMillisecond) - (DateTime.UnixEpoch.Ticks / TimeSpan.TicksPerMillisecond);

    /// <summary>
    /// An instant in words; one before the year 1 or after 9999, which only a clock that was never set gives, is shown as that end.
    /// </summary>
    internal static string Instant(long utcMilliseconds) =>
        Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(Math.Clamp(utcMilliseconds, Earliest, Latest))).ToString();

    /// <summary>How long something is, without its sign: to the millisecond, in s up to two minutes, in h, min and s beyond.</summary>
    internal static string Length(double seconds)
    {
        var ms = (long)Math.Round(Math.Abs(seconds) * 1000);
        if (ms < 120_000) return (ms / 1000.0).ToString("0.###", CultureInfo.InvariantCulture) + " s";
        var (h, min, s) = (ms / 3_600_000, ms / 60_000 % 60, ms % 60_000 / 1000.0);
        string[] parts = [h > 0 ? $"{h} h" : "", min > 0 ? $"{min} min" : "", s > 0 ? s.ToString("0.###", CultureInfo.InvariantCulture) + " s" : ""];
        return string.Join(' ', parts.Where(p => p.Length > 0));
    }
}
