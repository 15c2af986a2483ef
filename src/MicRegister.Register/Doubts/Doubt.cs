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
    IReadOnlyList<Dated<DoubtSettled>> Settled)
{
    /// <summary>Unit of what may be wrong: that of the device's results.</summary>
    public string Unit { get; init; } = "dB";

    /// <summary>Id of the certificate that it comes through: checks that rest on another are not in doubt; null where all are.</summary>
    internal string? Through { get; init; }

    /// <summary>Id of the certificate that <see cref="GreatestDb"/> is counted from; null where nothing tells how far it may be.</summary>
    public FactId? Against { get; init; }

    /// <summary>What a profile's limit is held against; null where no limit raises it.</summary>
    internal LimitedChange? Limited { get; init; }

    /// <summary>Whether it is one by the limits of a profile; one that no limit raises is one by all.</summary>
    /// <param name="register">Holds what is usual where the profile says nothing.</param>
    /// <param name="profile">Limits of the campaign; null where it has none.</param>
    public bool IsRaisedBy(Register register, ProfileState? profile) =>
        Limited is not { } limited || !DecisionLimit.AtMost(GreatestDb!.Value, ChangeLimit.Of(register, profile, limited));

    /// <summary>
    /// The last word on an event of a campaign; null where nobody spoke of it. One that names no event speaks of all that it touched when it
    /// was said: where another profile's stricter limit raises it since, it was never weighed.
    /// </summary>
    /// <param name="register">Holds what is usual.</param>
    /// <param name="profile">Profile of the campaign; null where it has none.</param>
    /// <param name="event">Id of the event; null asks for words on all events alone.</param>
    public Dated<DoubtSettled>? SettledFor(Register register, ProfileState? profile, string? @event)
    {
        for (var i = Settled.Count - 1; i >= 0; i--)
        {
            var said = Settled[i].What;
            if (said.Events.Count == 0 ? IsMeant(register, profile, said) : @event is not null && said.Events.Contains(@event)) return Settled[i];
        }
        return null;
    }

    private bool IsMeant(Register register, ProfileState? profile, DoubtSettled said) =>
        Limited is null
        || (said.Profiles?.Contains(profile?.Id ?? BuiltInProfiles.Usual)
            ?? IsRaisedBy(register, register.Profile(BuiltInProfiles.Usual)));

    /// <summary>A check of an event that another calibrator stands behind: it rescues the event where the doubt is about checks.</summary>
    /// <param name="profile">Limits of the campaign.</param>
    /// <param name="before">Check before the event.</param>
    /// <param name="after">Check after it.</param>
    /// <param name="leans">Whether a check was itself made with a device in doubt, this one or another.</param>
    internal CheckRecord? RescueOf(ProfileState? profile, CheckRecord? before, CheckRecord? after, Func<CheckRecord, bool> leans) =>
        new[] { before, after }.OfType<CheckRecord>()
            .FirstOrDefault(k => !k.IsMadeWith(Device) && !leans(k) && IsGood(profile, k));

    /// <summary>Whether a check was made with what is in doubt, while it was.</summary>
    internal bool IsBehind(CheckRecord check) =>
        IsOfChecks && check.IsMadeWith(Device) && check.Instant >= FromMs && check.Instant <= ToMs
        && (Through is not { } through || check.Check.Calibrator != Device || check.Check.CalibratorCertificate == through);

    /// <summary>A check after an event, while the same chain still stood, that shows that it was still good then.</summary>
    /// <param name="profile">Limits of the campaign.</param>
    /// <param name="placement">The chain as it stood.</param>
    /// <param name="stopMs">End of the event.</param>
    /// <param name="checks">Checks of the device in the time of the doubt, by <see cref="ChecksAround"/>.</param>
    /// <param name="leans">Whether a check was itself made with a device in doubt.</param>
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

    /// <summary>It was made another device, as by a repair, and nothing tells how it was before.</summary>
    Repaired,
}
