using System.Diagnostics;
using System.Text.Json.Nodes;

namespace MicRegister.Server.Tests.Recompute;

/// <summary>Works figures out by recompute.py, which knows nothing of this program.</summary>
internal static class SecondImplementation
{
    private const string Usual = "/usr/bin/python3";

    /// <summary>The figures of each case by their place.</summary>
    public static async Task<IReadOnlyList<JsonObject>> Answers(JsonArray cases)
    {
        var script = Path.Combine(AppContext.BaseDirectory, "Recompute", "recompute.py");
        var start = new ProcessStartInfo(Python(Usual, Environment.GetEnvironmentVariable("PATH") ?? ""), ["-I", script])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
        };
        using var python = Process.Start(start)!;
        var (said, wrong) = (python.StandardOutput.ReadToEndAsync(), python.StandardError.ReadToEndAsync());
        await python.StandardInput.WriteAsync(cases.ToJsonString());
        python.StandardInput.Close();
        await python.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(python.ExitCode == 0, $"recompute.py ended with {python.ExitCode}: {await wrong}");
        return [.. JsonNode.Parse(await said)!.AsArray().Select(a => a!.AsObject())];
    }

    /// <summary>Where it is; a test fails where it is nowhere.</summary>
    /// <param name="usual">Where it usually is.</param>
    /// <param name="path">Folders to look into otherwise.</param>
    public static string Python(string usual, string path)
    {
        var found = path.Split(Path.PathSeparator).Select(p => Path.Combine(p, "python3")).Prepend(usual).FirstOrDefault(File.Exists);
        Assert.True(
            found is not null,
            $"There is no {usual} and no python3 in PATH (package python3): nothing else recomputes the figures of traces.");
        return found!;
    }
}
