using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Tests.Fold;

/// <summary>
/// Which facts count, worked out as the rules read, each fact anew: the way in which it was first written. Two methods call each other,
/// so that some sets take exponential time; small ones it decides as a second implementation.
/// </summary>
internal sealed class PlainCorrections
{
    private readonly List<Fact> _facts;
    private readonly Dictionary<FactId, int> _found;
    private readonly Dictionary<FactId, List<int>> _pointersAt = [];
    private readonly Dictionary<int, FactId> _targetOf = [];

    public PlainCorrections(IEnumerable<Fact> facts)
    {
        _facts = [.. facts];
        _found = _facts.Select((f, i) => (f.Id, i + 1)).ToDictionary();
        for (var sequence = 1; sequence <= _facts.Count; sequence++)
        {
            if (Corrections.Target(Read(sequence)) is not { } target) continue;
            _targetOf[sequence] = target;
            if (!_pointersAt.TryGetValue(target, out var list)) _pointersAt[target] = list = [];
            list.Add(sequence);
        }
    }

    public bool Counts(int sequence)
    {
        if (_targetOf.Count == 0) return true;
        var isPointer = _targetOf.TryGetValue(sequence, out var target);
        if (isPointer && IsInCycle(sequence)) return false;
        if (isPointer && Read(sequence).Kind != FactKinds.Annulled && !ReplacementStands(sequence, target)) return false;
        foreach (var pointer in _pointersAt.GetValueOrDefault(Read(sequence).Id, []))
        {
            if (!IsInCycle(pointer) && Fits(pointer, sequence) && Counts(pointer)) return false;
        }
        return true;
    }

    /// <summary>Rule and first fact of each finding, in the order of ids.</summary>
    public IReadOnlyList<(string Rule, string Fact)> Findings()
    {
        var findings = new List<(string, string)>();
        foreach (var (pointer, target) in _targetOf.OrderBy(p => Read(p.Key).Id))
        {
            var fact = Read(pointer);
            var at = _found.GetValueOrDefault(target);
            if (IsInCycle(pointer)) findings.Add(("correction-circle", fact.Id.ToString()));
            else if (at != 0 && !Fits(pointer, at)) findings.Add(("replacement-unfit", fact.Id.ToString()));
            else if (fact.Replaces is not null
                && _pointersAt[target].Any(r => r != pointer && Read(r).Kind == fact.Kind && Read(r).Id > fact.Id))
                findings.Add(("replaced-twice", fact.Id.ToString()));
        }
        return findings;
    }

    private bool IsInCycle(int sequence)
    {
        var at = sequence;
        for (var steps = 0; steps <= _targetOf.Count; steps++)
        {
            if (!_targetOf.TryGetValue(at, out var target)) return false;
            at = _found.GetValueOrDefault(target);
            if (at == 0) return false;
            if (at == sequence) return true;
        }
        return false;
    }

    private bool Fits(int pointer, int target) => Read(pointer).Kind == FactKinds.Annulled
        || (Read(pointer).Kind == Read(target).Kind && Read(pointer).Subjects.SequenceEqual(Read(target).Subjects));

    private bool ReplacementStands(int sequence, FactId target)
    {
        var targetSequence = _found.GetValueOrDefault(target);
        if (targetSequence != 0 && !Fits(sequence, targetSequence)) return false;
        foreach (var rival in _pointersAt.GetValueOrDefault(target, []))
        {
            if (rival == sequence || Read(rival).Kind == FactKinds.Annulled || Read(rival).Id < Read(sequence).Id) continue;
            if (targetSequence != 0 && !Fits(rival, targetSequence)) continue;
            if (Counts(rival)) return false;
        }
        return true;
    }

    private Fact Read(int sequence) => _facts[sequence - 1];
}
