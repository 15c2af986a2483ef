using MicRegister.Register.Facts;
using MicRegister.Register.Intake;

namespace MicRegister.Register.Settings;

/// <summary>Name, home and settings of the register itself, and the clocks that were found wrong.</summary>
public sealed record RegisterState(
    RegisterFounded? Founded, SettingsChosen Settings, IReadOnlyList<ClientClockNoticed> Clocks, IReadOnlyList<ImportAccepted> Imports, bool WrittenByNewer)
{
    /// <summary>An offset beyond this is shown to people as a finding.</summary>
    public static readonly TimeSpan ClockTolerance = TimeSpan.FromMinutes(2);

    public static RegisterState Empty { get; } = new(null, SettingsChosen.Default, [], [], false);

    internal static RegisterState Fold(RegisterFounded? founded, IReadOnlyList<ClientClockNoticed> clocks, IEnumerable<Fact> facts)
    {
        var (settings, newer) = (SettingsChosen.Default, false);
        var imports = new List<ImportAccepted>();
        foreach (var fact in facts)
        {
            switch (fact.Body)
            {
                case SettingsChosen s: settings = s; break;
                case ImportAccepted i: imports.Add(i); break;
                case UnreadBody: newer = true; break;
                default: break;
            }
        }
        return new(founded, settings, clocks, imports, newer);
    }
}
