using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Metrology.ResponseLimits;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Server.Tests;

/// <summary>A stored response and printed limits: one answer in API, command, page and readiness.</summary>
public sealed class ResponseLimitTests
{
    // 5 dB down at 10 kHz; class 1 allows -3.0 dB there, class 2 any loss (IEC 61672-1:2013, table 3).
    private const string Falling = "Hz;dB;U\n250;0;0,1\n1000;0;0,1\n8000;-2,5;0,2\n10000;-5;0,2\n";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task The_api_judges_a_curve_by_the_limits_that_are_asked_for()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var (device, certificate) = await Stored(server);

        var view = await server.Get($"/api/certificates/{certificate}/curve");
        Assert.Equal("IEC 61672-1:2013 class 1", (string)view["limits"]!);
        Assert.Equal(10_000, (double)Assert.Single(view["beyond"]!.AsArray())!["hz"]!);
        var band = view["response"]!["bands"]!.AsArray().Single(b => (double)b!["nominalHz"]! == 10_000)!;
        Assert.Equal(("exceeded", -3.0, 2.0, 2.0), ((string)band["verdict"]!, (double)band["lowerDb"]!, (double)band["upperDb"]!, (double)band["byDb"]!));

        var second = await server.Get($"/api/devices/{device}/response?limits=IEC 61672-1:2013 class 2");
        var there = second["overFrequency"]!["bands"]!.AsArray().Single(b => (double)b!["nominalHz"]! == 10_000)!;
        Assert.Equal("met", (string)there["verdict"]!);
        Assert.Null(there["lowerDb"]); // no lower limit
        Assert.Equal("no curves by angle are stored", (string)second["byAngle"]!["open"]!);
        foreach (var address in new[] { $"/api/devices/{device}/response", $"/api/certificates/{certificate}/curve", $"/api/certificates/{certificate}/curve.svg" })
        {
            using var wrong = await server.Client.GetAsync($"{address}?limits=IEC 61672-1:2002 class 1", Cancel);
            Assert.Equal(422, (int)wrong.StatusCode);
            Assert.Contains("allowed are IEC 61672-1:2013 class 1", await wrong.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_device_states_the_class_and_edition_that_it_is_judged_by()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var (device, _) = await Stored(server);

        var refused = await server.Send(HttpMethod.Patch, $"/api/devices/{device}", Stating("IEC 61672-1:2002 class 1"));
        Assert.Equal(422, refused.Status);
        var stated = await server.Send(HttpMethod.Patch, $"/api/devices/{device}", Stating("IEC 61672-1:2013 class 2"));
        Assert.True(stated.Status is 200 or 201, stated.Body?.ToJsonString());
        Assert.Equal("IEC 61672-1:2013 class 2", (string)(await server.Get($"/api/devices/{device}/response"))["overFrequency"]!["limits"]!);

        static object Stating(string words) => new { set = new Dictionary<string, string> { ["response-class"] = words } };
    }

    [Fact]
    public async Task A_profile_takes_no_other_edition()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        object Profile(string words) => new
        {
            name = "Own",
            statement = "Own.",
            limits = new[] { new { key = "response-class", text = words, source = "own", certainty = "own" } },
        };

        var refused = await server.Send(HttpMethod.Put, "/api/profiles/own-response", Profile("IEC 61672-1:2002 class 1"));
        Assert.Equal(422, refused.Status);
        var taken = await server.Send(HttpMethod.Put, "/api/profiles/own-response", Profile("IEC 61672-1:2013 class 1"));
        Assert.True(taken.Status < 300, taken.Body?.ToJsonString());
    }

