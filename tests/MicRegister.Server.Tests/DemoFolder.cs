namespace MicRegister.Server.Tests;

/// <summary>
/// The demo's register: taken over once for all tests by the command that people use, copied for each that starts from it.
/// </summary>
internal static class DemoFolder
{
    private static readonly Lazy<Task<TemporaryFolder>> Taken = new(TakeOver);

    /// <summary>Puts the demo's register into an empty folder.</summary>
    public static async Task CopyTo(string folder)
    {
        var demo = (await Taken.Value).Path;
        string There(string path) => Path.Combine(folder, Path.GetRelativePath(demo, path));
        foreach (var inner in Directory.GetDirectories(demo, "*", SearchOption.AllDirectories)) Directory.CreateDirectory(There(inner));
        foreach (var file in Directory.GetFiles(demo, "*", SearchOption.AllDirectories)) File.Copy(file, There(file));
    }

    private static async Task<TemporaryFolder> TakeOver()
    {
        var folder = new TemporaryFolder();
        AppDomain.CurrentDomain.ProcessExit += (_, _) => folder.Dispose();
        var (_, said, error) = await CommandLine.Run("demo", "--once", "--data", folder.Path);
        // Its campaign is not ready, so the exit tells nothing.
        return said.Contains("facts stored.", StringComparison.Ordinal) ? folder
            : throw new InvalidOperationException($"The demo was not taken over: {said}{error}");
    }
}
