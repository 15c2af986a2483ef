using System.Collections.Concurrent;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// Reads a header by meaning: its words, in one of six languages, stand for concepts, and a set of concepts for a column.
/// The words and sets are data beside this code.
/// </summary>
internal static partial class HeaderConcepts
{
    /// <summary>Words that say nothing of their own.</summary>
    public const string Filler = "-";

    private const string Told = "told";

    private const int ShortestForSlip = 7;
    private const int ShortestPart = 3;
    private const int ShortestEnd = 5;

    // Said of a thing without changing which thing is meant.
    private static readonly HashSet<string> Passing =
        ["performed", "device", "last", "calibration", "number", "value", "laboratory", "id", "code", "description", "place", "current",
            "by", "loading", "air"];

    // A price, a purchase or an owner, whatever else stands beside it, unless something that the register keeps does.
    private static readonly HashSet<string> Useless =
        ["owner_person", "money", "purchase", "supplier", "order", "key", "photo", "signature", "weight", "days_left", "useless_stamp"];

    private static readonly HashSet<string> Needed =
    [
        "serial", "asset", "sensitivity", "uncertainty", "level", "certificate", "laboratory", "due", "next", "kind", "model", "nominal",
        "gain", "found", "left", "calibration", "status", "type",
    ];

    // What a number, a result or its certificate stands in outweighs that a word beside it is of no use.
    private static readonly HashSet<string> Weighty =
        ["serial", "asset", "sensitivity", "uncertainty", "level", "certificate", "value", "nominal", "model"];

    private static readonly Dictionary<string, string> ByWord = Words();
    private static readonly Dictionary<string, string> BySet = Sets();
    private static readonly List<(string Apart, string Joined)> Together =
        [.. ByWord.Keys.Where(w => w.Contains('_', StringComparison.Ordinal)).OrderByDescending(w => w.Length)
            .Select(w => ($" {w.Replace('_', ' ')} ", $" {w} "))];

    private static readonly ILookup<int, string> ByLength = ByWord.Keys.Where(w => w.Length >= ShortestForSlip - 1).ToLookup(w => w.Length);

    /// <summary>Concepts of a header's words, and how many words nobody knows.</summary>
    /// <param name="header">The header, without units and brackets.</param>
    /// <returns>Each concept once; whether one word was taken for another that differs by a slip.</returns>
    public static (IReadOnlyList<string> Concepts, int Unknown, bool HasSlip) Of(string header)
    {
        var concepts = new List<string>();
        var (unknown, hasSlip) = (0, false);
        foreach (Match token in Tokens().Matches(Plain(header)))
        {
            var found = Find(token.Value, ref hasSlip) ?? (token.Groups["short"].Success ? OfShort(token.Value.TrimEnd('.'), ref hasSlip)
                : null);
            if (found is null) unknown++;
            else concepts.AddRange(found.Where(c => c != Filler && !concepts.Contains(c)));
        }
        return (concepts, unknown, hasSlip);
    }

    /// <summary>
    /// Whether a concept beside another makes it mean something else: a nominal value is no result, and a next day is no last one.
    /// </summary>
    public static bool ChangesMeaning(string concept) =>
        concept is "nominal" or "previous" or "next" or "due" or "found" or "left" or "deviation"
        or "limit" or "purchase" or "money" or "verdict" or "uncertainty" or "certificate" or "laboratory" or "temperature"
            or "frequency" or "distortion" or "one_sigma" or "maker" or "model" or "serial";

    /// <summary>Whether a header is the number of a device by which a house may know it, or its maker.</summary>
    public static bool IsOfHouse(string header) => Split(header).Any(w => w is "geratenummer" or "geratenr" or "gerate"
        or "intern" or "interne" or "interno" or "interna" or "internal" or "eigene" or "eigen" or "own"
        or "propre" or "propio" or "proprio");

    public static bool IsFiller(string word) => ByWord.GetValueOrDefault(word) == Filler;

    /// <summary>What a set of concepts stands for: key of a column, or one with a question mark; null where nothing.</summary>
    public static string? Meaning(IEnumerable<string> concepts) => BySet.GetValueOrDefault(Key(concepts));

