using MicRegister.Documents.Import;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Exports;

/// <summary>Devices, results and inspections as tables that come back: a row a device, a row a result, a row an inspection.</summary>
internal static class FleetDevices
{
    private static readonly Column Code = Column.Fields[DeviceField.InventoryCode];
    private static readonly Column[] ByDevice = [Column.Kind, Column.Maker, Column.Model, Column.Serial, Code, Column.DeviceId];

    /// <summary>Devices, by kind, maker, model and serial.</summary>
    public static TableDraft Devices(IReadOnlyList<DeviceState> devices, LeftBehind left)
    {
        var draft = Named("devices", "Devices", left).Has(Column.Place, always: true).Has(Column.Status, always: true);
        foreach (var field in DeviceField.All.Where(f => f != DeviceField.InventoryCode))
            draft.Has(Column.Fields[field], field.IsNumber ? ExportType.Number : ExportType.Text, field.Unit);
        draft.Has(Column.DeviceId, always: true);
        foreach (var device in devices)
        {
            var row = Name(draft.Row(device.Name), device).Text(Column.Place, device.Place).Text(Column.Status, device.Status.InWords);
            Details(row, device, left);
            left.Add("earlier places", Math.Max(0, device.Places.Length - 1));
            left.Add("earlier states of use", Math.Max(0, device.Statuses.Length - 1));
            left.Add("reasons of states of use", device.Statuses.Count(s => s.What.Reason is not null));
            left.Add("facts that a newer version wrote", device.WrittenByNewer.Length);
        }
        draft.Sort(ByDevice, "devices that say the same twice");
        return draft;
    }

    /// <summary>Results that count, by device and day.</summary>
    public static TableDraft Results(IReadOnlyList<DeviceState> devices, LeftBehind left)
    {
        var draft = Named("results", "Results of calibrations", left).Has(Column.DeviceId, always: true).Has(Column.Day, always: true)
            .Has(Column.Quantity, always: true).Has(Column.Value, ExportType.Number, always: true).Has(Column.Unit, always: true)
            .Has(Column.Uncertainty, ExportType.Number).Has(Column.UncertaintyUnit).Has(Column.Factor, ExportType.Number)
            .Has(Column.FoundValue).Has(Column.LeftValue).Has(Column.Laboratory).Has(Column.Certificate).Has(Column.Method)
            .Has(Column.Field).Numbers("°", Column.Angle).Has(Column.Loading).Numbers("Hz", Column.CalibrationHz)
            .Numbers("kPa", Column.StatedFor, Column.Pressure).Numbers("°C", Column.Temperature).Numbers("%", Column.Humidity)
            .Has(Column.Reference).Has(Column.ReferenceDevice).Has(Column.Due).Numbers("Hz", Column.ToneHz)
            .Numbers("%", Column.ToneHzUncertainty, Column.Distortion, Column.DistortionUncertainty).Numbers("dB", Column.Fluctuation)
            .Has(Column.ResultRemark).Has(Column.OwnResult);
        foreach (var device in devices)
        {
            var counted = device.Certificates.Where(c => !c.IsAnnulled).ToList();
            left.Add("results that were annulled or replaced", device.Certificates.Length - counted.Count);
            foreach (var certificate in counted) FleetResult.Write(draft, Name, device, certificate, counted, left);
        }
        draft.Sort([.. ByDevice, Column.Day, Column.Quantity], "results that say the same twice");
        return draft;
    }

    /// <summary>Inspections, by device and day.</summary>
    public static TableDraft Inspections(IReadOnlyList<DeviceState> devices, LeftBehind left)
    {
        var draft = Named("inspections", "Inspections", left).Has(Column.DeviceId, always: true).Has(Column.Inspected, always: true)
            .Has(Column.Passed, always: true).Numbers("mm", Column.FlushStep, Column.Gap, Column.Flatness).Has(Column.Undamaged)
            .Has(Column.Uncontaminated).Has(Column.MakersData).Has(Column.InspectionRemark);
        foreach (var device in devices)
        {
            foreach (var (_, day, _, seen) in device.Inspections)
            {
                Name(draft.Row($"inspection of {device.Name}"), device).Day(Column.Inspected, day).YesNo(Column.Passed, seen.Passed)
                    .Number(Column.FlushStep, seen.FlushStepMm, -50, 50).Number(Column.Gap, seen.GapMm, 0, 200)
                    .Number(Column.Flatness, seen.FlatnessMm, 0, 50).YesNo(Column.Undamaged, seen.Undamaged)
                    .YesNo(Column.Uncontaminated, seen.Uncontaminated).Text(Column.MakersData, seen.MakersData)
                    .Text(Column.InspectionRemark, seen.Text);
                left.Add("attachments of inspections", seen.Attachment is null ? 0 : 1);
            }
        }
        draft.Sort([.. ByDevice, Column.Inspected], "inspections that say the same twice");
        return draft;
    }

    /// <summary>Devices of a register that a table can name.</summary>
    public static IReadOnlyList<DeviceState> Of(Register.Register register, IReadOnlySet<string>? ids, LeftBehind left)
    {
        var devices = new List<DeviceState>();
        foreach (var device in register.DeviceIds.Where(id => ids?.Contains(id) != false).Select(id => register.Device(id)!))
        {
            if (DeviceKind.Find(device.Kind) is not null) devices.Add(device);
            else left.Add(device.Kind is null ? "devices that nobody registered" : "devices of kinds that this version does not know");
        }
        return devices;
    }

    private static TableDraft Named(string name, string title, LeftBehind left) => new TableDraft(name, title, left)
        .Has(Column.Kind, always: true).Has(Column.Maker, always: true).Has(Column.Model, always: true).Has(Column.Serial, always: true)
        .Has(Code);

    private static DraftRow Name(DraftRow row, DeviceState device) => row.Text(Column.Kind, device.Kind).Text(Column.Maker, device.Maker)
        .Text(Column.Model, device.Model).Text(Column.Serial, device.Serial).Text(Code, device.Text(DeviceField.InventoryCode))
        .Text(Column.DeviceId, device.Id);

    private static void Details(DraftRow row, DeviceState device, LeftBehind left)
    {
        var kind = DeviceKind.Find(device.Kind)!;
        var classes = InstrumentClasses.Settle(device.Details, _ => null, out var wrong);
        foreach (var (key, value) in device.Details)
        {
            if (DeviceField.Find(key) is not { } field || !kind.Has(field))
            {
                left.Add("details that the device's kind does not have: " + key);
                continue;
            }
            if (field == DeviceField.InventoryCode) continue;
            // What the reader of classes would write another way is a change, and none that anybody asked for.
            var isOther = field.Sort is not null
                && (wrong is not null || classes[key] != value || classes.Keys.Any(k => !device.Details.ContainsKey(k)));
            if (isOther || field.IsNumber != value.Number is not null || field.Choices?.Contains(value.Text ?? "") == false)
                left.Add("details that an import takes otherwise: " + key);
            else if (!field.IsNumber) row.Text(Column.Fields[field], value.Text);
            else if (field.Unit == "Hz") row.Hertz(Column.Fields[field], value.Number, field.Least!.Value, field.Greatest!.Value);
            else row.Number(Column.Fields[field], value.Number, field.Least!.Value, field.Greatest!.Value);
        }
    }
}
