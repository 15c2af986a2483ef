using System.Globalization;
using MicRegister.Metrology.Atmosphere;
using MicRegister.Register.Campaigns;

namespace MicRegister.Register.Mounting;

/// <summary>Whether a mount suits a source and a band.</summary>
/// <param name="Mount">How the microphone stands.</param>
/// <param name="HeightM">Height of the diaphragm over ground or plate, in m.</param>
/// <param name="Source">What flies; <see cref="SourceClass.Other"/> asks for a band alone.</param>
/// <param name="FromHz">Lower end of the band that matters, in Hz.</param>
/// <param name="ToHz">Its upper end.</param>
public sealed record MountQuestion(Mount Mount, double HeightM, SourceClass Source, double FromHz, double ToHz)
{
    /// <summary>Least frequency in Hz that a band may begin at.</summary>
    public const double LeastHz = 10;

    /// <summary>Greatest frequency in Hz that a band may end at.</summary>
    public const double MostHz = 40_000;

    /// <summary>Greatest height in m.</summary>
    public const double MostHeightM = 100;

    private const double MostStepM = 0.05;

    /// <summary>Elevation of the source over the horizon in °, above 0 up to 90.</summary>
    public double ElevationDeg { get; init; } = 90;

    /// <summary>Allowed deviation from the level that the mount is meant to have, in dB.</summary>
    public double ToleranceDb { get; init; } = MountUse.UsualToleranceDb;

    /// <summary>Temperature of the air in °C.</summary>
    public double TemperatureC { get; init; } = 15;

    /// <summary>Lowest temperature in °C that is looked at beside it (common practice, no source).</summary>
    public double ColdC { get; init; } = -10;

    /// <summary>Highest temperature in °C that is looked at beside it (common practice, no source).</summary>
    public double WarmC { get; init; } = 35;

    /// <summary>What the ground returns of the sound pressure, from 0 to 1, rigid.</summary>
    public double Reflection { get; init; } = 1;

    /// <summary>How far the height may be off, in mm: the gap of an inverted capsule, the step of a flush one; not negative.</summary>
    public double HeightOffMm { get; init; } = 1;

    /// <summary>How far heights are taken to be off where nobody says, in mm (common practice, no source).</summary>
    public static double UsualOffMm(Mount mount) => mount switch
    {
        Mount.FlushPlate => 0.2,
        Mount.InvertedPlate => 1,
        Mount.GroundStand => 50,
        _ => 500,
    };

    /// <summary>What cannot be of it, by field; empty where it can be answered.</summary>
    public IReadOnlyList<MountFault> Faults()
    {
        List<MountFault> faults = [];
        if (Mount == Mount.FlushPlate) Ask("height", HeightM, HeightM is >= 0 and <= MostStepM, "0 m, or a step of up to 0.05 m");
        else Ask("height", HeightM, HeightM is > 0 and <= MostHeightM, "a number above 0 up to 100 m; a height of 0 is flush in a plate");
        Ask("elevation", ElevationDeg, ElevationDeg is > 0 and <= 90, "a number above 0 up to 90 °, where 90 is overhead");
        Ask("from", FromHz, FromHz is >= LeastHz and <= MostHz, "a number from 10 to 40000 Hz");
        Ask("to", ToHz, ToHz is >= LeastHz and <= MostHz && !(ToHz <= FromHz), "a number above the lower end, up to 40000 Hz");
        Ask("tolerance", ToleranceDb, ToleranceDb is >= 0.01 and <= 60, "a number from 0.01 to 60 dB");
        const string Degrees = "a number from -50 to 70 °C";
        Ask("temperature", TemperatureC, IsAir(TemperatureC), Degrees);
        Ask("cold", ColdC, IsAir(ColdC), Degrees);
        Ask("warm", WarmC, IsAir(WarmC) && !(WarmC < ColdC), Degrees + ", not under the lowest");
        Ask("reflection", Reflection, Reflection is >= 0 and <= 1, "a number from 0 to 1, where 1 is rigid");
        Ask("off", HeightOffMm, HeightOffMm is >= 0 and <= 5000, "a number from 0 to 5000 mm");
        return faults;

        void Ask(string field, double value, bool isAllowed, string allowed)
        {
            if (!isAllowed) faults.Add(new(field, value.ToString(CultureInfo.InvariantCulture), allowed));
        }
    }

    private static bool IsAir(double temperatureC) => temperatureC is >= StandardAtmosphere.LeastC and <= StandardAtmosphere.MostC;
}

/// <summary>Why a question cannot be answered.</summary>
/// <param name="Field">The field: height, elevation, from, to, tolerance, temperature, cold, warm, reflection, off.</param>
/// <param name="Value">What was given, as a text.</param>
/// <param name="Allowed">What is allowed.</param>
public sealed record MountFault(string Field, string Value, string Allowed)
{
    /// <summary>In words.</summary>
    public string Text => $"{char.ToUpperInvariant(Field[0])}{Field[1..]} '{Value}': allowed is {Allowed}.";
}
