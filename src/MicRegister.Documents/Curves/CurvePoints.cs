using System.Globalization;
using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Curves;

/// <summary>The curves of a file whose columns and figures are known, with what was taken how.</summary>
internal sealed class CurvePoints
{
    private const double UsualHz = 250;
    private const double UsualFactor = 2;

    // Relative levels lie near 0 in the middle of the range; a sensitivity in dB re 1 V/Pa lies from -70 to -20 (common practice, no
    // source).
    private const double FarFromZeroDb = 6;
    private const double GreatGap = 2.1;

    private readonly CurveLines _lines;
    private readonly CurveColumns _columns;
    private readonly CurveFigures _figures;
    private readonly CurveAnswers _answers;
    private readonly string _name;
    private readonly List<string> _notes = [];
    private readonly List<CurveQuestion> _questions = [];
    private readonly int[] _curves;

    public CurvePoints(CurveLines lines, CurveColumns columns, CurveFigures figures, CurveAnswers answers, string name)
    {
        (_lines, _columns, _figures, _answers, _name) = (lines, columns, figures, answers, name);
        _curves = [.. Enumerable.Range(0, columns.Count).Where(i => columns.Meanings[i]!.IsCurve)];
        if (figures.Note is { } note) _notes.Add(note);
        var uncertainties = Uncertainties();
        AskOfUnits(uncertainties);
        foreach (var i in _curves) AskOfLevel(i);
        if (_questions.Count > 0) return;
        List<ReadCurve> made = [];
        foreach (var i in _curves)
        {
            if (Made(i, uncertainties.GetValueOrDefault(i, -1)) is { } curve) made.Add(curve);
        }
        if (made.Count == 0) throw new SheetException($"{name} holds no point; rows of frequency and level are read.");
        Curves = [.. made.OrderBy(c => c.Serial, StringComparer.Ordinal).ThenBy(c => c.AngleDeg)];
        SayWhatElse();
    }

    public IReadOnlyList<ReadCurve> Curves { get; } = [];

    public IReadOnlyList<CurveQuestion> Questions => _questions;

    public IReadOnlyList<string> Notes => _notes;

    private ColumnMeaning Meaning(int i) => _columns.Meanings[i]!;

    private string Named(int i) => _columns.Header(i) is { Length: > 0 } header
        ? FormattableString.Invariant($"column {i + 1} ({header})") : FormattableString.Invariant($"column {i + 1}");

    // Which uncertainty belongs to which curve: one behind all of them to all, otherwise each to the curve right before it.
    private Dictionary<int, int> Uncertainties()
    {
        List<int> all = [.. Enumerable.Range(0, _columns.Count).Where(i => Meaning(i).Kind == ColumnKind.Uncertainty)];
        var of = new Dictionary<int, int>();
        if (all.Count == 1 && (_curves.Length == 1 || all[0] > _curves[^1]) && _columns.Headers[all[0]].Serial is null)
        {
            foreach (var i in _curves) of[i] = all[0];
            return of;
        }
        foreach (var u in all)
        {
            var serial = _columns.Headers[u].Serial;
            var mine = serial is null ? _curves.LastOrDefault(i => i < u, -1)
                : _curves.Count(i => _columns.Headers[i].Serial == serial) == 1 ? _curves.First(i => _columns.Headers[i].Serial == serial)
                    : -1;
            if (mine < 0 || !of.TryAdd(mine, u))
            {
                _questions.Add(new(
                    [u + 1], $"Of which curve is the uncertainty in {Named(u)}? It stands right behind none; leave it out, or move it "
                        + "behind its level.",
                    Choices("ignore")));
            }
        }
        return of;
    }

    // Beside mV/Pa a bare figure may be dB, % or mV/Pa.
    private void AskOfUnits(Dictionary<int, int> uncertainties)
    {
        foreach (var (i, u) in uncertainties)
        {
            if (Meaning(u).Unit.Length > 0 || Meaning(i) is not { Kind: ColumnKind.Sensitivity, Unit: "mV/Pa" or "V/Pa" } level) continue;
            _questions.Add(new([u + 1], $"Is the uncertainty in {Named(u)} in dB, % or {level.Unit}?",
                Choices("u", "u-percent", "u-linear", "ignore")));
        }
    }

    private static IReadOnlyList<CurveChoice> Choices(params string[] keys) =>
        [.. keys.Select(k => new CurveChoice(k, ColumnMeaning.InWords(k)))];

