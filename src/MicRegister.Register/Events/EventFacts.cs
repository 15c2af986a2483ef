using MicRegister.Register.Facts;

namespace MicRegister.Register.Events;

/// <summary>Something flew. Subjects: the event, then its campaign.</summary>
public sealed record EventRecorded(string Name, string StartUtc, string StopUtc) : FactBody, IEventFact;

/// <summary>Something flew, or was recorded as the quiet beside it. Subjects: the event, then its campaign.</summary>
/// <param name="Name">Name as people call it.</param>
/// <param name="StartUtc">When it began, as text of an instant.</param>
/// <param name="StopUtc">When it ended, as text of an instant.</param>
/// <param name="Kind">What sort of event it was.</param>
/// <param name="Source">What flew; null where nothing was written down.</param>
/// <param name="Recordings">Files that hold it; empty while none has been matched.</param>
/// <param name="Remark">Whatever else was written down.</param>
public sealed record EventHappened(
    string Name, string StartUtc, string StopUtc, EventKind Kind, string? Source, IReadOnlyList<EventRecording> Recordings,
    string? Remark) : FactBody, IEventFact;

/// <summary>What sort of event it was.</summary>
public enum EventKind
{
    /// <summary>Something passed over the array.</summary>
    FlyOver,

    /// <summary>Something ran on the ground or on a stand.</summary>
    Run,

    /// <summary>Something stood in the air.</summary>
    Hover,

    /// <summary>Nothing: the background was recorded.</summary>
    Ambient,

    /// <summary>Anything else, or not said.</summary>
    Other,
}

/// <summary>A file that holds an event.</summary>
/// <param name="File">Name of the file, without its folder.</param>
/// <param name="Bytes">Its length.</param>
/// <param name="Sha256">SHA-256 of its bytes, in hexadecimal.</param>
/// <param name="Recorder">Name of the recorder; null where it is not known.</param>
/// <param name="RecorderStart">
/// What the recorder's own clock showed at the first sample, <c>yyyy-MM-ddTHH:mm:ss.fff</c> without a zone;
/// null where the file does not say.
/// </param>
/// <param name="Seconds">Duration in s.</param>
/// <param name="Channels">Numbers of its channels, from 1.</param>
public sealed record EventRecording(
    string File, long Bytes, string Sha256, string? Recorder, string? RecorderStart, double Seconds, IReadOnlyList<int> Channels);

/// <summary>What a recorder's clock was set to; the last one stated of a recorder counts. Subject: the campaign.</summary>
/// <param name="Recorder">Name of the recorder.</param>
/// <param name="Scale">The time that its clock shows.</param>
/// <param name="Zone">IANA name of the zone of a local clock; null for the others.</param>
/// <param name="Offsets">That zone's offsets from UTC over the campaign, oldest first; empty for the others.</param>
public sealed record RecorderClockSet(string Recorder, TimeScale Scale, string? Zone, IReadOnlyList<ZoneOffset> Offsets)
    : FactBody, IEventFact;

/// <summary>The time that a clock shows.</summary>
public enum TimeScale
{
    /// <summary>Coordinated universal time.</summary>
    Utc,

    /// <summary>GPS time, which knows no leap seconds and so runs ahead of UTC.</summary>
    Gps,

    /// <summary>The time of a zone, put forward and back with it.</summary>
    Local,
}

/// <summary>Somebody looked at a recorder's clock and at a better one. Subject: the campaign.</summary>
/// <param name="Recorder">Name of the recorder.</param>
/// <param name="Shown">What it showed, <c>yyyy-MM-ddTHH:mm:ss.fff</c> without a zone.</param>
/// <param name="TrueUtc">When that was, as text of an instant.</param>
/// <param name="UncertaintyS">How far off the comparison may be, in s, not negative; null where it was not stated.</param>
/// <param name="Against">The better clock.</param>
public sealed record RecorderTimeChecked(string Recorder, string Shown, string TrueUtc, double? UncertaintyS, string? Against)
    : FactBody, IEventFact;

/// <summary>Which of the two hours at a clock change a shown time was; the last one stated counts. Subject: the campaign.</summary>
/// <param name="Recorder">Name of the recorder.</param>
/// <param name="Shown">What it showed, <c>yyyy-MM-ddTHH:mm:ss.fff</c> without a zone.</param>
/// <param name="IsFirst">True for the hour before the clocks were put back, false for the one after.</param>
/// <param name="Reason">How that is known.</param>
public sealed record HourChosen(string Recorder, string Shown, bool IsFirst, string Reason) : FactBody, IEventFact;
