using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>At which frequencies a check was made, and at which the certificate holds that it was held against.</summary>
public static class CheckFrequency
{
    private const string Cited = "certificate ";

    /// <summary>Within a third of an octave both are taken as one frequency (common practice, no source).</summary>
    private const double SameOctaves = 1.0 / 3;

    /// <summary>Frequency of a check's tone in Hz: by the calibrator's certificate, its entry, or the recording; null where none says.</summary>
    /// <param name="check">The check.</param>
    /// <param name="device">Gives a device by its id.</param>
    public static double? OfTone(ChainChecked check, Func<string, DeviceState?> device)
    {
        var calibrator = device(check.Calibrator);
        return Hz(calibrator, check.CalibratorCertificate) ?? calibrator?.Number(DeviceField.FrequencyHz) ?? check.Tone?.FrequencyHz;
    }

    /// <summary>
    /// What is assumed where the tone lies more than a third of an octave from the certificate that the check was held against;
    /// null where it does not, where it was held against none, or where one of both frequencies is not stated.
    /// </summary>
    /// <param name="check">The check.</param>
    /// <param name="device">Gives a device by its id.</param>
    public static string? Remark(ChainChecked check, Func<string, DeviceState?> device)
    {
        var source = check.ExpectedTerms.Select(t => t.Source).FirstOrDefault(s => s.StartsWith(Cited, StringComparison.Ordinal));
        if (source is null || OfTone(check, device) is not { } tone) return null;
        var own = check.Devices.Select(d => Hz(device(d), source[Cited.Length..])).FirstOrDefault(hz => hz is not null);
        return own is { } certified && AreApart(tone, certified)
            ? $"The tone is at {Words(tone)}, the microphone's certificate holds at {Words(certified)}: "
                + "its sensitivity is taken to be the same at both, and nothing is added to the uncertainty for that."
            : null;
    }

    private static bool AreApart(double a, double b) => a > 0 && b > 0 && Math.Abs(Math.Log2(a / b)) > SameOctaves + 1e-9;

    private static string Words(double hz) => QuantityText.UpTo(hz, 1) + " Hz";

    private static double? Hz(DeviceState? device, string certificate)
    {
        if (device is null || !FactId.TryParse(certificate, out var id)) return null;
        foreach (var known in device.Certificates)
        {
            if (known.Fact == id) return known.Issued.FrequencyHz;
        }
        return null;
    }
}
