using System.Diagnostics;
using System.Net.Http.Headers;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Benchmarks;

/// <summary>What a sign-in costs: names that are known and unknown take the same time, and reads are hardly slower.</summary>
internal static class AccountBenchmark
{
    private const int Attempts = 200;
    private const int Reads = 3000;

    public static async Task Run(string work)
    {
        var folder = Path.Combine(work, "accounts");
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        using var book = AccountBook.Open(new DiskFiles(folder), TimeProvider.System);
        var account = ((Result<Account>.Accepted)book.Make("Anna", Duties.Look)).Value;
        book.SetPassword(account.Id, "seven quiet lapwings");
        // By turns, so that a busy moment of the machine meets both.
        var (a, b) = (new double[Attempts], new double[Attempts]);
        for (var i = 0; i < Attempts; i++)
        {
            a[i] = Timed(() => book.Verify("Anna", "a wrong password"));
            b[i] = Timed(() => book.Verify("Nobody", "a wrong password"));
        }
        var (known, unknown) = (Median(a), Median(b));
        Measure.Line("a wrong password for a known name, median of 200", FormattableString.Invariant($"{1000 * known:0.0} ms"), FormattableString.Invariant($"{100 * ((unknown / known) - 1):+0.0;-0.0} % for an unknown name"), "within 10 %");

        var token = ((Result<string>.Accepted)book.MakeToken(account.Id, "benchmark", Duties.Look, TimeSpan.FromDays(1))).Value;
        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(Path.Combine(work, "accounts-register")), TimeProvider.System));
        var id = DeviceIdentity.IdOf("microphone", "M", "A", "1");
        await live.Submit([FactText.WriteDerived(FactStamp.Imported(Occurred.Unknown, 0), new DeviceRegistered("microphone", "M", "A", "1", []), [Subject.Device(id)])], "benchmark");
        await using var open = RegisterServer.Build(live, TimeProvider.System, null, new ServerOptions { Port = 0 });
        await using var closed = RegisterServer.Build(live, TimeProvider.System, null, new ServerOptions { Port = 0, Access = new(book) });
        await open.StartAsync();
        await closed.StartAsync();
        using HttpClient free = new() { BaseAddress = new(open.Urls.First()) }, signed = new() { BaseAddress = new(closed.Urls.First()) };
        signed.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", token);
        var (without, with) = (new List<double>(), new List<double>());
        for (var i = 0; i < Reads; i++)
        {
            var first = await TimedAsync(() => free.GetByteArrayAsync("/api/devices/" + id));
            var second = await TimedAsync(() => signed.GetByteArrayAsync("/api/devices/" + id));
            if (i < Reads / 10) continue; // warming up
            without.Add(first);
            with.Add(second);
        }
        double bare = Median([.. without]), asked = Median([.. with]);
        Measure.Line("a read of a device without a sign-in, one after the other", FormattableString.Invariant($"{1e6 * bare:0} µs"), FormattableString.Invariant($"{1e6 * (asked - bare):+0;-0} µs ({100 * ((asked / bare) - 1):+0.0;-0.0} %) with a token asked for"), "≤ 25 µs or 10 %");
        await open.StopAsync();
        await closed.StopAsync();
    }

    private static double Timed(Action act)
    {
        var start = Stopwatch.GetTimestamp();
        act();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static async Task<double> TimedAsync(Func<Task> act)
    {
        var start = Stopwatch.GetTimestamp();
        await act();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static double Median(double[] values) => values.Order().ElementAt(values.Length / 2);
}
