using System.Globalization;

namespace MicRegister.Register.Facts;

/// <summary>
/// When something happened, as its author said it: an instant to the millisecond, or only a day. The default is the first day
/// of 1970, which also stands for "not known" on take-over from a spreadsheet.
/// </summary>
public readonly record struct Occurred
{
    private const string InstantFormat = "yyyy-MM-dd'T'HH:mm:ss.fff'Z'";
    private const string DayFormat = "yyyy-MM-dd";

    private readonly long _unixMilliseconds;

    private Occurred(long unixMilliseconds, bool isInstant)
    {
        _unixMilliseconds = unixMilliseconds;
        IsInstant = isInstant;
    }

    /// <summary>A day that nobody wrote down; it sorts before all that has a date.</summary>
    public static Occurred Unknown => default;

    /// <summary>An instant; what is finer than a millisecond is cut off.</summary>
    public static Occurred At(DateTimeOffset instant) => new(instant.ToUnixTimeMilliseconds(), true);

    /// <summary>A day without a time.</summary>
    public static Occurred On(DateOnly day) => new((day.DayNumber - Epoch) * MillisecondsPerDay, false);

    /// <summary>Whether a time of day was stated.</summary>
    public bool IsInstant { get; }

    /// <summary>Milliseconds since 1970: of the instant, or of the day's first moment in UTC.</summary>
    public long UnixMilliseconds => _unixMilliseconds;

    /// <summary>The day: as stated, or that of the instant in UTC.</summary>
    public DateOnly Day => DateOnly.FromDayNumber((int)Math.Floor(_unixMilliseconds / (double)MillisecondsPerDay) + Epoch);

    /// <summary>Reads <c>2026-05-04</c> or <c>2026-05-04T10:11:12.345Z</c>, exactly.</summary>
    public static bool TryParse(string? text, out Occurred occurred)
    {
        if (DateOnly.TryParseExact(text, DayFormat, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            occurred = On(day);
            return true;
        }
        var ok = DateTimeOffset.TryParseExact(text, InstantFormat, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var instant);
        occurred = ok ? At(instant) : default;
        return ok;
    }

    public override string ToString() => IsInstant
        ? DateTimeOffset.FromUnixTimeMilliseconds(_unixMilliseconds).ToString(InstantFormat, CultureInfo.InvariantCulture)
        : Day.ToString(DayFormat, CultureInfo.InvariantCulture);

    /// <summary>As people read it: a day, or an instant to the minute in UTC.</summary>
    public string Minute => IsInstant ? ToString()[..16].Replace('T', ' ') + " UTC" : ToString();

    private static readonly int Epoch = new DateOnly(1970, 1, 1).DayNumber;
    private const long MillisecondsPerDay = 86_400_000;
}
