using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Drift;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

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
            foreach (var (quantity, due, needed, why) in DueDays(c, device))
            {
                if (due >= needed) continue;
                yield return c.About("due", Gravity.Stops, device, due.AddDays(1), Clearing.Calibrate,
                    $"{device.Name}: its {quantity} calibration is valid through {due:yyyy-MM-dd} ({why}); it has to last through {needed:yyyy-MM-dd}.",
                    new Figure("days missing", needed.DayNumber - due.DayNumber, "d"));
            }
        }
    }

    /// <summary>The day through which each calibration is valid, by the profile, the device's own interval or the certificate; the earliest counts.</summary>
    private static IEnumerable<(string Quantity, DateOnly Due, DateOnly Needed, string Why)> DueDays(ReadinessContext c, DeviceState device)
    {
        var limits = c.Profile.Intervals(device.Kind ?? "").ToList();
        var main = DeviceKind.Find(device.Kind)?.Calibrated;
        foreach (var quantity in limits.Select(l => l.Quantity).Concat(main is null ? [] : [main]).Distinct(StringComparer.Ordinal))
        {
            if (CalibrationSeries.Newest(device, quantity) is not { } newest) continue;
            var candidates = new List<(DateOnly Due, DateOnly Needed, string Why)>();
            foreach (var (_, limit) in limits.Where(l => l.Quantity == quantity))
            {
                var inDays = limit.Key.StartsWith(LimitKey.IntervalDays, StringComparison.Ordinal);
                var due = inDays ? DueDay.AfterDays(newest.Day, (int)Math.Clamp(limit.Value!.Value, 0, 36_500)) : DueDay.AfterMonths(newest.Day, (int)Math.Clamp(limit.Value!.Value, 0, 1200));
                candidates.Add((due, limit.Text == LimitKey.ToFirstDay ? c.Plan.FirstDay : c.Plan.LastDay, $"profile: {limit.Value} {(inDays ? "days" : "months")}"));
            }
            if (quantity == main && device.Number(DeviceField.IntervalMonths) is { } months)
                candidates.Add((DueDay.AfterMonths(newest.Day, (int)months), c.Plan.LastDay, $"own interval: {months} months"));
            if (newest.Issued.DueDay is { } stated) candidates.Add((stated, c.Plan.LastDay, "stated on the certificate"));

            // What is missing most decides, so that one device has one finding for one quantity.
            if (candidates.Count > 0)
            {
                var (due, needed, why) = candidates.MinBy(d => d.Due.DayNumber - d.Needed.DayNumber);
                yield return (quantity, due, needed, why);
            }
        }
    }

    public static IEnumerable<Finding> NoUncertainty(ReadinessContext c)
    {
        foreach (var device in c.InUse.Where(IsForecast))
        {
            if (CalibrationSeries.Newest(device, Quantity(device)) is not { } newest) continue;
            if (CalibrationSeries.Of(device, Quantity(device)) is null)
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
            yield return c.About("forecast", gravity, device, FirstDayUnder(c, judged, limitDb, least), Clearing.Calibrate,
                FormattableString.Invariant($"{device.Name} is within ±{limitDb} dB of its certificate of {judged.Series.InUseDay:yyyy-MM-dd} on {c.Plan.LastDay:yyyy-MM-dd} with probability {judged.Probability:0.000}; {least} is asked (expected deviation {judged.Forecast.LevelDb - judged.Series.InUseDb:+0.000;-0.000} dB, standard deviation {judged.Forecast.StandardDeviationDb:0.000} dB, {judged.Forecast.Results} results, {judged.Forecast.Assumption})."),
                new("probability", judged.Probability, ""), new("expected deviation", judged.Forecast.LevelDb - judged.Series.InUseDb, "dB"),
                new("standard deviation", judged.Forecast.StandardDeviationDb, "dB"), new("limit", limitDb, "dB"), new("results", judged.Forecast.Results, ""));
        }
    }

    /// <summary>What is expected of a device on the campaign's last day; null where no forecast is asked or possible.</summary>
    public static Judged? Probability(ReadinessContext c, DeviceState device) => ProbabilityOn(c.Register, device, c.Profile, c.Plan.LastDay);

    /// <summary>The same on any day; a day before the newest result is taken as that result's.</summary>
    public static Judged? ProbabilityOn(Register register, DeviceState device, ProfileState profile, DateOnly day)
    {
        if (profile.Value(LimitKey.DriftDb) is not { } limitDb || !IsForecast(device) || CalibrationSeries.Of(device, Quantity(device)) is not { } series) return null;
        var newest = series.Current.Newest;
        var forecast = DriftForecast.At(series.Current.History, (day < newest.Day ? newest.Day : day).DayNumber, ForecastAssumptions.Default);
        return new(series, newest, forecast, forecast.ProbabilityWithin(series.InUseDb, limitDb));
    }

    private static DateOnly FirstDayUnder(ReadinessContext c, Judged judged, double limitDb, double least)
    {
        for (var day = c.Plan.FirstDay; day < c.Plan.LastDay; day = day.AddDays(1))
        {
            if (day < judged.Newest.Day) continue;
            var p = DriftForecast.At(judged.Series.Current.History, day.DayNumber, ForecastAssumptions.Default).ProbabilityWithin(judged.Series.InUseDb, limitDb);
            if (!DecisionLimit.AtLeast(p, least)) return day;
        }
        return c.Plan.LastDay;
    }

    public static IEnumerable<Finding> StepNotLookedAt(ReadinessContext c)
    {
        foreach (var device in c.InUse.Where(IsForecast))
        {
            if (CalibrationSeries.Of(device, Quantity(device)) is not { } series) continue;
            foreach (var segment in series.Segments)
            {
                foreach (var step in Steps.Find(segment.History))
                {
                    var point = segment.Points[step.Index];
                    if (device.Reviews.ContainsKey(point.Certificate)) continue;
                    yield return c.About("step", Gravity.Risks, device, c.Plan.FirstDay, Clearing.Decide,
                        FormattableString.Invariant($"{device.Name} changed by {step.ChangeDb:+0.000;-0.000} dB with its result of {point.Day:yyyy-MM-dd}; up to {step.LimitDb:0.000} dB would be scatter. Nobody has looked at it yet."),
                        new("change", step.ChangeDb, "dB"), new("limit", step.LimitDb, "dB"));
                }
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

    internal sealed record Judged(CalibrationSeries Series, SeriesPoint Newest, LevelForecast Forecast, double Probability);
}
