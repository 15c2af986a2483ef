using System.Collections.Frozen;

namespace MicRegister.Register.Facts;

/// <summary>Rows of kinds of facts, kept beside the facts themselves: each folder that has facts has one such table.</summary>
public interface IFactKinds
{
    /// <summary>The rows.</summary>
    static abstract IReadOnlyList<FactKind> Rows { get; }
}

/// <summary>The kinds of facts that this version knows, gathered from the tables of all folders.</summary>
public static class FactKinds
{
    /// <summary>Stored name of the kind that takes back another fact.</summary>
    public const string Annulled = "fact-annulled";

    private static readonly FrozenDictionary<(string, int), FactKind> ByName;
    private static readonly FrozenDictionary<Type, FactKind> ByType;
    private static readonly FrozenDictionary<string, FactKind> ByNameOnly;

    static FactKinds()
    {
        // Facts know no subject, so the tables are found and not named here.
        All = [.. typeof(FactKinds).Assembly.GetTypes().Where(t => t is { IsInterface: false } && t.IsAssignableTo(typeof(IFactKinds)))
            .OrderBy(t => t.FullName, StringComparer.Ordinal).SelectMany(Rows)];
        ByName = All.ToFrozenDictionary(k => (k.Name, k.Version));
        ByType = All.ToFrozenDictionary(k => k.Body);
        ByNameOnly = All.GroupBy(k => k.Name, StringComparer.Ordinal)
            .ToFrozenDictionary(g => g.Key, g => g.MaxBy(k => k.Version)!, StringComparer.Ordinal);
    }

    /// <summary>One row a kind and version.</summary>
    public static IReadOnlyList<FactKind> All { get; }

    /// <summary>The row of a kind and version; null where this version does not know it.</summary>
    public static FactKind? Find(string name, int version) => ByName.GetValueOrDefault((name, version));

    /// <summary>The row of the newest version of a kind; null where this version does not know it.</summary>
    public static FactKind? Find(string name) => ByNameOnly.GetValueOrDefault(name);

    /// <summary>The row of a body.</summary>
    /// <exception cref="ArgumentException">It is in no table.</exception>
    public static FactKind Of(FactBody body) => ByType.TryGetValue(body.GetType(), out var kind)
        ? kind
        : throw new ArgumentException($"{body.GetType().Name} is not a kind of fact.", nameof(body));

    /// <summary>Stored names of the kinds whose bodies are of a sort.</summary>
    public static FrozenSet<string> NamesOf<TSort>() =>
        All.Where(k => k.Body.IsAssignableTo(typeof(TSort))).Select(k => k.Name).ToFrozenSet(StringComparer.Ordinal);

    /// <summary>Whether facts of a kind come by the hundred thousand, so that folding counts them without reading them.</summary>
    public static bool IsTrafficKind(string name) => Find(name)?.Reading == FactReading.Counted;

    /// <summary>What a fact says, short enough for a line; null where its kind alone says it, or nobody here can read it.</summary>
    public static string? Words(FactBody body) => ByType.GetValueOrDefault(body.GetType())?.Words(body);

    private static IReadOnlyList<FactKind> Rows(Type table) =>
        (IReadOnlyList<FactKind>)table
            .GetProperty(nameof(IFactKinds.Rows), System.Reflection.BindingFlags.Public | System.Reflection.BindingFlags.Static)!
            .GetValue(null)!;
}
