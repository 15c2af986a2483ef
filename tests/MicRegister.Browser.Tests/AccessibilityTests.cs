using Microsoft.Playwright;
using static Microsoft.Playwright.Assertions;

namespace MicRegister.Browser.Tests;

/// <summary>Every page at the desk can be read and worked by everybody, light and dark, wide and on a phone.</summary>
public sealed class AccessibilityTests : IAsyncLifetime
{
    private DeskUnderTest _desk = null!;

    public async ValueTask InitializeAsync() => _desk = await DeskUnderTest.Open();

    public ValueTask DisposeAsync() => _desk.DisposeAsync();

    private string Of(string serial) => _desk.Device(serial).Id;

    private string[] Paths =>
    [
        "/", "/fleet?for=QUILLMERE-26", "/devices/" + Of("41015"), "/devices/NOWHERE", "/campaigns", "/campaigns/QUILLMERE-26?station=S01",
        "/profiles", "/profiles/small-unmanned-flush", "/profiles/small-unmanned-flush/compare?with=array-left-out",
        "/import", "/journal", "/plan", "/tones", "/bench", "/labels", $"/labels?d={Of("41015")}&d={Of("41007")}", "/board/QUILLMERE-26",
        "/hand-over", "/events/QUILLMERE-26", "/in-place/QUILLMERE-26", "/doubts", "/evidence/QUILLMERE-26", "/set-ups",
        "/mounts", "/mounts?campaign=QUILLMERE-26", "/mounts?mount=pole&height=0",
        "/rests-on/device/" + Of("41015"), "/l/2AYS641TS", "/l/nothing", "/checks", "/checks/QUILLMERE-26", "/devices/" + Of("K501"),
        "/plan/QUILLMERE-26", "/drift", "/fleet?on=2026-10-01&sort=-serial", $"/compare?d={Of("41015")}&d={Of("41007")}",
    ];

    [Fact]
    public async Task No_page_has_an_accessibility_finding()
    {
        var page = await _desk.Page("/");
        await Expect(page.GetByText("The register is empty")).ToBeVisibleAsync();
        var found = new List<string>(await Accessibility.Findings(page, "/ (empty)"));
        await _desk.HoldDemo();
        foreach (var path in Paths)
        {
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
            await page.GotoAsync(path);
            await DeskUnderTest.Heard(page);
            found.AddRange(await Accessibility.Findings(page, path + " light"));
            if (await DeskUnderTest.WiderThanPhone(page) is var wider and > 0) found.Add($"{path} is {wider} px wider than a phone");
            await Dark(page, reload: path == "/");
            found.AddRange(await Accessibility.Findings(page, path + " dark"));
            Assert.Equal(1, await page.Locator("h1").CountAsync());
            Assert.Equal(1, await page.Locator("main").CountAsync());
        }
        Assert.Empty(found);
    }

    [Fact]
    public async Task A_list_before_it_is_stored_has_no_accessibility_finding()
    {
        await _desk.HoldDemo();
        var page = await _desk.Page("/import");
        await page.Locator("input[type=file]").SetInputFilesAsync(new FilePayload
        {
            Name = "moved.csv",
            MimeType = "text/csv",
            Buffer = "Art;Typ;Seriennummer;Lagerort;Farbe\nMikrofon;A-12P;41001;Van 2;rot\nTeekanne;A-12P;49998;Hall 3;blau\n"u8.ToArray(),
        });
        await Expect(page.Locator(".store-bar")).ToBeVisibleAsync();
        await page.Locator(".filter-chip").First.ClickAsync();

        var found = new List<string>(await Accessibility.Findings(page, "light"));
        Assert.Equal(0, await DeskUnderTest.WiderThanPhone(page));
        await Dark(page, reload: false);
        found.AddRange(await Accessibility.Findings(page, "dark"));
        Assert.Empty(found);
    }

    [Fact]
    public async Task What_lies_over_a_page_has_no_accessibility_finding()
    {
        await _desk.HoldDemo();
        var found = new List<string>();
        await Look("the search", "/", 1300, async page =>
        {
            await page.Keyboard.PressAsync("Control+k");
            await page.Keyboard.TypeAsync("a-12p 4100");
            await Expect(page.Locator("#search [role=option]")).ToHaveCountAsync(9);
        });
        await Look("the columns", "/fleet", 1300, async page =>
        {
            await page.GetByRole(AriaRole.Button, new() { Name = "Columns" }).ClickAsync();
            await page.GetByRole(AriaRole.Menuitemcheckbox).First.WaitForAsync();
        });
        await Look("what is marked", "/fleet", 1300, async page =>
        {
            await page.Locator("main tbody input[type=checkbox]").First.CheckAsync();
            await page.Locator(".marked-bar").GetByRole(AriaRole.Button, new() { Name = "Change place or state" }).ClickAsync();
            await page.GetByRole(AriaRole.Dialog).WaitForAsync();
        });
        await Look("more on a phone", "/", 390, async page =>
        {
            await page.Locator(".bottom").GetByRole(AriaRole.Button, new() { Name = "More" }).ClickAsync();
            await page.GetByRole(AriaRole.Menuitem).First.WaitForAsync();
        });
        Assert.True(found.Count == 0, string.Join('\n', found));

        async Task Look(string what, string path, int width, Func<IPage, Task> open)
        {
            var page = await _desk.Page(path, width);
            await open(page);
            found.AddRange(await Accessibility.Findings(page, what + " light"));
            await Dark(page, reload: false);
            found.AddRange(await Accessibility.Findings(page, what + " dark"));
            await page.Context.CloseAsync();
        }
    }

    [Fact]
    public async Task What_is_wrong_with_a_page_is_found()
    {
        var page = await _desk.Page("/");
        Assert.Empty(await Accessibility.Findings(page, "/"));
        await page.EvaluateAsync("""
            () => {
              const [image, pale] = ['img', 'p'].map(name => document.querySelector('main').appendChild(document.createElement(name)));
              Object.assign(pale, { textContent: 'hardly to be read' }).style.color = '#dddddd';
              image.src = '/field/icon-192.png';
            }
            """);

        var found = await Accessibility.Findings(page, "/");

        Assert.Contains(found, f => f.StartsWith("/: image-alt", StringComparison.Ordinal));
        Assert.Contains(found, f => f.StartsWith("/: color-contrast", StringComparison.Ordinal));
    }

    // A machine that prefers dark gets it by itself: where it did before it came, which is tried once, and where it does so while the page
    // stands.
    private static async Task Dark(IPage page, bool reload)
    {
        await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark });
        if (reload)
        {
            await page.ReloadAsync();
            await DeskUnderTest.Heard(page);
        }
        await Expect(page.Locator("body")).ToHaveCSSAsync("background-color", "rgb(25, 24, 21)"); // #191815
    }
}
