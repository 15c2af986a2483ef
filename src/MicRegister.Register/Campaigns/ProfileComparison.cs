namespace MicRegister.Register.Campaigns;

/// <summary>What one version of requirements asks and another does not, clause by clause.</summary>
/// <param name="Clauses">
/// Limits in which both differ, in the order of <see cref="LimitKey.All"/>, then those of kinds of devices by key.
/// </param>
/// <param name="Same">How many limits are the same in both, source and certainty included.</param>
/// <param name="IsNameOther">Whether their names differ.</param>
/// <param name="IsStatementOther">Whether what they say that they follow differs.</param>
public sealed record ProfileComparison(IReadOnlyList<ProfileClause> Clauses, int Same, bool IsNameOther, bool IsStatementOther)
{
    private static readonly Dictionary<string, int> Order =
        LimitKey.All.Select((k, i) => (k.Key, i)).ToDictionary(k => k.Key, k => k.i, StringComparer.Ordinal);

    /// <summary>Whether both say the same, word by word.</summary>
    public bool IsEmpty => Clauses.Count == 0 && !IsNameOther && !IsStatementOther;

    /// <summary>How many clauses stand so.</summary>
    public int Count(ClauseChange change) => Clauses.Count(c => c.Change == change);

    /// <summary>How many are what, in words that stand within a sentence.</summary>
    public string InWords => IsEmpty
        ? "both say the same"
        : string.Join(
            ", ", Enum.GetValues<ClauseChange>().Where(c => Count(c) > 0).Select(c => $"{Count(c)} {c.InWords}").Append($"{Same} the same"));

    /// <summary>Compares two versions of requirements; comparing the other way round mirrors every clause.</summary>
    /// <param name="there">The one that is compared with.</param>
    /// <param name="here">The one that is looked at: it is what is stricter or looser.</param>
    public static ProfileComparison Of(ProfileWritten there, ProfileWritten here)
    {
        Dictionary<string, ProfileLimit> a = ByKey(there), b = ByKey(here);
        var clauses = new List<ProfileClause>();
        var same = 0;
        var keys = a.Keys.Union(b.Keys).OrderBy(k => Order.GetValueOrDefault(k, int.MaxValue)).ThenBy(k => k, StringComparer.Ordinal);
        foreach (var key in keys)
        {
            var (old, now) = (a.GetValueOrDefault(key), b.GetValueOrDefault(key));
            if (Change(old, now) is { } change) clauses.Add(new(key, old, now, change));
            else same++;
        }
        return new(clauses, same, there.Name != here.Name, there.Statement != here.Statement);
    }

    private static ClauseChange? Change(ProfileLimit? there, ProfileLimit? here) => (there, here) switch
    {
        (null, _) => ClauseChange.OnlyHere,
        (_, null) => ClauseChange.OnlyThere,
        _ => LimitStrictness.Change(there, here)
            ?? (there with { Value = here.Value, Text = here.Text } == here ? null : ClauseChange.OtherSource),
    };

    // The first of a key counts, as it does where limits are asked.
    private static Dictionary<string, ProfileLimit> ByKey(ProfileWritten written) =>
        written.Limits.DistinctBy(l => l.Key, StringComparer.Ordinal).ToDictionary(l => l.Key, StringComparer.Ordinal);
}

/// <summary>A limit in which two versions of requirements differ.</summary>
/// <param name="Key">Its key.</param>
/// <param name="There">As it stands in the one that is compared with; null where it does not.</param>
/// <param name="Here">As it stands in the one that is looked at; null where it does not.</param>
/// <param name="Change">How the one that is looked at stands to the other.</param>
public sealed record ProfileClause(string Key, ProfileLimit? There, ProfileLimit? Here, ClauseChange Change)
{
    /// <summary>Words for people.</summary>
    public string Label => LimitKey.Find(Key)?.Label ?? Key;

    /// <summary>Unit of the numbers; empty where there is none.</summary>
    public string Unit => LimitKey.Find(Key)?.Unit ?? "";
}

/// <summary>How a clause of the requirements that are looked at stands to that of the others.</summary>
public enum ClauseChange
{
    Stricter,
    Looser,

    /// <summary>Another value without an order, or stricter in one way and looser in another.</summary>
    Other,
    OnlyHere,
    OnlyThere,

    /// <summary>It asks the same by another source, or with another mark of how sure it is.</summary>
    OtherSource,
}
