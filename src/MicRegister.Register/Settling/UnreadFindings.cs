using MicRegister.Register.Facts;

namespace MicRegister.Register.Settling;

/// <summary>Facts that are kept and passed on byte for byte, and whose bodies cannot be used here: a person should know, and may say it
/// anew.</summary>
internal static class UnreadFindings
{
    private const int MostNamed = 20;
    private const int MostSubjects = 5;

    /// <summary>One finding a kind and client, however many facts there are.</summary>
    public static IEnumerable<RegisterFinding> Of(Register register)
    {
        var groups = register.UnreadFacts.Where(register.Counts).Select(register.Source.Read).Where(f => f.Body is UnreadBody)
            .GroupBy(f => (f.Kind, f.Version, f.Client));
        foreach (var group in groups)
        {
            List<Fact> facts = [.. group];
            var why = ((UnreadBody)facts[0].Body).Why.TrimEnd('.');
            var what = $"of {group.Key.Kind} from {group.Key.Client} cannot be used here: {why}.";
            var text = facts.Count == 1
                ? $"A fact {what} It is kept and has no effect; find out what was meant, state it, then annul this."
                : FormattableString.Invariant($"{facts.Count} facts {what} They are kept and have no effect; ")
                    + "find out what was meant, state it, then annul these.";
            yield return new("unread", [.. facts.SelectMany(f => f.Subjects).Distinct(StringComparer.Ordinal).Take(MostSubjects)], text,
                [.. facts.Take(MostNamed).Select(f => f.Id.ToString())]);
        }
    }
}
