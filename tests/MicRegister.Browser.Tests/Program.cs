namespace MicRegister.Browser.Tests;

/// <summary>Runs the tests, takes a picture of every page, or measures how quick the pages are.</summary>
internal static class Program
{
    public static async Task<int> Main(string[] args)
    {
        if (args is ["pictures", var place, "field"]) return await Pictures.Field(place);
        if (args is ["pictures", var folder]) return await Pictures.Take(folder);
        if (args is ["measure", "field"]) return await Measurements.Field();
        if (args is ["measure", ..]) return await Measurements.Take(args is [_, "following"]);
        return args.Any(a => a is "--server" or "--internal-msbuild-node")
            ? await Xunit.MicrosoftTestingPlatform.TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions)
            : await Xunit.Runner.InProc.SystemConsole.ConsoleRunner.Run(args);
    }
}
