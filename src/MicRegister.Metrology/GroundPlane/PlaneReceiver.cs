using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.GroundPlane;

/// <summary>A point receiver at a height over a hard plane, a far source at an elevation, and the air between.</summary>
/// <remarks>
/// All by <see cref="RigidPlane"/>. Elevations are over the horizon, so that 90° is overhead: the angle from the normal is 90° less it.
/// </remarks>
public sealed record PlaneReceiver
{
    /// <summary>Makes one.</summary>
    /// <param name="heightM">Height over the plane in m, not negative, finite; 0 is flush.</param>
    /// <param name="elevationDeg">Elevation of the source in °, above 0 up to 90, overhead.</param>
    /// <param name="speedOfSound">In m/s, above 0.</param>
    /// <param name="reflection">What the plane returns of the sound pressure, from 0 (nothing) to 1 (rigid).</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them lies outside, or is not finite.</exception>
    public PlaneReceiver(
        double heightM, double elevationDeg = 90, double speedOfSound = RigidPlane.SpeedOfSoundAt15C, double reflection = 1)
    {
        if (!(heightM >= 0) || !double.IsFinite(heightM))
            throw new ArgumentOutOfRangeException(nameof(heightM), heightM, "A height is not negative and finite.");
        if (elevationDeg is not (> 0 and <= 90))
            throw new ArgumentOutOfRangeException(nameof(elevationDeg), elevationDeg, "An elevation lies above 0° and up to 90°.");
        (HeightM, ElevationDeg, SpeedOfSound, Reflection) = (heightM, elevationDeg, speedOfSound, reflection);
        // What the plane cannot be asked is refused here, not at the first question.
        _ = ToneDb(0);
        FirstDipHz = RigidPlane.FirstDipHz(HeightM, AngleDeg, SpeedOfSound);
    }

    /// <summary>Height over the plane, in m.</summary>
    public double HeightM { get; }

    /// <summary>Elevation of the source over the horizon, in °.</summary>
    public double ElevationDeg { get; }

    /// <summary>In m/s.</summary>
    public double SpeedOfSound { get; }

    /// <summary>What the plane returns of the sound pressure.</summary>
    public double Reflection { get; }

    /// <summary>Angle of incidence from the normal of the plane, in °.</summary>
    public double AngleDeg => 90 - ElevationDeg;

    /// <summary>Frequency of the first dip in Hz; positive infinity when flush.</summary>
    public double FirstDipHz { get; }

    /// <summary>How much later the reflected sound arrives, in s.</summary>
    public double DelayS => 1 / (2 * FirstDipHz);

    /// <summary>Level of a tone re the free field, in dB; negative infinity in a dip of no width.</summary>
    /// <param name="hz">Not negative.</param>
    public double ToneDb(double hz) => RigidPlane.LevelDb(hz, HeightM, AngleDeg, SpeedOfSound, Reflection);

    /// <summary>
    /// Level of a third-octave band re the free field, in dB: the energy average over noise that is white within the band.
    /// </summary>
    /// <param name="band">Base ten, as IEC 61260-1 has it.</param>
    public double BandDb(ThirdOctave band) =>
        RigidPlane.BandLevelDb(band.LowHz, band.HighHz, HeightM, AngleDeg, SpeedOfSound, Reflection);

    /// <summary>Where the model keeps the level that a mount is meant to have, within a tolerance.</summary>
    /// <param name="aim">What it is meant to have. Doubling is asked of tones, the others of third-octave averages.</param>
    /// <param name="toleranceDb">Above 0.</param>
    /// <returns>
    /// From one frequency to another in Hz: from 0 where it holds for the lowest, to infinity where for the highest; nowhere where it
    /// begins at infinity or ends at 0.
    /// </returns>
    public (double FromHz, double ToHz) Keeps(PlaneAim aim, double toleranceDb) => aim switch
    {
        PlaneAim.PressureDoubling => (0, RigidPlane.DoublingUpToHz(HeightM, AngleDeg, toleranceDb, SpeedOfSound, Reflection)),
        PlaneAim.EnergyAverage =>
            (RigidPlane.AverageFromHz(HeightM, AngleDeg, toleranceDb, SpeedOfSound, Reflection), double.PositiveInfinity),
        PlaneAim.FreeField =>
            (RigidPlane.AverageFromHz(HeightM, AngleDeg, toleranceDb, SpeedOfSound, Reflection, 1), double.PositiveInfinity),
        _ => throw new ArgumentOutOfRangeException(nameof(aim), aim, null),
    };

    /// <summary>The steady level re free field that an aim stands for, in dB.</summary>
    public static double LevelDbOf(PlaneAim aim) => aim switch
    {
        PlaneAim.PressureDoubling => RigidPlane.PressureDoublingDb,
        PlaneAim.EnergyAverage => RigidPlane.EnergyDoublingDb,
        PlaneAim.FreeField => 0,
        _ => throw new ArgumentOutOfRangeException(nameof(aim), aim, null),
    };

    /// <summary>
    /// The most that a plane may return of the sound pressure so that a band average stays within a tolerance of the free field.
    /// </summary>
    /// <param name="toleranceDb">Above 0.</param>
    /// <returns>At most 1: sqrt(10^(tolerance/10) - 1), from 10 lg(1 + Q²), far above the first dip.</returns>
    public static double FreeFieldReflection(double toleranceDb)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(toleranceDb);
        return Math.Min(1, Math.Sqrt(Math.Pow(10, toleranceDb / 10) - 1));
    }
}
