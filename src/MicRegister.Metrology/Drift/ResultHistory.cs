namespace MicRegister.Metrology.Drift;

/// <summary>
/// The results of one device in one series: same quantity, frequency and method, oldest first. Only one length for all three.
/// </summary>
public sealed class ResultHistory
{
    /// <param name="days">Day number of each result, not decreasing.</param>
    /// <param name="levelsDb">Level of each result in dB, finite.</param>
    /// <param name="standardUncertaintiesDb">Standard uncertainty of each result in dB, above 0.</param>
    /// <exception cref="ArgumentException">No result, different lengths, days out of order, or a figure out of range.</exception>
    public ResultHistory(double[] days, double[] levelsDb, double[] standardUncertaintiesDb)
    {
        if (days.Length == 0 || levelsDb.Length != days.Length || standardUncertaintiesDb.Length != days.Length)
            throw new ArgumentException($"A history needs as many levels and uncertainties as days, and at least one ({days.Length}, {levelsDb.Length}, {standardUncertaintiesDb.Length}).");
        for (var i = 0; i < days.Length; i++)
        {
            if (!double.IsFinite(levelsDb[i]) || !double.IsFinite(standardUncertaintiesDb[i]) || standardUncertaintiesDb[i] <= 0)
                throw new ArgumentException($"Result {i + 1} has level {levelsDb[i]} dB and standard uncertainty {standardUncertaintiesDb[i]} dB; both must be finite, the latter above 0.");
            if (!double.IsFinite(days[i]) || (i > 0 && days[i] < days[i - 1]))
                throw new ArgumentException($"Result {i + 1} is older than the one before it.");
        }
        Days = days;
        LevelsDb = levelsDb;
        StandardUncertaintiesDb = standardUncertaintiesDb;
    }

    public IReadOnlyList<double> Days { get; }

    public IReadOnlyList<double> LevelsDb { get; }

    public IReadOnlyList<double> StandardUncertaintiesDb { get; }

    public int Count => Days.Count;

    /// <summary>Whether all results carry one day, so that they tell nothing about drift.</summary>
    public bool IsOneDay => Days[0] == Days[^1];
}
