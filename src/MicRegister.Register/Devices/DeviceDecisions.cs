using MicRegister.Register.Facts;

namespace MicRegister.Register.Devices;

/// <summary>What people at the desk say about devices: bad input is refused at once, with field and reason.</summary>
public static class DeviceDecisions
{
    private const int MaxText = 2000;

    /// <summary>Enters a device.</summary>
    public static Result<IReadOnlyList<Fact>> Register(Register register, Saying saying, string kind, string? maker, string? model, string? serial, IReadOnlyDictionary<string, FieldValue> details)
    {
        if (DeviceKind.Find(kind) is not { } known) return Saying.Invalid($"Kind '{kind}': allowed are {string.Join(", ", DeviceKind.All.Select(k => k.Key))}.");
        var code = details.GetValueOrDefault(DeviceField.InventoryCode.Key).Text;
        if (string.IsNullOrWhiteSpace(serial) && string.IsNullOrWhiteSpace(code)) return Saying.Invalid("A device needs a serial number or an inventory code.");
        if (Wrong(known, details) is { } wrong) return wrong;
        details = InstrumentClasses.Settle(details, _ => null, out var unclear);
        if (unclear is { } c) return Saying.Invalid($"{c.Field.Label}: {c.Why}.");
        var id = IdOf(kind, maker, model, serial, code);
        if (register.Device(id)?.Kind is not null) return new Rejection(RejectionSort.Conflict, $"That {known.Label.ToLowerInvariant()} is registered already: {id}.");
        return saying.Of(register, new DeviceRegistered(kind, maker, model, serial, new(details.ToDictionary(), StringComparer.Ordinal)), Subject.Device(id));
    }

    /// <summary>The id of a device; one without a serial number is told by its inventory code.</summary>
    public static string IdOf(string kind, string? maker, string? model, string? serial, string? code) =>
        DeviceIdentity.IdOf(kind, maker, model, string.IsNullOrWhiteSpace(serial) ? "code " + code : serial);

    /// <summary>Adds or corrects details; kind, maker, model and serial too. The id stays.</summary>
    public static Result<IReadOnlyList<Fact>> Describe(Register register, Saying saying, string id, IReadOnlyDictionary<string, FieldValue> set, IReadOnlyList<string> clear)
    {
        if (Find(register, id) is not { } device) return Missing(id);
        if (set.Count == 0 && clear.Count == 0) return Saying.Invalid("Nothing is said: neither set nor clear holds a detail.");
        var kind = set.TryGetValue("kind", out var k) ? DeviceKind.Find(k.Text) : DeviceKind.Find(device.Kind);
        if (kind is null) return Saying.Invalid($"Kind '{k}': allowed are {string.Join(", ", DeviceKind.All.Select(d => d.Key))}.");
        var details = set.Where(d => d.Key is not ("kind" or "maker" or "model" or "serial")).ToDictionary();
        if (Wrong(kind, details) is { } wrong) return wrong;
        var settled = InstrumentClasses.Settle(details, f => clear.Contains(f.Key) ? null : device.Text(f), out var unclear);
        if (unclear is { } u) return Saying.Invalid($"{u.Field.Label}: {u.Why}.");
        if (clear.FirstOrDefault(c => DeviceField.Find(c) is null && c is not ("maker" or "model" or "serial")) is { } unknown) return Saying.Invalid($"Detail '{unknown}' is not known.");
        var all = set.ToDictionary();
        foreach (var (key, value) in settled) all[key] = value;
        return saying.Of(register, new DeviceDescribed(new(all, StringComparer.Ordinal), clear), Subject.Device(device.Id));
    }

    public static Result<IReadOnlyList<Fact>> Move(Register register, Saying saying, string id, string place) =>
        Text(place, "Place") ?? About(register, saying, id, new DeviceMoved(place));

