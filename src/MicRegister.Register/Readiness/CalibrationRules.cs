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
    public static IEnumerable<Fault> NeverCalibrated(StandingDevice s)
    {
        var device = s.Device;
        var asked = s.Profile?.Intervals(device.Kind ?? "").ToList() ?? [];
        foreach (var (quantity, limit) in asked)
        {
            if (!IsMissing(s, quantity, limit) || MakersDataRules.Of(s, quantity) is not { Holds: false } instead) continue;
            yield return new(Gravity.Stops, device, Clearing.Calibrate,
                $"{device.Name} has no {quantity} calibration; the profile asks for one ({limit.Source})."
                    + Afterwards(s, limit) + instead.Why);
        }
        // What goes into every level has to be calibrated whatever the profile says; without those of the level itself there is none.
        if (!GoesIntoLevel(device) || CalibrationSeries.Newest(device, Quantity(device)) is not null) yield break;
        if (asked.Any(i => i.Quantity == Quantity(device))) yield break;
        yield return new(IsLevel(device) ? Gravity.Stops : Gravity.Risks, device, Clearing.Calibrate,
            $"{device.Name} has no {Quantity(device)} calibration, which goes into every level.");
    }

    // One afterwards may serve, so that none before is no fault as such.
    private static bool IsMissing(StandingDevice s, string quantity, ProfileLimit limit) => AroundInterval.Of(limit) is { } around
        ? AroundInterval.Before(s.Device, quantity, s.First) is null && around.ServedBy(s.Later ?? s.Device, quantity, s.First) is null
        : CalibrationSeries.Newest(s.Device, quantity) is null;

    // What is not done yet cannot be relied on; it is said until when it would serve.
    private static string Afterwards(StandingDevice s, ProfileLimit? limit) => limit is not null && AroundInterval.Of(limit) is { } around
        ? $" One made afterwards, through {around.Last(s.First):yyyy-MM-dd}, serves as well, once it is done."
        : "";

    public static IEnumerable<Fault> Due(StandingDevice s) => CalibrationDue.Of(s.Device, s.Profile, s.First, s.Last, s.Later)
        .Where(d => d.Due < d.Needed).Select(due => (Due: due, Instead: MakersDataRules.Of(s, due.Quantity)))
        .Where(d => !d.Instead.Holds).Select(d => Due(s, d.Due, d.Instead.Why));

    private static Fault Due(StandingDevice s, CalibrationDue due, string instead) => new(
            Gravity.Stops, s.Device, Clearing.Calibrate,
            $"{s.Device.Name}: its {due.Quantity} calibration is valid through {due.Due:yyyy-MM-dd} ({due.Why}); "
                + $"it has to last through {due.Needed:yyyy-MM-dd}.{Afterwards(s, due.Limit)}{instead}",
            new Figure("days missing", due.Needed.DayNumber - due.Due.DayNumber, "d"))
    {
        From = due.Due.AddDays(1),
        Basis = $"fact {due.Newest.Fact}, {due.Limit?.Key ?? due.Why}",
    };

    public static IEnumerable<Fault> BegunAnew(StandingDevice s)
    {
        var device = s.Device;
        if (DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity) yield break;
        if (CalibrationSeries.Newest(device, quantity) is not { } newest) yield break;
        var after = device.Services.Where(x => x.What.BeginsAnew && x.Day > newest.Day).OrderBy(x => x.Day).LastOrDefault();
        if (after is null || MakersDataRules.Of(s, quantity).Holds) yield break;
        yield return new(Gravity.Stops, device, Clearing.Calibrate,
            $"{device.Name}: its results begin anew with the work of {after.Day:yyyy-MM-dd} ({after.What.Text}); "
                + $"its certificate of {newest.Day:yyyy-MM-dd} is older and holds no more.")
        {
            Basis = $"fact {after.Fact}",
        };
    }

    /// <summary>Two laboratories, or one entered twice: which of them is in force follows a rule, and a person should know.</summary>
    public static IEnumerable<Fault> OneDayTwice(StandingDevice s)
    {
        if (DeviceKind.Find(s.Device.Kind)?.Calibrated is not { } quantity) yield break;
        foreach (var rival in CalibrationSeries.Rivals(s.Device, quantity))
        {
            var newest = CalibrationSeries.Newest(s.Device, quantity)!;
            var by = ResultLevel.Of(rival.InForce!)!.Value.LevelDb - ResultLevel.Of(newest.InForce!)!.Value.LevelDb;
            yield return new(Gravity.Risks, s.Device, Clearing.Decide,
                $"{s.Device.Name} has two {quantity} certificates of {newest.Day:yyyy-MM-dd}; the one entered last is in force, "
                    + $"the other says {QuantityText.Change(by, ResultLevel.UnitOf(quantity), 3)}. Choose one.",
                new Figure("difference", by, ResultLevel.UnitOf(quantity)))
            {
                Basis = $"facts {newest.Fact}, {rival.Fact}",
            };
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
                + FormattableString.Invariant($"with probability {DriftWords.Probability(judged.Probability)}; {least} is asked ")
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

    public static IEnumerable<Fault> SetParted(StandingChain s)
    {
        foreach (var device in s.Parts.Devices)
        {
            if (DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity) continue;
            if (CalibrationSeries.Newest(device, quantity) is not { Set.Count: > 1 } newest) continue;
            var missing = newest.Set.Where(id => s.Parts.Devices.All(d => d.Id != id)).ToList();
            if (missing.Count == 0) continue;
            yield return new(Gravity.Stops, device, Clearing.Plan,
                $"{device.Name} was calibrated as a set on {newest.Day:yyyy-MM-dd}; "
                    + $"{string.Join(", ", missing.Select(s.NameOf))} is not in the same chain, so that the result does not hold.");
        }
    }

    // Without a certificate of these there is no level at all.
    private static bool IsLevel(DeviceState device) =>
        device.Kind == DeviceKind.Microphone.Key || device.Kind == DeviceKind.Calibrator.Key;

    private static bool GoesIntoLevel(DeviceState device) => IsForecast(device) || device.Kind == DeviceKind.Calibrator.Key;

    /// <summary>Kinds whose sensitivity or gain goes into every level.</summary>
    private static bool IsForecast(DeviceState device) =>
        device.Kind == DeviceKind.Microphone.Key || device.Kind == DeviceKind.Preamplifier.Key || device.Kind == DeviceKind.RecorderChannel.Key;

    private static string Quantity(DeviceState device) => DeviceKind.Find(device.Kind)!.Calibrated!;

    internal sealed record Judged(DeviceDrift Drift, LevelForecast Forecast, double Probability);
}