    private void AskOfLevel(int i)
    {
        if (Meaning(i).Kind != ColumnKind.Level || _columns.IsAnswered(i) || _columns.IsOwn) return;
        var middle = Rows(i).Where(r => r.Hz is >= 200 and <= 1300).Select(r => Math.Abs(r.Value)).Order().ToList();
        if (middle.Count == 0 || middle[middle.Count / 2] <= FarFromZeroDb) return;
        var far = QuantityText.Of(middle[middle.Count / 2], "dB", 1);
        _questions.Add(new(
            [i + 1], FormattableString.Invariant(
                $"Is {Named(i)} relative to a reference frequency? Its levels lie about {far} from 0 there."),
            Choices("level", "db-re-v/pa", "correction", "ignore")));
    }

    private IEnumerable<(int Row, double Hz, double Value)> Rows(int column)
    {
        for (var r = 0; r < _lines.Figures.Count; r++)
        {
            if (_figures.At(r, column) is { } value) yield return (r, _figures.At(r, _columns.Frequency)!.Value, value);
        }
    }

    private ReadCurve? Made(int i, int uncertainty)
    {
        var (meaning, header) = (Meaning(i), _columns.Headers[i]);
        var points = new List<CurvePoint>();
        foreach (var (row, hz, value) in Rows(i)) points.Add(
            new(hz, Level(i, row, value), uncertainty < 0 ? null : Expanded(uncertainty, i, row, value)));
        Missing(i, "level", "is left out");
        if (points.Count == 0)
        {
            _notes.Add($"There is no figure in {Named(i)}: it is left out.");
            return null;
        }
        points.Sort((a, b) => a.Hz.CompareTo(b.Hz));
        Gaps(i, points);
        var curve = new ResponseCurve(points);
        double? sensitivity = null, at = null;
        if (meaning.Kind == ColumnKind.Sensitivity)
        {
            at = Reference(curve, i);
            sensitivity = curve.At(at.Value)!.Value;
            curve = curve.Less(sensitivity.Value);
            var level = QuantityText.Of(sensitivity, "dB", 3);
            _notes.Add(FormattableString.Invariant(
                $"Sensitivities in {Named(i)} give levels relative to {at:0.##} Hz, where it is {level} re 1 V/Pa."));
        }
        if (meaning.Kind == ColumnKind.Correction) _notes.Add($"Corrections in {Named(i)} are taken as a response with the sign turned.");
        return new(
            header.Devices.Count == 1 ? header.Devices[0] : null, header.Serial, meaning.AngleDeg,
                header.Field is "actuator" ? null : header.Field, curve,
            sensitivity, at);
    }

    private double Level(int i, int row, double value)
    {
        switch (Meaning(i))
        {
            case { Kind: ColumnKind.Correction }:
                return 0 - value;
            case { Kind: ColumnKind.Sensitivity, Unit: "mV/Pa" or "V/Pa" } m:
                if (!(value > 0)) throw Wrong(row, i, "a sensitivity above 0");
                return 20 * Math.Log10(m.Unit == "mV/Pa" ? value / 1000 : value);
            default:
                return value;
        }
    }

    // U with k = 2 in dB.
    private double? Expanded(int u, int i, int row, double value)
    {
        // Nothing is known without any uncertainty: 0 says that none is stated.
        if (_figures.At(row, u) is not { } stated || stated == 0) return null;
        var meaning = Meaning(u);
        var unit = meaning.Unit;
        if (unit == "linear" && !(Meaning(i) is { Kind: ColumnKind.Sensitivity, Unit: "mV/Pa" or "V/Pa" }))
            throw Wrong(row, u, "an uncertainty in dB or %, beside levels in dB");
        var share = unit switch { "%" => stated / 100, "linear" => stated / value, _ => double.NaN };
        var db = double.IsNaN(share) ? stated : 20 * Math.Log10(1 + share);
        return db * UsualFactor / Factor(u, row);
    }

    private double Factor(int u, int row)
    {
        var column = Array.FindIndex(_columns.Meanings, m => m!.Kind == ColumnKind.Factor);
        if (column >= 0)
        {
            if (_figures.At(row, column) is not ({ } k and >= ColumnMeaning.LeastFactor)) throw Wrong(row, column,
                FormattableString.Invariant($"a number from {ColumnMeaning.LeastFactor} to {ColumnMeaning.GreatestFactor}"));
            // Two factors for one uncertainty: nobody knows which of them it was multiplied by.
            if (!_columns.IsAnswered(u) && Meaning(u).Factor is { } headed && headed != k)
                throw Wrong(row, column, FormattableString.Invariant($"the k = {headed} that the header of {Named(u)} states"));
            return k;
        }
        var factor = Meaning(u).Factor ?? (_columns.Sayings.Factors.Count == 1 ? _columns.Sayings.Factors[0] : UsualFactor);
        return factor is >= ColumnMeaning.LeastFactor and <= ColumnMeaning.GreatestFactor ? factor
            : throw new SheetException(string.Create(
                CultureInfo.InvariantCulture,
                $"{_name}: coverage factor {factor} of {Named(u)}: allowed is a number from {ColumnMeaning.LeastFactor} to "
                    + $"{ColumnMeaning.GreatestFactor}."));
    }

