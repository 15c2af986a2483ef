using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Finds the device that a row means, among those of the register and of the rows before.</summary>
internal sealed class DeviceLookup
{
    private readonly Dictionary<string, HashSet<string>> _kinds = new(StringComparer.Ordinal);
    private readonly Dictionary<string, PlannedDevice> _byId = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<string>> _bySerial = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<string>> _byLooks = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<string>> _byCode = new(StringComparer.Ordinal);

    private readonly Register.Register _register;

    public DeviceLookup(Register.Register register)
    {
        _register = register;
        foreach (var id in register.DeviceIds) Add(PlannedDevice.Of(register.Device(id)!));
    }

    /// <summary>Kind of the devices of a model; null where none is known, or models of several kinds are called so.</summary>
    public DeviceKind? KindOf(string? model) =>
        model is not null && _kinds.GetValueOrDefault(DeviceIdentity.Normal(model)) is { Count: 1 } kinds ? DeviceKind.Find(kinds.First()) : null;

    /// <summary>The name of a device by its id.</summary>
    public string NameOf(string id) => _byId.TryGetValue(id, out var device) ? device.Name : id;

    public void Add(PlannedDevice device)
    {
        if (device.Model is { Length: > 0 } model)
        {
            if (!_kinds.TryGetValue(DeviceIdentity.Normal(model), out var kinds)) _kinds[DeviceIdentity.Normal(model)] = kinds = [];
            kinds.Add(device.Kind);
        }
        _byId[device.Id] = device;
        if (device.Serial is { } serial)
        {
            Add(_bySerial, DeviceIdentity.Normal(serial), device.Id);
            Add(_byLooks, device.Kind + "\n" + DeviceIdentity.LookAlike(serial), device.Id);
        }
        if (device.Details.TryGetValue(DeviceField.InventoryCode.Key, out var code)) Add(_byCode, DeviceIdentity.Normal(code.Text), device.Id);
    }

    /// <summary>Puts a device back to what it was; null takes it out.</summary>
    public void PutBack(string id, PlannedDevice? before)
    {
        if (before is not null) _byId[id] = before;
        else if (_byId.Remove(id))
        {
            foreach (var ids in _bySerial.Values.Concat(_byLooks.Values).Concat(_byCode.Values)) ids.Remove(id);
        }
    }

    /// <summary>The device that fits all that is known of it; null where there is none.</summary>
    /// <exception cref="RowProblem">Several fit.</exception>
    /// <param name="others">Ids of devices that are told apart from it already; null where there are none.</param>
    public PlannedDevice? Find(
        DeviceKind? kind, string? maker, string? model, string? serial, string? code, IReadOnlySet<string>? others = null)
    {
        var ids = serial is not null ? _bySerial.GetValueOrDefault(DeviceIdentity.Normal(serial)) : code is not null
            ? _byCode.GetValueOrDefault(DeviceIdentity.Normal(code)) : null;
        if (ids is null) return null;
        var fitting = ids.Select(id => _byId[id])
            .Where(d => others?.Contains(d.Id) != true && (kind is null || d.Kind == kind.Key)
                && Same(d.Maker, maker) && Same(d.Model, model)).ToList();
        return fitting.Count switch
        {
            0 => null,
            1 => fitting[0],
            _ => throw new RowProblem(RowSort.Refused,
                $"{(serial is null ? "Inventory code" : "Serial number")} '{serial ?? code}' fits {fitting.Count} devices ({string.Join(", ", fitting.Select(f => f.Name + " " + f.Model))}); say kind, maker and model."),
        };
    }

    /// <summary>The device of an id; that of a joined entry leads to the one that was kept. Null where there is none.</summary>
    public PlannedDevice? OfId(string id) => _byId.GetValueOrDefault(id)
        ?? (_register.Device(id) is { } kept ? _byId.GetValueOrDefault(kept.Id) : null);

    /// <summary>A device of that kind and serial whose maker or model is the same but for punctuation.</summary>
    public PlannedDevice? SameSerial(DeviceKind kind, string? maker, string? model, string serial) =>
        _bySerial.GetValueOrDefault(DeviceIdentity.Normal(serial))?.Select(id => _byId[id])
            .FirstOrDefault(d => d.Kind == kind.Key && Alike(d.Maker, maker) && Alike(d.Model, model));

    /// <summary>A device of that kind whose serial looks like this one and is another.</summary>
    public PlannedDevice? LooksLike(DeviceKind kind, string? model, string serial) =>
        _byLooks.GetValueOrDefault(kind.Key + "\n" + DeviceIdentity.LookAlike(serial))?.Select(id => _byId[id])
            .FirstOrDefault(d => DeviceIdentity.Normal(d.Serial) != DeviceIdentity.Normal(serial) && Same(d.Model, model));

    private static bool Alike(string? a, string? b) => Same(a, b)
        || (Column.Plain(a!).Replace(" ", "", StringComparison.Ordinal) is { Length: > 0 } plain && plain == Column.Plain(b!)
        .Replace(" ", "", StringComparison.Ordinal));

    // What one side does not say does not tell them apart.
    private static bool Same(string? a, string? b) => string.IsNullOrEmpty(a) || string.IsNullOrEmpty(b) || a == b
        || DeviceIdentity.Normal(a) == DeviceIdentity.Normal(b);

    private static void Add(Dictionary<string, List<string>> to, string key, string id)
    {
        if (!to.TryGetValue(key, out var list)) to[key] = list = [];
        if (!list.Contains(id)) list.Add(id);
    }
}
