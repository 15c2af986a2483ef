using System.Collections.Concurrent;
using System.Collections.Immutable;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>
/// Which facts count: all but those at which an effective annulment or replacement points. Resolved before any fold, without
/// regard to time; a target that is not here yet is waited for.
/// </summary>
/// <remarks>
/// Who points at whom is a forest with some circles. A fact is hit where a pointer that fits, is in no circle and is not hit itself
/// points at it; of the replacements of one fact the one with the highest id counts, of those that fit and are not hit. Nothing is
/// worked out before it is asked for, each fact once a state of corrections, without recursion: people can annul annulments for ever.
/// </remarks>
internal sealed class Corrections
{
    private readonly ImmutableDictionary<int, Pointer> _pointers;
    private readonly ImmutableHashSet<int> _circles;
    private readonly CorrectionReads _reads;

    private readonly ConcurrentDictionary<int, bool> _hit = new();
    private readonly ConcurrentDictionary<FactId, int> _standing = new();
    private object? _worked;

    private Corrections(
        ImmutableDictionary<int, Pointer> pointers, ImmutableDictionary<FactId, PointerList> at, ImmutableHashSet<int> circles,
        CorrectionReads reads) =>
        (_pointers, PointersAt, _circles, _reads) = (pointers, at, circles, reads);

    /// <summary>No corrections yet, of a log of its own.</summary>
    public static Corrections None =>
        new(ImmutableDictionary<int, Pointer>.Empty, ImmutableDictionary<FactId, PointerList>.Empty, [], new());

    /// <summary>Who points at a fact, whether it is here or not.</summary>
    public ImmutableDictionary<FactId, PointerList> PointersAt { get; }

    /// <summary>All facts that point at another one, by their sequences.</summary>
    public IReadOnlyDictionary<int, Pointer> Pointers => _pointers;

    /// <summary>The fact that another one annuls or replaces, if it does.</summary>
    public static FactId? Target(Fact fact) => fact switch
    {
        { Body: FactAnnulled annulled } => FactId.TryParse(annulled.Target, out var id) ? id : null,
        _ => fact.Replaces,
    };

    /// <summary>The corrections with those of further facts; the same where none of them corrects anything or was waited for.</summary>
    /// <param name="batch">The facts.</param>
    /// <param name="first">Sequence of the first of them.</param>
    /// <param name="catalog">Knows all of them.</param>
    public Corrections With(IReadOnlyList<Fact> batch, int first, FactCatalog catalog)
    {
        var added = new List<(int Sequence, FactId Target)>();
        var awaited = new List<int>();
        for (var i = 0; i < batch.Count; i++)
        {
            if (Target(batch[i]) is { } target) added.Add((first + i, target));
            if (PointersAt.ContainsKey(batch[i].Id)) awaited.Add(first + i);
        }
        return added.Count + awaited.Count == 0 ? this : With(added, awaited, catalog);
    }

    /// <summary>The corrections with further ones, as they stand in an image.</summary>
    public Corrections With(IReadOnlyList<(int Sequence, FactId Target)> added, FactCatalog catalog) => With(added, [], catalog);

    /// <summary>
    /// The same for a register whose sequences from <paramref name="count"/> + 1 on are other facts than those of this log.
    /// </summary>
    public Corrections Apart(int count) => Apart(_reads, count);

    /// <summary>The corrections among the first so many facts.</summary>
    /// <param name="count">How many.</param>
    /// <param name="catalog">Knows these alone.</param>
    public Corrections UpTo(int count, FactCatalog catalog) => None.Apart(_reads, count)
        .With([.. _pointers.Where(p => p.Key <= count).Select(p => (p.Key, p.Value.Target))], catalog);

    /// <summary>Whether a fact counts.</summary>
    public bool Counts(int sequence, FactCatalog catalog, IFactSource source)
    {
        if (_pointers.IsEmpty) return true;
        if (_pointers.TryGetValue(sequence, out var pointer))
        {
            if (IsInCycle(sequence)) return false;
            if (!pointer.IsAnnulment) return Standing(pointer.Target, catalog, source) == sequence;
        }
        return !IsHit(sequence, catalog, source);
    }

    /// <summary>Whether a chain of annulments leads back to where it began; such a chain is void as a whole.</summary>
    public bool IsInCycle(int sequence) => _circles.Contains(sequence);

    /// <summary>
    /// Whether a pointer may act on its target, which is here: an annulment on all, a replacement on its own kind and subjects.
    /// </summary>
    public bool Fits(int sequence, FactCatalog catalog, IFactSource source) => Fits(sequence, _pointers[sequence], catalog, source);

    /// <summary>Whether a fact says more than that another one does not count.</summary>
    public bool Speaks(int sequence, FactCatalog catalog, IFactSource source) =>
        catalog.Kind(sequence) != FactKinds.Annulled || !_reads.IsAnnulment(sequence, source);

