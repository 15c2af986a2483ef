using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A file whose questions somebody answers who knows what it says.</summary>
/// <param name="Answers">How many answers were given.</param>
/// <param name="Left">Sorts of the questions that are still open where it is not whole.</param>
internal sealed record Answered(CorpusFile File, Verdict Verdict, int Answers, IReadOnlyList<string> Left)
{
    private const int MostAnswers = 3;

    // Which column of the reader is meant where a cell says so.
    private static readonly Dictionary<Said, string> Keys = new()
    {
        [Said.Kind] = "kind",
        [Said.Maker] = "maker",
        [Said.Model] = "model",
        [Said.Serial] = "serial",
        [Said.Code] = "inventory-code",
        [Said.Status] = "status",
        [Said.Place] = "place",
        [Said.Size] = "size-mm",
        [Said.Day] = "day",
        [Said.Value] = "value",
        [Said.Again] = "value",
        [Said.U] = "uncertainty",
        [Said.K] = "k",
        [Said.Lab] = "laboratory",
        [Said.Number] = "certificate",
        [Said.Hz] = "calibration-hz",
        [Said.Pressure] = "pressure",
        [Said.Temperature] = "temperature",
        [Said.Humidity] = "humidity",
        [Said.Due] = "due",
    };

    /// <summary>Reads a file and answers what it asks, at most three times.</summary>
    public static Answered Of(CorpusFile file)
    {
        var (rules, asked, log) = (new List<string>(), new List<string>(), new List<string>());
        for (var answers = 0; ; answers++)
        {
            var reading = Read(file, rules);
            asked.AddRange(reading.Questions);
            log.AddRange(reading.Questions.Take(8).Select(q => "asked " + q));
            // What a person was asked and has answered is no longer open, but was not passed over.
            var verdict = Compare(file, reading, asked);
            if (verdict.Fate == Fate.Whole || answers == MostAnswers || reading.Open.Count == 0
                || Rule(file, reading.Open, rules, asked) is not { } rule)
                return new(file, verdict, answers, verdict.Fate == Fate.Whole ? []
                    : [.. reading.Open.Select(q => q.Key.Split(' ')[0]).DefaultIfEmpty("rows")])
                { Log = log };
            rules.Add(rule);
            log.Add("said " + rule.Replace("\n", "; ", StringComparison.Ordinal));
        }
    }

    private static Reading Read(CorpusFile file, IEnumerable<string> rules) =>
        Reading.Of(file, ImportMapping.Read(new StringReader(string.Join('\n', rules)), "answers"));

    private static Verdict Compare(CorpusFile file, Reading reading, IReadOnlyList<string> asked) =>
        Comparer.Compare(file.Truth, Taken.Of(reading.Facts), asked, reading.Notices);

    // Columns that say something come before those that are of no use; where the truth names no answer, the best of those offered.
    private static string? Rule(CorpusFile file, IReadOnlyList<ImportQuestion> open, List<string> rules, IReadOnlyList<string> asked)
    {
        var known = open.Select(q => (Question: q, Rule: Known(file, q))).Where(a => a.Rule is not null && !rules.Contains(a.Rule))
            .OrderBy(a => a.Rule!.Split('\n').All(r => r.EndsWith(LeftOut, StringComparison.Ordinal))).ToList();
        if (known.Count > 0) return known[0].Rule;
        // Of which kind the devices of a sheet are, whoever knows that they are of several does not say.
        return open.SelectMany(q => q.Parts.Append(q)).Where(q => !IsOfKind(q)).SelectMany(q => q.Choices.Select(q.RuleOf)).Except(rules)
            .Select(r => (Rule: r, Verdict: Compare(file, Read(file, [.. rules, r]), asked)))
            .OrderBy(a => a.Verdict.Wrong.Count).ThenBy(a => a.Verdict.Missing.Count).Select(a => a.Rule).FirstOrDefault();
    }

    // A form is one act: whoever knows the list says what each part is, and that what says nothing is of no use.
    private static string? Known(CorpusFile file, ImportQuestion question)
    {
        if (question.Parts.Count == 0) return OfOne(file, question);
        var rules = question.Parts.Select(p => OfOne(file, p)).OfType<string>().ToList();
        var rest = question.Choices.FirstOrDefault(c => c.Rule.EndsWith(LeftOut, StringComparison.Ordinal));
        return rules.Count > 0 ? question.Together(rest, rules) : null;
    }

