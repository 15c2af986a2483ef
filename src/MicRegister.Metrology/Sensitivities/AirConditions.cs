namespace MicRegister.Metrology.Sensitivities;

/// <summary>The air around a device while it is calibrated or used.</summary>
/// <param name="PressureKPa">Static pressure in kPa, at the place itself, never reduced to sea level.</param>
/// <param name="TemperatureC">Temperature in °C.</param>
/// <param name="HumidityPercent">Relative humidity in %.</param>
public readonly record struct AirConditions(double PressureKPa, double TemperatureC, double HumidityPercent)
{
    /// <summary>Reference conditions: 101.325 kPa, 23 °C, 50 % RH (IEC 60942 and IEC 61094-4; from memory, unchecked).</summary>
    public static AirConditions Reference { get; } = new(101.325, 23, 50);
}
