namespace MicRegister.Metrology.Drift;

/// <summary>The devices of one model: what they tell together, and what was found in each history.</summary>
/// <remarks>
/// Rounds: pool all, look through all, pool the cleaned, look through all afresh until the findings stay the same, at most four times.
/// The same histories in the same order give the same bits, however they came about.
/// </remarks>
public sealed class FleetDrift
{
    private const int MostRounds = 4;

    private readonly ResultHistory[] _histories;
    private readonly double[][] _clean;
    private readonly double[][] _cleaned;
    private readonly IReadOnlyList<DriftFinding>[] _findings;
    private readonly double[]?[] _blocks;

    private FleetDrift(ResultHistory[] histories, double[][] clean, double[][] cleaned, IReadOnlyList<DriftFinding>[] findings, double[]?[] blocks, int rounds, bool isSettled, bool isProvisional)
    {
        (_histories, _clean, _cleaned, _findings, _blocks) = (histories, clean, cleaned, findings, blocks);
        (Rounds, IsSettled, IsProvisional) = (rounds, isSettled, isProvisional);
        Pool = DriftPool.Of(DriftPool.Total(cleaned, blocks), histories.Length, histories.Sum(h => h.Count));
    }

    public DriftPool Pool { get; }

    public int Count => _histories.Length;

    /// <summary>How often all were pooled and looked through.</summary>
    public int Rounds { get; }

    /// <summary>Whether the findings stayed the same in the last round.</summary>
    public bool IsSettled { get; }

    /// <summary>Whether results came since the findings were last worked out.</summary>
    public bool IsProvisional { get; }

    public ResultHistory History(int device) => _histories[device];

    /// <summary>What was found in a device's history, weightiest first.</summary>
    public IReadOnlyList<DriftFinding> Findings(int device) => _findings[device];

    /// <summary>Works out everything.</summary>
    /// <param name="histories">Histories of all devices of one model, in an order of their own, such as that of their ids.</param>
    /// <param name="known">An earlier answer, whose work on histories that are still the same object is used again; the answer does not depend on it.</param>
    public static FleetDrift Estimate(IReadOnlyList<ResultHistory> histories, FleetDrift? known = null) => Estimate(histories, known, looksForSteps: true);

    /// <summary>The pool of the histories as they are, with nothing looked for in them: for simulations that try one part alone.</summary>
    internal static FleetDrift Estimate(IReadOnlyList<ResultHistory> histories, bool looksForSteps) => Estimate(histories, null, looksForSteps);

    private static FleetDrift Estimate(IReadOnlyList<ResultHistory> histories, FleetDrift? known, bool looksForSteps)
    {
        ResultHistory[] all = [.. histories];
        var before = new Dictionary<ResultHistory, double[]>();
        for (var i = 0; i < known?.Count; i++) before[known._histories[i]] = known._clean[i];
        var clean = Array.ConvertAll(all, h => before.GetValueOrDefault(h) ?? LogLikelihoods(h, []));
        var (cleaned, findings) = ((double[][])clean.Clone(), new IReadOnlyList<DriftFinding>[all.Length]);
        Array.Fill(findings, []);
        var blocks = new double[]?[DriftPool.Blocks(all.Length)];
        var (round, isSettled) = (0, !looksForSteps);
        while (!isSettled && round < MostRounds)
        {
            round++;
            var pool = DriftPool.Of(DriftPool.Total(cleaned, blocks), all.Length, 0);
            isSettled = true;
            for (var i = 0; i < all.Length; i++)
            {
                var found = StepScan.Find(all[i], pool.Walk, pool.SlopeSpread, pool.ScanScale);
                if (!SameAs(found, findings[i]))
                {
                    isSettled = false;
                    cleaned[i] = found.Count == 0 ? clean[i] : LogLikelihoods(all[i], found);
                    blocks[i / DriftPool.BlockSize] = null;
                }
                findings[i] = found;
            }
        }
        return new(all, clean, cleaned, findings, blocks, round, isSettled, isProvisional: false);
    }

    /// <summary>The answer with one device's history changed and the findings left as they are: quick, until all is worked out again.</summary>
    /// <param name="device">Index of the device.</param>
    /// <param name="history">Its new history; findings are kept where it goes on from the old one, otherwise dropped.</param>
    public FleetDrift With(int device, ResultHistory history)
    {
        var old = _histories[device];
        var goesOn = history.Count >= old.Count && history.Days.Take(old.Count).SequenceEqual(old.Days) && history.LevelsDb.Take(old.Count).SequenceEqual(old.LevelsDb);
        var (histories, clean, cleaned, findings, blocks) = ((ResultHistory[])_histories.Clone(), (double[][])_clean.Clone(), (double[][])_cleaned.Clone(), (IReadOnlyList<DriftFinding>[])_findings.Clone(), (double[]?[])_blocks.Clone());
        histories[device] = history;
        // An open newest result has found a follower: only looking through all afresh can tell what it was.
        findings[device] = goesOn ? [.. findings[device].Where(f => f.Kind != DriftFindingKind.NewestOpen)] : [];
        clean[device] = LogLikelihoods(history, []);
        cleaned[device] = findings[device].Count == 0 ? clean[device] : LogLikelihoods(history, findings[device]);
        blocks[device / DriftPool.BlockSize] = null;
        return new(histories, clean, cleaned, findings, blocks, Rounds, IsSettled, isProvisional: true);
    }

    /// <summary>What is to be expected of one device.</summary>
    public DeviceForecast Forecast(int device) => new(_histories[device], _findings[device], Pool);

    private static double[] LogLikelihoods(ResultHistory history, IReadOnlyList<DriftFinding> findings) => WalkSums.Of(UsedResults.Of(history, findings)).LogLikelihoods();

    private static bool SameAs(IReadOnlyList<DriftFinding> a, IReadOnlyList<DriftFinding> b) =>
        a.Count == b.Count && a.All(f => b.Any(g => g.Kind == f.Kind && g.Index == f.Index));
}
