using MicRegister.Metrology.GroundPlane;
using MicRegister.Register.Campaigns;

namespace MicRegister.Register.Mounting;

/// <summary>
/// What a mount makes of a level and where that holds: one place for plans, traces, comparisons and the page that asks which mount suits.
/// </summary>
public static class MountUse
{
    /// <summary>Highest frequency in Hz that is claimed of a diaphragm flush in a plate (common practice, no source).</summary>
    public const double FlushToHz = 20_000;

    /// <summary>Tolerance in dB where the profile sets none (common practice, no source).</summary>
    public const double UsualToleranceDb = 1;

    extension(Mount mount)
    {
        /// <summary>Word for programs, such as flush-plate.</summary>
        public string Key => mount switch
        {
            Mount.FlushPlate => "flush-plate",
            Mount.InvertedPlate => "inverted-plate",
            Mount.GroundStand => "ground-stand",
            _ => "pole",
        };

        /// <summary>Whether it stands on a plate on the ground.</summary>
        public bool IsPlate => mount is Mount.FlushPlate or Mount.InvertedPlate;

        /// <summary>Height of the diaphragm over ground or plate in m where nobody says another (common practice, no source).</summary>
        public double UsualHeightM => mount switch
        {
            Mount.FlushPlate => 0,
            Mount.InvertedPlate => 0.007,
            Mount.GroundStand => 1.2,
            _ => 10,
        };

        /// <summary>The steady level re free field that it is meant to have.</summary>
        public PlaneAim Aim => mount switch
        {
            Mount.FlushPlate or Mount.InvertedPlate => PlaneAim.PressureDoubling,
            Mount.GroundStand => PlaneAim.EnergyAverage,
            _ => PlaneAim.FreeField,
        };

        /// <summary>
        /// How much higher a level is than in the free field, in dB: 20 lg 2 at a plate, 10 lg 2 as an average over bands on a stand, 0 on
        /// a pole (common practice, no source). Nothing beyond these is ever taken off a level for a mount.
        /// </summary>
        public double RaisesDb => PlaneReceiver.LevelDbOf(mount.Aim);

        /// <summary>Response type of a microphone that suits it: a pressure type at a plate (common practice, no source).</summary>
        public string ResponseType => mount.IsPlate ? "pressure" : "free-field";
    }

    /// <summary>The band in which a mount keeps its level re free field within a tolerance, as plans and traces use it.</summary>
    /// <param name="mount">The mount.</param>
    /// <param name="heightM">Height of the diaphragm over ground or plate in m.</param>
    /// <param name="toleranceDb">Above 0.</param>
    /// <param name="elevationDeg">Elevation of the source in °; plans and traces take it overhead.</param>
    /// <param name="speedOfSound">In m/s; plans and traces take that of 15 °C.</param>
    /// <param name="reflection">What the ground returns of the sound pressure, from 0 to 1; plans and traces take it rigid.</param>
    /// <returns>
    /// In Hz, by the image source: a plate keeps +6 dB tone by tone, flush at most to <see cref="FlushToHz"/>; a stand +3 dB as a
    /// third-octave average. A pole is taken as free field at every frequency, by practice and against the model. Nowhere, from 0 to
    /// 0, where a fact from elsewhere states a height under the ground.
    /// </returns>
    public static (double FromHz, double ToHz) Band(
        Mount mount, double heightM, double toleranceDb, double elevationDeg = 90,
        double speedOfSound = RigidPlane.SpeedOfSoundAt15C, double reflection = 1)
    {
        if (mount == Mount.Pole) return (0, double.PositiveInfinity);
        if (!(heightM >= 0) || !double.IsFinite(heightM)) return (0, 0);
        return ByModel(mount, new(heightM, elevationDeg, speedOfSound, reflection), toleranceDb);
    }

    /// <summary>The same by the model alone: over a rigid plane a pole never hears the free field.</summary>
    public static (double FromHz, double ToHz) ByModel(Mount mount, PlaneReceiver receiver, double toleranceDb)
    {
        var (from, to) = receiver.Keeps(mount.Aim, toleranceDb);
        return (from, mount == Mount.FlushPlate ? Math.Min(FlushToHz, to) : to);
    }

    /// <summary>A station as a crew measured it: a gap under an inverted capsule comes before the planned height.</summary>
    /// <param name="station">As planned or surveyed.</param>
    /// <param name="gapMm">Measured gap in mm; null where nobody measured.</param>
    public static StationPlanned AsMeasured(StationPlanned station, double? gapMm) =>
        gapMm is { } gap && station.Mount == Mount.InvertedPlate ? station with { HeightM = gap / 1000 } : station;
}
