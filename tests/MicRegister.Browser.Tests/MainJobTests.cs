using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>The main job as a planner does it, in a browser.</summary>
public sealed class MainJobTests : IAsyncLifetime
{
    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync() => _desk = await DeskUnderTest.Open();

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task Drop_the_files_read_the_verdict_follow_a_finding_correct_it_and_undo_it()
    {
        var page = await _desk.Page("/import");
        await DeskUnderTest.TakeOverDemo(page);

        await page.GetByRole(AriaRole.Link, new() { Name = "Campaigns", Exact = true }).First.ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "Quillmere 26" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("not ready");
        var due = page.Locator("li").Filter(new() { HasText = "S22:" });
        await Expect(due).ToContainTextAsync("valid through 2026-09-06");

        // To the device: its certificate of 6 September 2024 was in truth of 2025.
        await due.GetByRole(AriaRole.Link, new() { Name = "open" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("41022");
        var row = page.Locator("tr").Filter(new() { HasText = "2024-09-06" });
        await row.GetByRole(AriaRole.Button, new() { Name = "Correct" }).ClickAsync();
        var form = page.GetByRole(AriaRole.Form, new() { Name = "Correct this certificate" });
        await form.GetByLabel("Day").FillAsync("2025-09-06");
        await form.GetByRole(AriaRole.Button, new() { Name = "Say it right" }).ClickAsync();
        await Expect(page.Locator("tr").Filter(new() { HasText = "2025-09-06" }).First).ToContainTextAsync("in use");

        await page.GetByRole(AriaRole.Link, new() { Name = "Quillmere 26" }).ClickAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("not ready");
        await Expect(page.Locator("li").Filter(new() { HasText = "S22:" })).ToHaveCountAsync(0);

        // Undo: annul the correction in the device's journal; the first statement counts again.
        await page.GoBackAsync();
        await Expect(page.Locator("h1")).ToContainTextAsync("41022");
        await page.Locator("tr").Filter(new() { HasText = "2024-09-06" }).GetByRole(AriaRole.Button, new() { Name = "Take the annulment back" }).ClickAsync();
        await Expect(page.Locator("tr").Filter(new() { HasText = "2024-09-06" }).First).ToContainTextAsync("in use");
        await page.GetByRole(AriaRole.Link, new() { Name = "Quillmere 26" }).ClickAsync();
        await Expect(page.Locator("li").Filter(new() { HasText = "S22:" })).ToContainTextAsync("valid through 2026-09-06");
    }

    [Fact]
    public async Task A_spare_is_tried_without_storing_and_the_day_slider_shows_what_bites()
    {
        var page = await _desk.Page("/import");
        await DeskUnderTest.TakeOverDemo(page);
        var before = _desk.Live.Now.Count;
        await page.GotoAsync("/campaigns/QUILLMERE-26?station=S31");
        await DeskUnderTest.Heard(page);

        await page.GetByLabel("Try a spare here").SelectOptionAsync(new SelectOptionValue { Label = "Microphone A-12P 41073" });
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("Tried, not stored");
        await Expect(page.Locator("g.mark[aria-label='Station S31: ready']")).ToHaveCountAsync(1);
        Assert.Equal(before, _desk.Live.Now.Count);

        await page.GetByRole(AriaRole.Button, new() { Name = "Keep it" }).ClickAsync();
        await Expect(page.GetByText("Tried, not stored")).ToHaveCountAsync(0);
        Assert.True(_desk.Live.Now.Count > before);

        await page.GetByRole(AriaRole.Button, new() { Name = "All stations" }).ClickAsync();
        var slider = page.Locator("input[type=range]");
        await slider.FocusAsync();
        await page.Keyboard.PressAsync("Home");
        await Expect(page.Locator("g.mark[aria-label='Station S22: ready']")).ToHaveCountAsync(1); // due only on the seventh
        await page.Keyboard.PressAsync("End");
        await Expect(page.Locator("g.mark[aria-label='Station S22: not ready']")).ToHaveCountAsync(1);
    }

    [Fact]
    public async Task The_fleet_is_filtered_by_typing_and_follows_new_facts_by_itself()
    {
        var page = await _desk.Page("/import");
        await DeskUnderTest.TakeOverDemo(page);
        await page.GotoAsync("/fleet");
        await DeskUnderTest.Heard(page);
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("316 of 316");

        await page.GetByLabel("Any field").FillAsync("gp05 plywood");
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("0 of 316");
        await page.GetByLabel("Any field").FillAsync("gp plywood");
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("1 of 316");
        await Expect(page.GetByRole(AriaRole.Link, new() { Name = "GP060" })).ToBeVisibleAsync();

        // Another person enters a device meanwhile.
        var other = await _desk.Page("/fleet");
        await other.GetByRole(AriaRole.Button, new() { Name = "Enter a device" }).ClickAsync();
        await other.GetByLabel("Serial number").FillAsync("NEW-1");
        await other.GetByRole(AriaRole.Button, new() { Name = "Enter", Exact = true }).ClickAsync();
        await Expect(other.Locator("h1")).ToContainTextAsync("NEW-1");
        await Expect(page.GetByRole(AriaRole.Status)).ToContainTextAsync("1 of 317");
    }

    [Fact]
    public async Task No_page_has_an_accessibility_finding()
    {
        var page = await _desk.Page("/");
        await Expect(page.GetByText("The register is empty")).ToBeVisibleAsync();
        var found = new List<string>(await Findings(page, "/ (empty)"));
        await page.GotoAsync("/import");
        await DeskUnderTest.Heard(page);
        await DeskUnderTest.TakeOverDemo(page);
        var device = _desk.Live.Now.DeviceIds.First(id => _desk.Live.Now.Device(id)!.Serial == "41015");
        foreach (var path in new[] { "/", "/fleet?for=QUILLMERE-26", "/devices/" + device, "/devices/NOWHERE", "/campaigns", "/campaigns/QUILLMERE-26?station=S01", "/profiles", "/profiles/small-unmanned-flush", "/import", "/journal" })
        {
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                await page.EmulateMediaAsync(new() { ColorScheme = scheme });
                await page.GotoAsync(path);
                await DeskUnderTest.Heard(page);
                found.AddRange(await Findings(page, $"{path} {scheme}"));
                Assert.Equal(1, await page.Locator("h1").CountAsync());
                Assert.Equal(1, await page.Locator("main").CountAsync());
            }
        }
        Assert.Empty(found);
    }

    private static async Task<IEnumerable<string>> Findings(IPage page, string what) => (await page.RunAxe()).Violations
        .Select(v => $"{what}: {v.Id} ({v.Help}): {string.Join(" | ", v.Nodes.Take(3).Select(n => n.Html))}");
}
