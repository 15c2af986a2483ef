using System.Collections.Concurrent;
using MicRegister.Register.Facts;

namespace MicRegister.Register.People;

/// <summary>People and crews whose names cannot be told apart.</summary>
internal static class PeopleFindings
{
    /// <summary>One finding a pair that is seen alike; each look is worked out once a name.</summary>
    public static IEnumerable<RegisterFinding> Of(Register register)
    {
        var known = register.Lasting<Looks>();
        List<(PersonState Person, NameLook Look)> people =
            [.. register.PersonIds.Select(register.Person).OfType<PersonState>().Select(p => (p, known.GetOrAdd(p.Name, NameLook.Of)))];
        // Alike in either way: by how the name looks in small letters, and as it is written.
        var pairs = Pairs(people, p => p.Look.Small).Concat(Pairs(people, p => p.Look.Written)).Distinct();
        foreach (var (person, other) in pairs.OrderBy(p => (p.One.Id, p.Other.Id)))
        {
            yield return new(
                "names-alike", [Subject.Person(person.Id), Subject.Person(other.Id)],
                $"“{person.Name}” ({person.Id}) and “{other.Name}” ({other.Id}) look alike and are two people in the register: "
                + "find out who states facts under each, and let an owner name one of them so that they can be told apart.",
                [.. Naming(register, person.Id), .. Naming(register, other.Id)]);
        }
    }

    // Of many that look the same, each with the one before it.
    private static IEnumerable<(PersonState One, PersonState Other)> Pairs(
        List<(PersonState Person, NameLook Look)> people, Func<(PersonState Person, NameLook Look), string> look) =>
        people.GroupBy(look, StringComparer.Ordinal).SelectMany(g => g.Zip(g.Skip(1), (a, b) => (a.Person, b.Person)));

    private static IEnumerable<string> Naming(Register register, string person) =>
        register.Facts(Subject.Person(person)).Where(register.Counts).Select(register.Source.Read).Where(f => f.Body is PersonNamed)
            .TakeLast(1).Select(f => f.Id.ToString());

    private sealed class Looks() : ConcurrentDictionary<string, NameLook>(StringComparer.Ordinal);
}
