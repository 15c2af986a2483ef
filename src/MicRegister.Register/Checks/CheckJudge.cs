using MicRegister.Metrology.Checks;
using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Campaigns;

namespace MicRegister.Register.Checks;

/// <summary>One thing that a check is held against.</summary>
/// <param name="What">In words, such as "since the check before".</param>
/// <param name="Key">Key of the limit in the profile; null where nothing limits it.</param>
/// <param name="DifferenceDb">The difference in dB.</param>
/// <param name="StandardDb">Its standard uncertainty in dB: what both sides share is not in it.</param>
/// <param name="ExpandedDb">Its expanded uncertainty in dB.</param>
/// <param name="LimitDb">The limit in dB; null where there is none.</param>
/// <param name="Probability">Probability that the true difference is within the limit; null where there is none.</param>
/// <param name="Verdict">By the profile's decision rule; null where there is no limit.</param>
public sealed record CheckComparison(string What, string? Key, double DifferenceDb, double StandardDb, double ExpandedDb, double? LimitDb, double? Probability, ConformityVerdict? Verdict);

/// <summary>What a check is worth.</summary>
/// <param name="Record">The check.</param>
/// <param name="Comparisons">What it was held against.</param>
/// <param name="SpreadDb">Greatest minus least of its insertions, in dB; null for one.</param>
/// <param name="Verdict">The worst of them; null where nothing limits it.</param>
/// <param name="Before">The check before of the same day and chain, where this is the one after.</param>
/// <param name="AppliedDb">Level to be applied: the mean of before and after, where both are there.</param>
/// <param name="AppliedExpandedDb">Its expanded uncertainty in dB: what both share stays whole.</param>
public sealed record JudgedCheck(
    CheckRecord Record, IReadOnlyList<CheckComparison> Comparisons, double? SpreadDb, ConformityVerdict? Verdict, CheckRecord? Before, double? AppliedDb, double? AppliedExpandedDb)
{
    /// <summary>Words of the verdict.</summary>
    public string Word => Verdict switch { ConformityVerdict.Conforms => "accept", ConformityVerdict.DoesNotConform => "reject", ConformityVerdict.Undecided => "undecidable", _ => "not judged" };
}

/// <summary>Judges checks by a profile.</summary>
public static class CheckJudge
{
    /// <summary>Judges one check among those of its chain.</summary>
    /// <param name="profile">Holds the limits and the decision rule.</param>
    /// <param name="record">The check.</param>
    /// <param name="others">Further checks of the same campaign or device; those that cannot be compared are passed over.</param>
    /// <param name="pairedWith">The check before, where that is known, as around an event; null finds it among the others.</param>
    public static JudgedCheck Judge(
        ProfileState? profile, CheckRecord record, IReadOnlyList<CheckRecord> others, CheckRecord? pairedWith = null)
    {
        var rule = DecisionRule.Of(profile?.Limit(LimitKey.DecisionRule)?.Text, profile?.Value(LimitKey.DecisionProbability));
        var comparisons = new List<CheckComparison>();
        if (record.Check.DeviationDb is { } deviation)
        {
            var key = profile?.Value(LimitKey.CheckDeviationDb) is null ? LimitKey.DriftDb : LimitKey.CheckDeviationDb;
            comparisons.Add(Compare("from its certificates", key, deviation, record.DeviationBudget!, profile?.Value(key), rule));
        }
        var earlier = others.Where(o => o.Fact != record.Fact && IsEarlier(o, record) && record.Since(o) is not null).ToList();
        var before = pairedWith ?? CheckSpan.Of(profile).BeforeOf(record, earlier);
        if (before is not null)
            comparisons.Add(Compare("since the check before", LimitKey.CheckDifferenceDb, record.Since(before)!.Value, record.SinceBudget(before), profile?.Value(LimitKey.CheckDifferenceDb), rule));
        if (earlier.Count > 0 && earlier[^1] != before)
            comparisons.Add(Compare($"since the last check, {earlier[^1].Day:yyyy-MM-dd}", null, record.Since(earlier[^1])!.Value, record.SinceBudget(earlier[^1]), null, rule));
        var spread = SpreadDb(record.Check);
        if (spread is { } s && profile?.Value(LimitKey.CheckSpreadDb) is { } most)
            comparisons.Add(new("spread of its insertions", LimitKey.CheckSpreadDb, s, 0, 0, most, null, DecisionLimit.AtMost(s, most) ? ConformityVerdict.Conforms : ConformityVerdict.DoesNotConform));

        var mean = before is null ? null : UncertaintyBudget.OfSum((record.Budget, 0.5), (before.Budget, 0.5));
        double? applied = before is null ? null : record.Check.SensitivityDb is { } after && before.Check.SensitivityDb is { } first ? new BeforeAndAfter(first, after).AppliedDb : null;
        return new(record, comparisons, spread, comparisons.Max(c => c.Verdict), before, applied, applied is null ? null : mean!.Expanded());
    }

    /// <summary>Greatest minus least of the insertions, in dB.</summary>
    public static double? SpreadDb(ChainChecked check) => check.Readings.Count < 2 ? null
        : check.Method == CheckMethod.Indicated ? check.Readings.Max() - check.Readings.Min()
        : 20 * Math.Log10(check.Readings.Max() / check.Readings.Min());

    private static CheckComparison Compare(string what, string? key, double differenceDb, UncertaintyBudget budget, double? limitDb, DecisionRule rule)
    {
        var (u, expanded) = (budget.Standard, budget.Expanded());
        return limitDb is not { } limit
            ? new(what, null, differenceDb, u, expanded, null, null, null)
            : new(what, key, differenceDb, u, expanded, limit, Tolerance.Around(0, limit).Probability(differenceDb, u), rule.Decide(Tolerance.Around(0, limit), differenceDb, u, expanded));
    }

    // A day without a time stands for all of it: before comes before after.
    private static bool IsEarlier(CheckRecord a, CheckRecord b) =>
        a.Day != b.Day ? a.Day < b.Day
        : a.Occurred.IsInstant && b.Occurred.IsInstant && a.Instant != b.Instant ? a.Instant < b.Instant
        : Rank(a) != Rank(b) ? Rank(a) < Rank(b) : a.Sequence < b.Sequence;

    private static int Rank(CheckRecord r) => r.Check.Moment switch { CheckMoment.Before => 0, CheckMoment.Other => 1, _ => 2 };
}
