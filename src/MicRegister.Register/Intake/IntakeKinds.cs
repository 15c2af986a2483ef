using System.Globalization;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Intake;

/// <summary>Kinds of facts about what came in.</summary>
internal sealed class IntakeKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("import-accepted", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new ImportAccepted("fleet.csv", new string('0', 64), 12, 30, new string('0', 64)),
            f => string.Create(CultureInfo.InvariantCulture, $"{f.File}, {f.Facts} facts")),
        FactKind.Of("item-put-aside", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Works, _ => PhoneReach.Nothing,
            new ItemPutAside(new string('0', 64), 20, "phone north", "not JSON"),
            f => f.Why),
    ];
}
