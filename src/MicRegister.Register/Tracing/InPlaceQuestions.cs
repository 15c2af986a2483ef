using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>Whether comparisons in place show that the chain stayed as it was: weaker than a check, so never more than doubtful.</summary>
internal static class InPlaceQuestions
{
    public static IEnumerable<TraceReason> MissingInPlace(TracedChain c)
    {
        if (c.InPlace.Count > 0 || c.Checks is not { Count: > 0 } checks || !checks.All(k => InPlaceEvidence.IsAsked(c, k))) yield break;
        var limit = c.Profile?.Value(LimitKey.InPlaceHours);
        yield return new(
            TraceVerdict.Doubtful,
            $"Its checks lie on other days, and no comparison in place, {CheckSpan.InPlace(c.Profile).Words}, "
                + "shows that the chain stayed as it was.",
            $"profile {c.Profile?.Id}, {(limit is null ? LimitKey.CheckSpanHours : LimitKey.InPlaceHours)}");
    }

    public static IEnumerable<TraceReason> MovedInPlace(TracedChain c)
    {
        foreach (var k in c.InPlace)
        {
            if (k.Verdict is not (ConformityVerdict.DoesNotConform or ConformityVerdict.Undecided)) continue;
            var against = k.Since is null ? "from the others" : "against the others since the comparison before";
            var ending = k.Verdict == ConformityVerdict.Undecided ? ": that cannot be decided" : "";
            var moved = $"{QuantityText.Change(k.MovedDb, "dB", 2)} {against} (U = {QuantityText.Expanded(k.ExpandedDb, "dB")} dB)";
            var allowed = $"{QuantityText.UpTo(k.LimitDb, 3)} dB allowed";
            var facts = string.Join(", ", new[] { k.Fact, k.Since }.OfType<FactId>());
            yield return new(
                TraceVerdict.Doubtful, $"Compared in place on {EventBook.Minute(k.Instant)} it lay {moved}, {allowed}{ending}.",
                $"facts {facts}, profile {c.Profile?.Id}, {k.LimitKey}");
        }
    }
}
