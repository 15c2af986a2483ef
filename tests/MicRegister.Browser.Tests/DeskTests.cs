using MicRegister.Register.Campaigns;
using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>The shell around all pages: its look, its rail, its search.</summary>
public sealed class DeskTests : IAsyncLifetime
{
    private const string Ivory = "rgb(246, 244, 238)"; // #f6f4ee
    private const string Night = "rgb(25, 24, 21)"; // #191815

    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync() => _desk = await DeskUnderTest.Open();

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Fact]
    public async Task Anything_is_found_by_keys_alone_also_when_they_are_faster_than_the_server()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/");

        await page.Keyboard.PressAsync("Control+k");
        await page.Keyboard.TypeAsync("s37"); // no waiting for answers
        await page.Keyboard.PressAsync("Enter");
        await page.WaitForURLAsync("**/campaigns/QUILLMERE-26?station=S37");

        await page.Keyboard.PressAsync("Control+k");
        await page.Keyboard.TypeAsync("a-12p 4100");
        await Expect(page.Locator("#search-hits")).ToHaveAttributeAsync("data-for", "a-12p 4100"); // the answer to the last key
        await Expect(page.Locator("#search [role=option]")).ToHaveCountAsync(9);
        await page.Keyboard.PressAsync("ArrowDown");
        await page.Keyboard.PressAsync("ArrowDown");
        var third = page.Locator("#search [role=option]").Nth(2);
        await Expect(third).ToHaveAttributeAsync("aria-selected", "true");
        var serial = (await third.Locator("strong").InnerTextAsync()).Split(' ')[^1];
        await page.Keyboard.PressAsync("Enter");
        await Expect(page.Locator("h1")).ToContainTextAsync(serial);

        await page.Keyboard.PressAsync("Control+k");
        await Expect(page.GetByRole(AriaRole.Dialog)).ToBeVisibleAsync();
        await page.Keyboard.PressAsync("Escape");
        await Expect(page.GetByRole(AriaRole.Dialog)).ToHaveCountAsync(0);
    }

    [Fact]
    public async Task What_applies_at_a_station_during_an_event_is_few_acts_from_today()
    {
        await _desk.HoldDemo();
        var station = _desk.Live.Now.Campaign("LAPWING-FEN-26")!.Stations.Keys.ElementAt(6);
        var page = await _desk.Page("/");
        var acts = new Acts(page);

        await acts.Press("Control+k");
        await acts.Type("fly-by c1 " + station);
        await acts.Press("Enter");

        await Expect(page.GetByRole(AriaRole.Region, new() { Name = "Station " + station })).ToContainTextAsync("dB re 1 V/Pa");
        await Expect(page.Locator("h1")).ToContainTextAsync("Fly-by C1");
        Assert.True(acts.Count <= 4, $"{acts.Count} acts");
        // A figure says where it comes from, at the side.
        await page.Locator("tr.chosen .figure").Nth(1).ClickAsync();
        await Expect(page.GetByRole(AriaRole.Dialog, new() { Name = "Where this comes from" }))
            .ToContainTextAsync("Sensitivity level of " + station);
    }

    [Fact]
    public async Task A_finding_is_one_act_from_what_clears_it()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/campaigns/QUILLMERE-26");
        var acts = new Acts(page);
        var first = page.Locator(".sentences li").Filter(new() { Has = page.GetByRole(AriaRole.Link, new() { Name = "device" }) }).First;
        var device = (await first.GetByRole(AriaRole.Link, new() { Name = "device" }).GetAttributeAsync("href"))!.Split('/')[^1];

        await acts.Click(first.Locator(".acts .plain"));

        await page.WaitForURLAsync(url => !url.Contains("/campaigns/", StringComparison.Ordinal));
        Assert.Equal(1, acts.Count);
        Assert.Contains(device, page.Url, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_look_is_right_in_the_first_frame_and_stays_as_it_was_chosen()
    {
        var page = await _desk.Page("/", scheme: ColorScheme.Dark);
        await Expect(page.Locator("body")).ToHaveCSSAsync("background-color", Night);
        await page.Locator("[data-turn-look]").ClickAsync();
        await Expect(page.Locator("body")).ToHaveCSSAsync("background-color", Ivory);

        // Without scripts nothing can be put right later: what stands then is the first frame.
        var still = await _desk.NewContext(new() { ColorScheme = ColorScheme.Dark, JavaScriptEnabled = false });
        var plain = await still.NewPageAsync();
        await plain.GotoAsync("/");
        await Expect(plain.Locator("body")).ToHaveCSSAsync("background-color", Night);
        await still.AddCookiesAsync(await page.Context.CookiesAsync() is var all ? all.Where(c => c.Name == "look")
            .Select(c => new Cookie { Name = c.Name, Value = c.Value, Url = _desk.Address }) : []);
        await plain.ReloadAsync();
        await Expect(plain.Locator("body")).ToHaveCSSAsync("background-color", Ivory);
    }

    [Theory]
    [InlineData(1440, "rail")]
    [InlineData(900, "rail")]
    [InlineData(390, "bottom")]
    public async Task Every_page_of_the_rail_is_at_hand_at_each_width(int width, string where)
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/", width: width);

        if (where == "rail")
        {
            await page.Locator(".rail").GetByRole(AriaRole.Link, new() { Name = "Requirements" }).ClickAsync();
            await Expect(page.Locator(".bottom")).ToBeHiddenAsync();
        }
        else
        {
            await Expect(page.Locator(".rail")).ToBeHiddenAsync();
            await page.Locator(".bottom").GetByRole(AriaRole.Button, new() { Name = "More" }).ClickAsync();
            await page.GetByRole(AriaRole.Menuitem, new() { Name = "Requirements" }).ClickAsync();
        }
        await Expect(page.Locator("h1")).ToContainTextAsync("Requirement");
        Assert.Equal(width, await page.EvaluateAsync<int>("document.documentElement.scrollWidth"));
    }
}
