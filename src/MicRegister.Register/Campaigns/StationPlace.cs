namespace MicRegister.Register.Campaigns;

/// <summary>Where a station is: as it was surveyed where it was, otherwise as it was planned.</summary>
/// <param name="Plan">How it was planned.</param>
/// <param name="Survey">Its survey in force; null where it was not surveyed.</param>
public sealed record StationPlace(StationPlanned Plan, StationSurvey? Survey)
{
    private const double MetresPerDegree = 111_320;

    /// <summary>WGS84 latitude in °.</summary>
    public double LatitudeDeg => Survey?.Said.LatitudeDeg ?? Plan.LatitudeDeg;

    /// <summary>WGS84 longitude in °.</summary>
    public double LongitudeDeg => Survey?.Said.LongitudeDeg ?? Plan.LongitudeDeg;

    /// <summary>Height of the diaphragm above the ground or plate, in m; null is the mount's usual one.</summary>
    public double? HeightM => Survey?.Said.HeightM ?? Plan.HeightM;

    /// <summary>The plan with what was surveyed in its place.</summary>
    public StationPlanned AsBuilt => Survey is null
        ? Plan
        : Plan with { LatitudeDeg = LatitudeDeg, LongitudeDeg = LongitudeDeg, HeightM = HeightM };

    /// <summary>Whether the place was surveyed or planned, in a word.</summary>
    public string PlaceBy => Survey is null ? "planned" : "surveyed";

    /// <summary>The same of the height; the mount's usual one where nobody said any.</summary>
    public string HeightBy => Survey?.Said.HeightM is not null ? "surveyed" : Plan.HeightM is not null ? "planned" : "usual";

    /// <summary>How far the survey lies from the plan, in m; null where it was not surveyed.</summary>
    public double? OffPlanM => Survey is { Said: var said }
        ? Metres(Plan.LatitudeDeg, Plan.LongitudeDeg, said.LatitudeDeg, said.LongitudeDeg)
        : null;

    /// <summary>Distance of two places in m, on a plane through both: good to a thousandth over some kilometres.</summary>
    public static double Metres(double latitudeDeg, double longitudeDeg, double otherLatitudeDeg, double otherLongitudeDeg)
    {
        var scale = Math.Cos((latitudeDeg + otherLatitudeDeg) / 2 * Math.PI / 180);
        return MetresPerDegree
            * Math.Sqrt(Math.Pow(otherLatitudeDeg - latitudeDeg, 2) + Math.Pow((otherLongitudeDeg - longitudeDeg) * scale, 2));
    }
}

/// <summary>A survey of a station.</summary>
/// <param name="Fact">Id of the fact.</param>
/// <param name="At">When it was said to hold from: a day or an instant.</param>
/// <param name="Said">What was measured.</param>
public sealed record StationSurvey(string Fact, string At, StationSurveyed Said);
