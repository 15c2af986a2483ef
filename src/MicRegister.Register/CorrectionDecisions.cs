using MicRegister.Register.Facts;

namespace MicRegister.Register;

/// <summary>Takes back what was said. Nothing is ever deleted.</summary>
public static class CorrectionDecisions
{
    /// <summary>Says that a fact does not count; annulling an annulment makes it count again.</summary>
    public static Result<IReadOnlyList<Fact>> Annul(Register register, Saying saying, string fact, string reason)
    {
        if (Find(register, fact) is not { } target) return Missing(fact);
        if (string.IsNullOrWhiteSpace(reason)) return Saying.Invalid("Reason is missing.");
        if (!register.Counts(register.Find(target.Id))) return new Rejection(RejectionSort.Conflict, "That fact does not count already.");
        return saying.Of(register, new FactAnnulled(fact, reason), target.Subjects);
    }

    /// <summary>Takes back what was said in one act: all of it, or where somebody spoke of a part meanwhile, none.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who says it.</param>
    /// <param name="facts">Ids of facts; at least one.</param>
    /// <param name="reason">Why, not empty.</param>
    public static Result<IReadOnlyList<Fact>> AnnulAll(Register register, Saying saying, IReadOnlyList<FactId> facts, string reason)
    {
        if (facts.Count == 0) return Saying.Invalid("There is nothing to take back.");
        return Decided.Together([.. facts.Select(fact => Annul(register, saying, fact.ToString(), reason))]);
    }

    /// <summary>
    /// What is stated in the place of a fact: the new statement, and where that fact stood in for an older one, its annulment.
    /// </summary>
    /// <remarks>What was replaced replaces nothing: without a word of its own, the older one would count again.</remarks>
    /// <param name="target">The fact that the new one replaces.</param>
    /// <param name="anew">The new one.</param>
    /// <param name="stamp">Of the annulment.</param>
    public static IReadOnlyList<Fact> InPlaceOf(Fact target, Fact anew, FactStamp stamp) => target.Replaces is not { } older ? [anew]
        : [anew, FactText.WriteDerived(stamp, new FactAnnulled(older.ToString(), "stated anew once more"), target.Subjects)];

    internal static Fact? Find(Register register, string fact) =>
        FactId.TryParse(fact, out var id) && register.Find(id) is var sequence and > 0 ? register.Source.Read(sequence) : null;

    internal static Rejection Missing(string fact) => new(RejectionSort.NotFound, $"There is no such fact: {fact}.");
}
