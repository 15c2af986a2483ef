namespace MicRegister.Browser.Tests;

/// <summary>Runs the tests, takes a picture of every page, or measures how quick the pages are.</summary>
internal static class Program
{
    public static async Task<int> Main(string[] args)
    {
        if (args is ["pictures" or "measure", ..])
        {
            try
            {
                return args switch
                {
                    ["pictures", var place, "field"] => await Pictures.Field(place),
                    ["pictures", var place, "profiles"] => await ProfilePictures.Take(place),
                    ["pictures", var folder] => await Pictures.Take(folder),
                    ["measure", "desk", .. var kept] => await DeskMeasurements.Take(kept.FirstOrDefault()),
                    ["measure", "field"] => await Measurements.Field(),
                    _ => await Measurements.Take(args is [_, "following"]),
                };
            }
            finally
            {
                await Chromium.EndShared();
            }
        }
        return args.Any(a => a is "--server" or "--internal-msbuild-node")
            ? await Xunit.MicrosoftTestingPlatform.TestPlatformTestFramework.RunAsync(args, SelfRegisteredExtensions.AddSelfRegisteredExtensions)
            : await Xunit.Runner.InProc.SystemConsole.ConsoleRunner.Run(args);
    }
}
