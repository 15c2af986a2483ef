using System.Diagnostics;
using System.Net.Http.Json;
using MicRegister.Benchmarks;
using MicRegister.Register.Facts;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.Extensions.Logging;
using Microsoft.Playwright;

namespace MicRegister.Browser.Tests;

/// <summary>How quick the pages and the API are with 10,000 devices and 150,000 results. Prints a table; asserts nothing.</summary>
internal static class Measurements
{
    private const int Devices = 10_000;

    public static async Task<int> Take(bool onlyFollowing = false)
    {
        List<Fact> facts =
        [
            .. Enumerable.Range(0, Devices).Select(i => Fleet.Device(i, Fleet.Kind(i))),
            .. Enumerable.Range(0, Devices).SelectMany(i => Enumerable.Range(0, 15).Select(n => Fleet.Result(i, n, Fleet.Kind(i) == "microphone" ? "sensitivity" : "gain"))),
            .. Fleet.Campaign("C1", 200, 0),
        ];
        await using var desk = await DeskUnderTest.Open(facts);
        Console.WriteLine("| what | here | to reach |");
        Console.WriteLine("|---|---|---|");
        if (onlyFollowing)
        {
            await ManyPages(desk);
            return 0;
        }
        await Pages(desk);
        await Memory(desk);
        await ManyPages(desk);
        await Reads(desk);
        return 0;
    }

    /// <summary>How soon the field page of a campaign of 72 stations is usable on a slow phone.</summary>
    public static async Task<int> Field()
    {
        await using var desk = await DeskUnderTest.Open(MicRegister.Browser.Tests.Field.HeathCampaign.Facts(72));
        Console.WriteLine("| what | here | to reach |");
        Console.WriteLine("|---|---|---|");
        foreach (var isFirst in new[] { true, false })
        {
            var took = new List<double>();
            var phone = isFirst ? null : await MicRegister.Browser.Tests.Field.FieldPhone.Open(desk);
            if (phone is not null) await phone.Installed();
            for (var i = 0; i < 5; i++)
            {
                var context = phone?.Context ?? await desk.NewContext(new() { ViewportSize = new() { Width = 390, Height = 844 } });
                var page = await context.NewPageAsync();
                var throttle = await context.NewCDPSessionAsync(page);
                await throttle.SendAsync("Emulation.setCPUThrottlingRate", new() { ["rate"] = 6 });
                var clock = Stopwatch.GetTimestamp();
                await page.GotoAsync("/field/");
                await page.GetByRole(AriaRole.Link, new() { Name = "Lay out" }).WaitForAsync();
                took.Add(Stopwatch.GetElapsedTime(clock).TotalMilliseconds);
                await page.CloseAsync();
                if (phone is null) await context.CloseAsync();
            }
            Line(isFirst ? "field page usable at a sixth of the CPU, first visit, kit of 72 stations fetched" : "the same once installed, from its cache", $"{Median(took):0} ms ({took.Min():0} to {took.Max():0})", "≤ 2500 ms");
        }
        return 0;
    }

    private static async Task Pages(DeskUnderTest desk)
    {
        // Once each, so that what is measured is a server that has been used.
        foreach (var path in new[] { "/", "/fleet", "/campaigns/C1", "/" }) await (await desk.Page(path)).Context.CloseAsync();
        foreach (var (path, name) in new[] { ("/", "first page"), ("/fleet", "fleet of 10,000"), ("/campaigns/C1", "campaign of 200 stations") })
        {
            var took = new List<double>();
            for (var i = 0; i < 5; i++)
            {
                var clock = Stopwatch.GetTimestamp();
                var page = await desk.Page(path);
                took.Add(Stopwatch.GetElapsedTime(clock).TotalMilliseconds);
                await page.Context.CloseAsync();
            }
            Line($"{name} usable, new browser context", $"{Median(took):0} ms ({took.Min():0} to {took.Max():0})", "≤ 1500 ms");
        }
        var fleet = await desk.Page("/fleet");
        var filter = new List<double>();
        foreach (var words in new[] { "microphone 1", "12", "ground", "a-12 99", "plate 7", "preamp", "38.0", "channel" })
            filter.Add(await Timed(fleet, "[data-filters] input", words, "[role=status]"));
        Line("filter over 10,000 rows, key to screen", $"{Median(filter):0} ms", "≤ 150 ms");

        var campaign = await desk.Page("/campaigns/C1");
        var slider = new List<double>();
        for (var i = 0; i < 8; i++) slider.Add(await Timed(campaign, "input[type=range]", (i % 2 == 0 ? 3 : 8).ToString(System.Globalization.CultureInfo.InvariantCulture), "label.field span"));
        Line("day slider, input to screen", $"{Median(slider):0} ms", "≤ 100 ms");
        var size = (await fleet.ContentAsync()).Length;
        Line("largest page in the browser", $"{Math.Max(size, (await campaign.ContentAsync()).Length) / 1000} kB", "≤ 1 MB");
    }

