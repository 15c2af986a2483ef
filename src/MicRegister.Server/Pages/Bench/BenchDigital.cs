using System.Globalization;
using MicRegister.Documents.DigitalCertificates;
using MicRegister.Documents.Import;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Pages.Bench;

/// <summary>What a digital certificate states, beside what was typed: it fills empty fields when it is asked to, and differences are
/// told.</summary>
internal static class BenchDigital
{
    // What one certificate says twice, in two units and rounded, differs by less.
    private const double SameDb = 0.005;
    private const double SameFactor = 0.005;

    /// <summary>The one sensitivity that it states; null where there is none, several, or several items.</summary>
    public static DigitalValue? Sensitivity(DigitalCertificate digital) =>
        digital.Items.Count > 1 ? null
            : digital.Quantities.SelectMany(q => q.Values).Where(v => v.LevelDb is not null).ToList() is [var one] ? one : null;

    /// <summary>Whether there is something in it that an empty field of the line can take.</summary>
    public static bool CanTake(BenchLine line) => line.Digital is { } digital
        && ((string.IsNullOrWhiteSpace(line.Value) && Sensitivity(digital) is not null)
            || (string.IsNullOrWhiteSpace(line.Number) && digital.Number is not null));

    /// <summary>Fills the empty fields of a line. U is taken only where the sheet's k is its own.</summary>
    public static void Take(BenchSheet sheet, BenchLine line)
    {
        if (line.Digital is not { } digital) return;
        if (string.IsNullOrWhiteSpace(line.Number)) line.Number = digital.Number;
        if (!string.IsNullOrWhiteSpace(line.Value) || Sensitivity(digital) is not { } value) return;
        (line.Value, line.Unit) = (Text(value.Value), value.Unit);
        line.Day ??= digital.End ?? digital.Begin;
        if (line.Expanded is not null) return;
        var isOfFactor = MeasuredText.TryRead(sheet.Factor ?? "", out var k, out _) && value.CoverageFactor is { } own
            && Math.Abs(k - own) <= SameFactor;
        // Of another k, or not read: none is stated until a person says which.
        line.Expanded = isOfFactor && value.Expanded is { } expanded ? $"{Text(expanded)} {value.Unit}" : "";
        line.IsInPercent = false;
    }

    /// <summary>Tells where the line and its digital certificate say different things.</summary>
    public static void Hold(BenchLine line, DigitalCertificate digital, CertificateIssued issued)
    {
        var serials = digital.Items.Select(i => i.Serial).OfType<string>().ToList();
        if (serials.Count > 0 && !serials.Exists(s => DeviceIdentity.Normal(s) == DeviceIdentity.Normal(line.Device!.Serial)))
            line.Notes.Add($"Its digital certificate is of the serial number {string.Join(", ", serials)}.");
        if (digital.Number is { } number && issued.Number is { } typed
            && !string.Equals(number.Trim(), typed.Trim(), StringComparison.Ordinal))
            line.Notes.Add($"Its digital certificate has the number {number}.");
        if (Sensitivity(digital) is not { LevelDb: { } stated } value)
        {
            line.Notes.Add("No one sensitivity was read of its digital certificate to hold the result against.");
            return;
        }
        if (ResultLevel.Of(issued.Results[^1])?.LevelDb is { } level && Math.Abs(level - stated) > SameDb)
        {
            line.Notes.Add($"Its digital certificate states {Text(value.Value)} {value.Unit}: the result lies "
                + $"{QuantityText.Change(level - stated, "dB", 3)} from that.");
        }
        if (value.Expanded is null) line.Notes.Add($"Of its digital certificate: {value.Remark}");
        else if (issued.Results[^1].ExpandedUncertainty is null)
        {
            line.Notes.Add(FormattableString.Invariant(
                $"Its digital certificate states U = {value.Expanded} {value.Unit} with k = {value.CoverageFactor}."));
        }
    }

    private static string Text(double number) => number.ToString("R", CultureInfo.InvariantCulture);
}
