using MicRegister.Register.Campaigns;

namespace MicRegister.Register.Mounting;

/// <summary>
/// Which mount common practice takes for which source. Written down as people say it, not worked out from any model, so that both can
/// be held against each other.
/// </summary>
public static class MountPractice
{
    /// <summary>What is known of where it comes from.</summary>
    public const string Certainty = "common practice, no source";

    /// <summary>Whether practice takes a mount for a source; null where it says nothing of that source.</summary>
    public static bool? Takes(Mount mount, SourceClass source) => source switch
    {
        SourceClass.Jet => true,
        SourceClass.Propeller => mount != Mount.GroundStand,
        SourceClass.SmallMultirotor => mount is Mount.FlushPlate or Mount.Pole,
        _ => null,
    };

    /// <summary>What of the source practice has in mind, as the end of a sentence.</summary>
    public static string Of(SourceClass source) => source switch
    {
        SourceClass.Jet => "broad noise that moves by, most of it well under 10 kHz",
        SourceClass.Propeller => "steady tones of the propeller and their harmonics, most of them well under 10 kHz",
        SourceClass.SmallMultirotor => "many tones close together, and sound that runs above 10 kHz",
        _ => "nothing: practice has no word on it",
    };

    /// <summary>The band that is asked for where nobody states one, in Hz (common practice, no source).</summary>
    public static (double FromHz, double ToHz) UsualBand(SourceClass source) => source switch
    {
        SourceClass.SmallMultirotor => (100, 20_000),
        _ => (50, 10_000),
    };
}
