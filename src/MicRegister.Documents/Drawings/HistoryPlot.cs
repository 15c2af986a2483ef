using System.Globalization;
using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Checks;
using MicRegister.Register.Drift;

namespace MicRegister.Documents.Drawings;

/// <summary>What a history plot shows beside the results.</summary>
/// <param name="Until">Day up to which the forecast runs.</param>
/// <param name="LimitDb">Limit on both sides of the certificate in use; null draws none.</param>
/// <param name="Campaigns">Campaigns that the device was or is planned for.</param>
/// <param name="Checks">Field checks, oldest first.</param>
public sealed record HistoryView(DateOnly Until, double? LimitDb, IReadOnlyList<(string Name, DateOnly First, DateOnly Last)> Campaigns, IReadOnlyList<FieldCheck> Checks)
{
    /// <summary>The results and a forecast alone.</summary>
    public static HistoryView Plain(DateOnly until, double? limitDb) => new(until, limitDb, [], []);
}

/// <summary>
/// The results of a device over time: deviation from the certificate in use with error bars, levels that belong together, what was
/// found in them, limits, the forecast's 95 % band to a day, field checks, and campaigns underneath.
/// </summary>
public static class HistoryPlot
{
    private const double Height = 100;
    private const double SpansHeight = 8;
    private const double CheckShare = 0.6;
    private const int ForecastSteps = 16;

    /// <summary>Draws the history.</summary>
    public static Drawing Of(DeviceDrift drift, HistoryView view, double widthMm = 220)
    {
        var reference = drift.Series.InUseDb;
        var points = drift.Series.Points.ToList();
        var newest = points[^1].Day;
        var end = view.Until > newest ? view.Until : newest;
        var forecast = Enumerable.Range(0, ForecastSteps + 1).Select(i => newest.AddDays((end.DayNumber - newest.DayNumber) * i / ForecastSteps)).Distinct()
            .Select(d => (Day: d, Level: drift.At(d))).Select(f => (f.Day, Mean: f.Level.LevelDb - reference, Low: f.Level.Quantile(0.025) - reference, High: f.Level.Quantile(0.975) - reference)).ToList();
        var extreme = points.Select(p => Math.Abs(p.LevelDb - reference) + (2 * p.StandardUncertaintyDb))
            .Concat(forecast.Select(f => Math.Max(Math.Abs(f.Low), Math.Abs(f.High)))).Append(view.LimitDb * 1.15 ?? 0.1).Max();
        var axes = new TimeAxes(widthMm, Height - SpansHeight, points[0].Day, end, extreme);

        var shapes = new List<Shape>(axes.Shapes());
        AddSpans(shapes, axes, view);
        if (forecast.Count > 1)
        {
            shapes.Add(new Line(Role.Band, [.. forecast.Select(f => (axes.X(f.Day), axes.Y(f.High))), .. forecast.AsEnumerable().Reverse().Select(f => (axes.X(f.Day), axes.Y(f.Low)))], IsArea: true));
            shapes.Add(new Line(Role.Forecast, [.. forecast.Select(f => (axes.X(f.Day), axes.Y(f.Mean)))]));
        }
        if (drift.Steady is { } steady)
        {
            // Where a steady drift would lead, beside the forecast of its model.
            double from = steady.Line.At(newest.DayNumber) - reference, to = Math.Clamp(steady.Line.At(end.DayNumber) - reference, -extreme, extreme);
            shapes.Add(new Line(Role.Change, [(axes.X(newest), axes.Y(from)), (axes.X(end), axes.Y(to))]));
        }
        if (view.LimitDb is { } limit)
        {
            foreach (var side in new[] { limit, -limit }) shapes.Add(new Line(Role.Limit, [(TimeAxes.Left, axes.Y(side)), (widthMm - TimeAxes.Right, axes.Y(side))]));
        }
        AddResults(shapes, axes, drift, reference);
        foreach (var check in view.Checks.Where(c => c.Day >= axes.From && c.Day <= axes.To && Math.Abs(c.DeviationDb) <= extreme))
            shapes.Add(new Mark(Role.Check, axes.X(check.Day), axes.Y(check.DeviationDb), 2.4 * CheckShare, MarkForm.Diamond, "", $"{Day(check.Day)}: field check at {check.Where}, deviation {Db(check.DeviationDb)} dB"));
        return new(widthMm, Height, $"{drift.Device.Name}: deviation from the certificate of {Day(drift.Series.InUseDay)} in dB, {points.Count} results", shapes);
    }

