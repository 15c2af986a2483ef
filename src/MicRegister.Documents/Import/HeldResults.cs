using MicRegister.Documents.Sheets;
using MicRegister.Register.Calibration;

namespace MicRegister.Documents.Import;

/// <summary>Whether a certificate says already all that a row says: then nothing is asked of the row, and it changes nothing.</summary>
internal static class HeldResults
{
    /// <summary>Whether a device holds a certificate of that day that says all that another says.</summary>
    public static bool Holds(PlannedDevice device, DateOnly day, CertificateIssued said) =>
        device.Certificates.Exists(c => c.Day == day && Says(c.Issued, said));

    /// <summary>A result with its units written out: a bare dB of a sensitivity is re 1 V/Pa, that of an uncertainty is dB.</summary>
    public static CalibrationResult Plain(CalibrationResult result, string quantity) => result with
    {
        Unit = quantity == "sensitivity" && result.Unit == "dB" ? "dB re 1 V/Pa" : result.Unit,
        UncertaintyUnit = result.ExpandedUncertainty is null ? null : result.UncertaintyUnit ?? "dB",
    };

    private static bool Says(CertificateIssued held, CertificateIssued said) =>
        held.Quantity == said.Quantity && Says(held.Number, said.Number) && Says(held.Laboratory, said.Laboratory)
        && Says(held.Method, said.Method) && Says(held.Field, said.Field) && Says(held.AngleDeg, said.AngleDeg)
        && Says(held.Loading, said.Loading) && Says(held.FrequencyHz, said.FrequencyHz) && Says(held.Air, said.Air)
        && Says(held.ReferenceDevice, said.ReferenceDevice) && Says(held.Reference, said.Reference)
        && (said.DueDay is null || held.DueDay == said.DueDay) && Says(held.Remark, said.Remark)
        && Says(held.StatedForKPa, said.StatedForKPa) && Says(held.Tone, said.Tone)
        && (said.Results.Count == 0 || held.Results.Select(r => Told(r, held.Quantity))
            .SequenceEqual(said.Results.Select(r => Told(r, said.Quantity))));

    // Without an uncertainty, its factor says nothing.
    private static CalibrationResult Told(CalibrationResult result, string quantity) => Plain(result, quantity) with
    {
        CoverageFactor = result.ExpandedUncertainty is null ? null : result.CoverageFactor,
    };

    private static bool Says(StatedAir? held, StatedAir? said) => said is null
        || (Says(held?.PressureKPa, said.PressureKPa) && Says(held?.TemperatureC, said.TemperatureC)
            && Says(held?.HumidityPercent, said.HumidityPercent));

    private static bool Says(StatedTone? held, StatedTone? said) => said is null
        || (Says(held?.FrequencyHz, said.FrequencyHz) && Says(held?.FrequencyExpandedPercent, said.FrequencyExpandedPercent)
            && Says(held?.DistortionPercent, said.DistortionPercent)
            && Says(held?.DistortionExpandedPercent, said.DistortionExpandedPercent) && Says(held?.FluctuationDb, said.FluctuationDb));

    private static bool Says(double? held, double? said) => said is null || held == said;

    private static bool Says(string? held, string? said) => said is null || CellText.Same(held, said);
}
