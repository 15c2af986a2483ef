using System.Globalization;
using System.Text;
using MicRegister.Documents.Curves;

namespace MicRegister.Documents.Tests.Curves;

/// <summary>A curve file as somebody could write it, with what it truly says and what its writer would answer when asked.</summary>
/// <param name="Text">The file.</param>
/// <param name="Bytes">The file as it is stored.</param>
/// <param name="Truth">Level and U (k = 2) by device, angle and frequency.</param>
/// <param name="Answers">What each column is, by number from 1.</param>
/// <param name="Marks">What its commas and points are.</param>
internal sealed record MessyCurve(
    string Text, byte[] Bytes, IReadOnlyDictionary<(string? Serial, double? AngleDeg, double Hz),
        (double LevelDb, double? ExpandedDb)> Truth,
    IReadOnlyDictionary<int, string> Answers, NumberMarks Marks);

/// <summary>Draws curve files by a seed: separators, marks, heads, comments, order of columns, devices, angles, corrections, phases,
/// encodings.</summary>
internal sealed class MessyCurves(int seed)
{
    private static readonly double[] Nominal =
    [
        20, 25, 31.5, 40, 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000,
            6300,
        8000, 10000, 12500, 16000, 20000,
    ];

    private static readonly string[] Serials = ["41001", "41002", "41003"];

    private readonly Random _random = new(seed);

    private enum Sort
    {
        Frequency,
        Level,
        Correction,
        DbRePa,
        Linear,
        Uncertainty,
        Phase,
        Other,
    }

    private sealed record Drawn(
        Sort Sort, string Header, string Unit, string Answer, string? Serial = null, double? Angle = null, double Factor = 2);

    public MessyCurve Next()
    {
        var separator = Of('\t', ';', ',', ' ', '|');
        var comma = separator != ',' && Of(true, false);
        var thousands = separator != ',' && Chance(0.25);
        var isKHz = Chance(0.25);
        var decimals = Of(-1, 2, 3);
        var (from, to) = (_random.Next(0, 12), _random.Next(18, Nominal.Length));
        if (Chance(0.15)) from = 18; // high frequencies alone
        List<double> hz = [.. Nominal[Math.Min(from, to - 4)..to]];
        var columns = Columns(isKHz);
        if (Chance(0.2)) columns = [.. columns.Skip(1).Take(1), columns[0], .. columns.Skip(2)];
        if (Chance(0.2)) hz.Reverse();
        var truth = new Dictionary<(string?, double?, double), (double, double?)>();
        var rows = new List<string[]>();
        var sensitivity = Math.Pow(10, (_random.NextDouble() * 1.5) - 2.5); // V/Pa
        foreach (var f in hz) rows.Add(Row(f, columns, truth, sensitivity, comma, thousands, isKHz, decimals, separator));
        Relative(truth, columns, hz);
        var text = new StringBuilder();
        Head(text, columns, separator, comma);
        foreach (var row in rows) text.AppendLine(string.Join(separator == ' ' ? "   " : separator.ToString(), row));
        if (Chance(0.1)) text.AppendLine().AppendLine("printed by the laboratory");
        var whole = text.ToString();
        return new(
            whole, Stored(whole), truth.ToDictionary(t => t.Key, t => t.Value),
                columns.Select((c, i) => (i, c.Answer)).ToDictionary(x => x.i + 1, x => x.Answer),
            thousands ? NumberMarks.Thousands : NumberMarks.Decimal);
    }

