using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Exports;

/// <summary>
/// Names devices of chains as their stations' columns do: by serial number where one device of the kind has it, otherwise by id.
/// </summary>
/// <param name="register">The register.</param>
internal sealed class ChainNames(Register.Register register)
{
    private readonly Dictionary<(string? Kind, string Serial), int> _serials = register.DeviceIds.Select(id => register.Device(id)!)
        .Where(d => d.Serial is not null).GroupBy(d => (d.Kind, DeviceIdentity.Normal(d.Serial))).ToDictionary(g => g.Key, g => g.Count());

    public void Write(DraftRow row, IEnumerable<string> chain, LeftBehind left)
    {
        var others = new SortedSet<string>(StringComparer.Ordinal);
        foreach (var id in chain.Select(d => register.EntriesOf(d)[0]).Distinct(StringComparer.Ordinal))
        {
            if (register.Device(id) is not { } device || DeviceKind.Find(device.Kind) is null)
            {
                left.Add("devices in chains that nobody registered");
                continue;
            }
            var column = Column.Parts.FirstOrDefault(p => p.Kind.Key == device.Kind).Column;
            if (column is null || !row[column].IsNothing) others.Add(id);
            else row.Text(column, IsTold(device) ? device.Serial : id);
        }
        row.Text(Column.StationOthers, string.Join(' ', others));
    }

    private bool IsTold(DeviceState device) => device.Serial is { } serial && CellText.Trimmed(serial) is { Length: > 0 } text
        && !RowReader.IsAbsent(text) && _serials[(device.Kind, DeviceIdentity.Normal(serial))] == 1;
}
