using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Tests;

/// <summary>A windscreen by the API, with curves as files, until a campaign can rely on it.</summary>
public sealed class BandLimitApiTests
{
    private static readonly string Screen = DeviceIdentity.IdOf("windscreen", "M", "W-90", "1");

    // Bands of 50 Hz to 10 kHz, one level but at 1 kHz.
    private static string Table(double at1000) => "Hz,dB,U\n" + string.Concat(
        new[] { 50, 63, 80, 100, 125, 160, 200, 250, 315, 400, 500, 630, 800, 1000, 1250, 1600, 2000, 2500, 3150, 4000, 5000, 6300, 8000, 10_000 }
            .Select(hz => FormattableString.Invariant($"{hz},{(hz == 1000 ? at1000 : 0.2)},0.1\n")));

    [Fact]
    public async Task Curves_are_held_against_each_other_and_an_intact_screen_needs_none()
    {
        await using var server = await Started();
        await Certified(server, "2026-03-01", Table(0.2));
        await Certified(server, "2026-07-01", Table(0.6));
        Assert.Empty(await Findings(server));

        // 0.2 dB to 0.61 dB at one band: more than 0.4 dB (14 CFR 36, A36.3.9.10).
        await Certified(server, "2026-07-02", Table(1.01));
        var found = Assert.Single(await Findings(server));
        Assert.Equal("change-in-bands", (string)found!["rule"]!);
        Assert.Contains("+0.410 dB at 1000 Hz from 2026-07-01 to 2026-07-02", (string)found["text"]!, StringComparison.Ordinal);
        var doubt = Assert.Single((await server.Get("/api/doubts?device=" + Screen))["items"]!.AsArray());
        Assert.Contains("in the third-octave band at 1000 Hz", (string)doubt!["text"]!, StringComparison.Ordinal);

        // The same by the command, which reads the folder.
        var (_, said, _) = await CommandLine.Run("readiness", "T", "--data", server.Folder, "--today", "2026-08-03");
        Assert.Contains("+0.410 dB at 1000 Hz", said, StringComparison.Ordinal);

        var intact = new { day = "2026-07-20", passed = true, undamaged = true, uncontaminated = true, makersData = "data sheet, edition 3" };
        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/devices/{Screen}/inspections", intact)).Status);
        Assert.Empty(await Findings(server));
        var kept = (await server.Get("/api/devices/" + Screen))["device"]!["inspections"]![0]!["what"]!;
        Assert.Equal("data sheet, edition 3", (string)kept["makersData"]!);

        var damaged = new { day = "2026-07-30", what = "damage", text = "torn foam", beginsAnew = false };
        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/devices/{Screen}/services", damaged)).Status);
        Assert.Contains("serve no more since 2026-07-30", (string)Assert.Single(await Findings(server))!["text"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_found_damaged_cannot_pass()
    {
        await using var server = await Started();

        var (status, problem, _) = await server.Send(
            HttpMethod.Post, $"/api/devices/{Screen}/inspections", new { day = "2026-07-20", passed = true, undamaged = false });

        Assert.Equal(422, status);
        Assert.Contains("found damaged", problem!.ToJsonString(), StringComparison.Ordinal);
    }

    private static async Task<ServerUnderTest> Started()
    {
        var server = await ServerUnderTest.Open();
        async Task Say(HttpMethod method, string path, object body) => Assert.Equal(200, (await server.Send(method, path, body)).Status);
        await Say(HttpMethod.Post, "/api/devices", new { kind = "windscreen", maker = "M", model = "W-90", serial = "1" });
        await Say(HttpMethod.Put, "/api/campaigns/T", new
        {
            name = "Trial",
            firstDay = "2026-08-10",
            lastDay = "2026-08-12",
            zone = "UTC",
            offsets = Array.Empty<object>(),
            site = "Heath",
            altitudeM = 10,
            source = "jet",
            lowestHz = 50,
            highestHz = 10_000,
            profile = "transport-1200mm",
            permittedLosses = 0,
        });
        await Say(HttpMethod.Put, "/api/campaigns/T/stations/S1", new { station = "S1", latitudeDeg = 53, longitudeDeg = 1, mount = "ground-stand" });
        await Say(HttpMethod.Put, "/api/campaigns/T/stations/S1/chain", new[] { Screen });
        return server;
    }

    private static async Task Certified(ServerUnderTest server, string day, string table)
    {
        using var kept = await server.Client.PostAsync(
            "/api/attachments", new ByteArrayContent(Encoding.UTF8.GetBytes(table)), TestContext.Current.CancellationToken);
        var curve = (string)(await kept.Content.ReadFromJsonAsync<JsonNode>(TestContext.Current.CancellationToken))!["sha256"]!;
        var issued = new
        {
            quantity = "insertion-loss",
            results = new[] { new { state = "as-found-and-left", value = 0.2, unit = "dB", expandedUncertainty = 0.1, uncertaintyUnit = "dB", coverageFactor = 2 } },
            curve,
        };
        Assert.Equal(200, (await server.Send(HttpMethod.Post, "/api/certificates", new { devices = new[] { Screen }, day, issued })).Status);
    }

    private static async Task<IReadOnlyList<JsonNode?>> Findings(ServerUnderTest server) =>
        [.. (await server.Get("/api/campaigns/T/readiness"))["findings"]!.AsArray().Where(f => (string?)f!["device"] == Screen)];
}