    /// <summary>Sequence of the replacement that counts in the place of a fact, which need not be here; 0 where none does.</summary>
    public int Standing(FactId target, FactCatalog catalog, IFactSource source)
    {
        if (_standing.TryGetValue(target, out var known)) return known;
        var best = 0;
        for (var link = PointersAt.GetValueOrDefault(target); link is not null; link = link.Next)
        {
            var pointer = _pointers[link.Sequence];
            if (pointer.IsAnnulment || IsInCycle(link.Sequence) || (best != 0 && catalog.Id(link.Sequence) < catalog.Id(best))) continue;
            if (pointer.At != 0 && !Fits(link.Sequence, pointer, catalog, source)) continue;
            if (!IsHit(link.Sequence, catalog, source)) best = link.Sequence;
        }
        return _standing[target] = best;
    }

    /// <summary>What somebody worked out of these corrections, worked out once; of one sort only.</summary>
    public T Worked<T>(Func<T> work)
        where T : class => (T)(_worked ??= work());

    private Corrections Apart(CorrectionReads below, int count) => new(_pointers, PointersAt, _circles, new(below, count));

    // Whoever points at a fact is looked at before it; a pile in place of recursion.
    private bool IsHit(int sequence, FactCatalog catalog, IFactSource source)
    {
        if (_hit.TryGetValue(sequence, out var known)) return known;
        if (!PointersAt.TryGetValue(catalog.Id(sequence), out var list)) return false;
        var open = new Stack<(int Sequence, PointerList? Left)>();
        open.Push((sequence, list));
        while (open.TryPop(out var top))
        {
            var (at, left) = top;
            var isHit = false;
            for (; left is not null && !isHit; left = left.Next)
            {
                var by = left.Sequence;
                if (IsInCycle(by) || !Fits(by, _pointers[by], catalog, source)) continue;
                if (!_hit.TryGetValue(by, out var byHit) && PointersAt.TryGetValue(catalog.Id(by), out var further))
                {
                    open.Push((at, left));
                    open.Push((by, further));
                    break;
                }
                isHit = !byHit;
            }
            if (left is null || isHit) _hit[at] = isHit;
        }
        return _hit[sequence];
    }

    private bool Fits(int sequence, Pointer pointer, FactCatalog catalog, IFactSource source) =>
        pointer.IsAnnulment || (catalog.IsSameKind(sequence, pointer.At) && _reads.IsOfSameSubjects(sequence, pointer.At, source));

    private Corrections With(IReadOnlyList<(int Sequence, FactId Target)> added, List<int> awaited, FactCatalog catalog)
    {
        var (pointers, at) = (_pointers.ToBuilder(), PointersAt.ToBuilder());
        foreach (var sequence in awaited)
        {
            for (var link = at[catalog.Id(sequence)]; link is not null; link = link.Next)
                pointers[link.Sequence] = pointers[link.Sequence] with { At = sequence };
        }
        foreach (var (sequence, target) in added)
        {
            pointers.Add(sequence, new(target, catalog.Find(target), catalog.Kind(sequence) == FactKinds.Annulled));
            at[target] = new(sequence, at.GetValueOrDefault(target));
        }
        return new(pointers.ToImmutable(), at.ToImmutable(), Circles(added, pointers, at, catalog), _reads);
    }

    // Targets never change, so a circle stays one. It is closed by a pointer that was pointed at before.
    private ImmutableHashSet<int> Circles(
        IReadOnlyList<(int Sequence, FactId Target)> added, ImmutableDictionary<int, Pointer>.Builder pointers,
        ImmutableDictionary<FactId, PointerList>.Builder at, FactCatalog catalog)
    {
        var circles = _circles;
        var walked = new Dictionary<int, int>();
        foreach (var (start, _) in added)
        {
            if (!at.ContainsKey(catalog.Id(start))) continue;
            var now = start;
            while (walked.TryAdd(now, start) && pointers.TryGetValue(now, out var pointer) && pointer.At != 0) now = pointer.At;
            if (!pointers.TryGetValue(now, out var last) || last.At == 0 || walked[now] != start || circles.Contains(now)) continue;
            circles = circles.Union(Round(now, pointers));
        }
        return circles;
    }

    private static IEnumerable<int> Round(int start, ImmutableDictionary<int, Pointer>.Builder pointers)
    {
        var now = start;
        do
        {
            yield return now;
            now = pointers[now].At;
        }
        while (now != start);
    }

    /// <summary>A fact that points at another one.</summary>
    /// <param name="Target">The other one.</param>
    /// <param name="At">Its sequence; 0 while it is waited for.</param>
    /// <param name="IsAnnulment">Whether it annuls it; otherwise it stands in for it.</param>
    internal readonly record struct Pointer(FactId Target, int At, bool IsAnnulment);

    /// <summary>Sequences of the facts that point at one, the newest first.</summary>
    internal sealed record PointerList(int Sequence, PointerList? Next);
}
