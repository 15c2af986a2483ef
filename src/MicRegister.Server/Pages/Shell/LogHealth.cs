using MicRegister.Register;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Pages.Shell;

/// <summary>Whether the part of the log that the start took on trust from its checkpoint is whole; checked behind the start.</summary>
internal sealed class LogHealth
{
    private readonly Task<string?> _check;

    private LogHealth(Task<string?> check) => _check = check;

    /// <summary>What is known by now, for people.</summary>
    public string Words => _check switch
    {
        { IsCompletedSuccessfully: true, Result: null } => "The log is whole.",
        { IsCompletedSuccessfully: true, Result: { } fault } => $"The log is damaged; do not rely on this verdict. {fault}",
        { IsFaulted: true } => $"The log cannot be read; do not rely on this verdict. {_check.Exception!.InnerException!.Message}",
        _ => "The log is being verified; until then the verdict is provisional.",
    };

    public static LogHealth Check(IFactLog log, CancellationToken stopping) =>
        new(log is JournalStore store ? Task.Run(() => store.VerifyBeginning(stopping), stopping) : Task.FromResult<string?>(null));
}