    // Timed in the page itself, from the input event to the change of a text.
    public static Task<double> Timed(IPage page, string input, string value, string watched) => page.EvaluateAsync<double>("""
        async ([input, value, watched]) => {
            const element = document.querySelector(input), target = document.querySelector(watched);
            const before = target.textContent, start = performance.now();
            element.value = value;
            element.dispatchEvent(new Event('input', { bubbles: true }));
            return await new Promise(done => {
                const look = () => target.textContent !== before ? done(performance.now() - start) : performance.now() - start > 5000 ? done(5000) : requestAnimationFrame(look);
                look();
            });
        }
        """, new[] { input, value, watched });

    private static async Task Memory(DeskUnderTest desk)
    {
        await (await desk.Page("/fleet")).Context.CloseAsync();
        var before = GC.GetTotalMemory(forceFullCollection: true);
        var pages = new List<IPage>();
        for (var i = 0; i < 10; i++) pages.Add(await desk.Page(i % 2 == 0 ? "/fleet" : "/campaigns/C1"));
        var after = GC.GetTotalMemory(forceFullCollection: true);
        Line("memory of the server for an open page", $"{(after - before) / 10.0 / (1 << 20):0.0} MB", "≤ 30 MB");
        foreach (var page in pages) await page.Context.CloseAsync();
    }

    // The same without any page first: what is left above it is the pages' and their browsers' doing.
    private static async Task ManyPages(DeskUnderTest desk)
    {
        foreach (var open in new[] { 0, 20, 20, 20 })
        {
            var pages = new List<IPage>();
            for (var i = 0; i < open; i++) pages.Add(await desk.Page("/journal"));
            var took = new double[1000];
            using var client = new HttpClient();
            var sent = desk.Live.Now.Count;
            await Parallel.ForAsync(0, 1000, new ParallelOptions { MaxDegreeOfParallelism = 8 }, async (i, cancel) =>
            {
                var clock = Stopwatch.GetTimestamp();
                using var answer = await client.PostAsJsonAsync($"{desk.Address}/api/devices/{Fleet.Id(i)}/notes", new { text = $"note {i} of {sent}" }, cancel);
                answer.EnsureSuccessStatusCode();
                took[i] = Stopwatch.GetElapsedTime(clock).TotalMilliseconds;
            });
            var stored = desk.Live.Now.Count;
            foreach (var page in pages) await page.GetByText($"Log {stored} facts").WaitForAsync();
            Array.Sort(took);
            Line($"answer to a fact while {open} pages are open and 1,000 arrive", $"p99 {took[989]:0} ms, median {took[500]:0} ms; {stored - sent} stored, all {open} pages show them", "p99 ≤ 200 ms");
            foreach (var page in pages) await page.Context.CloseAsync();
        }
    }

    private static async Task Reads(DeskUnderTest desk)
    {
        var device = await new HttpClient().GetByteArrayAsync($"{desk.Address}/api/devices/{Fleet.Id(0)}");
        var record = new { Text = new string('x', device.Length - 20) };
        var builder = WebApplication.CreateSlimBuilder();
        builder.Logging.ClearProviders();
        builder.WebHost.UseUrls("http://127.0.0.1:0");
        await using var bare = builder.Build();
        bare.MapGet("/", () => Microsoft.AspNetCore.Http.Results.Json(record));
        await bare.StartAsync();
        var ratios = new List<(double Rate, double Tail)>();
        for (var round = 0; round < 3; round++)
        {
            var yardstick = await Load(bare.Urls.First() + "/");
            var ours = await Load($"{desk.Address}/api/devices/{Fleet.Id(0)}");
            ratios.Add((ours.PerSecond / yardstick.PerSecond, ours.P99 / yardstick.P99));
        }
        ratios.Sort();
        Line($"reads of a device ({device.Length} bytes of JSON), against bare Kestrel with as many", $"{ratios[1].Rate:0.00} × the rate, {ratios[1].Tail:0.0} × p99", "≥ 0.8 ×, ≤ 2 ×");
    }

    private static async Task<(double PerSecond, double P99)> Load(string address)
    {
        using var client = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 16 });
        var times = new List<double>[16];
        var clock = Stopwatch.GetTimestamp();
        await Task.WhenAll(Enumerable.Range(0, 16).Select(i => Task.Run(async () =>
        {
            times[i] = [];
            while (Stopwatch.GetElapsedTime(clock).TotalSeconds < 3)
            {
                var start = Stopwatch.GetTimestamp();
                _ = await client.GetByteArrayAsync(address);
                times[i].Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
        })));
        List<double> all = [.. times.SelectMany(t => t).Order()];
        return (all.Count / Stopwatch.GetElapsedTime(clock).TotalSeconds, all[(int)(all.Count * 0.99)]);
    }

    private static double Median(List<double> values) => values.Order().ElementAt(values.Count / 2);

    private static void Line(string what, FormattableString figure, string target) => Console.WriteLine($"| {what} | {FormattableString.Invariant(figure)} | {target} |");

    private static void Line(string what, string figure, string target) => Console.WriteLine($"| {what} | {figure} | {target} |");
}
