using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>The desk works the same for whoever sits far from the server.</summary>
public sealed class FarDeskTests : IAsyncLifetime
{
    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync() => _desk = await DeskUnderTest.Open();

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    [Theory]
    [InlineData(0)]
    [InlineData(150)]
    public async Task The_filter_of_the_fleet_hears_every_key(int roundTripMs)
    {
        await _desk.HoldDemo();
        await using var wire = new SlowWire(_desk.Address, roundTripMs);
        var context = await _desk.NewContext(new() { BaseURL = wire.Address });
        var page = await context.NewPageAsync();
        await page.GotoAsync("/fleet");
        await DeskUnderTest.Heard(page);
        var filter = page.Locator("[data-filters] input").First;

        await filter.PressSequentiallyAsync("a-12p 410", new() { Delay = 15 }); // faster than an answer comes back

        await Expect(filter).ToHaveValueAsync("a-12p 410");
        await Expect(page.Locator("main table tbody tr:has(a)").First).ToContainTextAsync("410");
        var told = (await page.Locator(".page-head [role=status]").InnerTextAsync()).Split(' ')[0];
        Assert.InRange(int.Parse(told, System.Globalization.CultureInfo.InvariantCulture), 1, 99);
        var rows = await page.Locator("main table tbody tr:has(a)").AllInnerTextsAsync();
        Assert.All(rows, row => Assert.Contains("410", row, StringComparison.Ordinal));
        await filter.PressAsync("Backspace");
        await filter.PressAsync("Backspace");
        await filter.PressSequentiallyAsync("99", new() { Delay = 15 });
        await Expect(filter).ToHaveValueAsync("a-12p 499");
        Assert.Equal(wire.Address, new Uri(page.Url).GetLeftPart(UriPartial.Authority));
    }
}
