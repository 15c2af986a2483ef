using System.Globalization;
using MicRegister.Documents.Curves;
using MicRegister.Metrology.Quantities;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Drawings;

/// <summary>A response over frequency with its uncertainty, the curve before it and the limits of a class.</summary>
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
    private const double ShownLimitDb = 2.2;
    private static readonly int[] Marked = [1, 2, 5];
    private static readonly double[] Steps = [0.1, 0.2, 0.5, 1, 2, 5];

    /// <summary>Draws the curve.</summary>
    /// <param name="curve">The curve, relative to its reference frequency.</param>
    /// <param name="before">The one before; null where there is none.</param>
    /// <param name="limits">Limits; null draws none.</param>
    /// <param name="title">What it shows.</param>
    public static Drawing Of(ResponseCurve curve, ResponseCurve? before, ClassLimits? limits, string title)
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
        if (limits is not null)
        {
            var inside = limits.Points.Where(l => l.Hz >= low && l.Hz <= high).ToList();
            if (inside.Count > 1)
            {
                // A limit that lies outside the frame is not drawn at its edge, where it would be read for less.
                foreach (var side in new[] { inside.Select(l => (l.Hz, Db: l.UpperDb)), inside.Select(l => (l.Hz, Db: l.LowerDb)) })
                {
                    var run = side.Where(l => Math.Abs(l.Db) <= extreme).Select(l => (X(l.Hz), Y(l.Db))).ToList();
                    if (run.Count > 1) shapes.Add(new Line(Role.Limit, run));
                }
            }
        }
        if (before is not null) shapes.Add(new Line(Role.Forecast, [.. before.Points.Where(p => p.Hz >= low && p.Hz <= high).Select(p => (X(p.Hz), Y(p.LevelDb)))]));
        foreach (var p in curve.Points.Where(p => p.ExpandedDb is > 0))
            shapes.Add(new Line(Role.Uncertainty, [(X(p.Hz), Y(p.LevelDb + p.ExpandedDb!.Value)), (X(p.Hz), Y(p.LevelDb - p.ExpandedDb.Value))]));
        shapes.Add(new Line(Role.Value, [.. curve.Points.Select(p => (X(p.Hz), Y(p.LevelDb)))]));
        var beyond = limits?.Beyond(curve) ?? [];
        // Thousands of points are a line; few can be pointed at.
        if (curve.Points.Count <= 200)
        {
            foreach (var p in curve.Points)
            {
                var isBeyond = beyond.Contains(p);
                var (role, form) = isBeyond ? (Role.Stop, MarkForm.Square) : (Role.Value, MarkForm.Disc);
                var expanded = p.ExpandedDb is { } u ? $", U = {QuantityText.Of(u, "dB", 2)}" : "";
                var tip = string.Create(CultureInfo.InvariantCulture, $"{p.Hz:0.##} Hz: ")
                    + $"{QuantityText.Change(p.LevelDb, "dB", 2)}{expanded}{(isBeyond ? ", beyond the limits" : "")}";
                shapes.Add(new Mark(role, X(p.Hz), Y(p.LevelDb), 1.8, form, "", tip));
            }
        }
        return new(Width, Height, title, shapes);
    }

    private static string Hz(double hz) => hz >= 1000 ? (hz / 1000).ToString("0.#", CultureInfo.InvariantCulture) + "k" : hz.ToString("0.#", CultureInfo.InvariantCulture);
}