    /// <summary>
    /// What a set of concepts stands for; where it is not known as it stands, without those that only say more of the same thing.
    /// </summary>
    /// <returns>The key, and whether concepts were passed over: then the cells have to agree.</returns>
    public static (string? Key, bool IsLoose) MeaningOf(IReadOnlyList<string> concepts)
    {
        if (Meaning(concepts) is { } whole) return (whole, false);
        // A booking or a seal is never what a register keeps; beside a number or a result it may only say more of it.
        if (concepts.Contains(Told))
        {
            if (!concepts.Any(Weighty.Contains)) return ("?told", false);
            return (MeaningOf([.. concepts.Where(c => c != Told)]).Key, true);
        }
        if (concepts.Contains("check") && (concepts.Contains("by") || concepts.Contains("owner_person"))) return ("?none", false);
        if (IsBeside(concepts)) return (concepts.Contains("days_left") ? "?none" : concepts.Contains("check") ? "?check" : "?noted", false);
        if (concepts.Any(Useless.Contains) && !concepts.Any(Needed.Contains)) return ("?none", false);
        var passing = concepts.Where(Passing.Contains).ToList();
        if (passing.Count is 0 or > 8) return (null, false);
        return (Enumerable.Range(1, (1 << passing.Count) - 1).OrderBy(int.PopCount)
            .Select(set => Meaning(concepts.Where(c => passing.IndexOf(c) is var at && (at < 0 || (set & (1 << at)) == 0))))
            .FirstOrDefault(m => m is not null), true);
    }

    /// <summary>Whether they speak of what a register does not keep, such as repairs, whatever else stands beside it.</summary>
    public static bool IsBeside(IReadOnlyList<string> concepts) =>
        (concepts.Contains("aside") || concepts.Contains("days_left") || concepts.Contains("check") || concepts.Contains(Told))
        && !concepts.Any(Weighty.Contains);

    /// <summary>A text in small letters, without accents and marks, as words.</summary>
    public static IEnumerable<string> Split(string text)
    {
        var plain = Plain(text);
        return Tokens().Matches(plain).Select(m => m.Value.TrimEnd('.'));
    }

    /// <summary>A text in small letters without accents; the short ways to write <i>serial number</i> and <i>number</i> as words.</summary>
    public static string Plain(string text) => Joined(NumberSign().Replace(PartSign().Replace(SerialSign().Replace(
        FoldedText.Of(text.StartsWith('Ø') ? "diameter " + text[1..] : text).Replace("δ",
            " delta ", StringComparison.Ordinal).Replace("∆", " delta ", StringComparison.Ordinal)
            .Replace("±", " uncertainty ", StringComparison.Ordinal).Replace("'s ", " ", StringComparison.Ordinal), " serial number "),
        " model "), " number ")) is var plain && Letters().IsMatch(plain) ? Letters().Replace(plain, "$1$2 ") : plain;

    // Words that only stand for something together, such as "unit under test".
    private static string Joined(string text)
    {
        var padded = $" {text} ";
        // "Pre-amp", "Cat. no." and "date d'achat": marks between words part them.
        var parted = Marks().Replace(padded, " ");
        var isTogether = false;
        foreach (var (apart, joined) in Together)
        {
            if (!parted.Contains(apart, StringComparison.Ordinal)) continue;
            (parted, isTogether) = (parted.Replace(apart, joined, StringComparison.Ordinal), true);
        }
        return isTogether ? parted : text;
    }

    /// <summary>Concept of the longest word that a joined word ends with; null where none is long enough to be sure.</summary>
    public static string? OfEnd(string word)
    {
        for (var cut = 1; cut <= word.Length - ShortestEnd; cut++)
        {
            if (ByWord.TryGetValue(word[cut..], out var concept)) return concept;
        }
        return null;
    }

    // "Kalibr." and "Certif.": the beginning of words that all mean the same.
    private static List<string>? OfShort(string word, ref bool hasSlip)
    {
        var concepts = ByWord
            .Where(w => w.Key.StartsWith(word, StringComparison.Ordinal)
                && !w.Key.Contains('_', StringComparison.Ordinal)).Select(w => w.Value).Distinct().Take(2).ToList();
        if (concepts.Count != 1) return null;
        hasSlip = true;
        return concepts;
    }

    private const int MostSeen = 20_000;

    private static readonly ConcurrentDictionary<string,
        (IReadOnlyList<string>? Concepts, bool HasSlip)> Seen = new(StringComparer.Ordinal);

    // Words of cells come again and again, and one that nobody knows is held against all that are known.
    private static IReadOnlyList<string>? Find(string token, ref bool hasSlip)
    {
        var word = token.TrimEnd('.');
        if (!Seen.TryGetValue(word, out var seen))
        {
            var isSlip = false;
            seen = (Search(word, ref isSlip), isSlip);
            if (Seen.Count < MostSeen) Seen.TryAdd(word, seen);
        }
        hasSlip |= seen.HasSlip;
        return seen.Concepts;
    }

