using Bunit;
using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Server.Api;
using MicRegister.Server.Pages.Parts;
using MicRegister.Server.Pages.Shell;
using MicRegister.Server.Setup;
using MicRegister.Server.Work;
using MicRegister.Storage.LiteDb;
using Microsoft.Extensions.DependencyInjection;
using MudBlazor;
using MudBlazor.Services;

namespace MicRegister.Server.Tests.Pages;

/// <summary>Parts of pages without a browser, before a register of their own; <see cref="Meanwhile"/> lets them follow it.</summary>
public abstract class PageContext : BunitContext, IAsyncLifetime
{
    private readonly TemporaryFolder _folder = new();

    // Moved by hand, so that nothing is drawn anew between finding an element and acting on it.
    private readonly HandTime _time = new(new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero));

    // What is waited for is a drawing, not a speed.
    static PageContext() => DefaultWaitTimeout = TimeSpan.FromMinutes(2);

    private protected LiveRegister Live { get; private set; } = null!;

    /// <summary>How the server stands.</summary>
    private protected virtual ServerOptions Options { get; } = new();

    /// <summary>A second passes.</summary>
    private protected void Tick() => _time.Now += TimeSpan.FromSeconds(1);

    /// <summary>From now on all work seems long.</summary>
    private protected void Hurry() => _time.IsHasty = true;

    private protected Desk Desk => Services.GetRequiredService<Desk>();

    public ValueTask InitializeAsync()
    {
        Live = new(JournalStore.Open(new DiskFiles(_folder.Path), TimeProvider.System));
        Services.AddMudServices();
        Services.AddSingleton<TimeProvider>(_time);
        Services.AddHttpContextAccessor();
        Services.AddSingleton<FleetView>();
        Services.AddSingleton(Options);
        Services.AddScoped<Screen>();
        Services.AddScoped<FigureDesk>();
        Services.AddSingleton(new Speaking(null));
        Services.AddSingleton(new Desk(Live, TimeProvider.System, new DateOnly(2026, 8, 3)));
        JSInterop.Mode = JSRuntimeMode.Loose;
        Renderer.SetRendererInfo(new("Server", true));
        return ValueTask.CompletedTask;
    }

    protected override async ValueTask DisposeAsyncCore()
    {
        await base.DisposeAsyncCore();
        await Live.DisposeAsync();
        _folder.Dispose();
    }

    /// <summary>What lies over a page: its dialogs. Once for a test.</summary>
    private protected IRenderedComponent<MudDialogProvider> Screen()
    {
        Render<MudPopoverProvider>();
        return Render<MudDialogProvider>();
    }

    /// <summary>Stores facts behind the desk and lets all that is drawn follow.</summary>
    private protected async Task Meanwhile(params IReadOnlyList<MicRegister.Register.Facts.Fact> facts)
    {
        await Live.Submit(facts, "test");
        Desk.Tell();
        _time.Now += TimeSpan.FromMinutes(1); // a page waits two seconds at most before it follows
    }
}
