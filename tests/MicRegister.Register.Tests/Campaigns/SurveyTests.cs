using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Campaigns;

/// <summary>Stations as surveyed, and what a weather logger read; S1 was planned at 53.001°, 1°, flush.</summary>
public sealed class SurveyTests
{
    private static readonly StationSurveyed Good = new("S1", 53.0011, 1.0002, 14.3, null, 0.02, 0.03, "total station", null);

    [Fact]
    public void The_last_survey_stands_in_the_place_of_the_plan_and_says_how_far_off_it_is()
    {
        var register = Heath.With(Said(Good with { LatitudeDeg = 53.5 }, 1), Said(Good, 2));
        var campaign = register.Campaign(Heath.C)!;
        var (surveyed, planned) = (campaign.PlaceOf("S1")!, campaign.PlaceOf("S2")!);

        Assert.Equal((53.0011, 1.0002, "surveyed", "usual"), (surveyed.LatitudeDeg, surveyed.LongitudeDeg, surveyed.PlaceBy, surveyed.HeightBy));
        // 111320 m/° · √((0.0001°)² + (0.0002° · cos 53.00105°)²) = 111320 · √(1e-8 + 1.44865e-8) = 17.4195 m.
        Assert.Equal(17.42, surveyed.OffPlanM!.Value, 0.01);
        Assert.Equal((53.002, "planned", (double?)null), (planned.LatitudeDeg, planned.PlaceBy, planned.OffPlanM));
        Assert.Null(campaign.PlaceOf("S9"));
    }

    [Fact]
    public void A_survey_that_is_annulled_gives_the_plan_back()
    {
        var said = Said(Good, 1);

        Assert.Equal("planned", Heath.With(said, Make.Annulling(said)).Campaign(Heath.C)!.PlaceOf("S1")!.PlaceBy);
    }

    [Fact]
    public void A_trace_names_the_survey_and_bounds_its_band_by_the_height_that_was_measured()
    {
        var stand = Heath.Flight().Where(f => f.Body is not ChainPlaced).ToArray();
        Fact[] facts = [Make.Of(new StationPlanned("S1", 53.001, 1, Mount.GroundStand, 1.2), "2026-05-03", 1, Subject.Campaign(Heath.C)), .. Heath.Flight()];
        var planned = Heath.One(Heath.With(facts));
        var built = Heath.One(Heath.With([.. facts, Said(Good with { HeightM = 2.4 }, 1)]));

        Assert.Equal(3, stand.Length);
        Assert.Equal("planned", planned.Place!.PlaceBy);
        Assert.Equal(("surveyed", "surveyed", 2.4), (built.Place!.PlaceBy, built.Place.HeightBy, built.Place.HeightM));
        Assert.Equal(1.2, built.Plan!.HeightM);
        // Twice the height brings the interference down to half the frequency.
        Assert.Equal(planned.Applied!.UsableFromHz / 2, built.Applied!.UsableFromHz, planned.Applied.UsableFromHz * 1e-6);
    }

    [Fact]
    public void Surveys_are_stated_together_or_not_at_all()
    {
        Assert.Equal(2, Accepted(CampaignDecisions.Survey(Heath.With(), Saying, Heath.C, [Good, Good with { Station = "S2" }])).Count);
        Assert.Contains("has no such station; plan it first", Refused(Good, Good with { Station = "S9" }), StringComparison.Ordinal);
        Assert.Contains("Station S1 stands twice", Refused(Good, Good), StringComparison.Ordinal);
        Assert.Contains("Station S1: Latitude '91'", Refused(Good with { LatitudeDeg = 91 }), StringComparison.Ordinal);
        Assert.Contains("Longitude '-181'", Refused(Good with { LongitudeDeg = -181 }), StringComparison.Ordinal);
        Assert.Contains("Altitude '7000'", Refused(Good with { AltitudeM = 7000 }), StringComparison.Ordinal);
        Assert.Contains("Height '51'", Refused(Good with { HeightM = 51 }), StringComparison.Ordinal);
        Assert.Contains("no place is exact", Refused(Good with { HorizontalStandardM = 0 }), StringComparison.Ordinal);
        Assert.Contains("Horizontal uncertainty '-1'", Refused(Good with { HorizontalStandardM = -1 }), StringComparison.Ordinal);
        Assert.Contains("Vertical uncertainty is missing", Refused(Good with { VerticalStandardM = null }), StringComparison.Ordinal);
        Assert.Contains("Method is missing", Refused(Good with { Method = " " }), StringComparison.Ordinal);
        Assert.Contains("1 to 10000 are allowed", Refused(), StringComparison.Ordinal);
    }

