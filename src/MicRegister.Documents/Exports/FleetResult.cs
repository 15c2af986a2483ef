using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Exports;

/// <summary>One certificate as a row: its figures as they were stated, to the last digit.</summary>
internal static class FleetResult
{
    public static void Write(
        TableDraft draft, Func<DraftRow, DeviceState, DraftRow> name, DeviceState device, DeviceCertificate certificate,
        IReadOnlyList<DeviceCertificate> all, LeftBehind left)
    {
        var issued = certificate.Issued;
        List<CalibrationResult> results = [.. issued.Results.Select(r => HeldResults.Plain(r, issued.Quantity))];
        if (!IsOneRow(results))
        {
            left.Add("certificates with several results in one");
            return;
        }
        var row = name(draft.Row(FormattableString.Invariant($"{issued.Quantity} of {device.Name}, {certificate.Day:yyyy-MM-dd}")), device)
            .Day(Column.Day, certificate.Day).Text(Column.Quantity, issued.Quantity);
        foreach (var result in results) Figure(row, result);
        left.Add(
            "coverage factors of results found or left without an uncertainty",
            results.Count(r => r is { State: not AdjustmentState.AsFoundAndLeft, ExpandedUncertainty: null, CoverageFactor: not null }));
        if (results.Count == 0) TableDraft.Check(row);
        row.Text(Column.Laboratory, issued.Laboratory).Text(Column.Certificate, issued.Number).Text(Column.Method, issued.Method)
            .Text(Column.Field, issued.Field).Number(Column.Angle, issued.AngleDeg, 0, 180).Text(Column.Loading, issued.Loading)
            .Hertz(Column.CalibrationHz, issued.FrequencyHz, 0.1, 200_000).Number(Column.StatedFor, issued.StatedForKPa, 30, 120)
            .Number(Column.Pressure, issued.Air?.PressureKPa, 30, 120).Number(Column.Temperature, issued.Air?.TemperatureC, -60, 80)
            .Number(Column.Humidity, issued.Air?.HumidityPercent, 0, 100).Text(Column.Reference, issued.Reference)
            .Text(Column.ReferenceDevice, issued.ReferenceDevice).Day(Column.Due, issued.DueDay).Text(Column.ResultRemark, issued.Remark);
        if (issued.Tone is { } tone)
        {
            row.Hertz(Column.ToneHz, tone.FrequencyHz, 0.001, 20_000)
                .Number(Column.ToneHzUncertainty, tone.FrequencyExpandedPercent, 0, 100)
                .Number(Column.Distortion, tone.DistortionPercent, 0, 100)
                .Number(Column.DistortionUncertainty, tone.DistortionExpandedPercent, 0, 100)
                .Number(Column.Fluctuation, tone.FluctuationDb, 0, 10);
        }
        var rivals = all.Where(c => c != certificate && IsRival(c, certificate)).ToList();
        if (rivals.Count > 0) row.Text(Column.OwnResult, "yes");
        left.Add("which of several results of a day is in force", rivals.Exists(c => c.Day == certificate.Day) ? 1 : 0);
        left.Add("response curves of certificates", issued.Curve is null ? 0 : 1);
        left.Add("attachments of certificates", issued.Attachment is null ? 0 : 1);
        left.Add("that a certificate is of several devices as a set", certificate.Set.Count > 1 ? 1 : 0);
    }

    // Found, left, or both in one; a plain one beside what was left is read as its repetition.
    private static bool IsOneRow(List<CalibrationResult> results) => results.Select(r => r.State).ToList() is []
        or [_]
        or [AdjustmentState.AsFound, not AdjustmentState.AsFound];

    private static void Figure(DraftRow row, CalibrationResult result)
    {
        if (result.State == AdjustmentState.AsFoundAndLeft)
        {
            row.Number(Column.Value, result.Value).Text(Column.Unit, result.Unit).Number(Column.Uncertainty, result.ExpandedUncertainty)
                .Text(Column.UncertaintyUnit, result.UncertaintyUnit).Number(Column.Factor, result.CoverageFactor);
            return;
        }
        var factor = result.CoverageFactor is { } k ? $" (k={Digits(k)})" : "";
        var uncertainty = result.ExpandedUncertainty is { } u ? $" ± {Digits(u)} {result.UncertaintyUnit}{factor}" : "";
        row.Text(
            result.State == AdjustmentState.AsFound ? Column.FoundValue : Column.LeftValue,
            $"{Digits(result.Value)} {result.Unit}{uncertainty}");
    }

    private static string Digits(double number) => (number + 0.0).ToString("R", CultureInfo.InvariantCulture);

    // The import takes two results of a day, or a day and a bare year, for one where nothing tells them apart.
    private static bool IsRival(DeviceCertificate a, DeviceCertificate b) => a.Issued.Quantity == b.Issued.Quantity
        && (a.Day == b.Day || (a.Day.Year == b.Day.Year && (IsOfYear(a) || IsOfYear(b))));

    private static bool IsOfYear(DeviceCertificate c) => c.Issued.Remark == CalibrationCells.YearOnly;
}