    private static void AddSpans(List<Shape> shapes, TimeAxes axes, HistoryView view)
    {
        var y = axes.Height + 1;
        foreach (var (name, first, last) in view.Campaigns.Where(c => c.Last >= axes.From && c.First <= axes.To))
        {
            double x1 = axes.X(first < axes.From ? axes.From : first), x2 = Math.Max(axes.X(last > axes.To ? axes.To : last), x1 + 0.8);
            shapes.Add(new Line(Role.Span, [(x1, TimeAxes.Top), (x2, TimeAxes.Top), (x2, y + 2), (x1, y + 2)], IsArea: true));
            shapes.Add(new Label(Role.Quiet, Math.Min(x2, axes.Width - 2), y + 5, name, 1, 2.8));
        }
    }

    private static void AddResults(List<Shape> shapes, TimeAxes axes, DeviceDrift drift, double reference)
    {
        var findings = drift.Findings.ToLookup(f => f.Point);
        foreach (var life in drift.Series.Lives)
        {
            var begins = drift.Findings.Where(f => ReferenceEquals(f.Life, life) && f.Finding.BeginsAnew).Select(f => f.Finding.Index).Concat(life.History.Restarts).Order().ToList();
            var isOut = drift.Findings.Where(f => ReferenceEquals(f.Life, life) && (f.Finding.LeavesOut || f.Finding.Kind == DriftFindingKind.NewestOpen)).Select(f => f.Finding.Index).ToHashSet();
            var from = 0;
            foreach (var to in begins.Append(life.Points.Count))
            {
                var level = Enumerable.Range(from, to - from).Where(i => !isOut.Contains(i)).Select(i => life.Points[i]).ToList();
                if (level.Count > 1) shapes.Add(new Line(Role.Value, [.. level.Select(p => (axes.X(p.Day), axes.Y(p.LevelDb - reference)))]));
                from = to;
            }
            foreach (var begin in begins) shapes.Add(new Line(Role.Change, [(axes.X(life.Points[begin].Day) - 1.6, TimeAxes.Top), (axes.X(life.Points[begin].Day) - 1.6, axes.Height - TimeAxes.Bottom)]));
        }
        foreach (var life in drift.Series.Lives.Skip(1)) shapes.Add(new Line(Role.Axis, [(axes.X(life.Points[0].Day) - 1.6, TimeAxes.Top), (axes.X(life.Points[0].Day) - 1.6, axes.Height - TimeAxes.Bottom)]));
        foreach (var p in drift.Series.Points)
        {
            double x = axes.X(p.Day), u = 2 * p.StandardUncertaintyDb, deviation = p.LevelDb - reference;
            shapes.Add(new Line(Role.Uncertainty, [(x - 1, axes.Y(deviation + u)), (x + 1, axes.Y(deviation + u)), (x, axes.Y(deviation + u)), (x, axes.Y(deviation - u)), (x - 1, axes.Y(deviation - u)), (x + 1, axes.Y(deviation - u))]));
            var found = findings[p].ToList();
            var isOpen = found.Any(f => f.Finding.Kind == DriftFindingKind.NewestOpen);
            shapes.Add(new Mark(found.Count == 0 || found.All(f => f.Finding.BeginsAnew) ? Role.Value : Role.Undecided, x, axes.Y(deviation), 2.4, MarkForm.Disc, p.Certificate, HistoryRow.Tip(p, deviation, found.Select(f => DriftWords.Kind(f.Finding.Kind)))));
            // Crossed out and still to be seen.
            if (found.Any(f => f.Finding.LeavesOut) || isOpen) shapes.Add(new Mark(Role.Annulled, x, axes.Y(deviation), isOpen ? 1.4 : 3.4, MarkForm.Cross, p.Certificate, HistoryRow.Tip(p, deviation, found.Select(f => DriftWords.Kind(f.Finding.Kind)))));
        }
        foreach (var row in HistoryRow.NotUsed(drift).Where(r => r.Day >= axes.From && r.Day <= axes.To && Math.Abs(r.DeviationDb) <= axes.ExtremeDb))
            shapes.Add(new Mark(Role.Annulled, axes.X(row.Day), axes.Y(row.DeviationDb), 2.8, MarkForm.Cross, row.Certificate ?? "", $"{Day(row.Day)}: {row.What}, deviation {Db(row.DeviationDb)} dB"));
    }

