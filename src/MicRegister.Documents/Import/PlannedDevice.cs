using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>A device as it will be when the rows so far are taken.</summary>
internal sealed class PlannedDevice(string id, string kind)
{
    public string Id { get; } = id;

    public string Kind { get; } = kind;

    public string? Maker { get; set; }

    public string? Model { get; set; }

    public string? Serial { get; set; }

    public SortedDictionary<string, FieldValue> Details { get; } = new(StringComparer.Ordinal);

    public string? Place { get; set; }

    public DeviceStatus Status { get; set; } = DeviceStatus.InService;

    /// <summary>Whether the register does not know it yet.</summary>
    public bool IsNew { get; set; }

    /// <summary>What rows of this import have said of it: keys of details, place, status.</summary>
    public List<string> Said { get; } = []; // a handful: a set of each would be the greater part of a long list's memory

    public List<PlannedCertificate> Certificates { get; } = [];

    public List<(DateOnly Day, DeviceInspected Body)> Inspections { get; } = [];

    public string Name => $"{DeviceKind.Find(Kind)?.Label ?? Kind} {Serial ?? Details.GetValueOrDefault(DeviceField.InventoryCode.Key).Text ?? Id}";

    /// <summary>As it is now, to come back to.</summary>
    public PlannedDevice Copy()
    {
        var copy = new PlannedDevice(Id, Kind)
        {
            Maker = Maker,
            Model = Model,
            Serial = Serial,
            Place = Place,
            Status = Status,
            IsNew = IsNew,
        };
        foreach (var (key, value) in Details) copy.Details[key] = value;
        copy.Said.AddRange(Said);
        copy.Certificates.AddRange(Certificates);
        copy.Inspections.AddRange(Inspections);
        return copy;
    }

    public static PlannedDevice Of(DeviceState state)
    {
        var planned = new PlannedDevice(state.Id, state.Kind ?? "general")
        {
            Maker = state.Maker,
            Model = state.Model,
            Serial = state.Serial,
            Place = state.Place,
            Status = state.Status
        };
        foreach (var (key, value) in state.Details) planned.Details[key] = value;
        planned.Certificates.AddRange(state.Certificates.Where(c => !c.IsAnnulled)
            .Select(c => new PlannedCertificate(c.Fact, c.Day, c.Issued)));
        planned.Inspections.AddRange(state.Inspections.Select(i => (i.Day, i.What)));
        return planned;
    }
}

internal sealed record PlannedCertificate(FactId Fact, DateOnly Day, CertificateIssued Issued)
{
    /// <summary>Level of the result in force; null where there is none.</summary>
    public double? LevelDb => Issued.Results.Count > 0 ? ResultLevel.Of(Issued.Results[^1])?.LevelDb : null;
}
