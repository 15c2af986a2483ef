using System.Collections.Concurrent;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>
/// Id, kind, client and counter of every fact by its sequence, and the sequence by id. One writer appends; readers see what was there.
/// </summary>
internal sealed class FactCatalog
{
    private readonly ConcurrentDictionary<FactId, int> _newer = new();
    private readonly NameTable _kinds;
    private readonly NameTable _clients;
    private readonly int[] _older;
    private FactId[] _ids;
    private FactKey[] _keys;

    public FactCatalog()
        : this([], [], [], [], [])
    {
    }

    /// <param name="ids">Ids by sequence, from sequence 1.</param>
    /// <param name="keys">Kind, client and counter by sequence.</param>
    /// <param name="kinds">Names of the kinds by number.</param>
    /// <param name="clients">Names of the clients by number.</param>
    /// <param name="sorted">Sequences in the order of their ids.</param>
    public FactCatalog(FactId[] ids, FactKey[] keys, IReadOnlyList<string> kinds, IReadOnlyList<string> clients, int[] sorted)
    {
        (_ids, _keys, _older) = (ids, keys, sorted);
        (_kinds, _clients) = (new(kinds), new(clients));
        Count = ids.Length;
    }

    public int Count { get; private set; }

    public ReadOnlySpan<FactId> Ids(int count) => Volatile.Read(ref _ids).AsSpan(0, count);

    public ReadOnlySpan<FactKey> Keys(int count) => Volatile.Read(ref _keys).AsSpan(0, count);

    public IReadOnlyList<string> KindNames() => _kinds.All();

    public IReadOnlyList<string> ClientNames() => _clients.All();

    public FactId Id(int sequence) => Volatile.Read(ref _ids)[sequence - 1];

    public string Kind(int sequence) => _kinds[Volatile.Read(ref _keys)[sequence - 1].Kind];

    public bool IsSameKind(int one, int other) => Volatile.Read(ref _keys) is var keys && keys[one - 1].Kind == keys[other - 1].Kind;

    public int Add(Fact fact)
    {
        if (Count == _ids.Length)
        {
            var room = Math.Max(1024, Count * 2);
            Volatile.Write(ref _ids, Grown(_ids, room));
            Volatile.Write(ref _keys, Grown(_keys, room));
        }
        _ids[Count] = fact.Id;
        _keys[Count] = new(checked((ushort)_kinds.Add(fact.Kind)), _clients.Add(fact.Client), Counter(fact.Counter));
        Count++;
        if (!_newer.TryAdd(fact.Id, Count)) throw new ArgumentException($"The fact {fact.Id} is already there.", nameof(fact));
        return Count;
    }

    /// <summary>Sequence of a fact, 0 where it is not here.</summary>
    public int Find(FactId id)
    {
        if (_newer.TryGetValue(id, out var sequence)) return sequence;
        int low = 0, high = _older.Length - 1;
        var ids = Volatile.Read(ref _ids);
        while (low <= high)
        {
            var middle = (int)(((uint)low + (uint)high) / 2);
            var order = ids[_older[middle] - 1].CompareTo(id);
            if (order == 0) return _older[middle];
            if (order < 0) low = middle + 1;
            else high = middle - 1;
        }
        return 0;
    }

    /// <summary>Sequences of what a client stated from a counter on, ascending, without reading any.</summary>
    public List<int> OfClient(string client, long fromCounter, int count)
    {
        var found = new List<int>();
        if (_clients.Find(client) is not (var number and >= 0)) return found;
        var keys = Keys(count);
        var from = Counter(fromCounter);
        for (var i = 0; i < keys.Length; i++)
        {
            if (keys[i].Client == number && keys[i].Counter >= from) found.Add(i + 1);
        }
        return found;
    }

    /// <summary>The first so many sequences in the order of their ids.</summary>
    public int[] Sorted(int count)
    {
        var sequences = new int[count];
        for (var i = 0; i < count; i++) sequences[i] = i + 1;
        var keys = Ids(count).ToArray();
        Array.Sort(keys, sequences);
        return sequences;
    }

    /// <summary>A catalogue of the first so many facts that grows on its own.</summary>
    public FactCatalog Fork(int count) => new(Ids(count).ToArray(), Keys(count).ToArray(), KindNames(), ClientNames(), Sorted(count));

    // What lies beyond is as good as the greatest: a fact is looked at once too often, never left out.
    private static uint Counter(long counter) => (uint)Math.Clamp(counter, 0, uint.MaxValue);

    private static T[] Grown<T>(T[] old, int room)
    {
        var grown = new T[room];
        old.CopyTo(grown, 0);
        return grown;
    }
}

/// <summary>What is kept of a fact beside its id, by number.</summary>
internal readonly record struct FactKey(ushort Kind, int Client, uint Counter);
