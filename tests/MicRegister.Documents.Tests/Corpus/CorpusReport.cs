using System.Globalization;
using System.Text;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A file of the corpus, what the reader made of it, and how that stands to the truth.</summary>
internal sealed record Tried(CorpusFile File, Reading Reading, Verdict Verdict)
{
    public static Tried Of(CorpusFile file)
    {
        var reading = Reading.Of(file);
        return new(file, reading, Comparer.Compare(file.Truth, Taken.Of(reading.Facts), reading.Questions, reading.Notices));
    }
}

/// <summary>Tells people how a reader fares.</summary>
internal static class CorpusReport
{
    private static readonly Fate[] Fates = Enum.GetValues<Fate>();

    public static IReadOnlyList<Tried> Try(IReadOnlyList<Shape> shapes, ulong seed, int every = 1) =>
        [.. CorpusFile.All(shapes, seed, every).AsParallel().AsOrdered().Select(Tried.Of)];

    /// <summary>Counts of files by shape with the usual words, with any, and damaged; then by language and by damage.</summary>
    public static string Table(IReadOnlyList<Tried> tried)
    {
        var text = new StringBuilder("Files that are whole, asked, lost, wrong; and how much of what is certain was taken over\n");
        text.Append("shape".PadRight(30)).AppendLine("  |  usual words       |  any words         |  damaged              taken");
        foreach (var shape in tried.GroupBy(t => t.File.Shape)) Line(text, shape.Key, shape.ToList());
        Line(text, "all", tried);
        text.AppendLine().AppendLine(CultureInfo.InvariantCulture, $"Wrong values stored: {tried.Sum(t => t.Verdict.Wrong.Count)}")
            .AppendLine();
        foreach (var tongue in tried.GroupBy(t => t.File.Tongue)) Line(text, tongue.Key.ToString(), tongue.ToList());
        text.AppendLine();
        foreach (var damage in tried.Where(t => t.File.Damage is not null).GroupBy(t => t.File.Damage!)) Line(text, damage.Key, damage
            .ToList());
        return text.ToString();
    }

    /// <summary>An example of each shape that fails, and of each damage that makes one fail worse than it does without.</summary>
    public static string Failures(IReadOnlyList<Tried> tried)
    {
        var text = new StringBuilder(Table(tried));
        var plain = tried.Where(t => t.File.Damage is null).ToList();
        foreach (var isUsual in new[] { true, false })
        {
            foreach (var shape in plain.Where(t => t.File.IsUsual == isUsual && t.Verdict.Fate != Fate.Whole)
                .GroupBy(t => (t.File.Shape, t.Verdict.Fate)))
            {
                // With other words only what is not told yet: a shape that is whole with the usual ones, or something wrong.
                if (!isUsual && shape.Key.Fate != Fate.Wrong
                    && !plain.Exists(t => t.File.IsUsual && t.File.Shape == shape.Key.Shape && t.Verdict.Fate == Fate.Whole)) continue;
                var words = isUsual ? "usual words" : "any words";
                Example(text, $"{shape.Key.Shape}, {words}: {shape.Key.Fate} in {string.Join(", ", shape.Select(t => t.File.Tongue))}",
                    shape.First());
            }
        }
        var before = plain.Where(t => t.File.IsUsual).ToDictionary(t => (t.File.Shape, t.File.Tongue), t => t.Verdict);
        foreach (var damage in tried.Where(t => t.File.Damage is not null && IsWorse(t, before[(t.File.Shape, t.File.Tongue)]))
            .GroupBy(t => (t.File.Damage, t.Verdict.Fate)))
        {
            var shapes = string.Join(", ", damage.Select(t => t.File.Shape));
            Example(text, $"damage {damage.Key.Damage}: {damage.Key.Fate}, worse than without it: {shapes}", damage.First());
        }
        return text.ToString();
    }

