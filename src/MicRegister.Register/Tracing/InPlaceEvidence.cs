using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;

namespace MicRegister.Register.Tracing;

/// <summary>What a comparison in place says of one chain. Weaker than a check with a calibrator: it shows a move against the others alone.</summary>
/// <param name="Fact">Id of the comparison.</param>
/// <param name="Instant">When it was made, in milliseconds since 1970.</param>
/// <param name="Chains">How many chains were compared.</param>
/// <param name="Since">
/// Id of the first comparison of that band after the check before, which the move is counted from; null where there is none, and it is
/// counted from the others.
/// </param>
/// <param name="MovedDb">By how much the chain moved against the others, in dB.</param>
/// <param name="ExpandedDb">Its U (k = 2) in dB.</param>
/// <param name="LimitDb">By how much it may; null where nothing limits it.</param>
/// <param name="LimitKey">Key of that limit in the profile.</param>
/// <param name="Verdict">By the profile's decision rule; null where there is no limit.</param>
public sealed record InPlaceEvidence(
    FactId Fact, long Instant, int Chains, FactId? Since, double MovedDb, double ExpandedDb, double? LimitDb, string? LimitKey,
    ConformityVerdict? Verdict)
{
    /// <summary>The comparisons of a chain nearest to a part of an event, at most one on each side of it.</summary>
    internal static IReadOnlyList<InPlaceEvidence> Of(TracedChain c)
    {
        var all = ComparisonBook.OfCampaign(c.Register, c.Campaign.Id);
        if (all.Count == 0) return [];
        var wanted = c.Chain.Where(d => DeviceKind.MakesSound(d.Kind)).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        // What was compared before the check before, after the one after, or before it stood there, was another time of the chain.
        var begin = c.Before is { Occurred.IsInstant: true } before ? before.Instant : c.Stood.From;
        var end = c.After is { Occurred.IsInstant: true } after ? after.Instant : long.MaxValue;
        List<Compared> own = [.. all.Where(k => k.Instant >= begin && k.Instant <= end)
            .Select(k => new Compared(k, IndexOf(c, k, wanted))).Where(k => k.Chain >= 0)];
        List<Compared> near = [.. own.Where(k => IsNear(c, k.Comparison.Instant))];
        var sides = new[]
        {
            near.LastOrDefault(k => k.Comparison.Instant <= c.ToMs),
            near.FirstOrDefault(k => k.Comparison.Instant >= c.FromMs),
        };
        return [.. sides.OfType<Compared>().DistinctBy(s => s.Comparison.Fact)
            .Select(s => Judged(c.Profile, own.First(o => o.Comparison.Said.FrequencyHz == s.Comparison.Said.FrequencyHz), s))];
    }

    /// <summary>Whether a check lies so far from what was recorded that a comparison in place has to stand between them.</summary>
    internal static bool IsAsked(TracedChain c, CheckRecord check) =>
        c.Shared.Span.By == CheckTie.Hours && !CheckSpan.Usual.IsNear(check.Test, c.Shared.Test, Apart(c, check.Instant));

    private static bool IsNear(TracedChain c, long instant) =>
        CheckSpan.InPlace(c.Profile).IsNear(c.Shared.TestOf(instant), c.Shared.Test, Apart(c, instant));

    private static long Apart(TracedChain c, long instant) => Math.Max(0, Math.Max(c.FromMs - instant, instant - c.ToMs));

    private static int IndexOf(TracedChain c, ArrayComparison comparison, HashSet<string> wanted)
    {
        var i = comparison.IndexOf(c.Station);
        return i >= 0 && Tracer.IsOf(c.Shared, comparison.Said.Chains[i].Devices, wanted) ? i : -1;
    }

    private static InPlaceEvidence Judged(ProfileState? profile, Compared first, Compared here)
    {
        var since = first.Comparison.Fact == here.Comparison.Fact ? null : first.Comparison;
        var moved = here.Comparison.OwnDb(here.Chain) - (since?.OwnDb(first.Chain) ?? 0);
        var u = Math.Sqrt((here.Comparison.StandardDb * here.Comparison.StandardDb) + (since is null ? 0 : since.StandardDb * since.StandardDb));
        var key = profile?.Value(Campaigns.LimitKey.InPlaceDb) is null ? Campaigns.LimitKey.CheckDifferenceDb : Campaigns.LimitKey.InPlaceDb;
        var limit = profile?.Value(key);
        var ruleText = profile?.Limit(Campaigns.LimitKey.DecisionRule)?.Text;
        var rule = DecisionRule.Of(ruleText, profile?.Value(Campaigns.LimitKey.DecisionProbability));
        return new(
            here.Comparison.Fact, here.Comparison.Instant, here.Comparison.Said.Chains.Count, since?.Fact, moved, 2 * u, limit,
            limit is null ? null : key, limit is { } l ? rule.Decide(Tolerance.Around(0, l), moved, u, 2 * u) : null);
    }

    /// <summary>A comparison, and which of its chains it is about.</summary>
    private sealed record Compared(ArrayComparison Comparison, int Chain);
}
