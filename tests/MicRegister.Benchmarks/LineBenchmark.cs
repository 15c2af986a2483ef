using System.Globalization;
using System.Runtime.InteropServices;
using MicRegister.Metrology.Lines;

namespace MicRegister.Benchmarks;

/// <summary>Straight lines of 10,000 devices with 40 results each, beside C and vectorised R on the same numbers.</summary>
internal static class LineBenchmark
{
    private const int Devices = 10_000;
    private const int Results = 40;

    public static void Run(string work)
    {
        var random = new Random(61094);
        double[] t = new double[Devices * Results], y = new double[t.Length], u = new double[t.Length];
        double[] choices = [0.03, 0.05, 0.1];
        for (var d = 0; d < Devices; d++)
        {
            double time = 0, level = -26 + random.NextDouble(), slope = (random.NextDouble() - 0.5) * 0.08;
            for (var k = 0; k < Results; k++)
            {
                var i = (d * Results) + k;
                t[i] = time += 0.2 + (0.6 * random.NextDouble());
                u[i] = choices[random.Next(3)];
                y[i] = level + (slope * time) + (u[i] * (random.NextDouble() + random.NextDouble() + random.NextDouble() - 1.5) * 2);
            }
        }
        var file = Path.Combine(work, "lines.bin");
        using (var stream = File.Create(file))
        {
            foreach (var column in new[] { t, y, u }) stream.Write(MemoryMarshal.AsBytes(column.AsSpan()));
        }

        double check = 0, sink = 0;
        var factor = Quantile.Normal(0.95);
        var ours = Measure.Median(21, () =>
        {
            check = 0;
            for (var d = 0; d < Devices; d++)
            {
                var line = StraightLine.FitKnown(t.AsSpan(d * Results, Results), y.AsSpan(d * Results, Results), u.AsSpan(d * Results, Results));
                var (lower, upper) = line.IntervalWithFactor(t[(d * Results) + Results - 1] + 2, 0.05, factor);
                check += line.Slope;
                sink += upper - lower;
            }
        });
        string[] args = [file, Devices.ToString(CultureInfo.InvariantCulture), Results.ToString(CultureInfo.InvariantCulture)];
        var c = Yardstick.Compile("line", work) is { } program ? Yardstick.Run(program, args) : null;
        var r = Yardstick.Run("Rscript", [Yardstick.Script("line.R"), .. args]);
        foreach (var other in new[] { c, r }.OfType<double[]>())
        {
            if (Math.Abs(other[1] - check) > 1e-6 * Math.Abs(check)) throw new InvalidOperationException($"The slopes differ: {check} here, {other[1]} there.");
        }
        var figure = FormattableString.Invariant($"{1e9 * ours / Devices:0} ns a device");
        if (c is not null) Measure.Line("straight line with prediction interval", figure, FormattableString.Invariant($"{ours / c[0]:0.00} × the C limit ({1e9 * c[0] / Devices:0} ns)"), "≤ 4 ×");
        if (r is not null) Measure.Line("", figure, FormattableString.Invariant($"{r[0] / ours:0.0} × faster than vectorised R ({1e9 * r[0] / Devices:0} ns)"), "≥ 10 ×");
        if (sink < 0) throw new InvalidOperationException("An interval is the wrong way round.");
    }
}
