using System.Globalization;

namespace MicRegister.Server.Tests;

/// <summary>
/// How many lines of a folder's sources are longer than the editor's limit, and what is to be done where that is not what is on record.
/// </summary>
internal static class LongLines
{
    /// <summary>The limit of <c>.editorconfig</c>.</summary>
    public const int Columns = 150;

    private static readonly string[] Endings = [".cs", ".razor", ".js", ".css"];

    private static readonly string[] NotOurs = ["bin", "obj", "vendor"];

    /// <summary>
    /// Every line of our own sources that is too long, as a folder (the project and its folder), a place, and the line's length.
    /// </summary>
    /// <param name="source">The folder that holds the projects.</param>
    public static IEnumerable<(string Folder, string Place, int Length)> In(string source) =>
        from path in Directory.EnumerateFiles(source, "*", SearchOption.AllDirectories).Order(StringComparer.Ordinal)
        let parts = Path.GetRelativePath(source, path).Split(Path.DirectorySeparatorChar)
        where Endings.Contains(Path.GetExtension(path)) && !parts.Intersect(NotOurs).Any()
        from line in File.ReadLines(path).Select((text, i) => (Number: i + 1, text.Length))
        where line.Length > Columns
        select (string.Join('/', parts[..^1].Take(2)), $"{string.Join('/', parts)}:{line.Number}", line.Length);

    /// <summary>Counts by folder, in order of their names.</summary>
    public static SortedDictionary<string, int> Count(IEnumerable<(string Folder, string Place, int Length)> lines) =>
        new(lines.CountBy(l => l.Folder).ToDictionary(), StringComparer.Ordinal);

    /// <summary>What is to be done so that counts and record agree, one sentence a folder; empty where they do.</summary>
    public static IReadOnlyList<string> ToDo(IReadOnlyDictionary<string, int> allowed, IReadOnlyDictionary<string, int> counted)
    {
        return [.. allowed.Keys.Union(counted.Keys).Order(StringComparer.Ordinal).Select(Sentence).OfType<string>()];

        string? Sentence(string folder) => (counted.GetValueOrDefault(folder), allowed.GetValueOrDefault(folder)) switch
        {
            var (now, most) when now > most => $"Over {Columns} columns in {folder}: {now}, allowed {most}. Break {now - most}.",
            (0, > 0) => $"Over {Columns} columns in {folder}: none any more. Take its line out.",
            var (now, most) when now < most => $"Over {Columns} columns in {folder}: {now}, fewer than {most}. Write {now}.",
            _ => null,
        };
    }

    /// <summary>Reads a record: a folder, a blank and its count a line; lines that begin with # say what it is.</summary>
    public static Dictionary<string, int> Read(IEnumerable<string> record) => record
        .Where(l => l.Length > 0 && l[0] != '#')
        .Select(l => l.Split(' '))
        .ToDictionary(l => l[0], l => int.Parse(l[1], NumberStyles.None, CultureInfo.InvariantCulture), StringComparer.Ordinal);

    /// <summary>The lines of a record.</summary>
    public static IEnumerable<string> Written(IReadOnlyDictionary<string, int> counted) => counted.Select(c => $"{c.Key} {c.Value}");
}
