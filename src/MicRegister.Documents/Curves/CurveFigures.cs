using System.Globalization;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Curves;

/// <summary>The figures of a curve file, once it is decided over the whole of it what commas and points are.</summary>
/// <remarks>
/// One mark is the decimal mark of a file. A frequency such as 1,250 beside levels such as 0,1 can still be 1250: that is decided by which
/// reading makes the frequencies rise or fall throughout, and asked where both do. Nominal third octaves do not tell, since they repeat
/// with each decade.
/// </remarks>
internal sealed class CurveFigures
{
    private static readonly char[] BothMarks = ['.', ','];

    private const double LeastHz = 0.1;
    private const double GreatestHz = 1e6;

    // What no microphone reaches: a reading beyond it is not the one that was meant (common practice, no source).
    private const double UnlikelyHz = 200_000;

    // Every limit of a level and its uncertainty lies below 1000, so that figures beside the frequency are never parted thousands.
    private readonly CurveLines _lines;
    private readonly CurveColumns _columns;
    private readonly string _name;
    private readonly double?[][] _values;

    public CurveFigures(CurveLines lines, CurveColumns columns, CurveAnswers answers, string name)
    {
        (_lines, _columns, _name) = (lines, columns, name);
        _values = new double?[columns.Count][];
        var read = Enumerable.Range(0, columns.Count).Where(i => i != columns.Frequency && Limit(i) is not null).ToList();
        var ways = Ways(Marks(read));
        var good = ways.Where(w => w.FirstWrong < 0).DistinctBy(w => string.Join(' ', w.Hz)).ToList();
        if (good.Count > 1) good.RemoveAll(w => w.As == NumberMarks.Thousands && w.Hz.Max() > UnlikelyHz);
        if (good.Count > 1 && answers.Marks is null)
        {
            var (cell, row) = _lines.Figures.Select(f => (f.At(columns.Frequency).Text!, f.Number)).First(f => CurveNumber.IsOpen(f.Item1));
            Question = new(
                [], $"Is the frequency '{cell}' in row {row} {Shown(cell, false)} or {Shown(cell, true)}? Both fit all of the file.",
                [new("decimal", $"'{cell}' is {Shown(cell, false)}"), new("thousands", $"'{cell}' is {Shown(cell, true)}")]);
            return;
        }
        var chosen = good.Count > 1 ? good.First(w => w.As == answers.Marks) : good.Count == 1 ? good[0] : throw Wrong(ways[0]);
        if (chosen.IsMixed && good.Count == 1)
        {
            Note = "The mark that is decimal elsewhere parts thousands in the frequencies: only so they rise or fall throughout.";
        }
        _values[columns.Frequency] = [.. chosen.Hz.Select(h => (double?)h)];
        foreach (var i in read) _values[i] = [.. _lines.Figures.Select(f => Value(f, i, chosen.Mark))];
    }

    public CurveQuestion? Question { get; }

    /// <summary>What was decided and may surprise.</summary>
    public string? Note { get; }

    /// <summary>The figure of a row and column, in the unit of the column, of frequencies in Hz; null where none stands there.</summary>
    public double? At(int row, int column) => _values[column][row];

    // Decimal marks with which all figures beside the frequency can be read; both where they have no mark or can be read both ways.
    private List<char> Marks(List<int> read)
    {
        // Where a comma parts the columns it is no decimal mark, unless cells are quoted.
        var isComma = _lines.Separator == ','
            && !_lines.Figures.Any(f => f.Cells.Any(c => (c.Text ?? "").Contains(',', StringComparison.Ordinal)));
        List<char> marks = [.. (isComma ? BothMarks[..1] : BothMarks).Where(
            m => read.All(i => _lines.Figures.All(f => Fits(f.At(i).Text ?? "", i, m))))];
        if (marks.Count > 0) return marks;
        foreach (var f in _lines.Figures)
        {
            foreach (var i in read)
            {
                var text = f.At(i).Text ?? "";
                if (!Fits(text, i, '.') && !Fits(text, i, ',')) throw Refused(f, i, Allowed(i));
            }
        }
        var (row, column) = _lines.Figures.SelectMany(f => read.Select(i => (f, i))).First(x => !Fits(x.f.At(x.i).Text ?? "", x.i, '.'));
        throw Refused(row, column, "one decimal mark in all of the file; here both a comma and a point are");
    }

    private bool Fits(string text, int column, char mark) =>
        CurveNumber.IsMissing(text)
            || (CurveNumber.Read(text, mark) is var (value, unit) && Math.Abs(value) <= Limit(column) && IsUnit(unit, column)
            && (value >= 0 || _columns.Meanings[column]!.Kind is not (ColumnKind.Uncertainty or ColumnKind.Factor)));

    private bool IsUnit(string unit, int column) => unit.Length == 0 || unit == _columns.Meanings[column]!.Unit;

