using System.Globalization;
using MicRegister.Register;
using MicRegister.Register.Facts;
using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>
/// A machine so many times slower, asked for by MICREGISTER_SLOWED=3: pages get that part of the CPU, and the register answers each act
/// late. What a test reads before it was answered, it then reads too early.
/// </summary>
internal static class Slowed
{
    private static readonly double Times = Asked(Environment.GetEnvironmentVariable("MICREGISTER_SLOWED"));

    /// <summary>A log that acknowledges late, where slowness was asked for; otherwise the log itself.</summary>
    public static IFactLog Log(IFactLog log) => Times > 1 ? new LateLog(log, TimeSpan.FromMilliseconds(250 * Times)) : log;

    /// <summary>Slows the pages of a context, where slowness was asked for.</summary>
    public static void Pages(IBrowserContext context)
    {
        if (Times > 1) context.Page += async (_, page) => await Throttle(context, page);
    }

    private static double Asked(string? times) =>
        double.TryParse(times, CultureInfo.InvariantCulture, out var asked) && asked > 1 ? asked : 1;

    private static async Task Throttle(IBrowserContext context, IPage page)
    {
        try
        {
            var session = await context.NewCDPSessionAsync(page);
            await session.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = Times });
        }
        catch (PlaywrightException)
        {
            // The page was closed at once: there is nothing left to slow.
        }
    }

    private sealed class LateLog(IFactLog log, TimeSpan late) : IFactLog
    {
        public LogHead Head => log.Head;

        public Register.Register Load() => log.Load();

        public Fact Read(int sequence) => log.Read(sequence);

        // The writer waits, as it does for a slow disk.
        public void Append(IReadOnlyList<IncomingFact> facts)
        {
            using var never = new ManualResetEventSlim();
            never.Wait(late);
            log.Append(facts);
        }

        public void Settle(Register.Register register, bool always = false) => log.Settle(register, always);

        public IEnumerable<LoggedFact> ReadFrom(int sequence) => log.ReadFrom(sequence);

        public IReadOnlyList<int> Find(FactQuery query) => log.Find(query);

        public string KeepAttachment(Stream content) => log.KeepAttachment(content);

        public Stream? OpenAttachment(string sha256) => log.OpenAttachment(sha256);

        public void Dispose() => log.Dispose();
    }
}
