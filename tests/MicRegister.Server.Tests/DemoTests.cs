using System.Text.Json.Nodes;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Tests;

/// <summary>The demo finds exactly what was planted in demo-inventory; its README lists the same.</summary>
public sealed class DemoTests
{
    // Rule, gravity, station, end of the device's name, day it bites. Among 75 quiet microphones of its model the drifter's ramp is taken
    // for a step; the finding says that a steady drift explains it as well, and where that leads.
    private static readonly string[] Planted =
    [
        "array risks - - 2026-09-01",
        "calibrator-step stops - K502 2026-09-01",
        "double-booked stops S40 41040 2026-09-01",
        "double-booked stops S58 41040 2026-09-01",
        "due stops - WS01 2026-09-05",
        "due stops S22 41022 2026-09-07",
        "frequency-range stops S47 41081 2026-09-01",
        "no-uncertainty risks S05 C01-5 2026-09-01",
        "parts-fit stops S66 41066 2026-09-01",
        "plate-geometry stops S52 GP052 2026-09-01",
        "plate-inspection risks S11 GP011 2026-09-01",
        "plates-alike risks S60 GP060 2026-09-01",
        "profile note - - 2026-09-01",
        "response-type stops S31 41077 2026-09-01",
        // The one spare that is out of service is none.
        "spares risks - - 2026-09-01",
        "step risks S07 41007 2026-09-01",
        "step risks S15 41015 2026-09-01",
        "unfit risks - 41076 2026-09-01",
        "unfit risks S63 62063 2026-09-01",
    ];

    // File, sheet, row, outcome of the rows that are put aside.
    private static readonly string[] PutAside =
    [
        "1-fleet.xlsx|Mic calibrations|440|questioned",
        "2-field-kit.csv||498|questioned",
        "3-history.csv||31|questioned",
    ];

    [Fact]
    public async Task The_demo_finds_exactly_what_was_planted_and_a_second_one_adds_nothing()
    {
        using var folder = new TemporaryFolder();

        var (exit, output, error) = await CommandLine.Run("demo", "--once", "--json", "--data", folder.Path);

        Assert.Equal("", error);
        Assert.Equal(1, exit);
        var answer = JsonNode.Parse(output)!;
        var campaign = Assert.Single(answer["campaigns"]!.AsArray())!;
        Assert.Equal(("not-ready", "2026-08-03", 72), ((string)campaign["verdict"]!, (string)campaign["today"]!, campaign["stations"]!.AsArray().Count));
        Assert.Equal(Planted, campaign["findings"]!.AsArray().Select(f => Line(f!)).Order(StringComparer.Ordinal));
        Assert.Equal(PutAside, answer["files"]!.AsArray().SelectMany(f => f!["outcomes"]!.AsArray()
            .Where(o => (string)o!["outcome"]! is "questioned" or "refused").Select(o => $"{f["file"]}|{o!["sheet"]}|{o["row"]}|{o["outcome"]}")));
        Assert.InRange((int)answer["stored"]!, 2000, 4000);

        var (_, again, _) = await CommandLine.Run("demo", "--once", "--json", "--data", folder.Path);
        var second = JsonNode.Parse(again)!;
        Assert.Equal(0, (int)second["stored"]!);
        Assert.Equal(campaign.ToJsonString(), second["campaigns"]![0]!.ToJsonString());
    }

    [Fact]
    public async Task Another_day_can_be_asked_for()
    {
        using var folder = new TemporaryFolder();

        var (_, output, _) = await CommandLine.Run("demo", "--once", "--data", folder.Path, "--today", "2026-08-20");

        Assert.Contains("judged as of 2026-08-20", output, StringComparison.Ordinal);
        Assert.Contains("start by 2026-08-04, which is past", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Healthy_devices_have_enough_results_of_small_uncertainty()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);
        using var store = Storage.LiteDb.ReadOnlyStore.Open(new Storage.LiteDb.DiskFiles(folder.Path))!;
        var devices = store.Register.DeviceIds.Select(id => store.Register.Device(id)!).ToList();

        Assert.InRange(devices.Count, 280, 340);
        string[] planted = ["41007", "C01-5"];
        foreach (var device in devices.Where(d => d.Kind is "microphone" or "preamplifier" or "recorder-channel" && !planted.Contains(d.Serial)))
        {
            var certificates = device.Certificates.Where(c => !c.IsAnnulled).ToList();
            Assert.True(certificates.Count >= 5, $"{device.Name} has {certificates.Count} results");
            Assert.All(certificates, c => Assert.InRange(c.InForce!.ExpandedUncertainty!.Value, 0.001, 0.06));
        }
    }

    private static string Line(JsonNode f)
    {
        var name = (string?)f["deviceName"];
        return $"{f["rule"]} {f["gravity"]} {(string?)f["station"] ?? "-"} {name?[(name.LastIndexOf(' ') + 1)..] ?? "-"} {f["bitesOn"]}";
    }
}
