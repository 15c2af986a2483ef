using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;

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
                yield return c.About("check", Gravity.Risks, Clearing.Inspect,
                    FormattableString.Invariant($"All {day.Shift!.OwnDb.Count} chains checked {Moment(day.Moment)} the recordings of {day.Day:yyyy-MM-dd} deviate by {day.Shift.CommonDb:+0.000;-0.000} dB together: look at the calibrator {c.Register.Device(day.Calibrator)?.Name}, its adapter and the pressure that was entered before any microphone is blamed."),
                    new Figure("common shift", day.Shift.CommonDb, "dB"));
            }
            foreach (var judged in day.Checks.Where(j => j.Verdict == ConformityVerdict.DoesNotConform))
            {
                // Where the day's own shift explains it, the chain is not blamed.
                var wrong = judged.Comparisons.Where(k => k.Verdict == ConformityVerdict.DoesNotConform).ToList();
                if (isCommon && !day.StandsOut(judged.Record) && wrong.All(k => k.Key is LimitKey.CheckDeviationDb or LimitKey.DriftDb)) continue;
                if (c.Chains.FirstOrDefault(x => x.Station == judged.Record.Check.Station) is not { } chain) continue;
                var isNewest = day == c.CheckDays.LastOrDefault(d => d.Checks.Any(j => j.Record.Check.Station == judged.Record.Check.Station));
                var text = string.Join(", ", wrong.Select(k => FormattableString.Invariant($"{k.DifferenceDb:+0.000;-0.000} dB {k.What} (limit {k.LimitDb} dB)")));
                yield return c.About("check", isNewest && wrong.Any(k => k.Key is LimitKey.CheckDeviationDb or LimitKey.DriftDb) ? Gravity.Stops : Gravity.Risks, chain, chain.Microphone, Clearing.Decide,
                    $"The check {Moment(day.Moment)} the recordings of {day.Day:yyyy-MM-dd} is rejected: {text}.", [.. wrong.Select(k => new Figure(k.What, k.DifferenceDb, "dB"))]);
            }
        }
    }

    /// <summary>Days with a check before and none after: equality of both cannot be shown.</summary>
    public static IEnumerable<Finding> Missing(ReadinessContext c)
    {
        if (c.Profile.Value(LimitKey.CheckDifferenceDb) is null) yield break;
        foreach (var day in c.CheckDays.Where(d => d.Day < c.Today).GroupBy(d => d.Day))
        {
            var before = Stations(day, CheckMoment.Before);
            foreach (var (have, lack, word) in new[] { (before, Stations(day, CheckMoment.After), "after"), (Stations(day, CheckMoment.After), before, "before") })
            {
                foreach (var station in have.Except(lack).Order(StringComparer.Ordinal))
                {
                    if (c.Chains.FirstOrDefault(x => x.Station == station) is { } chain)
                        yield return c.About("check-missing", Gravity.Risks, chain, null, Clearing.Decide, $"On {day.Key:yyyy-MM-dd} the chain was not checked {word} the recordings, so that nothing shows that it held.");
                }
            }
        }
    }

    private static HashSet<string> Stations(IEnumerable<CheckDay> days, CheckMoment moment) =>
        [.. days.Where(d => d.Moment == moment).SelectMany(d => d.Checks).Select(j => j.Record.Check.Station).OfType<string>()];

    private static string Moment(CheckMoment moment) => moment switch { CheckMoment.Before => "before", CheckMoment.After => "after", _ => "beside" };
}
