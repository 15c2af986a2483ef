using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using MicRegister.Benchmarks;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Storage.LiteDb;
using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>How quick the desk is with 10,000 devices, from a server just started to a far one. Prints a table; asserts nothing.</summary>
internal static class DeskMeasurements
{
    private const int Devices = 10_000;

    private static IEnumerable<Fact> Facts() =>
    [
        .. Enumerable.Range(0, Devices).Select(i => Fleet.Device(i, Fleet.Kind(i))),
        .. Enumerable.Range(0, Devices).SelectMany(i => Enumerable.Range(0, 15)
            .Select(n => Fleet.Result(i, n, Fleet.Kind(i) == "microphone" ? "sensitivity" : "gain"))),
        .. Fleet.Campaign("C1", 200, 0),
    ];

    /// <param name="kept">Where the register is made and left, or taken as it was left; null for one that is deleted again.</param>
    public static async Task<int> Take(string? kept)
    {
        var folder = kept ?? Directory.CreateTempSubdirectory("micregister-").FullName;
        try
        {
            if (kept is null || !Directory.Exists(kept) || Directory.GetFiles(kept).Length == 0)
                await using (var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder), TimeProvider.System)))
                {
                    foreach (var chunk in Facts().Chunk(5000)) await live.Submit(chunk, "measured");
                }
            await (await Started(folder)).Stop(); // the first start settles what was written
            var clock = Stopwatch.GetTimestamp();
            await (await Started(folder)).Stop();
            Console.WriteLine("| what, 10,000 devices and 150,000 results | here | to reach |");
            Console.WriteLine("|---|---|---|");
            Line("from the command to the server's address", $"{Stopwatch.GetElapsedTime(clock).TotalSeconds:0.0} s", "");
            var chromium = await Chromium.Shared();
            foreach (var (path, sign, name, most) in new[]
            {
                ("/", ".sentences li", "Today", "1500 ms"), ("/drift", "main table tbody tr", "Drift", "1500 ms"),
                ("/fleet", "main table tbody tr", "the fleet's rows", "300 ms; live 800 ms"),
            })
            {
                var (shown, live) = (new List<double>(), new List<double>());
                for (var i = 0; i < 3; i++)
                {
                    var server = await Started(folder);
                    var seen = await Seen(chromium.Browser, server.Address, path, sign);
                    shown.Add(seen.Shown);
                    live.Add(seen.Live);
                    await server.Stop();
                }
                Line($"{name} right after the server's start", $"{Of(shown)}; live {Of(live)}", "≤ " + most);
            }
            var used = await Started(folder);
            foreach (var path in new[] { "/", "/fleet", "/drift", "/" }) await Seen(chromium.Browser, used.Address, path, "h1");
            await using var far = new SlowWire(used.Address, 150);
            foreach (var (address, way) in new[] { (used.Address, "on this machine"), (far.Address, "at 150 ms") })
            {
                foreach (var (path, sign, name, most) in new[]
                {
                    ("/", "h1", "first page", "800 ms"), ("/fleet", "main table tbody tr", "the fleet's rows", "300 ms; live 800 ms"),
                    ("/drift", "main table tbody tr", "Drift", "1500 ms"), ("/", ".sentences li", "Today's lines", "1500 ms"),
                })
                {
                    var (shown, live) = (new List<double>(), new List<double>());
                    for (var i = 0; i < 5; i++)
                    {
                        var seen = await Seen(chromium.Browser, address, path, sign);
                        shown.Add(seen.Shown);
                        live.Add(seen.Live);
                    }
                    Line($"{name}, server in use, {way}", $"{Of(shown)}; live {Of(live)}", address == used.Address ? "≤ " + most : "");
                }
                await Filter(chromium.Browser, address, way, address == used.Address ? "≤ 100 ms" : "≤ 250 ms");
            }
            await used.Stop();
        }
        finally
        {
            if (kept is null) Directory.Delete(folder, recursive: true);
        }
        return 0;
    }

    private static async Task Filter(IBrowser browser, string address, string way, string most)
    {
        await using var context = Patience.With(await browser.NewContextAsync(new() { BaseURL = address }));
        var page = await context.NewPageAsync();
        await page.GotoAsync("/fleet");
        await DeskUnderTest.Heard(page);
        var took = new List<double>();
        foreach (var words in new[] { "microphone 1", "12", "ground", "99", "plate 7", "preamp", "4", "channel" })
            took.Add(await Measurements.Timed(page, "[data-filters] input", words, ".page-head [role=status]"));
        Line($"a key in the filter over all devices, {way}", $"{Of(took)}", most);
    }

    // From the navigation's start, in the page's own clock: when what is asked for is drawn, and when clicks are heard.
    private static async Task<(double Shown, double Live)> Seen(IBrowser browser, string address, string path, string sign)
    {
        await using var context = Patience.With(await browser.NewContextAsync(
            new() { BaseURL = address, ViewportSize = new() { Width = 1300, Height = 900 } }));
        await context.AddInitScriptAsync("""
            window.firstSeen = {};
            const look = () => {
                for (const [name, sign] of Object.entries({ shown: 'SIGN', live: 'main[data-live]' }))
                    if (!(name in window.firstSeen) && document.querySelector(sign)) window.firstSeen[name] = performance.now();
                if (!('shown' in window.firstSeen) || !('live' in window.firstSeen)) requestAnimationFrame(look);
            };
            requestAnimationFrame(look);
            """.Replace("SIGN", sign, StringComparison.Ordinal));
        var page = await context.NewPageAsync();
        await page.GotoAsync(path);
        var seen = await page.EvaluateAsync<double[]>("""
            () => new Promise(done => {
                const look = () => window.firstSeen.shown && window.firstSeen.live ? done([window.firstSeen.shown, window.firstSeen.live])
                    : requestAnimationFrame(look);
                look();
            })
            """);
        return (seen[0], seen[1]);
    }

    private sealed record Running(Process Process, string Address)
    {
        public async Task Stop()
        {
            Process.Kill(entireProcessTree: true);
            await Process.WaitForExitAsync();
            Process.Dispose();
        }
    }

    // A server of its own process, as a laboratory starts it; it is back as soon as it says its address.
    private static async Task<Running> Started(string folder)
    {
        var port = Free().ToString(CultureInfo.InvariantCulture);
        var process = Process.Start(new ProcessStartInfo("dotnet",
        [
            Path.Combine(AppContext.BaseDirectory, "MicRegister.Server.dll"), "serve", "--without-sign-in", "--data", folder,
            "--port", port, "--today", "2026-08-03",
        ])
        { RedirectStandardOutput = true, RedirectStandardError = true })!;
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        while (await process.StandardOutput.ReadLineAsync() is { } line)
        {
            if (!line.Contains("register's pages", StringComparison.Ordinal)) continue;
            _ = process.StandardOutput.ReadToEndAsync(); // so that it never waits for its words to be read
            return new(process, "http://127.0.0.1:" + port);
        }
        throw new InvalidOperationException("The server did not start.");
    }

    private static int Free()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private static string Of(List<double> took) =>
        FormattableString.Invariant($"{took.Order().ElementAt(took.Count / 2):0} ms ({took.Min():0} to {took.Max():0})");

    private static void Line(string what, string figure, string target) => Console.WriteLine($"| {what} | {figure} | {target} |");
}
