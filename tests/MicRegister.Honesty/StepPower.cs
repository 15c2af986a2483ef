using MicRegister.Metrology.Drift;

namespace MicRegister.Honesty;

/// <summary>How often steps and bad results are found and called by their name, with parameters from the spoilt fleet, in the first round.</summary>
internal static class StepPower
{
    private const int Devices = 4_000;
    private const int Seed = 920_000;
    private const double HitShare = 0.1;

    private enum Where
    {
        StepInside,
        AtTheNewest,
        BadInside,
    }

    // Of an independent simulation, in per cent, by size and fleet: found inside, of these called step and bad; scan and entry check at the newest; bad found, of these called bad and step.
    private static readonly (double Size, int Fleet, int Step, int CalledStep, int Scan, int Entry, int Bad, int CalledBad)[] Before =
    [
        (.1, 10, 4, 60, 3, 9, 6, 71), (.1, 100, 12, 76, 8, 15, 11, 68),
        (.2, 10, 35, 86, 24, 47, 40, 92), (.2, 100, 56, 87, 40, 55, 45, 86),
        (.3, 10, 69, 92, 56, 79, 65, 95), (.3, 100, 92, 95, 73, 85, 71, 94),
        (.5, 10, 100, 99, 94, 99, 94, 100), (.5, 100, 100, 100, 98, 100, 98, 100),
    ];

    public static void Run(Judge judge)
    {
        Console.WriteLine();
        Console.WriteLine("Steps and bad results of 10 % of the devices, first round; walk .02, slope spread .01, 4 to 12 results. In per cent; in brackets before.");
        Console.WriteLine("| size dB, devices | step inside found, called step | at the newest: scan, entry check | bad inside found, called bad |");
        Console.WriteLine("|---|---|---|---|");
        foreach (var b in Before)
        {
            var (step, calledStep, _) = Measure(b.Size, b.Fleet, Where.StepInside);
            var (scan, _, entry) = Measure(b.Size, b.Fleet, Where.AtTheNewest);
            var (bad, calledBad, _) = Measure(b.Size, b.Fleet, Where.BadInside);
            // About 400 devices were hit in each line: binomial errors of the earlier figures.
            void Compare(string what, Share here, double before, double count) => judge.Compare($"{b.Size} dB, {b.Fleet} devices, {what}", here.Percent, Math.Max(here.StandardError, 0.3), before, Math.Max(0.3, 100 * Math.Sqrt(Math.Max(0.01, before / 100 * (1 - (before / 100))) / Math.Max(10, count))));
            Compare("step found", step, b.Step, 400);
            Compare("called step", calledStep, b.CalledStep, 4 * b.Step);
            Compare("newest by scan", scan, b.Scan, 400);
            Compare("newest by entry check", entry, b.Entry, 400);
            Compare("bad found", bad, b.Bad, 400);
            Compare("called bad", calledBad, b.CalledBad, 4 * b.Bad);
            Console.WriteLine(FormattableString.Invariant($"| {b.Size}, {b.Fleet} | {step.Percent:0} ({b.Step}), {calledStep.Percent:0} ({b.CalledStep}) | {scan.Percent:0} ({b.Scan}), {entry.Percent:0} ({b.Entry}) | {bad.Percent:0} ({b.Bad}), {calledBad.Percent:0} ({b.CalledBad}) |"));
        }
    }

    private static (Share Found, Share Called, Share Entry) Measure(double size, int fleetSize, Where where)
    {
        var (found, called, entered) = (new Share(), new Share(), new Share());
        Parallel.For(0, Devices / fleetSize, fleetNumber =>
        {
            var random = new Chance(Seed + (int)(1e5 * size) + (1_000_000 * (int)where) + (10_000_000 * (fleetSize == 10 ? 0 : 1)) + fleetNumber);
            var hit = new bool[fleetSize];
            Invented[] devices = [.. Enumerable.Range(0, fleetSize).Select(i =>
            {
                hit[i] = random.Uniform() < HitShare;
                return Invented.Of(random, .02, .01, 4, 12, spoil: hit[i] ? y => Spoil(random, y, size, where) : null);
            })];
            var fleet = FleetDrift.Estimate([.. devices.Select(d => d.History)], looksForSteps: false);
            int hits = 0, all = 0, named = 0, entry = 0;
            for (var i = 0; i < fleetSize; i++)
            {
                if (!hit[i]) continue;
                all++;
                var findings = StepScan.Find(devices[i].History, fleet.Pool.Walk, fleet.Pool.SlopeSpread, fleet.Pool.ScanScale);
                if (findings.Count > 0)
                {
                    hits++;
                    if (findings[0].Kind == (where == Where.BadInside ? DriftFindingKind.BadResult : DriftFindingKind.LastingStep)) named++;
                }
                if (where == Where.AtTheNewest && !FitsBefore(fleet, i)) entry++;
            }
            if (all == 0) return;
            found.Add(hits, all);
            called.Add(named, hits);
            entered.Add(entry, all);
        });
        return (found, called, entered);
    }

    // The newest result against the history before it, with the pool as it is.
    private static bool FitsBefore(FleetDrift fleet, int device)
    {
        var h = fleet.History(device);
        var before = new ResultHistory([.. h.Days.SkipLast(1)], [.. h.LevelsDb.SkipLast(1)], [.. h.StandardUncertaintiesDb.SkipLast(1)]);
        return fleet.With(device, before).Forecast(device).Check(h.Days[^1], h.LevelsDb[^1], h.StandardUncertaintiesDb[^1]).Fits;
    }

    private static void Spoil(Chance random, double[] levels, double size, Where where)
    {
        var signed = random.Uniform() < 0.5 ? -size : size;
        var n = levels.Length;
        switch (where)
        {
            case Where.StepInside:
                // At least two results on either side: at the first or newest it cannot be told from a bad result.
                for (var i = 2 + random.Below(n - 3); i < n; i++) levels[i] += signed;
                break;
            case Where.AtTheNewest:
                levels[^1] += signed;
                break;
            default:
                levels[1 + random.Below(n - 2)] += signed;
                break;
        }
    }
}
