namespace MicRegister.Metrology.Responses;

/// <summary>A curve of a direction.</summary>
/// <param name="AngleDeg">Angle of incidence in °, 0 to 180; null where the curve holds for every direction.</param>
/// <param name="Curve">The curve.</param>
/// <param name="Source">Where it comes from: figures of one source are fully correlated.</param>
public sealed record DirectionalCurve(double? AngleDeg, ResponseCurve Curve, string Source);

/// <summary>What a response comes to at a frequency and from a range of directions.</summary>
/// <param name="LevelDb">The level in dB.</param>
/// <param name="HalfWidthDb">How far it may lie from there over the range of directions, in dB, not negative.</param>
/// <param name="Parts">Standard uncertainty in dB by source.</param>
/// <param name="StatesUncertainty">Whether all curves behind it state one.</param>
public readonly record struct DirectionalLevel(double LevelDb, double HalfWidthDb, IReadOnlyList<(string Source, double StandardDb)> Parts, bool StatesUncertainty);

/// <summary>A response over frequency and direction, from curves at some angles.</summary>
/// <remarks>
/// Linear over angle between two curves. A curve holds for 30° beside its own angle: further from every curve nothing is known. That is own
/// practice, no source: 14 CFR 36, A36.3.9.3 (seen, 2021 edition) lets one set of corrections stand within 30° of grazing alone.
/// </remarks>
public sealed class DirectionalResponse
{
    /// <summary>How far beside its own angle a curve tells something, in ° (own practice, no source).</summary>
    public const double ReachDeg = 30;

    private const double Coverage = 2;

    private readonly DirectionalCurve[] _curves;

    /// <param name="curves">At least one; either one for every direction, or one for each of some different angles.</param>
    /// <exception cref="ArgumentException">None, an angle twice or out of range, or one for every direction beside others.</exception>
    public DirectionalResponse(IEnumerable<DirectionalCurve> curves)
    {
        _curves = [.. curves.OrderBy(c => c.AngleDeg)];
        if (_curves.Length == 0) throw new ArgumentException("A response has at least one curve.", nameof(curves));
        if (_curves.Length > 1 && _curves.Any(c => c.AngleDeg is null)) throw new ArgumentException("A curve for every direction stands alone.", nameof(curves));
        if (_curves.Any(c => c.AngleDeg is { } a && !(a is >= 0 and <= 180))) throw new ArgumentException("An angle of incidence lies from 0° to 180°.", nameof(curves));
        if (_curves.Zip(_curves.Skip(1)).Any(p => p.First.AngleDeg == p.Second.AngleDeg)) throw new ArgumentException("Each angle has one curve.", nameof(curves));
    }

    /// <summary>Angles with a curve of their own in °, in order; empty where one holds for every direction.</summary>
    public IReadOnlyList<double> Angles => [.. _curves.Select(c => c.AngleDeg).OfType<double>()];

    /// <summary>The level from a direction that is known to a half-width.</summary>
    /// <param name="hz">Middle of the band in Hz.</param>
    /// <param name="angleDeg">Angle of incidence in °, 0 to 180.</param>
    /// <param name="halfWidthDeg">How far it may lie from there in °, not negative.</param>
    /// <returns>Null where a curve that is needed does not reach the frequency, or a direction lies more than <see cref="ReachDeg"/> from every curve.</returns>
    public DirectionalLevel? At(double hz, double angleDeg, double halfWidthDeg = 0)
    {
        if (!(angleDeg is >= 0 and <= 180)) throw new ArgumentOutOfRangeException(nameof(angleDeg), angleDeg, "An angle of incidence lies from 0° to 180°.");
        if (!(halfWidthDeg is >= 0 and <= 180)) throw new ArgumentOutOfRangeException(nameof(halfWidthDeg), halfWidthDeg, "A half-width lies from 0° to 180°.");
        if (Mixed(hz, angleDeg) is not { } here) return null;
        var half = 0.0;
        double low = Math.Max(0, angleDeg - halfWidthDeg), high = Math.Min(180, angleDeg + halfWidthDeg);
        // Between curves the level is straight: it is greatest and least at an end or at a curve.
        foreach (var angle in halfWidthDeg == 0 ? [] : Angles.Where(a => a > low && a < high).Append(low).Append(high))
        {
            if (Mixed(hz, angle) is not { } there) return null;
            half = Math.Max(half, Math.Abs(there.LevelDb - here.LevelDb));
        }
        return here with { HalfWidthDb = half };
    }

    /// <summary>The level where nothing is known of the direction: the middle of all curves, and half of what lies between them.</summary>
    /// <returns>Null where a curve does not reach the frequency.</returns>
    public DirectionalLevel? Anywhere(double hz)
    {
        var all = _curves.Select(c => (Curve: c, At: c.Curve.AtBand(hz))).ToList();
        if (all.Any(c => c.At is null)) return null;
        var (least, greatest) = (all.MinBy(c => c.At!.Value.LevelDb), all.MaxBy(c => c.At!.Value.LevelDb));
        var parts = Parts([(least.Curve, least.At!.Value.ExpandedDb, 0.5), (greatest.Curve, greatest.At!.Value.ExpandedDb, 0.5)]);
        return new((least.At.Value.LevelDb + greatest.At.Value.LevelDb) / 2, (greatest.At.Value.LevelDb - least.At.Value.LevelDb) / 2, parts, all.All(c => c.At!.Value.ExpandedDb is not null));
    }

    private DirectionalLevel? Mixed(double hz, double angleDeg)
    {
        var (a, b, share) = Around(angleDeg);
        if (a is null || b is null) return null;
        if (a.Curve.AtBand(hz) is not var (first, firstU)) return null;
        if (share == 0) return new(first, 0, Parts([(a, firstU, 1)]), firstU is not null);
        if (b.Curve.AtBand(hz) is not var (second, secondU)) return null;
        return new(first + ((second - first) * share), 0, Parts([(a, firstU, 1 - share), (b, secondU, share)]), firstU is not null && secondU is not null);
    }

    private (DirectionalCurve? A, DirectionalCurve? B, double Share) Around(double angleDeg)
    {
        if (_curves[0].AngleDeg is not { } lowest) return (_curves[0], _curves[0], 0);
        if (angleDeg <= lowest) return lowest - angleDeg <= ReachDeg ? (_curves[0], _curves[0], 0) : (null, null, 0);
        for (var i = 1; i < _curves.Length; i++)
        {
            double from = _curves[i - 1].AngleDeg!.Value, to = _curves[i].AngleDeg!.Value;
            if (angleDeg <= to && angleDeg - from > ReachDeg && to - angleDeg > ReachDeg) return (null, null, 0);
            if (angleDeg <= to) return angleDeg == to ? (_curves[i], _curves[i], 0) : (_curves[i - 1], _curves[i], (angleDeg - from) / (to - from));
        }
        return angleDeg - _curves[^1].AngleDeg!.Value <= ReachDeg ? (_curves[^1], _curves[^1], 0) : (null, null, 0);
    }

    private static IReadOnlyList<(string Source, double StandardDb)> Parts(IEnumerable<(DirectionalCurve Curve, double? ExpandedDb, double Weight)> from) =>
        [.. from.GroupBy(f => f.Curve.Source, StringComparer.Ordinal).Select(g => (g.Key, g.Sum(f => f.Weight * (f.ExpandedDb ?? 0) / Coverage)))];
}