    private List<Drawn> Columns(bool isKHz)
    {
        var unit = isKHz ? "kHz" : "Hz";
        List<Drawn> columns = [new(
            Sort.Frequency, Of("Frequency", "f", "Freq.", "Frequenz", "Nominal frequency", "Fréquence", "x"), unit, isKHz ? "khz" : "hz")];
        var layout = _random.Next(0, 4);
        if (layout == 0)
        {
            foreach (var s in Serials.Take(_random.Next(2, 4))) columns.Add(
                new(Sort.Level, Of(s, "SN " + s, "S/N: " + s), "dB", "level", s));
            return columns;
        }
        if (layout == 1)
        {
            double[] angles = Of<double[]>([0, 30, 60, 90], [0, 90], [0, 22.5, 45]);
            var deg = Of("°", " deg", "°");
            foreach (var a in angles)
                columns.Add(new(Sort.Level, FormattableString.Invariant($"{a}{deg}"), "dB", FormattableString.Invariant($"level:{a}"),
                    Angle: a));
            if (Chance(0.5)) columns.Add(Uncertainty());
            return columns;
        }
        columns.Add(_random.Next(0, 6) switch
        {
            0 => new(Sort.Correction, Of("Correction to be added", "Correction", "Korrektur", "Add to reading", "Comp"), "dB",
                "correction"),
            1 => new(Sort.DbRePa, Of("Sensitivity", "Level", "S"), "dB re 1 V/Pa", "db-re-v/pa"),
            2 => new(Sort.Linear, Of("Sensitivity", "Empfindlichkeit", "Response"), "mV/Pa", "mv/pa"),
            _ => new(Sort.Level, Of(
                "Level", "Response", "Free field response", "Pegel", "Frequenzgang", "Pressure", "L", "Antwort", "Gang"), "dB", "level"),
        });
        if (Chance(0.5)) columns.Add(Uncertainty());
        if (Chance(0.35)) columns.Insert(
            _random.Next(2, columns.Count + 1), new(Sort.Phase, Of("Phase", "Phase", "phi", "Phasengang"), Of("deg", "°"), "phase"));
        if (Chance(0.2)) columns.Add(new(Sort.Other, Of("Limit +", "Tolerance", "Old curve", "Noise", "Std. dev."), "dB", "ignore"));
        return columns;
    }

    private Drawn Uncertainty()
    {
        var k = Of(1.0, 2, 2, 3);
        return new(
            Sort.Uncertainty, k == 1 ? Of("Standard uncertainty", "u", "U (k=1)") : k == 2
                ? Of("U", "U (k=2)", "Uncertainty", "Unsicherheit", "Messunsicherheit")
                : Of("U (k=3)", "U, k = 3"), "dB", FormattableString.Invariant($"u:{k}"), Factor: k);
    }

    private string[] Row(
        double hz, List<Drawn> columns, Dictionary<(string?, double?, double), (double, double?)> truth, double sensitivity, bool comma,
            bool thousands,
        bool isKHz, int decimals, char separator)
    {
        var cells = new List<string>();
        var levels = new List<(string?, double?, double)>();
        foreach (var c in columns)
        {
            var level = Math.Round((_random.NextDouble() * 2) - 1 - (hz > 9000 ? 4 : 0), 3);
            switch (c.Sort)
            {
                case Sort.Frequency:
                    cells.Add(Written(isKHz ? hz / 1000 : hz, comma, thousands && !isKHz && separator != ' ', decimals));
                    continue;
                case Sort.Uncertainty:
                    var u = Math.Round(0.03 + (_random.NextDouble() * 0.4), 3);
                    foreach (var l in levels) truth[l] = (truth[l].Item1, u * 2 / c.Factor);
                    cells.Add(Written(u, comma, false, -1));
                    continue;
                case Sort.Phase or Sort.Other:
                    cells.Add(Written(Math.Round(_random.NextDouble() * 50, 1), comma, false, -1));
                    continue;
                case Sort.Level:
                    if (columns.Count > 3 && separator != ' ' && Chance(0.02))
                    {
                        cells.Add(Of("", "NaN", "-"));
                        continue;
                    }
                    cells.Add(Written(level, comma, false, -1));
                    break;
                case Sort.Correction:
                    cells.Add(Written(-level, comma, false, -1));
                    break;
                default:
                    var db = Math.Round((20 * Math.Log10(sensitivity)) + level, 3);
                    var linear = Math.Round(1000 * Math.Pow(10, db / 20), 4);
                    cells.Add(Written(c.Sort == Sort.Linear ? linear : db, comma, false, -1));
                    level = c.Sort == Sort.Linear ? 20 * Math.Log10(linear / 1000) : db;
                    break;
            }
            var key = (c.Serial, c.Angle, hz);
            truth[key] = (level, null);
            levels.Add(key);
        }
        return [.. cells];
    }

