using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Curves;

/// <summary>One point of a response curve.</summary>
/// <param name="Hz">Frequency in Hz.</param>
/// <param name="LevelDb">Level in dB, relative to whatever the curve is relative to.</param>
/// <param name="ExpandedDb">Expanded uncertainty in dB; null where none was stated.</param>
public readonly record struct CurvePoint(double Hz, double LevelDb, double? ExpandedDb);

/// <summary>A response over frequency as a laboratory states it: rows of frequency, level and, where it is stated, uncertainty.</summary>
/// <param name="Points">In the order of frequency, each frequency once.</param>
public sealed record ResponseCurve(IReadOnlyList<CurvePoint> Points)
{
    private const int MostRows = 20_000;

    /// <summary>Reads a text table: comma, semicolon or tab; point or decimal comma; a first row of headers, which may say kHz.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <exception cref="SheetException">It cannot be read; the message names row and value, and what is allowed.</exception>
    public static ResponseCurve Read(Stream content, string name)
    {
        var points = new List<CurvePoint>();
        var scale = 1.0;
        var isFirst = true;
        foreach (var row in CsvSheet.Read(content, name, SheetLimits.Usual with { Rows = MostRows }).Rows)
        {
            if (row.IsBlank) continue;
            if (isFirst && !MeasuredText.TryRead(row.At(0).Text ?? "", out _, out _))
            {
                isFirst = false;
                if (MeasuredText.UnitOfHeader(row.At(0).Text ?? "") == "kHz") scale = 1000;
                continue;
            }
            isFirst = false;
            var hz = Number(name, row, 0, "frequency", "Hz") * scale;
            if (!(hz is >= 0.1 and <= 1e6)) throw Wrong(name, row, 0, "frequency", "a number from 0.1 to 1000000 Hz");
            var level = Number(name, row, 1, "level", "dB");
            if (!(Math.Abs(level) <= 200)) throw Wrong(name, row, 1, "level", "a number from -200 to 200 dB");
            double? expanded = row.At(2).IsBlank ? null : Number(name, row, 2, "uncertainty", "dB");
            if (expanded is < 0 or > 50) throw Wrong(name, row, 2, "uncertainty", "a number from 0 to 50 dB");
            points.Add(new(hz, level, expanded));
        }
        if (points.Count == 0) throw new SheetException($"{name} holds no point; rows of frequency, level and uncertainty are read.");
        points.Sort((a, b) => a.Hz.CompareTo(b.Hz));
        for (var i = 1; i < points.Count; i++)
        {
            if (points[i].Hz == points[i - 1].Hz) throw new SheetException(string.Create(CultureInfo.InvariantCulture, $"{name} states {points[i].Hz} Hz twice."));
        }
        return new(points);
    }

    /// <summary>Level at a frequency, linear over the logarithm of frequency.</summary>
    /// <returns>Null outside the curve.</returns>
    public double? At(double hz)
    {
        if (!(hz >= Points[0].Hz) || !(hz <= Points[^1].Hz)) return null;
        for (var i = 1; i < Points.Count; i++)
        {
            if (hz > Points[i].Hz) continue;
            var (a, b) = (Points[i - 1], Points[i]);
            return a.LevelDb + ((b.LevelDb - a.LevelDb) * Math.Log(hz / a.Hz) / Math.Log(b.Hz / a.Hz));
        }
        return Points[0].LevelDb;
    }

    /// <summary>The curve relative to its own level at a frequency.</summary>
    /// <returns>Unchanged where that frequency lies outside of it.</returns>
    public ResponseCurve RelativeTo(double hz) => At(hz) is { } reference ? new([.. Points.Select(p => p with { LevelDb = p.LevelDb - reference })]) : this;

    /// <summary>Greatest difference to an earlier curve at this one's frequencies, both relative to one frequency.</summary>
    /// <returns>Where it is and how much, in dB; null where they share no frequency.</returns>
    public (double Hz, double DifferenceDb)? GreatestChange(ResponseCurve before, double referenceHz)
    {
        var (now, then) = (RelativeTo(referenceHz), before.RelativeTo(referenceHz));
        return now.Points.Select(p => (p.Hz, Difference: p.LevelDb - then.At(p.Hz))).Where(d => d.Difference is not null).Select(d => ((double, double)?)(d.Hz, d.Difference!.Value)).MaxBy(d => Math.Abs(d!.Value.Item2));
    }

    private static double Number(string name, SheetRow row, int column, string field, string unit)
    {
        if (!MeasuredText.TryRead(row.At(column).Text ?? "", out var number, out var stated)) throw Wrong(name, row, column, field, "a number");
        return MeasuredText.Convert(number, stated, unit) ?? throw Wrong(name, row, column, field, "a number in " + unit);
    }

    private static SheetException Wrong(string name, SheetRow row, int column, string field, string allowed) => new($"{name}, row {row.Number}: {field} '{row.At(column).Text}': allowed is {allowed}.");
}
