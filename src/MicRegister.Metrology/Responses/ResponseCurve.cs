namespace MicRegister.Metrology.Responses;

/// <summary>One point of a response curve.</summary>
/// <param name="Hz">Frequency in Hz.</param>
/// <param name="LevelDb">Level in dB, relative to whatever the curve is relative to.</param>
/// <param name="ExpandedDb">Expanded uncertainty (k = 2) in dB; null where none was stated.</param>
public readonly record struct CurvePoint(double Hz, double LevelDb, double? ExpandedDb);

/// <summary>A response over frequency as a laboratory states it.</summary>
/// <param name="Points">At least one, in the order of frequency, each frequency once.</param>
public sealed record ResponseCurve(IReadOnlyList<CurvePoint> Points)
{
    /// <summary>Frequencies this near to an end count as the end: a nominal band of 20 kHz lies at 19.95 kHz exactly.</summary>
    private const double EndShare = 0.01;

    /// <summary>Level at a frequency, linear over the logarithm of frequency.</summary>
    /// <returns>Null outside the curve; its ends are inside.</returns>
    public double? At(double hz) => Between(hz) is var (a, b, share) ? a.LevelDb + ((b.LevelDb - a.LevelDb) * share) : null;

    /// <summary>Level and expanded uncertainty at the middle of a band: at a frequency, or at an end of the curve that lies within 1 % of it.</summary>
    /// <returns>Null outside the curve. The uncertainty is linear between its points, which one laboratory stated, and null where one of them states none.</returns>
    public (double LevelDb, double? ExpandedDb)? AtBand(double hz)
    {
        var (first, last) = (Points[0].Hz, Points[^1].Hz);
        var near = hz < first && hz > first * (1 - EndShare) ? first : hz > last && hz < last * (1 + EndShare) ? last : hz;
        return Between(near) is var (a, b, share) ? (a.LevelDb + ((b.LevelDb - a.LevelDb) * share), a.ExpandedDb + ((b.ExpandedDb - a.ExpandedDb) * share)) : null;
    }

    /// <summary>The curve relative to its own level at a frequency.</summary>
    /// <returns>Unchanged where that frequency lies outside of it.</returns>
    public ResponseCurve RelativeTo(double hz) => At(hz) is { } reference ? Less(reference) : this;

    /// <summary>The curve with one figure taken off all its levels.</summary>
    /// <param name="levelDb">Finite, in dB.</param>
    public ResponseCurve Less(double levelDb) => new([.. Points.Select(p => p with { LevelDb = p.LevelDb - levelDb })]);

    /// <summary>Greatest difference to an earlier curve at this one's frequencies, both relative to one frequency.</summary>
    /// <returns>Where it is and how much, in dB; null where they share no frequency.</returns>
    public (double Hz, double DifferenceDb)? GreatestChange(ResponseCurve before, double referenceHz)
    {
        var (now, then) = (RelativeTo(referenceHz), before.RelativeTo(referenceHz));
        return now.Points.Select(p => (p.Hz, Difference: p.LevelDb - then.At(p.Hz))).Where(d => d.Difference is not null).Select(d => ((double, double)?)(d.Hz, d.Difference!.Value)).MaxBy(d => Math.Abs(d!.Value.Item2));
    }

    // The points around a frequency and how far it lies from the first to the second over the logarithm.
    private (CurvePoint A, CurvePoint B, double Share)? Between(double hz)
    {
        if (!(hz >= Points[0].Hz) || !(hz <= Points[^1].Hz)) return null;
        for (var i = 1; i < Points.Count; i++)
        {
            if (hz > Points[i].Hz) continue;
            var (a, b) = (Points[i - 1], Points[i]);
            return (a, b, Math.Log(hz / a.Hz) / Math.Log(b.Hz / a.Hz));
        }
        return (Points[0], Points[0], 0);
    }
}
