using System.Collections.Concurrent;
using System.Runtime.CompilerServices;

namespace MicRegister.Register.Tracing;

/// <summary>An event at a glance: what each station's recording is worth, and one verdict of all of them.</summary>
/// <param name="Stations">Each station once, in order of names; one that a swap parts in two counts by its worse part.</param>
public sealed record EventVerdict(IReadOnlyList<StationVerdict> Stations)
{
    // A snapshot never changes; what was worked out of it goes with it.
    private static readonly ConditionalWeakTable<Register, ConcurrentDictionary<string, EventVerdict>> Known = [];

    /// <summary>The one verdict.</summary>
    public TraceVerdict Verdict { get; } = Of(Stations.Select(s => s.Verdict));

    public int Valid => Count(TraceVerdict.Valid);

    public int Doubtful => Count(TraceVerdict.Doubtful);

    public int Undecided => Count(TraceVerdict.Undecided);

    public int NotValid => Count(TraceVerdict.NotValid);

    /// <summary>How many stations of how many are what; it stands within a sentence.</summary>
    public string InWords =>
        $"of {Stations.Count} {(Stations.Count == 1 ? "station" : "stations")} {Valid} valid, {Doubtful} doubtful, "
        + $"{Undecided} undecided, {NotValid} not valid";

    /// <summary>
    /// One verdict of several: valid where all are, not valid where all are or where there is none, undecided where none is better than
    /// that. Whatever lies between is doubtful: a person must see which of them can be used.
    /// </summary>
    public static TraceVerdict Of(IEnumerable<TraceVerdict> verdicts)
    {
        var all = verdicts.ToHashSet();
        return all.Count switch
        {
            0 => TraceVerdict.NotValid,
            1 => all.Single(),
            _ => all.Min() == TraceVerdict.Undecided ? TraceVerdict.Undecided : TraceVerdict.Doubtful,
        };
    }

    /// <summary>A trace at a glance.</summary>
    public static EventVerdict Of(EventTrace trace) => Of(trace.Stations);

    internal static EventVerdict Of(IReadOnlyList<StationTrace> parts) => new([.. parts
        .GroupBy(s => s.Station, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal)
        .Select(g => new StationVerdict(g.Key, g.Max(s => s.Verdict), g.Skip(1).Any(s => s.Placement?.Said.Swap is not null)))]);

    /// <summary>
    /// An event at a glance, worked out once for each state of the register: a trace of all its stations, some ten
    /// milliseconds where there are many. Null where there is no event of that id.
    /// </summary>
    public static EventVerdict? Of(Register register, string id)
    {
        if (IfKnown(register, id) is { } known) return known;
        if (Tracer.Of(register, id) is not { } trace) return null;
        return Known.GetOrCreateValue(register)[id] = Of(trace);
    }

    /// <summary>The same where it was worked out before; null where it was not.</summary>
    public static EventVerdict? IfKnown(Register register, string id) =>
        Known.TryGetValue(register, out var all) ? all.GetValueOrDefault(id) : null;

    private int Count(TraceVerdict verdict) => Stations.Count(s => s.Verdict == verdict);
}

/// <summary>What a station's recording of an event is worth.</summary>
/// <param name="Station">Its name.</param>
/// <param name="Verdict">The worst of its parts.</param>
/// <param name="IsSwapped">Whether a part was swapped there while the event lasted.</param>
public sealed record StationVerdict(string Station, TraceVerdict Verdict, bool IsSwapped)
{
    /// <summary>The gravest first, then in order of names.</summary>
    public static IEnumerable<StationVerdict> GravestFirst(IEnumerable<StationVerdict> stations) =>
        stations.OrderByDescending(s => s.Verdict).ThenByDescending(s => s.IsSwapped).ThenBy(s => s.Station, StringComparer.Ordinal);
}
