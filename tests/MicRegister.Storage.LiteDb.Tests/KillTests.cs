using System.Diagnostics;
using MicRegister.Register.Facts;

namespace MicRegister.Storage.LiteDb.Tests;

public sealed class KillTests
{
    /// <summary>A writer is killed 20 times without warning; each fact it was told of is there, and the journal is whole.</summary>
    [Fact]
    public async Task A_killed_writer_loses_nothing_that_was_acknowledged()
    {
        using var folder = new TemporaryFolder();
        var acknowledged = new HashSet<string>();
        for (var round = 0; round < 20; round++)
        {
            acknowledged.UnionWith(await RunAndKill(folder.Path, afterLines: 20 + (37 * round % 150)));

            using var store = JournalStore.Open(folder.Files, TimeProvider.System);
            var register = store.Load();
            var missing = acknowledged.Where(id => !register.Knows(FactId.Parse(id))).ToList();
            Assert.True(missing.Count == 0, $"round {round}: {missing.Count} of {acknowledged.Count} acknowledged facts are gone");
            Assert.Null(store.VerifyBeginning(TestContext.Current.CancellationToken));
        }
        Assert.InRange(acknowledged.Count, 20 * 20, int.MaxValue);
        Assert.Null(ReadOnlyStore.Verify(folder.Files, TestContext.Current.CancellationToken).Fault);
    }

    private static async Task<List<string>> RunAndKill(string folder, int afterLines)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!) { RedirectStandardOutput = true, UseShellExecute = false };
        // Under the dotnet host the test program is its first argument; its own executable needs none.
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath) == "dotnet") start.ArgumentList.Add(typeof(KillTests).Assembly.Location);
        start.ArgumentList.Add("write-until-killed");
        start.ArgumentList.Add(folder);
        using var writer = Process.Start(start)!;
        var lines = new List<string>();
        while (lines.Count < afterLines && await writer.StandardOutput.ReadLineAsync() is { } line) lines.Add(line);
        writer.Kill();
        while (await writer.StandardOutput.ReadLineAsync() is { Length: FactId.TextLength } line) lines.Add(line);
        await writer.WaitForExitAsync();
        return lines;
    }
}
