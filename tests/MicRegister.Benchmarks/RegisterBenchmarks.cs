using System.Diagnostics;
using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Register;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Benchmarks;

/// <summary>Readiness, durable appends, start with a million facts, import.</summary>
internal static class RegisterBenchmarks
{
    public static void Readiness()
    {
        List<Fact> facts =
        [
            .. Enumerable.Range(0, 800).Select(i => Fleet.Device(i, Fleet.Kind(i))),
            .. Enumerable.Range(0, 800).SelectMany(i => Enumerable.Range(0, 15).Select(n => Fleet.Result(i, n, i % 4 == 0 ? "sensitivity" : "gain"))),
            .. Fleet.Campaign("C1", 200, 0),
        ];
        var register = FactList.RegisterOf(facts);
        var start = Stopwatch.GetTimestamp();
        var report = CampaignReadiness.Judge(register, "C1", new(2026, 8, 3))!;
        var cold = Stopwatch.GetElapsedTime(start).TotalMilliseconds;
        if (report.Stations.Count != 200) throw new InvalidOperationException("The campaign has lost stations.");
        var warm = 1000 * Measure.Median(15, () => CampaignReadiness.Judge(register, "C1", new(2026, 8, 3)));
        Measure.Line("readiness of 200 stations, 800 devices, 12,000 results", FormattableString.Invariant($"{warm:0.0} ms warm"), FormattableString.Invariant($"{cold:0} ms the first time, facts read and folded"), "≤ 100 ms warm");
    }

