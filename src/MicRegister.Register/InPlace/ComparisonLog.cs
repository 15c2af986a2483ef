using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.InPlace;

/// <summary>Chains that were held against each other in a campaign, in the order of time.</summary>
/// <param name="Said">Each with its instant in milliseconds since 1970, its client's clock put right.</param>
internal sealed record ComparisonLog(IReadOnlyList<(Fact Fact, long Instant, ChainsCompared What)> Said)
{
    private static readonly IReadOnlySet<string> Kinds = FactKinds.NamesOf<ChainsCompared>();

    public static ComparisonLog Empty { get; } = new([]);

    /// <summary>The log of a campaign, folded once a state.</summary>
    public static ComparisonLog Of(Register register, string campaign) =>
        register.FoldEntries(Subject.Campaign(campaign), entries => Fold(register, entries), Empty);

    private static ComparisonLog Fold(Register register, TimelineEntry[] entries) => new(
        [.. register.ReadKinds(entries, Kinds).Where(e => e.Fact.Occurred.IsInstant && e.Fact.Body is ChainsCompared)
            .Select(e => (e.Fact, e.Entry.Milliseconds, (ChainsCompared)e.Fact.Body))]);
}
