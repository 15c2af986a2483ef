using System.Globalization;

namespace MicRegister.Register.Events;

/// <summary>What a recorder's clock showed at the first sample of a file, by what the recorder wrote into it.</summary>
/// <param name="Shown">The shown time, <c>yyyy-MM-ddTHH:mm:ss.fff</c>; null where the file does not tell.</param>
/// <param name="Doubt">Why people should look at it, a sentence; null where all agrees.</param>
/// <param name="Reason">Why there is no shown time, a sentence; null where there is one.</param>
/// <remarks>
/// EBU Tech 3285, `bext`: TimeReference counts samples from midnight to the first sample and is finer than OriginationTime, which
/// has whole seconds. Which midnight it is, the file does not say; OriginationDate and OriginationTime were written together, so
/// where the two times of day agree the day is the one nearest to those.
/// </remarks>
public sealed record BextStart(string? Shown, string? Doubt, string? Reason)
{
    /// <summary>More between the two than whole seconds and a slow start explain (common practice, no source).</summary>
    private const long MostApartMs = 2_000;

    /// <summary>A longer count than this is no count since midnight (common practice, no source).</summary>
    private const double MostSeconds = 31 * 86_400.0;

    private const long DayMs = 86_400_000;

    /// <summary>From the fields as they stand in the file.</summary>
    /// <param name="originationDate">Ten characters, year, month and day with any separators; a day that does not exist gives a reason.</param>
    /// <param name="originationTime">
    /// Eight characters, hour, minute and second with any separators; one that cannot be read counts as not written.
    /// </param>
    /// <param name="timeReference">
    /// Samples since midnight; the file's 64 bits have no sign, so that a negative one is a count beyond all days.
    /// </param>
    /// <param name="sampleRate">Samples a second, positive.</param>
    public static BextStart Of(string originationDate, string originationTime, long timeReference, double sampleRate) => Of(
        DateOnly.TryParseExact(Digits(originationDate), "yyyyMMdd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day) ? day : null,
        TimeOnly.TryParseExact(Digits(originationTime), "HHmmss", CultureInfo.InvariantCulture, DateTimeStyles.None, out var time) ? time : null,
        unchecked((ulong)timeReference), sampleRate);

    /// <summary>From the fields as the reader of recordings delivers them.</summary>
    /// <param name="day">Origination date; null where it cannot be read.</param>
    /// <param name="time">Origination time; null where it cannot be read.</param>
    /// <param name="samplesSinceMidnight">Time reference; 0 counts as not written unless the origination time is midnight too.</param>
    /// <param name="sampleRate">Samples a second, positive and finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">The sample rate is not positive and finite.</exception>
    public static BextStart Of(DateOnly? day, TimeOnly? time, ulong samplesSinceMidnight, double sampleRate)
    {
        if (!double.IsFinite(sampleRate) || sampleRate <= 0)
            throw new ArgumentOutOfRangeException(nameof(sampleRate), sampleRate, "A sample rate is positive and finite.");
        // The first and the last year leave no room for what is added below.
        if (day is not { Year: > 1 and < 9999 } d) return None("The origination date cannot be read, or names a day that does not exist.");
        var midnight = ShownTime.Milliseconds(d.ToDateTime(TimeOnly.MinValue));
        var stated = time is { } t ? t.Ticks / TimeSpan.TicksPerMillisecond : (long?)null;
        var seconds = samplesSinceMidnight / sampleRate;
        if (samplesSinceMidnight == 0 || seconds > MostSeconds) return ByTimeOnly(midnight, stated, samplesSinceMidnight == 0);

        var reference = (long)Math.Round(seconds * 1000);
        var (text, isOver) = (ShownTime.Text(midnight + reference), reference >= DayMs);
        if (stated is not { } s)
        {
            return new(
                text,
                "The origination time cannot be read; the time reference is taken"
                    + (isOver ? $", which reaches over midnight: {ShownTime.Length(seconds)}." : "."),
                null);
        }
        var apart = AroundTheClock(reference - s);
        if (Math.Abs(apart) > MostApartMs)
        {
            var over = isOver ? ", which reaches over the next one" : "";
            var both = $"{ShownTime.Length(seconds)} after midnight{over}, the origination time {ShownTime.Length(s / 1000.0)}";
            return new(text, $"The time reference is {both}; the time reference is taken.", null);
        }
        var shown = midnight + s + apart;
        var nearest = ShownTime.Text(shown);
        if (isOver)
        {
            return new(
                nearest,
                $"The time reference reaches over midnight: {ShownTime.Length(seconds)}. "
                    + $"Its time of day agrees with the origination time, so the day is taken from there: {nearest[..10]}.",
                null);
        }
        return shown == midnight + reference
            ? new(text, null, null)
            : new(
                nearest,
                "The origination time and the time reference lie on two sides of midnight; "
                    + $"the day nearer to the origination time is taken: {nearest[..10]}.",
                null);
    }

    private static BextStart ByTimeOnly(long midnight, long? stated, bool isZero) => (stated, isZero) switch
    {
        (null, true) => None("The origination time cannot be read, and the time reference is 0: neither was written."),
        (null, false) => None("The origination time cannot be read, and the time reference is more than 31 days: it does not count from midnight."),
        (0, true) => new(
            ShownTime.Text(midnight),
            "The origination time and the time reference are both 0: it was midnight, or neither was written.", null),
        ({ } s, true) => new(
            ShownTime.Text(midnight + s),
            "The time reference is 0: it was not written. The origination time is taken, which has whole seconds.", null),
        ({ } s, false) => new(
            ShownTime.Text(midnight + s),
            "The time reference is more than 31 days: it does not count from midnight. "
                + "The origination time is taken, which has whole seconds.", null),
    };

    /// <summary>A difference of two times of day, at most half a day either way.</summary>
    private static long AroundTheClock(long ms)
    {
        var ahead = ((ms % DayMs) + DayMs) % DayMs;
        return ahead >= DayMs / 2 ? ahead - DayMs : ahead;
    }

    private static BextStart None(string reason) => new(null, null, reason);

    // Separators differ between recorders.
    private static string Digits(string field) => new([.. field.Where(char.IsAsciiDigit)]);
}
