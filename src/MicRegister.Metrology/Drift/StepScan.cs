using MathNet.Numerics.Distributions;

namespace MicRegister.Metrology.Drift;

/// <summary>Looks through a history for lasting steps and bad results, by likelihood ratio, at given walk, slope spread and scale.</summary>
/// <remarks>
/// Each pattern, a single deviating result or a step before a result, is filtered with the history's own gains; z is its size in its own
/// standard deviations, with level and slope estimated beside it. 2n - 3 different patterns share one chance in a hundred.
/// Of equal candidates the earliest result wins.
/// </remarks>
internal sealed class StepScan
{
    private const double DecisiveLead = 2;
    private const double NoLead = 1e-6;
    private const double Tie = 1e-9;

    private readonly ResultHistory _history;
    private readonly double _slopeShare;
    private readonly double _least;
    private readonly double[] _gain;
    private readonly double[] _root;
    private readonly bool[] _begins;
    private readonly double[] _y;
    private readonly double[] _t;
    private readonly double[] _pattern;
    private readonly List<(double[] Vector, double WithTime, double WithItself, double WithLevel)> _projected = [];

    private StepScan(ResultHistory history, double walk, double slopeSpread, double scale)
    {
        _history = history;
        var n = history.Count;
        var used = UsedResults.Of(history, []);
        (_gain, _root, _begins, _y, _t, _pattern) = (new double[n], new double[n], used.Begins, new double[n], new double[n], new double[n]);
        _begins[0] = true;
        double w2 = walk * walk, k2 = scale * scale, aY = 0, aT = 0, p = 0, stt = 0, greatest = 0;
        for (var i = 0; i < n; i++)
        {
            greatest = Math.Max(greatest, used.Variances[i]);
            var noise = k2 * used.Variances[i];
            if (_begins[i])
            {
                (aY, aT, p) = (used.Levels[i], used.Years[i], noise);
                continue;
            }
            var predicted = p + (w2 * (used.Years[i] - used.Years[i - 1]));
            var f = predicted + noise;
            _gain[i] = predicted / f;
            _root[i] = 1 / Math.Sqrt(f);
            _y[i] = (used.Levels[i] - aY) * _root[i];
            _t[i] = (used.Years[i] - aT) * _root[i];
            stt += _t[i] * _t[i];
            aY += _gain[i] * (used.Levels[i] - aY);
            aT += _gain[i] * (used.Years[i] - aT);
            p = noise * _gain[i];
        }
        _slopeShare = slopeSpread * slopeSpread / (1 + (slopeSpread * slopeSpread * stt));
        _least = 1e-6 / greatest;
        // What a person found to be in order is taken out of what is looked for: otherwise its neighbours would be found in its place.
        foreach (var reviewed in history.Reviewed)
        {
            if (Candidate(true, reviewed) is not null) Project(true, reviewed);
            if (Candidate(false, reviewed) is not null) Project(false, reviewed);
        }
    }

    /// <summary>How many standard deviations a deviation must exceed, so that all patterns of a history together raise an alarm with a given probability.</summary>
    /// <param name="falseAlarm">Probability for the whole history.</param>
    /// <param name="results">Results, at least 2.</param>
    public static double Factor(double falseAlarm, int results) => -Normal.InvCDF(0, 1, falseAlarm / (2 * ((2 * results) - 3)));

    /// <summary>Finds at most three deviations, in the order of their weight; fewer in short histories.</summary>
    /// <param name="history">The history.</param>
    /// <param name="walk">Walk in dB per square root of a year.</param>
    /// <param name="slopeSpread">Slope spread in dB per year.</param>
    /// <param name="scale">Scatter as a multiple of the stated uncertainty, at least 1.</param>
    public static IReadOnlyList<DriftFinding> Find(ResultHistory history, double walk, double slopeSpread, double scale)
    {
        if (history.Count < 2) return [];
        var threshold = Factor(0.01, history.Count);
        var scan = new StepScan(history, walk, slopeSpread, scale);
        var found = new List<DriftFinding>();
        for (var most = Math.Min(3, Math.Max(1, history.Count / 4)); found.Count < most;)
        {
            if (scan.Next(threshold) is not { } finding) break;
            found.Add(finding);
        }
        return found;
    }

