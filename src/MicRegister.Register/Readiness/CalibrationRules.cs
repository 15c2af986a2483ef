using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;

namespace MicRegister.Register.Readiness;

/// <summary>Whether results are in date, stable and fit for a forecast.</summary>
internal static class CalibrationRules
{
    public static IEnumerable<Finding> NeverCalibrated(ReadinessContext c)
    {
        foreach (var device in c.InUse)
        {
            foreach (var (quantity, limit) in c.Profile.Intervals(device.Kind ?? ""))
            {
                if (CalibrationSeries.Newest(device, quantity) is null)
                    yield return c.About("never-calibrated", Gravity.Stops, device, c.Plan.FirstDay, Clearing.Calibrate, $"{device.Name} has no {quantity} calibration; the profile asks for one ({limit.Source}).");
            }
            // What goes into every level has to be calibrated whatever the profile says.
            if (IsForecast(device) && CalibrationSeries.Newest(device, Quantity(device)) is null && c.Profile.Intervals(device.Kind!).All(i => i.Quantity != Quantity(device)))
                yield return c.About("never-calibrated", Gravity.Risks, device, c.Plan.FirstDay, Clearing.Calibrate, $"{device.Name} has no {Quantity(device)} calibration, which goes into every level.");
        }
    }

    public static IEnumerable<Finding> Due(ReadinessContext c)
    {
        foreach (var device in c.InUse)
        {
            foreach (var due in CalibrationDue.Of(device, c.Profile, c.Plan.FirstDay, c.Plan.LastDay).Where(d => d.Due < d.Needed))
            {
                yield return c.About("due", Gravity.Stops, device, due.Due.AddDays(1), Clearing.Calibrate,
                    $"{device.Name}: its {due.Quantity} calibration is valid through {due.Due:yyyy-MM-dd} ({due.Why}); it has to last through {due.Needed:yyyy-MM-dd}.",
                    new Figure("days missing", due.Needed.DayNumber - due.Due.DayNumber, "d"));
            }
        }
    }

    public static IEnumerable<Finding> BegunAnew(ReadinessContext c)
    {
        foreach (var device in c.InUse)
        {
            if (DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity || CalibrationSeries.Newest(device, quantity) is not { } newest) continue;
            var after = device.Services.Where(s => s.What.BeginsAnew && s.Day > newest.Day).OrderBy(s => s.Day).LastOrDefault();
            if (after is null) continue;
            yield return c.About("begun-anew", Gravity.Stops, device, c.Plan.FirstDay, Clearing.Calibrate,
                $"{device.Name}: its results begin anew with the work of {after.Day:yyyy-MM-dd} ({after.What.Text}); its certificate of {newest.Day:yyyy-MM-dd} is older and holds no more.");
        }
    }

    public static IEnumerable<Finding> NoUncertainty(ReadinessContext c)
    {
        foreach (var device in c.InUse.Where(IsForecast))
        {
            if (CalibrationSeries.Newest(device, Quantity(device)) is not { } newest) continue;
            if (c.Drift.Of(device.Id) is null)
                yield return c.About("no-uncertainty", Gravity.Risks, device, c.Plan.FirstDay, Clearing.Enter, $"{device.Name}: none of its results states an uncertainty, so that no forecast can be made.");
            else if (newest.InForce is null || ResultLevel.Of(newest.InForce) is not { StandardUncertaintyDb: not null })
                yield return c.About("no-uncertainty", Gravity.Risks, device, c.Plan.FirstDay, Clearing.Enter, $"{device.Name}: its certificate in use, of {newest.Day:yyyy-MM-dd}, states no result with an uncertainty; the forecast rests on older ones.");
        }
    }

    public static IEnumerable<Finding> Forecast(ReadinessContext c)
    {
        if (c.Profile.Value(LimitKey.DriftDb) is not { } limitDb) yield break;
        var least = c.Profile.Value(LimitKey.DeviceProbability) ?? 0.95;
        var stop = c.Profile.Value(LimitKey.DeviceProbabilityStop) ?? 0.5;
        foreach (var device in c.InUse)
        {
            if (Probability(c, device) is not { } judged || DecisionLimit.AtLeast(judged.Probability, least)) continue;
            var gravity = DecisionLimit.AtLeast(judged.Probability, stop) ? Gravity.Risks : Gravity.Stops;
            var deviation = judged.Forecast.LevelDb - judged.Drift.Series.InUseDb;
            var text = FormattableString.Invariant($"{device.Name} is within ±{limitDb} dB of its certificate ")
                + FormattableString.Invariant($"of {judged.Drift.Series.InUseDay:yyyy-MM-dd} on {c.Plan.LastDay:yyyy-MM-dd} ")
                + FormattableString.Invariant($"with probability {judged.Probability:0.000}; {least} is asked ")
                + $"(expected deviation {QuantityText.Change(deviation, "dB", 3)}, "
                + $"standard deviation {QuantityText.Of(judged.Forecast.StandardDeviationDb, "dB", 3)}; "
                + $"{DriftWords.Behind(judged.Drift)}; {DriftWords.Basis(judged.Drift, c.Plan.LastDay, limitDb)}).";
            yield return c.About("forecast", gravity, device, FirstDayUnder(c, judged, limitDb, least),
                judged.Drift.Forecast.IsNewestOpen ? Clearing.Decide : Clearing.Calibrate, text,
                new("probability", judged.Probability, ""), new("expected deviation", deviation, "dB"),
                new("standard deviation", judged.Forecast.StandardDeviationDb, "dB"), new("limit", limitDb, "dB"),
                new("results", judged.Drift.Results, ""), new("devices", judged.Drift.ModelDevices, ""));
        }
    }

