using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Checks;

/// <summary>What a phone needs of a microphone to work out a check where no network is.</summary>
/// <param name="ModelKey">Its model as couplings name it.</param>
/// <param name="Sensitivity">Its certificate in use; null where it has none.</param>
/// <param name="Coefficients">How it follows the air.</param>
public sealed record MicrophoneKit(string ModelKey, MicrophoneKit.Certified? Sensitivity, MicrophoneKit.Air Coefficients)
{
    /// <summary>A sensitivity certificate.</summary>
    /// <param name="Certificate">Id of the certificate.</param>
    /// <param name="AtReferenceDb">Level in reference conditions, in dB re 1 V/Pa.</param>
    /// <param name="StandardDb">Standard uncertainty in dB; null where none was stated.</param>
    /// <param name="IsLoaded">Whether it was calibrated with its preamplifier.</param>
    /// <param name="IsPressureField">Whether it is the pressure sensitivity.</param>
    public sealed record Certified(string Certificate, double AtReferenceDb, double? StandardDb, bool IsLoaded, bool IsPressureField);

    /// <summary>Coefficients of the air.</summary>
    public sealed record Air(double PressureDbPerKPa, double TemperatureDbPerK, double HumidityDbPerPercent);

    public static MicrophoneKit Of(DeviceState microphone) => new(DeviceIdentity.Normal(microphone.Model),
        CalibrationSeries.Newest(microphone, "sensitivity") is { InForce: { } force } own && ResultLevel.Of(force) is { } level
            ? new(own.Fact.ToString(), CalibrationSeries.AtReference(microphone, own, level.LevelDb), level.StandardUncertaintyDb, own.Issued.Loading == "loaded", own.Issued.Field == "pressure") : null,
        new(microphone.Number(DeviceField.PressureCoefficient) ?? 0, microphone.Number(DeviceField.TemperatureCoefficient) ?? 0, microphone.Number(DeviceField.HumidityCoefficient) ?? 0));
}

/// <summary>What a phone needs of a calibrator.</summary>
/// <param name="Law">adiabatic, coefficient or none.</param>
/// <param name="LawIsStated">Whether anybody said so.</param>
/// <param name="PressureDbPerKPa">dB a kPa, where it is a coefficient.</param>
/// <param name="TemperatureDbPerK">dB a K; null where it was not stated.</param>
/// <param name="Levels">The newest certificate of each level and frequency.</param>
/// <param name="Couplings">What holds on microphones of a model.</param>
public sealed record CalibratorKit(string Law, bool LawIsStated, double PressureDbPerKPa, double? TemperatureDbPerK, IReadOnlyList<CalibratorKit.Level> Levels, IReadOnlyList<CalibratorKit.CouplingKit> Couplings)
{
    /// <summary>A certified level.</summary>
    public sealed record Level(string Certificate, double LevelDb, double? StandardDb, bool FactorWasAssumed, double? StatedForKPa, double? FrequencyHz, double? TemperatureC);

    /// <summary>A coupling, as it was stated.</summary>
    public sealed record CouplingKit(string ModelKey, string? Adapter, double LoadVolumeDb, double? LoadVolumeExpandedDb, double FieldDb, double? FieldExpandedDb, string Source);

    public static CalibratorKit Of(DeviceState calibrator)
    {
        var law = calibrator.Text(DeviceField.PressureLaw);
        return new(law is "adiabatic" or "coefficient" ? law : "none", law is not null, calibrator.Number(DeviceField.PressureCoefficient) ?? 0, calibrator.Number(DeviceField.TemperatureCoefficient),
            [.. CheckWork.NewestLevels(calibrator).Select(l => new Level(l.Certificate.Fact.ToString(), l.Level.LevelDb, l.Level.StandardUncertaintyDb, l.Level.FactorWasAssumed, l.Certificate.Issued.StatedForKPa, l.Certificate.Issued.FrequencyHz, l.Certificate.Issued.Air?.TemperatureC))],
            [.. Coupling.InForce(calibrator).Select(c => c.What).Select(c => new CouplingKit(DeviceIdentity.Normal(c.MicrophoneModel), c.Adapter, c.LoadVolumeDb, c.LoadVolumeExpandedDb, c.FieldDb, c.FieldExpandedDb, c.Source))]);
    }
}

/// <summary>What a preamplifier or a recorder channel adds.</summary>
public static class GainKit
{
    /// <summary>The term that a check takes; null for what is neither.</summary>
    public static CheckTerm? Of(DeviceState device) =>
        device.Kind == DeviceKind.Preamplifier.Key ? CheckWork.Gain("preamplifier's gain", device)
        : device.Kind == DeviceKind.RecorderChannel.Key ? CheckWork.Gain("channel's gain", device) : null;
}
