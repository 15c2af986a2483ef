using System.Collections.Concurrent;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using MicRegister.Server.Tests;
using MicRegister.Server.Work;
using MicRegister.Storage.LiteDb;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>A server of its own before a browser that all tests share.</summary>
internal sealed class DeskUnderTest : IAsyncDisposable
{
    private static readonly Lazy<Task<IReadOnlyList<Fact>>> DemoFacts = new(ReadDemo);

    private readonly string _folder;
    private readonly LiveRegister _live;
    private readonly WebApplication _app;
    private readonly Chromium _chromium;
    private readonly bool _ownsChromium;
    private readonly ConcurrentBag<IBrowserContext> _contexts = [];

    private DeskUnderTest(string folder, LiveRegister live, WebApplication app, Chromium chromium, bool ownsChromium) =>
        (_folder, _live, _app, _chromium, _ownsChromium) = (folder, live, app, chromium, ownsChromium);

    /// <summary>The browser that other tests use as well: take <see cref="NewContext"/>, which ends with the test.</summary>
    public IBrowser Browser => _chromium.Browser;

    public string Address => _app.Urls.First();

    public LiveRegister Live => _live;

    /// <summary>The folder with the demo's files.</summary>
    public static string Inventory => Path.Combine(AppContext.BaseDirectory, "demo-inventory");

    public static string[] DemoFiles =>
    [
        .. new[] { Inventory, Path.Combine(Inventory, "flown") }.SelectMany(folder => Directory.GetFiles(folder)
            .Where(f => Path.GetExtension(f) is ".csv" or ".xlsx").Order(StringComparer.Ordinal)),
    ];

    /// <summary>The accounts, where it asks who is there.</summary>
    public AccountBook? Book { get; private init; }

    /// <summary>Opens a server with a register of its own.</summary>
    /// <param name="facts">What its register holds at first.</param>
    /// <param name="withPeople">Whether it asks who is there.</param>
    /// <param name="args">What a browser of its own is told at its start; null takes the shared one.</param>
    public static async Task<DeskUnderTest> Open(
        IReadOnlyList<Fact>? facts = null, bool withPeople = false, IReadOnlyList<string>? args = null)
    {
        var folder = Directory.CreateTempSubdirectory("micregister-").FullName;
        var live = new LiveRegister(Slowed.Log(JournalStore.Open(new DiskFiles(folder), TimeProvider.System)));
        if (facts is not null) await live.Submit(facts, "test");
        var book = withPeople ? AccountBook.Open(new DiskFiles(folder), TimeProvider.System) : null;
        var options = new ServerOptions { Port = 0, Access = book is null ? Access.OpenHere : new(book) };
        var app = RegisterServer.Build(live, TimeProvider.System, new DateOnly(2026, 8, 3), options);
        await app.StartAsync();
        var chromium = args is null ? await Chromium.Shared() : await Chromium.Launch(args);
        return new(folder, live, app, chromium, args is not null) { Book = book };
    }

    /// <summary>A person or a phone: storage, cookies and a network of its own, until the test ends.</summary>
    /// <param name="options">How it looks; its address is this server's where it says none.</param>
    public async Task<IBrowserContext> NewContext(BrowserNewContextOptions? options = null)
    {
        options ??= new();
        options.BaseURL ??= Address;
        var context = Patience.With(await Browser.NewContextAsync(options));
        Slowed.Pages(context);
        _contexts.Add(context);
        return context;
    }

    /// <summary>A page that is live: its circuit stands.</summary>
    public async Task<IPage> Page(string path, int width = 1300, int height = 900, ColorScheme scheme = ColorScheme.Light)
    {
        var size = new ViewportSize { Width = width, Height = height };
        var context = await NewContext(new() { ViewportSize = size, ColorScheme = scheme, Locale = "en-GB" });
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

    /// <summary>
    /// Waits until the server has dealt with all that this page sent: a harmless act comes back, and they are dealt with in turn.
    /// </summary>
    public static async Task Answered(IPage page)
    {
        var look = page.Locator("header.bar button[aria-pressed]");
        foreach (var _ in new[] { "there", "back" })
        {
            var isDark = await look.GetAttributeAsync("aria-pressed");
            await look.DispatchEventAsync("click");
            await Assertions.Expect(look).ToHaveAttributeAsync("aria-pressed", isDark == "true" ? "false" : "true");
        }
    }

    /// <summary>Takes the demo over by dropping its files.</summary>
    public static async Task TakeOverDemo(IPage page)
    {
        await page.Locator("input[type=file]").SetInputFilesAsync(DemoFiles);
        await page.GetByRole(AriaRole.Button, new() { NameRegex = new("Store the good rows") }).ClickAsync();
        await page.GetByText("facts stored").WaitForAsync();
    }

    /// <summary>Holds the demo's facts from here on, for tests that do not ask how they came.</summary>
    public async Task HoldDemo() => await _live.Submit(await Demo(), "test");

    /// <summary>The demo's facts, taken over once for all tests by its command.</summary>
    public static Task<IReadOnlyList<Fact>> Demo() => DemoFacts.Value;

    /// <summary>The device of a serial number, as it is now.</summary>
    public DeviceState Device(string serial) => _live.Now.DeviceIds.Select(id => _live.Now.Device(id)!).First(d => d.Serial == serial);

    /// <summary>Tells open pages of facts that a test stored behind the desk.</summary>
    public void Tell() => _app.Services.GetRequiredService<Desk>().Tell();

    public async ValueTask DisposeAsync()
    {
        foreach (var context in _contexts) await context.CloseAsync();
        if (_ownsChromium) await _chromium.DisposeAsync();
        await _app.StopAsync();
        await _app.DisposeAsync();
        await _live.DisposeAsync();
        Book?.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    private static async Task<IReadOnlyList<Fact>> ReadDemo()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);
        using var store = ReadOnlyStore.Open(new DiskFiles(folder.Path))!;
        return [.. Enumerable.Range(1, store.Register.Count).Select(store.Register.Source.Read)];
    }
}
