using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>What the order of all facts rests on: the home in whose zone days begin, and the clocks that were found wrong.</summary>
/// <param name="Founded">Name and home; null where nobody founded the register yet.</param>
/// <param name="Clocks">What was noticed of clients' clocks, in the order of time.</param>
internal sealed record TimeBasis(RegisterFounded? Founded, IReadOnlyList<ClientClockNoticed> Clocks)
{
    public static TimeBasis None { get; } = new(null, []);

    public static TimeBasis Fold(IEnumerable<Fact> facts)
    {
        RegisterFounded? founded = null;
        var clocks = new List<ClientClockNoticed>();
        foreach (var fact in facts)
        {
            if (fact.Body is RegisterFounded f) founded = f;
            if (fact.Body is ClientClockNoticed c) clocks.Add(c);
        }
        return new(founded, clocks);
    }
}
