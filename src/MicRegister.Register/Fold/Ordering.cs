using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>
/// The time by which a fact is ordered: an instant by its client's clock with the offset noticed for it, a bare day at the
/// start of that day in the register's home zone.
/// </summary>
internal sealed class Ordering : IEquatable<Ordering>
{
    private readonly IReadOnlyList<ZoneOffset> _home;
    private readonly IReadOnlyList<ClientClockNoticed> _clocks;
    private readonly ILookup<string, ClientClockNoticed> _byClient;

    public Ordering(RegisterState state)
    {
        _home = state.Founded?.Offsets ?? [];
        _clocks = state.Clocks;
        _byClient = _clocks.ToLookup(c => c.Client);
    }

    public long Milliseconds(Fact fact)
    {
        // What sets the clocks and the home cannot wait for them.
        if (fact.Subjects.Contains(Subject.TheRegister)) return fact.Occurred.UnixMilliseconds;
        if (!fact.Occurred.IsInstant) return ZoneOffsets.StartOfDay(fact.Occurred.Day, _home);
        var offset = _byClient[fact.Client].Where(c => c.FromCounter <= fact.Counter).OrderBy(c => c.FromCounter).LastOrDefault()?.OffsetMs ?? 0;
        return fact.Occurred.UnixMilliseconds + offset;
    }

    /// <summary>The moment at which the day after a day begins at home.</summary>
    public long EndOf(DateOnly day) => day == DateOnly.MaxValue ? long.MaxValue : ZoneOffsets.StartOfDay(day.AddDays(1), _home);

    public bool Equals(Ordering? other) => other is not null && _home.SequenceEqual(other._home) && _clocks.SequenceEqual(other._clocks);

    public override bool Equals(object? obj) => Equals(obj as Ordering);

    public override int GetHashCode() => HashCode.Combine(_home.Count, _clocks.Count);
}
