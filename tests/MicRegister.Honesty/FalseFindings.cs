using MicRegister.Metrology.Drift;

namespace MicRegister.Honesty;

/// <summary>How often something is found in a healthy device.</summary>
internal static class FalseFindings
{
    private const int Devices = 1_800;
    private const int Seed = 930_000;

    public static void Run(Judge judge)
    {
        Console.WriteLine();
        Console.WriteLine("False findings in clean devices in per cent, first round, walk 0 to .08 and scatter 0.5 to 1.5 u; and by four rounds (walk .02). Before: 0.0-0.9, 0.0-1.5, 0.0-1.2; 0.2, 0.2, 1.0.");
        Console.WriteLine("| devices | lowest to highest, first round | all rounds |");
        Console.WriteLine("|---|---|---|");
        foreach (var (size, highestBefore, roundsBefore) in new[] { (3, 0.9, 0.2), (10, 1.5, 0.2), (100, 1.2, 1.0) })
        {
            var shares = new List<Share>();
            foreach (var walk in new[] { 0, .005, .02, .04, .08 })
            {
                foreach (var scatter in new[] { Scatter.AsStated, Scatter.Half, Scatter.OneAndAHalf }) shares.Add(Measure(size, walk, scatter, onlyFirst: true));
            }
            var rounds = Measure(size, .02, Scatter.AsStated, onlyFirst: false);
            var highest = shares.MaxBy(s => s.Percent)!;
            judge.Compare($"false findings, {size} devices, highest", highest.Percent, Math.Max(0.2, highest.StandardError), highestBefore, 0.25);
            judge.Compare($"false findings, {size} devices, all rounds", rounds.Percent, Math.Max(0.2, rounds.StandardError), roundsBefore, 0.25);
            Console.WriteLine(FormattableString.Invariant($"| {size} | {shares.Min(s => s.Percent):0.0}-{highest.Percent:0.0} | {rounds.Percent:0.0} |"));
        }
    }

    private static Share Measure(int size, double walk, Scatter scatter, bool onlyFirst)
    {
        var share = new Share();
        Parallel.For(0, Devices / size, fleetNumber =>
        {
            var random = new Chance(Seed + (int)(1e6 * walk) + (10_000_000 * (int)scatter) + (100_000 * size) + fleetNumber);
            ResultHistory[] histories = [.. Enumerable.Range(0, size).Select(_ => Invented.Of(random, walk, walk / 2, 4, 12, scatter).History)];
            var fleet = FleetDrift.Estimate(histories, looksForSteps: !onlyFirst);
            share.Add(Enumerable.Range(0, size).Count(i => onlyFirst
                ? StepScan.Find(histories[i], fleet.Pool.Walk, fleet.Pool.SlopeSpread, fleet.Pool.ScanScale).Count > 0
                : fleet.Findings(i).Count > 0), size);
        });
        return share;
    }
}
