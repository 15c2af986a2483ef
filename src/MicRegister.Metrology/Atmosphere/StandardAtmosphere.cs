namespace MicRegister.Metrology.Atmosphere;

/// <summary>
/// The standard atmosphere below 11 km, for an estimate of static pressure where no barometer stood, and its speed of sound.
/// </summary>
public static class StandardAtmosphere
{
    private const double SeaLevelKPa = 101.325;
    private const double SeaLevelK = 288.15;
    private const double LapseKPerM = 0.0065;
    private const double GasConstant = 287.05287;
    private const double Exponent = 9.80665 / (LapseKPerM * GasConstant);
    private const double ZeroCInK = 273.15;
    private const double HeatRatio = 1.4;

    /// <summary>Static pressure at a height.</summary>
    /// <param name="heightM">Geopotential height in m, from -1000 to 11000 inclusive.</param>
    /// <returns>Static pressure in kPa.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The height lies outside the range, or is not finite.</exception>
    /// <remarks>p = p0 (1 - L h / T0)^(g0 / (L R)), with T0 = 288.15 K, L = 6.5 K/km, R = 287.05287 J/(kg K). ISO 2533:1975.</remarks>
    public static double PressureKPa(double heightM) => heightM is >= -1000 and <= 11000
        ? SeaLevelKPa * Math.Pow(1 - (LapseKPerM * heightM / SeaLevelK), Exponent)
        : throw new ArgumentOutOfRangeException(nameof(heightM), heightM, "The height must lie between -1000 m and 11000 m.");

    /// <summary>Lowest temperature in °C at which the speed of sound is told, inclusive.</summary>
    public const double LeastC = -50;

    /// <summary>Highest temperature in °C at which the speed of sound is told, inclusive.</summary>
    public const double MostC = 70;

    /// <summary>Speed of sound in dry air.</summary>
    /// <param name="temperatureC">From <see cref="LeastC"/> to <see cref="MostC"/>.</param>
    /// <returns>In m/s; 340.294 at 15 °C.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The temperature lies outside the range, or is not finite.</exception>
    /// <remarks>
    /// c = sqrt(1.4 R T). ISO 2533:1975. Moist air is faster, by some 0.35 % at 30 °C and 100 % (from memory, unchecked).
    /// </remarks>
    public static double SpeedOfSound(double temperatureC) => temperatureC is >= LeastC and <= MostC
        ? Math.Sqrt(HeatRatio * GasConstant * (temperatureC + ZeroCInK))
        : throw new ArgumentOutOfRangeException(
            nameof(temperatureC), temperatureC, "The temperature must lie between -50 °C and 70 °C.");
}
