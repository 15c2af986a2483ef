using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Doubts;

/// <summary>
/// Devices whose curve was found further from the one before, in any third-octave band, than a profile allows: the rule for the change of
/// one figure, asked of each band. Curves are read of the kinds and quantities alone that a profile limits.
/// </summary>
internal static class BandDoubts
{
    private const string InBands = "InBands";

    /// <summary>What puts a device in doubt by some profiles; curves that cannot be read here put nothing in doubt.</summary>
    public static IReadOnlyList<Doubt> Of(Register register, string id, IReadOnlyList<ProfileState?> profiles)
    {
        if (!profiles.Any(p => p?.Written.Limits.Any(IsInBands) == true) || register.Device(id) is not { } device) return [];
        return [.. profiles.SelectMany(p => CertificateLimits.Of(p, CertificateLimits.ChangeInBands, device.Kind))
            .Select(l => l.Quantity).Distinct(StringComparer.Ordinal)
            .SelectMany(q => CurvePair.All(device, q)
                .Select(p => Of(register, device, q, p, profiles))).OfType<Doubt>()];
    }

    private static Doubt? Of(
        Register register, DeviceState device, string quantity, CurvePair pair, IReadOnlyList<ProfileState?> profiles)
    {
        if (GreatestChange.Of(pair.Change(register.CurveShelf)) is not { } greatest) return null;
        var limited = new LimitedChange(device.Kind, quantity, IsInBands: true);
        var size = Math.Abs(greatest.Change.Db);
        if (profiles.All(p => DecisionLimit.AtMost(size, ChangeLimit.Of(register, p, limited)))) return null;
        return DoubtBook.New(
            register, device, DoubtKind.OutOfTolerance, pair.Now.Fact, DoubtBook.StartOf(register, pair.Before.Day),
            DoubtBook.StartOf(register, pair.Now.Day.AddDays(1)) - 1, size,
            $"{device.Name} was found {QuantityText.Change(greatest.Change.Db, "dB", 3)} from its calibration of "
                + $"{pair.Before.Day:yyyy-MM-dd} in the third-octave band {greatest.Where} on {pair.Now.Day:yyyy-MM-dd}",
            InBands)
            with
        { Limited = limited, Unit = "dB" };
    }

    private static bool IsInBands(ProfileLimit limit) => limit.Key.StartsWith(CertificateLimits.ChangeInBands, StringComparison.Ordinal);
}
