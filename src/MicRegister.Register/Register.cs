using System.Collections.Concurrent;
using System.Collections.Immutable;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register;

/// <summary>
/// What a set of facts says: a pure fold over them, the same in whichever order they arrived. An immutable snapshot; the one
/// writer makes the next from the newest. States are folded when asked for and remembered until a fact touches them.
/// </summary>
public sealed class Register
{
    private readonly FactCatalog _catalog;
    private readonly SubjectIndex _index;
    private readonly Corrections _corrections;
    private readonly ConcurrentDictionary<Type, object> _lasting;
    private readonly ConcurrentDictionary<Type, ICarriedOn> _carried = new();
    private readonly ConcurrentDictionary<string, HashSet<string>> _gone = new(StringComparer.Ordinal);

    internal Register(
        FactCatalog catalog, int count, SubjectIndex index, Corrections corrections, SetDigest digest, IFactSource source,
        ConcurrentDictionary<Type, object>? lasting = null, TimeBasis? basis = null)
    {
        (_catalog, Count, _index, _corrections, Digest, Source) = (catalog, count, index, corrections, digest, source);
        _lasting = lasting ?? new();
        Basis = basis ?? Fold(Subject.TheRegister, long.MaxValue, facts => TimeBasis.Fold(Counting(facts)), TimeBasis.None);
    }

    /// <summary>A register without facts.</summary>
    /// <param name="source">Where its facts will be read from.</param>
    public static Register Empty(IFactSource source) =>
        new(new FactCatalog(), 0, SubjectIndex.Empty, Corrections.None, default, source);

    /// <summary>Number of facts, and the sequence of the newest one.</summary>
    public int Count { get; }

    /// <summary>Which facts they are, in whichever order they came.</summary>
    public SetDigest Digest { get; }

    /// <summary>Where facts are read from.</summary>
    public IFactSource Source { get; }

    /// <summary>What the order of all facts rests on.</summary>
    internal TimeBasis Basis { get; }

    private Ordering Order => Basis.Ordering;

    internal FactCatalog Catalog => _catalog;

    internal SubjectIndex Index => _index;

    internal Corrections Corrections => _corrections;

    /// <summary>The register with further facts, none of which it knows yet. Only the newest snapshot can be carried on.</summary>
    /// <param name="batch">Facts that <see cref="Source"/> gives for the sequences from <see cref="Count"/> + 1 on.</param>
    /// <exception cref="InvalidOperationException">This is not the newest snapshot.</exception>
    public Register With(IReadOnlyList<Fact> batch)
    {
        if (_catalog.Count != Count) throw new InvalidOperationException("Only the newest register can take further facts.");
        if (batch.Count == 0) return this;
        return With(_catalog, batch, Source);
    }

    /// <summary>The same register that reads its facts elsewhere.</summary>
    internal Register ReadFrom(IFactSource source) => new(_catalog, Count, _index, _corrections, Digest, source, _lasting, Basis);

    /// <summary>The same register that finds the figures of response curves: what it says of limits rests on them.</summary>
    public Register WithCurves(CurveReader read) => ReadFrom(new SourceWithCurves(Source, read));

    /// <summary>The register as it would be with further facts, which are stored nowhere.</summary>
    public Register WhatIf(IReadOnlyList<Fact> facts)
    {
        List<Fact> added = [.. facts.DistinctBy(f => f.Id).Where(f => !Knows(f.Id))];
        return added.Count == 0 ? this : With(_catalog.Fork(Count), added, new Overlay(Source, Count, added));
    }

    /// <summary>The register as this log stood at a sequence.</summary>
    /// <param name="sequence">From 0 to <see cref="Count"/>.</param>
    /// <param name="cancel">Gives up.</param>
    /// <remarks>
    /// Who points at whom and what stands where is known without the facts; only those of the shorter part are read, for the digest,
    /// what a client stated whose clock was noticed later, and all where the home was set later, since they may have stood elsewhere.
    /// </remarks>
    public Register AsOfSequence(int sequence, CancellationToken cancel = default)
    {
        if (sequence < 0 || sequence > Count)
            throw new ArgumentOutOfRangeException(nameof(sequence), sequence, $"The log has sequences from 0 to {Count}.");
        if (sequence == Count) return this;
        var catalog = _catalog.Fork(sequence);
        var digest = sequence <= Count / 2 ? Sum(1, sequence, cancel) : Digest.Without(Sum(sequence + 1, Count, cancel));
        var past = new Register(catalog, sequence, _index.UpTo(sequence, cancel), _corrections.UpTo(sequence, catalog), digest, Source);
        return past.Order.HasHomeOf(Order) ? past.WithClocksMoved(Order, out _, cancel) : past.Reordered(cancel);
    }

