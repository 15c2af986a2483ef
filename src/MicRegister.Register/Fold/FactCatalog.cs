using System.Collections.Concurrent;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>Id and kind of every fact by its sequence, and the sequence by id. One writer appends; readers see what was there.</summary>
internal sealed class FactCatalog
{
    private readonly ConcurrentDictionary<FactId, int> _newer = new();
    private readonly List<string> _kinds;
    private readonly Dictionary<string, ushort> _kindNumbers;
    private readonly int[] _older;
    private FactId[] _ids;
    private ushort[] _kindOf;

    public FactCatalog()
        : this([], [], [], [])
    {
    }

    /// <param name="ids">Ids by sequence, from sequence 1.</param>
    /// <param name="kindOf">Number of the kind by sequence.</param>
    /// <param name="kinds">Names of the kinds by number.</param>
    /// <param name="sorted">Sequences in the order of their ids.</param>
    public FactCatalog(FactId[] ids, ushort[] kindOf, List<string> kinds, int[] sorted)
    {
        (_ids, _kindOf, _kinds, _older) = (ids, kindOf, kinds, sorted);
        Count = ids.Length;
        _kindNumbers = kinds.Select((k, i) => (k, i)).ToDictionary(p => p.k, p => (ushort)p.i);
    }

    public int Count { get; private set; }

    public ReadOnlySpan<FactId> Ids(int count) => Volatile.Read(ref _ids).AsSpan(0, count);

    public ReadOnlySpan<ushort> KindNumbers(int count) => Volatile.Read(ref _kindOf).AsSpan(0, count);

    public List<string> KindNames()
    {
        lock (_kinds) return [.. _kinds];
    }

    public FactId Id(int sequence) => Volatile.Read(ref _ids)[sequence - 1];

    public string Kind(int sequence)
    {
        lock (_kinds) return _kinds[Volatile.Read(ref _kindOf)[sequence - 1]];
    }

    public bool IsSameKind(int one, int other) => Volatile.Read(ref _kindOf) is var kinds && kinds[one - 1] == kinds[other - 1];

    public int Add(FactId id, string kind)
    {
        if (Count == _ids.Length)
        {
            var room = Math.Max(1024, Count * 2);
            Volatile.Write(ref _ids, Grown(_ids, room));
            Volatile.Write(ref _kindOf, Grown(_kindOf, room));
        }
        _ids[Count] = id;
        _kindOf[Count] = Number(kind);
        Count++;
        if (!_newer.TryAdd(id, Count)) throw new ArgumentException($"The fact {id} is already there.", nameof(id));
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
    public FactCatalog Fork(int count) => new(Ids(count).ToArray(), KindNumbers(count).ToArray(), KindNames(), Sorted(count));

    private ushort Number(string kind)
    {
        lock (_kinds)
        {
            if (_kindNumbers.TryGetValue(kind, out var number)) return number;
            number = checked((ushort)_kinds.Count);
            _kinds.Add(kind);
            _kindNumbers.Add(kind, number);
            return number;
        }
    }

    private static T[] Grown<T>(T[] old, int room)
    {
        var grown = new T[room];
        old.CopyTo(grown, 0);
        return grown;
    }
}
