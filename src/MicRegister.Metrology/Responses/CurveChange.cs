namespace MicRegister.Metrology.Responses;

/// <summary>By how much a curve differs from an earlier one in each third-octave band that both state.</summary>
/// <param name="Bands">Bands that both state, from the lowest to the highest.</param>
/// <param name="InOneOnly">Bands that one of them states and the other does not.</param>
public sealed record CurveChange(IReadOnlyList<BandChange> Bands, IReadOnlyList<ThirdOctave> InOneOnly)
{
    private const double Coverage = 2;

    /// <summary>Holds two curves against each other.</summary>
    /// <param name="now">The later curve.</param>
    /// <param name="before">The earlier one.</param>
    /// <returns>
    /// For each band the level that the later curve states there less that of the earlier one. A curve states what its own point in the band
    /// says, the one nearest to the middle where there are several; nothing is worked out between points, since a band that was not
    /// measured must not borrow the change of its neighbours.
    /// </returns>
    /// <remarks>
    /// u = sqrt(U1² + U2²) / 2: both certificates state U with k = 2, and are taken as independent, so that what they share does not make
    /// it smaller (JCGM 100:2008, 5.1.2).
    /// </remarks>
    public static CurveChange Of(ResponseCurve now, ResponseCurve before)
    {
        var (later, earlier) = (InBands(now), InBands(before));
        List<BandChange> both = [.. later.Where(p => earlier.ContainsKey(p.Key)).Select(p => Of(new(p.Key), p.Value, earlier[p.Key]))];
        List<ThirdOctave> one = [.. later.Keys.Concat(earlier.Keys).Where(i => !later.ContainsKey(i) || !earlier.ContainsKey(i))
            .Order().Select(i => new ThirdOctave(i))];
        return new(both, one);
    }

    private static BandChange Of(ThirdOctave band, CurvePoint now, CurvePoint before)
    {
        double? standard = now.ExpandedDb is { } a && before.ExpandedDb is { } b ? Math.Sqrt((a * a) + (b * b)) / Coverage : null;
        return new(band, now.LevelDb - before.LevelDb, standard);
    }

    private static SortedDictionary<int, CurvePoint> InBands(ResponseCurve curve)
    {
        var bands = new SortedDictionary<int, CurvePoint>();
        foreach (var point in curve.Points)
        {
            var band = ThirdOctave.Of(point.Hz);
            if (!bands.TryGetValue(band.Index, out var other) || Off(band, point) < Off(band, other)) bands[band.Index] = point;
        }
        return bands;
    }

    private static double Off(ThirdOctave band, CurvePoint point) => Math.Abs(Math.Log(point.Hz / band.MiddleHz));
}

/// <summary>The change in one band.</summary>
/// <param name="Band">The band.</param>
/// <param name="Db">Later less earlier level, in dB.</param>
/// <param name="StandardDb">Its standard uncertainty in dB; null where one of the curves states none there.</param>
public readonly record struct BandChange(ThirdOctave Band, double Db, double? StandardDb);
