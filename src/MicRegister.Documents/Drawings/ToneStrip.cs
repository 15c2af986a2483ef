using MicRegister.Metrology.Tones;

namespace MicRegister.Documents.Drawings;

/// <summary>The level of a recorded tone over time as a small strip: where it is steady, and what came before and after.</summary>
public static class ToneStrip
{
    private const double Width = 56;
    private const double Height = 9;
    private const double RangeDb = 40;
    private const int MostPoints = 280;

    /// <summary>Draws the strip; the usable stretch is shaded.</summary>
    public static Drawing Of(ToneReport tone)
    {
        var levels = tone.LevelsDb;
        if (levels.Count < 2) return new(Width, Height, "Too short to be drawn", []);
        var greatest = levels.Max();
        double X(double seconds) => Width * seconds / (levels.Count * tone.StepSeconds);
        double Y(double db) => 0.8 + ((Height - 1.6) * Math.Clamp((greatest - db) / RangeDb, 0, 1));
        var shapes = new List<Shape>();
        if (tone.ToSeconds > tone.FromSeconds)
            shapes.Add(new Line(Role.Band, [(X(tone.FromSeconds), 0), (X(tone.ToSeconds), 0), (X(tone.ToSeconds), Height), (X(tone.FromSeconds), Height)], IsArea: true));
        // Least of each run, so that a drop-out is not passed over.
        var run = Math.Max(1, (levels.Count + MostPoints - 1) / MostPoints);
        var points = new List<(double, double)>();
        for (var i = 0; i < levels.Count; i += run)
        {
            var least = levels[i];
            for (var k = i; k < Math.Min(levels.Count, i + run); k++) least = Math.Min(least, levels[k]);
            points.Add((X((i + (0.5 * run)) * tone.StepSeconds), Y(least)));
        }
        shapes.Add(new Line(Role.Value, points));
        return new(Width, Height, tone.ToSeconds > tone.FromSeconds
            ? FormattableString.Invariant($"Level over {levels.Count * tone.StepSeconds:0.0} s; steady from {tone.FromSeconds:0.0} to {tone.ToSeconds:0.0} s")
            : FormattableString.Invariant($"Level over {levels.Count * tone.StepSeconds:0.0} s; nowhere steady"), shapes);
    }
}
