using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Curves;

/// <summary>What each column is taken for, by its header and by what a person said, and what is still to be asked.</summary>
internal sealed class CurveColumns
{
    // A frequency above it is in Hz whatever is said: no microphone is measured at 200 kHz and beyond (common practice, no source).
    private const double GreatestKHz = 200;

    private readonly CurveLines _lines;
    private readonly CurveAnswers _answers;
    private readonly string _name;
    private readonly List<CurveQuestion> _questions = [];

    public CurveColumns(CurveLines lines, CurveAnswers answers, string name)
    {
        (_lines, _answers, _name) = (lines, answers, name);
        Count = Width();
        Texts = CurveHead.Of(lines, Count, answers.DevicesOf);
        var preamble = CurveHead.Preamble(lines, Texts).ToList();
        IsOwn = lines.Said.Contains(CurveLines.Own);
        Sayings = new(preamble, IsOwn);
        Headers = [.. Texts.Select(t => HeaderWords.Of(t, answers.DevicesOf))];
        if (Headers.Any(h => h.Devices.Count > 0)) Headers = [.. Texts.Select(
            t => HeaderWords.Of(t, answers.DevicesOf, namesDevices: true))];
        Meanings = [.. Enumerable.Range(0, Count).Select(Meant)];
        Ask();
    }

    public int Count { get; }

    public bool IsOwn { get; }

    /// <summary>What the text beside the table says.</summary>
    public CurveSayings Sayings { get; }

    public IReadOnlyList<IReadOnlyList<string>> Texts { get; }

    public IReadOnlyList<HeaderMeaning> Headers { get; }

    /// <summary>What each is; null where it is asked.</summary>
    public ColumnMeaning?[] Meanings { get; }

    public IReadOnlyList<CurveQuestion> Questions => _questions;

    /// <summary>Index of the frequency; only where nothing is asked.</summary>
    public int Frequency => Array.FindIndex(Meanings, m => m?.Kind == ColumnKind.Frequency);

    public string Header(int column) => string.Join(" / ", Texts[column]);

    public bool IsAnswered(int column) => _answers.Columns.ContainsKey(column + 1);

    public IReadOnlyList<CurveColumn> Shown => [.. Enumerable.Range(0, Count).Select(i => new CurveColumn(
        i + 1, Header(i), [.. _lines.Figures.Take(3).Select(f => f.At(i).Text ?? "")], Meanings[i]?.Key))];

    // The columns that hold anything; blanks as separators hide a gap, so that all rows must be as wide.
    private int Width()
    {
        var width = _lines.Figures.Max(f => Array.FindLastIndex(f.Cells, c => !c.IsBlank) + 1);
        // A last column may be empty all the way down and still have its header.
        if (_lines.Separator != ' ' && _lines.Head.Count > 0)
        {
            var headed = Array.FindLastIndex(CurveLines.Cells(_lines.Head[^1].Text, _lines.Separator), c => c.Length > 0) + 1;
            if (headed > width && headed <= _lines.Figures.Max(f => f.Cells.Length)) width = headed;
        }
        if (_lines.Separator == ' ' && _lines.Figures.FirstOrDefault(f => f.Cells.Length != width) is { Cells: not null } ragged)
        {
            throw new SheetException(
                $"{_name}, row {ragged.Number}: {ragged.Cells.Length} figures where other rows have {width}; with blanks between "
                    + "columns none may be left out.");
        }
        if (_lines.Separator == ',' && _lines.Figures.All(f => f.Cells.All(c => !(c.Text ?? "").Contains('.', StringComparison.Ordinal)))
            && (_lines.Figures.Any(f => f.Cells.Length != _lines.Figures[0].Cells.Length)
                || _lines.Head.Any(h => CurveLines.Cells(h.Text, ',').Length is var n and > 1 && n < width && h == _lines.Head[^1])))
        {
            throw new SheetException(
                $"{_name}, row {_lines.Figures[0].Number}: a comma seems to part the columns and to be the decimal mark; save it with "
                    + "semicolons.");
        }
        return width;
    }

    private ColumnMeaning? Meant(int i)
    {
        var header = Headers[i];
        if (_answers.Columns.TryGetValue(i + 1, out var said)) return said with
        {
            AngleDeg = said.AngleDeg
            ?? (said.IsCurve ? header.AngleDeg : null)
        };
        // An uncertainty that is nowhere stated still belongs to the level before it, so that no other one is taken for its own.
        if (header.Meaning?.Kind != ColumnKind.Uncertainty && _lines.Figures.All(f => CurveNumber.IsMissing(f.At(i).Text ?? "")))
            return new(ColumnKind.Ignored);
        if (header.Meaning is not { } meaning) return null;
        if (meaning is { Kind: ColumnKind.Frequency, Unit: "" }) return Greatest(i) > GreatestKHz ? meaning with { Unit = "Hz" } : null;
        return Against(i, meaning) is null ? meaning : null;
    }

    // What the text beside the table says against the meaning of a header.
    private string? Against(int i, ColumnMeaning meaning) =>
        meaning.IsCurve ? Sayings.AgainstLevel(Header(i))
        : meaning.Kind == ColumnKind.Uncertainty ? Sayings.AgainstUncertainty(Header(i), meaning.Factor, FactorsByRow())
        : null;

    private List<double>? FactorsByRow()
    {
        var column = Array.FindIndex([.. Headers], h => h.Meaning?.Kind == ColumnKind.Factor);
        return column < 0 ? null : [.. Values(column).Distinct()];
    }

    private string Doubt(int i) => Headers[i].Meaning switch
    {
        null => Headers[i].Doubt!,
        { Kind: ColumnKind.Frequency } => $"its header '{Header(i)}' does not say Hz or kHz, and its figures fit both",
        { } meaning => Against(i, meaning)!,
    };

