using System.Globalization;
using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.ResponseLimits;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Drawings;

/// <summary>A response over frequency with its uncertainty, the curve before it and printed limits, which are steps.</summary>
public static class CurvePlot
{
    private const double Width = 220;
    private const double Height = 90;
    private const double Left = 14;
    private const double Right = 6;
    private const double Top = 6;
    private const double Bottom = 10;
    private const double LeastDb = 0.5;
    private const double MostDb = 20;
    private const int MostMarks = 200;
    private const double ShownLimitDb = 2.2;
    private static readonly int[] Marked = [1, 2, 5];
    private static readonly double[] Steps = [0.1, 0.2, 0.5, 1, 2, 5];

    /// <summary>Draws the curve.</summary>
    /// <param name="curve">The curve, relative to its reference frequency.</param>
    /// <param name="before">The one before; null where there is none.</param>
    /// <param name="limits">Limits; null draws none.</param>
    /// <param name="judged">What the curve says of them, band by band; empty where nothing was judged.</param>
    /// <param name="title">What it shows.</param>
    public static Drawing Of(
        ResponseCurve curve, ResponseCurve? before, ResponseTable? limits, IReadOnlyList<BandJudgement> judged, string title)
    {
        double low = curve.Points[0].Hz / 1.1, high = curve.Points[^1].Hz * 1.1;
        var extreme = Math.Clamp(curve.Points.Concat(before?.Points ?? []).Max(p => Math.Abs(p.LevelDb) + (p.ExpandedDb ?? 0)) * 1.15, limits is null ? LeastDb : ShownLimitDb, MostDb);
        double X(double hz) => Left + ((Width - Left - Right) * Math.Log(hz / low) / Math.Log(high / low));
        double Y(double db) => Top + ((Height - Top - Bottom) * (0.5 - (Math.Clamp(db, -extreme, extreme) / (2 * extreme))));

        var shapes = new List<Shape>();
        var step = Steps.FirstOrDefault(s => extreme / s <= 5, 5);
        for (var k = -(int)(extreme / step); k <= (int)(extreme / step); k++)
        {
            shapes.Add(new Line(k == 0 ? Role.Axis : Role.Grid, [(Left, Y(k * step)), (Width - Right, Y(k * step))]));
            shapes.Add(new Label(Role.Quiet, Left - 1.5, Y(k * step) + 1, QuantityText.Signed(k * step, k == 0 ? 0 : 1), 1, 2.8));
        }
        shapes.Add(new Label(Role.Quiet, 1, Top - 2, "dB", -1, 2.8));
        for (var decade = Math.Pow(10, Math.Floor(Math.Log10(low))); decade < high; decade *= 10)
        {
            foreach (var m in Marked.Where(m => m * decade >= low && m * decade <= high))
            {
                shapes.Add(new Line(Role.Grid, [(X(m * decade), Top), (X(m * decade), Height - Bottom)]));
                shapes.Add(new Label(Role.Quiet, X(m * decade), Height - 4, Hz(m * decade), 0, 2.8));
            }
        }
        if (limits is not null) shapes.AddRange(StepsOf(limits, low, high, extreme, X, Y));
        if (before is not null) shapes.Add(new Line(Role.Forecast, [.. before.Points.Where(p => p.Hz >= low && p.Hz <= high).Select(p => (X(p.Hz), Y(p.LevelDb)))]));
        foreach (var p in curve.Points.Where(p => p.ExpandedDb is > 0))
            shapes.Add(new Line(Role.Uncertainty, [(X(p.Hz), Y(p.LevelDb + p.ExpandedDb!.Value)), (X(p.Hz), Y(p.LevelDb - p.ExpandedDb.Value))]));
        shapes.Add(new Line(Role.Value, [.. curve.Points.Select(p => (X(p.Hz), Y(p.LevelDb)))]));
        // Thousands of points are a line; few can be pointed at, and what lies beyond a limit always can.
        foreach (var p in curve.Points)
        {
            var (role, form, word) = Word(p, limits, judged);
            if (curve.Points.Count > MostMarks && role != Role.Stop) continue;
            var expanded = p.ExpandedDb is { } u ? $", U = {QuantityText.Of(u, "dB", 2)}" : "";
            var tip = string.Create(CultureInfo.InvariantCulture, $"{p.Hz:0.##} Hz: ")
                + $"{QuantityText.Change(p.LevelDb, "dB", 2)}{expanded}{word}";
            shapes.Add(new Mark(role, X(p.Hz), Y(p.LevelDb), 1.8, form, "", tip));
        }
        return new(Width, Height, title, shapes);
    }

    // Flat over each band with a riser between neighbours. A limit outside of the frame, or none, is not drawn at the frame's edge, where it
    // would be read for less.
    private static IEnumerable<Line> StepsOf(
        ResponseTable limits, double low, double high, double extreme, Func<double, double> x, Func<double, double> y)
    {
        foreach (var side in new Func<LimitStep, double>[] { s => s.UpperDb, s => s.LowerDb })
        {
            var run = new List<(double X, double Y)>();
            var last = 0.0;
            foreach (var step in limits.Steps)
            {
                var (db, from, to) = (side(step), Math.Max(low, step.Band.LowHz), Math.Min(high, step.Band.HighHz));
                var isDrawn = from < to && Math.Abs(db) <= extreme;
                if (run.Count > 0 && (!isDrawn || from > last * (1 + 1e-9)))
                {
                    yield return new(Role.Limit, [.. run]);
                    run.Clear();
                }
                if (!isDrawn) continue;
                run.AddRange([(x(from), y(db)), (x(to), y(db))]);
                last = to;
            }
            if (run.Count > 0) yield return new(Role.Limit, run);
        }
    }

    private static (Role Role, MarkForm Form, string Word) Word(CurvePoint point, ResponseTable? limits, IReadOnlyList<BandJudgement> judged)
    {
        var band = ThirdOctave.Of(point.Hz);
        var verdict = judged.FirstOrDefault(j => j.Band == band)?.Verdict;
        if (verdict == BandVerdict.Undecided) return (Role.Undecided, MarkForm.Diamond, ", not decided");
        var isBeyond = verdict == BandVerdict.Exceeded && limits?.Of(band) is { } step
            && new Tolerance(step.LowerDb, step.UpperDb).Simple(point.LevelDb) == ConformityVerdict.DoesNotConform;
        return isBeyond ? (Role.Stop, MarkForm.Square, ", beyond the limits") : (Role.Value, MarkForm.Disc, "");
    }

    private static string Hz(double hz) => hz >= 1000 ? (hz / 1000).ToString("0.#", CultureInfo.InvariantCulture) + "k" : hz.ToString("0.#", CultureInfo.InvariantCulture);
}
