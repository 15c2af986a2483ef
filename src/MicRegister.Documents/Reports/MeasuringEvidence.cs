using MicRegister.Documents.Drawings;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Reports;

/// <summary>Certificates and checks: what the figures of a campaign rest on.</summary>
internal static class MeasuringEvidence
{
    /// <summary>More charts are not read by anybody.</summary>
    public const int MostCharts = 12;

    private static readonly string[] CertificateHead = ["Device", "Serial", "Quantity", "Calibrated on", "Laboratory, number", "Result in force", "U", "k", "Valid through", "What it rests on"];
    private static readonly string[] CheckHead = ["Station", "Day", "Site time", "Moment", "Calibrator", "Level", "Against certificates, dB", "U (k), dB", "Since the check before, dB", "Verdict"];

    private static readonly string[] ComparisonHead = ["Site time", "What sounded", "Chains", "U of one, dB", "Greatest move, dB", "Stands out", "By"];

    public static IEnumerable<ReportBlock> Certificates(Evidence e)
    {
        yield return new ReportHeading(1, "8 Certificates in force");
        yield return new ReportText("Every device that was placed or used in a check, with the certificate that was in force on the days of its use, and below it the references that the certificate was measured against, as far as they are devices of this register. The figures are those that the certificates state.");
        var rows = new List<string[]>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var plain = new List<string>();
        foreach (var (id, days) in e.Days.OrderBy(d => e.Name(d.Key), StringComparer.Ordinal))
        {
            if (e.Device(id)?.Kind is not { } kind) plain.Add(id + " (not in the register)");
            else if (DeviceKind.Find(kind)?.Calibrated is null) plain.Add(e.Name(id));
            else foreach (var day in days) Follow(id, day);
        }
        // Responses and insertion losses that act on bands, beside what goes into the level.
        foreach (var (curve, day) in e.Traces.SelectMany(t => t.Stations).SelectMany(s => s.Curves.Select(c => (Curve: c, s.Day))).OrderBy(c => e.Name(c.Curve.Device.Id), StringComparer.Ordinal).ThenBy(c => c.Curve.Certificate.Day))
        {
            if (seen.Add($"{curve.Device.Id} {curve.Certificate.Fact}")) rows.Add(Row(e, curve.Device, curve.Certificate, curve.Certificate.Issued.Quantity));
        }
        if (rows.Count > 0) yield return new ReportTable("Certificates", CertificateHead, [.. rows]);
        else yield return new ReportText("No device that is calibrated was used.");
        if (plain.Count > 0) yield return new ReportText($"Used as well, with nothing about them that is calibrated: {string.Join("; ", plain)}.");

        void Follow(string id, DateOnly day)
        {
            if (e.Device(id) is not { } device || DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity) return;
            var known = device.CertifiedBy(day);
            var certificate = CalibrationSeries.Newest(known, quantity);
            if (!seen.Add($"{device.Id} {certificate?.Fact}")) return;
            rows.Add(certificate is null
                ? Evidence.Row(Look(device), device.Serial ?? device.Id, quantity, $"no certificate on {Evidence.Date(day)}")
                : Row(e, device, certificate, quantity));
            if (certificate?.Issued.ReferenceDevice is { } reference) Follow(reference, certificate.Day);
        }
    }

    private static string[] Row(Evidence e, DeviceState device, DeviceCertificate certificate, string quantity)
    {
        var issued = certificate.Issued;
        var result = certificate.InForce;
        var due = CalibrationDue.Of(device.CertifiedBy(certificate.Day), e.Profile, e.Plan.FirstDay, e.Plan.LastDay).FirstOrDefault(d => d.Quantity == quantity)?.Due ?? issued.DueDay;
        return Evidence.Row(
            Look(device), device.Serial ?? device.Id,
            quantity + (issued.Curve is null ? "" : ", with a curve")
                + (issued.AngleDeg is { } angle ? $" at {QuantityText.UpTo(angle, 1)}°" : "")
                + (issued.FrequencyHz is { } hz ? $" at {QuantityText.UpTo(hz, 1)} Hz" : ""),
            Evidence.Date(certificate.Day),
            string.Join(", ", new[] { issued.Laboratory ?? "laboratory not stated", issued.Number }.Where(t => t is not null)),
            result is null ? "" : $"{QuantityText.Stated(result.Value, result.Unit)} {result.Unit}",
            result?.ExpandedUncertainty is { } u
                ? $"{QuantityText.Stated(u, result.UncertaintyUnit ?? "dB")} {result.UncertaintyUnit ?? "dB"}"
                : "not stated",
            result?.CoverageFactor is { } k ? QuantityText.UpTo(k, 2) : result?.ExpandedUncertainty is null ? "" : "2, assumed",
            due is { } day ? Evidence.Date(day) : "nothing says",
            issued.ReferenceDevice is { } reference ? e.Name(reference) : issued.Reference ?? "not stated");
    }

