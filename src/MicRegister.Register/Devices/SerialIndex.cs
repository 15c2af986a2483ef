namespace MicRegister.Register.Devices;

/// <summary>
/// Which devices carry a serial number or an inventory code. Made once and kept from state to state while no fact can change either:
/// it is remembered with what else was worked out of the register.
/// </summary>
public sealed class SerialIndex
{
    private readonly Dictionary<string, List<string>> _ids = new(StringComparer.Ordinal);

    private SerialIndex(Register register)
    {
        foreach (var id in register.DeviceIds)
        {
            var device = register.Device(id)!;
            Add(DeviceIdentity.Normal(device.Serial), id);
            Add(DeviceIdentity.Normal(device.Text(DeviceField.InventoryCode)), id);
        }
    }

    /// <summary>The index of a register.</summary>
    public static SerialIndex Of(Register register) =>
        register.Memory.Of<Remembered>().Index ??= new(register); // made twice, both say the same

    /// <summary>Devices whose serial number or inventory code is this text, however it is spaced and capitalised, or whose id it is to the
    /// letter.</summary>
    /// <param name="register">The register that the index is of.</param>
    /// <param name="text">What was typed.</param>
    /// <returns>Each once, in no order; empty where there is none or nothing was typed.</returns>
    public static IReadOnlyList<DeviceState> Find(Register register, string? text)
    {
        if (string.IsNullOrWhiteSpace(text)) return [];
        var ids = Of(register)._ids.GetValueOrDefault(DeviceIdentity.Normal(text), []);
        var found = ids.Select(id => register.Device(id)!).ToList();
        // The id of an entry that was joined to another is not its own any more.
        if (!ids.Contains(text) && register.Device(text) is { } own && own.Id == text) found.Add(own);
        return found;
    }

    private sealed class Remembered
    {
        public SerialIndex? Index { get; set; }
    }

    private void Add(string key, string id)
    {
        if (key.Length == 0) return;
        if (!_ids.TryGetValue(key, out var ids)) _ids[key] = ids = [];
        if (!ids.Contains(id)) ids.Add(id);
    }
}