    private void Ask()
    {
        HeaderlessFrequency();
        var open = Enumerable.Range(0, Count).Where(i => Meanings[i] is null).ToList();
        foreach (var run in Runs(open)) _questions.Add(Of(run, $"What {(run.Count == 1 ? "is" : "are")} {Named(run)}? {Because(run)}"));
        if (_questions.Count > 0) return;
        var frequencies = Where(m => m.Kind == ColumnKind.Frequency);
        if (frequencies.Count != 1)
        {
            List<int> about = frequencies.Count == 0 ? [.. Enumerable.Range(0, Count)] : frequencies;
            _questions.Add(Of(about,
                $"Which column is the frequency? {(frequencies.Count == 0 ? "None says so" : $"{Named(about)} say so")}; leave the "
                    + "others out."));
            return;
        }
        var curves = Where(m => m.IsCurve);
        if (curves.Count == 0)
        {
            List<int> others = [.. Enumerable.Range(0, Count).Where(i => i != frequencies[0])];
            if (others.Count == 0) throw new SheetException($"{_name} has one column; frequency and level are needed.");
            _questions.Add(Of(others, $"Which column is the level? {Named(others)}: none says so."));
            return;
        }
        Alike(curves);
    }

    // Without any header the frequency is still known where one column alone rises or falls throughout and cannot be in kHz.
    private void HeaderlessFrequency()
    {
        if (Texts.Any(t => t.Count > 0) || Meanings.Any(m => m?.Kind == ColumnKind.Frequency)) return;
        var fits = Enumerable.Range(0, Count).Where(i => Meanings[i] is null && Rises(i) && Greatest(i) > GreatestKHz).ToList();
        if (fits.Count == 1) Meanings[fits[0]] = new(ColumnKind.Frequency, "Hz");
    }

    // Two curves of one device, angle and field, or of several fields: a certificate holds one of them.
    private void Alike(List<int> curves)
    {
        foreach (var group in curves.GroupBy(i => (Who(i), Meanings[i]!.AngleDeg)).Where(g => g.Count() > 1))
            _questions.Add(Of([.. group], $"Which of {Named([.. group])} is the curve? All of them would be; leave the others out."));
        if (_questions.Count > 0) return;
        if (curves.Select(i => Headers[i].Field).Where(f => f is not null and not "actuator").Distinct().Count() > 1)
            _questions.Add(Of(curves, $"{Named(curves)} are responses in several sound fields. Which one is it? Leave the others out."));
        if (curves.GroupBy(Who).Any(g => g.Count() > 1 && g.Any(i => Meanings[i]!.AngleDeg is null)))
            _questions.Add(Of(curves,
                $"{Named(curves)}: some hold for an angle of incidence and others do not say. Write level:30 for 30°."));
        if (curves.Exists(i => Headers[i].Serial is not null) && curves.Exists(i => Headers[i].Serial is null))
        {
            List<int> nameless = [.. curves.Where(i => Headers[i].Serial is null)];
            _questions.Add(new(
                Numbers(nameless), $"Other columns name a device, {Named(nameless)} none. Leave it out, or write the serial number "
                    + "above it.",
                [new("ignore", ColumnMeaning.InWords("ignore"))]));
        }
    }

    private string Who(int i) => Headers[i].Serial ?? "";

    private List<int> Where(Func<ColumnMeaning, bool> which) =>
        [.. Enumerable.Range(0, Count).Where(i => Meanings[i] is { } m && which(m))];

    private static IReadOnlyList<int> Numbers(IEnumerable<int> columns) => [.. columns.Select(i => i + 1)];

    private string Named(List<int> columns) => columns.Count switch
    {
        1 => $"column {columns[0] + 1} ({_lines.Figures[0].At(columns[0]).Text})",
        > 3 when columns[^1] - columns[0] == columns.Count - 1 => $"columns {columns[0] + 1} to {columns[^1] + 1}",
        _ => "columns " + string.Join(", ", columns.Select(i => i + 1)),
    };

    private string Because(List<int> run) =>
        $"Not known, since {(run.Count == 1 ? "" : "of the first ")}{Doubt(run[0])}.";

    // Neighbours that are open for one reason and name devices are one question.
    private List<List<int>> Runs(List<int> open)
    {
        var runs = new List<List<int>>();
        foreach (var i in open)
        {
            var isAlike = runs.Count > 0 && runs[^1][^1] == i - 1 && Headers[i].Serial is not null
                && Headers[runs[^1][0]].Serial is not null;
            if (isAlike) runs[^1].Add(i);
            else runs.Add([i]);
        }
        return runs;
    }

    private static CurveQuestion Of(IReadOnlyList<int> columns, string text) =>
        new(Numbers(columns), text, [.. ColumnMeaning.All.Select(a => new CurveChoice(a.Key, a.Words))]);

    private double Greatest(int i) => Values(i).DefaultIfEmpty(0).Max();

    private bool Rises(int i)
    {
        var v = Values(i).ToList();
        return v.Count == _lines.Figures.Count && v.Count > 1 && v[0] > 0
            && v.Zip(v.Skip(1)).All(p => p.First < p.Second == v[0] < v[1] && p.First != p.Second);
    }

    // Without a decision on marks yet: the smaller of both readings, so that nothing is taken for greater than it is.
    private IEnumerable<double> Values(int i) => _lines.Figures.Select(f => f.At(i).Text ?? "").Where(CurveNumber.IsNumber).Select(t =>
        Math.Min(CurveNumber.Read(t, '.')?.Value ?? double.MaxValue, CurveNumber.Read(t, ',')?.Value ?? double.MaxValue));
}
