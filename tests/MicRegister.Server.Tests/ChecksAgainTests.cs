using System.Text.Json.Nodes;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Server.Tests;

/// <summary>Checks worked out again by the certificates in force, through the doors of programs.</summary>
public sealed class ChecksAgainTests
{
    private const string Campaign = "QUILLMERE-26";

    [Fact]
    public async Task A_late_certificate_is_shown_with_what_would_change_and_one_act_states_it()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        string Id(string serial) => server.Live.Now.DeviceIds.Select(d => server.Live.Now.Device(d)!).Single(d => d.Serial == serial).Id;
        var (calibrator, barometer) = (Id("K501"), server.Live.Now.DeviceIds.Select(d => server.Live.Now.Device(d)!).First(d => d.Kind == DeviceKind.Barometer.Key).Id);
        object check = new { campaign = Campaign, station = "S01", calibrator, barometer, moment = "before", at = "2026-08-02", method = "voltage", readings = new[] { 0.39 }, air = new { pressureKPa = 99.8 } };
        Assert.Equal(200, (await server.Send(HttpMethod.Post, "/api/checks", new { checks = new[] { check } })).Status);
        var stated = (await server.Get($"/api/campaigns/{Campaign}/checks?day=2026-08-02"))["items"]![0]!;
        Assert.Equal(barometer, (string)stated["check"]!["barometer"]!);
        Assert.DoesNotContain(await Superseded(), c => (string)c!["fact"]! == (string)stated["fact"]!);

        // 124.01 dB was certified; what comes late, of the day before, says 0.05 dB more.
        Assert.Equal(200, (await server.Send(HttpMethod.Post, "/api/certificates", new
        {
            devices = new[] { calibrator },
            day = "2026-08-01",
            issued = new { quantity = "level", frequencyHz = 250, results = new[] { new { state = "as-found-and-left", value = 124.06, unit = "dB", expandedUncertainty = 0.1, uncertaintyUnit = "dB", coverageFactor = 2 } } },
        })).Status);
        var shown = Assert.Single(await Superseded(), c => (string)c!["fact"]! == (string)stated["fact"]!)!;
        Assert.Equal(-0.05, (double)shown["changeDb"]!, 1e-6);
        Assert.Equal(0.05, (double)shown["superseded"]![0]!["differenceDb"]!, 1e-6);

        Assert.Equal(200, (await server.Send(HttpMethod.Post, "/api/checks/again", new { checks = new[] { (string)stated["fact"]! } })).Status);
        var again = Assert.Single((await server.Get($"/api/campaigns/{Campaign}/checks?day=2026-08-02"))["items"]!.AsArray())!;
        Assert.Equal((double)stated["check"]!["sensitivityDb"]! - 0.05, (double)again["check"]!["sensitivityDb"]!, 1e-6);
        Assert.NotEqual((string)stated["fact"]!, (string)again["fact"]!);
        Assert.Equal(409, (await server.Send(HttpMethod.Post, "/api/checks/again", new { checks = new[] { (string)stated["fact"]! } })).Status);

        async Task<JsonArray> Superseded() => (await server.Get($"/api/campaigns/{Campaign}/checks/superseded")).AsArray();
    }

    [Fact]
    public async Task One_of_two_certificates_of_a_day_is_chosen_by_a_person()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var device = server.Live.Now.DeviceIds.Select(d => server.Live.Now.Device(d)!).Single(d => d.Serial == "41001").Id;
        var facts = new List<string>();
        foreach (var level in new[] { -26.1, -26.2 })
        {
            var (_, body, _) = await server.Send(HttpMethod.Post, "/api/certificates", new
            {
                devices = new[] { device },
                day = "2026-08-01",
                issued = new { quantity = "sensitivity", frequencyHz = 250, results = new[] { new { state = "as-found-and-left", value = level, unit = "dB re 1 V/Pa", expandedUncertainty = 0.1, uncertaintyUnit = "dB", coverageFactor = 2 } } },
            });
            facts.Add((string)body![0]!["id"]!);
        }
        foreach (var fact in facts)
        {
            Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/certificates/{fact}/choices", new { device, reason = "agreed" })).Status);
            Assert.Equal(fact, Register.Calibration.CalibrationSeries.Newest(server.Live.Now.Device(device)!, "sensitivity")!.Fact.ToString());
        }
        Assert.Equal(404, (await server.Send(HttpMethod.Post, $"/api/certificates/{default(FactId)}/choices", new { device, reason = "agreed" })).Status);
    }

    [Fact]
    public async Task The_command_shows_what_would_change_and_states_it_only_when_it_is_told_to()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);

        var (exit, said, _) = await CommandLine.Run(["again", "--data", folder.Path, "--campaign", Campaign]);
        Assert.Equal((0, "Every check rests on the certificates in force."), (exit, said.Trim()));
        Assert.Equal(2, (await CommandLine.Run(["again", "--data", folder.Path, "--campaign", "NOWHERE"])).Exit);
        var json = JsonNode.Parse((await CommandLine.Run(["again", "--data", folder.Path, "--campaign", Campaign, "--store", "--json"])).Out)!;
        Assert.Equal((0, 0), ((int)json["stored"]!, json["checks"]!.AsArray().Count));
    }
}