    private SetDigest Sum(int first, int last, CancellationToken cancel)
    {
        SetDigest sum = default;
        for (var sequence = first; sequence <= last; sequence++)
        {
            cancel.ThrowIfCancellationRequested();
            sum = sum.With(Source.Read(sequence).Bytes.Span);
        }
        return sum;
    }

    /// <summary>Whether a fact is here.</summary>
    public bool Knows(FactId id) => Find(id) != 0;

    /// <summary>Sequence of a fact, 0 where it is not here.</summary>
    public int Find(FactId id) => _catalog.Find(id) is var sequence && sequence <= Count ? sequence : 0;

    /// <summary>Whether a fact counts: nothing effective annuls or replaces it.</summary>
    public bool Counts(int sequence) => _corrections.Counts(sequence, _catalog, Source);

    /// <summary>The newest fact that counts and takes another one out of count; null where none does.</summary>
    public FactId? TakenOutBy(FactId fact)
    {
        for (var link = _corrections.PointersAt.GetValueOrDefault(fact); link is not null; link = link.Next)
        {
            if (Counts(link.Sequence)) return _catalog.Id(link.Sequence);
        }
        return null;
    }

    /// <summary>Whether a fact is of a kind, without reading it.</summary>
    public bool IsOfKind(int sequence, string kind) => _catalog.Kind(sequence) == kind;

    /// <summary>
    /// When a fact counts from, in milliseconds since 1970: its client's clock put right, a bare day from its begin at home.
    /// </summary>
    public long Instant(Fact fact) => Order.Milliseconds(fact);

    /// <summary>Milliseconds to add to what a client's clock said from a counter on; null where nobody noticed that it was wrong.</summary>
    public long? ClockOffset(string client, long counter) => Order.OffsetOf(client, counter);

    /// <summary>Ids of all subjects of a sort, in ordinal order.</summary>
    /// <param name="sort">The word before the colon.</param>
    internal IEnumerable<string> Ids(string sort) => _index.Ids(sort);

    /// <summary>The same without those of which nothing counts any more: who entered them took it back.</summary>
    /// <param name="sort">The word before the colon.</param>
    /// <param name="enteredBy">Kind of the fact that enters one.</param>
    internal IEnumerable<string> StandingIds(string sort, string enteredBy) =>
        _gone.GetOrAdd(enteredBy, Gone) is { Count: > 0 } gone ? Ids(sort).Where(id => !gone.Contains(sort + ":" + id)) : Ids(sort);

    /// <summary>Sequences of all facts whose bodies cannot be used here, in their order.</summary>
    internal IEnumerable<int> UnreadFacts => _index.Facts(SubjectIndex.Unread);

    /// <summary>Ids of joined entries, each with that of the entry that was kept.</summary>
    internal ImmutableSortedDictionary<string, string> Joined() =>
        Fold(
            SubjectIndex.Joins, long.MaxValue, facts => SubjectJoins.Fold(Counting(facts)),
            ImmutableSortedDictionary<string, string>.Empty);

    /// <summary>What the facts about a subject say, remembered until one more speaks of it.</summary>
    /// <param name="subject">The subject.</param>
    /// <param name="day">As it was true at the end of that day; null for all that is known.</param>
    /// <param name="fold">A pure function of its facts in their order.</param>
    /// <param name="none">What is given where no fact speaks of it.</param>
    internal T Fold<T>(string subject, DateOnly? day, Func<IEnumerable<FoldedFact>, T> fold, T? none)
        where T : class => Fold(subject, Until(day), fold, none);

    /// <summary>The same over several entries that are one, remembered nowhere.</summary>
    internal T? FoldTogether<T>(IEnumerable<string> subjects, DateOnly? day, Func<IEnumerable<FoldedFact>, T> fold)
        where T : class
    {
        var entries = subjects.SelectMany(s => _index.Entries(s, Until(day))).Distinct().ToList();
        entries.Sort((a, b) => a.CompareTo(b, _catalog));
        return entries.Count == 0 ? null : fold(entries.Select(Folded));
    }

