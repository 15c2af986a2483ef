using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>Pictures of every page with the demo fleet: wide and narrow, light and dark.</summary>
internal static class Pictures
{
    public static async Task<int> Take(string folder)
    {
        Directory.CreateDirectory(folder);
        await using var desk = await DeskUnderTest.Open();
        var import = await desk.Page("/import");
        await import.Locator("input[type=file]").SetInputFilesAsync(DeskUnderTest.DemoFiles);
        await import.GetByRole(AriaRole.Button, new() { NameRegex = new("Store the good rows") }).WaitForAsync(new() { Timeout = 60_000 });
        await import.ScreenshotAsync(new() { Path = Path.Combine(folder, "import-rows.png"), FullPage = true });
        await import.GetByRole(AriaRole.Button, new() { NameRegex = new("Store the good rows") }).ClickAsync();
        await import.GetByText("facts stored").WaitForAsync(new() { Timeout = 60_000 });
        foreach (var (width, size) in new[] { (1300, "wide"), (390, "narrow") })
        {
            var tones = await desk.Page("/tones", width);
            await tones.GetByLabel("The calibrator's frequency").FillAsync("250");
            await tones.Locator("input[type=file]").SetInputFilesAsync([.. Enumerable.Range(1, 6).Select(i => MainJobTests.Tone($"station-{i:00}.wav", i == 4 ? 1000 : 250, i == 5 ? 2 : 8))]);
            await tones.GetByText("channels are usable.").WaitForAsync();
            await tones.ScreenshotAsync(new() { Path = Path.Combine(folder, $"tones-{size}-light.png"), FullPage = true });
            await tones.Context.CloseAsync();
        }
        string Of(string serial) => desk.Live.Now.DeviceIds.First(id => desk.Live.Now.Device(id)!.Serial == serial);
        var drifter = Of("41007");
        (string Name, string Path)[] pages =
        [
            ("start", "/"), ("fleet", "/fleet?for=QUILLMERE-26"), ("fleet-filtered", "/fleet?q=gp0&kind=ground-plate"), ("device", "/devices/" + drifter), ("campaigns", "/campaigns"),
            ("campaign", "/campaigns/QUILLMERE-26"), ("campaign-station", "/campaigns/QUILLMERE-26?station=S31"), ("profiles", "/profiles"), ("profile", "/profiles/transport-1200mm"), ("import", "/import"), ("journal", "/journal"), ("plan", "/plan/QUILLMERE-26"), ("drift", "/drift?limit=0.2"), ("device-step", "/devices/" + Of("41015")), ("plan-new", "/plan"), ("fleet-day", "/fleet?on=2027-03-01&kind=microphone"), ("compare", $"/compare?d={drifter}&d={Of("41015")}&d={Of("41022")}"), ("missing", "/devices/NOWHERE"),
        ];
        foreach (var (width, size) in new[] { (1300, "wide"), (390, "narrow") })
        {
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                foreach (var (name, path) in pages)
                {
                    var page = await desk.Page(path, width, width > 1000 ? 900 : 800, scheme);
                    await page.WaitForTimeoutAsync(250);
                    await page.ScreenshotAsync(new() { Path = Path.Combine(folder, $"{name}-{size}-{scheme.ToString().ToLowerInvariant()}.png"), FullPage = name is not "journal" });
                    await page.Context.CloseAsync();
                }
            }
        }
        return 0;
    }
}
