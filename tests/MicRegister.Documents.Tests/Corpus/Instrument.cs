using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A device of an invented laboratory.</summary>
/// <param name="Sort">What people call it; finer than the kind, since a pistonphone is a sound calibrator.</param>
/// <param name="Nominal">Nominal sensitivity in mV/Pa or level in dB; null where it has none.</param>
internal sealed record Instrument(
    string Id, Sort Sort, string Maker, string Model, string Serial, string Code, DeviceStatus Status, string Place, double? SizeMm,
    double? Nominal, IReadOnlyList<Calibrated> Results)
{
    public Calibrated? Last => Results.Count > 0 ? Results[^1] : null;

    public bool IsMicrophone => Sort == Sort.Microphone;

    public bool IsCalibrator => Sort is Sort.Calibrator or Sort.Pistonphone;

    /// <summary>The key by which the register stores its kind.</summary>
    public string Kind => Sort switch
    {
        Sort.Microphone => "microphone",
        Sort.Preamplifier => "preamplifier",
        Sort.Calibrator or Sort.Pistonphone => "sound-calibrator",
        Sort.Plate => "ground-plate",
        _ => "recorder-channel",
    };

    /// <summary>What is calibrated about it.</summary>
    public string Quantity => IsMicrophone ? "sensitivity" : IsCalibrator ? "level" : "gain";
}

internal enum Sort
{
    Microphone,
    Preamplifier,
    Calibrator,
    Pistonphone,
    Plate,
    Channel,
}

/// <summary>A result of an invented calibration.</summary>
/// <param name="Value">In mV/Pa or dB, as <paramref name="Unit"/> says, with the decimals that a list would have.</param>
/// <param name="U">Expanded uncertainty in dB, k = 2.</param>
internal sealed record Calibrated(
    string Id, DateOnly Day, double Value, string Unit, double U, string Laboratory, string Number, double Hz, double KPa, double Celsius,
    double Percent)
{
    /// <summary>The value as a level: dB re 1 V/Pa of a sensitivity, with two decimals as lists have it.</summary>
    public double Level => Unit == "mV/Pa" ? Math.Round(20 * Math.Log10(Value / 1000), 2) : Value;
}
