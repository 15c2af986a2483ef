using MicRegister.Metrology.Classes;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>Whether classes of instruments suffice, and whether a calibrator keeps what its class promises.</summary>
internal static class ClassRules
{
    /// <summary>Of a calibrator: the list that profiles of earlier releases hold, and the least class.</summary>
    public static IEnumerable<Fault> CalibratorClass(StandingDevice s) => s.Device.Kind != DeviceKind.Calibrator.Key
        ? []
        : CheckKitRules.CalibratorClass(s).Concat(Demanded(s));

    /// <summary>Of filters and meters.</summary>
    public static IEnumerable<Fault> InstrumentClass(StandingDevice s) => s.Device.Kind == DeviceKind.Calibrator.Key ? [] : Demanded(s);

    /// <summary>What a calibrator's certificate says against its class is a risk, what it leaves open is worth knowing.</summary>
    public static IEnumerable<Fault> CalibratorLimits(StandingDevice s)
    {
        foreach (var line in CalibratorLimitSheet.Of(s.Device))
        {
            if (line.Verdict == ClassLimitVerdict.Exceeds || line.IsTooUncertain)
            {
                yield return new(
                    line.Verdict == ClassLimitVerdict.Exceeds ? Gravity.Risks : Gravity.Note, s.Device, Clearing.Calibrate,
                    $"{s.Device.Name}: {line.Text}", Figures(line))
                {
                    Basis = line.Certificate is { } fact ? $"fact {fact}" : null,
                    IsSaid = true,
                };
            }
        }
    }

    private static Figure[] Figures(ClassLimitLine line) => line is { Limit: { } l, Deviation: { } d }
        ? [new(line.Quantity, d, l.Unit), new("limit", l.Limit, l.Unit)]
        : [];

    private static IEnumerable<Fault> Demanded(StandingDevice s)
    {
        foreach (var demand in ClassDemand.Of(s.Device, s.Profile))
        {
            var (gravity, clearing) = demand.Verdict switch
            {
                { Answer: ClassAnswer.Misses } => (Gravity.Stops, Clearing.Swap),
                { Answer: ClassAnswer.Undecided } => (Gravity.Risks, Clearing.Enter),
                _ => (Gravity.Note, Clearing.Decide),
            };
            // What plainly meets is not said; what meets by an own reading is.
            if (gravity == Gravity.Note && !demand.Verdict.IsOwnReading) continue;
            yield return new(gravity, s.Device, clearing, demand.Text) { IsSaid = true };
        }
    }
}
