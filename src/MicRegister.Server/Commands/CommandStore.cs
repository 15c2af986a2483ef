using MicRegister.Documents.Curves;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Commands;

/// <summary>The register that a command works with: read only, or taken to state something in a person's name.</summary>
internal static class CommandStore
{
    /// <summary>Opens a register to read; the server may have it open meanwhile.</summary>
    /// <exception cref="BadUseException">The folder holds no register.</exception>
    public static ReadOnlyStore Read(string folder) =>
        (Directory.Exists(folder) ? ReadOnlyStore.Open(new DiskFiles(folder)) : null) ?? throw Missing(folder);

    /// <summary>The register of a folder with its response curves, which plans and traces are judged by.</summary>
    public static Register.Register Judged(ReadOnlyStore store) => store.Register.WithCurves(new CurveShelf(store.OpenAttachment).Read);

    /// <summary>Opens a register to store in it.</summary>
    /// <exception cref="BadUseException">There is no such folder.</exception>
    public static LiveRegister Write(string folder) => Directory.Exists(folder)
        ? new(JournalStore.Open(new DiskFiles(folder), TimeProvider.System))
        : throw Missing(folder);

    /// <summary>States something in a person's name, all of it or nothing; one who was never named before is named with it.</summary>
    /// <param name="live">The register.</param>
    /// <param name="by">Name of the person who answers for it.</param>
    /// <param name="decide">Gives the facts.</param>
    /// <param name="cancel">Gives up before anything is stored.</param>
    /// <param name="file">Name of the file that it comes from, for the reason; null where there is none.</param>
    /// <exception cref="BadUseException">It was rejected, with the reason.</exception>
    public static async Task State(
        LiveRegister live, string by, Func<Register.Register, Saying, Result<IReadOnlyList<Fact>>> decide, CancellationToken cancel,
        string? file = null)
    {
        var (person, saying) = (PersonState.IdOf(by), Saying(live, by));
        var answer = await live.Submit(r => decide(r, saying) switch
        {
            Result<IReadOnlyList<Fact>>.Accepted a when r.Person(person) is null =>
                new Result<IReadOnlyList<Fact>>.Accepted([.. a.Value, Named(person, by)]),
            var other => other,
        }, "command by " + person, cancel);
        if (answer is Result<IReadOnlyList<AppendOutcome>>.Rejected { Why: var why })
            throw new BadUseException($"{(file is null ? "" : file + ": ")}{why.Text} Nothing was stored.");
        live.Log.Settle(live.Now, always: true);
    }

    /// <summary>What a person says by a command, now.</summary>
    public static Saying Saying(LiveRegister live, string by) =>
        new(new(Occurred.At(TimeProvider.System.GetUtcNow()), PersonState.IdOf(by), "command", live.Now.Count));

    private static Fact Named(string person, string name) =>
        FactText.WriteDerived(new(Occurred.Unknown, person, "command", 0), new PersonNamed(name), [Subject.Person(person)]);

    private static BadUseException Missing(string folder) => new($"The folder {folder} holds no register.");
}
