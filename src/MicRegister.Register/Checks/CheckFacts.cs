using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Checks;

/// <summary>A chain was checked with a calibrator. Subjects: the campaign where there is one, the devices of the chain, the calibrator, the adapter.</summary>
/// <param name="Station">The station; null at a bench.</param>
/// <param name="Moment">Before or after what was recorded that day.</param>
/// <param name="Devices">Ids of the devices of the chain.</param>
/// <param name="Calibrator">Id of the calibrator.</param>
/// <param name="CalibratorCertificate">Id of the certificate that its level comes from.</param>
/// <param name="Adapter">Id of the adapter; null where none was used.</param>
/// <param name="Air">Conditions at the place, as read; static pressure at the place, never reduced to sea level.</param>
/// <param name="PressureIsEstimated">Whether static pressure was worked out from the altitude.</param>
/// <param name="Method">What was read.</param>
/// <param name="Readings">One a insertion: V, dB, or parts of full scale rms.</param>
/// <param name="Resolution">Last step of the reading, in its unit; null where it does not matter.</param>
/// <param name="RangeV">Peak voltage of the channel's full scale; null where it was not stated.</param>
/// <param name="CalibratorDb">Level at the microphone, in dB re 20 µPa: the sum of <paramref name="CalibratorTerms"/>.</param>
/// <param name="CalibratorTerms">The level term by term.</param>
/// <param name="SensitivityDb">Sensitivity level of the chain; null where only a level was indicated and nothing says what the chain was set to.</param>
/// <param name="SensitivityUnit">What it is relative to: V/Pa or FS/Pa; null where there is none.</param>
/// <param name="IndicatedDb">Indicated minus true level, in dB; null for other methods.</param>
/// <param name="ExpectedTerms">What the parts' certificates let expect, term by term; empty where they do not say enough.</param>
/// <param name="DeviationDb">Chain against its certificates, in dB; null where they do not say enough.</param>
/// <param name="Budget">Uncertainty of the measured level.</param>
/// <param name="StandardDb">Combined standard uncertainty in dB.</param>
/// <param name="CoverageFactor">k.</param>
/// <param name="ExpandedDb">Expanded uncertainty in dB.</param>
/// <param name="Tone">The recording that it was read from; null for other methods.</param>
/// <param name="Remark">Whatever else was written down.</param>
public sealed record ChainChecked(
    string? Station, CheckMoment Moment, IReadOnlyList<string> Devices, string Calibrator, string CalibratorCertificate, string? Adapter, StatedAir? Air, bool PressureIsEstimated,
    CheckMethod Method, IReadOnlyList<double> Readings, double? Resolution, double? RangeV, double CalibratorDb, IReadOnlyList<CheckTerm> CalibratorTerms,
    double? SensitivityDb, string? SensitivityUnit, double? IndicatedDb, IReadOnlyList<CheckTerm> ExpectedTerms, double? DeviationDb,
    IReadOnlyList<BudgetLine> Budget, double StandardDb, double CoverageFactor, double ExpandedDb, RecordedTone? Tone, string? Remark) : FactBody, IStay
{
    /// <summary>Id of the barometer that static pressure was read from; null where nobody said.</summary>
    public string? Barometer { get; init; }

    /// <summary>Id of who made the check, where another worked it out again; null where whoever stated it made it.</summary>
    public string? MadeBy { get; init; }

    /// <summary>Id of what the reading was taken with, as a voltmeter; null where nobody said, or the chain's own channel read it.</summary>
    public string? Meter { get; init; }
}

/// <summary>A chain was checked, with nothing but the outcome. Subjects: the campaign, then the devices of the chain.</summary>
/// <param name="Station">The station.</param>
/// <param name="Calibrator">Id of the calibrator.</param>
/// <param name="DeviationDb">Chain sensitivity against its certificate, in dB, after pressure correction.</param>
public sealed record ChainCheckedBriefly(string Station, string Calibrator, double DeviationDb) : FactBody, IStay;