    // Of what the page shows and what readiness finds, each exceeded band is in both, and none else.
    [Theory]
    [InlineData("IEC 61672-1:2013 class 1")]
    [InlineData("IEC 61672-1:2013 class 2")]
    [InlineData("14 CFR 36 A36.3.5.3")]
    public async Task Page_and_readiness_say_the_same(string limits)
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var (id, _) = await Stored(server, "pressure");
        var register = server.Live.Now;
        var device = register.Device(id)!;
        var campaign = register.CampaignIds.First(c => register.Campaign(c)!.Devices.Contains(id));
        var plan = register.Campaign(campaign)!.Plan!;
        var profile = register.Profile(plan.Profile)!.Written;
        var asking = FactText.WriteDerived(
            new(Occurred.On(new(2026, 1, 2)), "P1", "test", 1),
            profile with { Limits = [.. profile.Limits.Where(l => l.Key != LimitKey.ResponseClass), new(LimitKey.ResponseClass, null, limits, "own", "own")] },
            [Subject.Profile(plan.Profile)]);
        var findings = CampaignReadiness.Judge(register.WhatIf([asking]), campaign, plan.FirstDay)!.Findings
            .Where(f => f.Rule == "response-limits" && f.Device == id && f.Gravity == Gravity.Stops).ToList();
        var shown = (await server.Get($"/api/devices/{id}/response?limits={limits}"))["overFrequency"]!["bands"]!.AsArray()
            .Where(b => (string)b!["verdict"]! == "exceeded" && (double)b["nominalHz"]! >= plan.LowestHz && (double)b["nominalHz"]! <= plan.HighestHz).ToList();
        var judged = ResponseConformity.OverFrequency(device, register.Source.Curves, ResponseTable.Find(limits)!);

        Assert.Equal(judged.Bands.Count(b => b.Verdict == BandVerdict.Exceeded && b.Band.NominalHz <= plan.HighestHz), shown.Count);
        Assert.Equal(shown.Count > 0, findings.Count > 0);
        if (findings.Count > 0)
            Assert.Equal(shown.Max(b => (double)b!["byDb"]!), findings.Single().Figures.Single(f => f.Name == "beyond the limit").Value, 9);
    }

    [Fact]
    public async Task The_command_says_it_band_by_band()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        await Stored(server);

        var (exit, output, _) = await CommandLine.Run("response", "--data", server.Folder, "--device", "41001");
        Assert.Equal(1, exit);
        Assert.Contains("exceeded by 2.00 dB at 10 kHz", output, StringComparison.Ordinal);
        Assert.Contains("not covered: the curve has no point in this band", output, StringComparison.Ordinal);
        var second = await CommandLine.Run("response", "--data", server.Folder, "--device", "41001", "--limits", "IEC 61672-1:2013 class 2", "--json");
        Assert.Equal(0, second.Exit);
        Assert.Equal("undecided", (string)JsonNode.Parse(second.Out)!["overFrequency"]!["verdict"]!);
        Assert.Equal(2, (await CommandLine.Run("response", "--data", server.Folder, "--device", "41001", "--limits", "class 1")).Exit);
        Assert.Equal(2, (await CommandLine.Run("response", "--data", server.Folder, "--device", "none")).Exit);
    }

    [Fact]
    public async Task A_calibrator_is_not_judged_by_limits_of_microphones()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var calibrator = server.Live.Now.DeviceIds.Select(d => server.Live.Now.Device(d)!).First(d => d.Kind == DeviceKind.Calibrator.Key);

        foreach (var limits in new[] { "", "--limits=IEC 61672-1:2013 class 2" })
        {
            var (exit, output, _) = await CommandLine.Run(
                ["response", "--data", server.Folder, "--device", calibrator.Id, .. limits.Length > 0 ? [limits] : Array.Empty<string>()]);
            Assert.Equal(0, exit);
            Assert.Contains("no table of limits covers devices of the kind 'Sound calibrator'", output, StringComparison.Ordinal);
        }
        var view = await server.Get($"/api/devices/{calibrator.Id}/response");
        Assert.Empty(view["overFrequency"]!["bands"]!.AsArray());
        Assert.StartsWith("no table of limits covers", (string)view["byAngle"]!["open"]!, StringComparison.Ordinal);
    }

    private static async Task<(string Device, string Certificate)> Stored(ServerUnderTest server, string? field = null)
    {
        var device = server.Live.Now.DeviceIds.First(d => server.Live.Now.Device(d)!.Serial == "41001");
        using var answer = await server.Client.PostAsync("/api/attachments", new ByteArrayContent(Encoding.UTF8.GetBytes(Falling)), Cancel);
        var curve = (string)JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["sha256"]!;
        var stated = await server.Send(HttpMethod.Post, "/api/certificates", new
        {
            devices = new[] { device },
            day = "2026-05-01",
            issued = new
            {
                quantity = "response",
                field,
                results = new[] { new { state = "as-found-and-left", value = 0, unit = "dB" } },
                frequencyHz = 250,
                curve,
            },
        });
        return (device, (string)stated.Body![0]!["id"]!);
    }
}
