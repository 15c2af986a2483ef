namespace MicRegister.Browser.Tests;

/// <summary>Runs the tests, or takes a picture of every page.</summary>
internal static class Program
{
    public static async Task<int> Main(string[] args)
    {
        if (args is ["pictures", var folder]) return await Pictures.Take(folder);
        return args.Any(a => a is "--server" or "--internal-msbuild-node")
            ? await Xunit.MicrosoftTestingPlatform.TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions)
            : await Xunit.Runner.InProc.SystemConsole.ConsoleRunner.Run(args);
    }
}
