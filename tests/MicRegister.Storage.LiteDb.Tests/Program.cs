namespace MicRegister.Storage.LiteDb.Tests;

/// <summary>Runs the tests, or is the writer that a test kills.</summary>
internal static class Program
{
    public static async Task<int> Main(string[] args)
    {
        if (args is ["write-until-killed", var folder]) return await EndlessWriter.Run(folder);
        return args.Any(a => a is "--server" or "--internal-msbuild-node")
            ? await Xunit.MicrosoftTestingPlatform.TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions)
            : await Xunit.Runner.InProc.SystemConsole.ConsoleRunner.Run(args);
    }
}