    public static Result<IReadOnlyList<Fact>> ChangeStatus(Register register, Saying saying, string id, DeviceStatus status, string? reason) =>
        (reason is null ? null : Text(reason, "Reason")) ?? About(register, saying, id, new DeviceStatusChanged(status, reason));

    public static Result<IReadOnlyList<Fact>> Note(Register register, Saying saying, string id, string text) =>
        Text(text, "Note") ?? About(register, saying, id, new DeviceNoted(text));

    public static Result<IReadOnlyList<Fact>> Serve(Register register, Saying saying, string id, DateOnly day, DeviceServiced done) =>
        Text(done.Text, "Text") ?? (Find(register, id) is { } device ? saying.On(day, register, done, Subject.Device(device.Id)) : Missing(id));

    public static Result<IReadOnlyList<Fact>> Inspect(Register register, Saying saying, string id, DateOnly day, DeviceInspected seen)
    {
        if (Find(register, id) is not { } device) return Missing(id);
        foreach (var (value, name) in new[] { (seen.FlushStepMm, "Step"), (seen.GapMm, "Gap"), (seen.FlatnessMm, "Flatness") })
        {
            if (value is { } mm && !(Math.Abs(mm) <= 200)) return Saying.Invalid($"{name} '{mm}': allowed is a number up to 200 mm.");
        }
        if (seen.MakersData is { } data && Text(data, "Maker's data") is { } wrong) return wrong;
        if (seen.Attachment is { } sha && (sha.Length != 64 || !sha.All(char.IsAsciiHexDigitLower)))
            return Saying.Invalid($"Attachment '{sha}': a SHA-256 in 64 small hexadecimal digits is allowed.");
        if (seen.Passed && (seen.Undamaged == false || seen.Uncontaminated == false))
            return Saying.Invalid($"It cannot pass: it was found {seen.Amiss}. Enter the inspection as failed.");
        return saying.On(day, register, seen, Subject.Device(device.Id));
    }

    public static Result<IReadOnlyList<Fact>> Join(Register register, Saying saying, string keep, string other, string reason)
    {
        if (Find(register, keep) is not { } kept) return Missing(keep);
        if (Find(register, other) is not { } second) return Missing(other);
        if (kept.Id == second.Id) return Saying.Invalid("Both are the same entry already.");
        return Text(reason, "Reason") ?? saying.Of(register, new DevicesJoined(kept.Id, second.Id, reason), Subject.Device(kept.Id), Subject.Device(second.Id));
    }

    internal static DeviceState? Find(Register register, string id) => register.Device(id);

    internal static Rejection Missing(string id) => new(RejectionSort.NotFound, $"There is no device {id}.");

    internal static Result<IReadOnlyList<Fact>>? Text(string? text, string name)
    {
        if (string.IsNullOrWhiteSpace(text)) return Saying.Invalid($"{name} is missing.");
        return text.Length > MaxText ? (Result<IReadOnlyList<Fact>>)Saying.Invalid($"{name} has {text.Length} characters; at most {MaxText} are allowed.") : null;
    }

    private static Result<IReadOnlyList<Fact>> About(Register register, Saying saying, string id, FactBody body) =>
        Find(register, id) is { } device ? saying.Of(register, body, Subject.Device(device.Id)) : Missing(id);

    private static Rejection? Wrong(DeviceKind kind, IReadOnlyDictionary<string, FieldValue> details)
    {
        foreach (var (key, value) in details)
        {
            if (DeviceField.Find(key) is not { } field) return Saying.Invalid($"Detail '{key}' is not known.");
            if (!kind.Has(field)) return Saying.Invalid($"{field.Label}: a {kind.Label.ToLowerInvariant()} has no such detail.");
            var isRight = field.IsNumber ? value.Number >= field.Least && value.Number <= field.Greatest
                : value.Text is { Length: > 0 and <= MaxText } text && (field.Choices?.Contains(text) ?? true);
            if (!isRight) return Saying.Invalid($"{field.Label} '{value}': allowed is {field.Allowed}.");
        }
        return null;
    }
}
