using MicRegister.Register.Facts;

namespace MicRegister.Register.People;

/// <summary>People and crews whose names cannot be told apart.</summary>
internal static class PeopleFindings
{
    public static IEnumerable<RegisterFinding> Of(Register register)
    {
        var people = register.PersonIds.Select(register.Person).OfType<PersonState>()
            .Select(p => (Person: p, Look: NameLook.Of(p.Name))).ToList();
        for (var i = 0; i < people.Count; i++)
        {
            foreach (var (other, _) in people.Skip(i + 1).Where(o => o.Look.IsLike(people[i].Look)))
            {
                var person = people[i].Person;
                yield return new(
                    "names-alike", [Subject.Person(person.Id), Subject.Person(other.Id)],
                    $"“{person.Name}” ({person.Id}) and “{other.Name}” ({other.Id}) look alike and are two people in the register: "
                    + "find out who states facts under each, and let an owner name one of them so that they can be told apart.",
                    [.. Naming(register, person.Id), .. Naming(register, other.Id)]);
            }
        }
    }

    private static IEnumerable<string> Naming(Register register, string person) =>
        register.Facts(Subject.Person(person)).Where(register.Counts).Select(register.Source.Read).Where(f => f.Body is PersonNamed)
            .TakeLast(1).Select(f => f.Id.ToString());
}
