using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;

namespace MicRegister.Documents.Drawings;

/// <summary>A device's results as a small line for a row of a table: drift at a glance.</summary>
public static class HistoryLine
{
    private const double Width = 28;
    private const double Height = 7;

    /// <summary>Deviation in dB at the upper and lower edge where all results lie closer: quiet devices look quiet.</summary>
    private const double LeastRangeDb = 0.3;

    /// <summary>Draws the line.</summary>
    /// <returns>Null where fewer than two results state a level and an uncertainty.</returns>
    public static Drawing? Of(DeviceState device) =>
        DeviceKind.Find(device.Kind)?.Calibrated is { } quantity && CalibrationSeries.Of(device, quantity) is { } series ? Of(series) : null;

    /// <summary>The same from what is known of its drift.</summary>
    public static Drawing? Of(DeviceDrift drift) => Of(drift.Series);

    private static Drawing? Of(CalibrationSeries series)
    {
        var points = series.Points.ToList();
        if (points.Count < 2) return null;
        var range = points.Max(p => Math.Abs(p.LevelDb - series.InUseDb));
        range = Math.Max(LeastRangeDb, range);
        var (first, span) = (points[0].Day.DayNumber, Math.Max(1, points[^1].Day.DayNumber - points[0].Day.DayNumber));
        double X(SeriesPoint p) => 1 + ((Width - 2) * (p.Day.DayNumber - first) / span);
        double Y(double deviation) => (Height / 2) - (deviation / range * ((Height / 2) - 1));

        var shapes = new List<Shape> { new Line(Role.Grid, [(0, Height / 2), (Width, Height / 2)]) };
        shapes.AddRange(series.Levels.Where(l => l.Count > 1).Select(l => new Line(Role.Value, [.. l.Select(p => (X(p), Y(p.LevelDb - series.InUseDb)))])));
        shapes.AddRange(points.Select(p => new Mark(Role.Value, X(p), Y(p.LevelDb - series.InUseDb), 1.1, MarkForm.Disc, "", "")));
        var change = QuantityText.Change(points[^1].LevelDb - points[0].LevelDb, ResultLevel.UnitOf(series.Key.Quantity), 2);
        var title = FormattableString.Invariant(
            $"{points.Count} results from {points[0].Day.Year} to {points[^1].Day.Year}, {change} in all");
        return new(Width, Height, title, shapes);
    }
}
