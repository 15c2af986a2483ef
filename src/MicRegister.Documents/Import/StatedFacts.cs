using MicRegister.Register.Facts;
using MicRegister.Register.Intake;

namespace MicRegister.Documents.Import;

/// <summary>The facts that rows stand for so far, each once, beside those that the register holds.</summary>
internal sealed class StatedFacts(Register.Register register)
{
    private readonly List<Fact> _facts = [];
    private readonly HashSet<FactId> _ids = [];
    private readonly TakenBackFacts _takenBack = new(register);
    private readonly List<string> _remarks = [];
    private (Register.Register Register, int Facts)? _ahead;

    /// <summary>All of them, in order.</summary>
    public IReadOnlyList<Fact> All => _facts;

    /// <summary>The report of the file whose rows are taken.</summary>
    public FileReport? Report { get; set; }

    /// <summary>The register as it will be with them.</summary>
    public Register.Register Ahead
    {
        get
        {
            if (_ahead is not { } known || known.Facts != _facts.Count) _ahead = known = (register.WhatIf(_facts), _facts.Count);
            return known.Register;
        }
    }

    public Fact? Find(FactId id) =>
        register.Find(id) is var at and > 0 ? register.Source.Read(at) : _ids.Contains(id) ? _facts.Find(f => f.Id == id) : null;

    /// <summary>Adds a fact.</summary>
    /// <returns>Whether it is new.</returns>
    public bool Add(Fact fact)
    {
        if (register.Knows(fact.Id)) return AddAgain(fact);
        if (!_ids.Add(fact.Id)) return false;
        Keep(fact);
        return true;
    }

    /// <summary>Takes back what was added since there were so many.</summary>
    public void TakeBack(int count)
    {
        foreach (var fact in _facts.Skip(count)) _ids.Remove(fact.Id);
        _facts.RemoveRange(count, _facts.Count - count);
        _remarks.Clear();
        _ahead = null;
    }

    /// <summary>What was noticed of facts since it was asked last; null where nothing.</summary>
    public string? TakeRemarks()
    {
        if (_remarks.Count == 0) return null;
        var remarks = string.Join("; ", _remarks);
        _remarks.Clear();
        return remarks;
    }

    // What was taken back with its list comes back with it; what a person annulled by itself stays so.
    private bool AddAgain(Fact fact)
    {
        if (register.Counts(register.Find(fact.Id))) return false;
        var again = _takenBack.Again(fact.Id);
        if (again.Count > 0) Remark("was taken back before");
        else if (register.TakenOutBy(fact.Id) is { } by && Find(by) is { Body: FactAnnulled })
            Remark("was annulled by somebody and stays so");
        var isNew = false;
        foreach (var counted in again.Where(a => _ids.Add(a.Id)))
        {
            Keep(counted);
            isNew = true;
        }
        return isNew;
    }

    private void Keep(Fact fact)
    {
        _facts.Add(fact);
        Report!.Own.Add(fact);
    }

    private void Remark(string text)
    {
        if (!_remarks.Contains(text)) _remarks.Add(text);
    }
}
