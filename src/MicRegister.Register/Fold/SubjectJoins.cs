using System.Collections.Immutable;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>A body that says that two entries are one, or are two after all.</summary>
internal interface IJoinsEntries
{
    /// <summary>Id of the entry to keep.</summary>
    string Keep { get; }

    /// <summary>Id of the other entry.</summary>
    string Other { get; }

    /// <summary>Whether they are two after all.</summary>
    bool IsParting { get; }
}

/// <summary>Which entries stand under which kept one. Joining and parting are stated in time, so the last word on a pair counts.</summary>
internal static class SubjectJoins
{
    public static ImmutableSortedDictionary<string, string> Fold(IEnumerable<Fact> facts)
    {
        var joined = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (var said in facts.Select(f => f.Body).OfType<IJoinsEntries>())
        {
            if (!said.IsParting && Root(said.Keep) is var keep && Root(said.Other) != keep) joined[Root(said.Other)] = keep;
            if (said.IsParting && Root(said.Keep) == Root(said.Other) && !joined.Remove(said.Other)) joined.Remove(said.Keep);
        }
        foreach (var other in joined.Keys.ToList()) joined[other] = Root(other);
        return joined.ToImmutable();

        string Root(string id)
        {
            while (joined.TryGetValue(id, out var next)) id = next;
            return id;
        }
    }
}
