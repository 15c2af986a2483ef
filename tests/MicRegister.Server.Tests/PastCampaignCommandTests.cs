using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Documents.Tests.Import;

namespace MicRegister.Server.Tests;

/// <summary>A campaign of the year before goes in by the command and by the API, and is traced like any other.</summary>
public sealed class PastCampaignCommandTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task All_files_at_once_become_events_that_are_traced()
    {
        using var folder = new TemporaryFolder();
        var data = folder.At("data");
        // Rules first, the others from the last to the first.
        string[] files = [.. PastCampaign.Files.Take(1).Concat(PastCampaign.Files.Skip(1).Reverse())
            .Select(f => folder.Write(f.Name, f.Text))];

        var (exit, output, error) = await CommandLine.Run(["import", .. files, "--data", data, "--by", "Ada"]);

        Assert.True(exit == 0, output + error);
        Assert.Contains("checks.csv: a table of checks with a calibrator.", output, StringComparison.Ordinal);
        var (_, events, _) = await CommandLine.Run("events", "--data", data);
        Assert.Equal(
        [
            "MARSH-25.RUN-1: Run 1, 2025-06-03 08:00:00 UTC: doubtful, of 4 stations 2 valid, 2 doubtful, 0 undecided, 0 not valid",
            "MARSH-25.RUN-2: Run 2, 2025-06-03 11:30:00 UTC: doubtful, of 4 stations 2 valid, 2 doubtful, 0 undecided, 0 not valid",
            "MARSH-25.RUN-3: Run 3, 2025-06-04 08:00:00 UTC: doubtful, of 4 stations 3 valid, 0 doubtful, 0 undecided, 1 not valid",
        ], events.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries));
        var (_, trace, _) = await CommandLine.Run("trace", "--event", "MARSH-25.RUN-1", "--station", "S4", "--data", data);
        Assert.Contains("was not checked after it", trace, StringComparison.Ordinal);
        Assert.Contains("lacks readings, devices or a budget", trace, StringComparison.Ordinal);

        var (again, text, _) = await CommandLine.Run(["import", .. files, "--data", data, "--by", "Ben"]);
        Assert.Equal(0, again);
        Assert.Contains("0 facts stored.", text, StringComparison.Ordinal);
        Assert.Equal(0, (await CommandLine.Run("verify", "--data", data)).Exit);
    }

    [Fact]
    public async Task A_log_is_taken_back_and_comes_back_with_its_file()
    {
        using var folder = new TemporaryFolder();
        var data = folder.At("data");
        string[] files = [.. PastCampaign.Files.Select(f => folder.Write(f.Name, f.Text))];
        Assert.Equal(0, (await CommandLine.Run(["import", .. files, "--data", data])).Exit);
        async Task<string> Run1() => (await CommandLine.Run("events", "--data", data)).Out.Split('\n')[0];
        var before = await Run1();
        Assert.Contains("2 valid, 2 doubtful", before, StringComparison.Ordinal);

        foreach (var file in new[] { "checks.csv", "weather.csv", "clocks.csv" })
        {
            var imports = JsonNode.Parse((await CommandLine.Run("imports", "--data", data, "--json")).Out)!.AsArray();
            var id = (string)imports.Single(i => (string?)i!["file"] == file)!["id"]!;
            var (exit, output, error) = await CommandLine.Run("imports", "--take-back", id, "--reason", "another campaign's", "--data",
                data);
            Assert.True(exit == 0, output + error);
        }
        Assert.Contains("0 valid, 4 doubtful", await Run1(), StringComparison.Ordinal);

        Assert.Equal(0, (await CommandLine.Run(["import", .. files, "--data", data])).Exit);
        Assert.Equal(before, await Run1());
    }

    [Fact]
    public async Task A_bad_row_stores_nothing_and_partly_what_is_good()
    {
        using var folder = new TemporaryFolder();
        var data = folder.At("data");
        string[] files = [.. PastCampaign.Files.Take(4).Select(f => folder.Write(f.Name, f.Text))];
        Assert.Equal(0, (await CommandLine.Run(["import", .. files, "--data", data])).Exit);
        var file = folder.Write("more.csv", "Station,Time,Microphone\nS1,2025-06-03 07:00,101\nS2,2025-06-03 07:00,999\n");

        var (exit, output, error) = await CommandLine.Run("import", file, "--data", data);

        Assert.Equal(2, exit);
        Assert.Contains("row 3: refused: Microphone '999': no microphone with that serial number is known", output,
            StringComparison.Ordinal);
        Assert.Contains("Nothing was stored", error, StringComparison.Ordinal);
        var (_, tried, _) = await CommandLine.Run("import", file, "--data", data, "--dry-run", "--json");
        Assert.Equal(1, (int)JsonNode.Parse(tried)!["files"]![0]!["facts"]!);
    }

    [Fact]
    public async Task The_api_takes_the_same_files_by_whoever_may_state_what_they_hold()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        foreach (var (name, text) in PastCampaign.Files)
        {
            var answer = await Post(server, Duties.Own, name, text);
            Assert.True((bool)answer["isGood"]!, answer.ToJsonString());
            Assert.True((int)answer["stored"]! > 0, name);
        }
        // Whoever plans may say what stood where, but not what was read in a check.
        var (placed, isPlaced) = await Try(server, Duties.Plan, "p.csv", "Station,Time,Microphone\nS4,2025-06-04 07:00,104\n");
        Assert.True(isPlaced, placed.ToJsonString());
        Assert.Equal(1, (int)placed["stored"]! > 0 ? 1 : 0);
        var (refused, isTaken) = await Try(
            server, Duties.Plan, "c.csv", "Station,Time,Moment,Calibrator,Reading [dB]\nS4,2025-06-04 07:30,before,501,94.0\n");
        Assert.False(isTaken);
        Assert.Contains("To state 'chain checked' needs one of the duties", refused.ToJsonString()
            .Replace("\\u0027", "'", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    private static async Task<JsonNode> Post(ServerUnderTest server, Duties duty, string name, string text) =>
        (await Try(server, duty, name, text)).Answer;

    private static async Task<(JsonNode Answer, bool IsTaken)> Try(ServerUnderTest server, Duties duty, string name, string text)
    {
        using var request = new HttpRequestMessage(HttpMethod.Post, $"/api/imports?name={name}&store=true")
        { Content = new ByteArrayContent(Encoding.UTF8.GetBytes(text)) };
        request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", server.Tokens[duty]);
        using var answer = await server.Client.SendAsync(request, Cancel);
        return (JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!, answer.StatusCode == HttpStatusCode.OK);
    }
}
