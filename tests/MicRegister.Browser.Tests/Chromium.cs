using Microsoft.Playwright;

[assembly: AssemblyFixture(typeof(MicRegister.Browser.Tests.ChromiumEnds))]

namespace MicRegister.Browser.Tests;

/// <summary>A running Chromium. One serves all tests: what is a test's own is a context, with its storage, cookies and network.</summary>
internal sealed class Chromium : IAsyncDisposable
{
    private static readonly SemaphoreSlim Turn = new(1);
    private static Chromium? _shared;
    private readonly IPlaywright _playwright;

    private Chromium(IPlaywright playwright, IBrowser browser) => (_playwright, Browser) = (playwright, browser);

    public IBrowser Browser { get; }

    /// <summary>The one that all share; a new one where it crashed, so that one test's crash is not every test's.</summary>
    public static async Task<Chromium> Shared()
    {
        await Turn.WaitAsync();
        try
        {
            if (_shared is { Browser.IsConnected: false } crashed) await crashed.DisposeAsync();
            return _shared = _shared is { Browser.IsConnected: true } ? _shared : await Launch();
        }
        finally
        {
            Turn.Release();
        }
    }

    /// <summary>One of its own, for whoever needs it told something at its start.</summary>
    public static async Task<Chromium> Launch(params IReadOnlyList<string> more)
    {
        Patience.Expectations();
        var playwright = await Playwright.CreateAsync();
        var browser = await playwright.Chromium.LaunchAsync(new()
        {
            ExecutablePath = "/usr/bin/chromium",
            Args =
            [
                "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
                "--disable-component-update", "--disable-sync", "--disable-dev-shm-usage", .. more,
            ],
            Timeout = Patience.Ms,
        });
        return new(playwright, browser);
    }

    /// <summary>Ends the one that all share.</summary>
    public static ValueTask EndShared() => Interlocked.Exchange(ref _shared, null)?.DisposeAsync() ?? default;

    public async ValueTask DisposeAsync()
    {
        await Browser.CloseAsync();
        _playwright.Dispose();
    }
}

/// <summary>Ends the shared Chromium after the last test.</summary>
public sealed class ChromiumEnds : IAsyncDisposable
{
    public ValueTask DisposeAsync() => Chromium.EndShared();
}
