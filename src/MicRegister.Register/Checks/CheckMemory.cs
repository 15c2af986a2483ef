using System.Collections.Concurrent;

namespace MicRegister.Register.Checks;

/// <summary>Checks as they were read for a state, and which facts are none that can be worked with. It forgets all where it grew too large.</summary>
internal sealed class CheckMemory
{
    /// <summary>A check takes some 3 kB, one that cannot be worked with some 50 bytes: so it keeps 30,000 of the former.</summary>
    private const int WeightOfCheck = 60;
    private const int MostWeight = 30_000 * WeightOfCheck;

    private readonly ConcurrentDictionary<int, CheckRecord?> _known = new();

    // Counted here: a concurrent dictionary locks all of itself to count.
    private int _weight;

    /// <summary>A check that was read; null in <paramref name="check"/> for one that cannot be worked with.</summary>
    public bool TryGet(int sequence, out CheckRecord? check) => _known.TryGetValue(sequence, out check);

    public void Keep(int sequence, CheckRecord? check)
    {
        if (Interlocked.Add(ref _weight, check is null ? 1 : WeightOfCheck) > MostWeight)
        {
            _known.Clear();
            Interlocked.Exchange(ref _weight, 0);
        }
        _known[sequence] = check;
    }
}
