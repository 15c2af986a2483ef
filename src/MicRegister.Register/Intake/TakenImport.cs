using MicRegister.Register.Facts;

namespace MicRegister.Register.Intake;

/// <summary>A file that was taken over, and where the facts of its rows stand in the log.</summary>
/// <param name="Fact">The fact that a person took it over.</param>
/// <param name="Sequence">Its sequence.</param>
/// <param name="Accepted">What it says.</param>
/// <param name="First">
/// Sequence of the first fact that it brought, by the order in which imports are stored; 0 where that cannot be told.
/// </param>
public sealed record TakenImport(Fact Fact, int Sequence, ImportAccepted Accepted, int First)
{
    /// <summary>Sequence of the last fact that it brought.</summary>
    public int Last => First + Accepted.Facts - 1;

    /// <summary>Whether a fact is one of those that it brought, by its place.</summary>
    public bool Brought(int sequence) => First > 0 && sequence >= First && sequence <= Last;

    /// <summary>Whether the facts at that place are those that were counted and digested when the file was taken over.</summary>
    /// <remarks>They are not where the file was stored twice at once, or where the fact came here from another register.</remarks>
    public bool Agrees(Register register)
    {
        if (First <= 0 || Last > register.Count) return false;
        SetDigest sum = default;
        for (var sequence = First; sequence <= Last; sequence++) sum = sum.With(register.Source.Read(sequence).Bytes.Span);
        return sum.ToString() == Accepted.Digest;
    }
}

/// <summary>The files that a register took over.</summary>
public static class ImportsOfRegister
{
    extension(Register register)
    {
        /// <summary>All files that were taken over, in the order of the log; those that were taken back too.</summary>
        public IReadOnlyList<TakenImport> TakenImports()
        {
            var found = register.Facts(Subject.TheRegister).Where(s => register.IsOfKind(s, "import-accepted")).Order()
                .Select(s => (Sequence: s, Fact: register.Source.Read(s))).ToList();
            var all = new List<TakenImport>(found.Count);
            // Facts of the files of one act come first, file after file, then what says so of each: told from the end.
            var (next, before) = (0, 0);
            for (var i = found.Count - 1; i >= 0; i--)
            {
                var (sequence, fact) = found[i];
                if (sequence != next - 1) before = RunStart(found, i);
                next = sequence;
                if (fact.Body is not ImportAccepted accepted)
                {
                    // Of a newer version: how many facts it brought cannot be told, nor where those of the files before it end.
                    before = 0;
                    continue;
                }
                before = before > accepted.Facts ? before - accepted.Facts : 0;
                all.Add(new(fact, sequence, accepted, before));
            }
            all.Reverse();
            return all;
        }
    }

    private static int RunStart(List<(int Sequence, Fact Fact)> found, int last)
    {
        var first = last;
        while (first > 0 && found[first - 1].Sequence == found[first].Sequence - 1) first--;
        return found[first].Sequence;
    }
}