    /// <summary>
    /// What the facts about a subject say to those who need when each was said; they are not read before they are asked for.
    /// </summary>
    internal T FoldEntries<T>(string subject, Func<TimelineEntry[], T> fold, T none)
        where T : class => _index.Find(subject) is { } timeline
            ? timeline.Fold(long.MaxValue, count => fold(timeline.Entries[..count].ToArray()))
            : none;

    /// <summary>Facts about a subject of the kinds that are wanted, the others unread.</summary>
    internal IEnumerable<FoldedFact> FactsOfKinds(string subject, params ReadOnlySpan<string> kinds)
    {
        var wanted = kinds.ToArray();
        return _index.Entries(subject, long.MaxValue).Where(e => wanted.Contains(_catalog.Kind(e.Sequence))).Select(Folded);
    }

    /// <summary>
    /// Facts of some kinds among the entries of a subject, those that count and can be read, in their order; the others unread.
    /// </summary>
    internal IEnumerable<(TimelineEntry Entry, Fact Fact)> ReadKinds(TimelineEntry[] entries, IReadOnlySet<string> kinds)
    {
        foreach (var entry in entries)
        {
            if (!kinds.Contains(_catalog.Kind(entry.Sequence)) || !Counts(entry.Sequence)) continue;
            if (Source.Read(entry.Sequence) is { Body: not UnreadBody } fact) yield return (entry, fact);
        }
    }

    /// <summary>Sequences of the facts about a subject, in their order.</summary>
    public IReadOnlyList<int> Facts(string subject) => [.. _index.Facts(subject)];

    /// <summary>The same between two instants, in milliseconds since 1970: from inclusive, to exclusive.</summary>
    internal IReadOnlyList<int> Facts(string subject, long from, long to) => _index.Find(subject)?.Between(from, to) ?? [];

    /// <summary>How many facts there are about a subject: it grows with each, so that a person can say what they saw.</summary>
    /// <remarks>What is said of a joined entry counts for the one that was kept.</remarks>
    public int Version(string subject) => Subject.IsDevice(subject) && EntriesOf(Subject.Id(subject)) is { Count: > 1 } entries
        ? entries.Sum(e => _index.CountOf(Subject.Device(e)))
        : _index.CountOf(subject);

    /// <summary>Ids of all entries that are one device, the one that was kept first.</summary>
    public IReadOnlyList<string> EntriesOf(string device)
    {
        var joined = Joined();
        if (joined.Count == 0) return [device];
        var kept = joined.GetValueOrDefault(device, device);
        return [kept, .. joined.Where(j => j.Value == kept).Select(j => j.Key).Order(StringComparer.Ordinal)];
    }

    /// <summary>What was worked out of the facts, so that it is worked out once.</summary>
    internal RegisterMemory Memory { get; private init; } = new();

    /// <summary>Something that all states of this register share, made where nobody asked for it yet.</summary>
    internal T Lasting<T>()
        where T : class, new() => (T)_lasting.GetOrAdd(typeof(T), static _ => new T());

    /// <summary>Work that the next state carries on, begun where nobody asked for it yet.</summary>
    internal T Carried<T>()
        where T : class, ICarriedOn, new() => (T)_carried.GetOrAdd(typeof(T), static _ => new T());

    /// <summary>The facts that count, as far as they were read.</summary>
    internal static IEnumerable<Fact> Counting(IEnumerable<FoldedFact> facts) =>
        facts.Where(f => f.Counts && f.Fact is not null).Select(f => f.Fact!);

    private Register With(FactCatalog catalog, IReadOnlyList<Fact> batch, IFactSource source)
    {
        var digest = Digest;
        var first = catalog.Count + 1;
        var placed = new List<(Fact, TimelineEntry)>(batch.Count);
        foreach (var fact in batch)
        {
            var sequence = catalog.Add(fact);
            digest = digest.With(fact.Bytes.Span);
            placed.Add((fact, Entry(fact, sequence)));
        }
        // Of a register that reads elsewhere, sequences are other facts.
        var isHere = ReferenceEquals(source, Source);
        var before = isHere ? _corrections : _corrections.Apart(Count);
        var corrections = before.With(batch, first, catalog);
        var reached = CorrectionReach.Of(batch, first, before, corrections, catalog, source);
        var index = _index.With(placed, catalog, reached, source, out var changed);
        var next = new Register(
            catalog, catalog.Count, index, corrections, digest, source, _lasting, BasisWith(placed, reached, corrections, catalog, source))
        {
            Memory = isHere && RegisterMemory.Outlives(batch, corrections) ? Memory : new(),
        };
        if (!next.Order.HasHomeOf(Order)) return next.Reordered();
        next = next.WithClocksMoved(Order, out var moved);
        HashSet<string> all = [.. changed, .. moved];
        if (all.Contains(SubjectIndex.Joins)) return next;
        foreach (var (sort, work) in _carried) next._carried[sort] = work.Next(all);
        return next;
    }

