using System.Globalization;
using MicRegister.Metrology.GroundPlane;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;

namespace MicRegister.Documents.Drawings;

/// <summary>
/// Level re free field over frequency of a few mounts: third-octave averages as marks, and the tones of a mount that is alone.
/// </summary>
public static class MountPlot
{
    /// <summary>How many can be told apart.</summary>
    public const int Most = 6;

    private const double Width = 220;
    private const double PlotHeight = 96;
    private const double Left = 14;
    private const double Right = 6;
    private const double Top = 8;
    private const double Bottom = 10;
    private const double LowestDb = -15;
    private const double HighestDb = 9;
    private const double StepDb = 3;
    private const int TonePoints = 600;
    private const double LegendMm = 6;
    private static readonly int[] Marked = [1, 2, 5];
    private static readonly MarkForm[] Forms =
        [MarkForm.Disc, MarkForm.Triangle, MarkForm.Square, MarkForm.Diamond, MarkForm.Cross, MarkForm.Plus];

    /// <summary>Draws the plot.</summary>
    /// <param name="answers">At least one; no more than <see cref="Most"/> are drawn.</param>
    /// <param name="title">What it shows.</param>
    public static Drawing Of(IReadOnlyList<MountAnswer> answers, string title)
    {
        if (answers.Count == 0) throw new ArgumentException("A plot of mounts shows at least one.", nameof(answers));
        List<MountAnswer> shown = [.. answers.Take(Most)];
        double low = shown.Min(a => Math.Min(a.Question.FromHz, a.Bands[0].Band.LowHz));
        double high = shown.Max(a => Math.Max(a.Question.ToHz, a.Bands[^1].Band.HighHz));
        double X(double hz) => Left + ((Width - Left - Right) * Math.Log(hz / low) / Math.Log(high / low));

        var shapes = new List<Shape>();
        if (shown is [var only]) shapes.AddRange(Tolerance(only));
        shapes.AddRange(Axes(low, high, X));
        if (shown is [var alone]) shapes.AddRange(Tones(alone.Receiver, low, high, X));
        for (var i = 0; i < shown.Count; i++)
        {
            var name = Name(shown[i].Question);
            foreach (var run in Runs(shown[i])) shapes.Add(new Line(Role.Value, [.. run.Select(b => (X(b.Band.MiddleHz), Y(b.LevelDb)))]));
            foreach (var b in shown[i].Bands)
            {
                var role = b.IsWithin ? Role.Value : Role.Risk;
                var tip = $"{name}, {QuantityText.UpTo(b.Band.NominalHz, 1)} Hz: {QuantityText.Change(b.LevelDb, "dB", 2)}"
                    + (b.IsWithin ? "" : $", {QuantityText.Change(b.OffDb, "dB", 2)} from what the mount is meant to have");
                shapes.Add(new Mark(role, X(b.Band.MiddleHz), Y(b.LevelDb), 2.4, Forms[i], "", tip));
            }
            double x = Left + (68 * (i % 3)), y = PlotHeight + (LegendMm * (i / 3)) + 2;
            shapes.Add(new Mark(Role.Value, x, y, 2.6, Forms[i], "", name));
            shapes.Add(new Label(Role.Ink, x + 3, y + 1, name));
        }
        return new(Width, PlotHeight + (LegendMm * ((shown.Count + 2) / 3)), title, shapes);
    }

    /// <summary>What a mount is called beside a curve: "inverted over a ground plate, 7 mm".</summary>
    public static string Name(MountQuestion q) => q.Mount switch
    {
        Mount.FlushPlate when q.HeightM == 0 => q.Mount.InWords,
        Mount.FlushPlate or Mount.InvertedPlate => $"{q.Mount.InWords}, {QuantityText.UpTo(1000 * q.HeightM, 2)} mm",
        _ => $"{q.Mount.InWords}, {QuantityText.UpTo(q.HeightM, 3)} m",
    };

    private static IEnumerable<Shape> Axes(double low, double high, Func<double, double> x)
    {
        for (var db = LowestDb; db <= HighestDb; db += StepDb)
        {
            yield return new Line(db == 0 ? Role.Axis : Role.Grid, [(Left, Y(db)), (Width - Right, Y(db))]);
            yield return new Label(Role.Quiet, Left - 1.5, Y(db) + 1, QuantityText.Signed(db, 0), 1, 2.8);
        }
        yield return new Label(Role.Quiet, 1, Top - 3, "dB re free field", -1, 2.8);
        for (var decade = Math.Pow(10, Math.Floor(Math.Log10(low))); decade < high; decade *= 10)
        {
            foreach (var hz in Marked.Select(m => m * decade).Where(hz => hz >= low && hz <= high))
            {
                yield return new Line(Role.Grid, [(x(hz), Top), (x(hz), PlotHeight - Bottom)]);
                yield return new Label(Role.Quiet, x(hz), PlotHeight - 4, Hz(hz), 0, 2.8);
            }
        }
    }

    // The level that the mount is meant to have, and the tolerance around it.
    private static IEnumerable<Shape> Tolerance(MountAnswer a)
    {
        double top = Y(a.RaisesDb + a.Question.ToleranceDb), bottom = Y(a.RaisesDb - a.Question.ToleranceDb);
        yield return new Line(Role.Band, [(Left, top), (Width - Right, top), (Width - Right, bottom), (Left, bottom)], true);
    }

    // Where a dip runs out of the frame the line ends at its edge and begins anew.
    private static IEnumerable<Shape> Tones(PlaneReceiver receiver, double low, double high, Func<double, double> x)
    {
        // Dips that stand closer than the points would be drawn where they are not.
        var last = Math.Min(high, receiver.FirstDipHz * 20);
        if (!(last > low)) yield break;
        var run = new List<(double, double)>();
        for (var i = 0; i <= TonePoints; i++)
        {
            var hz = low * Math.Pow(last / low, i / (double)TonePoints);
            var db = receiver.ToneDb(hz);
            if (db >= LowestDb)
            {
                run.Add((x(hz), Y(db)));
                continue;
            }
            if (run.Count > 1) yield return new Line(Role.Quiet, run);
            run = [];
        }
        if (run.Count > 1) yield return new Line(Role.Quiet, run);
    }

    // A band under the frame is drawn at its edge by its mark; no line leads there.
    private static IEnumerable<IReadOnlyList<MountBand>> Runs(MountAnswer a)
    {
        var run = new List<MountBand>();
        foreach (var b in a.Bands)
        {
            if (b.LevelDb >= LowestDb)
            {
                run.Add(b);
                continue;
            }
            if (run.Count > 1) yield return run;
            run = [];
        }
        if (run.Count > 1) yield return run;
    }

    private static double Y(double db) =>
        Top + ((PlotHeight - Top - Bottom) * (HighestDb - Math.Clamp(db, LowestDb, HighestDb)) / (HighestDb - LowestDb));

    private static string Hz(double hz) => hz >= 1000
        ? (hz / 1000).ToString("0.#", CultureInfo.InvariantCulture) + "k"
        : hz.ToString("0.#", CultureInfo.InvariantCulture);
}
