using System.Diagnostics;
using System.Globalization;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Server.Pages.Bench;
using MicRegister.Server.Work;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Benchmarks;

/// <summary>What a key at the bench costs in a large fleet, and what holding a fact against its bounds does.</summary>
internal static class BenchBenchmark
{
    private const int Devices = 6000;
    private const int Lines = 200;

    public static async Task Key(string work)
    {
        var folder = Path.Combine(work, "bench");
        if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true);
        await using var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder), TimeProvider.System));
        var facts = Enumerable.Range(0, Devices).SelectMany(i => Enumerable.Range(0, 3).Select(n => Fleet.Result(i, n))
            .Prepend(Fleet.Device(i, "microphone")));
        foreach (var chunk in facts.Chunk(2000)) await live.Submit(chunk, "benchmark");
        var desk = new Desk(live, TimeProvider.System, new DateOnly(2020, 1, 1));
        var sheet = new BenchSheet { Day = desk.Today };
        for (var i = 0; i < Lines; i++) sheet.Lines.Insert(i, new()
        {
            Serial = (i * 7).ToString(CultureInfo.InvariantCulture),
            Value = "-38.06",
            Expanded = "0.06"
        });
        sheet.Work(desk, desk.Now);
        if (sheet.Lines.Count(l => l.Expectation is { StandardDeviationDb: not null }) != Lines)
            throw new InvalidOperationException("A line has no forecast to be held against.");

        var (key, keyBytes) = Cost(50, () => sheet.Work(desk, desk.Now, sheet.Lines[100]));
        var (all, allBytes) = Cost(5, () => sheet.Work(desk, desk.Now));
        var (scan, scanBytes) = Cost(3, () =>
        {
            foreach (var line in sheet.Lines) _ = Scan(desk.Now, line.Serial ?? "").Count;
        });
        Measure.Line(
            "a key at the bench, 200 lines, 6,000 devices",
            FormattableString.Invariant($"{1000 * key:0.00} ms, {keyBytes / 1e6:0.00} MB"),
            FormattableString.Invariant($"all lines {1000 * all:0} ms, {allBytes / 1e6:0.0} MB; ")
                + FormattableString.Invariant($"a look at the fleet a line, as it was, {1000 * scan:0} ms, {scanBytes / 1e6:0} MB more"),
            "≤ 5 ms");
    }

    public static void Bounds()
    {
        var facts = Fleet.Million().Where((_, i) => i % 20 == 0).Concat(Fleet.Campaign("C", 200, 0)).ToList();
        var read = Measure.Median(5, () => facts.ForEach(f => FactText.Read(f.Bytes)));
        var held = Measure.Median(5, () =>
        {
            foreach (var fact in facts)
            {
                if (BodyBounds.Find(fact.Body) is { } breach) throw new InvalidOperationException(breach.Text);
            }
        });
        Measure.Line("holding a fact against its bounds", FormattableString.Invariant($"{1e9 * held / facts.Count:0} ns"),
            FormattableString.Invariant($"{100 * held / read:0.0} % of reading it ({1e9 * read / facts.Count:0} ns)"), "≤ 5 %");
    }

    private static List<DeviceState> Scan(Register.Register register, string text)
    {
        var serial = DeviceIdentity.Normal(text);
        return [.. register.DeviceIds.Select(id => register.Device(id)!)
            .Where(d => d.Id == text || DeviceIdentity.Normal(d.Serial) == serial
                || DeviceIdentity.Normal(d.Text(DeviceField.InventoryCode)) == serial)];
    }

    private static (double Seconds, double Bytes) Cost(int times, Action act)
    {
        act();
        var (allocated, start) = (GC.GetAllocatedBytesForCurrentThread(), Stopwatch.GetTimestamp());
        for (var i = 0; i < times; i++) act();
        return (Stopwatch.GetElapsedTime(start).TotalSeconds / times, (GC.GetAllocatedBytesForCurrentThread() - allocated) / (double)times);
    }
}
