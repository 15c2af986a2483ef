using System.Globalization;
using System.Text;

namespace MicRegister.Register.People;

/// <summary>
/// What Unicode says of characters that look alike. The runtime normalises nothing here, since the programs run without the tables of a
/// culture (invariant globalization): decompositions are read from <c>LookAlikes.txt</c> too, which names version, source and licence.
/// </summary>
public static class LookAlikes
{
    private const int HangulFirst = 0xAC00;
    private const int HangulCount = 11172;

    private static readonly Lazy<Tables> Read = new(Load);

    /// <summary>The skeleton of a text: two texts with one skeleton look alike.</summary>
    /// <param name="text">Any text, also an empty one; half a surrogate pair counts as U+FFFD.</param>
    /// <returns>For comparing alone, never to be shown or stored.</returns>
    /// <remarks>
    /// UTS #39 (Unicode 15.0; the step that leaves out ignorable characters as of version 15.1), clause 4: NFD, without what is
    /// ignorable, each character by its prototype, NFD again. Capitals and small letters are two things.
    /// </remarks>
    public static string Skeleton(string text)
    {
        var tables = Read.Value;
        var prototypes = new List<int>();
        foreach (var c in Decomposed(text, tables.Canonical))
        {
            if (IsIgnorable(c)) continue;
            if (tables.Prototype.TryGetValue(c, out var prototype)) prototypes.AddRange(prototype);
            else prototypes.Add(c);
        }
        return Text(Decomposed(Text(prototypes), tables.Canonical));
    }

    /// <summary>A text in its full decomposition.</summary>
    /// <param name="text">Any text, also an empty one.</param>
    /// <param name="isCompatible">Whether a full-width or mathematical letter is the plain one (NFKD); NFD otherwise.</param>
    /// <remarks>The Unicode Standard 15.0, clause 3.11, D68 and D65, with the canonical ordering of D109.</remarks>
    public static string Decompose(string text, bool isCompatible) =>
        Text(Decomposed(text, isCompatible ? Read.Value.Compatible : Read.Value.Canonical));

    /// <summary>Whether a character is shown as nothing at all (Default_Ignorable_Code_Point), such as a blank of no width.</summary>
    public static bool IsIgnorable(int character) => Read.Value.Ignorable.Any(r => character >= r.From && character <= r.To);

    private static List<int> Decomposed(string text, Dictionary<int, int[]> table)
    {
        var all = new List<int>(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (rune.Value is >= HangulFirst and < HangulFirst + HangulCount) Hangul(rune.Value - HangulFirst, all);
            else if (table.TryGetValue(rune.Value, out var parts)) all.AddRange(parts);
            else all.Add(rune.Value);
        }
        Order(all);
        return all;
    }

    // The Unicode Standard 15.0, clause 3.12: lead, vowel and tail of a syllable, counted.
    private static void Hangul(int syllable, List<int> all)
    {
        all.Add(0x1100 + (syllable / 588));
        all.Add(0x1161 + (syllable % 588 / 28));
        if (syllable % 28 > 0) all.Add(0x11A7 + (syllable % 28));
    }

    // Marks stand in the order of their classes, those of one class as they were.
    private static void Order(List<int> all)
    {
        var classes = Read.Value.Classes;
        for (var from = 0; from < all.Count; from++)
        {
            var to = from;
            while (to < all.Count && classes.GetValueOrDefault(all[to]) > 0) to++;
            if (to - from < 2) continue;
            List<int> marks = [.. all[from..to].OrderBy(c => classes[c])]; // stable
            for (var i = 0; i < marks.Count; i++) all[from + i] = marks[i];
            from = to;
        }
    }

    private static string Text(List<int> characters)
    {
        var text = new StringBuilder(characters.Count);
        foreach (var c in characters) text.Append(new Rune(c).ToString());
        return text.ToString();
    }

    private static Tables Load()
    {
        var tables = new Tables([], [], [], [], []);
        using var stream = typeof(LookAlikes).Assembly.GetManifestResourceStream("LookAlikes.txt")
            ?? throw new InvalidOperationException("LookAlikes.txt is not in the program.");
        using var lines = new StreamReader(stream);
        while (lines.ReadLine() is { } line)
        {
            if (line.StartsWith('#')) continue;
            var words = line.Split(' ');
            foreach (var word in words.Skip(1))
            {
                var ends = word.Split('=', '-');
                var (first, last) = (Number(ends[0]), ends[^1]);
                switch (words[0])
                {
                    case "ignorable": tables.Ignorable.Add((first, Number(last))); break;
                    case "canonical": tables.Canonical[first] = Numbers(last); break;
                    case "compatible": tables.Compatible[first] = Numbers(last); break;
                    case "prototype": tables.Prototype[first] = Numbers(last); break;
                    default:
                        var own = byte.Parse(words[0]["class:".Length..], CultureInfo.InvariantCulture);
                        for (var c = first; c <= Number(last); c++) tables.Classes[c] = own;
                        break;
                }
            }
        }
        foreach (var (c, parts) in tables.Canonical) tables.Compatible.TryAdd(c, parts);
        return tables;
    }

    private static int Number(string text) => int.Parse(text, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);

    private static int[] Numbers(string text) => [.. text.Split('.').Select(Number)];

    private sealed record Tables(
        List<(int From, int To)> Ignorable, Dictionary<int, byte> Classes,
        Dictionary<int, int[]> Canonical, Dictionary<int, int[]> Compatible, Dictionary<int, int[]> Prototype);
}
