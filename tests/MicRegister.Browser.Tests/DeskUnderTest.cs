using MicRegister.Register;
using MicRegister.Server;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;
using Microsoft.AspNetCore.Builder;
using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>A server of its own with a browser before it.</summary>
internal sealed class DeskUnderTest : IAsyncDisposable
{
    private readonly string _folder;
    private readonly LiveRegister _live;
    private readonly WebApplication _app;
    private readonly IPlaywright _playwright;

    private DeskUnderTest(string folder, LiveRegister live, WebApplication app, IPlaywright playwright, IBrowser browser) =>
        (_folder, _live, _app, _playwright, Browser) = (folder, live, app, playwright, browser);

    public IBrowser Browser { get; }

    public string Address => _app.Urls.First();

    public LiveRegister Live => _live;

    /// <summary>The folder with the demo's files.</summary>
    public static string Inventory => Path.Combine(AppContext.BaseDirectory, "demo-inventory");

    public static string[] DemoFiles => [.. Directory.GetFiles(Inventory).Where(f => Path.GetExtension(f) is ".csv" or ".xlsx").Order(StringComparer.Ordinal)];

    /// <summary>The accounts, where it asks who is there.</summary>
    public AccountBook? Book { get; private init; }

    public static async Task<DeskUnderTest> Open(IReadOnlyList<MicRegister.Register.Facts.Fact>? facts = null, bool withPeople = false, IReadOnlyList<string>? args = null)
    {
        // Other tests share the cores; what is waited for is an answer, not a speed.
        Assertions.SetDefaultExpectTimeout(20_000);
        var folder = Directory.CreateTempSubdirectory("micregister-").FullName;
        var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder), TimeProvider.System));
        if (facts is not null) await live.Submit(facts, "test");
        var book = withPeople ? AccountBook.Open(new DiskFiles(folder), TimeProvider.System) : null;
        var app = RegisterServer.Build(live, TimeProvider.System, new DateOnly(2026, 8, 3), new ServerOptions { Port = 0, Access = book is null ? Access.OpenHere : new(book) });
        await app.StartAsync();
        var playwright = await Playwright.CreateAsync();
        var browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = "/usr/bin/chromium",
            Args = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync", .. args ?? []],
        });
        return new(folder, live, app, playwright, browser) { Book = book };
    }

    /// <summary>A page that is live: its circuit stands.</summary>
    public async Task<IPage> Page(string path, int width = 1300, int height = 900, ColorScheme scheme = ColorScheme.Light)
    {
        var context = await Browser.NewContextAsync(new() { ViewportSize = new() { Width = width, Height = height }, ColorScheme = scheme, BaseURL = Address, Locale = "en-GB" });
        var page = await context.NewPageAsync();
        await page.GotoAsync(path);
        await Heard(page);
        return page;
    }

    /// <summary>By how many pixels a page is wider than a phone's 390; tables scroll by themselves.</summary>
    public static async Task<int> WiderThanPhone(IPage page)
    {
        var size = page.ViewportSize!;
        await page.SetViewportSizeAsync(390, 800);
        var width = await page.EvaluateAsync<int>("document.documentElement.scrollWidth");
        await page.SetViewportSizeAsync(size.Width, size.Height);
        return Math.Max(0, width - 390);
    }

    /// <summary>Waits until clicks are heard.</summary>
    public static Task Heard(IPage page) => page.Locator("main[data-live]").WaitForAsync();

    /// <summary>Takes the demo over by dropping its files.</summary>
    public static async Task TakeOverDemo(IPage page)
    {
        await page.Locator("input[type=file]").SetInputFilesAsync(DemoFiles);
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("Store the good rows") }).ClickAsync(new() { Timeout = 60_000 });
        await page.GetByText("facts stored").WaitForAsync(new() { Timeout = 60_000 });
    }

    public async ValueTask DisposeAsync()
    {
        await Browser.CloseAsync();
        _playwright.Dispose();
        await _app.StopAsync();
        await _app.DisposeAsync();
        await _live.DisposeAsync();
        Book?.Dispose();
        Directory.Delete(_folder, recursive: true);
    }
}
