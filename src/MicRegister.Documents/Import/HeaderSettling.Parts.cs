using System.Text.RegularExpressions;

namespace MicRegister.Documents.Import;

/// <content>Cells that hold several things: which, by the header's words and by what each part is in the whole column.</content>
internal sealed partial class HeaderSettling
{
    private const int FewestOfAPair = 3;

    private static readonly string[] Marks = [" / ", " - ", "; ", ", ", " | ", TableHeader.InBrackets, "/", " "];

    // Marks that a number or a name of one thing does not have in nearly all cells.
    private static readonly string[] PlainMarks = [" / ", "; ", " | ", TableHeader.InBrackets];

    private static readonly HashSet<Column> AreApart = [Column.Serial, Code, Column.Certificate, Column.Day, Column.Due, Column.Value,
        Column.Model, Column.Maker, Column.Uncertainty];

    private static readonly HashSet<Column> OneThing = [Column.Serial, Code, Column.Model, Column.Certificate];

    // "Calibrated / valid until" and "Model (maker)": each half is a header of its own.
    private static (Column First, Column Second)? HalvesOfHeader(string text) =>
        Halves(text) is [var a, var b] && OfHalf(a.Trim()) is { } first && OfHalf(b.Trim()) is { } second && first != second
            ? (first, second) : null;

    private static Column? OfHalf(string text) => HeaderReading.Of(text) is { IsPartly: false, Kind: null } reading
        ? reading.Column ?? (reading.Open == "?type" ? Column.Model : null) : null;

    private static string[] Halves(string text) => InBrackets().Match(text) is { Success: true } m
        && MeasuredText.Unit(m.Groups[2].Value) is null ? [m.Groups[1].Value, m.Groups[2].Value]
        : text.Split(" / ") is { Length: > 1 } apart ? apart
        : text.Split(['/', '&', '+', ',', ';', '|', '\n']);

