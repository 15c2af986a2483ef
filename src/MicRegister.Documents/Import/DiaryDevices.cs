using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Finds the devices that such a table names by their serial numbers; none is ever invented.</summary>
internal sealed class DiaryDevices(ImportSession session)
{
    private static readonly char[] Marks = [';', ',', '+', '|', '\n'];

    /// <summary>The device under a column; null where none is named.</summary>
    /// <exception cref="RowProblem">None of that kind and serial is known, or several are.</exception>
    public string? One(DiaryRow row, Column column, DeviceKind? kind) =>
        row.Reader.Text(column) is { } serial ? Find(row, column, kind, serial) : null;

    /// <summary>All devices under a column, in their order.</summary>
    public IReadOnlyList<string> Several(DiaryRow row, Column column)
    {
        if (row.Reader.Text(column) is not { } text) return [];
        if (Known(null, text) is { } whole) return [whole];
        return [.. text.Split(Marks, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
            .Select(s => Find(row, column, null, s))];
    }

    private string Find(DiaryRow row, Column column, DeviceKind? kind, string serial)
    {
        if (Known(kind, serial) is { } known) return known;
        var alike = kind is null ? null : session.Lookup.LooksLike(kind, null, serial);
        throw new RowProblem(
            RowSort.Refused,
            $"{row.Reader.HeaderOf(column)} '{serial}': no {(kind?.Label ?? "device").ToLowerInvariant()} with that serial number is known"
                + (alike is null ? "" : $"; {alike.Name} looks like it"),
            row.Reader.HeaderOf(column), serial);
    }

    private string? Known(DeviceKind? kind, string serial) =>
        (session.Lookup.Find(kind, null, null, serial, null) ?? session.Lookup.Find(kind, null, null, null, serial))?.Id;
}
