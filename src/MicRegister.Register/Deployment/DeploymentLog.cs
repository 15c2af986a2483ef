using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Deployment;

/// <summary>What was done outdoors for a campaign, as it was said, in the order of time.</summary>
/// <param name="Steps">Placements, takings in, tones, photos, weather; annulled ones left out.</param>
/// <param name="Seen">The last thing each client said of the campaign.</param>
internal sealed record DeploymentLog(IReadOnlyList<DeploymentStep> Steps, IReadOnlyList<ClientSeen> Seen)
{
    private static readonly IReadOnlySet<string> Kinds = FactKinds.NamesOf<IOutdoorStep>();

    public static DeploymentLog Empty { get; } = new([], []);

    /// <summary>The log of a campaign, folded once a state.</summary>
    public static DeploymentLog Of(Register register, string campaign) =>
        register.FoldEntries(Subject.Campaign(campaign), entries => Fold(register, entries), Empty);

    private static DeploymentLog Fold(Register register, TimelineEntry[] entries)
    {
        var steps = new List<DeploymentStep>();
        var seen = new Dictionary<(string, string), ClientSeen>();
        foreach (var (entry, fact) in register.ReadKinds(entries, Kinds))
        {
            var known = seen.GetValueOrDefault((fact.Client, fact.Author)) ?? new(fact.Client, fact.Author, entry.Milliseconds, 0, 0);
            seen[(fact.Client, fact.Author)] = known with
            {
                Instant = entry.Milliseconds,
                Placed = known.Placed + (fact.Body is ChainPlaced or ChainPlacedBriefly ? 1 : 0),
                TakenIn = known.TakenIn + (fact.Body is ChainTakenIn ? 1 : 0),
            };
            steps.Add(new(fact, entry.Milliseconds, entry.Sequence));
        }
        return new(steps, [.. seen.Values.OrderByDescending(s => s.Instant).ThenBy(s => s.Client, StringComparer.Ordinal)]);
    }
}

/// <summary>A body that tells of a step outdoors. Subject: the campaign, among others.</summary>
internal interface IOutdoorStep : IObservation;

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
