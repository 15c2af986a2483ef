using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Pages.Devices;

/// <summary>A certificate as it is being typed: texts as people write them, until they are read.</summary>
public sealed class CertificateDraft
{
    private IReadOnlyList<CalibrationResult> _others = [];
    private CertificateIssued? _before;
    private CalibrationResult? _found;

    public DateOnly Day { get; set; }

    public string Quantity { get; set; } = "general";

    public string? Value { get; set; }

    public string Unit { get; set; } = "dB";

    public string? Expanded { get; set; }

    public string UncertaintyUnit { get; set; } = "dB";

    public string? Factor { get; set; }

    /// <summary>Whether the device was adjusted: then the result is as left, and one as found can stand beside it.</summary>
    public bool WasAdjusted { get; set; }

    public string? FoundValue { get; set; }

    public string? FoundExpanded { get; set; }

    /// <summary>Unit of the result as found: its own where it was stated so.</summary>
    public string FoundUnit => _found?.Unit ?? Unit;

    /// <summary>Unit of its uncertainty.</summary>
    public string FoundUncertaintyUnit => _found?.UncertaintyUnit ?? UncertaintyUnit;

    public string? Number { get; set; }

    public string? Laboratory { get; set; }

    public string? Method { get; set; }

    public string? Field { get; set; }

    public string? Angle { get; set; }

    public string? Loading { get; set; }

    public string? Frequency { get; set; }

    public DateOnly? DueDay { get; set; }

    public string? Pressure { get; set; }

    /// <summary>Static pressure that a calibrator's level is stated for.</summary>
    public string? StatedFor { get; set; }

    /// <summary>Frequency of a calibrator's tone as measured.</summary>
    public string? ToneHz { get; set; }

    public string? ToneHzExpanded { get; set; }

    public string? Distortion { get; set; }

    public string? DistortionExpanded { get; set; }

    public string? Fluctuation { get; set; }

    public string? Temperature { get; set; }

    public string? Humidity { get; set; }

    public string? ReferenceDevice { get; set; }

    public string? Reference { get; set; }

    public string? Remark { get; set; }

    /// <summary>SHA-256 of the attached certificate.</summary>
    public string? Attachment { get; set; }

    /// <summary>SHA-256 of the attached response curve.</summary>
    public string? Curve { get; set; }

    /// <summary>An empty certificate that goes on with the series of the one before: same field, loading, frequency, method.</summary>
    public static CertificateDraft For(DeviceState device, DateOnly today)
    {
        var quantity = DeviceKind.Find(device.Kind)?.Calibrated ?? "general";
        var before = CalibrationSeries.Newest(device, quantity)?.Issued;
        return new()
        {
            Day = today,
            Quantity = quantity,
            Unit = before?.Results.Count > 0 ? before.Results[^1].Unit
                : quantity == "sensitivity" ? "mV/Pa"
                : quantity == "static-pressure" ? "kPa"
                : "dB",
            UncertaintyUnit = quantity == "static-pressure" ? "kPa" : "dB",
            Factor = "2",
            Method = before?.Method,
            Field = before?.Field,
            Angle = Text(before?.AngleDeg),
            Loading = before?.Loading,
            Frequency = Text(before?.FrequencyHz),
        };
    }

    /// <summary>What a certificate states, to be said right.</summary>
    public static CertificateDraft Of(DeviceCertificate certificate)
    {
        var (issued, result, found) = (certificate.Issued, certificate.InForce, certificate.WasAdjusted ? certificate.Found : null);
        return new()
        {
            _before = issued,
            _found = found,
            _others = [.. issued.Results.Where(r => r != result && r != found)],
            Day = certificate.Day,
            Quantity = issued.Quantity,
            Value = Text(result?.Value),
            Unit = result?.Unit ?? "dB",
            Expanded = Text(result?.ExpandedUncertainty),
            UncertaintyUnit = result?.UncertaintyUnit ?? "dB",
            Factor = Text(result?.CoverageFactor),
            WasAdjusted = certificate.WasAdjusted,
            FoundValue = Text(found?.Value),
            FoundExpanded = Text(found?.ExpandedUncertainty),
            Number = issued.Number,
            Laboratory = issued.Laboratory,
            Method = issued.Method,
            Field = issued.Field,
            Angle = Text(issued.AngleDeg),
            Loading = issued.Loading,
            Frequency = Text(issued.FrequencyHz),
            DueDay = issued.DueDay,
            Pressure = Text(issued.Air?.PressureKPa),
            StatedFor = Text(issued.StatedForKPa),
            ToneHz = Text(issued.Tone?.FrequencyHz),
            ToneHzExpanded = Text(issued.Tone?.FrequencyExpandedPercent),
            Distortion = Text(issued.Tone?.DistortionPercent),
            DistortionExpanded = Text(issued.Tone?.DistortionExpandedPercent),
            Fluctuation = Text(issued.Tone?.FluctuationDb),
            Temperature = Text(issued.Air?.TemperatureC),
            Humidity = Text(issued.Air?.HumidityPercent),
            ReferenceDevice = issued.ReferenceDevice,
            Reference = issued.Reference,
            Remark = issued.Remark,
            Attachment = issued.Attachment,
            Curve = issued.Curve,
        };
    }