    // What a sensitivity says of the response is relative to 250 Hz, or to the nearest frequency over the logarithm.
    private static void Relative(Dictionary<(string?, double?, double), (double, double?)> truth, List<Drawn> columns, List<double> hz)
    {
        if (columns.TrueForAll(c => c.Sort is not (Sort.DbRePa or Sort.Linear))) return;
        var at = truth[(null, null, hz.MinBy(f => Math.Abs(Math.Log(f / 250))))].Item1;
        foreach (var key in truth.Keys.ToList()) truth[key] = (truth[key].Item1 - at, truth[key].Item2);
    }

    private void Head(StringBuilder text, List<Drawn> columns, char separator, bool comma)
    {
        var mark = Of("# ", "// ", "* ", "% ");
        if (Chance(0.4)) text.AppendLine(mark + "Laboratory of invented measurements");
        if (Chance(0.3)) text.AppendLine(mark + (comma ? "23,1 °C" : "23.1 °C"));
        if (Chance(0.2)) text.AppendLine("\"Certificate 26-1234, page 2\"");
        if (Chance(0.2)) text.AppendLine().AppendLine($"Serial{(separator == ' ' ? " " : separator)}4711");
        var parted = separator == ' ' ? "   " : separator.ToString();
        var way = _random.Next(0, 10);
        if (way == 0 && columns.TrueForAll(c => c.Serial is null)) return; // none at all
        if (way < 4)
        {
            text.AppendLine(string.Join(parted, columns.Select(c => c.Header)));
            text.AppendLine(string.Join(
                parted, columns.Select(c => Of("[{0}]", "{0}", "({0})").Replace("{0}", c.Unit, StringComparison.Ordinal))));
            return;
        }
        var withUnits = way < 9;
        var form = Of(" [{0}]", " ({0})", ", {0}", " in {0}");
        if (separator == ',') columns = [.. columns.Select(c => c with { Header = c.Header.Replace(",", "", StringComparison.Ordinal) })];
        if (form[0] == ',' && separator == ',') form = " [{0}]";
        var head = string.Join(
            parted, columns.Select(c => c.Header + (withUnits ? form.Replace("{0}", c.Unit, StringComparison.Ordinal) : "")));
        text.AppendLine((Chance(0.15) && columns.TrueForAll(c => c.Header != "x") ? "# " : "") + head);
    }

    private byte[] Stored(string text)
    {
        var encoding = Of(Encoding.UTF8, Encoding.UTF8, Encoding.Unicode, Encoding.BigEndianUnicode, Encoding.Latin1);
        var ends = Of("\n", "\r\n", "\r");
        return [.. encoding.GetPreamble(), .. encoding.GetBytes(text.ReplaceLineEndings(ends))];
    }

    private static string Written(double value, bool comma, bool thousands, int decimals)
    {
        var culture = (CultureInfo)CultureInfo.InvariantCulture.Clone();
        culture.NumberFormat.NumberDecimalSeparator = comma ? "," : ".";
        culture.NumberFormat.NumberGroupSeparator = comma ? "." : ",";
        if (thousands) return value.ToString(decimals < 0 ? "#,##0.###" : "N" + decimals, culture);
        // No figure may lose digits that the truth holds.
        return decimals < 0 || value < 1 ? value.ToString("R", culture) : value.ToString("F" + Math.Max(decimals, 3), culture);
    }

    private bool Chance(double share) => _random.NextDouble() < share;

    private T Of<T>(params T[] choices) => choices[_random.Next(choices.Length)];
}
