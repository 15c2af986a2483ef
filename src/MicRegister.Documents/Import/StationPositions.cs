using System.Globalization;
using MicRegister.Register.Campaigns;

namespace MicRegister.Documents.Import;

/// <summary>
/// Positions of stations of one campaign, each held against the others: one far from them is a slip of coordinates as a rule, and two on
/// one spot are one line copied. The register's own stations count among the others.
/// </summary>
/// <param name="all">All positions, each station once.</param>
/// <param name="told">Stations of them that the table at hand speaks of.</param>
/// <param name="rules">What a person said of it.</param>
/// <param name="sheet">Name of the sheet.</param>
internal sealed class StationPositions(
    IReadOnlyList<StationPositions.Spot> all, IReadOnlySet<string> told, ImportMapping rules, string sheet)
{
    private const string FarKey = "far-stations";
    private const string SpotKey = "one-spot";

    // No campaign of one source is heard that far.
    private const double FarM = 100_000;

    // A swap that brings a station so much nearer is no chance.
    private const double LeastSwapM = 10_000;
    private const double Nearer = 0.1;

    // Coordinates with six decimals of a degree tell 0.11 m.
    private const double SpotM = 0.1;

    // Mean radius of the earth (IUGG; from memory).
    private const double EarthM = 6_371_009;

    private readonly Dictionary<string, Doubt?> _doubts = new(StringComparer.Ordinal);

    /// <summary>Looks at a position before it is taken.</summary>
    /// <returns>The position, with latitude and longitude swapped where a person said so.</returns>
    /// <exception cref="RowProblem">It is far from the others, or on the spot of another station.</exception>
    public (double LatitudeDeg, double LongitudeDeg) Settle(RowReader row, string station, double latitudeDeg, double longitudeDeg)
    {
        if (row.IsChecked || all.FirstOrDefault(s => s.Station == station) is not { } own) return (latitudeDeg, longitudeDeg);
        if (DoubtOf(own) is { } doubt && rules.Of(FarKey) != "keep")
        {
            if (doubt.IsSwapped && rules.Of(FarKey) == "swap") return (longitudeDeg, latitudeDeg);
            throw new RowProblem(
                RowSort.Questioned, $"{station} lies {doubt.Words}", row.HeaderOf(Column.Latitude), $"{station}: {PlaceOf(own)}")
            { Question = Far() };
        }
        if (rules.Of(SpotKey) != "keep" && Twin(own) is { } twin)
        {
            throw new RowProblem(
                RowSort.Questioned, $"{station} stands on the spot of {twin.Station}, {PlaceOf(own)}", row.HeaderOf(Column.Latitude),
                $"{station} and {twin.Station}")
            {
                Question = new(SpotKey, sheet, "Stations stand on one spot. Is that right?",
                    [new("They stand on one spot", SpotKey + " := keep")]),
            };
        }
        return (latitudeDeg, longitudeDeg);
    }

    private ImportQuestion Far()
    {
        var isAllSwapped = all.Where(s => told.Contains(s.Station)).Select(DoubtOf).OfType<Doubt>().All(d => d.IsSwapped);
        var swap = new ImportChoice("Latitude and longitude are swapped there: swap them back", FarKey + " := swap");
        var keep = new ImportChoice("They are where the list says", FarKey + " := keep");
        return new(FarKey, sheet, "Stations lie far from the others. Where are they?", isAllSwapped ? [swap, keep] : [keep]);
    }

    private Doubt? DoubtOf(Spot spot)
    {
        if (!_doubts.TryGetValue(spot.Station, out var doubt)) _doubts[spot.Station] = doubt = Find(spot);
        return doubt;
    }

    private Doubt? Find(Spot spot)
    {
        var others = all.Where(s => s.Station != spot.Station).ToList();
        if (others.Count == 0) return null;
        var off = Off(spot, others);
        if (off <= LeastSwapM) return null;
        bool IsNear(double latitude, double longitude) =>
            latitude is >= -90 and <= 90 && Off(spot with { LatitudeDeg = latitude, LongitudeDeg = longitude }, others) < off * Nearer;
        var isSwapped = IsNear(spot.LongitudeDeg, spot.LatitudeDeg);
        if (off <= FarM && !isSwapped) return null;
        var mend = isSwapped ? "; with latitude and longitude swapped it would lie among them"
            : IsNear(spot.LatitudeDeg, -spot.LongitudeDeg) ? "; with the other sign of its longitude it would lie among them"
            : IsNear(-spot.LatitudeDeg, spot.LongitudeDeg) ? "; with the other sign of its latitude it would lie among them"
            : "; latitude and longitude swapped would not put it among them";
        var words = others.Count == 1 ? $"from {others[0].Station}"
            : FormattableString.Invariant($"from the median of the {others.Count} other stations");
        return new(FormattableString.Invariant($"{off / 1000:F0} km {words}{mend}"), isSwapped);
    }

    private Spot? Twin(Spot own) => all.FirstOrDefault(s => s.Station != own.Station && s.Setup == own.Setup && Metres(s, own) < SpotM);

    // The lower median of distances: among three, one far off takes the two others along with it by no other measure.
    private static double Off(Spot spot, List<Spot> others) =>
        others.Select(o => Metres(spot, o)).Order().ElementAt((others.Count - 1) / 2);

    // Over hundreds of km a plane will not do: haversine on a sphere.
    internal static double Metres(Spot a, Spot b)
    {
        static double Radians(double degrees) => degrees * Math.PI / 180;
        double Half(double degrees) => Math.Pow(Math.Sin(Radians(degrees) / 2), 2);
        var h = Half(b.LatitudeDeg - a.LatitudeDeg)
            + (Math.Cos(Radians(a.LatitudeDeg)) * Math.Cos(Radians(b.LatitudeDeg)) * Half(b.LongitudeDeg - a.LongitudeDeg));
        return 2 * EarthM * Math.Asin(Math.Min(1, Math.Sqrt(h)));
    }

    private static string PlaceOf(Spot spot) =>
        string.Create(CultureInfo.InvariantCulture, $"{spot.LatitudeDeg}°, {spot.LongitudeDeg}°");

    /// <summary>A position.</summary>
    /// <param name="Station">The station.</param>
    /// <param name="LatitudeDeg">WGS84 latitude in °.</param>
    /// <param name="LongitudeDeg">WGS84 longitude in °.</param>
    /// <param name="Setup">What stands there: a microphone on a plate and one on a pole may share a spot.</param>
    internal sealed record Spot(string Station, double LatitudeDeg, double LongitudeDeg, string Setup)
    {
        public static Spot Of(StationPlanned plan) =>
            new(plan.Station, plan.LatitudeDeg, plan.LongitudeDeg, SetupOf(plan.Mount, plan.HeightM));

        public static Spot Of(StationSurveyed survey, StationPlanned? plan) => new(
            survey.Station, survey.LatitudeDeg, survey.LongitudeDeg, SetupOf(plan?.Mount, survey.HeightM ?? plan?.HeightM));

        private static string SetupOf(Mount? mount, double? heightM) => string.Create(CultureInfo.InvariantCulture, $"{mount} {heightM}");
    }

    private sealed record Doubt(string Words, bool IsSwapped);
}
