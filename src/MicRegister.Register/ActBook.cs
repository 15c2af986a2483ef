using MicRegister.Register.Facts;

namespace MicRegister.Register;

/// <summary>What was said by one act, such as a sheet of stations or twenty results of a bench, and its taking back as one.</summary>
public static class ActBook
{
    /// <summary>Facts of the act that a fact came by.</summary>
    /// <param name="register">Where they are.</param>
    /// <param name="sequence">Number of one of them, from 1.</param>
    /// <returns>
    /// Numbers of those beside it in the log that the same person said with the same client at the same count, itself included. What was
    /// taken over from a file is no such act: it is taken back with its file.
    /// </returns>
    public static IReadOnlyList<int> Of(Register register, int sequence)
    {
        var (author, client, counter) = Mark(register, sequence);
        if (author == FactStamp.Import) return [sequence];
        var (first, last) = (sequence, sequence);
        while (first > 1 && Mark(register, first - 1) == (author, client, counter)) first--;
        while (last < register.Count && Mark(register, last + 1) == (author, client, counter)) last++;
        return [.. Enumerable.Range(first, last - first + 1)];
    }

    /// <summary>Says of all that one act said, as far as it counts, that it does not: all of it or nothing.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="saying">Who takes it back.</param>
    /// <param name="fact">Id of one of its facts.</param>
    /// <param name="reason">Why.</param>
    public static Result<IReadOnlyList<Fact>> TakeBack(Register register, Saying saying, string fact, string reason)
    {
        if (CorrectionDecisions.Find(register, fact) is not { } target) return CorrectionDecisions.Missing(fact);
        List<FactId> counting = [.. Of(register, register.Find(target.Id)).Where(register.Counts).Select(n => register.Source.Read(n).Id)];
        // The last thing that was said goes first, as if each had been taken back by itself.
        counting.Reverse();
        return counting.Count == 0 ? new Rejection(RejectionSort.Conflict, "Nothing of that act counts any more.")
            : CorrectionDecisions.AnnulAll(register, saying, counting, reason);
    }

    private static (string Author, string Client, long Counter) Mark(Register register, int sequence)
    {
        var fact = register.Source.Read(sequence);
        return (fact.Author, fact.Client, fact.Counter);
    }
}
