namespace MicRegister.Register.Fold;

/// <summary>
/// The facts of one subject in order. Immutable to its readers; the one writer appends into spare room behind them, so that
/// a fact in order costs no copy and a late one costs one.
/// </summary>
internal sealed class Timeline
{
    private readonly Backing _backing;
    private Folded? _folded;

    private Timeline(Backing backing, int count)
    {
        _backing = backing;
        Count = count;
    }

    public static Timeline Empty { get; } = new(new Backing(0), 0);

    public int Count { get; }

    public ReadOnlySpan<TimelineEntry> Entries => _backing.Items.AsSpan(0, Count);

    public static Timeline FromSorted(TimelineEntry[] entries) => new(new Backing(entries), entries.Length);

    /// <summary>This timeline with further entries, which may come in any order.</summary>
    public Timeline With(List<TimelineEntry> added, FactCatalog catalog)
    {
        added.Sort((a, b) => a.CompareTo(b, catalog));
        var inOrder = Count == 0 || _backing.Items[Count - 1].CompareTo(added[0], catalog) < 0;
        if (inOrder && _backing.TryClaim(Count, added.Count))
        {
            added.CopyTo(_backing.Items, Count);
            return new(_backing, Count + added.Count);
        }

        var merged = new TimelineEntry[Math.Max(4, (Count + added.Count) + ((Count + added.Count) / 2))];
        int i = 0, j = 0, k = 0;
        while (i < Count || j < added.Count)
        {
            var takeOld = j == added.Count || (i < Count && _backing.Items[i].CompareTo(added[j], catalog) < 0);
            merged[k++] = takeOld ? _backing.Items[i++] : added[j++];
        }
        return new(new Backing(merged, k), k);
    }

    /// <summary>This timeline with some entries in other places.</summary>
    /// <param name="moved">The entries as they are to stand; each is there already, in another place.</param>
    /// <param name="catalog">Knows their ids.</param>
    public Timeline Moved(List<TimelineEntry> moved, FactCatalog catalog)
    {
        HashSet<int> sequences = [.. moved.Select(m => m.Sequence)];
        var stay = new TimelineEntry[Count];
        var kept = 0;
        foreach (var entry in Entries)
        {
            if (!sequences.Contains(entry.Sequence)) stay[kept++] = entry;
        }
        return new Timeline(new Backing(stay, kept), kept).With(moved, catalog);
    }

    /// <summary>Those of its entries that are among the first so many facts.</summary>
    public Timeline UpTo(int sequence) => FromSorted(Array.FindAll(Entries.ToArray(), e => e.Sequence <= sequence));

    /// <summary>The same entries with nothing remembered, since something outside changed what they say.</summary>
    public Timeline Afresh() => new(_backing, Count);

    /// <summary>What folding gave the last time up to a moment, or what it gives now.</summary>
    /// <param name="until">Entries before this moment only.</param>
    /// <param name="fold">Pure function of the first so many entries.</param>
    public T Fold<T>(long until, Func<int, T> fold)
        where T : class
    {
        var upTo = Before(until);
        for (var known = _folded; known is not null; known = known.Next)
        {
            if (known.Count == upTo && known.State is T state) return state;
        }
        var fresh = fold(upTo);
        // Of each sort, the whole and one earlier moment are remembered: they are asked for by turns.
        // Whoever comes second only works twice.
        var kept = new List<Folded>();
        for (var known = _folded; known is not null; known = known.Next)
        {
            if (known.State is not T || (known.Count == Count) != (upTo == Count)) kept.Add(known);
        }
        _folded = kept.Aggregate(new Folded(upTo, fresh, null), (next, known) => known with { Next = next });
        return fresh;
    }

    /// <summary>Sequences of the entries from a moment on and before another.</summary>
    public IReadOnlyList<int> Between(long from, long to)
    {
        var (first, end) = (Before(from), Before(to));
        var found = new int[Math.Max(0, end - first)];
        for (var i = 0; i < found.Length; i++) found[i] = _backing.Items[first + i].Sequence;
        return found;
    }

    /// <summary>Number of entries before a moment.</summary>
    public int Before(long milliseconds)
    {
        if (Count == 0 || _backing.Items[Count - 1].Milliseconds < milliseconds) return Count;
        int low = 0, high = Count;
        while (low < high)
        {
            var middle = (low + high) / 2;
            if (_backing.Items[middle].Milliseconds < milliseconds) low = middle + 1;
            else high = middle;
        }
        return low;
    }

    private sealed record Folded(int Count, object State, Folded? Next);

    private sealed class Backing
    {
        private int _used;

        public Backing(int capacity) => Items = new TimelineEntry[capacity];

        public Backing(TimelineEntry[] items, int? used = null)
        {
            Items = items;
            _used = used ?? items.Length;
        }

        public TimelineEntry[] Items { get; }

        public bool TryClaim(int from, int more) =>
            from + more <= Items.Length && Interlocked.CompareExchange(ref _used, from + more, from) == from;
    }
}
