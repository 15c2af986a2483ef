namespace MicRegister.Documents.Import;

/// <summary>
/// The text of a legend as people change it, a rule at a time. A rule is told as one line, with its sheet before it where it is of one
/// (<c>[sheet NAME] rule</c>), wherever it stands; comments, blank lines and headings of sheets stay as they are.
/// </summary>
public static class LegendLines
{
    /// <summary>The rules of a legend, each as one line.</summary>
    public static IReadOnlyList<string> Rules(string? legend) => [.. Read(legend).Where(l => l.Rule is not null).Select(OneLine)];

    /// <summary>A legend with a rule, or with several, a line each; what it said of the same things before is out.</summary>
    public static string With(string? legend, string rules) =>
        rules.ReplaceLineEndings("\n").Split('\n').Where(r => r.Trim().Length > 0).Aggregate(legend ?? "", WithOne);

    private static string WithOne(string legend, string rule)
    {
        var lines = Read(legend);
        var said = Read(rule).Last(l => l.Rule is not null);
        lines.RemoveAll(l => l.Rule is not null && KeyOf(l) == KeyOf(said));
        // Before the first heading of a sheet, so that it is of the file, or of the sheet that it names itself.
        var at = lines.FindIndex(l => l.IsHeading);
        lines.Insert(at < 0 ? lines.Count : at, said);
        return Text(lines);
    }

    /// <summary>A legend without a rule, told as by <see cref="Rules"/>.</summary>
    public static string Without(string? legend, string? rule)
    {
        var lines = Read(legend);
        lines.RemoveAll(l => l.Rule is not null && OneLine(l) == rule);
        return Text(lines);
    }

    /// <summary>The rule that a legend holds for a header; null where it holds none of its own for it.</summary>
    /// <param name="legend">The legend.</param>
    /// <param name="sheet">Name of the sheet; empty in a text file.</param>
    /// <param name="header">The header as it stands in the file.</param>
    public static string? OfHeader(string? legend, string sheet, string header)
    {
        string[] keys = [LegendText.KeyOfHeader(header, isExact: true), LegendText.KeyOfHeader(header, isExact: false)];
        var rules = Read(legend).Where(l => l.Rule is not null && keys.Contains(LegendText.KeyOf(l.Rule))).ToList();
        return (rules.FindLast(l => l.Sheet.Length > 0 && Same(l.Sheet, sheet)) ?? rules.FindLast(l => l.Sheet.Length == 0)) is { } line
            ? OneLine(line) : null;
    }

    /// <summary>Two legends as one: what the second says of a thing stands in the place of what the first does.</summary>
    public static string Joined(string? first, string? second)
    {
        var said = Read(second).Where(l => l.Rule is not null).Select(KeyOf).ToHashSet(StringComparer.Ordinal);
        var lines = Read(first);
        lines.RemoveAll(l => l.Rule is not null && said.Contains(KeyOf(l)));
        if (lines.All(l => l.Written.Trim().Length == 0)) return Text(Read(second));
        // Rules of the file behind a heading would be of its sheet.
        var own = Read(second);
        var at = lines.FindIndex(l => l.IsHeading);
        lines.InsertRange(at < 0 ? lines.Count : at, own.TakeWhile(l => !l.IsHeading));
        lines.AddRange(own.SkipWhile(l => !l.IsHeading));
        return Text(lines);
    }

    /// <summary>A legend for the next list of the same shape: the day as of which a list speaks is of that list alone.</summary>
    public static string ForNext(string? legend)
    {
        var lines = Read(legend);
        lines.RemoveAll(l => l.Rule is not null && LegendText.KeyOf(l.Rule) == LegendText.KeyOf("as-of := "));
        return Text(lines);
    }

    private sealed record Line(string Written, string Sheet, string? Rule, bool IsHeading);

    private static List<Line> Read(string? legend)
    {
        var lines = new List<Line>();
        var sheet = "";
        foreach (var written in (legend ?? "").ReplaceLineEndings("\n").Split('\n'))
        {
            var text = written.Trim();
            if (text.Length == 0 || text[0] == '#') lines.Add(new(written, sheet, null, false));
            else if (LegendText.SheetOf(text) is not var (name, rest)) lines.Add(new(written, sheet, text, false));
            else if (rest.Length > 0) lines.Add(new(written, name, rest, false));
            else lines.Add(new(written, sheet = name, null, true));
        }
        while (lines.Count > 0 && lines[^1].Written.Trim().Length == 0) lines.RemoveAt(lines.Count - 1);
        return lines;
    }

    private static string Text(IEnumerable<Line> lines) => string.Join('\n', lines.Select(l => l.Written));

    private static string OneLine(Line line) => line.Sheet.Length > 0 ? $"[sheet {line.Sheet}] {line.Rule}" : line.Rule!;

    private static string KeyOf(Line line) => line.Sheet.ToLowerInvariant() + "\n" + LegendText.KeyOf(line.Rule!);

    private static bool Same(string a, string b) => string.Equals(a, b, StringComparison.OrdinalIgnoreCase);
}
