namespace MicRegister.Metrology.GroundPlane;

/// <summary>A point receiver above a hard, endless plane, with the image source in a strength Q of at most 1.</summary>
/// <remarks>
/// A real capsule averages over its diaphragm and a plate ends somewhere: this shows where a mount stops being usable, it is not
/// a correction. Angles are from the normal of the plane, in degrees, from 0 (overhead) to under 90 (grazing). Q is real and the same
/// at all frequencies and angles: 1 is rigid, 0 no plane at all; soft ground is neither.
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
    /// <param name="reflection">Q, from 0 to 1.</param>
    /// <returns>20 lg |1 + Q exp(-j k 2 h cos θ)| in dB: 6.02 flush, negative infinity in a dip of no width.</returns>
    public static double LevelDb(
        double frequencyHz, double heightM, double angleDeg, double speedOfSound = SpeedOfSoundAt15C, double reflection = 1)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(frequencyHz);
        var halfPhase = Math.PI * frequencyHz * PathDifference(heightM, angleDeg) / Speed(speedOfSound);
        var inPhase = Math.Cos(halfPhase);
        var q = Strength(reflection);
        // 1 + Q² + 2 Q cos 2x, written so that nothing cancels in a dip.
        return 10 * Math.Log10(((1 - q) * (1 - q)) + (4 * q * inPhase * inPhase));
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
    /// <param name="reflection">Q, from 0 to 1.</param>
    /// <returns>
    /// Frequency in Hz; 0 where not even the lowest tone is doubled so far, positive infinity where every tone is, as when flush.
    /// </returns>
    /// <remarks>cos²(π f 2 h cos θ / c) = (4 · 10^(-tolerance/10) - (1 - Q)²) / 4 Q.</remarks>
    public static double DoublingUpToHz(
        double heightM, double angleDeg, double toleranceDb, double speedOfSound = SpeedOfSoundAt15C, double reflection = 1)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(toleranceDb);
        var (q, path, c) = (Strength(reflection), PathDifference(heightM, angleDeg), Speed(speedOfSound));
        var least = (4 * Math.Pow(10, -toleranceDb / 10)) - ((1 - q) * (1 - q));
        if (least > 4 * q) return 0;
        return least <= 0 || path == 0 ? double.PositiveInfinity : Math.Acos(Math.Sqrt(least / (4 * q))) * c / (Math.PI * path);
    }

    /// <summary>Level of noise of even density in a band, re the free field.</summary>
    /// <param name="lowHz">Lower band edge, not negative.</param>
    /// <param name="highHz">Upper band edge, above the lower one.</param>
    /// <param name="heightM">Height of the receiver in m, not negative; 0 is flush.</param>
    /// <param name="angleDeg">Angle of incidence from the normal, 0 to under 90.</param>
    /// <param name="speedOfSound">In m/s, above 0.</param>
    /// <param name="reflection">Q, from 0 to 1.</param>
    /// <returns>10 lg of the mean of 1 + Q² + 2 Q cos(2π f d / c) over the band, in dB.</returns>
    /// <remarks>
    /// The mean of cos(κ f) from f1 to f2 is cos(κ (f1 + f2) / 2) · sin x / x with x = κ (f2 - f1) / 2: the sinc, since density is even
    /// over frequency. With even density over its logarithm it would be a cosine integral.
    /// </remarks>
    public static double BandLevelDb(
        double lowHz, double highHz, double heightM, double angleDeg, double speedOfSound = SpeedOfSoundAt15C, double reflection = 1)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(lowHz);
        ArgumentOutOfRangeException.ThrowIfLessThanOrEqual(highHz, lowHz);
        var (q, k) = (Strength(reflection), 2 * Math.PI * PathDifference(heightM, angleDeg) / Speed(speedOfSound));
        var x = k * (highHz - lowHz) / 2;
        var mean = Math.Cos(k * (highHz + lowHz) / 2) * (x == 0 ? 1 : Math.Sin(x) / x);
        return 10 * Math.Log10(1 + (q * q) + (2 * q * mean));
    }

    /// <summary>Frequency from which on each third-octave band stays within a tolerance of a steady level.</summary>
    /// <param name="heightM">Height of the receiver in m, not negative; 0 is flush, where it never does.</param>
    /// <param name="angleDeg">Angle of incidence from the normal, 0 to under 90.</param>
    /// <param name="toleranceDb">Allowed deviation, above 0.</param>
    /// <param name="speedOfSound">In m/s, above 0.</param>
    /// <param name="reflection">Q, from 0 to 1.</param>
    /// <param name="power">The steady level as a multiple of the free field's power: 2 is +3.01 dB, 1 the free field; above 0.</param>
    /// <returns>
    /// Band centre in Hz, from the envelope of the band average, so that it holds for all bands above; 0 where it holds for every band,
    /// infinity where for none.
    /// </returns>
    public static double AverageFromHz(
        double heightM, double angleDeg, double toleranceDb, double speedOfSound = SpeedOfSoundAt15C, double reflection = 1,
        double power = 2)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(toleranceDb);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(power);
        var (q, k) = (Strength(reflection), 2 * Math.PI * PathDifference(heightM, angleDeg) / Speed(speedOfSound));
        var mean = 1 + (q * q);
        // The ripple of a band is at most 2 / (k Δf); the side that reaches the tolerance first decides.
        var above = (power * Math.Pow(10, toleranceDb / 10)) - mean;
        var below = mean - (power * Math.Pow(10, -toleranceDb / 10));
        var allowed = Math.Min(above, below);
        if (allowed < 0) return double.PositiveInfinity;
        return allowed >= 2 * q ? 0 : 2 / (allowed / (2 * q) * k * ThirdOctaveWidth);
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

    private static double Strength(double reflection) => reflection is >= 0 and <= 1
        ? reflection
        : throw new ArgumentOutOfRangeException(nameof(reflection), reflection, "What the plane returns lies between 0 and 1.");
}
