using System.Diagnostics;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Benchmarks;

/// <summary>Ten phones whose clocks are found wrong again and again, and how long somebody else waits for their own word meanwhile.</summary>
internal static class ClockBenchmark
{
    private const int Facts = 126_000;
    private const int Phones = 10;
    private const int Batches = 60;
    private const int BatchSize = 20;

    public static async Task Run(string work)
    {
        var folder = Path.Combine(work, "clocks");
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true); // of an earlier run
        using (var store = JournalStore.Open(new DiskFiles(folder), TimeProvider.System))
        {
            store.Load();
            // Half by an import, half by the phones themselves, about 2,000 devices.
            foreach (var chunk in Enumerable.Range(0, Facts).Select(i => Noted(i % 2 == 0 ? "import" : "phone-" + (i / 2 % Phones), i)).Chunk(5000))
                store.Append([.. chunk.Select(f => new IncomingFact(f, "benchmark"))]);
            await store.IndexCaughtUp();
        }

        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder), TimeProvider.System));
        _ = live.Now.Device("D1");
        var alone = await Waits(live, () => false, 50);
        var phones = Enumerable.Range(0, Phones).Select(p => Task.Run(() => Speak(live, p))).ToArray();
        var beside = await Waits(live, () => Task.WhenAll(phones).IsCompleted, int.MaxValue);
        await Task.WhenAll(phones);

        Measure.Line(
            "another's word while ten phones 7 s off send 600 batches of 20 with a notice each, 126,000 facts",
            FormattableString.Invariant($"{beside[^1]:0.0} ms at most, median {beside[beside.Count / 2]:0.0} of {beside.Count}"),
            FormattableString.Invariant($"{alone[^1]:0.0} ms at most without them"), "≤ 100 ms");
    }

    private static async Task Speak(LiveRegister live, int phone)
    {
        var client = "phone-" + phone;
        for (var batch = 0; batch < Batches; batch++)
        {
            var counter = Facts + (batch * BatchSize);
            var offset = batch % 2 == 0 ? -7_000 : -4_500; // each notice says another thing than the one before it
            List<Fact> facts = [.. Enumerable.Range(counter, BatchSize).Select(i => Noted(client, i)), Notice(client, counter, offset)];
            await live.Submit(facts, "benchmark");
        }
    }

    private static async Task<List<double>> Waits(LiveRegister live, Func<bool> isOver, int most)
    {
        var waits = new List<double>();
        for (var i = 0; i < most && !isOver(); i++)
        {
            var start = Stopwatch.GetTimestamp();
            await live.Submit([Noted("desk-" + most, i)], "benchmark");
            waits.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
        }
        waits.Sort();
        return waits;
    }

    private static Fact Noted(string client, int i) => FactText.WriteDerived(
        new(Occurred.At(new DateTimeOffset(2026, 8, 3, 8, 0, 0, TimeSpan.Zero).AddSeconds(i / 10)), "P1", client, i), new DeviceNoted("n" + i),
        [Subject.Device("D" + (i % 2000))]);

    private static Fact Notice(string client, int fromCounter, long offsetMs) => FactText.WriteDerived(
        new(Occurred.At(new(2026, 8, 4, 8, 0, 0, TimeSpan.Zero)), "P1", "server", fromCounter), new ClientClockNoticed(client, fromCounter, offsetMs),
        [Subject.TheRegister]);
}
