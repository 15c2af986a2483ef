using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Doubts;

/// <summary>A span of time in which a device cannot be relied on as it was.</summary>
/// <param name="Key">Key of the doubt: it stays the same while the facts behind it do.</param>
/// <param name="Kind">What raised it.</param>
/// <param name="Device">Id of the device.</param>
/// <param name="Fact">Id of the fact that raised it.</param>
/// <param name="FromMs">When it was last known to be good, in milliseconds since 1970.</param>
/// <param name="ToMs">When it was found, or when it was good again.</param>
/// <param name="GreatestDb">
/// By how much results may be wrong at most, in its <see cref="Unit"/>, dB for most; null where nobody knows.
/// </param>
/// <param name="Text">What was found, in a sentence.</param>
/// <param name="IsOfChecks">Whether checks made with it are in doubt, as of a calibrator, rather than chains that it stood in.</param>
/// <param name="Settled">What people said of it, oldest first.</param>
public sealed record Doubt(
    string Key, DoubtKind Kind, string Device, FactId Fact, long FromMs, long ToMs, double? GreatestDb, string Text, bool IsOfChecks,
    IReadOnlyList<DoubtSettled> Settled)
{
    /// <summary>Unit of what may be wrong: that of the device's results.</summary>
    public string Unit { get; init; } = "dB";

    /// <summary>The last word on an event; null where nobody spoke of it.</summary>
    public DoubtSettled? SettledFor(string @event) => Settled.LastOrDefault(s => s.Events.Count == 0 || s.Events.Contains(@event));

    /// <summary>A check of an event that another calibrator stands behind: it rescues the event where the doubt is about checks.</summary>
    /// <param name="profile">Limits of the campaign.</param>
    /// <param name="before">Check before the event.</param>
    /// <param name="after">Check after it.</param>
    /// <param name="leans">Whether a check leans on the same doubt in another way.</param>
    internal CheckRecord? RescueOf(ProfileState? profile, CheckRecord? before, CheckRecord? after, Func<CheckRecord, bool> leans) =>
        new[] { before, after }.OfType<CheckRecord>()
            .FirstOrDefault(k => k.Check.Calibrator != Device && k.Check.Adapter != Device && !leans(k) && IsGood(profile, k));

    /// <summary>Whether a check was made with what is in doubt, while it was.</summary>
    internal bool IsBehind(CheckRecord check) =>
        IsOfChecks && (check.Check.Calibrator == Device || check.Check.Adapter == Device)
        && check.Instant >= FromMs && check.Instant <= ToMs;

    /// <summary>A check after an event, while the same chain still stood, that shows that it was still good then.</summary>
    /// <param name="profile">Limits of the campaign.</param>
    /// <param name="placement">The chain as it stood.</param>
    /// <param name="stopMs">End of the event.</param>
    /// <param name="checks">Checks of the device in the time of the doubt, by <see cref="ChecksAround"/>.</param>
    /// <param name="leans">Whether a check leans on the same doubt itself.</param>
    internal CheckRecord? RescueOf(
        ProfileState? profile, Placement placement, long stopMs, IReadOnlyList<CheckRecord> checks, Func<CheckRecord, bool> leans) =>
        checks.FirstOrDefault(k =>
            !leans(k) && k.Campaign == placement.Campaign && k.Check.Station == placement.Station && k.Instant >= stopMs
            && k.Instant <= (placement.Until ?? long.MaxValue) && k.Instant <= ToMs && IsGood(profile, k));

    /// <summary>
    /// Checks of the device in the time of the doubt; none of what makes no sound of its own, since a calibrator says nothing of it.
    /// </summary>
    internal IReadOnlyList<CheckRecord> ChecksAround(Register register) =>
        register.Device(Device) is { } device && !DeviceKind.MakesSound(device.Kind)
            ? []
            : [.. CheckBook.Around(register, Device, FromMs, ToMs == long.MaxValue ? ToMs : ToMs + 1)
                .Where(k => k.Check.Devices.Contains(Device))];

    internal static bool IsGood(ProfileState? profile, CheckRecord check) =>
        CheckJudge.Judge(profile, check, [check]).Verdict == ConformityVerdict.Conforms;
}

/// <summary>What raised a doubt.</summary>
public enum DoubtKind
{
    /// <summary>A calibration found it further from the one before than is allowed.</summary>
    OutOfTolerance,

    /// <summary>A certificate that was relied on does not count any more, or says another thing.</summary>
    Withdrawn,

    /// <summary>Damage or a malfunction was reported.</summary>
    Reported,
}
