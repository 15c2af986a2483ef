using MicRegister.Metrology.Sensitivities;

namespace MicRegister.Metrology.Atmosphere;

/// <summary>How the level of a pistonphone follows static pressure.</summary>
public static class Pistonphone
{
    /// <summary>Correction to the certificate's level for the static pressure of the day.</summary>
    /// <param name="pressureKPa">Static pressure in kPa at the place, above 0; not reduced to sea level.</param>
    /// <param name="certificateKPa">Static pressure in kPa that the certificate's level is stated for, above 0.</param>
    /// <returns>20 lg(p / p_cert) in dB: negative on a hill.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A pressure is zero, negative or not finite.</exception>
    /// <remarks>Adiabatic compression of a fixed volume: p = gamma p0 dV / V, for small strokes.</remarks>
    public static LevelChange PressureCorrection(double pressureKPa, double certificateKPa = 101.325)
    {
        Check(pressureKPa, nameof(pressureKPa));
        Check(certificateKPa, nameof(certificateKPa));
        return new(20 * Math.Log10(pressureKPa / certificateKPa));
    }

    private static void Check(double kPa, string name)
    {
        if (!double.IsFinite(kPa) || kPa <= 0)
            throw new ArgumentOutOfRangeException(name, kPa, "A static pressure must be above 0 kPa and finite.");
    }
}
