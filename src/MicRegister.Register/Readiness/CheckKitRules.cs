using MicRegister.Metrology.Atmosphere;
using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;

namespace MicRegister.Register.Readiness;

/// <summary>Whether what goes along for the checks can carry them.</summary>
internal static class CheckKitRules
{
    public static IEnumerable<Finding> CalibratorPresent(ReadinessContext c)
    {
        if (!Calibrators(c).Any())
            yield return c.About("no-calibrator", Gravity.Stops, Clearing.Plan, "No sound calibrator goes along, so that no chain can be checked before and after.");
    }

    public static IEnumerable<Fault> CalibratorClass(StandingDevice s)
    {
        if (s.Device.Kind != DeviceKind.Calibrator.Key) yield break;
        var allowed = s.Profile?.Words(LimitKey.CalibratorClasses) ?? [];
        var has = s.Device.Text(DeviceField.CalibratorClass);
        if (allowed.Count == 0 || (has is not null && allowed.Contains(has))) yield break;
        var those = $"the profile allows {string.Join(", ", allowed)}";
        yield return has is null
            ? new(Gravity.Risks, s.Device, Clearing.Enter, $"The class of {s.Device.Name} is not known; {those}.")
            : new(Gravity.Stops, s.Device, Clearing.Swap, $"{s.Device.Name} is of class {has}; {those}.");
    }

    public static IEnumerable<Fault> CalibratorStep(StandingDevice s)
    {
        var calibrator = s.Device;
        if (calibrator.Kind != DeviceKind.Calibrator.Key) yield break;
        var limit = ChangeLimit.Of(s.Profile, s.Usual, new(calibrator.Kind, "level"));
        if (CalibrationSeries.Newest(calibrator, "level") is not { Found: { } found } newest) yield break;
        if (calibrator.Reviews.ContainsKey(newest.Fact.ToString())) yield break;
        if (ResultLevel.Of(found)?.LevelDb is not { } now || CalibratorSheet.Before(calibrator, newest, now) is not var (day, old)) yield break;
        if (DecisionLimit.AtMost(Math.Abs(now - old), limit)) yield break;
        yield return new(Gravity.Stops, calibrator, Clearing.Decide,
            $"{calibrator.Name} changed by {QuantityText.Change(now - old, "dB", 3)} "
                + FormattableString.Invariant($"from {day:yyyy-MM-dd} to {newest.Day:yyyy-MM-dd}; at most {limit} dB are allowed. ")
                + "What was checked with it in between is in doubt, and nobody has looked at it.",
            new Figure("change", now - old, "dB"), new Figure("limit", limit, "dB"))
        {
            Basis = $"fact {newest.Fact}",
        };
    }

    public static IEnumerable<Fault> LevelUncertainty(StandingDevice s)
    {
        if (s.Device.Kind != DeviceKind.Calibrator.Key || CalibrationSeries.Newest(s.Device, "level") is not { InForce: { } force } newest)
            yield break;
        if (ResultLevel.Of(force) is not { StandardUncertaintyDb: null }) yield break;
        yield return new(Gravity.Risks, s.Device, Clearing.Enter,
            $"The level certificate of {newest.Day:yyyy-MM-dd} of {s.Device.Name} states no uncertainty: "
                + "every U that rests on it is too small.")
        {
            Basis = $"fact {newest.Fact}",
        };
    }

    public static IEnumerable<Finding> CalibratorFits(ReadinessContext c)
    {
        if (!Calibrators(c).Any()) yield break;
        var sizes = c.Chains.Select(ch => ch.Microphone?.Number(DeviceField.SizeMm)).OfType<double>().Distinct().Order();
        foreach (var size in sizes.Where(s => !c.StandingKit.Fits(s)))
        {
            yield return c.About("calibrator-fit", Gravity.Stops, Clearing.Plan,
                FormattableString.Invariant($"No calibrator or adapter of the kit fits a {size:0.##} mm capsule."), new Figure("diameter", size, "mm"));
        }
    }

    public static IEnumerable<Finding> AltitudeRange(ReadinessContext c)
    {
        if (StandingKitOf(c).PressureKPa is null)
        {
            yield return c.About("altitude-range", Gravity.Stops, Clearing.Enter,
                FormattableString.Invariant($"An altitude of {c.Plan.AltitudeM:0} m cannot be; from -1000 m to 11000 m are known."));
        }
    }

    public static IEnumerable<Fault> PressureCovered(StandingKit kit)
    {
        if (kit.PressureKPa is not { } here) yield break;
        foreach (var calibrator in kit.Calibrators)
        {
            // Class 1 holds from 65 kPa to 108 kPa (IEC 60942; from memory, unchecked) where the device does not say otherwise.
            double low = calibrator.Number(DeviceField.LowestKPa) ?? 65, high = calibrator.Number(DeviceField.HighestKPa) ?? 108;
            if (!DecisionLimit.AtLeast(here, low) || !DecisionLimit.AtMost(here, high))
            {
                yield return new(Gravity.Stops, calibrator, Clearing.Swap,
                    $"{calibrator.Name} holds from {QuantityText.UpTo(low, 1)} kPa to {QuantityText.UpTo(high, 1)} kPa; "
                        + $"{kit.PressureWords}.",
                    new Figure("pressure", here, "kPa"));
            }
            else if (calibrator.Text(DeviceField.PressureLaw) is null && Math.Abs(here - 101.325) > 1)
            {
                var change = QuantityText.Change(Pistonphone.PressureCorrection(here).Decibels, "dB", 2);
                yield return new(Gravity.Risks, calibrator, Clearing.Enter,
                    $"How {calibrator.Name} follows static pressure is not known; a pistonphone would change by {change}, "
                        + $"since {kit.PressureWords}.",
                    new Figure("pressure", here, "kPa"));
            }
        }
    }

    public static IEnumerable<Fault> PressureRead(StandingKit kit)
    {
        if (kit.IsPressureRead) yield break;
        foreach (var calibrator in kit.Calibrators.Where(d => d.Text(DeviceField.PressureLaw) == "adiabatic"))
        {
            yield return new(Gravity.Risks, null, Clearing.Plan,
                $"The level of {calibrator.Name} follows static pressure, and no barometer tells it.");
        }
    }

    /// <summary>What goes along, at the standard pressure of the site's altitude.</summary>
    internal static StandingKit StandingKitOf(ReadinessContext c)
    {
        var (here, words) = AtAltitude(c.Plan.AltitudeM);
        return new(c.CheckKit, here, words, c.CheckKit.Any(d => d.Kind == DeviceKind.Barometer.Key));
    }

    /// <summary>The pressure that a site's altitude lets expect, in kPa, with words for it; null where no such altitude can be.</summary>
    internal static (double? KPa, string Words) AtAltitude(double altitudeM)
    {
        if (altitudeM is not (>= -1000 and <= 11000)) return (null, "");
        var kPa = StandardAtmosphere.PressureKPa(altitudeM);
        return (kPa, FormattableString.Invariant($"{altitudeM:0} m are about ") + QuantityText.Of(kPa, "kPa", 1));
    }

    private static IEnumerable<DeviceState> Calibrators(ReadinessContext c) => c.CheckKit.Where(d => d.Kind == DeviceKind.Calibrator.Key);
}
