using System.Text.Json.Nodes;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Mounting;

namespace MicRegister.Server.Tests;

/// <summary>API and command say the same of mounts. Figures by hand algebra, see RigidPlaneTests.</summary>
public sealed class MountsTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_usual_mounts_are_answered_without_a_campaign()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        var answer = await server.Get("/api/mounts?source=propeller&temperatureC=15");
        var mounts = answer["mounts"]!.AsArray();

        Assert.Equal(
            ["flush-plate 0", "inverted-plate 0.007", "ground-stand 1.2", "pole 6", "pole 10"],
            mounts.Select(m => FormattableString.Invariant($"{(string)m!["mount"]!} {(double)m["heightM"]!}")));
        Assert.Equal(70.89, (double)mounts[2]!["answer"]!["firstDipHz"]!, 0.01);
        Assert.Equal(12_153, (double)mounts[1]!["answer"]!["firstDipHz"]!, 0.5);
        Assert.Null(mounts[0]!["answer"]!["firstDipHz"]);
        Assert.Equal("neither-serves", (string)mounts[2]!["answer"]!["agreement"]!);
        Assert.Equal(MountCaveats.All, answer["beyond"]!.AsArray().Select(s => (string)s!));
        Assert.Contains("IEC 61183:1994 table B.1", (string)answer["capsuleSource"]!, StringComparison.Ordinal);
        Assert.Equal("common practice, no source", (string)answer["practiceCertainty"]!);
    }

    [Fact]
    public async Task A_campaign_is_answered_for_its_own_stations()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        var answer = await server.Get($"/api/mounts?campaign={ReadDemo.C}");
        var stations = answer["mounts"]!.AsArray().SelectMany(m => m!["stations"]!.AsArray()).Select(s => (string)s!);

        Assert.Equal(server.Live.Now.Campaign(ReadDemo.C)!.Stations.Keys.Order(StringComparer.Ordinal), stations.Order(StringComparer.Ordinal));
        Assert.NotEmpty(answer["profile"]!.AsArray());
        Assert.Equal(ReadDemo.C, (string)answer["campaign"]!);
    }

    [Theory]
    [InlineData("mount=pole&heightM=0", "Height '0': allowed is a number above 0 up to 100 m")]
    [InlineData("mount=pole&heightM=-3", "Height '-3'")]
    [InlineData("mount=pole&heightM=NaN", "Height 'NaN'")]
    [InlineData("mount=pole&heightM=101", "Height '101'")]
    [InlineData("heightM=2", "one of a mount that is named")]
    [InlineData("elevationDeg=90.5", "Elevation '90.5': allowed is a number above 0 up to 90 °")]
    [InlineData("elevationDeg=0", "Elevation '0'")]
    [InlineData("fromHz=500&toHz=400", "To '400'")]
    [InlineData("toleranceDb=0", "Tolerance '0'")]
    [InlineData("reflection=2", "Reflection '2'")]
    [InlineData("campaign=QUILLMERE-26&mount=pole&elevationDeg=100", "Elevation '100'")]
    public async Task What_cannot_be_is_refused_with_the_value(string query, string says)
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        foreach (var path in new[] { "/api/mounts", "/api/mounts/table.csv", "/api/mounts/plot.svg" })
        {
            using var answer = await server.Client.GetAsync($"{path}?{query}", Cancel);
            Assert.Equal(422, (int)answer.StatusCode);
            Assert.Contains(says, (string)JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["detail"]!, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task What_is_not_here_is_not_found()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        foreach (var path in new[] { "/api/mounts?campaign=NOWHERE", "/api/mounts/table.doc", "/api/mounts/plot.png" })
            Assert.Equal(404, (int)(await server.Client.GetAsync(path, Cancel)).StatusCode);
    }

    [Fact]
    public async Task Table_and_description_go_together()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        using var csv = await server.Client.GetAsync("/api/mounts/table.csv?mount=ground-stand&fromHz=50&toHz=100", Cancel);
        var lines = (await csv.Content.ReadAsStringAsync(Cancel)).Split("\r\n", StringSplitOptions.RemoveEmptyEntries);

        Assert.Equal(1 + 4, lines.Length); // 50, 63, 80 and 100 Hz
        var link = csv.Headers.GetValues("Link").Single();
        var described = await server.Get(link[(link.IndexOf('<', StringComparison.Ordinal) + 1)..link.IndexOf('>', StringComparison.Ordinal)]);
        Assert.Equal(MountCaveats.All, described["rdfs:comment"]!.AsArray().Select(n => (string)n!).TakeLast(MountCaveats.All.Count));
    }

    [Fact]
    public async Task The_command_says_what_the_api_says()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        var (exit, json, _) = await CommandLine.Run("mounts", "--source", "small-multirotor", "--elevation-deg", "60", "--json");
        var (_, text, _) = await CommandLine.Run("mounts", "--mount", "inverted-plate", "--height-m", "0.007", "--to-hz", "3000");

        Assert.Equal(0, exit);
        Assert.Equal(
            (await server.Get("/api/mounts?source=small-multirotor&elevationDeg=60")).ToJsonString(), JsonNode.Parse(json)!.ToJsonString());
        Assert.Contains(
            "inverted over a ground plate, 7 mm: +6.02 dB re free field for something else, 50 Hz to 3000 Hz, 90° over the horizon: "
                + "practice has no word on it.", text, StringComparison.Ordinal);
        Assert.Contains(MountCaveats.All[0], text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_command_writes_the_table_and_refuses_what_cannot_be()
    {
        using var folder = new TemporaryFolder();
        var path = Path.Combine(folder.Path, "mounts.csv");

        Assert.Equal(0, (await CommandLine.Run("mounts", "--csv", path)).Exit);
        Assert.Equal(1 + (5 * 24), (await File.ReadAllLinesAsync(path, Cancel)).Length);
        Assert.True(File.Exists(path + "-metadata.json"));
        foreach (var (args, says) in new (string[], string)[]
        {
            (["--mount", "tree"], "--mount tree: allowed are flush-plate, inverted-plate, ground-stand, pole."),
            (["--mount", "pole", "--height-m", "NaN"], "Height 'NaN'"), (["--elevation-deg", "91"], "Elevation '91'"),
            (["--campaign", "X", "--data", Path.Combine(folder.Path, "none")], "holds no register"),
        })
        {
            var (exit, _, error) = await CommandLine.Run(["mounts", .. args]);
            Assert.Equal(2, exit);
            Assert.Contains(says, error, StringComparison.Ordinal);
        }
    }
}
