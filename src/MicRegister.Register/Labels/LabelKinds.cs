using MicRegister.Register.Facts;

namespace MicRegister.Register.Labels;

/// <summary>Kinds of facts about labels.</summary>
internal sealed class LabelKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("label-bound", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Works,
            f => f.Station is null ? PhoneReach.PlannedDevices : PhoneReach.Campaign,
            new LabelBound("2AYS641TS", null),
            f => f.Code + (f.Station is { } station ? $" at {station}" : ""),
            _ => [LabelBook.AllBindings]),
    ];
}
