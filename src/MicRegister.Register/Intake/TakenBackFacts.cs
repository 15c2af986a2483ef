using MicRegister.Register.Facts;

namespace MicRegister.Register.Intake;

/// <summary>
/// Facts that do not count since the import that brought them was taken back. Taking the same list over again lets them count again; what
/// a person annulled by itself stays annulled.
/// </summary>
public sealed class TakenBackFacts
{
    private readonly Register _register;
    private readonly List<Fact> _acts;

    /// <param name="register">What is known.</param>
    public TakenBackFacts(Register register)
    {
        _register = register;
        _acts = [.. register.TakenImports().SelectMany(i => ImportTakeBack.AnnulmentsOf(register, i.Fact.Id))];
    }

    /// <summary>The facts that let a known fact count again, each an annulment of what took it out.</summary>
    /// <param name="fact">A fact that the register knows.</param>
    /// <returns>None where it counts, or where somebody annulled it otherwise than by taking its import back.</returns>
    public IReadOnlyList<Fact> Again(FactId fact)
    {
        var found = new List<Fact>();
        var open = new Stack<FactId>([fact]);
        while (open.TryPop(out var at))
        {
            foreach (var annulment in ImportTakeBack.AnnulmentsOf(_register, at))
            {
                if (!_acts.Exists(a => ImportTakeBack.IsOfAct(annulment, a))) return [];
                // Of no day: it says nothing but that the list was taken over again.
                var again = FactText.WriteDerived(
                    FactStamp.Imported(Occurred.Unknown, 0), new FactAnnulled(annulment.Id.ToString(), "its list was taken over again"),
                    annulment.Subjects);
                // Said before, and taken back since: then that is what has to count again.
                if (_register.Knows(again.Id)) open.Push(again.Id);
                else found.Add(again);
            }
        }
        return found;
    }
}
