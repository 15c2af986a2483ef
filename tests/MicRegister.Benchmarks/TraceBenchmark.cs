using System.Diagnostics;
using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Benchmarks;

/// <summary>Tracing in a register of a million facts: ten campaigns of 200 stations with 5,000 events each, all checked with one calibrator.</summary>
internal static class TraceBenchmark
{
    private const int Campaigns = 10;
    private const int Stations = 200;
    private const int Days = 5;
    private const int EventsOfCampaign = 5000;
    private const string Calibrator = "CALIBRATOR";

    public static void Run(string work)
    {
        var folder = Path.Combine(work, "traced");
        if (!File.Exists(Path.Combine(folder, "made")))
        {
            using var made = JournalStore.Open(new DiskFiles(folder), TimeProvider.System);
            List<Fact> own = [.. Own()];
            if (made.Load().Count == 0)
            {
                foreach (var chunk in Fleet.Million().Take(1_000_000 - own.Count).Concat(own).Chunk(5000)) made.Append([.. chunk.Select(f => new IncomingFact(f, "benchmark"))]);
            }
            File.WriteAllText(Path.Combine(folder, "made"), "");
        }
        using var store = JournalStore.Open(new DiskFiles(folder), TimeProvider.System);
        var register = store.Load();
        if (register.Count != 1_000_000) throw new InvalidOperationException($"{register.Count} facts.");

        var cold = Timed(() => Trace(register, 0, 17));
        var second = Timed(() => Trace(register, 1, 17));
        var n = 0;
        var warm = Measure.Median(25, () => Trace(register, 0, (n += 101) % EventsOfCampaign));
        Measure.Line("trace of one event over 200 stations, 1,000,000 facts, 50,000 events", FormattableString.Invariant($"{1000 * warm:0} ms"), FormattableString.Invariant($"{1000 * cold:0} ms the first time in a register, {1000 * second:0} ms the first time in a campaign"), "≤ 50 ms");
        // As if it were found wrong after all ten.
        var doubt = new Doubt("", DoubtKind.OutOfTolerance, Calibrator, default, 0, new DateTimeOffset(2026, 1, 1, 0, 0, 0, TimeSpan.Zero).ToUnixTimeMilliseconds(), 0.3, "", true, []);
        DoubtReport report = null!;
        var first = Timed(() => report = DoubtReport.Of(register, doubt));
        var again = Measure.Median(5, () => report = DoubtReport.Of(register, doubt));
        if (report.Touched.Count != Campaigns * EventsOfCampaign) throw new InvalidOperationException($"{report.Touched.Count} events are touched.");
        Measure.Line("doubt report of a calibrator used in ten campaigns: 20,000 checks, 50,000 events touched", FormattableString.Invariant($"{again:0.00} s"), FormattableString.Invariant($"{first:0.00} s the first time"), "≤ 1 s");
    }

    private static double Timed(Action work)
    {
        var start = Stopwatch.GetTimestamp();
        work();
        return Stopwatch.GetElapsedTime(start).TotalSeconds;
    }

    private static void Trace(Register.Register register, int campaign, int number)
    {
        var trace = Tracer.Of(register, $"T{campaign}.E{number}")!;
        if (trace.Stations.Count != Stations || trace.Stations.Any(s => s.Before is null || s.After is null || s.Applied is null)) throw new InvalidOperationException("A station has no checks.");
    }

