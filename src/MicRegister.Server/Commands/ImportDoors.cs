using System.Net.Http.Headers;
using MicRegister.Register;
using MicRegister.Server.Api;
using MicRegister.Server.Imports;
using MicRegister.Server.Remote;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>Where an import is worked out and stored: on the folder, or by a running server.</summary>
internal interface IImportDoor : IAsyncDisposable
{
    /// <summary>Works out what files would do.</summary>
    Task<ImportAnswer> Work(ImportAsk ask, IReadOnlyList<FileAtHand> files, CancellationToken cancel);

    /// <summary>Stores what was worked out last.</summary>
    /// <returns>How many facts are new.</returns>
    Task<int> Store(ImportAsk ask, IReadOnlyList<FileAtHand> files, ImportAnswer shown, CancellationToken cancel);
}

/// <summary>The folder itself, to look.</summary>
internal sealed class LookingDoor(string folder, DateOnly today) : IImportDoor
{
    private readonly ReadOnlyStore? _store = Directory.Exists(folder) ? ReadOnlyStore.Open(new DiskFiles(folder)) : null;

    public Task<ImportAnswer> Work(ImportAsk ask, IReadOnlyList<FileAtHand> files, CancellationToken cancel) =>
        Task.FromResult(ImportAnswer.Of(
            Importing.Worked(
                _store?.Register ?? Register.Register.Empty(new FactList()), today,
                s => _store is null ? null : Importing.DayOf(_store.ReadLogged(s)), ask, i => files[i].Open(), cancel),
            today, aside: false));

    public Task<int> Store(ImportAsk ask, IReadOnlyList<FileAtHand> files, ImportAnswer shown, CancellationToken cancel) =>
        throw new InvalidOperationException("This door only looks.");

    public ValueTask DisposeAsync()
    {
        _store?.Dispose();
        return ValueTask.CompletedTask;
    }
}

/// <summary>The folder itself, to store in it.</summary>
internal sealed class FolderDoor(string folder, DateOnly today, string by) : IImportDoor
{
    private readonly LiveRegister _live = new(JournalStore.Open(new DiskFiles(folder), TimeProvider.System));
    private Importing? _worked;

    public Task<ImportAnswer> Work(ImportAsk ask, IReadOnlyList<FileAtHand> files, CancellationToken cancel)
    {
        _worked = Importing.Worked(_live.Now, today, Importing.RecordedIn(_live.Log), ask, i => files[i].Open(), cancel);
        return Task.FromResult(ImportAnswer.Of(_worked, today, ask.Aside == true));
    }

    public async Task<int> Store(ImportAsk ask, IReadOnlyList<FileAtHand> files, ImportAnswer shown, CancellationToken cancel)
    {
        var stored = await _worked!.Store(_live, by, TimeProvider.System, cancel);
        _live.Log.Settle(_live.Now, always: stored > 0);
        return stored;
    }

    public ValueTask DisposeAsync() => _live.DisposeAsync();
}

/// <summary>A running server: files go there with each question, and what is stored is the plan that was shown.</summary>
internal sealed class ServerDoor(RegisterConnection server) : IImportDoor
{
    public async Task<ImportAnswer> Work(ImportAsk ask, IReadOnlyList<FileAtHand> files, CancellationToken cancel)
    {
        using var body = Body(ask, files);
        var answer = await server.Ask<ImportAnswer>(ImportsApi.FilesPath, body, cancel);
        return answer.Aside.All(a => a.File >= 0 && a.File < files.Count) ? answer
            : throw new BadUseException("The server names a file that was not sent. Nothing was stored.");
    }

    public async Task<int> Store(ImportAsk ask, IReadOnlyList<FileAtHand> files, ImportAnswer shown, CancellationToken cancel)
    {
        using var body = Body(ask with { Plan = shown.Plan }, files);
        return (await server.Store<ImportAnswer>(ImportsApi.FilesPath, body, cancel)).Stored;
    }

    public ValueTask DisposeAsync()
    {
        server.Dispose();
        return ValueTask.CompletedTask;
    }

    private static MultipartFormDataContent Body(ImportAsk ask, IReadOnlyList<FileAtHand> files)
    {
        var (form, bytes) = (new MultipartFormDataContent(), 0L);
        form.Add(new StringContent(ApiJson.Text(ask)), ImportsApi.AskField);
        foreach (var file in files.Where(f => f.Asked.Unreadable is null))
        {
            var content = new StreamContent(file.Open());
            bytes += content.Headers.ContentLength ?? 0;
            content.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
            form.Add(content, ImportsApi.FileField, "file");
        }
        if (bytes <= ImportsApi.MaxBytes - ImportsApi.Beside) return form;
        form.Dispose();
        throw new BadUseException(
            $"The files have {bytes} bytes; through a server at most {ImportsApi.MaxBytes - ImportsApi.Beside} go at once. "
            + "Give fewer at once. Nothing was stored.");
    }
}
