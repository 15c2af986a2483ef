using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Tracing;

/// <summary>What checks were made with, and whether that was in doubt then, by the limits of one campaign; worked out once a device.</summary>
internal sealed class KitInDoubt(Register register, ProfileState? profile)
{
    private readonly Dictionary<string, IReadOnlyList<DoubtReach>> _reaching = new(StringComparer.Ordinal);

    /// <summary>Doubts that reach a device.</summary>
    public IReadOnlyList<DoubtReach> Reaching(string device)
    {
        if (!_reaching.TryGetValue(device, out var known))
            _reaching[device] = known = DoubtReach.Of(register, device, register.Device(device), profile);
        return known;
    }

    /// <summary>Doubts behind a check that nobody cleared: it was made with a device in doubt.</summary>
    /// <param name="check">The check.</param>
    /// <param name="event">Id of the event that it is to speak for; null takes what was said of all events alone.</param>
    public IEnumerable<DoubtReach> Behind(CheckRecord check, string? @event = null) => check.Kit.SelectMany(Reaching)
        .Where(r => r.Doubt.IsBehind(check) && r.Doubt.SettledFor(register, profile, @event) is not { What.IsConfirmed: false });

    /// <summary>Whether a check was made with a device in doubt: it rescues nothing.</summary>
    public bool IsLeaning(CheckRecord check) => Behind(check).Any();
}
