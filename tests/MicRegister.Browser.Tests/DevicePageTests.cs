using System.Text.RegularExpressions;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>A device's page in a browser: what is in sight, where its parts stand, how its dialogs are opened, worked and left.</summary>
public sealed class DevicePageTests : IAsyncLifetime
{
    private const string Warning = "What you typed is not stored.";

    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync()
    {
        _desk = await DeskUnderTest.Open();
        await _desk.HoldDemo();
    }

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Theory]
    [InlineData(1440, 900)]
    [InlineData(390, 844)]
    public async Task The_plot_is_in_sight_without_scrolling(int width, int height)
    {
        foreach (var serial in new[] { "41015", "41007", "K502" })
        {
            var page = await _desk.Page(At(serial), width, height);
            var plot = await page.Locator(".history svg").BoundingBoxAsync();
            var below = await page.Locator("nav.bottom").BoundingBoxAsync() is { Height: > 0 } bar ? bar.Y : height;
            Assert.True(plot!.Y + plot.Height <= below, $"{serial}: the plot ends at {plot.Y + plot.Height} px of {below}");
            Assert.Equal(0, await page.EvaluateAsync<int>("scrollY"));
        }
    }

    [Fact]
    public async Task Parts_have_addresses_and_back_goes_back()
    {
        var page = await _desk.Page(At("41015"));
        var panel = page.GetByRole(AriaRole.Tabpanel);
        await Expect(panel).ToContainTextAsync("Next calibration");

        await Tab(page, "Journal").ClickAsync();
        await Expect(page).ToHaveURLAsync(new Regex("/journal$"));
        await Expect(panel).ToContainTextAsync("device registered");
        // What was chosen is in sight under the bar.
        await page.WaitForFunctionAsync("Math.abs(document.querySelector('.strip').getBoundingClientRect().top - 56) < 4 || "
            + "scrollY + innerHeight >= document.documentElement.scrollHeight - 2");

        // Arrows go from tab to tab, and Enter chooses; the focus stays there.
        await Tab(page, "Journal").FocusAsync();
        await page.Keyboard.PressAsync("ArrowLeft");
        await Expect(Tab(page, "Depends on")).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Enter");
        await Expect(page).ToHaveURLAsync(new Regex("/depends-on$"));
        await Expect(Tab(page, "Depends on")).ToBeFocusedAsync();

        await page.GoBackAsync();
        await Expect(Tab(page, "Journal")).ToHaveAttributeAsync("aria-selected", "true");
        await page.GoBackAsync();
        await Expect(Tab(page, "Results")).ToHaveAttributeAsync("aria-selected", "true");
        var deep = await _desk.Page(At("41015") + "/what-it-is");
        await Expect(Tab(deep, "What it is")).ToHaveAttributeAsync("aria-selected", "true");
        await Expect(deep.GetByRole(AriaRole.Tabpanel)).ToContainTextAsync("Serial number");
    }

    [Fact]
    public async Task A_dialog_holds_the_focus_asks_before_it_throws_away_and_gives_the_focus_back()
    {
        var page = await _desk.Page(At("41015"));
        var key = page.GetByRole(AriaRole.Button, new() { Name = "Say where it is", Exact = true });
        var dialog = page.GetByRole(AriaRole.Dialog, new() { Name = "Where it is and how" });
        foreach (var _ in new[] { "once", "and again" })
        {
            await key.ClickAsync();
            await Expect(dialog.GetByLabel("State of use")).ToBeFocusedAsync();
            for (var i = 0; i < 12; i++)
            {
                await page.Keyboard.PressAsync("Tab");
                await DeskUnderTest.Answered(page); // the end of the round is sent back by the server
                Assert.True(await page.EvaluateAsync<bool>("!!document.activeElement.closest('.mud-dialog')"), $"Tab {i + 1} left it");
            }
            // Untouched: Escape leaves it at once.
            await page.Keyboard.PressAsync("Escape");
            await Expect(dialog).ToHaveCountAsync(0);
            await Expect(key).ToBeFocusedAsync();
        }

        await key.ClickAsync();
        await dialog.GetByLabel("Place").FillAsync("van 3");
        await page.Keyboard.PressAsync("Escape");
        await Expect(dialog.GetByText(Warning)).ToBeVisibleAsync();
        await Expect(dialog.GetByLabel("Place")).ToHaveValueAsync("van 3");
        await page.Keyboard.PressAsync("Escape");
        await Expect(dialog).ToHaveCountAsync(0);
        await Expect(key).ToBeFocusedAsync();
        Assert.NotEqual("van 3", _desk.Device("41015").Place);
    }

    [Fact]
    public async Task Enter_stores_and_undo_takes_it_back()
    {
        var page = await _desk.Page(At("41015"));
        var before = _desk.Device("41015").Place;
        var key = page.GetByRole(AriaRole.Button, new() { Name = "Say where it is", Exact = true });
        await key.ClickAsync();
        await page.GetByRole(AriaRole.Dialog).GetByLabel("Place").FillAsync("van 3");
        await page.Keyboard.PressAsync("Enter");

        await Expect(page.Locator("h1 + p")).ToContainTextAsync("van 3");
        await Expect(key).ToBeFocusedAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Undo" }).ClickAsync();
        await Expect(page.Locator("h1 + p")).ToContainTextAsync(before!);
        Assert.Equal(before, _desk.Device("41015").Place);
    }

    [Fact]
    public async Task What_is_wrong_is_told_at_its_field_which_gets_the_focus()
    {
        var page = await _desk.Page(At("GP052"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Inspect it", Exact = true }).ClickAsync();
        var dialog = page.GetByRole(AriaRole.Dialog);
        await dialog.GetByLabel("Gap, mm").FillAsync("wide");
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Enter it" }).ClickAsync();

        await Expect(dialog.GetByText("'wide' is no number.")).ToBeVisibleAsync();
        await Expect(dialog.GetByLabel("Gap, mm")).ToBeFocusedAsync();
        await dialog.GetByLabel("Gap, mm").FillAsync("0,2");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByText("Stored: inspection of 2026-08-03, passed.")).ToBeVisibleAsync();
        Assert.Equal(0.2, _desk.Device("GP052").Inspections[^1].What.GapMm);
    }

    [Fact]
    public async Task A_result_is_held_against_the_forecast_while_it_is_typed()
    {
        var page = await _desk.Page(At("41015"));
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter a certificate" }).ClickAsync();
        var dialog = page.GetByRole(AriaRole.Dialog);
        await dialog.GetByLabel("Result", new() { Exact = true }).FillAsync("-38,1");
        await Expect(dialog.GetByText("a sensitivity is above 0")).ToBeVisibleAsync(); // its unit is mV/Pa
        await dialog.GetByLabel("Result", new() { Exact = true }).FillAsync("14");
        await dialog.GetByLabel("Expanded uncertainty U").FillAsync("0,06");

        await Expect(dialog.Locator(".expected")).ToContainTextAsync("sigma from what was expected");
        await Expect(dialog.Locator(".expected")).ToContainTextAsync("expected −37.9");
    }

    [Theory]
    [InlineData("#inspect")]
    [InlineData("/where-it-was?enter=inspection")]
    public async Task An_address_opens_its_dialog_once(string rest)
    {
        var page = await _desk.Page(At("GP052") + rest);
        var dialog = page.GetByRole(AriaRole.Dialog, new() { Name = "Inspect it, or say what was done" });
        await Expect(dialog).ToBeVisibleAsync();
        await dialog.GetByRole(AriaRole.Button, new() { Name = "Cancel" }).ClickAsync();
        await Expect(dialog).ToHaveCountAsync(0);
        Assert.DoesNotContain("inspect", page.Url, StringComparison.Ordinal);
        await page.ReloadAsync();
        await DeskUnderTest.Heard(page);
        await DeskUnderTest.Answered(page);
        await Expect(dialog).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task A_findings_key_leads_to_the_dialog_that_clears_it()
    {
        var page = await _desk.Page(At("GP052"));
        await page.Locator(".device-head").GetByRole(AriaRole.Link, new() { Name = "Inspect", Exact = true }).First.ClickAsync();

        await Expect(page.GetByRole(AriaRole.Dialog, new() { Name = "Inspect it, or say what was done" })).ToBeVisibleAsync();
        await Expect(Tab(page, "Where it was")).ToHaveAttributeAsync("aria-selected", "true");
    }

    [Theory]
    [InlineData(1300)]
    [InlineData(390)]
    public async Task No_part_and_no_dialog_has_an_accessibility_finding(int width)
    {
        var found = new List<string>();
        var page = await _desk.Page(At("41015"), width);
        foreach (var part in new[] { "", "/what-it-is", "/where-it-was", "/depends-on", "/journal", "/whole" })
        {
            await page.GotoAsync(At("41015") + part);
            await DeskUnderTest.Heard(page);
            found.AddRange(await LightAndDark(page, $"{width} {part}"));
            if (await DeskUnderTest.WiderThanPhone(page) is var wider and > 0) found.Add($"{part} is {wider} px wider than a phone");
        }
        foreach (var act in new[] { "certificate", "inspection", "state", "detail", "join" })
        {
            await page.GotoAsync($"{At("41015")}?enter={act}");
            await DeskUnderTest.Heard(page);
            await Expect(page.GetByRole(AriaRole.Dialog)).ToBeVisibleAsync();
            // With what is missing told at the fields.
            if (act is "certificate" or "detail") await page.Locator("[data-yes]").ClickAsync();
            if (act is "certificate" or "detail") await Expect(page.GetByText("It is needed.")).ToBeVisibleAsync();
            found.AddRange(await LightAndDark(page, $"{width} {act}"));
            if (width == 390) Assert.Equal(390, (await page.Locator(".mud-dialog").BoundingBoxAsync())!.Width, 1.0);
        }
        await page.GotoAsync($"{At("K502")}?enter=coupling");
        await DeskUnderTest.Heard(page);
        await Expect(page.GetByRole(AriaRole.Dialog)).ToBeVisibleAsync();
        found.AddRange(await LightAndDark(page, $"{width} coupling"));
        foreach (var key in new[] { "Correct", "Judge" })
        {
            await page.GotoAsync(At("41015"));
            await DeskUnderTest.Heard(page);
            await page.GetByRole(AriaRole.Button, new() { Name = key, Exact = true }).First.ClickAsync();
            await Expect(page.GetByRole(AriaRole.Dialog)).ToBeVisibleAsync();
            found.AddRange(await LightAndDark(page, $"{width} {key}"));
        }
        Assert.Empty(found);
    }

    private static async Task<IReadOnlyList<string>> LightAndDark(IPage page, string what)
    {
        var found = new List<string>();
        foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
        {
            await page.EmulateMediaAsync(new() { ColorScheme = scheme });
            found.AddRange(await Accessibility.Findings(page, $"{what} {scheme}"));
        }
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
        return found;
    }

    private static ILocator Tab(IPage page, string name) => page.GetByRole(AriaRole.Tab, new() { Name = name });

    private string At(string serial) => "/devices/" + _desk.Device(serial).Id;
}