    /// <summary>What is expected of a device on the campaign's last day; null where no forecast is asked or possible.</summary>
    public static Judged? Probability(ReadinessContext c, DeviceState device) =>
        c.Profile.Value(LimitKey.DriftDb) is { } limitDb && IsForecast(device) && c.Drift.Of(device.Id) is { } drift ? ProbabilityOn(drift, limitDb, c.Plan.LastDay) : null;

    /// <summary>The same on any day; a day before the newest result is taken as that result's.</summary>
    public static Judged ProbabilityOn(DeviceDrift drift, double limitDb, DateOnly day)
    {
        var forecast = drift.At(day);
        return new(drift, forecast, forecast.ProbabilityWithin(drift.Series.InUseDb, limitDb));
    }

    private static DateOnly FirstDayUnder(ReadinessContext c, Judged judged, double limitDb, double least)
    {
        for (var day = c.Plan.FirstDay; day < c.Plan.LastDay; day = day.AddDays(1))
        {
            if (day >= judged.Drift.Series.Current.Newest.Day && !DecisionLimit.AtLeast(ProbabilityOn(judged.Drift, limitDb, day).Probability, least)) return day;
        }
        return c.Plan.LastDay;
    }

    public static IEnumerable<Finding> StepNotLookedAt(ReadinessContext c)
    {
        foreach (var device in c.InUse.Where(IsForecast))
        {
            if (c.Drift.Of(device.Id) is not { } drift) continue;
            var behind = $"This comes {DriftWords.Behind(drift)}; {DriftWords.Basis(drift, c.Plan.LastDay, c.Profile.Value(LimitKey.DriftDb))}.";
            var probability = c.Profile.Value(LimitKey.DriftDb) is { } limitDb ? ProbabilityOn(drift, limitDb, c.Plan.LastDay).Probability : (double?)null;
            foreach (var (finding, point, life) in drift.Findings)
            {
                // What a life before a repair did, and a single wrong result that later ones put right, is worth knowing and no more.
                var isPast = !ReferenceEquals(life, drift.Series.Current) || finding.LeavesOut;
                var steady = isPast ? "" : DriftWords.Steady(drift, c.Plan.LastDay);
                yield return c.About("step", isPast ? Gravity.Note : Gravity.Risks, device, c.Plan.FirstDay, finding.Kind == DriftFindingKind.NewestOpen || steady.Length > 0 ? Clearing.Calibrate : Clearing.Decide,
                    $"{device.Name}: {DriftWords.Found(drift, finding, point, life)}{(steady.Length > 0 ? " " + steady : "")} Nobody has looked at it yet.{(isPast || probability is not { } p ? "" : FormattableString.Invariant($" Within its limit on {c.Plan.LastDay:yyyy-MM-dd} with probability {DriftWords.Probability(p)}. {behind}"))}",
                    [new("size", finding.SizeDb, "dB"), new("standard deviations", finding.Z, ""), new("threshold", finding.Threshold, ""), new("results", drift.Results, ""), new("devices", drift.ModelDevices, ""), .. probability is { } q ? new Figure[] { new("probability", q, "") } : []]);
            }
        }
    }

    public static IEnumerable<Finding> SetParted(ReadinessContext c)
    {
        foreach (var chain in c.Chains)
        {
            foreach (var device in chain.Devices)
            {
                if (DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity || CalibrationSeries.Newest(device, quantity) is not { Set.Count: > 1 } newest) continue;
                var missing = newest.Set.Where(id => chain.Devices.All(d => d.Id != id)).ToList();
                if (missing.Count == 0) continue;
                var names = missing.Select(id => c.Register.Device(id, c.Today)?.Name ?? id);
                yield return c.About("set-parted", Gravity.Stops, chain, device, Clearing.Plan,
                    $"{device.Name} was calibrated as a set on {newest.Day:yyyy-MM-dd}; {string.Join(", ", names)} is not in the same chain, so that the result does not hold.");
            }
        }
    }

    /// <summary>Kinds whose sensitivity or gain goes into every level.</summary>
    private static bool IsForecast(DeviceState device) =>
        device.Kind == DeviceKind.Microphone.Key || device.Kind == DeviceKind.Preamplifier.Key || device.Kind == DeviceKind.RecorderChannel.Key;

    private static string Quantity(DeviceState device) => DeviceKind.Find(device.Kind)!.Calibrated!;

    internal sealed record Judged(DeviceDrift Drift, LevelForecast Forecast, double Probability);
}
