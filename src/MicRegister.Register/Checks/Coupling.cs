using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>What is known of a calibrator on a microphone.</summary>
public static class Coupling
{
    /// <summary>The statement that holds for an adapter and a microphone's model: one for that very adapter before one for any.</summary>
    /// <returns>Null where nothing was stated.</returns>
    public static CouplingStated? Of(DeviceState calibrator, string? adapter, string? microphoneModel)
    {
        if (string.IsNullOrWhiteSpace(microphoneModel)) return null;
        var model = DeviceIdentity.Normal(microphoneModel);
        var all = calibrator.Couplings.Select(c => c.What).Where(c => DeviceIdentity.Normal(c.MicrophoneModel) == model).ToList();
        return all.LastOrDefault(c => c.Adapter is not null && c.Adapter == adapter) ?? all.LastOrDefault(c => c.Adapter is null);
    }

    /// <summary>Those that hold now: the last of each adapter and model.</summary>
    public static IReadOnlyList<Dated<CouplingStated>> InForce(DeviceState calibrator) =>
        [.. calibrator.Couplings.GroupBy(c => (c.What.Adapter, DeviceIdentity.Normal(c.What.MicrophoneModel))).Select(g => g.Last())];

    /// <summary>States a coupling.</summary>
    public static Result<IReadOnlyList<Fact>> State(Register register, Saying saying, string calibrator, CouplingStated stated)
    {
        if (register.Device(calibrator) is not { } device) return DeviceDecisions.Missing(calibrator);
        if (device.Kind != DeviceKind.Calibrator.Key) return Saying.Invalid($"{device.Name} is no sound calibrator.");
        if (stated.Adapter is { } adapter && register.Device(adapter) is null) return DeviceDecisions.Missing(adapter);
        if (string.IsNullOrWhiteSpace(stated.MicrophoneModel)) return Saying.Invalid("Model of the microphones is missing.");
        foreach (var (name, db) in new[] { ("Load volume", stated.LoadVolumeDb), ("Pressure to free field", stated.FieldDb) })
        {
            if (!(Math.Abs(db) <= 5)) return Saying.Invalid($"{name} '{db}': allowed is a number from -5 to 5 dB.");
        }
        foreach (var (name, db) in new[] { ("U of load volume", stated.LoadVolumeExpandedDb), ("U of pressure to free field", stated.FieldExpandedDb) })
        {
            if (db is { } u && !(u is >= 0 and <= 5)) return Saying.Invalid($"{name} '{db}': allowed is a number from 0 to 5 dB.");
        }
        if (DeviceDecisions.Text(stated.Source, "Source") is { } wrong) return wrong;
        return saying.Of(register, stated, stated.Adapter is { } a ? [Subject.Device(device.Id), Subject.Device(a)] : [Subject.Device(device.Id)]);
    }
}
