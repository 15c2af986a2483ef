using MicRegister.Metrology.Conformity;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;

namespace MicRegister.Register.Readiness;

/// <summary>Whether one device can be relied on, on one day, without a campaign.</summary>
/// <param name="Verdict">Never at risk or worse without a reason.</param>
/// <param name="Why">The first reason that decides; empty where it is ready.</param>
public sealed record DeviceOnDay(ReadinessVerdict Verdict, string Why)
{
    private static readonly DeviceOnDay Ready = new(ReadinessVerdict.Ready, "");

    /// <summary>Judges a device by its state of use, its due day and its forecast.</summary>
    /// <param name="book">The drift of all devices.</param>
    /// <param name="device">The device.</param>
    /// <param name="profile">Profile whose intervals and drift limit count.</param>
    /// <param name="day">The day.</param>
    public static DeviceOnDay Judge(DriftBook book, DeviceState device, ProfileState profile, DateOnly day)
    {
        if (!device.WrittenByNewer.IsEmpty) return new(ReadinessVerdict.Undecided, "facts of a newer version stand about it");
        if (device.Status != DeviceStatus.InService) return new(ReadinessVerdict.NotReady, "it is " + device.Status.InWords);
        if (DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity) return Ready;
        if (MakersDataRules.Of(new(device, profile, day, day), quantity).Holds) return Ready;
        if (CalibrationSeries.Newest(device, quantity) is null)
            return profile.Intervals(device.Kind!).Any() ? new(ReadinessVerdict.NotReady, $"it has no {quantity} calibration") : Ready;
        if (CalibrationSeries.Newest(device, quantity) is { } newest && device.Services.Any(s => s.What.BeginsAnew && s.Day > newest.Day)) return new(ReadinessVerdict.NotReady, "its results begin anew with work after its certificate");
        if (DueDay.Of(device, profile) is { } due && due < day) return new(ReadinessVerdict.NotReady, $"its calibration is valid through {due:yyyy-MM-dd}");
        if (profile.Value(LimitKey.DriftDb) is not { } limitDb || book.Of(device.Id) is not { } drift) return Ready;
        var judged = CalibrationRules.ProbabilityOn(drift, limitDb, day);
        if (DecisionLimit.AtLeast(judged.Probability, profile.Value(LimitKey.DeviceProbability) ?? 0.95)) return Ready;
        var stops = !DecisionLimit.AtLeast(judged.Probability, profile.Value(LimitKey.DeviceProbabilityStop) ?? 0.5);
        return new(stops ? ReadinessVerdict.NotReady : ReadinessVerdict.AtRisk,
            $"it stays within its limit with probability {DriftWords.Probability(judged.Probability)} only");
    }
}
