using MicRegister.Register.Devices;

namespace MicRegister.Register.Tracing;

/// <summary>Whether what it rests on was certified, and in date, by the days of the series as readiness counts them.</summary>
internal static class CertificateQuestions
{
    public static IEnumerable<TraceReason> NoCertificate(TracedChain c) => c.Links
        .Where(l => l.Certificate is null && (l.Depth > 0 || IsLevel(l.Device)))
        .Select(l => new TraceReason(
            TraceVerdict.NotValid, $"{l.Device.Name} had no certificate on {l.Day:yyyy-MM-dd}.", "no certificate"));

    public static IEnumerable<TraceReason> Due(TracedChain c)
    {
        foreach (var (device, dues) in c.Dated)
        {
            foreach (var due in dues)
            {
                if (due.Due >= due.Needed) continue;
                var what = due.Quantity == DeviceKind.Find(device.Kind)?.Calibrated ? "The certificate" : $"The {due.Quantity} calibration";
                yield return new(
                    TraceVerdict.NotValid, $"{what} of {device.Name} was valid through {due.Due:yyyy-MM-dd}.",
                    $"fact {due.Newest.Fact}, {(due.Limit is { } limit ? $"profile {c.Profile!.Id}, {limit.Key}" : due.Why)}");
            }
        }
    }

    public static IEnumerable<TraceReason> NeverCalibrated(TracedChain c)
    {
        if (c.Profile is not { } profile) yield break;
        foreach (var (device, dues) in c.Dated)
        {
            foreach (var (quantity, limit) in profile.Intervals(device.Kind ?? ""))
            {
                // Of a microphone and a calibrator a missing certificate was named with its link already.
                if (IsLevel(device) && quantity == DeviceKind.Find(device.Kind)?.Calibrated) continue;
                // Each interval with a certificate has a due day.
                if (dues.Any(d => d.Quantity == quantity)) continue;
                yield return new(
                    TraceVerdict.Doubtful, $"{device.Name} had no {quantity} calibration on {c.Day:yyyy-MM-dd}; the profile asks for one.",
                    $"profile {profile.Id}, {limit.Key}");
            }
        }
    }

    // Without their certificates there is no level at all.
    private static bool IsLevel(DeviceState device) => device.Kind == DeviceKind.Microphone.Key || device.Kind == DeviceKind.Calibrator.Key;
}
