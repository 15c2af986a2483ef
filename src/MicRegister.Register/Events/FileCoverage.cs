namespace MicRegister.Register.Events;

/// <summary>What one file holds of its event, by its recorder's clock.</summary>
/// <param name="File">The file.</param>
/// <param name="Hold">How much it holds.</param>
/// <param name="FromMs">Its first sample, in milliseconds since 1970; null where that is not known.</param>
/// <param name="ToMs">Its end; null where that is not known.</param>
/// <param name="Reading">What its recorder's clock tells; null where it names no recorder or no begin.</param>
public sealed record FileCoverage(EventRecording File, FileHold Hold, long? FromMs, long? ToMs, ClockReading? Reading)
{
    /// <summary>Holds a file against its event.</summary>
    /// <param name="e">The event.</param>
    /// <param name="file">The file.</param>
    /// <param name="clock">Gives the clock of a recorder.</param>
    internal static FileCoverage Of(RecordedEvent e, EventRecording file, Func<string, RecorderClock> clock)
    {
        if (!(file.Seconds is >= 0 and <= EventDecisions.MostSeconds)) return new(file, FileHold.Unbounded, null, null, null);
        if (file is not { Recorder: { } recorder, RecorderStart: { } shown }) return new(file, FileHold.Untimed, null, null, null);
        var reading = clock(recorder).Read(shown);
        if (reading.UnixMilliseconds is not { } begin) return new(file, FileHold.Untold, null, null, reading);
        var end = begin + (long)(file.Seconds * 1000);
        var hold = end <= e.StartMs || begin >= e.StopMs ? FileHold.Nothing
            : begin > e.StartMs || end < e.StopMs ? FileHold.Part
            : FileHold.All;
        return new(file, hold, begin, end, reading);
    }
}

/// <summary>How much of its event a file holds.</summary>
public enum FileHold
{
    /// <summary>All of it, perhaps more.</summary>
    All,

    /// <summary>A part of it.</summary>
    Part,

    /// <summary>Nothing: it lies outside of it.</summary>
    Nothing,

    /// <summary>Not known: the file names no recorder, or not when it begins.</summary>
    Untimed,

    /// <summary>Not known: its recorder's clock does not tell when it begins.</summary>
    Untold,

    /// <summary>Not known: it states a duration that cannot be.</summary>
    Unbounded,
}
