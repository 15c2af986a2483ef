namespace MicRegister.Metrology.GroundPlane;

/// <summary>
/// A point receiver above a rigid, endless plane, with the image source in the same strength (Q = 1).
/// </summary>
/// <remarks>
/// A real capsule averages over its diaphragm and a plate ends somewhere: this shows where a mount stops being usable, it is not
/// a correction. Angles are from the normal of the plane, in degrees, from 0 (overhead) to under 90 (grazing).
/// </remarks>
public static class RigidPlane
{
    /// <summary>Level re free field where both paths arrive in phase: 20 lg 2.</summary>
    public const double PressureDoublingDb = 6.020599913279624;

    /// <summary>Level re free field of the energy average over many dips: 10 lg 2.</summary>
    public const double EnergyDoublingDb = 3.010299956639812;

    /// <summary>Speed of sound at 15 °C, ISO 2533:1975.</summary>
    public const double SpeedOfSoundAt15C = 340.294;

    /// <summary>Level of a tone above the plane, re the free field.</summary>
    /// <param name="frequencyHz">Not negative.</param>
    /// <param name="heightM">Height of the receiver, not negative; 0 is flush.</param>
    /// <param name="angleDeg">Angle of incidence from the normal, 0 to under 90.</param>
    /// <param name="speedOfSound">In m/s, above 0.</param>
    /// <returns>20 lg |1 + exp(-j k 2 h cos θ)| in dB: 6.02 flush, negative infinity in a dip of no width.</returns>
    public static double LevelDb(double frequencyHz, double heightM, double angleDeg, double speedOfSound = SpeedOfSoundAt15C)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frequencyHz);
        var halfPhase = Math.PI * frequencyHz * PathDifference(heightM, angleDeg) / Speed(speedOfSound);
        return 20 * Math.Log10(2 * Math.Abs(Math.Cos(halfPhase)));
    }

    /// <summary>Frequency of the first dip; positive infinity when flush.</summary>
    /// <returns>c / (4 h cos θ) in Hz.</returns>
    public static double FirstDipHz(double heightM, double angleDeg, double speedOfSound = SpeedOfSoundAt15C) =>
        Speed(speedOfSound) / (2 * PathDifference(heightM, angleDeg));

    /// <summary>Greatest frequency up to which a tone loses no more than a tolerance against pressure doubling.</summary>
    /// <param name="heightM">Height of the receiver in m, not negative; 0 is flush.</param>
    /// <param name="angleDeg">Angle of incidence from the normal, 0 to under 90.</param>
    /// <param name="toleranceDb">Allowed loss against +6.02 dB, above 0.</param>
    /// <param name="speedOfSound">In m/s, above 0.</param>
    /// <returns>Frequency in Hz; positive infinity when flush.</returns>
    /// <remarks>cos(π f 2 h cos θ / c) = 10^(-tolerance/20).</remarks>
    public static double DoublingUpToHz(double heightM, double angleDeg, double toleranceDb, double speedOfSound = SpeedOfSoundAt15C)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(toleranceDb);
        return Math.Acos(Math.Pow(10, -toleranceDb / 20)) * Speed(speedOfSound) / (Math.PI * PathDifference(heightM, angleDeg));
    }

    /// <summary>Level of noise of even density in a band, re the free field.</summary>
    /// <param name="lowHz">Lower band edge, not negative.</param>
    /// <param name="highHz">Upper band edge, above the lower one.</param>
    /// <param name="heightM">Height of the receiver in m, not negative; 0 is flush.</param>
    /// <param name="angleDeg">Angle of incidence from the normal, 0 to under 90.</param>
    /// <param name="speedOfSound">In m/s, above 0.</param>
    /// <returns>10 lg of the mean of 2 + 2 cos(2π f d / c) over the band, in dB.</returns>
    public static double BandLevelDb(double lowHz, double highHz, double heightM, double angleDeg, double speedOfSound = SpeedOfSoundAt15C)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(lowHz);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(highHz, lowHz);
        var k = 2 * Math.PI * PathDifference(heightM, angleDeg) / Speed(speedOfSound);
        var mean = k == 0 ? 4 : 2 + (2 * (Math.Sin(k * highHz) - Math.Sin(k * lowHz)) / (k * (highHz - lowHz)));
        return 10 * Math.Log10(mean);
    }

    /// <summary>Frequency from which on each third-octave band stays within a tolerance of the energy average (+3.01 dB).</summary>
    /// <param name="heightM">Height of the receiver in m, not negative; 0 is flush, where it never does.</param>
    /// <param name="angleDeg">Angle of incidence from the normal, 0 to under 90.</param>
    /// <param name="toleranceDb">Allowed deviation, above 0.</param>
    /// <param name="speedOfSound">In m/s, above 0.</param>
    /// <returns>Band centre in Hz, from the envelope of the band average, so that it holds for all bands above; infinity when flush.</returns>
    public static double AverageFromHz(double heightM, double angleDeg, double toleranceDb, double speedOfSound = SpeedOfSoundAt15C)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(toleranceDb);
        var k = 2 * Math.PI * PathDifference(heightM, angleDeg) / Speed(speedOfSound);
        // The ripple of a band is at most 2 / (k Δf); its lower side reaches a given loss first, so that one decides.
        var ripple = 1 - Math.Pow(10, -toleranceDb / 10);
        return 2 / (ripple * k * ThirdOctaveWidth);
    }

    /// <summary>Width of a third-octave band relative to its centre: 10^(1/20) - 10^(-1/20) (IEC 61260-1, base ten).</summary>
    internal static double ThirdOctaveWidth { get; } = Math.Pow(10, 0.05) - Math.Pow(10, -0.05);

    private static double PathDifference(double heightM, double angleDeg)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(heightM);
        if (angleDeg is not (>= 0 and < 90))
            throw new ArgumentOutOfRangeException(nameof(angleDeg), angleDeg, "The angle from the normal lies between 0° and under 90°.");
        return 2 * heightM * Math.Cos(angleDeg * Math.PI / 180);
    }

    private static double Speed(double speedOfSound) => double.IsFinite(speedOfSound) && speedOfSound > 0
        ? speedOfSound
        : throw new ArgumentOutOfRangeException(nameof(speedOfSound), speedOfSound, "The speed of sound must be above 0 and finite.");
}
