using MicRegister.Register.Facts;
using MicRegister.Register.Intake;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests.Remote;

/// <summary>The same commands on a folder and through a server that holds another one; both begin alike.</summary>
internal sealed class Twin : IAsyncDisposable
{
    public const string Today = "2026-08-03";

    private readonly TemporaryFolder _own = new();

    private Twin(ServerUnderTest server, Duties duty) => (Server, Person) = (server, duty.ToString().ToLowerInvariant());

    public ServerUnderTest Server { get; }

    /// <summary>Whose token it is, and who answers on the folder.</summary>
    public string Person { get; }

    public string Address => Server.Addresses[0];

    public string TokenFile => _own.At("token");

    public string Data => _own.At("data");

    public static async Task<Twin> Open(Duties duty, bool withDemo = false)
    {
        var twin = new Twin(await ServerUnderTest.OpenWithPeople(withDemo: withDemo), duty);
        twin._own.Write("token", twin.Server.Tokens[duty] + "\n");
        if (withDemo)
        {
            Directory.CreateDirectory(twin.Data);
            await DemoFolder.CopyTo(twin.Data);
        }
        return twin;
    }

    public string Write(string name, string text) => _own.Write(name, text);

    public string At(string name) => _own.At(name);

    /// <summary>Options that lead a command through the server.</summary>
    public string[] Through(string? address = null) => ["--server", address ?? Address, "--token-file", TokenFile, "--today", Today];

    /// <summary>Options that lead it to the folder.</summary>
    public string[] OnFolder => ["--data", Data, "--by", Person, "--today", Today];

    /// <summary>Runs a command both ways: exit code and all that is said are the same.</summary>
    public async Task<(int Exit, string Out, string Error)> Both(params string[] args)
    {
        var folder = await CommandLine.Run([.. args, .. OnFolder]);
        var server = await CommandLine.Run([.. args, .. Through()]);
        Assert.Equal(folder, server);
        return server;
    }

    /// <summary>Both registers hold the same.</summary>
    public void HoldTheSame(int atLeast)
    {
        using var store = ReadOnlyStore.Open(new DiskFiles(Data))!;
        var folder = Held(store.Register);
        Assert.True(folder.Count >= atLeast, $"Only {folder.Count} facts are there.");
        Assert.Equal(folder, Held(Server.Live.Now));
    }

    // What is of the moment or of the door differs; facts of rows have the ids that follow from what they say.
    private static List<string> Held(Register.Register register) =>
        [.. Enumerable.Range(1, register.Count).Select(s => register.Source.Read(s)).Select(f => f.Body switch
        {
            RegisterFounded => "founded by " + f.Author,
            ImportAccepted i =>
                $"import by {f.Author}: {i.File} {i.Sha256} {i.Rows} {i.Facts} {i.Digest} {i.AsOf} {i.Legend?.Name} {i.Legend?.Text}",
            _ when f.Client == FactStamp.Import => f.Id.ToString(),
            _ => $"{f.Kind} by {f.Author} of {string.Join(' ', f.Subjects)}: {f.Body}",
        }).Order(StringComparer.Ordinal)];

    public async ValueTask DisposeAsync()
    {
        await Server.DisposeAsync();
        _own.Dispose();
    }
}