/// <summary>
/// What is to be added to a calibrator's level when it sits on microphones of a model: the user's own data, from the
/// calibrator's or the microphone's papers. Subjects: the calibrator, then the adapter. The last one of an adapter and a model counts.
/// </summary>
/// <param name="MicrophoneModel">Model of the microphones.</param>
/// <param name="Adapter">Id of the adapter between both; null holds for any, or none.</param>
/// <param name="LoadVolumeDb">Correction for the load volume, in dB.</param>
/// <param name="LoadVolumeExpandedDb">Its U at k = 2, in dB; null where none was stated.</param>
/// <param name="FieldDb">Correction for the difference of pressure and free field at the calibrator's frequency, in dB; negative where the calibrator seems lower to the microphone.</param>
/// <param name="FieldExpandedDb">Its U at k = 2, in dB; null where none was stated.</param>
/// <param name="Source">Where the figures come from.</param>
public sealed record CouplingStated(
    string MicrophoneModel, string? Adapter, double LoadVolumeDb, double? LoadVolumeExpandedDb,
    double FieldDb, double? FieldExpandedDb, string Source)
    : FactBody, IDeviceFact
{
    DeviceState IDeviceFact.ApplyTo(DeviceState device, Fact fact, bool counts) => counts ? device.With(Dated.Of(fact, this)) : device;
}

/// <summary>One term of a level.</summary>
/// <param name="Name">What it is.</param>
/// <param name="ValueDb">Its part in dB; in a check to 1e-6 dB, halves away from nought, as all levels that it holds.</param>
/// <param name="StandardDb">Its part of the uncertainty, in dB.</param>
/// <param name="Source">
/// What its uncertainty comes from: terms of one source are fully correlated. In a trace it names every fact that the term was worked out
/// from.
/// </param>
/// <param name="Remark">What was assumed; null where nothing was.</param>
public sealed record CheckTerm(string Name, double ValueDb, double StandardDb, string Source, string? Remark);

/// <summary>One line of an uncertainty budget.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Source">What it comes from; lines of one source are fully correlated. <see cref="Own"/> begins the name of a source of this check alone.</param>
/// <param name="StandardUncertainty">Standard uncertainty of the quantity.</param>
/// <param name="Unit">Its unit.</param>
/// <param name="Sensitivity">Sensitivity coefficient: dB for each unit.</param>
/// <param name="DegreesOfFreedom">null where it is taken as exact.</param>
/// <param name="Distribution">What is assumed of the quantity.</param>
public sealed record BudgetLine(string Name, string Source, double StandardUncertainty, string Unit, double Sensitivity, double? DegreesOfFreedom, Metrology.Uncertainty.UncertaintyDistribution Distribution)
{
    /// <summary>Begin of the source of what one check shares with no other.</summary>
    public const string Own = "this check: ";
}

/// <summary>The tone of one channel of a recording; the recording itself is not kept.</summary>
/// <param name="File">Its name, without folder.</param>
/// <param name="Bytes">Its size.</param>
/// <param name="Sha256">SHA-256 of its bytes, in hexadecimal.</param>
/// <param name="Channel">Channel, from 1.</param>
/// <param name="FrequencyHz">Frequency in Hz.</param>
/// <param name="Distortion">Harmonics over the fundamental, as a share.</param>
/// <param name="FluctuationDb">Half of greatest minus least level, in dB.</param>
/// <param name="SignalToNoiseDb">In dB.</param>
/// <param name="FromSeconds">Where the usable stretch begins.</param>
/// <param name="ToSeconds">Where it ends.</param>
/// <param name="RecorderTime">When the recording began by the recorder's own clock, whatever that shows; null where it does not say.</param>
public sealed record RecordedTone(string File, long Bytes, string Sha256, int Channel, double FrequencyHz, double Distortion, double FluctuationDb, double SignalToNoiseDb, double FromSeconds, double ToSeconds, string? RecorderTime);

/// <summary>When a check was made.</summary>
public enum CheckMoment
{
    /// <summary>Before the day's recordings.</summary>
    Before,

    /// <summary>After them.</summary>
    After,

    /// <summary>At any other time, as at a bench.</summary>
    Other,
}

/// <summary>What was read in a check.</summary>
public enum CheckMethod
{
    /// <summary>A voltage, rms in V.</summary>
    Voltage,

    /// <summary>A level that the chain indicates itself, in dB.</summary>
    Indicated,

    /// <summary>A recorded tone, rms in parts of full scale.</summary>
    Recording,
}
