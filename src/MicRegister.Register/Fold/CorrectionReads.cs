using System.Collections.Concurrent;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>
/// What corrections must know of the facts themselves, read once: facts never change, so every state of one log shares it.
/// </summary>
/// <param name="below">What is known of the log that this one goes on from by itself; null where it is its own.</param>
/// <param name="count">How many facts the two have in common.</param>
internal sealed class CorrectionReads(CorrectionReads? below = null, int count = 0)
{
    private readonly ConcurrentDictionary<int, bool> _sameSubjects = new();
    private readonly ConcurrentDictionary<int, bool> _annulments = new();
    private Last? _last;

    /// <summary>Whether a replacement has the subjects of its target, in the same order.</summary>
    public bool IsOfSameSubjects(int replacement, int target, IFactSource source)
    {
        if (below is not null && replacement <= count && target <= count) return below.IsOfSameSubjects(replacement, target, source);
        if (_sameSubjects.TryGetValue(replacement, out var known)) return known;
        // Of many replacements of one fact, that one is read once.
        var last = _last;
        if (last?.Sequence != target) _last = last = new(target, source.Read(target).Subjects);
        return _sameSubjects[replacement] = source.Read(replacement).Subjects.SequenceEqual(last.Subjects);
    }

    /// <summary>Whether a fact of the kind of annulments is one that this version can read, so that it says nothing else.</summary>
    public bool IsAnnulment(int sequence, IFactSource source)
    {
        if (below is not null && sequence <= count) return below.IsAnnulment(sequence, source);
        return _annulments.TryGetValue(sequence, out var known)
            ? known
            : _annulments[sequence] = source.Read(sequence).Body is FactAnnulled;
    }

    private sealed record Last(int Sequence, IReadOnlyList<string> Subjects);
}