    public static IEnumerable<ReportBlock> Checks(Evidence e)
    {
        yield return new ReportHeading(1, "9 Checks before and after");
        if (e.Checks.Count == 0)
        {
            yield return new ReportText("No check of a chain with a sound calibrator was stated.");
            yield break;
        }
        yield return new ReportText("A sound calibrator was set on the microphone of a chain, and what the chain then read tells its sensitivity. Against certificates is the difference from what the certificates of its parts let expect; since the check before is how far the chain moved from the check before the recordings to the one after them. The verdict follows the limits and the decision rule of the profile.");
        // Only checks of the same parts at the same range compare.
        var chains = e.Checks.ToLookup(k => $"{k.Check.RangeV} {string.Join(' ', k.Check.Devices.Order(StringComparer.Ordinal))}", StringComparer.Ordinal);
        var rows = chains.SelectMany(g => Judged(e, [.. g])).OrderBy(j => j.Record.Check.Station, StringComparer.Ordinal).ThenBy(j => j.Record.Instant).ThenBy(j => j.Record.Sequence).Select(j => Row(e, j));
        yield return new ReportTable("Checks by station and day", CheckHead, [.. rows]);
        var cautions = e.Checks.SelectMany(k => new[] { UnreadAir.Of(e.Register, k.Check), CheckAir.Of(e.Register, e.Profile, k.Check) },
            (k, text) => (k.Check.Station, Text: text));
        foreach (var unread in cautions.Where(u => u.Text is not null)
            .GroupBy(u => u.Text, u => u.Station ?? "none", StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            var stations = string.Join(", ", unread.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));
            yield return new ReportText($"Checks at {stations}: {unread.Key}");
        }

        List<string> microphones = [.. e.Checks.OrderBy(k => k.Check.Station, StringComparer.Ordinal).SelectMany(k => k.Check.Devices).Distinct(StringComparer.Ordinal).Where(d => e.Device(d)?.Kind == DeviceKind.Microphone.Key)];
        foreach (var microphone in microphones.Take(MostCharts))
        {
            if (CheckChart.Of(e.Name(microphone), CheckHistory.Of(e.Register, microphone)) is { } chart) yield return new ReportFigure(chart, $"Checks of {e.Name(microphone)}, those of other campaigns included: what is its own of each deviation, in dB");
        }
        if (microphones.Count > MostCharts) yield return new ReportText($"Charts of the first {MostCharts} microphones in the order of their stations are shown; those of {Evidence.Count(microphones.Count - MostCharts, "further microphone is", "further microphones are")} left out.");
    }

    private static IEnumerable<JudgedCheck> Judged(Evidence e, List<CheckRecord> chain) => chain.Select(k => CheckJudge.Judge(e.Profile, k, chain));

    private static string[] Row(Evidence e, JudgedCheck judged)
    {
        var check = judged.Record.Check;
        var since = judged.Before is { } before ? judged.Record.Since(before) : null;
        return Evidence.Row(
            check.Station ?? "none", Evidence.Date(judged.Record.Day), judged.Record.Occurred.IsInstant ? e.Time(judged.Record.Instant) : "not stated",
            check.Moment.InWords, e.Name(check.Calibrator),
            check.SensitivityDb is { } s ? $"{QuantityText.Result(s, check.ExpandedDb, "dB")} dB re 1 {check.SensitivityUnit}"
                : check.IndicatedDb is { } i ? $"{QuantityText.Difference(i, check.ExpandedDb, "dB")} dB, indicated minus true" : "",
            check.DeviationDb is { } d ? QuantityText.Difference(d, check.ExpandedDb, "dB") : "not known",
                $"{QuantityText.Expanded(check.ExpandedDb, "dB")} ({QuantityText.Number(check.CoverageFactor, 2)})",
            since is { } moved ? QuantityText.Signed(moved, 3) : "", judged.Word);
    }

    private static string Look(DeviceState device) => string.Join(' ', new[] { DeviceKind.Find(device.Kind)?.Label ?? device.Kind, device.Model }.Where(t => !string.IsNullOrEmpty(t)));
}
