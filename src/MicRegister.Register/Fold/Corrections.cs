using System.Collections.Immutable;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>
/// Which facts count: all but those at which an effective annulment or replacement points. Resolved before any fold, without
/// regard to time; a target that is not here yet is waited for.
/// </summary>
internal sealed record Corrections(ImmutableDictionary<FactId, ImmutableArray<int>> PointersAt, ImmutableDictionary<int, FactId> TargetOf)
{
    public static Corrections None { get; } = new(ImmutableDictionary<FactId, ImmutableArray<int>>.Empty, ImmutableDictionary<int, FactId>.Empty);

    /// <summary>The fact that another one annuls or replaces, if it does.</summary>
    public static FactId? Target(Fact fact) => fact switch
    {
        { Body: FactAnnulled annulled } => FactId.TryParse(annulled.Target, out var id) ? id : null,
        _ => fact.Replaces,
    };

    public Corrections With(int sequence, FactId target) => new(
        PointersAt.SetItem(target, PointersAt.GetValueOrDefault(target, []).Add(sequence)),
        TargetOf.SetItem(sequence, target));

    /// <summary>Whether a fact counts.</summary>
    public bool Counts(int sequence, FactCatalog catalog, IFactSource source)
    {
        if (TargetOf.Count == 0) return true;
        var isPointer = TargetOf.TryGetValue(sequence, out var target);
        if (isPointer && IsInCycle(sequence, catalog)) return false;
        if (isPointer && catalog.Kind(sequence) != FactKinds.Annulled && !ReplacementStands(sequence, target, catalog, source)) return false;
        foreach (var pointer in PointersAt.GetValueOrDefault(catalog.Id(sequence), []))
        {
            if (!IsInCycle(pointer, catalog) && Fits(pointer, sequence, catalog, source) && Counts(pointer, catalog, source)) return false;
        }
        return true;
    }

    /// <summary>Whether a chain of annulments leads back to where it began; such a chain is void as a whole.</summary>
    public bool IsInCycle(int sequence, FactCatalog catalog)
    {
        var at = sequence;
        for (var steps = 0; steps <= TargetOf.Count; steps++)
        {
            if (!TargetOf.TryGetValue(at, out var target)) return false;
            at = catalog.Find(target);
            if (at == 0) return false;
            if (at == sequence) return true;
        }
        return false;
    }

    /// <summary>Whether a pointer may act on its target: an annulment on anything, a replacement on its own kind and subjects.</summary>
    public static bool Fits(int pointer, int target, FactCatalog catalog, IFactSource source)
    {
        if (catalog.Kind(pointer) == FactKinds.Annulled) return true;
        return catalog.Kind(pointer) == catalog.Kind(target)
            && source.Read(pointer).Subjects.SequenceEqual(source.Read(target).Subjects);
    }

    // Of two replacements of one fact the higher id counts; one that does not fit its target does not count at all.
    private bool ReplacementStands(int sequence, FactId target, FactCatalog catalog, IFactSource source)
    {
        var targetSequence = catalog.Find(target);
        if (targetSequence != 0 && !Fits(sequence, targetSequence, catalog, source)) return false;
        foreach (var rival in PointersAt.GetValueOrDefault(target, []))
        {
            if (rival == sequence || catalog.Kind(rival) == FactKinds.Annulled || catalog.Id(rival) < catalog.Id(sequence)) continue;
            if (targetSequence != 0 && !Fits(rival, targetSequence, catalog, source)) continue;
            if (Counts(rival, catalog, source)) return false;
        }
        return true;
    }
}
