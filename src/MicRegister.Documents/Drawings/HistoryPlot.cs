using System.Globalization;
using MicRegister.Metrology.Drift;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Drawings;

/// <summary>The results of a device over time: deviation from the certificate in use, error bars, limits, forecast to a day.</summary>
public static class HistoryPlot
{
    private const double Left = 14;
    private const double Right = 6;
    private const double Top = 6;
    private const double Bottom = 10;
    private static readonly double[] Steps = [0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10];

    /// <summary>Draws the history.</summary>
    /// <param name="device">The device.</param>
    /// <param name="limitDb">Limit on both sides of the certificate in use; null draws none.</param>
    /// <param name="until">Day up to which the forecast runs.</param>
    /// <param name="widthMm">Width of the drawing.</param>
    /// <returns>Null where no result states a level and an uncertainty.</returns>
    public static Drawing? Of(DeviceState device, double? limitDb, DateOnly until, double widthMm = 220)
    {
        if (DeviceKind.Find(device.Kind)?.Calibrated is not { } quantity || CalibrationSeries.Of(device, quantity) is not { } series) return null;
        var reference = series.Current.Newest.LevelDb;
        var points = series.Segments.SelectMany(s => s.Points).ToList();
        var end = until > points[^1].Day ? until : points[^1].Day;
        var forecast = Enumerable.Range(0, 13).Select(i => points[^1].Day.AddDays((end.DayNumber - points[^1].Day.DayNumber) * i / 12)).Distinct()
            .Select(d => (Day: d, Level: DriftForecast.At(series.Current.History, d.DayNumber, ForecastAssumptions.Default))).ToList();

        var extreme = points.Select(p => Math.Abs(p.LevelDb - reference) + (2 * p.StandardUncertaintyDb))
            .Concat(forecast.Select(f => Math.Abs(f.Level.LevelDb - reference) + (1.96 * f.Level.StandardDeviationDb))).Append(limitDb * 1.15 ?? 0.1).Max();
        const double Height = 90;
        double X(DateOnly d) => Left + ((widthMm - Left - Right) * (d.DayNumber - points[0].Day.DayNumber) / Math.Max(1.0, end.DayNumber - points[0].Day.DayNumber));
        double Y(double db) => Top + ((Height - Top - Bottom) * (0.5 - (db / (2 * extreme))));

        var shapes = new List<Shape>();
        AddAxes(shapes, points[0].Day, end, extreme, widthMm, Height, X, Y);
        if (forecast.Count > 1)
        {
            var upper = forecast.Select(f => (X(f.Day), Y(f.Level.LevelDb - reference + (1.96 * f.Level.StandardDeviationDb))));
            var lower = forecast.Select(f => (X(f.Day), Y(f.Level.LevelDb - reference - (1.96 * f.Level.StandardDeviationDb)))).Reverse();
            shapes.Add(new Line(Role.Band, [.. upper, .. lower], IsArea: true));
            shapes.Add(new Line(Role.Forecast, [.. forecast.Select(f => (X(f.Day), Y(f.Level.LevelDb - reference)))]));
        }
        if (limitDb is { } limit)
        {
            foreach (var side in new[] { limit, -limit }) shapes.Add(new Line(Role.Limit, [(Left, Y(side)), (widthMm - Right, Y(side))]));
        }
        foreach (var p in points)
        {
            double x = X(p.Day), expanded = 2 * p.StandardUncertaintyDb, deviation = p.LevelDb - reference;
            shapes.Add(new Line(Role.Uncertainty, [(x - 1, Y(deviation + expanded)), (x + 1, Y(deviation + expanded)), (x, Y(deviation + expanded)), (x, Y(deviation - expanded)), (x - 1, Y(deviation - expanded)), (x + 1, Y(deviation - expanded))]));
            shapes.Add(new Mark(Role.Value, x, Y(deviation), 2.4, MarkForm.Disc, p.Certificate, Tip(p, deviation)));
        }
        foreach (var c in device.Certificates.Where(c => c.IsAnnulled && c.Issued.Quantity == quantity && c.Day >= points[0].Day && c.Day <= end && c.InForce is not null))
        {
            if (ResultLevel.Of(c.InForce!) is { } level && Math.Abs(level.LevelDb - reference) < extreme)
                shapes.Add(new Mark(Role.Annulled, X(c.Day), Y(level.LevelDb - reference), 2.6, MarkForm.Cross, c.Fact.ToString(), $"{Day(c.Day)}: annulled, not used"));
        }
        return new(widthMm, Height, $"{device.Name}: deviation from the certificate of {Day(series.Current.Newest.Day)} in dB, {points.Count} results", shapes);
    }

    private static void AddAxes(List<Shape> shapes, DateOnly from, DateOnly to, double extreme, double width, double height, Func<DateOnly, double> x, Func<double, double> y)
    {
        var step = Steps.FirstOrDefault(s => extreme / s <= 5, extreme / 5);
        for (var k = -(int)(extreme / step); k <= (int)(extreme / step); k++)
        {
            shapes.Add(new Line(k == 0 ? Role.Axis : Role.Grid, [(Left, y(k * step)), (width - Right, y(k * step))]));
            shapes.Add(new Label(Role.Quiet, Left - 1.5, y(k * step) + 1, (k * step).ToString("+0.00;-0.00;0", CultureInfo.InvariantCulture), 1, 2.8));
        }
        shapes.Add(new Label(Role.Quiet, 1, Top - 2, "dB", -1, 2.8));
        var every = Math.Max(1, (to.Year - from.Year + 10) / 11);
        for (var year = from.Year + 1; year <= to.Year; year += every)
        {
            var at = x(new(year, 1, 1));
            shapes.Add(new Line(Role.Grid, [(at, Top), (at, height - Bottom)]));
            shapes.Add(new Label(Role.Quiet, at, height - 4, year.ToString(CultureInfo.InvariantCulture), 0, 2.8));
        }
    }

    private static string Tip(SeriesPoint p, double deviation) =>
        FormattableString.Invariant($"{Day(p.Day)}: {p.LevelDb:0.000} dB, U = {2 * p.StandardUncertaintyDb:0.000} dB (k = 2), deviation {deviation:+0.000;-0.000;0} dB");

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