    // Clocks are noticed by the hundred: where facts only follow on those before them, the others are not folded again. Null asks for that.
    private TimeBasis? BasisWith(
        List<(Fact Fact, TimelineEntry Entry)> placed, IReadOnlyCollection<int> reached, Corrections corrections, FactCatalog catalog,
        IFactSource source)
    {
        if (reached.Count > 0) return null;
        List<(Fact Fact, TimelineEntry Entry)> own = [.. placed.Where(p => p.Fact.Subjects.Contains(Subject.TheRegister))];
        // One that something already points at may not count.
        if (own.Exists(p => !corrections.Counts(p.Entry.Sequence, catalog, source))) return null;
        own.Sort((a, b) => a.Entry.CompareTo(b.Entry, catalog));
        var before = _index.Find(Subject.TheRegister) is { Count: > 0 } timeline ? timeline.Entries[^1] : (TimelineEntry?)null;
        if (own.Count > 0 && before?.CompareTo(own[0].Entry, catalog) > 0) return null;
        return own.Aggregate(Basis, (basis, p) => basis.With(p.Fact));
    }

    // The home changed: every entry may stand elsewhere.
    private Register Reordered(CancellationToken cancel = default)
    {
        var all = Enumerable.Range(1, Count).Select(sequence =>
        {
            cancel.ThrowIfCancellationRequested();
            var fact = Source.Read(sequence);
            return (fact, Entry(fact, sequence));
        });
        return new(_catalog, Count, SubjectIndex.Of(all, _catalog), _corrections, Digest, Source, _lasting);
    }

    // Clocks were put right: what those clients stated may stand elsewhere, and nothing else is read.
    private Register WithClocksMoved(Ordering before, out IReadOnlySet<string> changed, CancellationToken cancel = default)
    {
        changed = ImmutableHashSet<string>.Empty;
        var moved = new List<(Fact, TimelineEntry)>();
        foreach (var sequence in Order.ClocksMovedFrom(before).SelectMany(c => _catalog.OfClient(c.Client, c.FromCounter, Count)))
        {
            cancel.ThrowIfCancellationRequested();
            var fact = Source.Read(sequence);
            if (Order.Milliseconds(fact) != before.Milliseconds(fact)) moved.Add((fact, Entry(fact, sequence)));
        }
        if (moved.Count == 0) return this;
        return new(_catalog, Count, _index.Moved(moved, _catalog, out changed), _corrections, Digest, Source, _lasting, Basis);
    }

    private T Fold<T>(string subject, long until, Func<IEnumerable<FoldedFact>, T> fold, T? none)
        where T : class
    {
        if (_index.Find(subject) is not { } timeline || timeline.Before(until) == 0) return none!;
        return timeline.Fold(until, count => fold(timeline.Entries[..count].ToArray().Select(Folded)));
    }

    private FoldedFact Folded(TimelineEntry entry)
    {
        var kind = _catalog.Kind(entry.Sequence);
        var counts = Counts(entry.Sequence);
        return new(FactKinds.IsTrafficKind(kind) ? null : Source.Read(entry.Sequence), counts, kind);
    }

    // Subjects whose entry was annulled, and of which nothing else counts but that something does not count.
    private HashSet<string> Gone(string enteredBy)
    {
        var gone = new HashSet<string>(StringComparer.Ordinal);
        foreach (var pointer in _corrections.Pointers.Values)
        {
            if (!pointer.IsAnnulment || pointer.At == 0 || _catalog.Kind(pointer.At) != enteredBy || Counts(pointer.At)) continue;
            var subject = Source.Read(pointer.At).Subjects[0];
            if (!_index.Facts(subject).Any(s => _catalog.Kind(s) != FactKinds.Annulled && Counts(s))) gone.Add(subject);
        }
        return gone;
    }

    private long Until(DateOnly? day) => day is { } d ? Order.EndOf(d) : long.MaxValue;

    private TimelineEntry Entry(Fact fact, int sequence) =>
        new(Order.Milliseconds(fact), (uint)Math.Min(fact.Counter, uint.MaxValue), sequence);
}
