using System.Globalization;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;

namespace MicRegister.Documents.Drawings;

/// <summary>The histories of a few devices on one plot, each against its own certificate in use.</summary>
public static class ComparisonPlot
{
    /// <summary>How many can be told apart.</summary>
    public const int Most = 6;

    private const double Width = 220;
    private const double Height = 100;
    private static readonly MarkForm[] Forms = [MarkForm.Disc, MarkForm.Triangle, MarkForm.Square, MarkForm.Diamond, MarkForm.Cross, MarkForm.Plus];

    /// <summary>Draws the plot.</summary>
    /// <returns>Null where no device has a series.</returns>
    public static Drawing? Of(IReadOnlyList<(string Name, CalibrationSeries Series)> devices)
    {
        if (devices.Count == 0) return null;
        var all = devices.Take(Most).Select(d => (d.Name, d.Series, Points: d.Series.Points.ToList())).ToList();
        var (from, to) = (all.Min(d => d.Points[0].Day), all.Max(d => d.Points[^1].Day));
        var extreme = all.Max(d => d.Points.Max(p => Math.Abs(p.LevelDb - d.Series.InUseDb) + (2 * p.StandardUncertaintyDb)));
        List<string> units = [.. all.Select(d => ResultLevel.UnitOf(d.Series.Key.Quantity)).Distinct()];
        var axes = new TimeAxes(Width, Height - 6 * ((all.Count + 2) / 3), from, to, extreme, string.Join(" or ", units));
        var shapes = new List<Shape>(axes.Shapes());
        for (var i = 0; i < all.Count; i++)
        {
            var (name, series, points) = all[i];
            var unit = ResultLevel.UnitOf(series.Key.Quantity);
            shapes.AddRange(series.Levels.Where(l => l.Count > 1).Select(l => new Line(Role.Value, [.. l.Select(p => (axes.X(p.Day), axes.Y(p.LevelDb - series.InUseDb)))])));
            foreach (var p in points)
            {
                double deviation = p.LevelDb - series.InUseDb, u = 2 * p.StandardUncertaintyDb;
                shapes.Add(new Line(Role.Uncertainty, [(axes.X(p.Day), axes.Y(deviation + u)), (axes.X(p.Day), axes.Y(deviation - u))]));
                var tip = string.Create(CultureInfo.InvariantCulture, $"{name}, {p.Day:yyyy-MM-dd}: ")
                    + $"{QuantityText.Difference(deviation, u, unit)} {unit}, U = {QuantityText.Expanded(u, unit)} {unit}";
                shapes.Add(new Mark(Role.Value, axes.X(p.Day), axes.Y(deviation), 2.6, Forms[i], "", tip));
            }
            double x = 14 + (68 * (i % 3)), y = axes.Height + (6 * (i / 3)) + 2;
            shapes.Add(new Mark(Role.Value, x, y, 2.6, Forms[i], "", name));
            shapes.Add(new Label(Role.Ink, x + 3, y + 1, name));
        }
        var names = string.Join(", ", all.Select(d => d.Name));
        var inUnit = units.Count == 1 ? ", in " + units[0] : "";
        return new(Width, Height, $"{names}: deviation from the certificate in use{inUnit}", shapes);
    }
}
