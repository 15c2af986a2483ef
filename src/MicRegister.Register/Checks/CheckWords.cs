namespace MicRegister.Register.Checks;

/// <summary>
/// Words for when a check was made, in one place for all who read them; written so that they can stand within a sentence.
/// </summary>
public static class CheckWords
{
    /// <summary>A limit in minutes.</summary>
    public static string Minutes(double minutes) => FormattableString.Invariant($"{minutes:0.###} min");

    /// <summary>How long two instants lie apart, in minutes and seconds; none is rounded away, since a limit holds at itself.</summary>
    /// <param name="ms">Time between them in ms, not negative.</param>
    public static string Apart(long ms) => FormattableString.Invariant($"{ms / 60_000} min")
        + (ms % 60_000 is var rest and > 0 ? FormattableString.Invariant($" {rest / 1000.0:0.###} s") : "");

    /// <summary>The time of an instant, to the second.</summary>
    /// <param name="instant">Milliseconds since 1970.</param>
    public static string ClockTime(long instant) => DateTimeOffset.FromUnixTimeMilliseconds(instant)
        .ToString("HH:mm:ss", System.Globalization.CultureInfo.InvariantCulture) + " UTC";

    extension(CheckMoment moment)
    {
        /// <summary>When a check was made, in a word.</summary>
        public string InWords => moment switch
        {
            CheckMoment.Before => "before",
            CheckMoment.After => "after",
            CheckMoment.Other => "at another time",
            _ => throw new ArgumentOutOfRangeException(nameof(moment), moment, null),
        };

        /// <summary>When a check was made, in a sentence: "the check after the recordings".</summary>
        public string InFull => moment == CheckMoment.Other ? moment.InWords : moment.InWords + " the recordings";
    }
}
