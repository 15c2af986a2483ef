using System.Diagnostics;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settling;

namespace MicRegister.Benchmarks;

/// <summary>Ten thousand corrections in shapes that are slow where each is worked out by itself: at once, and one by one.</summary>
internal static class CorrectionBenchmark
{
    private const int N = 10_000;

    private static readonly FactStamp Stamp = new(Occurred.On(new(2024, 1, 1)), "P1", "desk", 0);

    private static readonly (string Name, Func<int, Fact> Fact)[] Shapes =
    [
        ("all replace one", i => i == 0 ? Moved(0) : Replacing(i, 0)),
        ("all annul one", i => i == 0 ? Moved(0) : Annulling(i, 0)),
        ("one replaced, each replacement annulled", i => i == 0 ? Moved(0) : i <= N / 2 ? Replacing(i, 0) : Annulling(i, i - (N / 2))),
        ("one that is not here replaced for each device, each annulled from the highest down",
            i => i < N / 2 ? Replacing(i, 90_000, i) : Annulling(i, N - 1 - i)),
        ("a chain of annulments", i => i == 0 ? Moved(0) : Annulling(i, i - 1)),
        ("a chain of annulments, backwards", i => i == N - 1 ? Moved(i) : Annulling(i, i + 1)),
        ("a chain of replacements", i => i == 0 ? Moved(0) : Replacing(i, i - 1)),
        ("a circle of annulments", i => Annulling(i, (i + 1) % N)),
        ("each of 2,500 devices: moved, replaced twice, one annulled", i => (i % 4) switch
        {
            0 => Moved(i, i),
            1 => Replacing(i, i - 1, i - 1),
            2 => Replacing(i, i - 2, i - 2),
            _ => Annulling(i, i - 1),
        }),
    ];

    public static void Run()
    {
        foreach (var (name, make) in Shapes)
        {
            var source = new FactList();
            List<Fact> facts = [.. Enumerable.Range(0, N).Select(make)];
            foreach (var fact in facts) source.Add(fact);

            double taken = double.MaxValue, asked = double.MaxValue;
            for (var round = 0; round < 7; round++) // the best of some, when the compiler has optimised what runs
            {
                var start = Stopwatch.GetTimestamp();
                var register = Register.Register.Empty(source).With(facts);
                taken = Math.Min(taken, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
                start = Stopwatch.GetTimestamp();
                var counting = Enumerable.Range(1, N).Count(register.Counts);
                var folded = register.DeviceIds.Count(d => register.Device(d) is not null);
                var findings = register.Findings(new(2026, 1, 1)).Count;
                asked = Math.Min(asked, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
                if (counting + findings == 0 || folded == 0) throw new InvalidOperationException("Nothing was worked out.");
            }

            var (begun, slowest, each) = (Stopwatch.GetTimestamp(), 0.0, Register.Register.Empty(source));
            foreach (var fact in facts)
            {
                var start = Stopwatch.GetTimestamp();
                each = each.With([fact]);
                slowest = Math.Max(slowest, Stopwatch.GetElapsedTime(start).TotalMilliseconds);
            }
            var total = Stopwatch.GetElapsedTime(begun).TotalSeconds;
            Measure.Line(
                $"10,000 corrections: {name}",
                FormattableString.Invariant($"{asked:0} ms which count, all devices and findings; {taken:0} ms to take them"),
                FormattableString.Invariant($"one by one {total:0.0} s, the slowest {slowest:0.0} ms"), "≤ 100 ms");
        }
    }

    // Ids go up with their numbers.
    private static FactId Id(int i) => FactId.Create(1_700_000_000_000 + i, new byte[10]);

    private static Fact Moved(int i, int device = 0) =>
        FactText.Write(Id(i), Stamp, new DeviceMoved("store"), [Subject.Device(Fleet.Id(device))]);

    private static Fact Replacing(int i, int target, int device = 0) =>
        FactText.Write(Id(i), Stamp, new DeviceMoved("van"), [Subject.Device(Fleet.Id(device))], Id(target));

    private static Fact Annulling(int i, int target) =>
        FactText.Write(Id(i), Stamp, new FactAnnulled(Id(target).ToString(), "wrong"), [Subject.Device(Fleet.Id(0))]);
}
