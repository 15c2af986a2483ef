using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Columns of a table that speak of one more device.</summary>
public sealed record DevicePart(DeviceKind Kind)
{
    public Dictionary<Column, int> Places { get; } = [];
}
