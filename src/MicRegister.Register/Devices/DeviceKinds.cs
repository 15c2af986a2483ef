using MicRegister.Register.Facts;

namespace MicRegister.Register.Devices;

/// <summary>Kinds of facts about devices.</summary>
internal sealed class DeviceKinds : IFactKinds
{
    public static IReadOnlyList<FactKind> Rows { get; } =
    [
        FactKind.Of("device-registered", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new DeviceRegistered("microphone", "Hilltop", "H1", "1001", []),
            f => string.Join(' ', new[] { f.Kind, f.Model, f.Serial }.Where(t => !string.IsNullOrEmpty(t)))),
        FactKind.Of("device-described", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new DeviceDescribed(new(StringComparer.Ordinal) { ["size-mm"] = FieldValue.Of(12.7) }, ["batch"]),
            f => string.Join(", ", f.Set.Select(s => $"{s.Key} {s.Value}").Concat(f.Clear.Select(c => $"{c} not known")))),
        FactKind.Of("device-moved", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Works, _ => PhoneReach.PlannedDevices,
            new DeviceMoved("store room"),
            f => f.Place),
        FactKind.Of("device-status-changed", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Works,
            f => f.Status is DeviceStatus.Lost or DeviceStatus.OutOfService ? PhoneReach.DevicesThere : PhoneReach.PlannedDevices,
            new DeviceStatusChanged(DeviceStatus.OutOfService, "cracked"),
            f => f.Status.InWords + (f.Reason is { } why ? ", " + why : "")),
        FactKind.Of("device-noted", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Works, _ => PhoneReach.DevicesThere,
            new DeviceNoted("new grid"),
            f => f.Text),
        FactKind.Of("device-serviced", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Works,
            f => f is { What: ServiceKind.Damage or ServiceKind.Malfunction, BeginsAnew: false }
                ? PhoneReach.DevicesThere
                : PhoneReach.PlannedDevices,
            new DeviceServiced(ServiceKind.Damage, "dented grid", false),
            f => f.Text),
        FactKind.Of("device-inspected", 1, FactReading.Whole, FactReach.OwnSubjects, Duties.Works, _ => PhoneReach.PlannedDevices,
            new DeviceInspected(true, 0.05, null, 0.1, "clean"),
            f => (f.Passed ? "passed" : "failed") + (f.StateInWords is { Length: > 0 } state ? ", " + state : "")),
        FactKind.Of("devices-joined", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new DevicesJoined("A1", "A2", "entered twice"),
            f => f.Reason),
        FactKind.Of("devices-parted", 1, FactReading.Whole, FactReach.Everything, Duties.Plan, _ => PhoneReach.Nothing,
            new DevicesParted("A1", "A2", "two after all"),
            f => f.Reason),
    ];
}
