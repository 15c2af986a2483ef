using MicRegister.Browser.Tests.Field;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>The analyst and the auditor: what applies to an event, and what a bad device touches.</summary>
public sealed class EventTests
{
    [Fact]
    public async Task An_analyst_enters_an_event_reads_what_applies_and_walks_down_to_a_certificate()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(3));
        await desk.Live.Submit([HeathCampaign.ChannelCertificate(1)], "test");
        await desk.Live.Submit(Work(desk.Live.Now), "test");
        var page = await desk.Page($"/events/{HeathCampaign.Id}");
        await page.GetByText("Enter an event", new() { Exact = true }).ClickAsync();
        var form = page.GetByRole(AriaRole.Form, new() { Name = "Enter an event" });
        await form.GetByLabel("Name").FillAsync("Run 12");
        await form.GetByLabel("Start, such as").FillAsync("2026-09-02 10:00:00");
        await form.GetByLabel("Stop, with").FillAsync("10:01:30");
        await form.GetByRole(AriaRole.Button, new() { Name = "Enter" }).ClickAsync();
        // A click on the day's drawing opens the event too.
        await Expect(page.GetByRole(AriaRole.Heading, new() { Name = "Stations on 2026-09-02" })).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Run 12, 10:00:00 site time" }).PressAsync("Enter");

        await Expect(page.Locator("h1")).ToHaveTextAsync("Run 12");
        await Expect(page.GetByText("of 3 stations 1 valid, 1 doubtful, 0 undecided, 1 not valid")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "S01", Exact = true }).ClickAsync();
        await Expect(page.GetByText("Station S01 is valid")).ToBeVisibleAsync();
        await Expect(page.GetByText("by the mean of its checks").First).ToBeVisibleAsync();
        await Expect(page.GetByText("−6.02 dB to the free field").First).ToBeVisibleAsync();
        Assert.Empty(await Accessibility.Findings(page, page.Url));

        // The direction is stated where it is needed, and the bands follow.
        await page.GetByText("By band: response, windscreen and mount").ClickAsync();
        await Expect(page.GetByText("Nobody stated the angle of incidence.")).ToBeVisibleAsync();
        var direction = page.GetByRole(AriaRole.Form, new() { Name = "State the angle of incidence" });
        await direction.GetByLabel("Angle of incidence").FillAsync("22,5");
        await direction.GetByLabel("± °").FillAsync("10");
        await direction.GetByLabel("How that is known").FillAsync("from the flight track");
        await direction.GetByRole(AriaRole.Button, new() { Name = "State it" }).ClickAsync();
        await Expect(page.GetByText("Angle of incidence 22.5° ± 10° (from the flight track; stated for this event, this station)")).ToBeVisibleAsync();
        await Expect(page.GetByText("No response of Microphone", new() { Exact = false })).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Columnheader, new() { Name = "U with sensitivity in V/Pa, dB" })).ToBeVisibleAsync();
        Assert.Empty(await Accessibility.Findings(page, page.Url));

        Assert.Equal(0, await DeskUnderTest.WiderThanPhone(page));

        // From the event over its station to the microphone's certificate, by keyboard.
        await page.GetByRole(AriaRole.Link, new() { Name = "Walk through what it rests on" }).ClickAsync();
        // The heading takes the focus where one arrives; then one moves on.
        await page.WaitForURLAsync("**/rests-on/event/**");
        await Expect(page.Locator("h1")).ToBeFocusedAsync();
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("^S01, valid") }).PressAsync("Enter");
        await Expect(page.Locator("h1")).ToHaveTextAsync("S01 during Run 12");
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("Microphone .* 41001") }).PressAsync("Enter");
        await Expect(page.Locator("h1")).ToContainTextAsync("41001");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "sensitivity certificate of 2026-07-01" })).ToBeVisibleAsync();
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "Run 12" })).ToBeVisibleAsync();
        await page.GoBackAsync();
        await Expect(page.Locator("h1")).ToHaveTextAsync("S01 during Run 12");
        Assert.Empty(await Accessibility.Findings(page, page.Url));

        await page.GotoAsync($"/evidence/{HeathCampaign.Id}");
        await Expect(page.GetByText("Run 12").First).ToBeVisibleAsync();
        var pdf = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Link, new() { Name = "As PDF" }).ClickAsync());
        Assert.Equal($"evidence-{HeathCampaign.Id}.pdf", pdf.SuggestedFilename);
    }

    [Fact]
    public async Task A_technician_compares_chains_in_place_and_sees_which_one_moved()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(6));
        var placed = Enumerable.Range(1, 6).Select(i => FactText.WriteDerived(new(Occurred.TryParse("2026-08-01T06:00:00.000Z", out var at) ? at : default, "P1", "phone-1.ABCD", i), new ChainPlaced(HeathCampaign.Station(i), HeathCampaign.Chain(i), [], null, true, null, 10, null, [], null), ["campaign:" + HeathCampaign.Id, .. HeathCampaign.Chain(i).Select(Subject.Device)]));
        await desk.Live.Submit([.. placed], "test");
        var page = await desk.Page($"/in-place/{HeathCampaign.Id}");
        await Expect(page.GetByText("No chains were compared yet.")).ToBeVisibleAsync();
        var form = page.GetByRole(AriaRole.Form, new() { Name = "Enter a comparison" });
        await form.GetByLabel("When, such as").FillAsync("2026-08-01 12:00:00");
        await form.GetByLabel("What sounded").FillAsync("distant loudspeaker");
        await form.GetByLabel("U of one level").FillAsync("0,4");
        await form.GetByLabel("A row a station").FillAsync("S01; 71,2\nS02; 71,0; -0,3\nS03; x");
        await Expect(page.GetByText("What was typed, row 3: level 'x': allowed is a number in dB.")).ToBeVisibleAsync();
        await Expect(form.GetByRole(AriaRole.Button, new() { Name = "Store the comparison" })).ToBeDisabledAsync();
        await form.GetByLabel("A row a station").FillAsync("S01; 71,2\nS02; 71,1\nS03; 71,0\nS04; 71,3\nS05; 73,2\nS06; 71,2");
        await Expect(page.GetByText("6 stations; they have 71.20 dB in common")).ToBeVisibleAsync();
        await form.GetByRole(AriaRole.Button, new() { Name = "Store the comparison" }).ClickAsync();

        await Expect(page.Locator("h2").Filter(new() { HasText = "How far each chain lies" })).ToBeVisibleAsync();
        await Expect(page.Locator("tr").Filter(new() { HasText = "S05" }).Locator("td.risks")).ToHaveTextAsync("▲ +2.00");
        await Expect(page.GetByText("In the last comparison S05 (+2.00 dB) stands out: check there with a calibrator.")).ToBeVisibleAsync();
        await Expect(page.GetByText("distant loudspeaker: 6 chains, U of one 0.40 dB")).ToBeVisibleAsync();
        Assert.Equal(0, await DeskUnderTest.WiderThanPhone(page));
        Assert.Empty(await Accessibility.Findings(page, page.Url));
    }

    [Fact]
    public async Task An_auditor_sees_what_a_damaged_microphone_touches_and_clears_one_event_with_a_reason()
    {
        await using var desk = await DeskUnderTest.Open(HeathCampaign.Facts(3));
        await desk.Live.Submit(Work(desk.Live.Now), "test");
        foreach (var (name, start) in new[] { ("Run 1", "2026-09-02T10:00:00.000Z"), ("Run 2", "2026-09-02T21:00:00.000Z") })
        {
            Assert.True(Occurred.TryParse(start, out var at));
            var saying = new Saying(new(at, "P1", "desk", 900));
            await desk.Live.Submit(r => EventDecisions.Record(r, saying, HeathCampaign.Id, [new(name, start, start.Replace(":00.000Z", ":30.000Z", StringComparison.Ordinal), EventKind.FlyOver, null, [], null)]), "test");
        }
        Assert.True(Occurred.TryParse("2026-09-03T07:00:00.000Z", out var later));
        await desk.Live.Submit([FactText.WriteDerived(new(later, "P1", "desk", 901), new DeviceServiced(ServiceKind.Damage, "found with a dented grid", false), ["device:MIC1"])], "test");

        var page = await desk.Page("/doubts");
        await page.Locator("li").Filter(new() { HasText = "dented grid" }).GetByRole(AriaRole.Link).ClickAsync();
        // Checked good after the first run, so only the one after that check is open.
        await Expect(page.GetByText("Events touched: 1, open: 1")).ToBeVisibleAsync();
        await Expect(page.Locator("tbody tr")).ToContainTextAsync(["Run 2"]);
        await page.Locator("form select").Nth(1).SelectOptionAsync(new SelectOptionValue { Label = "Run 2" });
        await page.GetByLabel("Why: whoever reads it").FillAsync("the grid was dented while packing, seen by two");
        await page.GetByRole(AriaRole.Button, new() { Name = "Say so" }).ClickAsync();
        await Expect(page.GetByText("Events touched: 1, open: 0")).ToBeVisibleAsync();
        await Expect(page.GetByText("● cleared: the grid was dented while packing")).ToBeVisibleAsync();
        Assert.Empty(await Accessibility.Findings(page, page.Url));
    }

    // S01 stands and was checked before and after, S02 stands unchecked, S03 was never placed.
    private static List<Fact> Work(MicRegister.Register.Register register)
    {
        var counter = 500;
        Fact Said(FactBody body, string at, params string[] subjects) => FactText.WriteDerived(new(Occurred.TryParse(at, out var when) ? when : default, "P1", "phone-1.ABCD", counter++), body, ["campaign:" + HeathCampaign.Id, .. subjects]);
        var facts = new List<Fact>();
        foreach (var i in new[] { 1, 2 }) facts.Add(Said(new ChainPlaced(HeathCampaign.Station(i), HeathCampaign.Chain(i), [], null, true, null, 10, null, [], null), "2026-09-02T06:00:00.000Z", [.. HeathCampaign.Chain(i).Select(Subject.Device)]));
        // A barometer goes along: the calibrator's level follows static pressure.
        var barometer = new DeviceRegistered("barometer", "House", "Model barometer", "B1", new(StringComparer.Ordinal));
        facts.Add(FactText.WriteDerived(new(Occurred.On(new(2026, 7, 1)), "P1", "desk", 92_000), barometer, ["device:BAR1"]));
        facts.Add(FactText.WriteDerived(
            new(Occurred.On(new(2026, 7, 2)), "P1", "desk", 92_001), new KitPlanned(KitPurpose.Check, ["CAL1", "BAR1"]),
            ["campaign:" + HeathCampaign.Id, "device:CAL1", "device:BAR1"]));
        var sounding = HeathCampaign.Chain(1)[1..];
        foreach (var (moment, at) in new[] { (CheckMoment.Before, "2026-09-02T07:00:00.000Z"), (CheckMoment.After, "2026-09-02T18:00:00.000Z") })
        {
            var worked = CheckWork.Out(register, new() { Campaign = HeathCampaign.Id, Station = "S01", At = at, Moment = moment, Devices = sounding, Calibrator = "CAL1", Air = new(100.1, 18, null), Readings = [0.391], RangeV = 10 });
            facts.Add(Said(Assert.IsType<MicRegister.Register.Result<ChainChecked>.Accepted>(worked).Value, at, [.. sounding.Select(Subject.Device), "device:CAL1"]));
        }
        return facts;
    }
}
