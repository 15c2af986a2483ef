using System.Globalization;
using MicRegister.Register.Campaigns;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>The plan as a sheet, by keyboard, clipboard and scanner.</summary>
public sealed class PlanSheetTests : IAsyncLifetime
{
    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync() => _desk = await DeskUnderTest.Open();

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task Forty_stations_come_by_the_clipboard_in_few_acts()
    {
        await _desk.HoldDemo();
        var context = await _desk.NewContext(new() { ViewportSize = new() { Width = 1440, Height = 900 }, Locale = "en-GB" });
        await context.GrantPermissionsAsync(["clipboard-read", "clipboard-write"]);
        var page = await context.NewPageAsync();
        await page.GotoAsync("/plan/QUILLMERE-26");
        await DeskUnderTest.Heard(page);
        var block = "Station\tLatitude\tLongitude\tMount\tMicrophone\n" + string.Join('\n', Enumerable.Range(1, 40).Select(i =>
            string.Create(CultureInfo.InvariantCulture, $"W{i:00}\t53,{500 + i}\t1,{200 + i}\tflush plate\t{(i == 7 ? "41O73" : "")}")));
        await page.EvaluateAsync("text => navigator.clipboard.writeText(text)", block);
        var acts = new Acts(page);

        await acts.Click(page.GetByLabel("Station, line 73"));
        await acts.Press("Control+v");
        var chain = page.GetByLabel("Chain, station W07");
        await Expect(chain).ToHaveAttributeAsync("aria-invalid", "true"); // a letter O in a serial: nothing is guessed
        await Expect(page.GetByText("1 cell cannot be so")).ToBeVisibleAsync();
        await acts.Fill(chain, "41073");
        await acts.Press("Enter");
        await acts.Click(page.GetByRole(AriaRole.Button, new() { Name = "Store 40 stations" }));
        await Expect(page.GetByText("40 stations are stored.")).ToBeVisibleAsync();

        Assert.True(acts.Count <= 15, $"{acts.Count} acts");
        var campaign = _desk.Live.Now.Campaign("QUILLMERE-26")!;
        Assert.Equal((112, 53.54, 1.24), (campaign.Stations.Count, campaign.Stations["W40"].LatitudeDeg, campaign.Stations["W40"].LongitudeDeg));
        Assert.Equal([_desk.Device("41073").Id], campaign.Chains["W07"]);
    }

    [Fact]
    public async Task The_last_act_is_taken_back_by_a_chord_and_what_was_typed_survives_a_reload()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/plan/QUILLMERE-26?station=S05");
        var height = page.GetByLabel("Height, m, station S05");
        await Expect(page.Locator("tr.chosen")).ToContainTextAsync("Take out");
        await height.ClickAsync();
        await page.Keyboard.TypeAsync("0,5");
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("Height, m, station S06")).ToBeFocusedAsync();
        await Expect(page.GetByText("Not stored: 1 changed.")).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("ArrowUp");
        await Expect(height).ToBeFocusedAsync();
        await page.Keyboard.PressAsync("Control+z");
        await Expect(page.GetByText("All is stored.")).ToBeVisibleAsync();
        await Expect(height).ToHaveValueAsync("");
        await page.Keyboard.TypeAsync("0,7");
        await page.Keyboard.PressAsync("Escape"); // while it is being typed
        await Expect(height).ToHaveValueAsync("");
        await page.Keyboard.TypeAsync("0,6");
        await page.Keyboard.PressAsync("Tab");
        await Expect(page.GetByText("Not stored: 1 changed.")).ToBeVisibleAsync();

        await page.ReloadAsync();
        await DeskUnderTest.Heard(page);

        await Expect(page.GetByLabel("Height, m, station S05")).ToHaveValueAsync("0,6");
        await Expect(page.GetByText("and not stored stands here again")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 1 station" }).ClickAsync();
        await Expect(page.GetByText("1 station is stored.")).ToBeVisibleAsync();
        Assert.Equal(0.6, _desk.Live.Now.Campaign("QUILLMERE-26")!.Stations["S05"].HeightM);
        Assert.Equal(0, await DeskUnderTest.WiderThanPhone(page));
    }

    [Fact]
    public async Task A_scanner_that_is_faster_than_the_line_fills_a_chain()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/plan/QUILLMERE-26");
        var chain = page.GetByLabel("Chain, station S05");
        await chain.ClickAsync();
        await page.Keyboard.PressAsync("Control+a");
        foreach (var code in new[] { "41073", "GP073" })
        {
            await page.Keyboard.TypeAsync(code); // no pause between letters
            await page.Keyboard.PressAsync("Enter");
        }
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.GetByLabel("Chain, station S06")).ToBeFocusedAsync();
        await Expect(chain).ToHaveValueAsync("41073 + GP073");
        // Left without a last Enter, what was scanned counts all the same.
        await page.Keyboard.PressAsync("Control+a");
        await page.Keyboard.TypeAsync("41074");
        await page.Keyboard.PressAsync("Enter");
        await page.GetByRole(AriaRole.Heading, new() { Name = "What goes along" }).ClickAsync();
        await Expect(page.GetByText("Not stored: 2 changed.")).ToBeVisibleAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Store 2 stations" }).ClickAsync();
        await Expect(page.GetByText("2 stations are stored.")).ToBeVisibleAsync();

        CampaignState campaign = _desk.Live.Now.Campaign("QUILLMERE-26")!;
        Assert.Equal([_desk.Device("41073").Id, _desk.Device("GP073").Id], campaign.Chains["S05"]);
        Assert.Equal([_desk.Device("41074").Id], campaign.Chains["S06"]);
    }
}
