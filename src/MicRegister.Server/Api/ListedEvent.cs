using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Server.Api;

/// <summary>An event as lists show it: what it was, and its one verdict.</summary>
/// <param name="Id">Its id.</param>
/// <param name="Fact">Id of the fact.</param>
/// <param name="Campaign">Id of its campaign.</param>
/// <param name="Name">Name as people call it.</param>
/// <param name="StartMs">When it began, in milliseconds since 1970.</param>
/// <param name="StopMs">When it ended.</param>
/// <param name="Kind">What sort of event it was.</param>
/// <param name="Source">What flew; null where nothing was written down.</param>
/// <param name="Recordings">Files that hold it.</param>
/// <param name="Remark">Whatever else was written down.</param>
/// <param name="Verdict">
/// Valid where all stations are, not valid where none can be used, doubtful in between; null where it was not asked for.
/// </param>
/// <param name="Stations">How many stations are what; null where that was not asked for.</param>
public sealed record ListedEvent(
    string Id, FactId Fact, string Campaign, string Name, long StartMs, long StopMs, EventKind Kind, string? Source,
    IReadOnlyList<EventRecording> Recordings, string? Remark, TraceVerdict? Verdict, ListedEvent.StationCounts? Stations)
{
    /// <summary>An event of the register as it stands.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="e">The event.</param>
    /// <param name="isJudged">Whether its verdict is worked out, which takes a trace of all its stations.</param>
    public static ListedEvent Of(Register.Register register, RecordedEvent e, bool isJudged = true)
    {
        var verdict = isJudged ? EventVerdict.Of(register, e.Id) : null;
        return new(
            e.Id, e.Fact, e.Campaign, e.Name, e.StartMs, e.StopMs, e.Kind, e.Source, e.Recordings, e.Remark, verdict?.Verdict,
            verdict is null ? null : new(verdict.Stations.Count, verdict.Valid, verdict.Doubtful, verdict.Undecided, verdict.NotValid));
    }

    /// <summary>How many stations are what; each counts once.</summary>
    public sealed record StationCounts(int All, int Valid, int Doubtful, int Undecided, int NotValid);
}
