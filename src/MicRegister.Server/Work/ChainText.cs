using System.Buffers;
using MicRegister.Register.Devices;
using MicRegister.Register.Labels;

namespace MicRegister.Server.Work;

/// <summary>The devices of a chain as a person types or scans them, and back: "41001 + GP001".</summary>
/// <remarks>
/// Each is named by its serial, its inventory code, its label or its id; where several have it, by the kind before it, such as
/// "microphone 41001".
/// </remarks>
public static class ChainText
{
    /// <summary>What stands between two devices.</summary>
    public const string Between = " + ";

    private static readonly char[] Separators = ['+', ',', ';', '\t', '\r', '\n'];
    private static readonly SearchValues<char> Parting = SearchValues.Create(Separators);

    /// <summary>The text that names these devices, and no others.</summary>
    /// <param name="register">Where they are.</param>
    /// <param name="ids">Ids of devices; one that is not known stands as it is.</param>
    public static string Write(Register.Register register, IEnumerable<string> ids) =>
        string.Join(Between, ids.Select(id => Name(register, id)));

    /// <summary>The devices that a text names.</summary>
    /// <param name="register">Where they are.</param>
    /// <param name="text">What was typed.</param>
    /// <returns>Their ids in the order in which they stand, and what cannot be read; null where all can.</returns>
    public static (IReadOnlyList<string> Ids, string? Wrong) Read(Register.Register register, string? text)
    {
        var ids = new List<string>();
        foreach (var part in (text ?? "").Split(Separators, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var (found, wrong) = Devices(register, part);
            if (wrong is not null) return (ids, wrong);
            foreach (var id in found)
            {
                if (ids.Contains(id)) return (ids, $"{Name(register, id)} stands twice in it.");
                ids.Add(id);
            }
        }
        return (ids, null);
    }

    // A serial may hold blanks; only what is none as a whole is taken for several.
    private static (IReadOnlyList<string> Ids, string? Wrong) Devices(Register.Register register, string part)
    {
        var (id, wrong) = One(register, part);
        if (id is not null) return ([id], null);
        var words = part.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        if (words.Length < 2) return ([], wrong);
        var each = words.Select(w => One(register, w).Id).ToList();
        return each.Contains(null) ? ([], wrong) : ([.. each.OfType<string>()], null);
    }

    private static (string? Id, string? Wrong) One(Register.Register register, string name)
    {
        var found = Meant(register, name);
        return found switch
        {
            [var one] => (one.Id, null),
            [] => (null, $"No device is called '{name}': allowed are serials, labels and ids of the register."),
            _ => (null, $"{found.Count} devices are called '{name}': write the kind before it, as in "
                + $"'{string.Join("' or '", found.Select(d => Name(register, d.Id)).Order(StringComparer.Ordinal).Take(3))}'."),
        };
    }

    private static List<DeviceState> Meant(Register.Register register, string name)
    {
        var found = Called(register, name);
        return found.Count == 0 && Kinded(name) is var (kind, rest) ? [.. Called(register, rest).Where(d => d.Kind == kind.Key)] : found;
    }

    private static List<DeviceState> Called(Register.Register register, string name)
    {
        List<DeviceState> found = [.. SerialIndex.Find(register, name)];
        if (found.Count > 0 || !LabelCode.TryRead(name, out var code, out _)) return found;
        return [.. LabelBook.Of(register, code).Select(b => register.Device(b.Device ?? "")).OfType<DeviceState>().DistinctBy(d => d.Id)];
    }

    private static (DeviceKind Kind, string Name)? Kinded(string name)
    {
        foreach (var kind in DeviceKind.All.OrderByDescending(k => k.Label.Length))
        {
            if (name.Length > kind.Label.Length + 1 && name[kind.Label.Length] == ' '
                && name.StartsWith(kind.Label, StringComparison.OrdinalIgnoreCase)) return (kind, name[(kind.Label.Length + 1)..].Trim());
        }
        return null;
    }

    // The shortest name that leads back to this device alone.
    private static string Name(Register.Register register, string id)
    {
        if (register.Device(id) is not { Serial: { Length: > 0 } serial } device) return id;
        string[] names = [serial, $"{DeviceKind.Find(device.Kind)?.Label.ToLowerInvariant()} {serial}"];
        return names.FirstOrDefault(n =>
            !n.AsSpan().ContainsAny(Parting) && n == n.Trim() && Meant(register, n) is [var one] && one.Id == id) ?? id;
    }
}