    private DriftFinding? Next(double threshold)
    {
        var n = _history.Count;
        if (Best(isStep: false, 0) is not { } bad || Best(isStep: true, 1) is not { } step) return null;
        if (!(Math.Max(Math.Abs(bad.Z), Math.Abs(step.Z)) > threshold)) return null;

        var lead = (step.Z * step.Z) - (bad.Z * bad.Z);
        var isTie = Math.Abs(lead) < NoLead;
        var (kind, winner, isStep) = (isTie, lead) switch
        {
            (true, _) when n == 2 || bad.Index == n - 1 || step.Index == n - 1 => (DriftFindingKind.NewestOpen, Candidate(false, n - 1) ?? bad, false),
            (true, _) when bad.Index == 0 => (DriftFindingKind.FirstOpen, bad, false),
            (_, > DecisiveLead) => (DriftFindingKind.LastingStep, step, true),
            (_, < -DecisiveLead) => (DriftFindingKind.BadResult, bad, false),
            _ => (DriftFindingKind.Undecided, step, true),
        };
        Project(isStep, winner.Index);
        return new(kind, winner.Index, winner.Size, winner.Z, isTie ? 0 : lead, threshold);
    }

    private (int Index, double Z, double Size)? Best(bool isStep, int from)
    {
        (int Index, double Z, double Size)? best = null;
        for (var j = from; j < _history.Count; j++)
        {
            if (!_history.Reviewed.Contains(j) && Candidate(isStep, j) is { } c && (best is not { } known || Math.Abs(c.Z) > Math.Abs(known.Z) * (1 + Tie))) best = c;
        }
        return best;
    }

    private (int Index, double Z, double Size)? Candidate(bool isStep, int j)
    {
        Filter(isStep, j);
        double dy = 0, dt = 0, dd = 0;
        for (var i = j; i < _pattern.Length; i++)
        {
            dy += _pattern[i] * _y[i];
            dt += _pattern[i] * _t[i];
            dd += _pattern[i] * _pattern[i];
        }
        dy -= _slopeShare * dt * TimeWithLevel;
        dd -= _slopeShare * dt * dt;
        foreach (var f in _projected)
        {
            var with = WithProjected(f.Vector, f.WithTime, j, dt) / f.WithItself;
            dy -= with * f.WithLevel;
            dd -= with * with * f.WithItself;
        }
        return dd < _least ? null : (j, dy / Math.Sqrt(dd), dy / dd);
    }

    private double? _timeWithLevel;

    private double TimeWithLevel
    {
        get
        {
            if (_timeWithLevel is { } known) return known;
            double sum = 0;
            for (var i = 0; i < _y.Length; i++) sum += _y[i] * _t[i];
            _timeWithLevel = sum;
            return sum;
        }
    }

    private double WithProjected(double[] vector, double withTime, int from, double dt)
    {
        double sum = 0;
        for (var i = from; i < vector.Length; i++) sum += _pattern[i] * vector[i];
        return sum - (_slopeShare * dt * withTime);
    }

    // What the history's own filter leaves of a pattern, from its first result on.
    private void Filter(bool isStep, int j)
    {
        double a = 0;
        for (var i = j; i < _pattern.Length; i++)
        {
            var d = isStep || i == j ? 1.0 : 0;
            if (_begins[i])
            {
                a = d;
                _pattern[i] = 0;
                continue;
            }
            var v = d - a;
            _pattern[i] = v * _root[i];
            a += _gain[i] * v;
        }
    }

    // From now on every pattern is taken beside this one.
    private void Project(bool isStep, int j)
    {
        Filter(isStep, j);
        var vector = new double[_pattern.Length];
        Array.Copy(_pattern, j, vector, j, vector.Length - j);
        foreach (var f in _projected)
        {
            double dt = 0;
            for (var i = 0; i < vector.Length; i++) dt += vector[i] * _t[i];
            double with = 0;
            for (var i = 0; i < vector.Length; i++) with += vector[i] * f.Vector[i];
            with = (with - (_slopeShare * dt * f.WithTime)) / f.WithItself;
            for (var i = 0; i < vector.Length; i++) vector[i] -= with * f.Vector[i];
        }
        double t = 0, self = 0, level = 0;
        for (var i = 0; i < vector.Length; i++)
        {
            t += vector[i] * _t[i];
            self += vector[i] * vector[i];
            level += vector[i] * _y[i];
        }
        _projected.Add((vector, t, self - (_slopeShare * t * t), level - (_slopeShare * t * TimeWithLevel)));
    }
}
