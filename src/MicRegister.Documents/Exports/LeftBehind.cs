using MicRegister.Register.Intake;

namespace MicRegister.Documents.Exports;

/// <summary>What a register holds and its tables do not: each sort of it with how much there is.</summary>
public sealed class LeftBehind
{
    // What devices, results, inspections, campaigns and rules are made of; what of them has no column is counted by those who write them.
    private static readonly HashSet<string> InTables = new(StringComparer.Ordinal)
    {
        "device-registered", "device-described", "device-moved", "device-status-changed", "device-inspected", "certificate-issued",
        "campaign-planned", "station-planned", "chain-planned", "kit-planned", "profile-written", "settings-chosen",
    };

    private readonly SortedDictionary<string, int> _counts = new(StringComparer.Ordinal);

    /// <summary>What stays behind, and how often.</summary>
    public IReadOnlyDictionary<string, int> Counts => _counts;

    /// <summary>The same as lines for people.</summary>
    public IReadOnlyList<string> InWords =>
        [.. _counts.Select(c => FormattableString.Invariant($"Not in the tables: {c.Key} ({c.Value})."))];

    /// <summary>Counts one more of a sort.</summary>
    internal void Add(string what, int count = 1)
    {
        if (count > 0) _counts[what] = _counts.GetValueOrDefault(what) + count;
    }

    /// <summary>Counts the facts of all kinds that no table is made of, whichever kinds there are.</summary>
    internal void AddKinds(Register.Register register)
    {
        foreach (var (kind, count) in register.CountsByKind().Where(k => !InTables.Contains(k.Key)))
            Add("facts of the kind " + kind.Replace('-', ' '), count);
    }
}
