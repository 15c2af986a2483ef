namespace MicRegister.Register.Events;

/// <summary>What instant a recorder's shown time was, and how well that is known.</summary>
/// <param name="Shown">What the recorder showed.</param>
/// <param name="UnixMilliseconds">
/// The instant in milliseconds since 1970; null where the shown time is ambiguous, was skipped or cannot be read.
/// </param>
/// <param name="OffsetS">How far the recorder's clock ran ahead, in s, negative behind: it has been taken off; 0 where no instant is given.</param>
/// <param name="UncertaintyS">How far the instant may be off, in s; null where nobody checked the clock or no instant is given.</param>
/// <param name="Sentence">All of it for people.</param>
public sealed record ClockReading(string Shown, long? UnixMilliseconds, double OffsetS, double? UncertaintyS, string Sentence)
{
    /// <summary>Whether no check of the clock can be used, so that it is taken to be right.</summary>
    public bool IsUnchecked { get; init; }

    /// <summary>Hours from the nearest check, by the recorder's clock, where no check lies on the other side; otherwise 0.</summary>
    public double HoursBeyond { get; init; }

    /// <summary>Whether it lies before the first check or after the last.</summary>
    public bool IsExtrapolated => HoursBeyond > 0;

    /// <summary>Whether the clock drifted more between the checks around it than a clock does, so that it was probably set there.</summary>
    public bool WasSetBetween { get; init; }

    /// <summary>Whether the recorder's local clock showed it twice and nobody chose.</summary>
    public bool Ambiguous { get; init; }

    /// <summary>Whether local clocks were put forward over it.</summary>
    public bool Skipped { get; init; }

    /// <summary>
    /// The instants that an ambiguous or skipped time may have been, earliest first, the clock's offset taken off; otherwise empty.
    /// </summary>
    public IReadOnlyList<long> Candidates { get; init; } = [];
}
