using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Deployment;

/// <summary>What was done outdoors for a campaign, as it was said, in the order of time.</summary>
/// <param name="Steps">Placements, takings in, tones, photos, weather; annulled ones left out.</param>
/// <param name="Seen">The last thing each client said of the campaign.</param>
/// <param name="Events">What was recorded, by begin; the last statement of each.</param>
/// <param name="Clocks">What was said of recorders' clocks.</param>
/// <param name="Incidences">What was said of the directions that sound came from.</param>
/// <param name="Comparisons">Chains held against each other in place.</param>
internal sealed record DeploymentLog(
    IReadOnlyList<DeploymentStep> Steps, IReadOnlyList<ClientSeen> Seen, IReadOnlyList<RecordedEvent> Events, IReadOnlyList<Fact> Clocks, IReadOnlyList<Fact> Incidences, IReadOnlyList<DeploymentStep> Comparisons)
{
    private static readonly HashSet<string> Kinds = ["chain-placed", "chain-taken-in", "tone-noted", "photo-taken", "weather-noted"];
    private static readonly HashSet<string> ClockKinds = ["recorder-clock-set", "recorder-time-checked", "recorder-hour-chosen"];

    private readonly Lazy<ILookup<string, Fact>> _incidences = new(() => Incidences.ToLookup(f => f.Subjects.FirstOrDefault(Subject.IsEvent) ?? "", StringComparer.Ordinal));

    /// <summary>What was said of directions of all the campaign, then of one event, each in the order of time.</summary>
    public IEnumerable<Fact> IncidencesOf(string @event) => _incidences.Value[""].Concat(_incidences.Value[Subject.Event(@event)]);

    public static DeploymentLog Empty { get; } = new([], [], [], [], [], []);

    public static DeploymentLog Fold(Register register, TimelineEntry[] entries)
    {
        var steps = new List<DeploymentStep>();
        var events = new Dictionary<string, RecordedEvent>(StringComparer.Ordinal);
        List<Fact> clocks = [], incidences = [];
        var comparisons = new List<DeploymentStep>();
        var seen = new Dictionary<(string, string), ClientSeen>();
        foreach (var entry in entries)
        {
            var kind = register.Catalog.Kind(entry.Sequence);
            var (isStep, isEvent, isClock, isIncidence, isComparison) = (Kinds.Contains(kind), kind == "event-recorded", ClockKinds.Contains(kind), kind == "incidence-stated", kind == "chains-compared");
            if (!(isStep || isEvent || isClock || isIncidence || isComparison) || !register.Counts(entry.Sequence)) continue;
            var fact = register.Source.Read(entry.Sequence);
            if (fact.Body is UnreadBody) continue;
            if (isEvent)
            {
                if (RecordedEvent.Of(fact) is { } what) events[what.Id] = what;
                continue;
            }
            if (isClock || isIncidence)
            {
                (isClock ? clocks : incidences).Add(fact);
                continue;
            }
            if (isComparison)
            {
                comparisons.Add(new(fact, entry.Milliseconds, entry.Sequence));
                continue;
            }
            var before = seen.GetValueOrDefault((fact.Client, fact.Author));
            seen[(fact.Client, fact.Author)] = new(fact.Client, fact.Author, entry.Milliseconds, (before?.Placed ?? 0) + (kind == "chain-placed" ? 1 : 0), (before?.TakenIn ?? 0) + (kind == "chain-taken-in" ? 1 : 0));
            steps.Add(new(fact, entry.Milliseconds, entry.Sequence));
        }
        return new(steps, [.. seen.Values.OrderByDescending(s => s.Instant).ThenBy(s => s.Client, StringComparer.Ordinal)], [.. events.Values.OrderBy(e => e.StartMs).ThenBy(e => e.Id, StringComparer.Ordinal)], clocks, incidences, comparisons);
    }
}

/// <summary>One thing that was said.</summary>
/// <param name="Fact">The fact.</param>
/// <param name="Instant">Milliseconds since 1970, its client's clock put right.</param>
/// <param name="Sequence">Where it stands in this log.</param>
internal sealed record DeploymentStep(Fact Fact, long Instant, int Sequence);

/// <summary>A phone or desk that spoke of a campaign.</summary>
/// <param name="Client">The phone or program.</param>
/// <param name="Author">Id of the person or crew.</param>
/// <param name="Instant">When it spoke last, in milliseconds since 1970.</param>
/// <param name="Placed">Chains that it placed.</param>
/// <param name="TakenIn">Chains that it took in.</param>
public sealed record ClientSeen(string Client, string Author, long Instant, int Placed, int TakenIn);