    private static string Day(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Db(double db) => QuantityText.Signed(db, 3);
}

/// <summary>One row of the table that says what the plot shows.</summary>
/// <param name="Day">The day.</param>
/// <param name="What">Result, field check, annulled, left out, or what was found in it.</param>
/// <param name="LevelDb">Level in dB; null for a field check.</param>
/// <param name="ExpandedDb">U at k = 2, in dB; null where none was stated.</param>
/// <param name="DeviationDb">Deviation from the certificate in use, in dB.</param>
/// <param name="Laboratory">Who measured.</param>
/// <param name="Certificate">Id of the certificate; null for a field check.</param>
public sealed record HistoryRow(DateOnly Day, string What, double? LevelDb, double? ExpandedDb, double DeviationDb, string? Laboratory, string? Certificate)
{
    /// <summary>All rows, oldest first.</summary>
    public static IReadOnlyList<HistoryRow> All(DeviceDrift drift, IReadOnlyList<FieldCheck> checks)
    {
        var findings = drift.Findings.ToLookup(f => f.Point);
        return [.. drift.Series.Points.Select(p => new HistoryRow(p.Day, findings[p].Any() ? string.Join(", ", findings[p].Select(f => DriftWords.Kind(f.Finding.Kind))) : "result", p.LevelDb, 2 * p.StandardUncertaintyDb, p.LevelDb - drift.Series.InUseDb, p.Laboratory, p.Certificate))
            .Concat(NotUsed(drift)).Concat(checks.Select(c => new HistoryRow(c.Day, $"field check at {c.Where}", null, null, c.DeviationDb, null, null))).OrderBy(r => r.Day).ThenBy(r => r.Certificate, StringComparer.Ordinal)];
    }

    /// <summary>Results that were annulled, or that a person found to be bad.</summary>
    internal static IEnumerable<HistoryRow> NotUsed(DeviceDrift drift)
    {
        var quantity = drift.Series.Key.Quantity;
        foreach (var p in drift.Series.LeftOut) yield return new(p.Day, "bad result, left out by a person", p.LevelDb, 2 * p.StandardUncertaintyDb, p.LevelDb - drift.Series.InUseDb, p.Laboratory, p.Certificate);
        foreach (var c in drift.Device.Certificates.Where(c => c.IsAnnulled && c.Issued.Quantity == quantity && c.InForce is not null))
        {
            if (ResultLevel.Of(c.InForce!) is { } level) yield return new(c.Day, "annulled, not used", level.LevelDb, level.StandardUncertaintyDb * 2, level.LevelDb - drift.Series.InUseDb, c.Issued.Laboratory, c.Fact.ToString());
        }
    }

    internal static string Tip(SeriesPoint p, double deviation, IEnumerable<string> found)
    {
        var words = string.Join(", ", found);
        var behind = (words.Length > 0 ? ", " + words : "") + (p.Laboratory is { } lab ? ", " + lab : "");
        return string.Create(CultureInfo.InvariantCulture, $"{p.Day:yyyy-MM-dd}: {QuantityText.Of(p.LevelDb, "dB", 3)}, ")
            + $"U = {QuantityText.Of(2 * p.StandardUncertaintyDb, "dB", 3)} (k = 2), "
            + $"deviation {QuantityText.Change(deviation, "dB", 3)}{behind}";
    }
}
