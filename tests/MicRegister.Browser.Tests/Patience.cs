using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>
/// How long a test waits for what a person would wait for, in one place. It is no speed that is asserted: an answer that comes is good,
/// and on a machine many times slower it must come as well. Only a test that fails takes as long.
/// </summary>
internal static class Patience
{
    /// <summary>For an answer on the screen, an act, a page, a download; in ms. Whoever mends a test may say less in PATIENCE_MS.</summary>
    public static readonly float Ms = float.TryParse(
        Environment.GetEnvironmentVariable("PATIENCE_MS"), System.Globalization.CultureInfo.InvariantCulture, out var said) ? said
            : 120_000;

    /// <summary>For all phones to send all they hold over a bad network; in ms.</summary>
    public const float SendingMs = 300_000;

    /// <summary>Lets all that is expected wait so long.</summary>
    public static void Expectations() => Assertions.SetDefaultExpectTimeout(Ms);

    /// <summary>Lets all acts in a context wait so long.</summary>
    public static IBrowserContext With(IBrowserContext context)
    {
        context.SetDefaultTimeout(Ms);
        context.SetDefaultNavigationTimeout(Ms);
        return context;
    }
}
