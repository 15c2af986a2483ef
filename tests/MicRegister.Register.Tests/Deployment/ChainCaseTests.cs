using System.Text.Json.Nodes;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Deployment;

/// <summary>
/// Rules that the phone repeats, here by the desk's code. Expectations: chains.py, written by hand from the rules' texts; the browser tests
/// hold the phone's code to the same file.
/// </summary>
public sealed class ChainCaseTests
{
    /// <summary>The rules that the phone repeats; others are the desk's alone.</summary>
    private static readonly string[] Repeated = ["response-type", "parts-fit", "unfit", "chain-incomplete", "plate-geometry"];

    private static readonly JsonNode Vectors = JsonNode.Parse(File.ReadAllText(Path.Combine(AppContext.BaseDirectory, "chains.json")))!;

    public static TheoryData<string> Names => [.. Vectors["cases"]!.AsArray().Select(c => (string)c!["name"]!)];

    [Theory]
    [MemberData(nameof(Names))]
    public void A_chain_is_judged_as_the_rules_say(string name)
    {
        var said = Vectors["cases"]!.AsArray().Single(c => (string)c!["name"]! == name)!;

        var report = CampaignReadiness.Judge(RegisterOf(said), "C1", Make.Day("2026-06-01"))!;

        var expected = said["desk"]!.AsArray().Select(e => ((string)e!["rule"]!, (string)e["gravity"]!)).Order();
        var found = report.Findings.Where(f => Repeated.Contains(f.Rule) && f.Gravity != Gravity.Note);
        Assert.Equal(expected, found.Select(f => (f.Rule, f.Gravity.InWords)).Order());
    }

    [Fact]
    public void Every_repeated_rule_has_cases_that_pass_and_cases_that_fail()
    {
        var cases = Vectors["cases"]!.AsArray();

        Assert.All(Repeated, rule => Assert.Contains(cases, c => c!["desk"]!.AsArray().Any(e => (string)e!["rule"]! == rule)));
        Assert.Contains(cases, c => c!["desk"]!.AsArray().Count == 0);
    }

    [Fact]
    public void Figures_read_as_on_the_phone() => Assert.All(Vectors["figures"]!.AsArray(), f =>
    {
        var (value, expanded) = ((double)f!["value"]!, (double)f["expanded"]!);
        Assert.Equal((string)f["difference"]!, QuantityText.Difference(value, expanded, "dB"));
        Assert.Equal((string)f["shown"]!, QuantityText.Expanded(expanded, "dB"));
    });

    private static Register RegisterOf(JsonNode said)
    {
        var limits = said["limits"]!.AsObject().Select(l => new ProfileLimit(l.Key, (double)l.Value!, null, "made", "made"));
        var parts = said["parts"]!.AsArray();
        List<Fact> facts =
        [
            Make.Of(new ProfileWritten("Cases", "", [.. limits]), "2026-01-01", Subject.Profile("cases")),
            Make.Of(
                new CampaignPlanned(
                    "Trial", Make.Day("2026-06-02"), Make.Day("2026-06-10"), "UTC", [new("2020-01-01T00:00:00.000Z", 0)], "Heath", 20,
                    SourceClass.Jet, 50, 5000, null, null, "cases", 0, null),
                "2026-01-02", Subject.Campaign("C1")),
            Make.Of(new StationPlanned("S1", 53, 1, MountOf((string)said["mount"]!), null), "2026-01-03", Subject.Campaign("C1")),
            Make.Of(new ChainPlanned("S1", [.. parts.Select((_, i) => "D" + i)]), "2026-01-04", Subject.Campaign("C1")),
        ];
        for (var i = 0; i < parts.Count; i++)
        {
            var kind = (string)parts[i]!["kind"]!;
            var details = parts[i]!["details"]!.AsObject().Select(d => (
                d.Key,
                d.Value!.GetValueKind() == System.Text.Json.JsonValueKind.String ? (object)(string)d.Value! : (double)d.Value!));
            facts.Add(Make.Registered("D" + i, "10" + i, kind, [.. details]));
            if (StatusOf((string)parts[i]!["status"]!) is { } status and not DeviceStatus.InService)
            {
                facts.Add(Make.Of(new DeviceStatusChanged(status, null), "2026-01-05", Subject.Device("D" + i)));
            }
            if (kind == DeviceKind.GroundPlate.Key && (double?)said["gapMm"] is { } gap)
            {
                facts.Add(Make.Of(new DeviceInspected(true, null, gap, null, null), "2026-01-06", Subject.Device("D" + i)));
            }
        }
        return FactList.RegisterOf(facts);
    }

    private static Mount MountOf(string key) => key switch
    {
        "flush-plate" => Mount.FlushPlate,
        "inverted-plate" => Mount.InvertedPlate,
        "ground-stand" => Mount.GroundStand,
        "pole" => Mount.Pole,
        _ => throw new ArgumentException(key, nameof(key)),
    };

    private static DeviceStatus StatusOf(string key) => key switch
    {
        "in-service" => DeviceStatus.InService,
        "away" => DeviceStatus.Away,
        "out-of-service" => DeviceStatus.OutOfService,
        "lost" => DeviceStatus.Lost,
        "retired" => DeviceStatus.Retired,
        _ => throw new ArgumentException(key, nameof(key)),
    };
}
