using System.Globalization;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Checks;

namespace MicRegister.Documents.Drawings;

/// <summary>A device's checks one after another: single values with their limits above, the weighted average below.</summary>
public static class CheckChart
{
    private const double Width = 220;
    private const double Panel = 48;
    private const double Left = 14;
    private const double Right = 6;
    private const double Top = 6;

    /// <summary>Draws the chart.</summary>
    /// <returns>Null where there is no check.</returns>
    public static Drawing? Of(string name, CheckHistory history)
    {
        var points = history.Points;
        if (points.Count == 0) return null;
        var centre = history.Individuals?.Mean ?? 0;
        var reach = points.Max(p => Math.Abs(p.OwnDb - centre));
        if (history.Individuals is { } chart) reach = Math.Max(reach, chart.Upper - centre);
        reach = Math.Max(reach * 1.1, 0.02);
        var shapes = new List<Shape>();
        Frame(shapes, 0, centre, reach, "single checks, dB");
        double X(int i) => Left + ((Width - Left - Right) * (i + 0.5) / points.Count);
        double Y(int panel, double db) => (panel * Panel) + Top + ((Panel - (2 * Top)) * (0.5 - (Math.Clamp((db - centre) / reach, -1, 1) / 2)));
        if (history.Individuals is { } c)
        {
            foreach (var limit in new[] { c.Upper, c.Lower }) shapes.Add(new Line(Role.Limit, [(Left, Y(0, limit)), (Width - Right, Y(0, limit))]));
        }
        shapes.Add(new Line(Role.Value, [.. points.Select((p, i) => (X(i), Y(0, p.OwnDb)))]));
        for (var i = 0; i < points.Count; i++)
        {
            var p = points[i];
            var place = p.Record.Check.Station is { } s ? " at " + s : "";
            var shared = p.CommonDb is { } common ? $", {Db(common)} dB of it common to all" : "";
            var alarms = p.Alarms.Count > 0 ? "; " + string.Join("; ", p.Alarms) : "";
            var tip = string.Create(CultureInfo.InvariantCulture, $"{p.Record.Day:yyyy-MM-dd}, {p.Record.Check.Moment.InWords}{place}: ")
                + $"{Db(p.DeviationDb)} dB from its certificates{shared}{alarms}";
            shapes.Add(new Mark(p.Alarms.Count > 0 ? Role.Risk : Role.Value, X(i), Y(0, p.OwnDb), 2.2, p.Alarms.Count > 0 ? MarkForm.Triangle : MarkForm.Disc, "", tip));
        }
        if (points[0].Average is not null)
        {
            Frame(shapes, 1, centre, reach, "weighted average, dB");
            shapes.Add(new Line(Role.Limit, [.. points.Select((p, i) => (X(i), Y(1, p.Average!.Value.Upper)))]));
            shapes.Add(new Line(Role.Limit, [.. points.Select((p, i) => (X(i), Y(1, p.Average!.Value.Lower)))]));
            shapes.Add(new Line(Role.Value, [.. points.Select((p, i) => (X(i), Y(1, p.Average!.Value.Average)))]));
        }
        return new(Width, points[0].Average is null ? Panel : 2 * Panel, $"{name}: {points.Count} checks, what is its own of them, in dB", shapes);

        void Frame(List<Shape> to, int panel, double at, double span, string label)
        {
            foreach (var side in new[] { 1, 0, -1 })
            {
                var level = at + (side * span);
                to.Add(new Line(side == 0 ? Role.Axis : Role.Grid, [(Left, Y(panel, level)), (Width - Right, Y(panel, level))]));
                to.Add(new Label(Role.Quiet, Left - 1.5, Y(panel, level) + 1, QuantityText.Signed(level, 2), 1, 2.8));
            }
            to.Add(new Label(Role.Quiet, Left, (panel * Panel) + Top - 2, label, -1, 2.8));
        }
    }

    private static string Db(double db) => QuantityText.Signed(db, 3);
}
