using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register.Campaigns;

namespace MicRegister.Server.Tests;

/// <summary>Surveys and the weather by API and command.</summary>
public sealed class SiteApiTests
{
    private const string C = "QUILLMERE-26";
    private const string Survey = "Messpunkt;Breite;Länge;Lageunsicherheit [cm];Verfahren\nS01;38,5001;-28,6;2;total station\n";
    private const string Weather = "time (UTC),wind [kt],gust [kt]\n2026-09-02 10:00,10,12\n2026-09-02 10:10,11,14\n";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_survey_is_taken_as_a_whole_or_not_at_all_and_stands_in_the_tables()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);

        var (refused, problem) = await Post(server, "surveys/table", Survey + "S02;viel;-28,6;2;total station\n");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused);
        Assert.StartsWith("Row 3, Breite 'viel': allowed is a number", (string?)problem["detail"], StringComparison.Ordinal);
        Assert.Equal(3, (int)problem["rows"]!.AsArray()[0]!["row"]!);
        var (unknown, why) = await Post(server, "surveys/table", Survey.Replace("S01", "S99", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, unknown);
        Assert.Contains("'S99'", (string?)why["detail"], StringComparison.Ordinal);
        Assert.Empty(server.Live.Now.Campaign(C)!.Surveys);

        Assert.Equal(HttpStatusCode.OK, (await Post(server, "surveys/table", Survey)).Status);
        var place = (await server.Get($"/api/campaigns/{C}/surveys?limit=1"))["items"]!.AsArray()[0]!;
        Assert.Equal(("S01", "surveyed", 38.5001, 0.02), (
            (string?)place["station"], (string?)place["placeBy"], (double)place["latitudeDeg"]!, (double)place["survey"]!["said"]!["horizontalStandardM"]!));

        await Post(server, "events/table", "event,start,stop,zone\nRun 1,2026-09-02 10:00:00,2026-09-02 10:01:00,utc\n");
        var analysis = JsonNode.Parse(await server.Client.GetStringAsync($"/api/campaigns/{C}/analysis.json", Cancel))!.ToJsonString();
        Assert.Contains("38.5001", analysis, StringComparison.Ordinal);
        Assert.Contains("\"surveyed\"", analysis, StringComparison.Ordinal);
        Assert.Contains("\"planned\"", analysis, StringComparison.Ordinal);

        var (status, _, _) = await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/surveys", new[]
        {
            new { station = "S01", latitudeDeg = 38.6, longitudeDeg = -28.6, horizontalStandardM = 0.0, method = "tape" },
        });
        Assert.Equal(422, status);
    }

    [Fact]
    public async Task The_weather_comes_as_a_note_or_as_a_loggers_table_that_is_taken_once()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);

        Assert.Equal(HttpStatusCode.OK, (await Post(server, "weather/table?file=mast.csv", Weather)).Status);
        Assert.Equal(HttpStatusCode.Conflict, (await Post(server, "weather/table?file=again.csv", Weather)).Status);
        var (bad, problem) = await Post(server, "weather/table?zone=moon", Weather);
        Assert.Equal((HttpStatusCode.UnprocessableEntity, "Zone 'moon': allowed are utc and site."), (bad, (string?)problem["detail"]));
        var (worse, rows) = await Post(server, "weather/table", Weather + "2026-09-02 10:20,storm,\n");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, worse);
        Assert.StartsWith("Row 4, wind [kt] 'storm'", (string?)rows["detail"], StringComparison.Ordinal);

        object note = new { at = "2026-09-02T09:00:00.000Z", temperatureC = 21.5 };
        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/weather", note)).Status);
        Assert.Equal(422, (await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/weather", new { at = "nine", temperatureC = 21.5 })).Status);
        Assert.Equal(422, (await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/weather", new { windMs = 300 })).Status);
        var items = (await server.Get($"/api/campaigns/{C}/weather"))["items"]!.AsArray();
        Assert.Equal([21.5, null, null], items.Select(i => (double?)i!["temperatureC"]));
        Assert.Equal(12 * 1852 / 3600.0, (double)items[1]!["gustMs"]!, 1e-6);
        Assert.Equal(404, (await server.Send(HttpMethod.Post, "/api/campaigns/NONE/weather", note)).Status);
    }

    [Fact]
    public async Task Both_come_by_command_too()
    {
        using var register = new TemporaryFolder();
        await DemoFolder.CopyTo(register.Path);
        var (survey, weather) = (Path.Combine(register.Path, "survey.csv"), Path.Combine(register.Path, "mast.csv"));
        await File.WriteAllTextAsync(survey, Survey, Cancel);
        await File.WriteAllTextAsync(weather, Weather, Cancel);

        var (exit, said, error) = await CommandLine.Run(["survey", survey, "--campaign", C, "--data", register.Path]);
        Assert.Equal((0, ""), (exit, error));
        Assert.Contains("survey.csv: 1 stations stored", said, StringComparison.Ordinal);
        (exit, said, _) = await CommandLine.Run(["weather", weather, "--campaign", C, "--zone", "utc", "--data", register.Path]);
        Assert.Equal(0, exit);
        Assert.Contains("mast.csv: 2 readings stored", said, StringComparison.Ordinal);

        (exit, _, error) = await CommandLine.Run(["weather", weather, "--campaign", C, "--data", register.Path]);
        Assert.Equal(2, exit);
        Assert.Contains("was taken over already", error, StringComparison.Ordinal);
        await File.WriteAllTextAsync(survey, "station,latitude\nS01,1\n", Cancel);
        (exit, _, error) = await CommandLine.Run(["survey", survey, "--campaign", C, "--data", register.Path]);
        Assert.Equal(2, exit);
        Assert.Contains("Row 1, longitude ''", error, StringComparison.Ordinal);
        Assert.Contains("Nothing was stored.", error, StringComparison.Ordinal);
        (exit, _, error) = await CommandLine.Run(["survey", survey, "--campaign", "NONE", "--data", register.Path]);
        Assert.Equal(2, exit);
        Assert.Contains("--campaign NONE", error, StringComparison.Ordinal);
    }

    private static async Task<(HttpStatusCode Status, JsonNode Body)> Post(ServerUnderTest server, string to, string table)
    {
        using var content = new StringContent(table, Encoding.UTF8, "text/csv");
        using var answer = await server.Client.PostAsync($"/api/campaigns/{C}/{to}", content, Cancel);
        return (answer.StatusCode, JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!);
    }
}
