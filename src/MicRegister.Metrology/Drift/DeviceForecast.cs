namespace MicRegister.Metrology.Drift;

/// <summary>The one place that forecasts a device's level: whoever judges readiness asks here and nowhere else.</summary>
public sealed class DeviceForecast
{
    private readonly ResultHistory _history;
    private readonly DriftPool _pool;
    private readonly (UsedResults Used, WalkSums Sums, double[] Steady)[] _views;
    private readonly bool _isOpen;

    internal DeviceForecast(ResultHistory history, IReadOnlyList<DriftFinding> findings, DriftPool pool)
    {
        _history = history;
        _pool = pool;
        _isOpen = findings.Any(f => f.Kind == DriftFindingKind.NewestOpen);
        Findings = findings;
        _views = _isOpen ? [View(findings, false), View(findings, true)] : [View(findings, false)];
    }

    public ResultHistory History => _history;

    public DriftPool Pool => _pool;

    public IReadOnlyList<DriftFinding> Findings { get; }

    /// <summary>Whether the newest result deviates and nothing tells yet what it was: the forecast is half with it and half without it.</summary>
    public bool IsNewestOpen => _isOpen;

    /// <summary>Day number of the newest result on file: forecasts begin here.</summary>
    public double NewestDay => _history.Days[^1];

    /// <summary>Level of the newest result that is not left out as bad: the certificate in use, in dB.</summary>
    public double ReferenceDb => _history.LevelsDb[Enumerable.Range(0, _history.Count).Last(i => Findings.All(f => !f.LeavesOut || f.Index != i))];

    /// <summary>The true level to be expected on a day.</summary>
    /// <param name="day">Day number, not before the newest result.</param>
    /// <exception cref="ArgumentException">The day lies before the newest result.</exception>
    public LevelForecast At(double day)
    {
        if (!(day >= NewestDay)) throw new ArgumentException($"A forecast looks forward: day {day} lies before the newest result, {NewestDay}.", nameof(day));
        var kept = _pool.Kept;
        var size = kept.Length * 2;
        var (weights, means, deviations) = (new double[size * _views.Length], new double[size * _views.Length], new double[size * _views.Length]);
        for (var v = 0; v < _views.Length; v++)
        {
            var (used, sums, steady) = _views[v];
            var years = (day - used.FirstDay) / DriftGrid.DaysPerYear;
            var ahead = years - used.Years[^1];
            for (var n = 0; n < kept.Length; n++)
            {
                var (walk, scale, slope, weight) = kept[n];
                for (var restless = 0; restless < 2; restless++)
                {
                    var (mean, variance) = At(used, sums, walk + (restless * DriftGrid.RestlessSteps), scale, slope, years, ahead);
                    var at = (v * size) + (2 * n) + restless;
                    weights[at] = weight / _views.Length * (restless == 0 ? steady[n] : 1 - steady[n]);
                    means[at] = used.FirstLevelDb + mean;
                    deviations[at] = Math.Sqrt(variance);
                }
            }
        }
        return new(weights, means, deviations);
    }

    /// <summary>Both answers while the newest result is open: with it left out, and with a new level from it on.</summary>
    /// <returns>Null where it is not open.</returns>
    public (LevelForecast LeftOut, LevelForecast BeganAnew)? Halves(double day)
    {
        if (!_isOpen) return null;
        var both = At(day);
        var (first, second) = both.Split();
        return (first, second);
    }

    /// <summary>What decides how wide the forecast for a day is.</summary>
    public ForecastBasis Basis(double day)
    {
        if (_isOpen) return ForecastBasis.OpenNewest;
        var (now, then) = (At(NewestDay).StandardDeviationDb, At(day).StandardDeviationDb);
        if (now * now >= 0.7 * then * then) return ForecastBasis.Certificate;
        return _pool.Devices < 3 || _pool.Results < 4 * _pool.Devices ? ForecastBasis.Priors : ForecastBasis.Drift;
    }