    /// <summary>Reads what was typed.</summary>
    /// <returns>The certificate, or the field that is no number, or the one that is missing.</returns>
    public Result<CertificateIssued> Read()
    {
        var wrong = new List<string>();
        double? Of(string? text, string name)
        {
            if (string.IsNullOrWhiteSpace(text)) return null;
            if (MeasuredText.TryRead(text, out var number, out _)) return number;
            wrong.Add($"{name} '{text}': it is no number.");
            return null;
        }

        var (value, expanded, factor) = (Of(Value, "Result"), Of(Expanded, "Uncertainty"), Of(Factor, "Coverage factor"));
        if (wrong.Count == 0 && value is null) wrong.Add("Result is missing.");
        var results = new List<CalibrationResult>(_others);
        if (WasAdjusted && Of(FoundValue, "Result as found") is { } found)
            results.Add(Result(
                AdjustmentState.AsFound, found, Of(FoundExpanded, "Uncertainty as found"),
                _found is null ? factor : _found.CoverageFactor, FoundUnit, FoundUncertaintyUnit));
        results.Add(Result(
            WasAdjusted ? AdjustmentState.AsLeft : AdjustmentState.AsFoundAndLeft, value ?? 0, expanded, factor, Unit, UncertaintyUnit));
        var air = new StatedAir(Of(Pressure, "Pressure"), Of(Temperature, "Temperature"), Of(Humidity, "Humidity"));
        var tone = new StatedTone(
            Of(ToneHz, "Measured frequency"), Of(ToneHzExpanded, "U of the frequency"), Of(Distortion, "Distortion"),
            Of(DistortionExpanded, "U of the distortion"), Of(Fluctuation, "Fluctuation"));
        var issued = new CertificateIssued(
            Quantity, Blank(Number), Blank(Laboratory), Blank(Method), Blank(Field), Of(Angle, "Angle"), Blank(Loading),
            Of(Frequency, "Frequency"), results,
            air is { PressureKPa: null, TemperatureC: null, HumidityPercent: null } ? null : air,
            Blank(ReferenceDevice), Blank(Reference), DueDay, Curve, Attachment, Blank(Remark))
        {
            StatedForKPa = Of(StatedFor, "Static pressure that the level is stated for"),
            Tone = tone == new StatedTone(null, null, null, null, null) ? null : tone,
        };
        return wrong.Count > 0 ? new Rejection(RejectionSort.Invalid, wrong[0]) : new Result<CertificateIssued>.Accepted(issued);
    }

    /// <summary>Reads what was typed and holds it against what a certificate can state.</summary>
    /// <param name="issued">The certificate; null where it cannot be one.</param>
    /// <param name="why">Why it cannot; null where it can.</param>
    public bool TryRead([NotNullWhen(true)] out CertificateIssued? issued, [NotNullWhen(false)] out string? why)
    {
        (issued, why) = Read() switch
        {
            Result<CertificateIssued>.Accepted { Value: var read } when CalibrationDecisions.Wrong(read) is null => (read, (string?)null),
            Result<CertificateIssued>.Accepted { Value: var read } => (null, CalibrationDecisions.Wrong(read)!.Text),
            Result<CertificateIssued>.Rejected { Why: var no } => (null, no.Text),
            _ => throw new InvalidOperationException("A result is accepted or rejected."),
        };
        return issued is not null;
    }

    /// <summary>Whether what was typed is what stood there.</summary>
    public bool IsUnchanged(DateOnly day) =>
        _before is { } before && day == Day && Read() is Result<CertificateIssued>.Accepted { Value: var now }
        && now.Results.SequenceEqual(before.Results) && now with { Results = before.Results } == before;

    private static CalibrationResult Result(
        AdjustmentState state, double value, double? expanded, double? factor, string unit, string uncertaintyUnit) =>
        new(state, value, unit, expanded, expanded is null ? null : uncertaintyUnit, expanded is null ? null : factor);

    private static string? Blank(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim();

    private static string? Text(double? number) => number?.ToString("R", CultureInfo.InvariantCulture);
}
