using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;

namespace MicRegister.Register.Readiness;

/// <summary>What the checks of a campaign that has begun say about it.</summary>
internal static class CheckRules
{
    private const double WorthKnowing = 0.5;

    /// <summary>Rejected checks, by chain; those that all channels share are one finding about the calibrator.</summary>
    public static IEnumerable<Finding> Rejected(ReadinessContext c)
    {
        foreach (var day in c.CheckDays)
        {
            var limit = c.Profile.Value(LimitKey.CheckDeviationDb) ?? c.Profile.Value(LimitKey.DriftDb);
            var isCommon = day.Shift is { } s && limit is { } l && !DecisionLimit.AtMost(Math.Abs(s.CommonDb), WorthKnowing * l);
            if (isCommon)
            {
                var gravity = DecisionLimit.AtMost(Math.Abs(day.Shift!.CommonDb), limit!.Value) ? Gravity.Risks : Gravity.Stops;
                yield return c.About("check", gravity, Clearing.Inspect,
                    FormattableString.Invariant($"All {day.Shift!.OwnDb.Count} chains checked {day.Moment.InFull} of {day.Day:yyyy-MM-dd} ")
                        + $"deviate by {QuantityText.Change(day.Shift.CommonDb, "dB", 3)} together: "
                        + $"look at the calibrator {c.Register.Device(day.Calibrator)?.Name}, "
                        + "its adapter and the pressure that was entered before any microphone is blamed.",
                    new Figure("common shift", day.Shift.CommonDb, "dB"));
            }
            foreach (var judged in day.Checks.Where(j => j.Verdict == ConformityVerdict.DoesNotConform))
            {
                // Where the day's own shift explains it, the chain is not blamed.
                var wrong = judged.Comparisons.Where(k => k.Verdict == ConformityVerdict.DoesNotConform).ToList();
                if (isCommon && !day.StandsOut(judged.Record) && wrong.All(k => k.Key is LimitKey.CheckDeviationDb or LimitKey.DriftDb)) continue;
                if (c.Chains.FirstOrDefault(x => x.Station == judged.Record.Check.Station) is not { } chain) continue;
                // Who stands there no more is not what the campaign waits for.
                var microphone = judged.Record.Check.Devices.Select(id => c.Register.Device(id, c.Today)).FirstOrDefault(d => d?.Kind == Devices.DeviceKind.Microphone.Key);
                var isThere = microphone is null || chain.Devices.Any(d => d.Id == microphone.Id);
                var isNewest = isThere && day == c.CheckDays.LastOrDefault(d => d.Checks.Any(j => j.Record.Check.Station == judged.Record.Check.Station));
                var text = string.Join(", ", wrong.Select(k =>
                    FormattableString.Invariant($"{QuantityText.Change(k.DifferenceDb, "dB", 3)} {k.What} (limit {k.LimitDb} dB)")));
                var stops = isNewest && wrong.Any(k => k.Key is LimitKey.CheckDeviationDb or LimitKey.DriftDb);
                var gone = isThere ? "" : $" (with {microphone!.Name}, which stands there no more)";
                yield return c.About(
                    "check", stops ? Gravity.Stops : Gravity.Risks, chain, isThere ? chain.Microphone : null, Clearing.Decide,
                    $"The check {day.Moment.InFull} of {day.Day:yyyy-MM-dd} is rejected{gone}: {text}.",
                    [.. wrong.Select(k => new Figure(k.What, k.DifferenceDb, "dB"))]);
            }
        }
    }

    /// <summary>Chains with a check before and none after, or the other way round: nothing shows that they held.</summary>
    public static IEnumerable<Finding> Missing(ReadinessContext c)
    {
        if (c.Profile.Value(LimitKey.CheckDifferenceDb) is null) yield break;
        var all = c.CheckDays.SelectMany(d => d.Checks).ToList();
        var paired = all.Where(j => j.Before is not null).Select(j => j.Before!.Fact).ToHashSet();
        var (span, sessions) = (CheckSpan.Of(c.Profile), TestSessions.Of(c.Register, c.Campaign.Id));
        DateOnly DayOf(long instant) => Facts.ZoneOffsets.LocalDay(instant, c.Plan.Offsets);
        foreach (var judged in all.Where(j => !span.IsOpen(j.Record, c.Today, c.Plan.LastDay, sessions, DayOf)))
        {
            var (record, lacks) = (judged.Record, judged.Record.Check.Moment switch
            {
                CheckMoment.Before when !paired.Contains(judged.Record.Fact) => "after",
                CheckMoment.After when judged.Before is null => "before",
                _ => null,
            });
            if (lacks is null || c.Chains.FirstOrDefault(x => x.Station == record.Check.Station) is not { } chain) continue;
            var session = record.Session is null ? null : sessions.At(record.Instant);
            yield return c.About(
                "check-missing", Gravity.Risks, chain, null, Clearing.Decide,
                $"On {record.Day:yyyy-MM-dd} the chain was not checked {lacks} the recordings"
                    + (session is null ? "" : $" of the session {session.Name}")
                    + " with the same devices and range, so that nothing shows that it held.");
        }
    }

    /// <summary>Checks from elsewhere that state what cannot be.</summary>
    public static IEnumerable<Finding> Unsound(ReadinessContext c)
    {
        foreach (var (fact, station, _, _) in CheckBook.Unsound(c.Register, c.Campaign.Id))
            yield return c.About("check-unsound", Gravity.Risks, Clearing.Decide, $"A check{(station is null ? "" : " of " + station)} cannot be worked with (fact {fact}): it lacks readings, devices or a budget. It is stored and not used; annul it and state it anew.");
    }
}
