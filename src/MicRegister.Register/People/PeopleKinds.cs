using MicRegister.Register.Facts;

namespace MicRegister.Register.People;

/// <summary>Kinds of facts about people.</summary>
internal sealed class PeopleKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("person-named", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Works, _ => PhoneReach.OwnPerson,
            new PersonNamed("Crew north"),
            f => f.Name),
    ];
}
