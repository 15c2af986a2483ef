namespace MicRegister.Metrology.Sensitivities;

/// <summary>How a device's own sensitivity level follows the air around it. The default is a device that does not follow it.</summary>
/// <param name="PressureDbPerKPa">Change of level in dB for each kPa of static pressure.</param>
/// <param name="TemperatureDbPerK">Change of level in dB for each K.</param>
/// <param name="HumidityDbPerPercent">Change of level in dB for each % of relative humidity.</param>
public readonly record struct EnvironmentCoefficients(double PressureDbPerKPa, double TemperatureDbPerK, double HumidityDbPerPercent)
{
    /// <summary>The level change that the device shows when the air goes from one state to another.</summary>
    /// <param name="from">Air that the known level belongs to.</param>
    /// <param name="to">Air that the level is wanted for.</param>
    /// <returns>Change in dB, linear in each quantity.</returns>
    /// <remarks>dL = kp (p2 - p1) + kT (T2 - T1) + kH (H2 - H1).</remarks>
    public LevelChange Between(AirConditions from, AirConditions to) => new(
        (PressureDbPerKPa * (to.PressureKPa - from.PressureKPa))
        + (TemperatureDbPerK * (to.TemperatureC - from.TemperatureC))
        + (HumidityDbPerPercent * (to.HumidityPercent - from.HumidityPercent)));

    /// <summary>A level measured in the given air, as it would be in reference conditions.</summary>
    /// <param name="measured">Level as measured.</param>
    /// <param name="during">Air during the measurement.</param>
    public SensitivityLevel ToReference(SensitivityLevel measured, AirConditions during) =>
        measured + Between(during, AirConditions.Reference);
}
