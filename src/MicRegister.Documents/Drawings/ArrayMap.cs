using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Drawings;

/// <summary>The stations of a campaign from above, in local metres, with scale and north, each in the form of its verdict.</summary>
public static class ArrayMap
{
    private const double Margin = 12;
    private const double MetresPerDegree = 111_320;
    private const double MarkMm = 4.4;

    /// <summary>
    /// So many stations are drawn each by itself, with its name; of more, those that would lie on each other are one mark.
    /// </summary>
    internal const int MostSingle = 500;

    private const int MostNamed = 5;
    private static readonly int[] Lengths = [5, 2, 1];

    /// <summary>Draws the array with the verdicts of its stations.</summary>
    /// <param name="campaign">Campaign with its stations.</param>
    /// <param name="verdicts">Verdict of each station by its name; a station without one is undecided.</param>
    /// <param name="widthMm">Width of the drawing.</param>
    public static Drawing Of(CampaignState campaign, IReadOnlyDictionary<string, ReadinessVerdict> verdicts, double widthMm = 200) =>
        Of(campaign, station => Look(verdicts.GetValueOrDefault(station, ReadinessVerdict.Undecided)), null, widthMm);

    /// <summary>Draws how far each station is.</summary>
    /// <param name="campaign">Campaign with its stations.</param>
    /// <param name="standing">How far each is.</param>
    /// <param name="weather">Wind, where it was noted.</param>
    /// <param name="widthMm">Width of the drawing.</param>
    public static Drawing Of(CampaignState campaign, IReadOnlyList<StationStanding> standing, WeatherNoted? weather, double widthMm = 200)
    {
        var states = standing.ToDictionary(s => s.Station, s => s.State);
        return Of(campaign, station => Look(states.GetValueOrDefault(station, StationState.Planned)), weather, widthMm);
    }

    /// <summary>Draws what a recording of each station is worth.</summary>
    /// <param name="campaign">Campaign with its stations.</param>
    /// <param name="trace">What applies to each station.</param>
    /// <param name="widthMm">Width of the drawing.</param>
    public static Drawing Of(CampaignState campaign, EventTrace trace, double widthMm = 200)
    {
        var verdicts = trace.Stations.GroupBy(s => s.Station).ToDictionary(g => g.Key, g => g.Max(s => s.Verdict));
        return Of(campaign, station => Look(verdicts.GetValueOrDefault(station, TraceVerdict.NotValid)), null, widthMm);
    }

    /// <summary>Colour, form and word of what a recording is worth.</summary>
    public static (Role Role, MarkForm Form, string Word) Look(TraceVerdict verdict) => verdict switch
    {
        TraceVerdict.Valid => (Role.Ready, MarkForm.Disc, verdict.InWords),
        TraceVerdict.Doubtful => (Role.Risk, MarkForm.Triangle, verdict.InWords),
        TraceVerdict.Undecided => (Role.Undecided, MarkForm.Diamond, verdict.InWords),
        _ => (Role.Stop, MarkForm.Square, verdict.InWords),
    };

    /// <summary>Colour, form and word of how far a station is; each form is its own, so that black and white lose nothing.</summary>
    public static (Role Role, MarkForm Form, string Word) Look(StationState state) => state switch
    {
        StationState.Placed => (Role.Undecided, MarkForm.Diamond, state.InWords),
        StationState.Checked => (Role.Ready, MarkForm.Disc, state.InWords),
        StationState.Failing => (Role.Stop, MarkForm.Square, state.InWords),
        StationState.TakenIn => (Role.Quiet, MarkForm.Cross, state.InWords),
        _ => (Role.Annulled, MarkForm.Disc, state.InWords),
    };

