using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>
/// The time by which a fact is ordered: an instant by its client's clock with the offset noticed for it, a bare day at the
/// start of that day in the register's home zone.
/// </summary>
internal sealed class Ordering
{
    private readonly IReadOnlyList<ZoneOffset> _home;
    private readonly ILookup<string, ClientClockNoticed> _byClient;

    public Ordering(TimeBasis basis)
    {
        _home = basis.Founded?.Offsets ?? [];
        _byClient = basis.Clocks.ToLookup(c => c.Client, StringComparer.Ordinal);
    }

    public long Milliseconds(Fact fact)
    {
        // What sets the clocks and the home cannot wait for them.
        if (fact.Subjects.Contains(Subject.TheRegister)) return fact.Occurred.UnixMilliseconds;
        if (!fact.Occurred.IsInstant) return ZoneOffsets.StartOfDay(fact.Occurred.Day, _home);
        return fact.Occurred.UnixMilliseconds + (OffsetOf(fact.Client, fact.Counter) ?? 0);
    }

    /// <summary>Milliseconds to add to what a client's clock said; null where nobody noticed that it was wrong.</summary>
    public long? OffsetOf(string client, long counter) =>
        _byClient[client].Where(c => c.FromCounter <= counter).OrderBy(c => c.FromCounter).LastOrDefault()?.OffsetMs;

    /// <summary>The moment at which the day after a day begins at home.</summary>
    public long EndOf(DateOnly day) => day == DateOnly.MaxValue ? long.MaxValue : ZoneOffsets.StartOfDay(day.AddDays(1), _home);

    /// <summary>Whether days begin at the same instants.</summary>
    public bool HasHomeOf(Ordering other) => _home.SequenceEqual(other._home);

    /// <summary>Clients whose facts may be ordered otherwise, each with the first counter from which.</summary>
    public IEnumerable<(string Client, long FromCounter)> ClocksMovedFrom(Ordering other) => ReferenceEquals(this, other) ? [] :
        _byClient.Select(g => g.Key).Concat(other._byClient.Select(g => g.Key)).Distinct(StringComparer.Ordinal)
            .Select(client => (client, First(_byClient[client], other._byClient[client])))
            .Where(c => c.Item2 is not null).Select(c => (c.client, c.Item2!.Value));

    // Up to the first notice in which two lists differ, both say the same.
    private static long? First(IEnumerable<ClientClockNoticed> here, IEnumerable<ClientClockNoticed> there)
    {
        var (a, b) = (here.OrderBy(c => c.FromCounter).ToList(), there.OrderBy(c => c.FromCounter).ToList());
        for (var i = 0; i < Math.Max(a.Count, b.Count); i++)
        {
            if (i < a.Count && i < b.Count && a[i] == b[i]) continue;
            return Math.Min(i < a.Count ? a[i].FromCounter : long.MaxValue, i < b.Count ? b[i].FromCounter : long.MaxValue);
        }
        return null;
    }
}
