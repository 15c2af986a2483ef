using MicRegister.Register.Facts;

namespace MicRegister.Server.Work;

/// <summary>Looks at what was sent before it is taken as a fact.</summary>
internal static class SoundFact
{
    /// <summary>A fact of a time that can be.</summary>
    /// <exception cref="FormatException">
    /// A clock may be wrong by much; a year that no campaign has would only break what counts days.
    /// </exception>
    public static Fact Of(Fact fact) => fact.Occurred.Day.Year is < 1950 or > 2200
        ? throw new FormatException($"the time '{fact.Occurred}': allowed is from 1950 to 2200.")
        : fact;
}
