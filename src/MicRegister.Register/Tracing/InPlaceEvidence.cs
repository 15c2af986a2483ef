using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;

namespace MicRegister.Register.Tracing;

/// <summary>What a comparison in place says of one chain. Weaker than a check with a calibrator: it shows a move against the others alone.</summary>
/// <param name="Fact">Id of the comparison.</param>
/// <param name="Instant">When it was made, in milliseconds since 1970.</param>
/// <param name="Chains">How many chains were compared.</param>
/// <param name="Since">Id of the first comparison of that band after the check before, which the move is counted from; null where there is none, and it is counted from the others.</param>
/// <param name="MovedDb">By how much the chain moved against the others, in dB.</param>
/// <param name="ExpandedDb">Its U (k = 2) in dB.</param>
/// <param name="LimitDb">By how much it may; null where nothing limits it.</param>
/// <param name="LimitKey">Key of that limit in the profile.</param>
/// <param name="Verdict">By the profile's decision rule; null where there is no limit.</param>
public sealed record InPlaceEvidence(FactId Fact, long Instant, int Chains, FactId? Since, double MovedDb, double ExpandedDb, double? LimitDb, string? LimitKey, ConformityVerdict? Verdict)
{
    private const long HourMs = 3_600_000;

    /// <summary>The comparisons of a chain nearest to a part of an event, at most one on each side of it.</summary>
    internal static IReadOnlyList<InPlaceEvidence> Of(TraceContext c, Placement placement, IReadOnlyList<DeviceState> chain, CheckRecord? before, CheckRecord? after, long from, long to)
    {
        var all = ComparisonBook.OfCampaign(c.Register, c.Campaign.Id);
        if (all.Count == 0) return [];
        var wanted = chain.Where(Tracer.Sounds).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        // What was compared before the check before, after the one after, or before it stood there, was another time of the chain.
        var (begin, end) = (before is { Occurred.IsInstant: true } b ? b.Instant : placement.From, after is { Occurred.IsInstant: true } a ? a.Instant : long.MaxValue);
        var own = all.Where(k => k.Instant >= begin && k.Instant <= end)
            .Select(k => (Comparison: k, Chain: IndexOf(c, k, placement.Station, wanted))).Where(k => k.Chain >= 0).ToList();
        if (own.Count == 0) return [];
        bool IsNear((ArrayComparison Comparison, int _) k) => Apart(k.Comparison.Instant, from, to) is var apart && (c.Profile?.Value(Campaigns.LimitKey.InPlaceHours) is { } hours
            ? apart <= (long)(hours * HourMs)
            : c.DayOf(k.Comparison.Instant) == c.Day || apart <= CheckJudge.LongestSession.TotalMilliseconds);
        var near = own.Where(IsNear).ToList();
        var sides = new[] { near.LastOrDefault(k => k.Comparison.Instant <= to), near.FirstOrDefault(k => k.Comparison.Instant >= from) };
        return [.. sides.Where(s => s.Comparison is not null).DistinctBy(s => s.Comparison.Fact).Select(s => Judged(c.Profile, own.First(o => o.Comparison.Said.FrequencyHz == s.Comparison.Said.FrequencyHz), s))];
    }

    /// <summary>Whether a check lies so far from what was recorded that a comparison in place has to stand between them.</summary>
    internal static bool IsAsked(TraceContext c, CheckRecord? check, long from, long to) => check is not null && !c.Span.IsByDay && check.Day != c.Day && Apart(check.Instant, from, to) > CheckJudge.LongestSession.TotalMilliseconds;

    private static long Apart(long instant, long from, long to) => Math.Max(0, Math.Max(from - instant, instant - to));

    private static int IndexOf(TraceContext c, ArrayComparison comparison, string station, HashSet<string> wanted)
    {
        var i = comparison.IndexOf(station);
        return i >= 0 && comparison.Said.Chains[i].Devices.Where(d => c.Device(d) is not { } device || Tracer.Sounds(device)).ToHashSet(StringComparer.Ordinal).SetEquals(wanted) ? i : -1;
    }

    private static InPlaceEvidence Judged(ProfileState? profile, (ArrayComparison Comparison, int Chain) first, (ArrayComparison Comparison, int Chain) here)
    {
        var since = first.Comparison.Fact == here.Comparison.Fact ? null : first.Comparison;
        var moved = here.Comparison.OwnDb(here.Chain) - (since?.OwnDb(first.Chain) ?? 0);
        var u = Math.Sqrt((here.Comparison.StandardDb * here.Comparison.StandardDb) + (since is null ? 0 : since.StandardDb * since.StandardDb));
        var key = profile?.Value(Campaigns.LimitKey.InPlaceDb) is null ? Campaigns.LimitKey.CheckDifferenceDb : Campaigns.LimitKey.InPlaceDb;
        var limit = profile?.Value(key);
        var rule = DecisionRule.Of(profile?.Limit(Campaigns.LimitKey.DecisionRule)?.Text, profile?.Value(Campaigns.LimitKey.DecisionProbability));
        return new(here.Comparison.Fact, here.Comparison.Instant, here.Comparison.Said.Chains.Count, since?.Fact, moved, 2 * u, limit, limit is null ? null : key, limit is { } l ? rule.Decide(Tolerance.Around(0, l), moved, u, 2 * u) : null);
    }
}
