using MicRegister.Register.Facts;

namespace MicRegister.Register.Intake;

/// <summary>
/// Finds in the bodies of facts the ids of subjects and of facts that they are not about, as a campaign names its profile.
/// </summary>
internal sealed class NamedSubjects
{
    private readonly Dictionary<string, List<string>> _byId = new(StringComparer.Ordinal);

    /// <param name="subjects">Subjects that may be named.</param>
    /// <param name="facts">Facts that may be named; whoever names one names what it is about.</param>
    public NamedSubjects(IEnumerable<string> subjects, IEnumerable<Fact> facts)
    {
        foreach (var subject in subjects.Where(s => s != Subject.TheRegister)) Add(Subject.Id(subject), subject);
        foreach (var fact in facts.Where(f => f.Subjects[0] != Subject.TheRegister)) Add(fact.Id.ToString(), fact.Subjects[0]);
    }

    /// <summary>The subjects that a fact's body names.</summary>
    public IEnumerable<string> In(Fact fact) =>
        BodyTexts.Of(fact).SelectMany(text => _byId.TryGetValue(text, out var subjects) ? subjects : []);

    private void Add(string id, string subject)
    {
        if (!_byId.TryGetValue(id, out var subjects)) _byId[id] = subjects = [];
        if (!subjects.Contains(subject)) subjects.Add(subject);
    }
}
