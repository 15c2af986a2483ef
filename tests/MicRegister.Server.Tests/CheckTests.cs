using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Documents.Recordings;
using MicRegister.Documents.Tests.Recordings;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Tests;

/// <summary>Checks through the doors of programs: expected figures by hand algebra from the demo's certificates.</summary>
public sealed class CheckTests
{
    // K501 is certified at 124.01 dB: 20 lg(99.8 / 101.325) = -0.131721 dB less at 99.8 kPa.
    private const double PlaceDb = 124.01 - 0.13172142;

    [Fact]
    public async Task Recordings_of_a_batch_become_checks_of_the_chains_they_belong_to()
    {
        using TemporaryFolder folder = new(), register = new();
        await DemoFolder.CopyTo(register.Path);
        // Channels 1 to 6 are in the chains of S01 to S06; the fifth is silent.
        var channels = Enumerable.Range(1, 6).Select(i => i == 5 ? new double[80_000] : MadeRecording.Tone(10, 8000, 0.03 * Math.Pow(10, 0.01 * i / 20), 250)).ToArray();
        var file = Path.Combine(folder.Path, "C01-before.wav");
        await File.WriteAllBytesAsync(file, MadeRecording.Of(channels, 8000, SampleFormat.Float32, broadcast: MadeRecording.Broadcast("before", "C01", "2026-09-02", "08:10:00", 0)), TestContext.Current.CancellationToken);
        string[] common = ["check", folder.Path, "--data", register.Path, "--campaign", "QUILLMERE-26", "--calibrator", "K501", "--pressure-kpa", "99.8", "--range-v", "10", "--moment", "before", "--at", "2026-09-02T08:15:00.000Z", "--today", "2026-09-02"];

        var shown = await CommandLine.Run([.. common, "--json"]);
        var stored = await CommandLine.Run([.. common, "--store", "--json"]);
        var again = await CommandLine.Run([.. common, "--store"]);

        Assert.Equal(1, shown.Exit); // one channel is not usable
        var answer = JsonNode.Parse(shown.Out)!;
        Assert.Equal(0, (int)answer["stored"]!);
        Assert.Equal(["S01", "S02", "S03", "S04", "S06"], answer["checks"]!.AsArray().Select(c => (string)c!["check"]!["station"]!));
        var first = answer["checks"]![0]!["check"]!;
        Assert.Equal(PlaceDb, (double)first["calibratorDb"]!, 1e-5);
        Assert.Equal((20 * Math.Log10(0.03 / (20e-6 * Math.Pow(10, PlaceDb / 20)))) + 0.01, (double)first["sensitivityDb"]!, 1e-4);
        Assert.Equal("FS/Pa", (string)first["sensitivityUnit"]!);
        Assert.Equal(64, ((string)first["tone"]!["sha256"]!).Length);
        Assert.Equal("2026-09-02 08:10:00", (string)first["tone"]!["recorderTime"]!);
        Assert.Contains(answer["refused"]!.AsArray(), r => (int)r!["channel"]! == 5 && ((string)r["problem"]!).Contains("no tone", StringComparison.Ordinal));
        Assert.NotNull(answer["checks"]![0]!["commonDb"]); // five chains have a shift in common
        Assert.Equal(5, (int)JsonNode.Parse(stored.Out)!["stored"]!);
        Assert.Equal(2, again.Exit);
        Assert.Contains("stands for a check already", again.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--campaign", "NOWHERE", "allowed are LAPWING-FEN-26, QUILLMERE-26")]
    [InlineData("--calibrator", "K999", "K501")]
    [InlineData("--moment", "noon", "before, after, other")]
    [InlineData("--pressure-kpa", "1013", "30 to 120 kPa")]
    [InlineData("--map", "nothing.csv", "There is no file")]
    public async Task What_cannot_be_is_said_with_what_is_allowed(string option, string value, string says)
    {
        using TemporaryFolder folder = new(), register = new();
        await DemoFolder.CopyTo(register.Path);
        var file = Path.Combine(folder.Path, "S01.wav");
        await File.WriteAllBytesAsync(file, MadeRecording.Of([MadeRecording.Tone(6, 8000, 0.03, 250)], 8000, SampleFormat.Pcm24), TestContext.Current.CancellationToken);
        var options = new Dictionary<string, string> { ["--campaign"] = "QUILLMERE-26", ["--calibrator"] = "K501", ["--pressure-kpa"] = "99.8", [option] = value };

        var (exit, _, error) = await CommandLine.Run(["check", file, "--data", register.Path, .. options.SelectMany(o => new[] { o.Key, o.Value })]);

        Assert.Equal(2, exit);
        Assert.Contains(says, error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_check_is_worked_out_stored_shown_by_campaign_and_device_and_drawn()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var k501 = Id(server, "K501");
        object Check(double volts, string moment, string at) => new { campaign = "QUILLMERE-26", station = "S01", calibrator = k501, moment, at, method = "voltage", readings = new[] { volts, volts * 1.001 }, air = new { pressureKPa = 99.8 } };

        var (worked, view, _) = await server.Send(HttpMethod.Post, "/api/checks/work-out", Check(0.39, "before", "2026-08-02"));
        Assert.Equal(200, worked);
        Assert.Null(view!["fact"]);
        Assert.Equal(20 * Math.Log10(1.001), (double)view["spreadDb"]!, 1e-6);
        Assert.Equal("simple", (string)view["rule"]!);
        Assert.Null(view["caution"]);

        Assert.Equal(200, (await server.Send(HttpMethod.Post, "/api/checks", new { checks = new[] { Check(0.39, "before", "2026-08-02"), Check(0.40, "after", "2026-08-02") } })).Status);
        var all = (await server.Get("/api/campaigns/QUILLMERE-26/checks?day=2026-08-02"))["items"]!.AsArray();
        Assert.Equal(2, all.Count);
        var after = all[1]!;
        // 20 lg(0.40 / 0.39) = 0.219907 dB since the check before; the mean of both is to be applied.
        Assert.Equal(0.219907, (double)after["comparisons"]!.AsArray().First(c => (string?)c!["key"] == "check-difference-db")!["differenceDb"]!, 1e-5);
        Assert.Equal(((double)all[0]!["check"]!["sensitivityDb"]! + (double)after["check"]!["sensitivityDb"]!) / 2, (double)after["appliedDb"]!, 1e-6);

        var device = (string)after["check"]!["devices"]![0]!;
        Assert.Equal(2, (await server.Get($"/api/devices/{device}/checks"))["points"]!.AsArray().Count);
        Assert.StartsWith("<svg", await server.Client.GetStringAsync($"/api/devices/{device}/checks.svg", TestContext.Current.CancellationToken), StringComparison.Ordinal);

        var (refused, problem, _) = await server.Send(HttpMethod.Post, "/api/checks", new { checks = new[] { Check(0.39, "before", "2026-08-02"), Check(-1, "after", "2026-08-02") } });
        Assert.Equal(422, refused);
        Assert.StartsWith("Station S01: Reading '-1'", (string)problem!["detail"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_check_without_a_temperature_says_what_its_microphone_would_have_followed()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var microphone = Id(server, "41001");
        object check = new { devices = new[] { microphone }, calibrator = Id(server, "K502"), moment = "other", method = "indicated", readings = new[] { 94.0 } };
        Assert.Equal(200, (await server.Send(HttpMethod.Patch, $"/api/devices/{microphone}", new { set = new Dictionary<string, object> { ["temperature-db-per-k"] = -0.01 } })).Status);

        var (_, view, _) = await server.Send(HttpMethod.Post, "/api/checks/work-out", check);
        Assert.StartsWith("No temperature was read, which the microphone follows", (string?)view!["caution"], StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_coupling_changes_the_level_at_the_microphone()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var (calibrator, microphone) = (Id(server, "K502"), server.Live.Now.Device(Id(server, "41001"))!);
        object check = new { devices = new[] { microphone.Id }, calibrator, moment = "other", method = "indicated", readings = new[] { 94.0 } };
        var before = (double)(await server.Send(HttpMethod.Post, "/api/checks/work-out", check)).Body!["check"]!["calibratorDb"]!;

        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/devices/{calibrator}/couplings", new { microphoneModel = microphone.Model, loadVolumeDb = 0.02, fieldDb = -0.15, fieldExpandedDb = 0.1, source = "papers of the microphone" })).Status);
        Assert.Equal(422, (await server.Send(HttpMethod.Post, $"/api/devices/{microphone.Id}/couplings", new { microphoneModel = "A", loadVolumeDb = 0, fieldDb = 0, source = "s" })).Status);

        Assert.Equal(before - 0.13, (double)(await server.Send(HttpMethod.Post, "/api/checks/work-out", check)).Body!["check"]!["calibratorDb"]!, 1e-6);
        Assert.Single((await server.Get($"/api/devices/{calibrator}/couplings")).AsArray());
    }

    [Fact]
    public async Task A_response_curve_stands_beside_the_one_before()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var device = Id(server, "41001");
        async Task<string> Attach(string text)
        {
            using var answer = await server.Client.PostAsync("/api/attachments", new ByteArrayContent(Encoding.UTF8.GetBytes(text)), TestContext.Current.CancellationToken);
            return (string)JsonNode.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!["sha256"]!;
        }
        async Task<string> Certificate(string day, string curve) => (string)(await server.Send(HttpMethod.Post, "/api/certificates", new
        {
            devices = new[] { device },
            day,
            issued = new { quantity = "response", results = new[] { new { state = "as-found-and-left", value = 0, unit = "dB" } }, frequencyHz = 250, curve },
        })).Body![0]!["id"]!;

        await Certificate("2025-05-01", await Attach("Hz;dB;U\n250;0,00;0,1\n1000;0,10;0,1\n8000;-0,20;0,2\n"));
        var now = await Certificate("2026-05-01", await Attach("Hz;dB;U\n250;0,05;0,1\n1000;0,16;0,1\n8000;-3,00;0,2\n"));

        var view = await server.Get($"/api/certificates/{now}/curve");
        Assert.Equal("2025-05-01", (string)view["beforeDay"]!);
        // Relative to 250 Hz: -3.05 against -0.20.
        Assert.Equal(-2.85, (double)view["greatestChangeDb"]!, 1e-9);
        Assert.Equal(8000, (double)view["greatestChangeHz"]!);
        Assert.Equal(8000, (double)Assert.Single(view["beyond"]!.AsArray())!["hz"]!);
        Assert.StartsWith("<svg", await server.Client.GetStringAsync($"/api/certificates/{now}/curve.svg", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Equal(404, (int)(await server.Client.GetAsync("/api/certificates/01JD8XK3ZZ0000000000000000/curve", TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task A_data_sheet_memory_finds_its_device()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        // Manufacturer 17, model 12, version A1, serial number 41001: bits by hand, 14 + 15 + 5 + 6 + 24, least significant first.
        var block = 17UL | (12UL << 14) | (1UL << 29) | (1UL << 34) | (41001UL << 40);

        var (status, view, _) = await server.Send(HttpMethod.Post, "/api/data-sheets", new { hex = Convert.ToHexString(BitConverter.GetBytes(block)) });

        Assert.Equal(200, status);
        Assert.Equal(41001, (int)view!["serial"]!);
        Assert.Equal(Id(server, "41001"), (string)Assert.Single(view["devices"]!.AsArray())!["id"]!);
        Assert.Equal(422, (await server.Send(HttpMethod.Post, "/api/data-sheets", new { hex = "zz" })).Status);
    }

    private static string Id(ServerUnderTest server, string serial) => server.Live.Now.DeviceIds.Single(id => server.Live.Now.Device(id)!.Serial == serial && DeviceKind.Find(server.Live.Now.Device(id)!.Kind)?.Calibrated is not null);
}
