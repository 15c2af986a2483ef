using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Checks;

namespace MicRegister.Register.Readiness;

/// <summary>What checks a profile asks for by the clock, over a day and for the air of the day, and what was made of it.</summary>
internal static class CheckClockRules
{
    private const double HoursOfTesting = 8;

    /// <summary>Which checks will be needed, and what lies too far apart of those that were made.</summary>
    public static IEnumerable<Finding> ByTheClock(ReadinessContext c)
    {
        var clock = CheckClock.Of(c.Profile);
        if (clock.IntervalMinutes is { } most)
        {
            if (c.Today <= c.Plan.LastDay)
            {
                yield return c.About("check-clock", Gravity.Note, Clearing.Decide,
                    "The profile asks for a check of each chain before and after its recordings, and in between at most "
                        + $"{CheckWords.Minutes(most)} after the one before: {HoursOfTesting:0} h of testing take "
                        + $"{clock.ChecksFor(HoursOfTesting * 60)} checks a chain.",
                    new Figure("longest time between checks", most, "min"));
            }
            foreach (var (chain, gap) in Chains(c).SelectMany(x => clock.GapsWithin(x.Checks).Select(g => (x.Chain, g))))
            {
                yield return c.About("check-clock", Gravity.Risks, chain, null, Clearing.Decide,
                    FormattableString.Invariant($"On {gap.Earlier.Day:yyyy-MM-dd} {CheckWords.Apart(gap.ApartMs)} lie ")
                        + "between the checks of "
                        + $"{CheckWords.ClockTime(gap.Earlier.Instant)} and {CheckWords.ClockTime(gap.Later.Instant)}; "
                        + $"the profile allows {CheckWords.Minutes(most)}, so that what was recorded in between is doubtful.",
                    new Figure("time between checks", gap.ApartMs / 60_000.0, "min"), new Figure("limit", most, "min"));
            }
        }
        foreach (var (chain, checks) in Chains(c))
        {
            var days = checks.Select(k => k.Test).Distinct().Select(t => clock.VariationOf(checks, t)).OfType<CheckVariation>();
            foreach (var moved in days.Where(v => v.Verdict != ConformityVerdict.Conforms).DistinctBy(v => (v.Low.Fact, v.High.Fact)))
            {
                yield return c.About("check-clock", Gravity.Risks, chain, null, Clearing.Decide,
                    FormattableString.Invariant($"On {moved.Low.Day:yyyy-MM-dd} checks differ by ")
                        + $"{QuantityText.Of(moved.DifferenceDb, "dB", 3)}; "
                        + $"{QuantityText.UpTo(moved.LimitDb, 3)} dB are allowed over a day.",
                    new Figure("variation over the day", moved.DifferenceDb, "dB"), new Figure("limit", moved.LimitDb, "dB"));
            }
        }
    }

    /// <summary>Whether calibrators can be worked out for the air of the day, and whether that air was read.</summary>
    public static IEnumerable<Finding> AirOfDay(ReadinessContext c)
    {
        foreach (var calibrator in c.CheckKit.Where(d => CheckAir.IsWithoutCoefficient(c.Profile, d)))
        {
            yield return c.About("check-air", Gravity.Note, calibrator, c.Plan.FirstDay, Clearing.Enter,
                $"The maker's coefficient of temperature of {calibrator.Name} is not stored, so that its level is not worked out for the "
                    + "temperature of the test day, as the profile asks; store 0 where the maker states none.");
        }
        var lacking = c.CheckDays.SelectMany(d => d.Checks).Select(j => j.Record)
            .Select(k => (k.Day, k.Check.Station, Unread: string.Join(" and no ", CheckAir.Unread(c.Profile, k.Check))));
        var days = lacking.Where(k => k.Unread.Length > 0).GroupBy(k => (k.Day, k.Unread));
        foreach (var day in days.OrderBy(g => g.Key.Day).ThenBy(g => g.Key.Unread, StringComparer.Ordinal))
        {
            List<string> stations =
                [.. day.Select(k => k.Station).OfType<string>().Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
            var rest = stations.Count > MostNamed ? $" and {stations.Count - MostNamed} more" : "";
            yield return c.About("check-air", Gravity.Risks, Clearing.Decide,
                FormattableString.Invariant($"At checks of {day.Key.Day:yyyy-MM-dd} no {day.Key.Unread} of the day was read, ")
                    + $"which the profile asks for the calibrator's level: {string.Join(", ", stations.Take(MostNamed))}{rest}.");
        }
    }

    private const int MostNamed = 5;

    private static IEnumerable<(PlannedChain Chain, IReadOnlyList<CheckRecord> Checks)> Chains(ReadinessContext c)
    {
        var clock = CheckClock.Of(c.Profile);
        if (!clock.IsAsked) yield break;
        foreach (var checks in CheckClock.ByChain(c.Register, CheckBook.OfCampaign(c.Register, c.Campaign.Id, c.Today)))
        {
            if (c.Chains.FirstOrDefault(x => x.Station == checks[0].Check.Station) is { } chain) yield return (chain, checks);
        }
    }
}
