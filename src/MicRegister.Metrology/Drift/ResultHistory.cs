namespace MicRegister.Metrology.Drift;

/// <summary>
/// The results of one device in one series: same quantity, frequency and method, oldest first. Only one length for all three.
/// </summary>
public sealed class ResultHistory
{
    /// <summary>Least standard uncertainty that a result can state, in dB: less is a slip of the pen.</summary>
    public const double LeastUncertaintyDb = 1e-6;

    /// <param name="days">Day number of each result, not decreasing.</param>
    /// <param name="levelsDb">Level of each result in dB, finite.</param>
    /// <param name="standardUncertaintiesDb">Standard uncertainty of each result in dB, at least <see cref="LeastUncertaintyDb"/>.</param>
    /// <param name="restarts">Indexes of results with which the level is known to begin anew, as after an adjustment; the slope goes on.</param>
    /// <param name="reviewed">Indexes of results that a person found to be in order: neither a step nor a bad result.</param>
    /// <exception cref="ArgumentException">No result, different lengths, days out of order, or a figure out of range.</exception>
    public ResultHistory(double[] days, double[] levelsDb, double[] standardUncertaintiesDb, IReadOnlyCollection<int>? restarts = null, IReadOnlyCollection<int>? reviewed = null)
    {
        if (days.Length == 0 || levelsDb.Length != days.Length || standardUncertaintiesDb.Length != days.Length)
            throw new ArgumentException($"A history needs as many levels and uncertainties as days, and at least one ({days.Length}, {levelsDb.Length}, {standardUncertaintiesDb.Length}).");
        for (var i = 0; i < days.Length; i++)
        {
            if (!double.IsFinite(levelsDb[i]) || !double.IsFinite(standardUncertaintiesDb[i]) || standardUncertaintiesDb[i] < LeastUncertaintyDb)
                throw new ArgumentException($"Result {i + 1} has level {levelsDb[i]} dB and standard uncertainty {standardUncertaintiesDb[i]} dB; both must be finite, the latter at least {LeastUncertaintyDb}.");
            if (!double.IsFinite(days[i]) || (i > 0 && days[i] < days[i - 1]))
                throw new ArgumentException($"Result {i + 1} is older than the one before it.");
        }
        Days = days;
        LevelsDb = levelsDb;
        StandardUncertaintiesDb = standardUncertaintiesDb;
        Restarts = restarts ?? [];
        Reviewed = reviewed ?? [];
    }

    public IReadOnlyList<double> Days { get; }

    public IReadOnlyList<double> LevelsDb { get; }

    public IReadOnlyList<double> StandardUncertaintiesDb { get; }

    public IReadOnlyCollection<int> Restarts { get; }

    public IReadOnlyCollection<int> Reviewed { get; }

    public int Count => Days.Count;

    /// <summary>Whether two histories say the same.</summary>
    public bool Says(ResultHistory other) => Days.SequenceEqual(other.Days) && LevelsDb.SequenceEqual(other.LevelsDb) && StandardUncertaintiesDb.SequenceEqual(other.StandardUncertaintiesDb)
        && Restarts.Order().SequenceEqual(other.Restarts.Order()) && Reviewed.Order().SequenceEqual(other.Reviewed.Order());
}
