using System.Collections.Immutable;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;
using MicRegister.Register.Labels;
using MicRegister.Register.People;

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
    private readonly Ordering _ordering;

    private readonly DriftShelf _drift;

    internal Register(
        FactCatalog catalog, int count, SubjectIndex index, Corrections corrections, SetDigest digest, IFactSource source,
        DriftMemory? memory = null, DriftShelf? drift = null)
    {
        (DriftMemory, _drift) = (memory ?? new(), drift ?? new());
        (_catalog, Count, _index, _corrections, Digest, Source) = (catalog, count, index, corrections, digest, source);
        State = Fold(Subject.TheRegister, long.MaxValue, facts => RegisterState.Fold(Counting(facts)), RegisterState.Empty);
        _ordering = new Ordering(State);
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

    /// <summary>The register's own name, home, settings and clocks.</summary>
    public RegisterState State { get; }

    /// <summary>What was worked out about drift, handed on from state to state.</summary>
    public DriftMemory DriftMemory { get; }

    /// <summary>The drift of all devices, as it was known at the end of a day.</summary>
    public DriftBook Drift(DateOnly day) => _drift.Book(this, day);

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
    internal Register ReadFrom(IFactSource source) => new(_catalog, Count, _index, _corrections, Digest, source, DriftMemory);

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
    /// and all where a clock or the home was set later, since they may have stood elsewhere.
    /// </remarks>
    public Register AsOfSequence(int sequence, CancellationToken cancel = default)
    {
        if (sequence < 0 || sequence > Count)
            throw new ArgumentOutOfRangeException(nameof(sequence), sequence, $"The log has sequences from 0 to {Count}.");
        if (sequence == Count) return this;
        var catalog = _catalog.Fork(sequence);
        var digest = sequence <= Count / 2 ? Sum(1, sequence, cancel) : Digest.Without(Sum(sequence + 1, Count, cancel));
        var past = new Register(catalog, sequence, _index.UpTo(sequence, cancel), _corrections.UpTo(sequence, catalog), digest, Source);
        return past._ordering.Equals(_ordering) ? past : past.Reordered(cancel);
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

    /// <summary>When a fact counts from, in milliseconds since 1970: its client's clock put right, a bare day from its begin at home.</summary>
    public long Instant(Fact fact) => _ordering.Milliseconds(fact);

    /// <summary>Ids of all devices, joined ones under the entry that was kept, in ordinal order.</summary>
    public IEnumerable<string> DeviceIds
    {
        get
        {
            var joined = Joined();
            return _index.Ids("device").Where(id => !joined.ContainsKey(id));
        }
    }

    public IEnumerable<string> CampaignIds => _index.Ids("campaign");

    public IEnumerable<string> ProfileIds => _index.Ids("profile").Concat(BuiltInProfiles.All.Select(p => p.Id)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);

    /// <summary>Codes of all labels that were ever bound.</summary>
    public IEnumerable<string> LabelCodes => _index.Ids("label");

    /// <summary>SHA-256 of all that was put aside.</summary>
    internal IEnumerable<string> AsideIds => _index.Ids("aside");

    public IEnumerable<string> PersonIds => _index.Ids("person");

    /// <summary>A device; null where no fact speaks of it.</summary>
    /// <param name="id">Its id; that of a joined entry leads to the one that was kept.</param>
    /// <param name="day">As it was true at the end of that day; null for all that is known.</param>
    public DeviceState? Device(string id, DateOnly? day = null)
    {
        var joined = Joined();
        var kept = joined.GetValueOrDefault(id, id);
        var parts = joined.Where(j => j.Value == kept).Select(j => j.Key).Order(StringComparer.Ordinal).ToList();
        if (parts.Count == 0)
            return Fold<DeviceState>(Subject.Device(kept), Until(day), facts => DeviceState.Fold(kept, facts), null);

        var entries = parts.Prepend(kept).SelectMany(p => _index.Entries(Subject.Device(p), Until(day))).Distinct().ToList();
        entries.Sort((a, b) => a.CompareTo(b, _catalog));
        return entries.Count == 0 ? null : DeviceState.Fold(kept, entries.Select(Folded)) with { Contradictions = [] }; // people said that they are one
    }

    /// <summary>Key of a device's kind, as its state says, without reading its other facts; null where nobody registered it.</summary>
    internal string? KindOf(string id)
    {
        if (Memory.Kinds.TryGetValue(id, out var known)) return known;
        // Nothing else speaks of the kind; of joined entries the state itself tells.
        var kind = EntriesOf(id) is [var own]
            ? DeviceState.Fold(own, _index.Entries(Subject.Device(own), long.MaxValue).Where(e => _catalog.Kind(e.Sequence) is "device-registered" or "device-described").Select(Folded)).Kind
            : Device(id)?.Kind;
        return Memory.Kinds[id] = kind;
    }

    /// <summary>A campaign; null where no fact speaks of it.</summary>
    public CampaignState? Campaign(string id, DateOnly? day = null) =>
        Fold<CampaignState>(Subject.Campaign(id), Until(day), facts => CampaignState.Fold(id, facts), null);

    /// <summary>A requirement profile, a built-in one where no fact speaks of it.</summary>
    public ProfileState? Profile(string id, DateOnly? day = null) =>
        Fold(Subject.Profile(id), Until(day), facts => ProfileState.Fold(id, Counting(facts)), BuiltInProfiles.Find(id));

    /// <summary>A person; null where no fact names them.</summary>
    public PersonState? Person(string id) => Fold<PersonState>(Subject.Person(id), long.MaxValue, facts => PersonState.Fold(id, Counting(facts)), null);

    /// <summary>Sequences of the facts about a subject, in their order.</summary>
    public IReadOnlyList<int> Facts(string subject) => [.. _index.Facts(subject)];

    /// <summary>The same between two instants, in milliseconds since 1970: from inclusive, to exclusive.</summary>
    internal IReadOnlyList<int> Facts(string subject, long from, long to) => _index.Find(subject)?.Between(from, to) ?? [];

    /// <summary>Sequences of the certificates that were measured against a device, in their order; joined entries are one.</summary>
    internal IReadOnlyList<int> MeasuredAgainst(string device) => [.. EntriesOf(device).SelectMany(_index.MeasuredAgainst).Distinct()];

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

    /// <summary>What was done outdoors for a campaign, in the order of time.</summary>
    internal DeploymentLog Work(string campaign) => _index.Find(Subject.Campaign(campaign)) is not { } timeline ? DeploymentLog.Empty
        : timeline.Fold(long.MaxValue, count => DeploymentLog.Fold(this, timeline.Entries[..count].ToArray()));

    /// <summary>What people should settle in the facts themselves: rivals, circles, replacements that do not fit, clocks, labels, and what crews said of campaigns around a day.</summary>
    public IReadOnlyList<RegisterFinding> Findings(DateOnly today) => [.. CorrectionFindings.Of(this), .. LabelBook.Findings(this), .. PutAside.Findings(this), .. DeploymentFindings.Around(this, today)];

    private Register With(FactCatalog catalog, IReadOnlyList<Fact> batch, IFactSource source)
    {
        var digest = Digest;
        var first = catalog.Count + 1;
        var placed = new List<(Fact, TimelineEntry)>(batch.Count);
        foreach (var fact in batch)
        {
            var sequence = catalog.Add(fact.Id, fact.Kind);
            digest = digest.With(fact.Bytes.Span);
            placed.Add((fact, Entry(fact, sequence)));
        }
        // Of a register that reads elsewhere, sequences are other facts.
        var isHere = ReferenceEquals(source, Source);
        var before = isHere ? _corrections : _corrections.Apart(Count);
        var corrections = before.With(batch, first, catalog);
        var reached = CorrectionReach.Of(batch, first, before, corrections, catalog, source);
        var index = _index.With(placed, catalog, reached, source, out var changed);
        var drift = changed.Contains(SubjectIndex.Joins) ? new() : _drift.Next(changed);
        var next = new Register(catalog, catalog.Count, index, corrections, digest, source, DriftMemory, drift)
        {
            Memory = isHere && RegisterMemory.Outlives(batch, corrections) ? Memory : new(),
        };
        return next._ordering.Equals(_ordering) ? next : next.Reordered();
    }

    // A clock or the home changed: every entry may stand elsewhere.
    private Register Reordered(CancellationToken cancel = default)
    {
        var all = Enumerable.Range(1, Count).Select(sequence =>
        {
            cancel.ThrowIfCancellationRequested();
            var fact = Source.Read(sequence);
            return (fact, Entry(fact, sequence));
        });
        return new(_catalog, Count, SubjectIndex.Of(all, _catalog), _corrections, Digest, Source, DriftMemory);
    }

    // Which entries stand under which kept one.
    private ImmutableSortedDictionary<string, string> Joined() => Fold(SubjectIndex.Joins, long.MaxValue, facts => DeviceJoins.Fold(Counting(facts)), ImmutableSortedDictionary<string, string>.Empty);

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

    private long Until(DateOnly? day) => day is { } d ? _ordering.EndOf(d) : long.MaxValue;

    private static IEnumerable<Fact> Counting(IEnumerable<FoldedFact> facts) => facts.Where(f => f.Counts && f.Fact is not null).Select(f => f.Fact!);

    private TimelineEntry Entry(Fact fact, int sequence) => new(_ordering.Milliseconds(fact), (uint)Math.Min(fact.Counter, uint.MaxValue), sequence);
}
