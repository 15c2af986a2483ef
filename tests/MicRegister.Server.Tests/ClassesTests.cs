using System.Net;
using System.Text.Json.Nodes;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests;

/// <summary>Classes of instruments by API and command: both say the same, and what is entered is read by the one parser.</summary>
public sealed class ClassesTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Api_and_command_say_class_answer_and_limits_alike()
    {
        Fact[] facts =
        [
            Entered("K1", 1, ("calibrator-class", "1"), ("calibrator-edition", "2017")), Level("K1", 114.26, 3),
            Entered("K2", 2, ("calibrator-class", "2")),
        ];
        using var folder = new TemporaryFolder();
        await Store(folder, facts);
        await using var server = await ServerUnderTest.Open();
        await server.Live.Submit(facts, "test", Cancel);

        var first = await server.Get("/api/devices/K1/class?profile=transport-1200mm");
        var stated = first["classes"]!.AsArray().Single()!;
        Assert.Equal(("calibrator-class", "1", "IEC 60942:2017", "IEC 60942:1997 1L or later", "meets", false), (
            (string?)stated["detail"], (string?)stated["class"], (string?)stated["edition"], (string?)stated["asked"],
            (string?)stated["answer"], (bool)stated["isOwnReading"]!));
        Assert.StartsWith("14 CFR 36, A36.3.8.1", (string?)stated["source"], StringComparison.Ordinal);
        // 114.26 dB beside 114 dB; class 1 of IEC 60942:2017 allows 0.25 dB (table A.1).
        var level = first["limits"]!.AsArray()[0]!;
        Assert.Equal(("level", "exceeds", 0.25, 0.15), (
            (string?)level["quantity"], (string?)level["verdict"], (double)level["limit"]!, (double)level["greatestExpanded"]!));
        Assert.Equal("misses", (string?)(await server.Get("/api/devices/K2/class"))["classes"]![0]!["answer"]);

        var (exit, text, _) = await CommandLine.Run("classes", "--profile", "transport-1200mm", "--data", folder.Path);
        Assert.Equal(1, exit);
        string[] said =
        [
            "Sound calibrator Model K1: class 1 of IEC 60942:2017: meets IEC 60942:1997 1L or later (14 CFR 36, A36.3.8.1",
            "  does not keep its class: by the certificate of 2026-05-01 its level deviates from the nominal one by +0.26 dB",
            "Sound calibrator Model K2: class 2, edition not stated: misses IEC 60942:1997 1L or later",
        ];
        Assert.All(said, line => Assert.Contains(line, text, StringComparison.Ordinal));

        var (_, json, _) = await CommandLine.Run("classes", "--profile", "transport-1200mm", "--data", folder.Path, "--json");
        var listed = JsonNode.Parse(json)!.AsArray().Single(v => (string?)v!["device"] == "K1")!;
        // What is null is left out by the command.
        foreach (var (own, other) in new[] { (listed["classes"]![0]!, stated), (listed["limits"]![0]!, level) })
        {
            foreach (var (name, value) in own.AsObject())
                Assert.True(JsonNode.DeepEquals(value, other[name]), $"{name}: {value} and {other[name]}.");
        }
    }

    [Fact]
    public async Task What_is_wrong_is_said_with_its_field()
    {
        await using var server = await ServerUnderTest.Open();
        await server.Live.Submit([Entered("K1", 1)], "test", Cancel);

        var (status, problem, _) = await server.Send(HttpMethod.Patch, "/api/devices/K1", new { set = Class("1L, 2017") });
        Assert.Equal(422, status);
        const string why = "Class of IEC 60942: '1L, 2017': IEC 60942:2017 has no class 1L";
        Assert.StartsWith(why, (string?)problem!["detail"], StringComparison.Ordinal);

        (status, _, _) = await server.Send(HttpMethod.Patch, "/api/devices/K1", new { set = Class("class 1, IEC 60942:2017") });
        Assert.Equal(200, status);
        Assert.Equal("2017", server.Live.Now.Device("K1")!.Text(DeviceField.CalibratorEdition));

        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync("/api/devices/K9/class", Cancel)).StatusCode);
        var unknown = await server.Client.GetAsync("/api/devices/K1/class?profile=none", Cancel);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, unknown.StatusCode);
        using var folder = new TemporaryFolder();
        await Store(folder, [Entered("M1", 1)]);
        var (exit, _, error) = await CommandLine.Run("classes", "--profile", "none", "--data", folder.Path);
        Assert.Equal(2, exit);
        Assert.Contains("--profile none: allowed are", error, StringComparison.Ordinal);
    }

    private static async Task Store(TemporaryFolder folder, Fact[] facts)
    {
        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder.Path), TimeProvider.System));
        await live.Submit(facts, "test", Cancel);
    }

    private static Dictionary<string, object> Class(string text) => new() { ["calibrator-class"] = text };

    private static Fact Entered(string id, int counter, params (string Key, string Text)[] details)
    {
        SortedDictionary<string, FieldValue> all = new(details.ToDictionary(d => d.Key, d => FieldValue.Of(d.Text)), StringComparer.Ordinal)
        {
            ["nominal-level-db"] = FieldValue.Of(114),
            ["frequency-hz"] = FieldValue.Of(1000),
        };
        return FactText.WriteDerived(
            FactStamp.Imported(Occurred.Unknown, counter), new DeviceRegistered("sound-calibrator", "Maker", "Model", id, all),
            ["device:" + id]);
    }

    private static Fact Level(string id, double levelDb, int counter) => FactText.WriteDerived(
        FactStamp.Imported(Occurred.On(new(2026, 5, 1)), counter),
        new CertificateIssued(
            "level", null, "House", null, null, null, null, 1000, [new(AdjustmentState.AsFoundAndLeft, levelDb, "dB", 0.1, "dB", 2)], null,
            null, null, null, null, null, null),
        ["device:" + id]);
}
