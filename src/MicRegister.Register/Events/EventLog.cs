using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Events;

/// <summary>What was said of a campaign's events, of recorders' clocks and of directions, in the order of time.</summary>
/// <param name="Events">What was recorded, by begin; the last statement of each.</param>
/// <param name="Clocks">What was said of recorders' clocks.</param>
/// <param name="Incidences">
/// What was said of the directions that sound came from, by subject of the event; of all the campaign under none.
/// </param>
internal sealed record EventLog(IReadOnlyList<RecordedEvent> Events, IReadOnlyList<FactBody> Clocks, ILookup<string, Fact> Incidences)
{
    private static readonly IReadOnlySet<string> Kinds = FactKinds.NamesOf<IEventFact>();

    /// <summary>Whether files are stated of any of its events.</summary>
    public bool HasFiles { get; init; }

    public static EventLog Empty { get; } = new([], [], Array.Empty<Fact>().ToLookup(_ => ""));

    /// <summary>What was said of directions of all the campaign, then of one event, each in the order of time.</summary>
    public IEnumerable<Fact> IncidencesOf(string @event) => Incidences[""].Concat(Incidences[Subject.Event(@event)]);

    /// <summary>The log of a campaign, folded once a state.</summary>
    public static EventLog Of(Register register, string campaign) =>
        register.FoldEntries(Subject.Campaign(campaign), entries => Fold(register, entries), Empty);

    private static EventLog Fold(Register register, TimelineEntry[] entries)
    {
        var events = new Dictionary<string, RecordedEvent>(StringComparer.Ordinal);
        List<FactBody> clocks = [];
        List<Fact> incidences = [];
        foreach (var (_, fact) in register.ReadKinds(entries, Kinds))
        {
            if (fact.Body is IncidenceStated) incidences.Add(fact);
            else if (fact.Body is RecorderClockSet or RecorderTimeChecked or HourChosen) clocks.Add(fact.Body);
            else if (RecordedEvent.Of(fact) is { } what) events[what.Id] = what;
        }
        return new(
            [.. events.Values.OrderBy(e => e.StartMs).ThenBy(e => e.Id, StringComparer.Ordinal)],
            clocks,
            incidences.ToLookup(f => f.Subjects.FirstOrDefault(Subject.IsEvent) ?? "", StringComparer.Ordinal))
        {
            HasFiles = events.Values.Any(e => e.Recordings.Count > 0),
        };
    }
}

/// <summary>A body that tells of an event, of a recorder's clock or of a direction. Subject: the campaign, among others.</summary>
internal interface IEventFact : IObservation;