    // The frequency of the certificate, or where none is stated 250 Hz or what is nearest to it.
    private double Reference(ResponseCurve curve, int i)
    {
        if (_answers.ReferenceHz is { } told)
        {
            return curve.At(told) is not null ? told : throw new SheetException(FormattableString.Invariant(
                $"{_name}: {Named(i)} holds sensitivities, but none at {told:0.##} Hz, to which levels are relative."));
        }
        return curve.At(UsualHz) is not null ? UsualHz : curve.Points.MinBy(p => Math.Abs(Math.Log(p.Hz / UsualHz))).Hz;
    }

    private void Missing(int column, string what, string becomes)
    {
        List<string> rows = [.. Enumerable.Range(0, _lines.Figures.Count).Where(r => _figures.At(r, column) is null)
            .Select(r => $"row {_lines.Figures[r].Number} ('{_lines.Figures[r].At(column).Text}')")];
        if (rows.Count == 0) return;
        var shown = string.Join(", ", rows.Take(5)) + (rows.Count > 5 ? $" and {rows.Count - 5} more" : "");
        _notes.Add($"No {what} in {Named(column)}, {shown}: it {becomes}.");
    }

    private void Gaps(int i, List<CurvePoint> points)
    {
        List<string> gaps = [.. points.Zip(points.Skip(1)).Where(p => p.Second.Hz / p.First.Hz > GreatGap)
            .Select(p => FormattableString.Invariant($"from {p.First.Hz:0.##} to {p.Second.Hz:0.##} Hz"))];
        if (gaps.Count == 0) return;
        _notes.Add($"There is no point of {Named(i)} {string.Join(", ", gaps.Take(5))}{(gaps.Count > 5 ? " and elsewhere" : "")}: "
            + "levels between lie on a line.");
    }

    private void SayWhatElse()
    {
        for (var i = 0; i < _columns.Count; i++)
        {
            if (Meaning(i).Kind == ColumnKind.Phase) _notes.Add($"The phase in {Named(i)} is not kept.");
            if (Meaning(i).Kind == ColumnKind.Level && StatesNoUnit(i)) _notes.Add($"No unit is stated for {Named(i)}: dB is taken.");
            if (Meaning(i).Kind == ColumnKind.Ignored) _notes.Add($"Left out: {Named(i)}.");
            if (Meaning(i).Kind != ColumnKind.Uncertainty) continue;
            Missing(i, "uncertainty", "is not known there");
            var zeros = Enumerable.Range(0, _lines.Figures.Count).Count(r => _figures.At(r, i) == 0);
            if (zeros > 0) _notes.Add($"The uncertainty in {Named(i)} is 0 in {zeros} {(zeros == 1 ? "row" : "rows")}: it is not known there.");
            if (Meaning(i).Factor is null && _columns.Sayings.Factors.Count == 0
                && _columns.Meanings.All(m => m!.Kind != ColumnKind.Factor))
                _notes.Add($"No coverage factor is stated for {Named(i)}: k = 2 is taken.");
        }
        foreach (var (row, text) in _lines.After.Take(3)) _notes.Add($"Row {row} is no row of figures and was left out: {text}");
        foreach (var i in _curves.Where(i => _columns.Headers[i].Serial is not null))
        {
            var (serial, devices) = (_columns.Headers[i].Serial, _columns.Headers[i].Devices.Count);
            if (devices == 0) _notes.Add($"No device is known as {serial}: {Named(i)} belongs to none.");
            if (devices > 1) _notes.Add($"{devices} devices are known as {serial}: {Named(i)} belongs to none.");
        }
    }

    private bool StatesNoUnit(int i) => !_columns.IsAnswered(i) && !_columns.IsOwn
        && !_columns.Header(i).Contains("dB", StringComparison.OrdinalIgnoreCase)
        && !_lines.Figures.Any(f => (f.At(i).Text ?? "").Contains("dB", StringComparison.OrdinalIgnoreCase));

    private SheetException Wrong(int row, int column, string allowed) => new(string.Create(
        CultureInfo.InvariantCulture,
        $"{_name}, row {_lines.Figures[row].Number}, column {column + 1}: '{_lines.Figures[row].At(column).Text}': allowed is {allowed}."));
}
