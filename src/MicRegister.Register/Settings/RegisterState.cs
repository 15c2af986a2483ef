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

    internal static RegisterState Fold(IEnumerable<Fact> facts)
    {
        var (founded, settings, newer) = ((RegisterFounded?)null, SettingsChosen.Default, false);
        var clocks = new List<ClientClockNoticed>();
        var imports = new List<ImportAccepted>();
        foreach (var fact in facts)
        {
            switch (fact.Body)
            {
                case RegisterFounded f: founded = f; break;
                case SettingsChosen s: settings = s; break;
                case ClientClockNoticed c: clocks.Add(c); break;
                case ImportAccepted i: imports.Add(i); break;
                case UnreadBody: newer = true; break;
                default: break;
            }
        }
        return new(founded, settings, clocks, imports, newer);
    }
}