    public static void Append(string work)
    {
        const int Count = 400;
        var facts = Enumerable.Range(0, Count).Select(i => FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", i), new DeviceNoted(new string('x', 60)), ["device:D1"])).ToList();
        var program = Yardstick.Compile("append", work);
        var ratios = new List<double>();
        double oursMs = 0;
        for (var round = 0; round < 5; round++)
        {
            var folder = Path.Combine(work, "append-" + round);
            if (Directory.Exists(folder)) Directory.Delete(folder, recursive: true); // of an earlier run
            using var store = JournalStore.Open(new DiskFiles(folder), TimeProvider.System);
            store.Load();
            var size = (int)(new FileInfo(Path.Combine(folder, JournalStore.JournalName)).Length + 290);
            var took = new double[Count];
            for (var i = 0; i < Count; i++)
            {
                var start = Stopwatch.GetTimestamp();
                store.Append([new(facts[i], "desk")]);
                took[i] = Stopwatch.GetElapsedTime(start).TotalSeconds;
            }
            Array.Sort(took);
            oursMs = took[Count / 2] * 1000;
            if (program is not null && Yardstick.Run(program, Path.Combine(work, "append.log"), size.ToString(CultureInfo.InvariantCulture), Count.ToString(CultureInfo.InvariantCulture)) is { } limit)
                ratios.Add(took[Count / 2] / limit[0]);
        }
        ratios.Sort();
        Measure.Line("durable append of one fact", FormattableString.Invariant($"{oursMs:0.000} ms"), ratios.Count > 0 ? FormattableString.Invariant($"{ratios[ratios.Count / 2]:0.00} × append and fdatasync ({ratios[0]:0.00} to {ratios[^1]:0.00} in 5 rounds)") : "no compiler", "≤ 1.5 ×");
    }

    public static async Task Start(string work)
    {
        var folder = Path.Combine(work, "million");
        if (!File.Exists(Path.Combine(folder, "made")))
        {
            using var store = JournalStore.Open(new DiskFiles(folder), TimeProvider.System);
            if (store.Load().Count == 0)
            {
                foreach (var chunk in Fleet.Million().Chunk(5000)) store.Append([.. chunk.Select(f => new IncomingFact(f, "benchmark"))]);
            }
            var clock = Stopwatch.GetTimestamp();
            await store.IndexCaughtUp();
            Console.Error.WriteLine($"index caught up after {Stopwatch.GetElapsedTime(clock).TotalSeconds:0} s more");
            File.WriteAllText(Path.Combine(folder, "made"), "");
        }
        File.Delete(Path.Combine(folder, "checkpoint"));
        var whole = Child(folder, "keep");
        var quick = new List<double[]>();
        for (var i = 0; i < 3; i++) quick.Add(Child(folder, "leave"));
        quick.Sort((a, b) => a[0].CompareTo(b[0]));
        Measure.Line("start with 1,000,000 facts and a checkpoint", FormattableString.Invariant($"{quick[1][0]:0.00} s"), FormattableString.Invariant($"{whole[0] / quick[1][0]:0.0} × faster than without ({whole[0]:0.0} s)"), "≤ 3 s");
        Measure.Line("working memory after it, with all device states folded", FormattableString.Invariant($"{quick[1][1]:0} MiB at most"), FormattableString.Invariant($"{whole[1]:0} MiB without a checkpoint"), "≤ 1024 MiB");
        Measure.Line("folding the states of 10,000 devices", FormattableString.Invariant($"{quick[1][2]:0.00} s"), "once, then remembered", "");
        Measure.Line("checking the journal behind the start", FormattableString.Invariant($"{quick[1][3]:0.0} s"), "in the background", "");
    }

    /// <summary>One start in a process of its own; prints seconds to the register, MiB at most, seconds to fold, seconds to check.</summary>
    public static void StartChild(string folder, bool keep)
    {
        var clock = Stopwatch.GetTimestamp();
        using var store = JournalStore.Open(new DiskFiles(folder), TimeProvider.System);
        var register = store.Load();
        var started = Stopwatch.GetElapsedTime(clock).TotalSeconds;
        clock = Stopwatch.GetTimestamp();
        var results = register.DeviceIds.Sum(id => register.Device(id)!.Certificates.Length);
        var folded = Stopwatch.GetElapsedTime(clock).TotalSeconds;
        if (register.Count != 1_000_000 || results != 150_000) throw new InvalidOperationException($"{register.Count} facts and {results} results.");
        var peak = Measure.PeakMiB();
        clock = Stopwatch.GetTimestamp();
        if (!keep && store.VerifyBeginning() is { } fault) throw new InvalidOperationException(fault);
        var verified = Stopwatch.GetElapsedTime(clock).TotalSeconds;
        if (keep) store.Settle(register, always: true);
        Console.WriteLine(FormattableString.Invariant($"{started} {peak} {folded} {verified}"));
    }

    public static void Import()
    {
        using var file = new MemoryStream();
        using (var writer = new StreamWriter(file, leaveOpen: true))
        {
            writer.Write("Kind,Model,Serial,Date,Sensitivity [mV/Pa],U [dB]\n");
            for (var i = 0; i < 200_000; i++) writer.Write(string.Create(CultureInfo.InvariantCulture, $"mic,A,{10_000 + (i / 20)},{2005 + (i % 20)}-03-04,{12.5 + (0.001 * (i % 7)):0.000},0.06\n"));
        }
        var clock = Stopwatch.GetTimestamp();
        var session = new ImportSession(Register.Register.Empty(new FactList()), new(2026, 1, 1));
        var report = session.Take(file, "big.csv", ImportMapping.None);
        var took = Stopwatch.GetElapsedTime(clock).TotalSeconds;
        if (report.Rows != 200_000) throw new InvalidOperationException($"{report.Rows} rows.");
        Measure.Line("working out an import of 200,000 rows", FormattableString.Invariant($"{took:0.0} s"), FormattableString.Invariant($"{1e6 * took / 200_000:0} µs a row; {Measure.PeakMiB()} MiB at most"), "");
    }

    private static double[] Child(string folder, string what) =>
        Yardstick.Run(Environment.ProcessPath!, "start-child", folder, what) ?? throw new InvalidOperationException("The start failed.");
}
