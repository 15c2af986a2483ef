using MicRegister.Register.Checks;
using MicRegister.Register.Doubts;

namespace MicRegister.Register.Tracing;

/// <summary>Whether a doubt about a device reaches the event.</summary>
internal static class DoubtQuestions
{
    public static IEnumerable<TraceReason> Doubted(TracedChain c)
    {
        foreach (var device in c.Chain.Select(d => d.Id).Concat(c.CheckKit))
        {
            foreach (var reach in c.Shared.Reaching(device))
            {
                if (!Reaches(reach.Doubt, c)) continue;
                var settled = reach.Doubt.SettledFor(c.Shared.Event.Id);
                // What a person cleared is no reason, and what they confirmed is not rescued.
                if (settled is { IsConfirmed: false } || (settled is null && RescueOf(reach.Doubt, c) is not null)) continue;
                yield return settled is null
                    ? new(TraceVerdict.Doubtful, reach.Text, $"fact {reach.Doubt.Fact}")
                    : new(TraceVerdict.NotValid, $"{reach.Text} Confirmed: {settled.Reason}", $"fact {reach.Doubt.Fact}");
            }
        }
    }

    // A calibrator's doubt is about the checks that were made while it lasted, whenever the event was.
    private static bool Reaches(Doubt doubt, TracedChain c) =>
        doubt.IsOfChecks ? c.Checks.Any(doubt.IsBehind) : doubt.FromMs <= c.ToMs && doubt.ToMs >= c.FromMs;

    // A check rescues where it does not lean on the same doubt itself.
    private static CheckRecord? RescueOf(Doubt doubt, TracedChain c)
    {
        return doubt.IsOfChecks
            ? doubt.RescueOf(c.Profile, c.Before, c.After, Leans)
            : doubt.RescueOf(c.Profile, c.Stood, c.Shared.Event.StopMs, doubt.ChecksAround(c.Register), Leans);

        bool Leans(CheckRecord k) => TracedChain.KitOf([k]).SelectMany(c.Shared.Reaching)
            .Any(r => r.Doubt.Key == doubt.Key && r.Doubt.IsBehind(k));
    }
}
