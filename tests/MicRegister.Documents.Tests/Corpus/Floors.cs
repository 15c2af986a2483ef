using System.Globalization;
using System.Runtime.CompilerServices;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>
/// How a reader fares at least, shape by shape: <c>Floors.txt</c> holds how many files are whole as they are, how many damaged ones, and
/// how many are wrong. The first two may only rise and the last may only fall; with CORPUS_FLOORS=write in the environment what is better
/// is written.
/// </summary>
internal static class Floors
{
    private const string Head = "# shape, whole as it is, whole though damaged, wrong; written by a test with CORPUS_FLOORS=write";

    private static readonly Lock Gate = new();

    /// <param name="tried">What was tried.</param>
    /// <param name="name">The line of the record that a file counts in; its shape where nothing else is said.</param>
    public static string Held(IReadOnlyList<Tried> tried, string? name = null, [CallerFilePath] string here = "")
    {
        var path = Path.Combine(Path.GetDirectoryName(here)!, "Floors.txt");
        // Classes run side by side and share the record.
        lock (Gate) return Held(path, Count(tried, name));
    }

    private static string Held(string path, Dictionary<string, Floor> counted)
    {
        var stored = File.Exists(path) ? Read(File.ReadAllLines(path)) : [];
        if (Environment.GetEnvironmentVariable("CORPUS_FLOORS") == "write")
        {
            foreach (var (key, floor) in counted) stored[key] = stored.TryGetValue(key, out var known) ? known.Better(floor) : floor;
            File.WriteAllLines(path, [Head, .. stored.OrderBy(s => s.Key, StringComparer.Ordinal).Select(s => s.Value.Written(s.Key))]);
        }
        return string.Join('\n', Fallen(stored, counted));
    }

    /// <summary>What is worse than on record, in words.</summary>
    public static IEnumerable<string> Fallen(IReadOnlyDictionary<string, Floor> stored, IReadOnlyDictionary<string, Floor> counted) =>
        counted.Where(c => !stored.TryGetValue(c.Key, out var known) || known.Better(c.Value) != c.Value)
            .Select(c => c.Value.Written(c.Key) + ", on record "
                + (stored.TryGetValue(c.Key, out var old) ? old.Written(c.Key) : "nothing"));

    public static Dictionary<string, Floor> Read(IEnumerable<string> lines) =>
        lines.Where(l => l.Length > 0 && l[0] != '#').Select(l => l.Split(' '))
        .ToDictionary(p => p[0], p => new Floor(Number(p[1]), Number(p[2]), Number(p[3])), StringComparer.Ordinal);

    private static Dictionary<string, Floor> Count(IReadOnlyList<Tried> tried, string? name) =>
        tried.GroupBy(t => name ?? t.File.Shape).ToDictionary(g => g.Key, g => new Floor(
        g.Count(t => t.File.Damage is null && t.Verdict.Fate == Fate.Whole),
            g.Count(t => t.File.Damage is not null && t.Verdict.Fate == Fate.Whole),
        g.Count(t => t.Verdict.Fate == Fate.Wrong)), StringComparer.Ordinal);

    private static int Number(string text) => int.Parse(text, CultureInfo.InvariantCulture);
}

/// <summary>How a shape fares: files that are whole as they are, whole though damaged, and wrong.</summary>
internal readonly record struct Floor(int Whole, int WholeThoughDamaged, int Wrong)
{
    public Floor Better(Floor other) =>
        new(Math.Max(Whole, other.Whole), Math.Max(WholeThoughDamaged, other.WholeThoughDamaged), Math.Min(Wrong, other.Wrong));

    public string Written(string shape) => FormattableString.Invariant($"{shape} {Whole} {WholeThoughDamaged} {Wrong}");
}
