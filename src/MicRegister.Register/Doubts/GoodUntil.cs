using MicRegister.Metrology.Conformity;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Doubts;

/// <summary>Until when something in doubt is known to have been good, by what was measured with it or of it.</summary>
internal static class GoodUntil
{
    private const int MostSteps = 10;

    /// <summary>A cause of doubt that begins at the last measurement that shows the device to have been good.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="cause">The cause, from the certificate before it on.</param>
    public static Doubt Narrowed(Register register, Doubt cause)
    {
        var good = cause.Kind switch
        {
            DoubtKind.Withdrawn => null,
            // A change may have come between a check and the certificate that found it: events are rescued one by one.
            DoubtKind.OutOfTolerance => cause.IsOfChecks ? Compared(register, cause) : null,
            _ => cause.IsOfChecks ? Compared(register, cause) : Checked(register, cause),
        };
        return good is { } at && at > cause.FromMs ? cause with { FromMs = at } : cause;
    }

    // A check that was good says that a part of the chain was still whole then.
    private static long? Checked(Register register, Doubt cause) =>
        CheckBook.Around(register, cause.Device, cause.FromMs, cause.ToMs).LastOrDefault(k =>
            k.Instant <= cause.ToMs && k.Check.Devices.Contains(cause.Device)
            && Doubt.IsGood(ProfileOf(register, k.Campaign), k) && !IsMadeInDoubt(register, k))?.Instant;

    // Another calibrator on the same chain in the same session, with the same outcome, says so of a calibrator.
    private static long? Compared(Register register, Doubt cause)
    {
        if (register.Device(cause.Device)?.Kind != DeviceKind.Calibrator.Key) return null;
        var others = register.DeviceIds.Where(d => d != cause.Device && register.KindOf(d) == DeviceKind.Calibrator.Key).ToList();
        if (others.Count == 0) return null;
        var version = register.Version(Subject.Device(cause.Device));
        return register.Memory.Of<Shelf<Comparison>>().Of(
            cause.Key, version, _ => new(Compared(register, cause, others), others), c => VersionOf(register, c.Others)).Instant;
    }

    private static int VersionOf(Register register, List<string> devices) => devices.Sum(d => register.Version(Subject.Device(d)) + 1);

    private static long? Compared(Register register, Doubt cause, List<string> others)
    {
        List<CheckRecord> foreign = [.. others.SelectMany(o => CheckBook.MadeWith(register, o)).Where(k => Is(k, cause))];
        if (foreign.Count == 0) return null;
        var own = CheckBook.MadeWith(register, cause.Device).Where(k => Is(k, cause) && k.Check.Calibrator == cause.Device)
            .ToLookup(k => k.Check.Devices[0], StringComparer.Ordinal);
        foreach (var other in foreign.OrderByDescending(k => k.Instant))
        {
            // Whichever came first: when it was used itself it gave the same as the other.
            var last = own[other.Check.Devices[0]].Where(k => AreAlike(register, cause, k, other)).Select(k => (long?)(k.Instant + 1)).Max();
            if (last is not null && !IsMadeInDoubt(register, other) && !RestsOn(register, other.Check.Calibrator, cause.Device)) return last;
        }
        return null;

        static bool Is(CheckRecord k, Doubt cause) =>
            k.Occurred.IsInstant && k.Check.Devices.Count > 0 && k.Instant > cause.FromMs && k.Instant <= cause.ToMs;
    }

    // Within the limit, and nearer to how it was than to how it was found.
    private static bool AreAlike(Register register, Doubt cause, CheckRecord own, CheckRecord other)
    {
        if (Math.Abs(own.Instant - other.Instant) > CheckSpan.LongestSession.TotalMilliseconds || other.Since(own) is not { } apart) return false;
        var limit = ChangeLimit.Of(register, ProfileOf(register, own.Campaign), new(DeviceKind.Calibrator.Key, "level"));
        return DecisionLimit.AtMost(Math.Abs(apart), Math.Min(limit, (cause.GreatestDb ?? double.PositiveInfinity) / 2));
    }

    // By causes alone: what narrows one doubt must not wait for how another is narrowed.
    private static bool IsMadeInDoubt(Register register, CheckRecord check)
    {
        var profile = ProfileOf(register, check.Campaign);
        return check.Kit.Any(id => IsInDoubt(register, profile, id, check.Instant, 0));
    }

    private static bool IsInDoubt(Register register, ProfileState? profile, string id, long instant, int steps)
    {
        if (DoubtBook.Causes(register, id, [profile]).Any(c => c.FromMs <= instant && instant <= c.ToMs && c.IsRaisedBy(register, profile)
            && c.SettledFor(register, profile, null) is not { What.IsConfirmed: false }))
        {
            return true;
        }
        return steps < MostSteps && ReferenceOf(register, id, instant) is var (reference, at) && reference is not null
            && IsInDoubt(register, profile, reference, at, steps + 1);
    }

    private static bool RestsOn(Register register, string device, string other) =>
        register.Device(device)?.Certificates.Any(c => c.Issued.ReferenceDevice is { } r && register.EntriesOf(r)[0] == other) == true;

    // What the certificate in force then was measured against, and when.
    private static (string? Device, long Instant) ReferenceOf(Register register, string id, long instant)
    {
        if (register.Device(id) is not { } device || DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity) return default;
        var day = ZoneOffsets.LocalDay(instant, register.OffsetsOf(null));
        return CalibrationSeries.Newest(device.CertifiedBy(day), quantity) is { Issued.ReferenceDevice: { } reference } certificate
            ? (register.EntriesOf(reference)[0], DoubtBook.StartOf(register, certificate.Day))
            : default;
    }

    private static ProfileState? ProfileOf(Register register, string? campaign) =>
        campaign is not null && register.Campaign(campaign)?.Plan is { } plan
            ? register.Profile(plan.Profile)
            : register.Profile(BuiltInProfiles.Usual);

    private sealed record Comparison(long? Instant, List<string> Others);
}
