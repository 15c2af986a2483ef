using System.Globalization;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A device as facts tell of it.</summary>
internal sealed record TakenDevice(IReadOnlyDictionary<Said, Stated> Fields, IReadOnlyList<TakenResult> Results)
{
    public string Name => string.Join(' ', new[] { Said.Kind, Said.Model, Said.Serial, Said.Code }.Where(Fields.ContainsKey)
        .Select(f => Fields[f].Text));
}

/// <summary>A result as facts tell of it; one without a value is a certificate alone.</summary>
/// <param name="IsOfYear">Whether it says that only its year is known.</param>
internal sealed record TakenResult(string Quantity, IReadOnlyDictionary<Said, Stated> Fields, bool IsOfYear)
{
    public string Day => Fields[Said.Day].Text!;
}

/// <summary>Draws devices and results from facts, as the register folds them.</summary>
internal static class Taken
{
    public static IReadOnlyList<TakenDevice> Of(IReadOnlyList<Fact> facts)
    {
        var register = FactList.RegisterOf([.. facts]);
        return [.. register.DeviceIds.Select(id => Device(register.Device(id)!)).Where(d => d.Fields.ContainsKey(Said.Kind))];
    }

    private static TakenDevice Device(DeviceState device)
    {
        var fields = new Dictionary<Said, Stated>();
        Text(fields, Said.Kind, device.Kind);
        Text(fields, Said.Maker, device.Maker);
        Text(fields, Said.Model, device.Model);
        Text(fields, Said.Serial, device.Serial);
        Text(fields, Said.Code, device.Text(DeviceField.InventoryCode));
        Text(fields, Said.Place, device.Place);
        if (!device.Statuses.IsEmpty) Text(fields, Said.Status, device.Status.ToString());
        Number(fields, Said.Size, device.Number(DeviceField.SizeMm), "mm");
        var frequency = device.Number(DeviceField.FrequencyHz);
        return new(fields, [.. device.Certificates.Where(c => !c.IsAnnulled).SelectMany(c => Results(c, frequency))]);
    }

    private static IEnumerable<TakenResult> Results(DeviceCertificate certificate, double? frequency)
    {
        var issued = certificate.Issued;
        var fields = new Dictionary<Said, Stated>();
        Text(fields, Said.Day, certificate.Day.ToString("O", CultureInfo.InvariantCulture));
        Text(fields, Said.Lab, issued.Laboratory);
        Text(fields, Said.Number, issued.Number);
        Text(fields, Said.Due, issued.DueDay?.ToString("O", CultureInfo.InvariantCulture));
        // The frequency of a calibrator's list may stand in the certificate or with the device.
        Number(fields, Said.Hz, issued.FrequencyHz ?? issued.Tone?.FrequencyHz ?? frequency, "Hz");
        Number(fields, Said.Pressure, issued.Air?.PressureKPa, "kPa");
        Number(fields, Said.Temperature, issued.Air?.TemperatureC, "°C");
        Number(fields, Said.Humidity, issued.Air?.HumidityPercent, "%");
        var isOfYear = issued.Remark?.Contains("year", StringComparison.Ordinal) == true;
        if (issued.Results.Count == 0) yield return new(issued.Quantity, fields, isOfYear);
        foreach (var result in issued.Results)
        {
            var own = new Dictionary<Said, Stated>(fields);
            Number(own, Said.Value, result.Value, result.Unit);
            Number(own, Said.U, result.ExpandedUncertainty, result.UncertaintyUnit ?? "");
            Number(own, Said.K, result.CoverageFactor, "");
            yield return new(issued.Quantity, own, isOfYear);
        }
    }

    private static void Text(Dictionary<Said, Stated> fields, Said what, string? text)
    {
        if (text is not null) fields[what] = new(text);
    }

    private static void Number(Dictionary<Said, Stated> fields, Said what, double? number, string unit)
    {
        if (number is { } n) fields[what] = new(null, n, unit);
    }
}