    private static (double Mean, double Variance) At(UsedResults used, WalkSums sums, int walk, int scale, int slope, double years, double ahead)
    {
        var i = (scale * DriftGrid.AllWalks) + walk;
        var tau2 = DriftGrid.Slope[slope] * DriftGrid.Slope[slope];
        var z = 1 + (tau2 * sums.Stt[i]);
        var fromFiltered = years - sums.Time[i];
        // Scatter under what the certificates state is a laboratory's constant part: unseen in the results, so it is added back.
        var rest = Math.Max(0, 1 - (DriftGrid.Scale[scale] * DriftGrid.Scale[scale])) * used.Variances[^1];
        return (sums.Level[i] + (tau2 * sums.Sty[i] / z * fromFiltered),
            sums.Variance[i] + (DriftGrid.Walk[walk] * DriftGrid.Walk[walk] * ahead) + (fromFiltered * fromFiltered * tau2 / z) + rest);
    }

    private (UsedResults, WalkSums, double[]) View(IReadOnlyList<DriftFinding> findings, bool newestBeginsAnew)
    {
        var used = UsedResults.Of(_history, findings, newestBeginsAnew);
        var sums = WalkSums.Of(used);
        return (used, sums, Array.ConvertAll(_pool.Kept, n => Classes.ShareSteady(sums.LogLikelihood(n.Walk, n.Scale, n.Slope), sums.LogLikelihood(n.Walk + DriftGrid.RestlessSteps, n.Scale, n.Slope))));
    }

    /// <summary>Whether a new result fits what is known, before it is accepted.</summary>
    /// <param name="day">Day number of the result, not before the newest on file.</param>
    /// <param name="levelDb">Its level in dB.</param>
    /// <param name="standardUncertaintyDb">Its standard uncertainty in dB, above 0.</param>
    /// <returns>Its deviation from what was to be expected, in its own standard deviations; 1 % of good results exceed 2.576.</returns>
    public EntryCheck Check(double day, double levelDb, double standardUncertaintyDb)
    {
        if (!(day >= NewestDay)) throw new ArgumentException($"Only a result that is not older than the newest ({NewestDay}) can be checked against the others.", nameof(day));
        var used = _views[0].Used;
        double w2 = _pool.Walk * _pool.Walk, k2 = _pool.ScanScale * _pool.ScanScale;
        double aY = used.Levels[0], aT = used.Years[0], p = k2 * used.Variances[0], stt = 0, sty = 0;
        for (var i = 1; i < used.Count; i++)
        {
            var noise = k2 * used.Variances[i];
            if (used.Begins[i])
            {
                (aY, aT, p) = (used.Levels[i], used.Years[i], noise);
                continue;
            }
            var predicted = p + (w2 * (used.Years[i] - used.Years[i - 1]));
            var f = predicted + noise;
            var gain = predicted / f;
            var (vy, vt) = (used.Levels[i] - aY, used.Years[i] - aT);
            stt += vt * vt / f;
            sty += vt * vy / f;
            aY += gain * vy;
            aT += gain * vt;
            p = noise * gain;
        }
        var years = (day - used.FirstDay) / DriftGrid.DaysPerYear;
        var share = _pool.SlopeSpread * _pool.SlopeSpread / (1 + (_pool.SlopeSpread * _pool.SlopeSpread * stt));
        var ahead = years - aT;
        var deviation = levelDb - used.FirstLevelDb - aY - (share * sty * ahead);
        var variance = p + (w2 * (years - used.Years[^1])) + (k2 * standardUncertaintyDb * standardUncertaintyDb) + (share * ahead * ahead);
        return new(levelDb - deviation, deviation, Math.Sqrt(variance));
    }
}

/// <summary>What decides how wide a forecast is.</summary>
public enum ForecastBasis
{
    /// <summary>The certificate's own uncertainty.</summary>
    Certificate,

    /// <summary>Drift as the results of the model show it.</summary>
    Drift,

    /// <summary>What is assumed of any model, since there are few results or devices.</summary>
    Priors,

    /// <summary>A newest result of which nobody knows yet what it is.</summary>
    OpenNewest,
}

/// <summary>A new result against what was to be expected of it.</summary>
/// <param name="ExpectedDb">Expected level in dB.</param>
/// <param name="DeviationDb">Result minus expected, in dB.</param>
/// <param name="StandardDeviationDb">Standard deviation of that difference, in dB.</param>
public readonly record struct EntryCheck(double ExpectedDb, double DeviationDb, double StandardDeviationDb)
{
    /// <summary>Two-sided 1 %: Phi^-1(0.995).</summary>
    public const double Limit = 2.576;

    public double Z => DeviationDb / StandardDeviationDb;

    /// <summary>Whether it fits; otherwise: look again before it is accepted.</summary>
    public bool Fits => Math.Abs(Z) <= Limit;
}
