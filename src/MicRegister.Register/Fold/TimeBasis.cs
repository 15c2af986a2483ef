using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>What the order of all facts rests on: the home in whose zone days begin, and the clocks that were found wrong.</summary>
/// <param name="Founded">Name and home; null where nobody founded the register yet.</param>
/// <param name="Clocks">What was noticed of clients' clocks, in the order of time.</param>
internal sealed record TimeBasis(RegisterFounded? Founded, IReadOnlyList<ClientClockNoticed> Clocks)
{
    private Ordering? _ordering;

    public static TimeBasis None { get; } = new(null, []);

    /// <summary>The order that follows from it.</summary>
    public Ordering Ordering => _ordering ??= new(this);

    public static TimeBasis Fold(IEnumerable<Fact> facts)
    {
        List<FactBody> said = [.. facts.Select(f => f.Body)];
        return new(said.OfType<RegisterFounded>().LastOrDefault(), [.. said.OfType<ClientClockNoticed>()]);
    }

    /// <summary>The basis after one more fact, later than those before it.</summary>
    public TimeBasis With(Fact fact) => fact.Body switch
    {
        RegisterFounded founded => new(founded, Clocks),
        ClientClockNoticed clock => new(Founded, [.. Clocks, clock]),
        _ => this,
    };
}