    // "Kalibrierdatum/Gültig bis" above two days in each cell is neither of the two alone.
    private void SettleHalves()
    {
        foreach (var (i, halves) in header.SaidHalves)
        {
            if (Separator(i) is { } separator && IsFree(halves)) header.Divide(i, separator, halves, mapping);
            else Ask(i, Profile(i));
        }
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { Kind: null } reading || HalvesOfHeader(reading.Text) is not var (first, second)
                || Separator(i) is not { } separator) continue;
            // "Gerätetyp" is a kind or a model, as its cells say.
            var order = InOrder(i, separator, (first, second)) ?? (first != Column.Kind || second == Column.Model ? null
                : InOrder(i, separator, (Column.Model, second)));
            if (order is not { } halves) continue;
            if (reading.Column is { } column) header.Unsettle(column, i, mapping);
            if (IsFree(halves)) header.Divide(i, separator, halves, mapping);
            else if (reading.Column is { } whole) header.Settle(i, whole, mapping);
        }
    }

    private bool IsFree((Column First, Column Second) halves) => !header.Has(halves.First) && !header.Has(halves.Second);

    // What stands between the two things of a cell, in nearly all cells.
    private string? Separator(int i)
    {
        var texts = Texts(i);
        return Array.Find(Marks, s => IsMark(texts, s));
    }

    private static bool IsMark(List<string> texts, string mark) => texts.Count > 0
        && texts.Count(t => PartsOf(t, mark) is not null) * 10 >= texts.Count * 9;

    private static (string First, string Second)? PartsOf(string text, string mark) =>
        text.Split(mark) is [var a, var b] && a.Length > 0 && b.Length > 0 && (mark != TableHeader.InBrackets || b.EndsWith(')'))
            ? (a.Trim(), mark == TableHeader.InBrackets ? b.TrimEnd(' ', ')') : b.Trim()) : null;

    private List<string> Texts(int i) => [.. _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t))];

    // The two things in the order in which they stand, as far as what stands there can be them; null where it cannot.
    private (Column First, Column Second)? InOrder(int i, string mark, (Column First, Column Second) halves)
    {
        var parts = Texts(i).Select(t => PartsOf(t, mark)).OfType<(string First, string Second)>().ToList();
        List<string> first = [.. parts.Select(p => p.First)], second = [.. parts.Select(p => p.Second)];
        var swapped = (First: halves.Second, Second: halves.First);
        // A blank stands in all texts: between words it parts nothing.
        if (mark == " " && (!AreApart.Contains(halves.First) || !AreApart.Contains(halves.Second))) return null;
        bool Fit((Column First, Column Second) order) => FitsPart(order.First, first) && FitsPart(order.Second, second);
        if (halves.First == Column.Model && halves.Second == Column.Serial && first.Distinct().Count() > second.Distinct().Count()
            && Fit(swapped)) return swapped;
        return Fit(halves) ? halves : Fit(swapped) ? swapped : null;
    }

    // Whether parts of cells can be what a column holds.
    private static bool FitsPart(Column column, List<string> texts)
    {
        int digits = texts.Count(t => t.Any(char.IsAsciiDigit)), days = texts.Count(t => DayOf(new(t)) is not null);
        bool Nearly(int count) => count * 10 >= texts.Count * 9;
        return column == Column.Day || column == Column.Due || column == Column.Inspected ? Nearly(days)
            : column == Column.Value || column == Column.Uncertainty || column == Column.Factor
                ? Nearly(texts.Count(t => MeasuredText.TryRead(t, out _, out _)))
            : column == Column.Kind ? Nearly(texts.Count(t => Words.Kind(t) is not null))
            : column == Column.Status ? Nearly(texts.Count(t => Words.Status(t) is not null))
            : column == Column.Maker || column == Column.Laboratory ? digits * 2 < texts.Count
            : column == Column.Serial || column == Code || column == Column.Certificate
                ? Nearly(digits) && days * 2 < texts.Count && !texts.Exists(IsWithUnit)
            : column != Column.Model || (days * 2 < texts.Count && !texts.TrueForAll(IsWithUnit));
    }

    private static bool IsWithUnit(string text) => MeasuredText.TryRead(text, out _, out var unit) && unit is not null;

    // "2706894 / INV-2040" is no serial number, and "MK-12 (Orlevik)" no model, whoever says so: one part of it is.
    private void CheckParts()
    {
        foreach (var (column, i) in header.Places.ToList())
        {
            if (!OneThing.Contains(column) || header.Divided.ContainsKey(i)
                || (column == Column.Model && HoldsMakerAndModel(i) && header.Has(Column.Maker))) continue;
            var texts = Texts(i);
            // Numbers behind commas are several numbers.
            var marks = column == Column.Serial ? PlainMarks : [.. PlainMarks, ", "];
            if (texts.Count < FewestOfAPair || Array.Find(marks, m => IsMark(texts, m)) is not { } mark) continue;
            header.Unsettle(column, i, mapping);
            _questions.RemoveAll(q => q.Name == header.Row.At(i).Shown);
            AskParts(i, mark);
        }
    }

    // "K25-6871 (2025-05-09)" where no other column holds a day, and "S 12 / INV-7" where none holds a number.
    private bool HoldsWhatIsSought(int i)
    {
        var texts = Texts(i);
        if (texts.Count < FewestOfAPair || Array.Find(PlainMarks, m => IsMark(texts, m)) is not { } mark) return false;
        var parts = texts.Select(t => PartsOf(t, mark)).OfType<(string First, string Second)>().ToList();
        return new[] { Column.Day, Column.Serial }.Any(c => !header.Has(c)
            && (FitsPart(c, [.. parts.Select(p => p.First)]) || FitsPart(c, [.. parts.Select(p => p.Second)])));
    }

    // What the two parts of each cell may be, by what they are and by what no other column holds.
    private void AskParts(int i, string mark)
    {
        var text = header.Row.At(i).Shown;
        var parts = Texts(i).Select(t => PartsOf(t, mark)).OfType<(string First, string Second)>().ToList();
        List<string> first = [.. parts.Select(p => p.First)], second = [.. parts.Select(p => p.Second)];
        Column[] sought = [Column.Serial, Code, Column.Model, Column.Maker, Column.Certificate, Column.Day, Column.Due, Column.Laboratory];
        var open = sought.Where(c => !header.Has(c)).ToList();
        // Rows wait where one part may be the number or the day that they need.
        header.IsContended |= (!header.Has(Column.Serial) && FitsPart(Column.Serial, first))
            || (!header.Has(Column.Day) && header.Has(Column.Value) && (FitsPart(Column.Day, first) || FitsPart(Column.Day, second)));
        var pairs = open.Where(c => FitsPart(c, first))
            .SelectMany(a => open.Where(b => b != a && FitsPart(b, second)).Select(b => Column.Pair(a, b))).Take(MostPairs);
        var question = new ImportQuestion("column " + text.ToLowerInvariant(), sheet,
            $"Under '{text}' each cell holds two things ({Profile(i).Shown}). What do its parts mean?",
            [.. pairs.Append(Column.Noted).Append(Column.LeftOut)
                .Select(c => new ImportChoice(c.Meaning, LegendText.HeaderRule(text, c.Key)))])
        { Name = text, Rows = Profile(i).Filled };
        foreach (var example in Profile(i).First) question.Seen(example);
        _questions.Add(question);
    }

    private const int MostPairs = 12;

    // "Sound calibrator Orlevik CAL-94" in nearly all cells, and no other column of kinds, makers or models.
    private void SettleThings()
    {
        if (header.Described is not null) return;
        var places = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { Kind: null, Year: null, Index: null } r
            && r.Column != Column.Note && r.Column != Column.Noted && HoldsThings(i)
            && new[] { Column.Kind, Column.Maker, Column.Model }.All(c => !header.Places.TryGetValue(c, out var at) || at == i)).ToList();
        if (places is not [var only]) return;
        foreach (var column in header.Places.Where(p => p.Value == only).Select(p => p.Key).ToList())
            header.Unsettle(column, only, mapping);
        (header.Described, header.IsThing) = (only, true);
        header.Guessed.Add((only, "Kind, maker and model"));
    }

    // Each model has one maker, several devices share a model, and what stands before it is a name and nothing that is known.
    private bool HoldsThings(int i)
    {
        var texts = Texts(i);
        if (texts.Count < FewestOfAPair) return false;
        var things = texts.Select(ThingText.Of).OfType<RowHeading>().ToList();
        if (things.Count * 10 < texts.Count * 9) return false;
        var makers = things.Where(t => t.Says.ContainsKey(Column.Maker)).ToList();
        return makers.Count == things.Count && makers.GroupBy(t => t.Says[Column.Model])
            .All(g => g.Select(t => t.Says[Column.Maker]).Distinct().Count() == 1)
            && things.Select(t => t.Says[Column.Model]).Distinct().Count() is var models
            && (models < things.Count || things.Count < FewestThatTell);
    }

    private bool Tells(Column column) => header.Has(column)
        || (header.IsThing && (column == Column.Kind || column == Column.Maker || column == Column.Model));

    // "Manufacturer P/N: MK-50" names no maker.
    private bool HoldsOneWord(int i) => Texts(i).TrueForAll(t => t.Any(char.IsAsciiDigit) && !t.Contains(' ', StringComparison.Ordinal));

    private bool HoldsMakerAndModel(int i) => Texts(i) is { Count: > 0 } texts
        && texts.TrueForAll(t => RowHeading.MakerAndModel(t) is not null);

    [GeneratedRegex(@"^([^()\[\]]+?)\s*[(\[]\s*([^()\[\]]+?)\s*[)\]]\s*$")]
    private static partial Regex InBrackets();
}
