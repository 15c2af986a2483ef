namespace MicRegister.Metrology.Sensitivities;

/// <summary>The air around a device while it is calibrated or used.</summary>
/// <param name="PressureKPa">Static pressure in kPa, at the place itself, never reduced to sea level.</param>
/// <param name="TemperatureC">Temperature in °C.</param>
/// <param name="HumidityPercent">Relative humidity in %.</param>
public readonly record struct AirConditions(double PressureKPa, double TemperatureC, double HumidityPercent)
{
    /// <summary>Reference conditions: 101.325 kPa, 23 °C, 50 % RH.</summary>
    /// <remarks>
    /// 14 CFR 36, A36.3.2.1 (seen, 2021 edition); IEC 61094-2:2009, clause 4, and 61094-3, -5 and -8 (seen in a library that transcribes
    /// them). That IEC 60942 and IEC 61094-4 take the same: from memory, unchecked.
    /// </remarks>
    public static AirConditions Reference { get; } = new(101.325, 23, 50);
}