    private double? Limit(int column) => _columns.Meanings[column] switch
    {
        { Kind: ColumnKind.Level or ColumnKind.Correction } => 200,
        { Kind: ColumnKind.Sensitivity, Unit: "mV/Pa" } => 999,
        { Kind: ColumnKind.Sensitivity, Unit: "V/Pa" } => 5,
        { Kind: ColumnKind.Sensitivity } => 200,
        { Kind: ColumnKind.Uncertainty, Unit: "linear" } => 999,
        { Kind: ColumnKind.Uncertainty } => 50,
        { Kind: ColumnKind.Factor } => ColumnMeaning.GreatestFactor,
        _ => null,
    };

    private string Allowed(int column) => _columns.Meanings[column] switch
    {
        { Kind: ColumnKind.Uncertainty } m => FormattableString.Invariant($"a number from 0 to {Limit(column)} {m.Unit}"),
        { Kind: ColumnKind.Factor } =>
            FormattableString.Invariant($"a number from {ColumnMeaning.LeastFactor} to {ColumnMeaning.GreatestFactor}"),
        { Kind: ColumnKind.Sensitivity, Unit: not "dB re 1 V/Pa" } m =>
            FormattableString.Invariant($"a number above 0 to {Limit(column)} {m.Unit}"),
        _ => FormattableString.Invariant($"a number from -{Limit(column)} to {Limit(column)} dB"),
    };

    // The ways to read the frequencies where the file's decimal mark is known, or where both are possible.
    private List<Way> Ways(List<char> marks)
    {
        var texts = _lines.Figures.Select(f => f.At(_columns.Frequency).Text ?? "").ToList();
        var open = texts.Find(CurveNumber.IsOpen);
        bool Has(char mark) => open?.Contains(mark, StringComparison.Ordinal) == true;
        List<Way> ways = [.. marks.Select(m => new Way(
            m, Has(m) ? NumberMarks.Decimal : NumberMarks.Thousands, false, Read(texts, t => CurveNumber.Read(t, m))))];
        ways.AddRange(marks.Where(Has).Select(
            m => new Way(m, NumberMarks.Thousands, true, Read(texts, t => CurveNumber.ReadThousands(t, m)))));
        return ways;
    }

    private List<double> Read(List<string> texts, Func<string, (double Value, string Unit)?> read)
    {
        var scale = _columns.Meanings[_columns.Frequency]!.Unit == "kHz" ? 1000.0 : 1;
        return [.. texts.Select(t => read(t) is var (value, unit) && unit is "" or "Hz" or "kHz"
            ? Scaled(value, unit switch { "Hz" => 1, "kHz" => 1000, _ => scale }) : double.NaN)];
    }

    // 0.315 kHz is 315 Hz, not 315.00000000000006.
    private static double Scaled(double value, double scale) =>
        Math.Abs(value) < 1e9 ? (double)((decimal)value * (decimal)scale) : double.NaN;

    private sealed record Way(char Mark, NumberMarks As, bool IsMixed, IReadOnlyList<double> Hz)
    {
        public int FirstWrong
        {
            get
            {
                for (var i = 0; i < Hz.Count; i++)
                {
                    if (!(Hz[i] is >= LeastHz and <= GreatestHz)) return i;
                    if (i > 0 && (Hz[i] == Hz[i - 1] || Hz[i] > Hz[i - 1] != Hz[1] > Hz[0])) return i;
                }
                return -1;
            }
        }
    }

    private SheetException Wrong(Way way)
    {
        var i = way.FirstWrong;
        var row = _lines.Figures[i];
        if (!(way.Hz[i] is >= LeastHz and <= GreatestHz)) return Refused(row, _columns.Frequency, "a number from 0.1 to 1000000 Hz");
        var twice = way.Hz.Take(i).ToList().IndexOf(way.Hz[i]);
        return twice >= 0
            ? new(string.Create(CultureInfo.InvariantCulture,
                $"{_name} states {way.Hz[i]} Hz twice, in rows {_lines.Figures[twice].Number} and {row.Number}."))
            : Refused(row, _columns.Frequency, "frequencies that rise or fall through the whole file, in one unit");
    }

    private static double? Value(SheetRow row, int column, char mark) =>
        CurveNumber.Read(row.At(column).Text ?? "", mark) is var (value, _) ? value : null;

    private SheetException Refused(SheetRow row, int column, string allowed) => new(
        $"{_name}, row {row.Number}, column {column + 1} ({Word(column)}): '{row.At(column).Text}': allowed is {allowed}.");

    private string Word(int column) => _columns.Meanings[column]!.Kind switch
    {
        ColumnKind.Frequency => "frequency",
        ColumnKind.Uncertainty => "uncertainty",
        ColumnKind.Factor => "coverage factor",
        ColumnKind.Correction => "correction",
        ColumnKind.Sensitivity => "sensitivity",
        _ => "level",
    };

    private static string Shown(string cell, bool thousands)
    {
        var mark = cell.Contains(',', StringComparison.Ordinal) ? ',' : '.';
        var read = thousands ? CurveNumber.ReadThousands(cell, mark) : CurveNumber.Read(cell, mark);
        return read!.Value.Value.ToString("R", CultureInfo.InvariantCulture);
    }
}
