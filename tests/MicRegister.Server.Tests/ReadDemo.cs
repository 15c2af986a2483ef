using System.Text.Json.Nodes;
using MicRegister.Register.Devices;
using MicRegister.Register.Intake;

namespace MicRegister.Server.Tests;

/// <summary>
/// The demo's register with something said of everything that can be read, and an address of each read with which it is found.
/// </summary>
internal static class ReadDemo
{
    public const string C = "QUILLMERE-26";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    /// <summary>States it and gives the addresses, by route.</summary>
    public static async Task<IReadOnlyDictionary<string, string>> Of(ServerUnderTest server)
    {
        var demo = server.Live.Now;
        string Id(string serial) => demo.DeviceIds.First(d => demo.Device(d)!.Serial == serial);
        var (microphone, calibrator) = (Id("41001"), Id("K501"));
        await server.Live.Submit([.. EventsApiTests.Standing(server, "S01"), .. EventsApiTests.Standing(server, "S02")], "test", Cancel);
        using var table = new StringContent("event,start,stop,zone\nRun 1,2026-08-02 10:00:00,2026-08-02 10:01:00,utc\n");
        (await server.Client.PostAsync($"/api/campaigns/{C}/events/table", table, Cancel)).EnsureSuccessStatusCode();
        object Check(double volts, string moment, string station) => new
        {
            campaign = C,
            station,
            calibrator,
            moment,
            at = "2026-08-02",
            method = "voltage",
            readings = new[] { volts, volts * 1.001 },
            air = new { pressureKPa = 99.8 },
        };
        await Say(server, "/api/checks", new
        {
            checks = new[] { Check(0.39, "before", "S01"), Check(0.40, "after", "S01"),
            Check(0.40, "before", "S02") }
        });
        await Say(server, $"/api/devices/{microphone}/services",
            new { what = "damage", text = "dropped", beginsAnew = false, day = "2026-08-01" });
        await Say(server, $"/api/devices/{calibrator}/couplings",
            new { microphoneModel = demo.Device(microphone)!.Model, loadVolumeDb = 0.02, fieldDb = -0.15, source = "papers" });
        using var curve = await server.Client.PostAsync("/api/attachments",
            new StringContent("Hz;dB;U\n20;0;0,2\n250;0;0,2\n20000;-2;0,4\n"), Cancel);
        var sha = (string)JsonNode.Parse(await curve.Content.ReadAsStringAsync(Cancel))!["sha256"]!;
        var certificate = await Say(server, "/api/certificates", new
        {
            devices = new[] { microphone },
            day = "2026-07-01",
            issued = new
            {
                quantity = "response",
                field = "pressure",
                results = new[] { new { state = "as-found-and-left", value = 0, unit = "dB" } },
                curve = sha
            },
        });
        await Say(server, $"/api/campaigns/{C}/sessions",
            new { name = "Night", startUtc = "2026-08-01T20:00:00.000Z", stopUtc = "2026-08-02T02:00:00.000Z" });
        var ours = new
        {
            name = "Ours",
            statement = "Invented.",
            limits = new[] { new { key = "drift-db", value = 0.3, source = "invented", certainty = "own" } }
        };
        var (written, answer, _) = await server.Send(HttpMethod.Put, "/api/profiles/ours", ours);
        Assert.True(written == 200, answer?.ToJsonString());
        using var list = new StringContent("Gattung,Nr\ncable,K1\n");
        (await server.Client.PostAsync("/api/imports?name=own.csv&store=true&mapping="
            + Uri.EscapeDataString("Gattung = kind\nNr = serial"), list, Cancel))
            .EnsureSuccessStatusCode();
        var doubt = (string)(await server.Get($"/api/doubts?device={microphone}"))["items"]![0]!["key"]!;
        const string label = "2AYS641TS";
        await Say(server, $"/api/devices/{microphone}/labels", new { code = label });
        var @event = $"{C}.RUN-1";
        return new Dictionary<string, string>
        {
            ["/api/openapi.json"] = "/api/openapi.json",
            ["/api/me"] = "/api/me",
            ["/api/devices"] = "/api/devices?status=in-service",
            ["/api/devices/{id}"] = $"/api/devices/{microphone}",
            ["/api/devices/{id}/class"] = $"/api/devices/{calibrator}/class",
            ["/api/devices/{id}/certificates"] = $"/api/devices/{microphone}/certificates",
            ["/api/devices/{id}/forecast"] = $"/api/devices/{microphone}/forecast",
            ["/api/devices/{id}/entry-check"] = $"/api/devices/{microphone}/entry-check?day=2026-08-03&levelDb=-38&standardUncertaintyDb=0.05",
            ["/api/devices/{id}/checks"] = $"/api/devices/{microphone}/checks",
            ["/api/devices/{id}/couplings"] = $"/api/devices/{calibrator}/couplings",
            ["/api/devices/{id}/history.{format}"] = $"/api/devices/{microphone}/history.svg",
            ["/api/devices/{id}/checks.{format}"] = $"/api/devices/{microphone}/checks.svg",
            ["/api/labels/{code}"] = $"/api/labels/{label}",
            ["/api/labels/sheet.{format}"] = $"/api/labels/sheet.svg?layout={Layout}&serial=41001",
            ["/api/devices/{id}/response"] = $"/api/devices/{microphone}/response",
            ["/api/certificates/{fact}/curve"] = $"/api/certificates/{certificate}/curve",
            ["/api/certificates/{fact}/curve.{format}"] = $"/api/certificates/{certificate}/curve.svg",
            ["/api/campaigns"] = "/api/campaigns",
            ["/api/campaigns/{id}"] = $"/api/campaigns/{C}",
            ["/api/campaigns/{id}/stations"] = $"/api/campaigns/{C}/stations",
            ["/api/campaigns/{id}/checks"] = $"/api/campaigns/{C}/checks",
            ["/api/campaigns/{id}/checks/superseded"] = $"/api/campaigns/{C}/checks/superseded",
            ["/api/campaigns/{id}/map.{format}"] = $"/api/campaigns/{C}/map.svg",
            ["/api/campaigns/{id}/readiness"] = $"/api/campaigns/{C}/readiness",
            ["/api/campaigns/{id}/field-kit"] = $"/api/campaigns/{C}/field-kit",
            ["/api/campaigns/{id}/deployment"] = $"/api/campaigns/{C}/deployment",
            ["/api/campaigns/{id}/events"] = $"/api/campaigns/{C}/events?kind=fly-over",
            ["/api/campaigns/{id}/analysis.{format}"] = $"/api/campaigns/{C}/analysis.json",
            ["/api/campaigns/{id}/bands.{format}"] = $"/api/campaigns/{C}/bands.json?event={@event}",
            ["/api/campaigns/{id}/budget.{format}"] = $"/api/campaigns/{C}/budget.json?event={@event}",
            ["/api/campaigns/{id}/covariance.{format}"] = $"/api/campaigns/{C}/covariance.json?event={@event}&part=sensitivity",
            ["/api/campaigns/{id}/comparisons"] = $"/api/campaigns/{C}/comparisons",
            ["/api/campaigns/{id}/surveys"] = $"/api/campaigns/{C}/surveys",
            ["/api/campaigns/{id}/weather"] = $"/api/campaigns/{C}/weather",
            ["/api/campaigns/{id}/sessions"] = $"/api/campaigns/{C}/sessions",
            ["/api/campaigns/{id}/evidence.pdf"] = $"/api/campaigns/{C}/evidence.pdf",
            ["/api/fleet/devices.{format}"] = "/api/fleet/devices.csv?kind=microphone&status=in-service",
            ["/api/fleet/results.{format}"] = "/api/fleet/results.json?q=41001",
            ["/api/fleet/inspections.{format}"] = "/api/fleet/inspections.json",
            ["/api/fleet/campaigns.{format}"] = $"/api/fleet/campaigns.csv?campaign={C}",
            ["/api/fleet/stations.{format}"] = $"/api/fleet/stations.csv?campaign={C}",
            ["/api/fleet/kit.{format}"] = $"/api/fleet/kit.csv?campaign={C}",
            ["/api/fleet/limits.{format}"] = "/api/fleet/limits.csv",
            ["/api/fleet/settings.{format}"] = "/api/fleet/settings.json",
            ["/api/fleet/register.xlsx"] = "/api/fleet/register.xlsx",
            ["/api/campaigns/{id}/plan.{format}"] = $"/api/campaigns/{C}/plan.csv",
            ["/api/mounts"] = $"/api/mounts?campaign={C}",
            ["/api/mounts/table.{format}"] = $"/api/mounts/table.csv?campaign={C}",
            ["/api/mounts/plot.{format}"] = $"/api/mounts/plot.svg?campaign={C}",
            ["/api/set-ups"] = $"/api/set-ups?a={C}&b={C}",
            ["/api/events/{id}"] = $"/api/events/{@event}",
            ["/api/events/{id}/trace"] = $"/api/events/{@event}/trace?station=S01",
            ["/api/events/{id}/bands"] = $"/api/events/{@event}/bands?station=S01",
            ["/api/rests-on/{kind}/{id}"] = $"/api/rests-on/event/{@event}",
            ["/api/doubts"] = $"/api/doubts?device={microphone}",
            ["/api/doubts/{key}"] = "/api/doubts/" + Uri.EscapeDataString(doubt),
            ["/calendar/{secret}.ics"] = "/calendar/here.ics",
            ["/api/imports"] = "/api/imports",
            ["/api/imports/templates/{table}.{format}"] = "/api/imports/templates/devices.csv",
            ["/api/imports/{id}/legend"] = $"/api/imports/{server.Live.Now.TakenImports()[^1].Fact.Id}/legend",
            ["/api/imports/{id}/take-back"] = $"/api/imports/{server.Live.Now.TakenImports()[0].Fact.Id}/take-back",
            ["/api/profiles"] = "/api/profiles",
            ["/api/profiles/{id}"] = "/api/profiles/ours",
            ["/api/profiles/{id}/editions"] = "/api/profiles/ours/editions",
            ["/api/profiles/{id}/compare"] = "/api/profiles/ours/compare?with=engineering-practice",
            ["/api/drift"] = "/api/drift",
            ["/api/facts"] = $"/api/facts?subject=device:{microphone}",
            ["/api/facts/head"] = "/api/facts/head",
            ["/api/facts/lines"] = $"/api/facts/lines?after={demo.Count - 3}",
            ["/api/facts/{id}"] = $"/api/facts/{certificate}",
            ["/api/attachments/{sha}"] = $"/api/attachments/{sha}",
        };
    }

    private static string Layout => Uri.EscapeDataString(Outdoors.LabelOrder.Layouts()[0].Name);

    // The id of the first fact that was stored.
    private static async Task<string> Say(ServerUnderTest server, string address, object body)
    {
        var (status, answer, _) = await server.Send(HttpMethod.Post, address, body);
        Assert.True(status == 200, answer?.ToJsonString());
        return (string)answer![0]!["id"]!;
    }
}
