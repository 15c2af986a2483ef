using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tracing;

/// <summary>
/// The rules of a chain at an instant, asked of what stood: the very functions that the plan was judged by. What stops a plan makes a
/// result not valid, what puts it at risk makes it doubtful; notes are for planners, but for those that say why something counts.
/// </summary>
internal static class StandingQuestions
{
    public static IReadOnlyList<TraceQuestion> All { get; } =
    [
        .. ReadinessRules.All.Where(r => r.Scope == RuleScope.Instant).Select(r => new TraceQuestion(r.Key, r.Question!, c => Ask(r, c))),
    ];

    private static IEnumerable<TraceReason> Ask(ReadinessRule rule, TracedChain c)
    {
        var faults = rule.AskChain is { } ask
            ? c.Standing is { } standing ? ask(standing) : []
            : rule.AskKit is { } kit ? c.StandingKits.SelectMany(kit).DistinctBy(f => f.Text)
            : c.StandingDevices.SelectMany(rule.AskDevice!);
        foreach (var fault in faults)
        {
            if (fault.Gravity == Gravity.Note && !fault.IsSaid) continue;
            var profile = c.Profile is { } known ? $"profile {known.Id}" : "no profile";
            yield return new(
                fault.Gravity switch { Gravity.Stops => TraceVerdict.NotValid, Gravity.Risks => TraceVerdict.Doubtful, _ => TraceVerdict.Valid },
                fault.Text,
                $"{fault.Basis ?? c.PlacedBy}, {profile}, rule {rule.Key}");
        }
    }
}