    [Fact]
    public void A_station_that_is_taken_out_of_the_plan_takes_its_survey_along()
    {
        var said = Said(Good, 1);
        var dropped = Accepted(CampaignDecisions.DropStation(Heath.With(said), Saying, Heath.C, "S1", "moved"));

        Assert.Contains(dropped, f => f.Body is FactAnnulled a && a.Target == said.Id.ToString());
    }

    [Fact]
    public void A_loggers_file_becomes_one_fact_a_local_day_and_is_taken_once()
    {
        // The site is two hours ahead: 22:00 UTC begins the next day there.
        LoggedWeather[] readings = [Read("2026-06-02T21:59:00.000Z"), Read("2026-06-02T22:00:00.000Z"), Read("2026-06-02T22:01:00.000Z")];
        var file = new WeatherLogged("mast.csv", new string('c', 64), readings, "on a mast");
        var facts = Accepted(DeploymentDecisions.LogWeather(Heath.With(), Saying, Heath.C, file));

        Assert.Equal([1, 2], facts.Select(f => ((WeatherLogged)f.Body).Readings.Count));
        Assert.Equal(["2026-06-02T21:59:00.000Z", "2026-06-02T22:00:00.000Z"], facts.Select(f => f.Occurred.ToString()));
        var then = Heath.With([.. facts]);
        Assert.Equal(3, WeatherLog.Of(then, Heath.C).Samples.Count);
        Assert.Contains("taken over already", Text(DeploymentDecisions.LogWeather(then, Saying, Heath.C, file)), StringComparison.Ordinal);
        var annulled = Heath.With([.. facts, .. facts.Select(f => Make.Annulling(f))]);
        Assert.Equal(2, Accepted(DeploymentDecisions.LogWeather(annulled, Saying, Heath.C, file)).Count);
        Assert.Empty(WeatherLog.Of(annulled, Heath.C).Samples);
    }

    [Fact]
    public void A_loggers_day_of_seconds_is_parted_and_each_part_is_a_fact_that_can_be_written()
    {
        var begin = new DateTime(2026, 6, 2, 4, 0, 0, DateTimeKind.Utc);
        LoggedWeather[] readings = [.. Enumerable.Range(0, 6000).Select(i => new LoggedWeather(
            Occurred.At(begin.AddSeconds(i)).ToString(), 123.456789, 12.345678, 23.456789, -12.345678, 98.765432, 101.234567))];
        var facts = Accepted(DeploymentDecisions.LogWeather(Heath.With(), Saying, Heath.C, new("mast.csv", new string('c', 64), readings, null)));

        Assert.Equal([2880, 2880, 240], facts.Select(f => ((WeatherLogged)f.Body).Readings.Count));
    }

    [Fact]
    public void What_a_logger_cannot_have_read_is_refused_with_its_time()
    {
        string Logged(params LoggedWeather[] readings) =>
            Text(DeploymentDecisions.LogWeather(Heath.With(), Saying, Heath.C, new("mast.csv", new string('c', 64), readings, null)));
        var good = Read("2026-06-02T10:00:00.000Z");

        Assert.Contains("1 to 100000 are allowed, not 0", Logged(), StringComparison.Ordinal);
        Assert.Contains("Reading at 'noon'", Logged(good with { At = "noon" }), StringComparison.Ordinal);
        Assert.Contains("each comes after the one before it", Logged(good, good), StringComparison.Ordinal);
        Assert.Contains("10:00:00.000Z: Gust '200'", Logged(good with { GustMs = 200 }), StringComparison.Ordinal);
        Assert.Contains("Nothing was noted", Logged(good with { WindMs = null }), StringComparison.Ordinal);
    }

    private static Saying Saying => new(new(Make.On("2026-06-03T00:00:00.000Z"), "P1", "desk-1.ABCD", 20));

    private static LoggedWeather Read(string at) => new(at, null, 3, null, null, null, null);

    private static Fact Said(StationSurveyed said, int counter) => Make.Of(said, "2026-06-01", counter, Subject.Campaign(Heath.C));

    private static string Refused(params StationSurveyed[] surveys) => Text(CampaignDecisions.Survey(Heath.With(), Saying, Heath.C, surveys));

    private static IReadOnlyList<Fact> Accepted(Result<IReadOnlyList<Fact>> answer)
    {
        Assert.True(answer is Result<IReadOnlyList<Fact>>.Accepted, (answer as Result<IReadOnlyList<Fact>>.Rejected)?.Why.Text);
        return ((Result<IReadOnlyList<Fact>>.Accepted)answer).Value;
    }

    private static string Text(Result<IReadOnlyList<Fact>> answer) => Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(answer).Why.Text;
}
