using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Drift;
using MicRegister.Metrology.Intervals;

namespace MicRegister.Metrology.Tests.Intervals;

/// <summary>The search for an interval leaves out steps; the day that it finds is that of a search that leaves out none.</summary>
public sealed class IntervalSearchTests
{
    [Fact]
    public void The_day_is_that_of_a_search_that_looks_at_every_step()
    {
        var (now, later, cap, rises) = (0, 0, 0, 0);
        for (var seed = 7100; seed < 7150; seed++)
        {
            var random = new Random(seed);
            var fleet = FleetDrift.Estimate([.. Enumerable.Range(0, random.Next(1, 9)).Select(_ => Made(random))]);
            for (var i = 0; i < Math.Min(3, fleet.Count); i++)
            {
                var device = fleet.Forecast(i);
                foreach (var capDays in new[] { 730, 733, random.Next(1, 2000) })
                {
                    double[] limits = [0.1, 0.15, 0.2, 0.25, 0.3, 0.5];
                    double[] targets = [0.5, 0.8, 0.9, 0.95, 0.99];
                    var (limit, target) = (limits[random.Next(limits.Length)], targets[random.Next(targets.Length)]);
                    // Off the certificate, so that drift leads some levels through the limits and back.
                    var reference = device.ReferenceDb + (random.Next(2) * 0.6 * (random.NextDouble() - 0.5));
                    var expected = Plain(device, reference, limit, target, capDays);
                    var found = ForecastInterval.Of(device, reference, limit, target, capDays, floorDays: 0);

                    Assert.True(
                        (expected ?? capDays) == found.Days && expected is null == (found.Why == IntervalReason.Cap),
                        $"Seed {seed}, device {i}, ±{limit} dB, {target}: {expected} days, found {found}.");
                    if (expected is null) cap++;
                    else if (expected == 0) now++;
                    else later++;
                    if (P(device, 365, reference, limit) > P(device, 0, reference, limit)) rises++;
                }
            }
        }
        // Of each sort some, so that none is untried: 7100 to 7149 give them.
        Assert.True(now > 20 && later > 20 && cap > 20 && rises > 5, $"{now} now, {later} later, {cap} at the cap, {rises} rise.");
    }

    [Fact]
    public void The_figure_for_a_span_is_under_the_probability_of_each_of_its_days()
    {
        var (tight, far) = (0, 0);
        for (var seed = 7200; seed < 7240; seed++)
        {
            var random = new Random(seed);
            var device = FleetDrift.Estimate([.. Enumerable.Range(0, 4).Select(_ => Made(random))]).Forecast(0);
            for (var n = 0; n < 10; n++)
            {
                var (first, days) = (random.Next(800), random.Next(1, 800));
                var (reference, limit) = (device.ReferenceDb + (1.2 * (random.NextDouble() - 0.5)), 0.05 + (0.4 * random.NextDouble()));
                var (from, to) = (device.At(device.NewestDay + first), device.At(device.NewestDay + first + days));
                var least = LevelForecast.LeastWithin(from, to, reference, limit);
                for (var k = 0; k <= 10; k++)
                {
                    var p = P(device, first + (k * days / 10), reference, limit);
                    // Sums of a thousand parts, each to 1e-16.
                    Assert.True(
                        p >= least - 1e-12,
                        $"Seed {seed}: {p} after {first + (k * days / 10)} days, {least} for {first} to {first + days}.");
                }
                if (to.ProbabilityWithin(reference, limit) - least < 1e-3) tight++;
                if (Math.Abs(to.LevelDb - reference) > limit) far++;
                AssertClose.Absolute(to.ProbabilityWithin(reference, limit), LevelForecast.LeastWithin(to, to, reference, limit), 1e-12);
            }
        }
        Assert.True(tight > 20 && far > 20, $"{tight} are tight, {far} lie outside.");
    }

    private static double P(DeviceForecast device, int days, double reference, double limit) =>
        device.At(device.NewestDay + days).ProbabilityWithin(reference, limit);

    // Seven-day steps, then bisection to a whole day: as the interval is defined.
    private static int? Plain(DeviceForecast device, double reference, double limit, double target, int capDays)
    {
        bool Holds(int days) => DecisionLimit.AtLeast(P(device, days, reference, limit), target);
        if (!Holds(0)) return 0;
        for (var low = 0; low < capDays; low += 7)
        {
            var high = Math.Min(low + 7, capDays);
            if (Holds(high)) continue;
            while (high - low > 1)
            {
                var middle = (low + high) / 2;
                if (Holds(middle)) low = middle;
                else high = middle;
            }
            return high;
        }
        return null;
    }

    private static ResultHistory Made(Random random)
    {
        var n = random.Next(1, 10);
        var (days, levels, u) = (new double[n], new double[n], new double[n]);
        double day = 730_000 + random.Next(400), level = -30 + random.NextDouble();
        double slope = 0.08 * Normal(random), walk = 0.06 * random.NextDouble();
        for (var k = 0; k < n; k++)
        {
            (days[k], u[k]) = (day, 0.02 + (0.05 * random.NextDouble()));
            levels[k] = level + (u[k] * Normal(random));
            var gap = 100 + random.Next(400);
            day += gap;
            level += (slope * gap / 365.25) + (walk * Math.Sqrt(gap / 365.25) * Normal(random));
        }
        return new(days, levels, u);
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());
}