    /// <summary>Writes the files themselves, each with what it says and what became of it beside it.</summary>
    public static void Write(IReadOnlyList<Tried> tried, string folder)
    {
        Directory.CreateDirectory(folder);
        foreach (var one in tried)
        {
            File.WriteAllBytes(Path.Combine(folder, one.File.Name), one.File.Bytes);
            var text = new StringBuilder();
            Example(text, one.Verdict.Fate.ToString(), one, int.MaxValue);
            foreach (var device in one.File.Truth.Devices)
            {
                text.AppendLine(CultureInfo.InvariantCulture,
                    $"device {string.Join(", ", device.Fields)}{(device.IsDoubtful ? " (doubtful)" : "")}");
                foreach (var result in device.Results.Values.Where(r => r.IsStated))
                    text.AppendLine(CultureInfo.InvariantCulture,
                        $"   {string.Join(", ", result.Fields)}{(result.IsDoubtful ? " (doubtful)" : "")}");
            }
            File.WriteAllText(Path.Combine(folder, one.File.Name + ".txt"), text.ToString());
        }
    }

    private static bool IsWorse(Tried tried, Verdict before) =>
        tried.Verdict.Fate > before.Fate || tried.Verdict.Certain - tried.Verdict.Lacking < before.Certain - before.Lacking - 6;

    private static void Example(StringBuilder text, string title, Tried tried, int most = 3)
    {
        text.AppendLine().Append("== ").AppendLine(title).Append("   ").AppendLine(tried.File.Name);
        foreach (var grid in tried.File.Draft.Grids.Take(2))
        {
            if (grid.Name.Length > 0) text.Append("   sheet ").AppendLine(grid.Name);
            var header = Math.Max(0, grid.Lines.FindIndex(l => l.Sort == LineSort.Header));
            foreach (var line in grid.Lines.Skip(Math.Max(0, header - 1)).Where(l => l.Cells.Any(c => c.Text.Length > 0)).Take(4))
                text.Append("   | ").AppendLine(string.Join(" | ", line.Cells.Select(c => Seen(c, tried.File.Draft.IsWorkbook))));
        }
        Some(text, "damaged", tried.File.Draft.Touched, 2);
        Some(text, "wrong", tried.Verdict.Wrong, most);
        Some(text, "missing", tried.Verdict.Missing, most);
        Some(text, "asked", tried.Reading.Questions, most - 1);
        Some(text, "told", tried.Reading.Notices, most - 1);
    }

    private static string Seen(Cell cell, bool isTyped) =>
        cell.IsUnworked ? "=formula" : isTyped && cell is { Typed: { } n, Shown: Shown.Plain } ? n.ToString(CultureInfo.InvariantCulture)
            : cell.Text;

    private static void Some(StringBuilder text, string what, IReadOnlyList<string> all, int most)
    {
        foreach (var one in all.Take(most)) text.Append("   ").Append(what).Append(": ").AppendLine(one);
        if (all.Count > most) text.AppendLine(CultureInfo.InvariantCulture, $"   {what}: and {all.Count - most} more");
    }

    private static void Line(StringBuilder text, string name, IReadOnlyList<Tried> tried)
    {
        var plain = tried.Where(t => t.File.Damage is null).ToLookup(t => t.File.IsUsual);
        text.Append(name.PadRight(30)).Append(Counts(plain[true])).Append(Counts(plain[false]))
            .Append(Counts(tried.Where(t => t.File.Damage is not null)));
        var certain = tried.Sum(t => t.Verdict.Certain);
        text.AppendLine(certain == 0 ? ""
            : FormattableString.Invariant($"{100.0 * (certain - tried.Sum(t => t.Verdict.Lacking)) / certain,8:F0} %"));
    }

    private static string Counts(IEnumerable<Tried> tried)
    {
        var counts = tried.CountBy(t => t.Verdict.Fate).ToDictionary();
        return "  |" + string.Concat(Fates
            .Select(f => (counts.TryGetValue(f, out var n) ? n.ToString(CultureInfo.InvariantCulture) : "-").PadLeft(5)));
    }
}
