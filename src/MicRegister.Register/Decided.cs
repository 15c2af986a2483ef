using MicRegister.Register.Facts;

namespace MicRegister.Register;

/// <summary>Several decisions as one.</summary>
public static class Decided
{
    /// <summary>All that was decided, in its order; the first refusal where one was refused.</summary>
    /// <param name="decisions">Decisions on one state; null ones say nothing.</param>
    public static Result<IReadOnlyList<Fact>> Together(params IReadOnlyList<Result<IReadOnlyList<Fact>>?> decisions)
    {
        var facts = new List<Fact>();
        foreach (var decision in decisions)
        {
            if (decision is Result<IReadOnlyList<Fact>>.Rejected { Why: var why }) return why;
            if (decision is Result<IReadOnlyList<Fact>>.Accepted { Value: var said }) facts.AddRange(said);
        }
        return new Result<IReadOnlyList<Fact>>.Accepted(facts);
    }
}
