using MicRegister.Register;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Server.Api;
using MicRegister.Server.Remote;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Where checks are worked out and stored: on the folder, or by a running server.</summary>
internal interface ICheckDoor : IAsyncDisposable
{
    /// <summary>Works checks out.</summary>
    Task<ToneChecksView> Work(NewToneChecks ask, CancellationToken cancel);

    /// <summary>Works them out and stores them, all or none.</summary>
    Task<ToneChecksView> Store(NewToneChecks ask, CancellationToken cancel);
}

/// <summary>The folder itself.</summary>
/// <param name="folder">The folder.</param>
/// <param name="by">Name of the person who answers for what is stored; null only looks.</param>
/// <param name="today">Day as of which is judged.</param>
internal sealed class CheckFolder(string folder, string? by, DateOnly today) : ICheckDoor
{
    private readonly LiveRegister? _live = by is null ? null : CommandStore.Write(folder);
    private readonly ReadOnlyStore? _store = by is null ? CommandStore.Read(folder) : null;

    public Task<ToneChecksView> Work(NewToneChecks ask, CancellationToken cancel) => Task.FromResult(Out(ask).View);

    public async Task<ToneChecksView> Store(NewToneChecks ask, CancellationToken cancel)
    {
        var worked = Out(ask);
        await CommandStore.State(_live!, by!, (r, saying) => CheckDecisions.Record(r, saying, worked.Entries, today), cancel);
        return worked.View with { Stored = worked.Entries.Count };
    }

    public async ValueTask DisposeAsync()
    {
        _store?.Dispose();
        if (_live is not null) await _live.DisposeAsync();
    }

    private ToneChecks Out(NewToneChecks ask) =>
        ToneChecks.Out(_live?.Now ?? _store!.Register, ask, Occurred.At(TimeProvider.System.GetUtcNow()));
}

/// <summary>A running server: recordings are measured here, and what was measured goes there.</summary>
internal sealed class CheckServer(RegisterConnection server) : ICheckDoor
{
    public async Task<ToneChecksView> Work(NewToneChecks ask, CancellationToken cancel)
    {
        using var body = RegisterConnection.Body(ask);
        return await server.Ask<ToneChecksView>(ToneChecksApi.ShowPath, body, cancel);
    }

    public async Task<ToneChecksView> Store(NewToneChecks ask, CancellationToken cancel)
    {
        using var body = RegisterConnection.Body(ask);
        return await server.Store<ToneChecksView>(ToneChecksApi.StorePath, body, cancel);
    }

    public ValueTask DisposeAsync()
    {
        server.Dispose();
        return ValueTask.CompletedTask;
    }
}