    private static Drawing Of(CampaignState campaign, Func<string, (Role Role, MarkForm Form, string Word)> look, WeatherNoted? weather, double widthMm)
    {
        var stations = campaign.Stations.Keys.Select(s => campaign.PlaceOf(s)!.AsBuilt).ToList();
        if (stations.Count == 0) return new(widthMm, 20, "No station is planned yet.", [new Label(Role.Quiet, widthMm / 2, 12, "No station is planned yet.", 0)]);

        // A plane through the middle of the site: good to a centimetre over some kilometres.
        var middle = stations.Average(s => s.LatitudeDeg);
        var scaleX = MetresPerDegree * Math.Cos(middle * Math.PI / 180);
        var places = stations.Select(s => (Station: s, X: s.LongitudeDeg * scaleX, Y: -s.LatitudeDeg * MetresPerDegree)).ToList();
        double left = places.Min(p => p.X), right = places.Max(p => p.X), top = places.Min(p => p.Y), bottom = places.Max(p => p.Y);
        var metres = Math.Max(1, right - left);
        var mmPerMetre = Math.Min((widthMm - (2 * Margin)) / metres, 110 / Math.Max(1, bottom - top));
        var height = ((bottom - top) * mmPerMetre) + (2 * Margin) + 8;
        var offset = (widthMm - (metres * mmPerMetre)) / 2;
        var shapes = new List<Shape>();
        var marks = places
            .Select(p => (
                Name: p.Station.Station,
                X: offset + ((p.X - left) * mmPerMetre),
                Y: Margin + ((p.Y - top) * mmPerMetre),
                Look: look(p.Station.Station)))
            .ToList();
        if (marks.Count > MostSingle) AddBundles(shapes, marks);
        else
        {
            foreach (var (name, x, y, (role, form, word)) in marks)
            {
                shapes.Add(new Mark(role, x, y, MarkMm, form, name, $"Station {name}: {word}"));
                shapes.Add(new Label(Role.Quiet, x, y + 5.2, name, 0, 2.6));
            }
        }
        AddScale(shapes, widthMm, height, mmPerMetre);
        if (weather?.WindFromDeg is { } from) AddWind(shapes, widthMm, height, from, weather.WindMs);
        return new(widthMm, height, $"{campaign.Name}: {stations.Count} stations from above", shapes);
    }

    // Stations that would lie on each other and look the same are one mark, so that what is drawn is bounded by the paper.
    private static void AddBundles(List<Shape> shapes, IEnumerable<(string Name, double X, double Y,
        (Role Role, MarkForm Form, string Word) Look)> marks)
    {
        foreach (var bundle in marks.GroupBy(m => (Math.Floor(m.X / MarkMm), Math.Floor(m.Y / MarkMm), m.Look)))
        {
            List<string> names = [.. bundle.Select(m => m.Name)];
            var (role, form, word) = bundle.Key.Look;
            var rest = names.Count > MostNamed ? FormattableString.Invariant($" and {names.Count - MostNamed} more") : "";
            shapes.Add(new Mark(role, bundle.First().X, bundle.First().Y, MarkMm, form, names[0],
                $"{(names.Count == 1 ? "Station" : "Stations")} {string.Join(", ", names.Take(MostNamed))}{rest}: {word}"));
        }
    }

    private static (Role Role, MarkForm Form, string Word) Look(ReadinessVerdict verdict) => verdict switch
    {
        ReadinessVerdict.Ready => (Role.Ready, MarkForm.Disc, verdict.InWords),
        ReadinessVerdict.AtRisk => (Role.Risk, MarkForm.Triangle, verdict.InWords),
        ReadinessVerdict.NotReady => (Role.Stop, MarkForm.Square, verdict.InWords),
        _ => (Role.Undecided, MarkForm.Diamond, verdict.InWords),
    };

    // An arrow with the wind: from where it comes to where it goes.
    private static void AddWind(List<Shape> shapes, double width, double height, double fromDeg, double? metresPerSecond)
    {
        const double Half = 4;
        double x = width - 24, y = height - 8, angle = fromDeg * Math.PI / 180;
        (double X, double Y) to = (x - (Half * Math.Sin(angle)), y + (Half * Math.Cos(angle)));
        (double X, double Y) Barb(double turn) => (to.X + (2.2 * Math.Sin(angle + turn)), to.Y - (2.2 * Math.Cos(angle + turn)));
        shapes.Add(new Line(Role.Forecast, [(x + (Half * Math.Sin(angle)), y - (Half * Math.Cos(angle))), to]));
        shapes.Add(new Line(Role.Ink, [Barb(0.5), to, Barb(-0.5)]));
        shapes.Add(new Label(Role.Ink, x - 7, y + 1, FormattableString.Invariant($"wind from {fromDeg:0}°{(metresPerSecond is { } v ? FormattableString.Invariant($", {v:0.#} m/s") : "")}"), 1));
    }

    private static void AddScale(List<Shape> shapes, double width, double height, double mmPerMetre)
    {
        var step = Math.Pow(10, Math.Floor(Math.Log10(40 / mmPerMetre)));
        var length = Lengths.Select(f => f * step).First(m => m * mmPerMetre <= 40);
        var y = height - 4;
        shapes.Add(new Line(Role.Ink, [(6, y - 1), (6, y), (6 + (length * mmPerMetre), y), (6 + (length * mmPerMetre), y - 1)]));
        shapes.Add(new Label(Role.Ink, 8 + (length * mmPerMetre), y + 0.8, length >= 1000 ? FormattableString.Invariant($"{length / 1000} km") : FormattableString.Invariant($"{length} m")));
        shapes.Add(new Line(Role.Ink, [(width - 8, y), (width - 8, y - 7), (width - 9.2, y - 4.6), (width - 8, y - 7), (width - 6.8, y - 4.6)]));
        shapes.Add(new Label(Role.Ink, width - 8, y - 8, "N", 0));
    }
}
