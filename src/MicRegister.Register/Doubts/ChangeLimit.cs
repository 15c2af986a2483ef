using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Doubts;

/// <summary>A change between two calibrations that a limit is held against.</summary>
/// <param name="Kind">Kind of the device; null where nobody registered it.</param>
/// <param name="Quantity">What was calibrated.</param>
/// <param name="IsInBands">Whether it is the greatest change of a third-octave band rather than that of one figure.</param>
internal readonly record struct LimitedChange(string? Kind, string Quantity, bool IsInBands = false);

/// <summary>By how much a device may differ from its calibration before: one rule for readiness and for doubts.</summary>
internal static class ChangeLimit
{
    // Common practice, no source.
    private const double UsualDb = 0.3;
    private const double UsualCalibratorDb = 0.2;
    private const double UsualKPa = 0.2;

    /// <summary>
    /// The limit in the unit of the quantity: by a profile, or by usual practice where it says nothing; in bands by a profile alone,
    /// infinite where it says nothing.
    /// </summary>
    public static double Of(Register register, ProfileState? profile, LimitedChange change) =>
        Of(profile, register.Profile(BuiltInProfiles.Usual), change);

    /// <summary>The same, where what is usual is at hand.</summary>
    public static double Of(ProfileState? profile, ProfileState? usual, LimitedChange change) =>
        change.IsInBands
            ? profile?.Value($"{CertificateLimits.ChangeInBands}{change.Kind}/{change.Quantity}") ?? double.PositiveInfinity
            : Of(profile, change) ?? Of(usual, change)
            ?? (ResultLevel.UnitOf(change.Quantity) == "kPa" ? UsualKPa : IsOfCalibrator(change) ? UsualCalibratorDb : UsualDb);

    private static double? Of(ProfileState? profile, LimitedChange change)
    {
        if (profile is null) return null;
        if (profile.Value($"{LimitKey.Change}{change.Kind}/{change.Quantity}") is { } own) return own;
        if (ResultLevel.UnitOf(change.Quantity) != "dB") return null;
        return profile.Value(IsOfCalibrator(change) ? LimitKey.CalibratorStepDb : LimitKey.DriftDb);
    }

    private static bool IsOfCalibrator(LimitedChange change) => change.Kind == DeviceKind.Calibrator.Key;
}