    private static string? OfOne(CorpusFile file, ImportQuestion question)
    {
        var key = question.Key;
        if (key.StartsWith("word ", StringComparison.Ordinal)) return OfWord(file, question);
        if (key == "serial") return OfSerial(file, question);
        if (IsOfKind(question)) return OfKind(file, question);
        if (Settles(question, "results-without-days")) return OfDays(file, question);
        if (!key.StartsWith("column ", StringComparison.Ordinal)) return null;
        var said = Below(file, key["column ".Length..]).ToList();
        if (said.Count == 0) return null;
        var means = said.SelectMany(c => c.Means).Select(m => m.What).Where(Keys.ContainsKey).ToList();
        var column = means.Count > 0 ? Keys[means.CountBy(m => m).MaxBy(m => m.Value).Key]
            : said.TrueForAll(c => MeasuredText.Unit(c.Text) is not null) ? "unit" : Documents.Import.Column.LeftOut.Key;
        var rule = LegendText.HeaderRule(question.Name, column);
        return question.RuleOf(question.Choices.FirstOrDefault(c => c.Rule == rule) ?? new ImportChoice(column, rule));
    }

    private const string LeftOut = "= left-out";

    // Cells under the headers of that text, which may stand in two lines or be told by its place alone.
    private static IEnumerable<Cell> Below(CorpusFile file, string header)
    {
        foreach (var grid in file.Draft.Grids)
        {
            var (place, above) = (-1, (Line?)null);
            foreach (var line in grid.Lines)
            {
                if (line.Sort == LineSort.Header)
                {
                    var heads = Heads(above, line);
                    place = heads.FindIndex(h => h.Contains(header));
                    if (place < 0 && header.StartsWith("column ", StringComparison.Ordinal)
                        && int.TryParse(header["column ".Length..], CultureInfo.InvariantCulture, out var n)) place = n - 1;
                    above = line;
                }
                else if (line.Sort == LineSort.Data && place >= 0 && place < line.Cells.Count && line.Cells[place].Text.Length > 0)
                    yield return line.Cells[place];
                if (line.Sort != LineSort.Header) above = null;
                // On a card the label stands before what it says.
                for (var i = 0; i + 1 < line.Cells.Count; i++)
                {
                    if (line.Sort == LineSort.Data && Lower(line.Cells[i].Text) == header + ":" && line.Cells[i + 1].Text.Length > 0)
                        yield return line.Cells[i + 1];
                }
            }
        }
    }

    // The texts by which a column may be called: its own, and with the title above it.
    private static List<string[]> Heads(Line? above, Line line)
    {
        var (heads, title) = (new List<string[]>(), "");
        for (var i = 0; i < line.Cells.Count; i++)
        {
            if (above is not null && i < above.Cells.Count && above.Cells[i].Text.Length > 0) title = Lower(above.Cells[i].Text);
            var own = Lower(line.Cells[i].Text);
            heads.Add([own, $"{title} {own}".Trim()]);
        }
        return heads;
    }

    private static string? OfSerial(CorpusFile file, ImportQuestion question)
    {
        var headers = file.Draft.Grids.SelectMany(g => g.Lines).Where(l => l.Sort == LineSort.Header).SelectMany(l => l.Cells)
            .Select(c => c.Text).Distinct().Where(h => Below(file, Lower(h)).Any(c => c.Says(Said.Serial)));
        return headers.Select(h => question.Choices.FirstOrDefault(c => c.Rule == LegendText.HeaderRule(h, "serial")))
            .FirstOrDefault(c => c is not null) is { } choice ? question.RuleOf(choice) : null;
    }

    private static bool Settles(ImportQuestion question, string what) =>
        question.Choices.Count > 0 && question.Choices.All(c => c.Rule.Contains(what + " := ", StringComparison.Ordinal));

    private static bool IsOfKind(ImportQuestion question) => Settles(question, "kind");

