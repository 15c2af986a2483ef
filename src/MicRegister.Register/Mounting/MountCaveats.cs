namespace MicRegister.Register.Mounting;

/// <summary>What lies beyond the model, and is said wherever its figures are.</summary>
public static class MountCaveats
{
    /// <summary>One sentence each.</summary>
    public static IReadOnlyList<string> All { get; } =
    [
        "The figures are a trend that shows where a mount stops being usable. Nothing is corrected by them: against the free field "
            + "6.02 dB (plates), 3.01 dB (stand, as a band average) or 0 dB (pole) are taken off a level, and no more.",
        "Bands are base-ten third octaves (IEC 61260-1:2014; from memory, unchecked), each an energy average over noise that is white "
            + "within the band; a tone anywhere in it can do otherwise.",
        "The model is one image source over a hard, endless, flat plane with one reflection factor for all frequencies and angles.",
        "Edges of a plate diffract: about where the plate is as wide as a wave its level ripples, and below the ground around it decides. "
            + "Not modelled.",
        "Soft or grown ground returns less, and turns the phase near grazing: dips move, and near the horizon the level falls instead of "
            + "doubling. Not modelled.",
        "A diaphragm has a width and averages over it, and an inverted capsule's body stands in the field: near the first dip the true "
            + "loss is another. Not modelled.",
        "The source is one far point: a near one reflects weaker than it arrives, a large or moving one, wind and turbulence fill dips. "
            + "Not modelled.",
        "Heights are as stated: a gap that is off by a seventh moves the dip by a seventh. Measure the gap of each plate.",
        "The speed of sound is that of dry standard air at one temperature (ISO 2533:1975); moist air is up to 0.4 % faster "
            + "(from memory, unchecked).",
    ];
}
