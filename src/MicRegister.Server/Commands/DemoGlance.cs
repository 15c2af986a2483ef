using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>
/// A look at the invented fleet beside a register of one's own: a server on this machine alone, whose register lies in a folder for
/// the time being and goes with it.
/// </summary>
internal sealed class DemoGlance : IAsyncDisposable
{
    private readonly SemaphoreSlim _door = new(1);
    private WebApplication? _app;
    private LiveRegister? _live;
    private string? _folder;

    /// <summary>Where it is looked at; begun once, the same for all who ask.</summary>
    public async Task<Uri> Open(CancellationToken cancel)
    {
        await _door.WaitAsync(cancel);
        try
        {
            if (_app is null) await Begin(cancel);
            return new(_app!.Urls.First());
        }
        finally
        {
            _door.Release();
        }
    }

    public async ValueTask DisposeAsync()
    {
        if (_app is not null) await _app.DisposeAsync();
        if (_live is not null) await _live.DisposeAsync();
        if (_folder is not null) Directory.Delete(_folder, recursive: true);
        _door.Dispose();
    }

    private async Task Begin(CancellationToken cancel)
    {
        var batches = DemoFiles.Of(DemoFiles.Usual);
        _folder ??= Directory.CreateTempSubdirectory("micregister-glance-").FullName;
        _live ??= new(JournalStore.Open(new DiskFiles(_folder), TimeProvider.System));
        await DemoRegister.Fill(_live, batches, batches[^1].Day, null, cancel);
        var options = new ServerOptions { Port = 0, Access = Access.OpenHere };
        var app = RegisterServer.Build(_live, TimeProvider.System, batches[^1].Day, options);
        await app.StartAsync(cancel);
        _app = app;
    }
}
