namespace MicRegister.Metrology.Drift;

/// <summary>The results of a history that count after its findings, in years and dB from its first result, and where the level begins anew.</summary>
internal sealed class UsedResults
{
    private UsedResults(ResultHistory history, double[] years, double[] levels, double[] variances, bool[] begins)
    {
        FirstDay = history.Days[0];
        FirstLevelDb = history.LevelsDb[0];
        Years = years;
        Levels = levels;
        Variances = variances;
        Begins = begins;
    }

    public double FirstDay { get; }

    public double FirstLevelDb { get; }

    public double[] Years { get; }

    public double[] Levels { get; }

    /// <summary>u² of each, in dB².</summary>
    public double[] Variances { get; }

    public bool[] Begins { get; }

    public int Count => Years.Length;

    public double NewestDay => FirstDay + (Years[^1] * DriftGrid.DaysPerYear);

    /// <summary>Applies findings.</summary>
    /// <param name="history">The history.</param>
    /// <param name="findings">Its findings.</param>
    /// <param name="newestBeginsAnew">What an open newest result is taken for: a new level, or else left out.</param>
    public static UsedResults Of(ResultHistory history, IReadOnlyList<DriftFinding> findings, bool newestBeginsAnew = false)
    {
        var n = history.Count;
        var (isOut, begins) = (new bool[n], new bool[n]);
        foreach (var restart in history.Restarts) begins[restart] = true;
        foreach (var f in findings)
        {
            if (f.LeavesOut || (f.Kind == DriftFindingKind.NewestOpen && !newestBeginsAnew)) isOut[f.Index] = true;
            else begins[f.Index] = true;
        }
        var used = n - isOut.Count(o => o);
        var result = new UsedResults(history, new double[used], new double[used], new double[used], new bool[used]);
        var (k, pending) = (0, false);
        for (var i = 0; i < n; i++)
        {
            // A level that begins with a result that is left out begins with the next one.
            pending |= begins[i];
            if (isOut[i]) continue;
            var u = history.StandardUncertaintiesDb[i];
            result.Years[k] = (history.Days[i] - history.Days[0]) / DriftGrid.DaysPerYear;
            result.Levels[k] = history.LevelsDb[i] - history.LevelsDb[0];
            result.Variances[k] = u * u;
            result.Begins[k] = pending;
            pending = false;
            k++;
        }
        return result;
    }
}
