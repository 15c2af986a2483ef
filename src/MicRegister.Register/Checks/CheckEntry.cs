using MicRegister.Register.Calibration;

namespace MicRegister.Register.Checks;

/// <summary>A check as it is entered: what was read, and under which conditions.</summary>
public sealed record CheckEntry
{
    /// <summary>Id of the campaign; null at a bench.</summary>
    public string? Campaign { get; init; }

    /// <summary>The station; null at a bench.</summary>
    public string? Station { get; init; }

    /// <summary>When: a day, or an instant in UTC; null is now.</summary>
    public string? At { get; init; }

    public CheckMoment Moment { get; init; } = CheckMoment.Other;

    /// <summary>Ids of the devices of the chain; null takes what is planned for the station.</summary>
    public IReadOnlyList<string>? Devices { get; init; }

    /// <summary>Id of the calibrator.</summary>
    public required string Calibrator { get; init; }

    /// <summary>Nominal level in dB, where a calibrator gives several.</summary>
    public double? NominalDb { get; init; }

    /// <summary>Frequency in Hz, where a calibrator gives several.</summary>
    public double? FrequencyHz { get; init; }

    /// <summary>Id of the adapter; null where none was used.</summary>
    public string? Adapter { get; init; }

    /// <summary>Id of the barometer that static pressure was read from; null where nobody says.</summary>
    public string? Barometer { get; init; }

    /// <summary>Id of what the reading was taken with, as a voltmeter; null where nobody says.</summary>
    public string? Meter { get; init; }

    /// <summary>Conditions at the place, as read there.</summary>
    public StatedAir? Air { get; init; }

    /// <summary>Standard uncertainty of the static pressure, in kPa; null takes <see cref="CheckWork.BarometerKPa"/>.</summary>
    public double? PressureUncertaintyKPa { get; init; }

    /// <summary>Takes the static pressure from the campaign's altitude where it was not read, and marks it so.</summary>
    public bool? EstimatePressure { get; init; }

    public CheckMethod Method { get; init; } = CheckMethod.Voltage;

    /// <summary>One a insertion: V rms, dB, or parts of full scale rms.</summary>
    public required IReadOnlyList<double> Readings { get; init; }

    /// <summary>Last step of the reading, in its unit.</summary>
    public double? Resolution { get; init; }

    /// <summary>Standard uncertainty of whatever the reading was taken with, in dB; null takes none.</summary>
    public double? MeterDb { get; init; }

    /// <summary>Peak voltage of the channel's full scale; null takes what the channel's entry states.</summary>
    public double? RangeV { get; init; }

    /// <summary>Sensitivity level that the chain was set to, in dB re 1 V/Pa, where it indicates levels; null takes that of its certificates.</summary>
    public double? SetToDb { get; init; }

    public RecordedTone? Tone { get; init; }

    public string? Remark { get; init; }
}
