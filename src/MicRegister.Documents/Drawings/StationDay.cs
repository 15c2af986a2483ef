using System.Globalization;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Drawings;

/// <summary>
/// One day of a campaign: time to the right, a row a station. Bars are what stood there, ticks the checks, darker spans the events,
/// hatching what is in doubt. A triangle is doubtful, a rhombus undecided, a square not valid, a cross a swap: no colour is needed.
/// </summary>
public static class StationDay
{
    private const double Left = 20, Width = 230, Right = 4, Top = 14, RowMm = 4.2, BarMm = 2.8;
    private const double HourMs = 3_600_000;
    private const double HatchMm = 2.4;
    private const double MarkMm = 2.6;

    /// <summary>Where there would be more, each station has one mark for the whole day.</summary>
    public const int MostMarks = 600;

    /// <summary>Draws a day.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="campaign">The campaign.</param>
    /// <param name="day">Local day at the site.</param>
    /// <param name="events">Events of that day.</param>
    /// <param name="checks">Checks of the campaign.</param>
    /// <param name="verdictOf">What an event is worth by its id, null where that is not worked out yet; null works all of them out.</param>
    /// <returns>Null where nothing of that day can be shown.</returns>
    public static Drawing? Of(
        Register.Register register, CampaignState campaign, DateOnly day, IReadOnlyList<RecordedEvent> events,
        IReadOnlyList<CheckRecord> checks, Func<string, EventVerdict?>? verdictOf = null)
    {
        verdictOf ??= id => EventVerdict.Of(register, id);
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
        List<Placement> swaps = [.. stood.Where(p => p.Said.Swap is not null && p.From >= begin && p.From < end)];
        if (swaps.Count > 0) (first, last) = (Math.Min(first, swaps.Min(p => p.From)), Math.Max(last, swaps.Max(p => p.From)));
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
        string Clock(long ms) =>
            DateTimeOffset.FromUnixTimeMilliseconds(ZoneOffsets.LocalOf(ms, offsets)).ToString("HH:mm:ss", CultureInfo.InvariantCulture);
        var judged = new List<(RecordedEvent Event, EventVerdict Verdict)>();
        foreach (var e in events)
        {
            if (verdictOf(e.Id) is { } known) judged.Add((e, known));
        }
        AddStations(shapes, stations, judged, e => (X(e.StartMs) + X(e.StopMs)) / 2, Y);
        foreach (var p in swaps)
        {
            var (role, form) = GraphPicture.SwapLook;
            var swap = p.Said.Swap!;
            string Name(string device) => register.Device(device)?.Name ?? device;
            shapes.Add(new Mark(
                role, X(p.From), Y(stations.IndexOf(p.Station)) + (BarMm / 2), MarkMm, form, "",
                $"{p.Station}, {Clock(p.From)} site time: {Name(swap.Out)} was swapped for {Name(swap.In)}. {swap.Reason}"));
        }
        foreach (var e in events)
        {
            var verdict = judged.Find(j => j.Event == e).Verdict;
            var (role, form, word) = verdict is null
                ? (Role.Annulled, MarkForm.Disc, "not worked out yet")
                : ArrayMap.Look(verdict.Verdict);
            var counts = verdict is null ? "" : ", " + verdict.InWords;
            shapes.Add(new Mark(
                role, (X(e.StartMs) + X(e.StopMs)) / 2, Top - 5, 3, form, e.Id, $"{e.Name}, {Clock(e.StartMs)} site time: {word}{counts}"));
        }
        if (empty > 0)
        {
            var planned = empty == 1 ? "one planned station" : $"{empty} planned stations";
            shapes.Add(new Label(Role.Quiet, Left, bottom + 8, $"Nothing stood at {planned}.", -1, 2.6));
        }
        var title = $"{day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}: {events.Count} events over {stations.Count} stations, "
            + $"{own.Count} checks, {swaps.Count} swaps; each mark above opens an event";
        return new(Width, bottom + (empty > 0 ? 10 : 5), title, shapes);
    }

    // At each event what stands against it there, and before a station's name the worst of its day.
    private static void AddStations(
        List<Shape> shapes, List<string> stations, List<(RecordedEvent Event, EventVerdict Verdict)> judged, Func<RecordedEvent, double> x,
        Func<int, double> y)
    {
        var marks = new List<Mark>();
        var grave = judged.SelectMany(j => j.Verdict.Stations.Select(s => (j.Event, Station: s)))
            .Where(g => g.Station.Verdict != TraceVerdict.Valid).ToLookup(g => g.Station.Station, StringComparer.Ordinal);
        for (var row = 0; row < stations.Count; row++)
        {
            var (station, middle) = (stations[row], y(row) + (BarMm / 2));
            if (!grave.Contains(station)) continue;
            var all = grave[station].ToList();
            var worst = all.MaxBy(g => g.Station.Verdict);
            var (role, form, word) = ArrayMap.Look(worst.Station.Verdict);
            var of = all.Count(g => g.Station.Verdict == worst.Station.Verdict);
            shapes.Add(new Mark(
                role, 2.4, middle, MarkMm, form, $"{worst.Event.Id}|{station}",
                $"Station {station}: {word} in {of} of {judged.Count} {(judged.Count == 1 ? "event" : "events")}"));
            // Marks that would lie on each other are one.
            foreach (var place in all.GroupBy(g => (Math.Floor(x(g.Event) / MarkMm), g.Station.Verdict)))
            {
                var (first, count) = (place.First(), place.Count());
                (role, form, word) = ArrayMap.Look(place.Key.Verdict);
                var rest = count > 1 ? $" and {count - 1} more" : "";
                marks.Add(new(
                    role, x(first.Event), middle, MarkMm, form, $"{first.Event.Id}|{station}",
                    $"Station {station}, {first.Event.Name}{rest}: {word}"));
            }
        }
        if (marks.Count <= MostMarks) shapes.AddRange(marks);
    }

    private static Line Box(Role role, double from, double to, double y) => new(role, [(from, y), (to, y), (to, y + BarMm), (from, y + BarMm)], IsArea: true);

    private static IEnumerable<Shape> Hatched(double from, double to, double y)
    {
        for (var x = from; x < to; x += HatchMm) yield return new Line(Role.Change, [(x, y + BarMm), (Math.Min(x + 1.6, to), y)]);
    }
}
