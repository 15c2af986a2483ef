using System.Globalization;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Drawings;

/// <summary>One day of a campaign: time to the right, a row a station. Bars are what stood there, ticks the checks, darker spans the events, hatching what is in doubt.</summary>
public static class StationDay
{
    private const double Left = 20, Width = 230, Right = 4, Top = 14, RowMm = 4.2, BarMm = 2.8;
    private const double HourMs = 3_600_000;
    private const double HatchMm = 2.4;

    /// <summary>Draws a day.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">The campaign.</param>
    /// <param name="day">Local day at the site.</param>
    /// <param name="events">Events of that day.</param>
    /// <param name="checks">Checks of the campaign.</param>
    /// <returns>Null where nothing of that day can be shown.</returns>
    public static Drawing? Of(Register.Register register, CampaignState campaign, DateOnly day, IReadOnlyList<RecordedEvent> events, IReadOnlyList<CheckRecord> checks)
    {
        var offsets = register.OffsetsOf(campaign.Id);
        var profile = campaign.Plan is { } plan ? register.Profile(plan.Profile) : null;
        var (begin, end) = (ZoneOffsets.StartOfDay(day, offsets), ZoneOffsets.StartOfDay(day.AddDays(1), offsets));
        List<Placement> stood = [.. ArrayDeployment.Of(register, campaign.Id).Placements.Where(p => p.From < end && (p.Until ?? long.MaxValue) > begin)];
        List<CheckRecord> own = [.. checks.Where(k => k.Day == day && k.Occurred.IsInstant && k.Check.Station is not null)];
        List<string> stations = [.. stood.Select(p => p.Station).Concat(own.Select(k => k.Check.Station!))
            .Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        var empty = campaign.Stations.Keys.Count(s => !stations.Contains(s, StringComparer.Ordinal));
        if (events.Count == 0 || stations.Count == 0) return null;

        // The hours in which something was said or flew, so that an event of a minute can be seen.
        var first = events.Min(e => e.StartMs);
        var last = events.Max(e => e.StopMs);
        if (own.Count > 0) (first, last) = (Math.Min(first, own.Min(k => k.Instant)), Math.Max(last, own.Max(k => k.Instant)));
        var (from, to) = (begin + (Math.Floor((first - begin) / HourMs) * HourMs), begin + (Math.Ceiling((last - begin + 1) / HourMs) * HourMs));
        double X(double ms) => Left + ((Width - Left - Right) * (Math.Clamp(ms, from, to) - from) / (to - from));
        double Y(int row) => Top + (row * RowMm);
        var bottom = Y(stations.Count);

        var shapes = new List<Shape>();
        var hours = (to - from) / HourMs;
        for (var hour = 0.0; hour <= hours; hour += hours > 12 ? 2 : 1)
        {
            var at = from + (hour * HourMs);
            shapes.Add(new Line(Role.Grid, [(X(at), Top - 2), (X(at), bottom)]));
            // Above and below: a tall array scrolls.
            foreach (var y in new[] { 4.0, bottom + 3.4 }) shapes.Add(new Label(Role.Quiet, X(at), y, DateTimeOffset.FromUnixTimeMilliseconds(ZoneOffsets.LocalOf((long)at, offsets)).ToString("HH:mm", CultureInfo.InvariantCulture), 0, 2.6));
        }
        for (var row = 0; row < stations.Count; row++)
        {
            var (station, y) = (stations[row], Y(row));
            shapes.Add(new Label(Role.Quiet, Left - 2, y + 2.4, station, 1, 2.6));
            foreach (var p in stood.Where(p => p.Station == station))
            {
                double begins = X(p.From), ends = X(p.Until ?? to);
                if (ends > begins) shapes.Add(Box(Role.Band, begins, ends, y));
                foreach (var e in events.Where(e => p.From < Math.Max(e.StopMs, e.StartMs + 1) && e.StartMs < (p.Until ?? long.MaxValue))) shapes.Add(Box(Role.Span, X(Math.Max(e.StartMs, p.From)), Math.Max(X(Math.Min(e.StopMs, p.Until ?? long.MaxValue)), X(e.StartMs) + 0.5), y));
                foreach (var doubt in p.Devices.SelectMany(d => DoubtBook.OfDevice(register, d, profile))
                    .Where(d => !d.IsOfChecks && d.SettledFor(register, profile, null) is not { What.IsConfirmed: false } && d.FromMs < Math.Min(p.Until ?? long.MaxValue, to) && d.ToMs > Math.Max(p.From, from)))
                    shapes.AddRange(Hatched(X(Math.Max(doubt.FromMs, p.From)), X(Math.Min(doubt.ToMs, p.Until ?? long.MaxValue)), y));
            }
            foreach (var k in own.Where(k => k.Check.Station == station)) shapes.Add(new Line(Role.Ink, [(X(k.Instant), y - 0.3), (X(k.Instant), y + BarMm + 0.3)]));
        }
        foreach (var e in events)
        {
            var word = $"{e.Name}, {DateTimeOffset.FromUnixTimeMilliseconds(ZoneOffsets.LocalOf(e.StartMs, offsets)).ToString("HH:mm:ss", CultureInfo.InvariantCulture)} site time";
            shapes.Add(new Mark(Role.Value, (X(e.StartMs) + X(e.StopMs)) / 2, Top - 5, 3, MarkForm.Square, e.Id, word));
        }
        if (empty > 0)
        {
            var planned = empty == 1 ? "one planned station" : $"{empty} planned stations";
            shapes.Add(new Label(Role.Quiet, Left, bottom + 8, $"Nothing stood at {planned}.", -1, 2.6));
        }
        var title = $"{day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}: {events.Count} events over {stations.Count} stations, "
            + $"{own.Count} checks; each square opens an event";
        return new(Width, bottom + (empty > 0 ? 10 : 5), title, shapes);
    }

    private static Line Box(Role role, double from, double to, double y) => new(role, [(from, y), (to, y), (to, y + BarMm), (from, y + BarMm)], IsArea: true);

    private static IEnumerable<Shape> Hatched(double from, double to, double y)
    {
        for (var x = from; x < to; x += HatchMm) yield return new Line(Role.Change, [(x, y + BarMm), (Math.Min(x + 1.6, to), y)]);
    }
}
