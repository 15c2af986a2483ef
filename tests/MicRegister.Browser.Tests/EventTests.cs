using Deque.AxeCore.Playwright;
using MicRegister.Browser.Tests.Field;
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
        await desk.Live.Submit(Work(desk.Live.Now), "test");
        var page = await desk.Page($"/events/{HeathCampaign.Id}");
        await page.GetByText("Enter an event", new() { Exact = true }).ClickAsync();
        var form = page.GetByRole(AriaRole.Form, new() { Name = "Enter an event" });
        await form.GetByLabel("Name").FillAsync("Run 12");
        await form.GetByLabel("Start, such as").FillAsync("2026-09-02 10:00:00");
        await form.GetByLabel("Stop, with").FillAsync("10:01:30");
        await form.GetByRole(AriaRole.Button, new() { Name = "Enter" }).ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Run 12", Exact = true }).ClickAsync();

        await Expect(page.Locator("h1")).ToHaveTextAsync("Run 12");
        await Expect(page.GetByText("Of 3 stations 1 valid, 1 doubtful, 1 not valid")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "S01", Exact = true }).ClickAsync();
        await Expect(page.GetByText("Station S01 is valid")).ToBeVisibleAsync();
        await Expect(page.GetByText("by the mean of its checks").First).ToBeVisibleAsync();
        await Expect(page.GetByText("-6.02 dB to the free field").First).ToBeVisibleAsync();
        Assert.Empty((await page.RunAxe()).Violations.Select(v => v.Id));

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
        Assert.Empty((await page.RunAxe()).Violations.Select(v => v.Id));

        await page.GotoAsync($"/evidence/{HeathCampaign.Id}");
        await Expect(page.GetByText("Run 12").First).ToBeVisibleAsync();
        var pdf = await page.RunAndWaitForDownloadAsync(() => page.GetByRole(AriaRole.Link, new() { Name = "As PDF" }).ClickAsync());
        Assert.Equal($"evidence-{HeathCampaign.Id}.pdf", pdf.SuggestedFilename);
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
        Assert.Empty((await page.RunAxe()).Violations.Select(v => v.Id));
    }

    // S01 stands and was checked before and after, S02 stands unchecked, S03 was never placed.
    private static List<Fact> Work(MicRegister.Register.Register register)
    {
        var counter = 500;
        Fact Said(FactBody body, string at, params string[] subjects) => FactText.WriteDerived(new(Occurred.TryParse(at, out var when) ? when : default, "P1", "phone-1.ABCD", counter++), body, ["campaign:" + HeathCampaign.Id, .. subjects]);
        var facts = new List<Fact>();
        foreach (var i in new[] { 1, 2 }) facts.Add(Said(new ChainPlaced(HeathCampaign.Station(i), HeathCampaign.Chain(i), [], null, true, null, 10, null, [], null), "2026-09-02T06:00:00.000Z", [.. HeathCampaign.Chain(i).Select(Subject.Device)]));
        var sounding = HeathCampaign.Chain(1)[1..];
        foreach (var (moment, at) in new[] { (CheckMoment.Before, "2026-09-02T07:00:00.000Z"), (CheckMoment.After, "2026-09-02T18:00:00.000Z") })
        {
            var worked = CheckWork.Out(register, new() { Campaign = HeathCampaign.Id, Station = "S01", At = at, Moment = moment, Devices = sounding, Calibrator = "CAL1", Air = new(100.1, 18, null), Readings = [0.391], RangeV = 10 });
            facts.Add(Said(Assert.IsType<MicRegister.Register.Result<ChainChecked>.Accepted>(worked).Value, at, [.. sounding.Select(Subject.Device), "device:CAL1"]));
        }
        return facts;
    }
}