    private static IReadOnlyList<string>? Search(string word, ref bool hasSlip)
    {
        if (ByWord.TryGetValue(word, out var known)) return [known];
        if (Parts(word) is { } parts) return parts;
        if (word.Length < ShortestForSlip) return null;
        foreach (var length in (int[])[word.Length, word.Length - 1, word.Length + 1])
        {
            foreach (var like in ByLength[length])
            {
                if (!IsOneSlip(word, like)) continue;
                hasSlip = true;
                return [ByWord[like]];
            }
        }
        return null;
    }

    // "kalibrierdatum" is kalibrier and datum; "inventarisierungsnr" is nothing.
    private static IReadOnlyList<string>? Parts(string word, int depth = 0)
    {
        for (var cut = word.Length - 2; cut >= ShortestPart; cut--)
        {
            var first = word[..cut];
            if (!ByWord.TryGetValue(first, out var head)
                && !(first[^1] is 's' or 'e' or 'n' && ByWord.TryGetValue(first[..^1], out head))) continue;
            if (head == Filler) continue;
            var rest = word[cut..];
            if (ByWord.TryGetValue(rest, out var tail) && tail != Filler && (rest.Length >= ShortestPart || rest == "nr")) return [head,
                tail];
            if (depth == 0 && Parts(rest, 1) is { } more) return [head, .. more];
        }
        return null;
    }

    // One letter put in, left out, changed, or two neighbours changed about.
    internal static bool IsOneSlip(string a, string b)
    {
        if (a.Length > b.Length) (a, b) = (b, a);
        var start = 0;
        while (start < a.Length && a[start] == b[start]) start++;
        var end = 0;
        while (end < a.Length - start && a[a.Length - 1 - end] == b[b.Length - 1 - end]) end++;
        var (left, right) = (a.Length - start - end, b.Length - start - end);
        return (left <= 1 && right <= 1) || (left == 2 && right == 2 && a[start] == b[start + 1] && a[start + 1] == b[start]);
    }

    private static string Key(IEnumerable<string> concepts) =>
        string.Join(' ', concepts.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal));

    private static Dictionary<string, string> Words()
    {
        var words = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var parts in Lines("concepts.txt").Select(line => line.Split(' ', StringSplitOptions.RemoveEmptyEntries)))
        {
            foreach (var word in parts[1..]) words.TryAdd(word, parts[0]);
        }
        return words;
    }

    private static Dictionary<string, string> Sets()
    {
        var sets = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var line in Lines("headers.txt"))
        {
            var (key, ways) = (line[..line.IndexOf('=', StringComparison.Ordinal)].Trim(),
                line[(line.IndexOf('=', StringComparison.Ordinal) + 1)..]);
            foreach (var way in ways.Split('|')) sets.TryAdd(Key(way.Split(' ', StringSplitOptions.RemoveEmptyEntries)), key);
        }
        return sets;
    }

    internal static IEnumerable<string> Lines(string name)
    {
        using var stream = typeof(HeaderConcepts).Assembly.GetManifestResourceStream("MicRegister.Documents.Import.Headers." + name)!;
        using var reader = new StreamReader(stream);
        while (reader.ReadLine() is { } line)
        {
            if (line.Length > 0 && line[0] != '#') yield return line;
        }
    }

    [GeneratedRegex(@"[a-z_]+[0-9]{2}(?![a-z0-9])|[a-z_]{3,}(?<short>\.)|[a-z_]+|[0-9]+")]
    private static partial Regex Tokens();

    [GeneratedRegex(@"[-.'/]+\s*|\s\s+")]
    private static partial Regex Marks();

    // "R.H." and "U.M."
    [GeneratedRegex(@"(?<![a-z.])([a-z])\.\s?([a-z])\.(?![a-z])")]
    private static partial Regex Letters();

    [GeneratedRegex(@"(?<![a-z])(?:s\s*[/.]\s*n(?:o|r)?|n\s*/\s*s|n\.\s?s\.|s\s*/\s*no|sn|n\s*\.?\s*[°o]?\.?\s*(?:de\s+)?serie)(?![a-z])\.?")]
    private static partial Regex SerialSign();

    [GeneratedRegex(@"(?<![a-z])(?:p\s*/\s*n|part\s*(?:no|number|nr))(?![a-z])\.?")]
    private static partial Regex PartSign();

    [GeneratedRegex(@"#|(?<![a-z])n\s*°\.?|(?<![a-z])n\.\s*o(?![a-z])\.?")]
    private static partial Regex NumberSign();
}
