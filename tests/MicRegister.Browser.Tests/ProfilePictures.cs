using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>Pictures of requirement profiles: list, one with what a change would come to, two side by side.</summary>
internal static class ProfilePictures
{
    /// <summary>Takes them into a folder.</summary>
    public static async Task<int> Take(string folder)
    {
        Directory.CreateDirectory(folder);
        await using var desk = await DeskUnderTest.Open();
        await desk.HoldDemo();
        (string Name, string Path)[] pages =
        [
            ("profiles", "/profiles"), ("profile", "/profiles/small-unmanned-flush"),
            ("profile-compare", "/profiles/small-unmanned-flush/compare?with=array-left-out"),
        ];
        foreach (var (width, size) in new[] { (1300, "wide"), (390, "narrow") })
        {
            foreach (var scheme in new[] { ColorScheme.Light, ColorScheme.Dark })
            {
                foreach (var (name, path) in pages)
                {
                    var page = await desk.Page(path, width, 900, scheme);
                    if (name == "profile") await ShowEffect(page);
                    await page.WaitForTimeoutAsync(250);
                    await page.ScreenshotAsync(new()
                    {
                        Path = Path.Combine(folder, $"{name}-{size}-{scheme.ToString().ToLowerInvariant()}.png"),
                        FullPage = true,
                    });
                    await page.Context.CloseAsync();
                }
            }
        }
        return 0;
    }

    private static async Task ShowEffect(IPage page)
    {
        await DeskUnderTest.Heard(page);
        await page.GetByLabel("Greatest deviation from the certificate in use", new() { Exact = true }).FillAsync("0.02");
        await page.Keyboard.PressAsync("Tab");
        await page.GetByRole(AriaRole.Button, new() { Name = "Show what would change" }).ClickAsync();
        await page.GetByText("would change, with").WaitForAsync();
    }
}