    private static IEnumerable<Fact> Own()
    {
        var counter = 0;
        Fact Said(FactBody body, Occurred at, params IReadOnlyList<string> subjects) => FactText.WriteDerived(new(at, "P1", "desk", counter++), body, subjects);
        Occurred On(DateOnly day) => Occurred.On(day);
        yield return Said(new DeviceRegistered("sound-calibrator", "House", "Tone", "K1", []), On(new(2020, 1, 1)), "device:" + Calibrator);
        foreach (var (year, level) in new[] { (2023, 124.0), (2026, 124.3) })
            yield return Said(new CertificateIssued("level", null, "House", null, null, null, null, 250, [new(AdjustmentState.AsFoundAndLeft, level, "dB", 0.1, "dB", 2)], null, null, null, null, null, null, null), On(new(year, 1, 1)), "device:" + Calibrator);
        for (var c = 0; c < Campaigns; c++)
        {
            var (campaign, begin) = ($"T{c}", new DateTimeOffset(2024, 1 + c, 1, 0, 0, 0, TimeSpan.Zero));
            yield return Said(new CampaignPlanned(campaign, DateOnly.FromDateTime(begin.DateTime), DateOnly.FromDateTime(begin.DateTime).AddDays(Days), "UTC", [new("2020-01-01T00:00:00.000Z", 0)], "Site", 100, SourceClass.Propeller, 20, 10_000, null, null, "engineering-practice", 0, 0), On(new(2023, 6, 1)), "campaign:" + campaign);
            for (var s = 0; s < Stations; s++)
            {
                // Four devices of the fleet in a row: microphone, preamplifier, plate, channel.
                string[] chain = [.. Enumerable.Range((c * Stations * 4 % 9000) + (s * 4), 4).Select(i => Fleet.Id(i))];
                string[] subjects = ["campaign:" + campaign, .. chain.Select(Subject.Device)];
                yield return Said(new StationPlanned($"S{s:000}", 53 + (0.001 * s), 1, Mount.FlushPlate, null), On(new(2023, 6, 1)), "campaign:" + campaign);
                yield return Said(new ChainPlaced($"S{s:000}", chain, [], null, true, null, 10, null, [], null), Occurred.At(begin.AddHours(5)), subjects);
                for (var day = 0; day < Days; day++)
                {
                    foreach (var (moment, hour) in new[] { (CheckMoment.Before, 6), (CheckMoment.After, 20) })
                        yield return Said(Check($"S{s:000}", moment, [chain[0], chain[1], chain[3]]), Occurred.At(begin.AddDays(day).AddHours(hour).AddSeconds(s * 10)), ["campaign:" + campaign, "device:" + chain[0], "device:" + chain[1], "device:" + chain[3], "device:" + Calibrator]);
                }
            }
            for (var e = 0; e < EventsOfCampaign; e++)
            {
                var start = begin.AddDays(e % Days).AddHours(8).AddSeconds(e / Days * 36);
                yield return Said(new EventHappened($"E{e}", Occurred.At(start).ToString(), Occurred.At(start.AddSeconds(20)).ToString(), EventKind.FlyOver, null, [], null), Occurred.At(start), $"event:{campaign}.E{e}", "campaign:" + campaign);
            }
        }
    }

    private static ChainChecked Check(string station, CheckMoment moment, string[] devices) => new(
        station, moment, devices, Calibrator, "01JD8XK3ZZ0000000000000000", null, new(99.5, 20, 60), false, CheckMethod.Voltage, [0.39], 0.001, 10, 123.842, [new("certificate", 123.842, 0.05, "certificate 1", null), new("static pressure", -0.158, 0.004, "barometer", null)],
        -38.16, "V/Pa", null, [new("microphone's certificate", -38.16, 0.03, "certificate 2", null), new("preamplifier's gain", -0.1, 0.02, "certificate 3", null)], 0.01,
        [new("certificate", "certificate 1", 0.05, "dB", -1, null, UncertaintyDistribution.Normal), new("static pressure", "barometer", 0.05, "kPa", -0.087, null, UncertaintyDistribution.Normal), new("one insertion, assumed", BudgetLine.Own + "insertions", 0.03, "dB", 1, null, UncertaintyDistribution.Normal), new("resolution of the reading", BudgetLine.Own + "resolution", 0.0003, "V", 22, null, UncertaintyDistribution.Rectangular)], 0.0583, 2, 0.1166, null, null);
}
