using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>Which facts speak of which subject, in their order. Immutable: a batch makes the next one.</summary>
internal sealed class SubjectIndex
{
    /// <summary>The one timeline of all joins and partings.</summary>
    public const string Joins = "joins:all";

    private static readonly FrozenSet<string> Joining = FactKinds.NamesOf<IJoinsEntries>();

    /// <summary>The one timeline of all facts whose bodies cannot be used here.</summary>
    public const string Unread = "unread:all";

    private readonly ImmutableDictionary<string, Timeline> _timelines;
    private readonly ConcurrentDictionary<string, string[]> _ids = new(StringComparer.Ordinal);

    public SubjectIndex(ImmutableDictionary<string, Timeline> timelines) => _timelines = timelines;

    public static SubjectIndex Empty { get; } = new(ImmutableDictionary<string, Timeline>.Empty);

    public IEnumerable<KeyValuePair<string, Timeline>> Timelines => _timelines;

    /// <summary>The timeline of a subject; null where no fact speaks of it.</summary>
    public Timeline? Find(string subject) => _timelines.GetValueOrDefault(subject);

    /// <summary>Entries of a subject before a moment.</summary>
    public TimelineEntry[] Entries(string subject, long until) => Find(subject) is { } timeline ? timeline.Entries[..timeline.Before(until)].ToArray() : [];

    /// <summary>Sequences of the facts about a subject, in their order.</summary>
    public IEnumerable<int> Facts(string subject) => Entries(subject, long.MaxValue).Select(e => e.Sequence);

    /// <summary>How many facts there are about a subject.</summary>
    public int CountOf(string subject) => Find(subject)?.Count ?? 0;

    /// <summary>Ids of all subjects of a sort, in ordinal order: looked through once, and again only where a subject of that sort is new.</summary>
    public IReadOnlyList<string> Ids(string sort) => _ids.GetOrAdd(sort, s => [.. _timelines.Keys.Where(k => Sort(k).SequenceEqual(s)).Select(Subject.Id).Order(StringComparer.Ordinal)]);

    /// <summary>The index with further facts.</summary>
    /// <param name="batch">Facts with their places in time.</param>
    /// <param name="catalog">Knows their ids and kinds.</param>
    /// <param name="reached">Sequences of facts that the batch may make count or not count.</param>
    /// <param name="source">Where facts are read from.</param>
    /// <param name="changed">Every subject whose state may be another one now.</param>
    public SubjectIndex With(
        IReadOnlyList<(Fact Fact, TimelineEntry Entry)> batch, FactCatalog catalog, IReadOnlyCollection<int> reached, IFactSource source,
        out IReadOnlySet<string> changed)
    {
        var added = Group(batch);
        var timelines = _timelines.ToBuilder();
        foreach (var (subject, entries) in added) timelines[subject] = timelines.GetValueOrDefault(subject, Timeline.Empty).With(entries, catalog);

        var touched = reached.SelectMany(s => Around(source.Read(s))).ToHashSet(StringComparer.Ordinal);
        foreach (var subject in touched)
        {
            if (timelines.TryGetValue(subject, out var timeline)) timelines[subject] = timeline.Afresh();
        }
        var next = new SubjectIndex(timelines.ToImmutable());
        var sorts = added.Keys.Where(k => !_timelines.ContainsKey(k)).Select(k => Sort(k).ToString()).ToHashSet(StringComparer.Ordinal);
        foreach (var (sort, ids) in _ids.Where(i => !sorts.Contains(i.Key))) next._ids.TryAdd(sort, ids);
        touched.UnionWith(added.Keys);
        changed = touched;
        return next;
    }

    /// <summary>The index with some facts in other places.</summary>
    /// <param name="moved">Facts with the places where they are to stand.</param>
    /// <param name="catalog">Knows their ids.</param>
    /// <param name="changed">Every subject whose state may be another one now.</param>
    public SubjectIndex Moved(IEnumerable<(Fact Fact, TimelineEntry Entry)> moved, FactCatalog catalog, out IReadOnlySet<string> changed)
    {
        var groups = Group(moved);
        var timelines = _timelines.ToBuilder();
        foreach (var (subject, entries) in groups) timelines[subject] = timelines[subject].Moved(entries, catalog);
        changed = groups.Keys.ToHashSet(StringComparer.Ordinal);
        var next = new SubjectIndex(timelines.ToImmutable());
        foreach (var (sort, ids) in _ids) next._ids.TryAdd(sort, ids);
        return next;
    }

    /// <summary>The index of the first so many facts, each where it stands in time.</summary>
    public SubjectIndex UpTo(int sequence, CancellationToken cancel)
    {
        var timelines = ImmutableDictionary.CreateBuilder<string, Timeline>();
        foreach (var (subject, timeline) in _timelines)
        {
            cancel.ThrowIfCancellationRequested();
            if (timeline.UpTo(sequence) is { Count: > 0 } earlier) timelines.Add(subject, earlier);
        }
        return new(timelines.ToImmutable());
    }

    /// <summary>The index of all facts at once.</summary>
    public static SubjectIndex Of(IEnumerable<(Fact Fact, TimelineEntry Entry)> all, FactCatalog catalog) => new(Group(all).ToImmutableDictionary(p => p.Key, p => Timeline.Empty.With(p.Value, catalog)));

    private static Dictionary<string, List<TimelineEntry>> Group(IEnumerable<(Fact Fact, TimelineEntry Entry)> facts)
    {
        var groups = new Dictionary<string, List<TimelineEntry>>(StringComparer.Ordinal);
        foreach (var (fact, entry) in facts)
        {
            foreach (var subject in SubjectsOf(fact))
            {
                if (!groups.TryGetValue(subject, out var list)) groups[subject] = list = [];
                list.Add(entry);
            }
        }
        return groups;
    }

    // Whatever stands beside it has its kind, though perhaps another version of it that speaks of joins.
    private static IEnumerable<string> Around(Fact fact) =>
        Joining.Contains(fact.Kind) ? SubjectsOf(fact).Append(Joins) : SubjectsOf(fact);

    private static IEnumerable<string> SubjectsOf(Fact fact)
    {
        var subjects = fact.Subjects.Distinct(StringComparer.Ordinal);
        if (fact.Body is IJoinsEntries) subjects = subjects.Append(Joins);
        if (fact.Body is UnreadBody) return subjects.Append(Unread);
        return FactKinds.Find(fact.Kind, fact.Version) is { } kind ? subjects.Concat(kind.AlsoAbout(fact.Body)) : subjects;
    }

    private static ReadOnlySpan<char> Sort(string subject) => subject.AsSpan(0, Math.Max(0, subject.IndexOf(':', StringComparison.Ordinal)));
}
