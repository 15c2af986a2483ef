using MicRegister.Register.Checks;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.People;

namespace MicRegister.Register.Tracing;

/// <summary>Whether a doubt reaches what stood there, and what became of it: rescued, cleared and confirmed are all said.</summary>
internal static class DoubtQuestions
{
    public static IEnumerable<TraceReason> Doubted(TracedChain c)
    {
        foreach (var device in c.Chain.Select(d => d.Id).Concat(c.CheckKit))
        {
            foreach (var reach in c.Shared.Kit.Reaching(device))
            {
                if (Reaches(reach.Doubt, c)) yield return Reason(c, reach);
            }
        }
    }

    private static TraceReason Reason(TracedChain c, DoubtReach reach)
    {
        var source = $"fact {reach.Doubt.Fact}";
        if (reach.Doubt.SettledFor(c.Register, c.Profile, c.Shared.Event.Id) is { } settled)
        {
            var word = settled.What.IsConfirmed ? "Confirmed" : "Cleared";
            // What a person cleared weighs nothing, and what they confirmed is not rescued.
            return new(
                settled.What.IsConfirmed ? TraceVerdict.NotValid : TraceVerdict.Valid,
                $"{reach.Text} {word} by {NameOf(c.Register, settled.Author)} on {settled.Day:yyyy-MM-dd}: {settled.What.Reason}",
                $"{source}, settled by fact {settled.Fact}");
        }
        if (RescueOf(reach.Doubt, c) is not { } rescue) return new(TraceVerdict.Doubtful, reach.Text, source);
        var with = c.Shared.Device(rescue.Check.Calibrator)?.Name ?? rescue.Check.Calibrator;
        return new(
            TraceVerdict.Valid,
            $"{reach.Text} Rescued by the check of {When(rescue)} with {with}, made by {NameOf(c.Register, rescue.Author)}.",
            $"{source}, rescued by fact {rescue.Fact}");
    }

    private static string When(CheckRecord check) => check.Occurred.IsInstant ? EventBook.Minute(check.Instant) : check.Occurred.ToString();

    private static string NameOf(Register register, string author) => register.Person(author)?.Name ?? author;

    // A calibrator's doubt is about the checks that were made while it lasted, whenever the event was.
    private static bool Reaches(Doubt doubt, TracedChain c) =>
        doubt.IsOfChecks ? c.Checks.Any(doubt.IsBehind) : doubt.FromMs <= c.ToMs && doubt.ToMs >= c.FromMs;

    // A check rescues where it was not made with a device in doubt itself.
    private static CheckRecord? RescueOf(Doubt doubt, TracedChain c) => doubt.IsOfChecks
        ? doubt.RescueOf(c.Profile, c.Before, c.After, c.Shared.Kit.IsLeaning)
        : doubt.RescueOf(c.Profile, c.Stood, c.Shared.Event.StopMs, doubt.ChecksAround(c.Register), c.Shared.Kit.IsLeaning);
}
