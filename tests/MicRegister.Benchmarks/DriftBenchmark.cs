using System.Diagnostics;
using System.Globalization;
using System.Runtime.InteropServices;
using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Intervals;
using MicRegister.Register;
using MicRegister.Register.Drift;
using MicRegister.Register.Facts;

namespace MicRegister.Benchmarks;

/// <summary>Pooling and forecasting 10,000 devices with 40 results each, a new result among them, and a local level beside R.</summary>
internal static class DriftBenchmark
{
    private const int Devices = 10_000;
    private const int Results = 40;

    public static void Run(string work)
    {
        Pool();
        Intervals();
        NewResult();
        LocalLevels(work);
    }

    private static void Pool()
    {
        var random = new Random(20261125);
        ResultHistory[] histories = [.. Enumerable.Range(0, Devices).Select(_ => Made(random, Results))];
        double sink = 0;
        double estimate = 0, forecast = 0;
        FleetDrift? fleet = null;
        for (var round = 0; round < 3; round++) // the last of three, when the compiler has optimised what runs
        {
            var start = Stopwatch.GetTimestamp();
            fleet = FleetDrift.Estimate(histories);
            estimate = Stopwatch.GetElapsedTime(start).TotalSeconds;
            start = Stopwatch.GetTimestamp();
            for (var i = 0; i < Devices; i++)
            {
                var device = fleet.Forecast(i);
                var level = device.At(device.NewestDay + 365);
                sink += level.StandardDeviationDb + level.ProbabilityWithin(device.ReferenceDb, 0.2);
            }
            forecast = Stopwatch.GetElapsedTime(start).TotalSeconds;
        }
        if (!(sink > 0)) throw new InvalidOperationException("Nothing was forecast.");
        Measure.Line("pooling, step scan and forecast of 10,000 devices × 40 results, one core", FormattableString.Invariant($"{estimate + forecast:0.00} s"), FormattableString.Invariant($"{fleet!.Rounds} rounds {estimate:0.00} s, level, deviation and probability of all {forecast:0.00} s; walk {fleet.Pool.Walk:0.000} where 0.020 is true"), "≤ 2 s");
    }

    private static void Intervals()
    {
        const int Few = 2_000;
        var random = new Random(20261130);
        var fleet = FleetDrift.Estimate([.. Enumerable.Range(0, Few).Select(_ => Made(random, 8))]);
        var start = Stopwatch.GetTimestamp();
        long days = 0;
        for (var i = 0; i < Few; i++)
        {
            var device = fleet.Forecast(i);
            days += ForecastInterval.Of(device, device.ReferenceDb, 0.2, 0.95).Days;
        }
        var took = Stopwatch.GetElapsedTime(start).TotalSeconds;
        Measure.Line(
            "recommended intervals of 2,000 devices × 8 results, one core", FormattableString.Invariant($"{took:0.00} s"),
            FormattableString.Invariant($"{1e6 * took / Few:0} µs a device; {days / (double)Few:0.0} days in the mean"), "");
    }

    private static ResultHistory Made(Random random, int results)
    {
        var (days, levels, u) = (new double[results], new double[results], new double[results]);
        double day = 730_000 + random.Next(400), level = -30 + random.NextDouble(), slope = 0.01 * Normal(random);
        for (var k = 0; k < results; k++)
        {
            (days[k], u[k]) = (day, 0.025 + (0.075 * random.NextDouble()));
            levels[k] = level + (u[k] * Normal(random));
            var gap = 100 + random.Next(300);
            day += gap;
            level += (slope * gap / 365.25) + (0.02 * Math.Sqrt(gap / 365.25) * Normal(random));
        }
        return new(days, levels, u);
    }

    private static void NewResult()
    {
        const int Per = 15;
        var source = new FactList();
        List<Fact> facts = [.. Enumerable.Range(0, Devices).Select(i => Fleet.Device(i, "microphone")), .. Enumerable.Range(0, Devices).SelectMany(i => Enumerable.Range(0, Per).Select(n => Fleet.Result(i, n, "sensitivity")))];
        foreach (var fact in facts) source.Add(fact);
        var register = Register.Register.Empty(source).With(facts);
        register.DriftMemory.IsHasty = true;
        var day = new DateOnly(2035, 1, 1);
        _ = register.Drift(day).Of(Fleet.Id(0))!.Fleet;
        var took = new List<double>();
        for (var n = 0; n < 30; n++)
        {
            var id = Fleet.Id(n * 17);
            var fact = Fleet.Result(n * 17, Per + 1, "sensitivity");
            source.Add(fact);
            var start = Stopwatch.GetTimestamp();
            register = register.With([fact]);
            var drift = register.Drift(day).Of(id)!;
            var p = drift.At(day).ProbabilityWithin(drift.Series.InUseDb, 0.3);
            took.Add(Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            if (!drift.Fleet.IsProvisional || !(p >= 0)) throw new InvalidOperationException("The answer was not the quick one.");
        }
        took.Sort();
        var settle = Stopwatch.GetTimestamp();
        register.DriftMemory.Settle();
        Measure.Line("a new result among 10,000 devices of one model, 150,000 results: verdict of its device", FormattableString.Invariant($"{took[15]:0.0} ms ({took[0]:0.0} to {took[^1]:0.0})"), FormattableString.Invariant($"the full rounds behind it {Stopwatch.GetElapsedTime(settle).TotalSeconds:0.00} s"), "≤ 10 ms");
    }

    private static void LocalLevels(string work)
    {
        const int Series = 300;
        var random = new Random(61094);
        var values = new double[Series * Results];
        for (var s = 0; s < Series; s++)
        {
            double level = 0;
            for (var k = 0; k < Results; k++)
            {
                level += 0.03 * Normal(random);
                values[(s * Results) + k] = level + (0.05 * Normal(random));
            }
        }
        var file = Path.Combine(work, "levels.bin");
        using (var stream = File.Create(file)) stream.Write(MemoryMarshal.AsBytes(values.AsSpan()));
        double sum = 0;
        var ours = Measure.Median(9, () =>
        {
            sum = 0;
            for (var s = 0; s < Series; s++) sum += LocalLevel.Fit(values.AsSpan(s * Results, Results)).Noise;
        });
        var figure = FormattableString.Invariant($"{1e6 * ours / Series:0} µs a series");
        if (Yardstick.Run("Rscript", Yardstick.Script("level.R"), file, Series.ToString(CultureInfo.InvariantCulture), Results.ToString(CultureInfo.InvariantCulture)) is not { } r) return;
        // R stops its search early and starts with a large finite variance: the sums agree to a few per cent only.
        if (Math.Abs(r[1] - sum) > 0.1 * sum) throw new InvalidOperationException($"The noise variances differ: {sum} here, {r[1]} there.");
        Measure.Line("local level by maximum likelihood, 40 values", figure, FormattableString.Invariant($"{r[0] / ours:0} × faster than R ({1e6 * r[0] / Series:0} µs)"), "≥ 20 ×");
    }

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