    // Devices of one kind alone; where the question is of a sheet, those of the sheet.
    private static string? OfKind(CorpusFile file, ImportQuestion question)
    {
        var about = $"{question.Name}\n{question.Key}\n{question.RuleOf(question.Choices[0])}";
        var named = file.Draft.Grids.Where(g => g.Name.Length > 0 && about.Contains(g.Name, StringComparison.OrdinalIgnoreCase)).ToList();
        var kinds = (named.Count > 0 ? named : file.Draft.Grids).SelectMany(g => g.Lines).SelectMany(l => l.Cells)
            .SelectMany(c => c.Means).Select(m => m.Owner.Kind).Distinct().ToList();
        if (kinds is not [var kind]) return null;
        var words = DeviceKind.Find(kind)?.Label;
        return question.Choices.FirstOrDefault(c => string.Equals(c.Words, words, StringComparison.OrdinalIgnoreCase)) is { } choice
            ? question.RuleOf(choice) : null;
    }

    // Where a column says days and nothing else, it is told before results are left out.
    private static string? OfDays(CorpusFile file, ImportQuestion question)
    {
        var header = file.Draft.Grids.SelectMany(g => g.Lines).Where(l => l.Sort == LineSort.Header).SelectMany(l => l.Cells)
            .Select(c => c.Text).Where(t => t.Length > 0).Distinct()
            .FirstOrDefault(t => Below(file, Lower(t)).ToList() is { Count: > 0 } cells && cells.TrueForAll(c => c.Says(Said.Day)));
        return header is null ? null : question.RuleOf(new ImportChoice(Keys[Said.Day], LegendText.HeaderRule(header, Keys[Said.Day])));
    }

    private static string? OfWord(CorpusFile file, ImportQuestion question)
    {
        // The word stands in a cell, or in a heading above the rows that it speaks of.
        var meant = file.Draft.Grids.SelectMany(g => g.Lines.Select((l, n) => (Line: l, Below: g.Lines.Skip(n + 1).FirstOrDefault())))
            .SelectMany(p => p.Line.Cells.Where(c => c.Text.Length > 0 && Lower(c.Text) == Lower(question.Name))
                .SelectMany(c => c.Means.Length > 0 ? c.Means : p.Below?.Implied.ToArray() ?? []))
            .FirstOrDefault(m => m.What is Said.Kind or Said.Status);
        if (meant is null) return null;
        var words = meant.What == Said.Kind ? DeviceKind.Find(meant.Value.Text!)?.Label.ToLowerInvariant()
            : Enum.Parse<DeviceStatus>(meant.Value.Text!).InWords;
        return question.Choices.FirstOrDefault(c => c.Words == words) is { } choice ? question.RuleOf(choice) : null;
    }

    private static string Lower(string text) => text.Trim().ToLowerInvariant();

    /// <summary>How many files are whole after how many answers, and what is still asked where one is not.</summary>
    public static string Told(IReadOnlyList<Answered> answered)
    {
        var whole = answered.Where(a => a.Verdict.Fate == Fate.Whole).CountBy(a => a.Answers).OrderBy(c => c.Key)
            .Select(c => FormattableString.Invariant($"{c.Value} after {c.Key}"));
        var left = answered.SelectMany(a => a.Left.Distinct()).CountBy(l => l).OrderByDescending(c => c.Value)
            .Select(c => FormattableString.Invariant($"{c.Key} {c.Value}"));
        return string.Create(CultureInfo.InvariantCulture,
            $"Whole after answers: {answered.Count(a => a.Verdict.Fate == Fate.Whole)} of {answered.Count} ({string.Join(", ", whole)}); "
            + $"wrong values: {answered.Sum(a => a.Verdict.Wrong.Count)}; still open: {string.Join(", ", left)}");
    }

    public static IReadOnlyList<Answered> Try(IReadOnlyList<Shape> shapes, ulong seed) =>
        [.. CorpusFile.All(shapes, seed, 1000).Where(f => f.Damage is null).AsParallel().AsOrdered().Select(Of)];

    /// <summary>What was asked and answered in each file that is not whole without it, for who mends the reader.</summary>
    public static string Asked(IReadOnlyList<Answered> answered) => string.Join('\n', answered.Where(a => a.Answers > 0 || a.Left.Count > 0)
        .Select(a => $"{a.File.Name}: {a.Verdict.Fate}\n  {string.Join("\n  ", a.Log)}\n  wrong: "
            + $"{string.Join("; ", a.Verdict.Wrong)}\n  missing: {string.Join("; ", a.Verdict.Missing.Take(4))}"));

    /// <summary>Questions and answers, in order.</summary>
    private IReadOnlyList<string> Log { get; init; } = [];

    /// <summary>What came of it, for the record.</summary>
    public Tried AsTried => new(File, new([], [], []), Verdict);
}
