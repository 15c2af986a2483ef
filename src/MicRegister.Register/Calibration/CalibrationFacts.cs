using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Calibration;

/// <summary>
/// A laboratory, or the house itself, stated results. The occurred day is the day of calibration. Subjects: the device, or all
/// devices of a set that was calibrated together and lapses when they part.
/// </summary>
/// <param name="Quantity">
/// What was measured: sensitivity, level, gain, response, insertion-loss, attenuation, noise-level, static-pressure, insertion-voltage.
/// </param>
/// <param name="Number">Number of the certificate.</param>
/// <param name="Laboratory">Who measured.</param>
/// <param name="Method">How, in the laboratory's words.</param>
/// <param name="Field">Sound field that a sensitivity holds for: pressure, free-field, diffuse.</param>
/// <param name="AngleDeg">Angle of incidence in °, for a free field.</param>
/// <param name="Loading">open-circuit, or loaded by the preamplifier that it was measured with.</param>
/// <param name="FrequencyHz">Frequency in Hz.</param>
/// <param name="Results">As found, as left, or both in one; at least one.</param>
/// <param name="Air">Conditions during the measurement.</param>
/// <param name="ReferenceDevice">Id of the reference used, where it is a device of this register.</param>
/// <param name="Reference">The reference used, in words.</param>
/// <param name="DueDay">Due day stated by the owner on the certificate, valid through it.</param>
/// <param name="Curve">SHA-256 of the attachment with the response curve.</param>
/// <param name="Attachment">SHA-256 of the attachment with the certificate itself.</param>
/// <param name="Remark">Whatever else was written down.</param>
public sealed record CertificateIssued(
    string Quantity, string? Number, string? Laboratory, string? Method, string? Field, double? AngleDeg, string? Loading, double? FrequencyHz,
    IReadOnlyList<CalibrationResult> Results, StatedAir? Air, string? ReferenceDevice, string? Reference, DateOnly? DueDay,
    string? Curve, string? Attachment, string? Remark) : FactBody, IDeviceFact
{
    /// <summary>Static pressure in kPa for which a calibrator's level is stated, which need not be that of the measurement; null where the certificate does not say.</summary>
    public double? StatedForKPa { get; init; }

    /// <summary>What else it states of a calibrator's tone; null where it states nothing of it.</summary>
    public StatedTone? Tone { get; init; }

    /// <summary>The timeline under which certificates that were measured against a device are found from there too.</summary>
    internal static string MeasuredAgainst(string device) => "measured-against:" + device;

    DeviceState IDeviceFact.ApplyTo(DeviceState device, Fact fact, bool counts) =>
        device.With(new DeviceCertificate(fact.Id, fact.Occurred.Day, this, [.. fact.Subjects.Select(Subject.Id)], !counts));
}

/// <summary>One figure of a certificate, exactly as it states it.</summary>
/// <param name="State">Before or after an adjustment.</param>
/// <param name="Value">The figure.</param>
/// <param name="Unit">V/Pa, mV/Pa, dB re 1 V/Pa, or dB.</param>
/// <param name="ExpandedUncertainty">U, not negative; null where none was stated.</param>
/// <param name="UncertaintyUnit">Unit of U: dB, %, V/Pa or mV/Pa.</param>
/// <param name="CoverageFactor">k; null is taken as 2 and shown so.</param>
public sealed record CalibrationResult(AdjustmentState State, double Value, string Unit, double? ExpandedUncertainty, string? UncertaintyUnit, double? CoverageFactor);

/// <summary>Conditions during a measurement, as far as they were stated.</summary>
public sealed record StatedAir(double? PressureKPa, double? TemperatureC, double? HumidityPercent);

/// <summary>What a certificate states of a calibrator's tone beside its level, as far as it does.</summary>
/// <param name="FrequencyHz">Frequency as measured, in Hz.</param>
/// <param name="FrequencyExpandedPercent">Its expanded uncertainty (k = 2), in % of it.</param>
/// <param name="DistortionPercent">Total distortion and noise, in %.</param>
/// <param name="DistortionExpandedPercent">Its expanded uncertainty (k = 2), in % as the distortion itself.</param>
/// <param name="FluctuationDb">Short-term fluctuation of the level, in dB.</param>
public sealed record StatedTone(
    double? FrequencyHz, double? FrequencyExpandedPercent, double? DistortionPercent, double? DistortionExpandedPercent, double? FluctuationDb);

/// <summary>A person looked at an alarm and said what it was. Subject: the device.</summary>
/// <param name="Certificate">Id of the certificate whose result raised it.</param>
/// <param name="Decision">What the person found.</param>
/// <param name="Reason">Why.</param>
public sealed record AlarmReviewed(string Certificate, AlarmDecision Decision, string Reason) : FactBody, IDeviceFact
{
    DeviceState IDeviceFact.ApplyTo(DeviceState device, Fact fact, bool counts) => counts ? device.With(this) : device;
}

/// <summary>
/// A person said which of several certificates of one quantity and day is in force. Subject: the device. The last word counts.
/// </summary>
/// <param name="Certificate">Id of the certificate.</param>
/// <param name="Reason">Why.</param>
public sealed record CertificateChosen(string Certificate, string Reason) : FactBody, IDeviceFact
{
    DeviceState IDeviceFact.ApplyTo(DeviceState device, Fact fact, bool counts) => counts ? device.With(this) : device;
}

/// <summary>Whether a device was found so or set so.</summary>
public enum AdjustmentState
{
    /// <summary>Nothing was adjusted, or nothing is said.</summary>
    AsFoundAndLeft,

    /// <summary>Before the adjustment.</summary>
    AsFound,

    /// <summary>After the adjustment: in force from then on.</summary>
    AsLeft,
}

/// <summary>What an alarm turned out to be.</summary>
public enum AlarmDecision
{
    /// <summary>Scatter; the results stay one series.</summary>
    NoChange,

    /// <summary>The device changed for good; the series begins anew with this result.</summary>
    LastingStep,

    /// <summary>This one result is wrong; it is left out.</summary>
    BadResult,
}
