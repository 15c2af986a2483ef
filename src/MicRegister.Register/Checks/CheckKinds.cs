using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>Kinds of facts about checks with a calibrator.</summary>
internal sealed class CheckKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("coupling-stated", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Bench, _ => PhoneReach.Nothing,
            new CouplingStated("H1", null, -0.02, 0.02, -0.1, 0.05, "the calibrator's papers"),
            f => f.MicrophoneModel),
        FactKind.Of("test-session-stated", 1, FactReading.Whole, FactReach.Everything, Duties.Field | Duties.Plan, _ => PhoneReach.Nothing,
            new TestSessionStated("Night 1", "2026-08-03T18:00:00.000Z", "2026-08-04T02:00:00.000Z"),
            f => f.Name),
        FactKind.Of("chain-checked", 1, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Bench, _ => PhoneReach.Campaign,
            new ChainCheckedBriefly("S01", "K1", 0.02),
            f => f.Station),
        FactKind.Of("chain-checked", 2, FactReading.Counted, FactReach.OwnSubjects, Duties.Field | Duties.Bench, _ => PhoneReach.Campaign,
            new ChainChecked(
                "S01", CheckMoment.Before, ["A1"], "K1", "01J8Z3Q4R5S6T7V8W9XAYBZC0D", null, null, true,
                CheckMethod.Voltage, [0.39], 0.001, 10, 93.98,
                [new("certificate", 93.98, 0.05, "certificate 1", null)], -38.2, "V/Pa", null, [], null,
                [new("certificate", "certificate 1", 0.05, "dB", -1, null, UncertaintyDistribution.Normal)], 0.05, 2, 0.1, null, null),
            f => f.Station ?? "at the bench"),
    ];
}
