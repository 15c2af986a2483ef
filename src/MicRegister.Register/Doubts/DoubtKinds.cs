using MicRegister.Register.Facts;

namespace MicRegister.Register.Doubts;

/// <summary>Kinds of facts about doubts.</summary>
internal sealed class DoubtKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("doubt-settled", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Bench | Duties.Plan, _ => PhoneReach.Nothing,
            new DoubtSettled("Reported:A1:01J8Z3Q4R5S6T7V8W9XAYBZC0D", false, [], "checked the day after"),
            f => (f.IsConfirmed ? "holds: " : "does not hold: ") + f.Reason),
    ];
}
