using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>Which facts further facts may make count or not count: their subjects are to be folded again.</summary>
internal static class CorrectionReach
{
    /// <summary>
    /// Sequences of facts, at least one of each list of subjects that it may be so for; those of the batch itself may be missing.
    /// </summary>
    /// <param name="batch">The further facts.</param>
    /// <param name="first">Sequence of the first of them.</param>
    /// <param name="before">Corrections without them.</param>
    /// <param name="after">Corrections with them.</param>
    /// <param name="catalog">Knows all facts.</param>
    /// <param name="source">Where facts are read from.</param>
    public static IReadOnlyCollection<int> Of(
        IReadOnlyList<Fact> batch, int first, Corrections before, Corrections after, FactCatalog catalog, IFactSource source)
    {
        var reached = new HashSet<int>();
        if (ReferenceEquals(before, after)) return reached;
        var walked = new HashSet<int>();
        for (var i = 0; i < batch.Count; i++)
        {
            // Who waited for this fact is held against it now.
            for (var link = before.PointersAt.GetValueOrDefault(batch[i].Id); link is not null; link = link.Next) Reach(link.Sequence);
            if (!after.Pointers.ContainsKey(first + i)) continue;
            if (after.IsInCycle(first + i)) Round(first + i);
            else Down(first + i);
        }
        return reached;

        void Reach(int sequence)
        {
            if (after.Speaks(sequence, catalog, source)) reached.Add(sequence);
        }

        // All of a circle was void from its last fact on.
        void Round(int at)
        {
            for (; walked.Add(at); at = after.Pointers[at].At) Reach(at);
        }

        // Down the chain, as far as one acts on the next. A replacement that acts has its target's subjects, and so have its rivals.
        void Down(int at)
        {
            for (var isSaid = false; walked.Add(at) && !after.IsInCycle(at);)
            {
                if (!isSaid) Reach(at);
                if (!after.Pointers.TryGetValue(at, out var pointer)) return;
                if (pointer.At == 0)
                {
                    Rivals(pointer.Target);
                    return;
                }
                if (!pointer.IsAnnulment && !after.Fits(at, catalog, source)) return;
                (isSaid, at) = (!pointer.IsAnnulment, pointer.At);
            }
        }

        // While their target is not here, rivals may have other subjects.
        void Rivals(FactId target)
        {
            if (after.PointersAt[target].Next is null) return;
            foreach (var standing in new[] { before.Standing(target, catalog, source), after.Standing(target, catalog, source) })
            {
                if (standing != 0) reached.Add(standing);
            }
        }
    }
}
