using MicRegister.Register.Facts;

namespace MicRegister.Register.People;

/// <summary>Kinds of facts about people.</summary>
internal sealed class PeopleKinds : IFactKinds
{
    private static readonly Duties Outdoors = Duties.Field | Duties.Bench | Duties.Plan;

    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("person-named", 1, FactReading.Whole, FactReach.OwnSubjects, Outdoors, _ => PhoneReach.OwnPerson,
            new PersonNamed("Crew north"),
            f => f.Name),
    ];
}
