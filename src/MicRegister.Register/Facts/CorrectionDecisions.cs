using MicRegister.Register.Calibration;

namespace MicRegister.Register.Facts;

/// <summary>Takes back what was said, or says it right. Nothing is ever deleted.</summary>
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

    /// <summary>States a certificate anew in the place of an earlier one.</summary>
    public static Result<IReadOnlyList<Fact>> Restate(Register register, Saying saying, string fact, DateOnly day, DateOnly today, CertificateIssued issued)
    {
        if (Find(register, fact) is not { Body: CertificateIssued } target) return Missing(fact);
        if (!register.Counts(register.Find(target.Id))) return new Rejection(RejectionSort.Conflict, "That certificate does not count any more; another stands in its place or it was annulled.");
        if (CalibrationDecisions.WrongDay(day, today) is { } wrongDay) return wrongDay;
        if (CalibrationDecisions.Wrong(issued) is { } wrong) return wrong;
        if (saying.Changed(register, target.Subjects[0]) is { } changed) return changed;
        return new Result<IReadOnlyList<Fact>>.Accepted([FactText.WriteDerived(saying.Stamp with { Occurred = Occurred.On(day) }, issued, target.Subjects, target.Id)]);
    }

    private static Fact? Find(Register register, string fact) =>
        FactId.TryParse(fact, out var id) && register.Find(id) is var sequence and > 0 ? register.Source.Read(sequence) : null;

    private static Rejection Missing(string fact) => new(RejectionSort.NotFound, $"There is no such fact: {fact}.");
}
