using MicRegister.Register.Facts;

namespace MicRegister.Register;

/// <summary>Facts in memory, in the order in which they arrived.</summary>
public sealed class FactList : IFactSource
{
    private readonly List<Fact> _facts = [];

    public int Count => _facts.Count;

    public Fact Read(int sequence) => _facts[sequence - 1];

    public void Add(Fact fact) => _facts.Add(fact);

    /// <summary>A register of these facts alone; a fact that is there twice counts once.</summary>
    public static Register RegisterOf(IEnumerable<Fact> facts)
    {
        var list = new FactList();
        var seen = new HashSet<FactId>();
        foreach (var fact in facts)
        {
            if (seen.Add(fact.Id)) list.Add(fact);
        }
        return Register.Empty(list).With(list._facts);
    }
}
