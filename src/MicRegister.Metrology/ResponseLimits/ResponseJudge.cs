using MicRegister.Metrology.Conformity;
using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.ResponseLimits;

/// <summary>Holds curves against printed limits, band by band.</summary>
public static class ResponseJudge
{
    // A nominal frequency and the exact middle of its band lie up to 0.95 % apart, and curves are stated at either.
    private const double NominalShare = 0.01;

    private const string NoPoint = "the curve has no point in this band";

    /// <summary>Judges a curve by a table of limits over frequency.</summary>
    /// <param name="curve">The curve.</param>
    /// <param name="referenceHz">Frequency in Hz that deviations are relative to.</param>
    /// <param name="table">The limits.</param>
    /// <returns>
    /// All bands of the table and all that the curve has points in, from the lowest on. A curve that does not reach the reference frequency
    /// decides nothing.
    /// </returns>
    /// <remarks>
    /// In each band that point decides which lies worst; a frequency between two nominal ones takes the step of the nearer one. Where the level
    /// at the reference frequency is not 0, the curve was made relative here, and U of a deviation is the root of the sum of both squares.
    /// </remarks>
    public static IReadOnlyList<BandJudgement> OverFrequency(ResponseCurve curve, double referenceHz, ResponseTable table)
    {
        var reference = curve.AtBand(referenceHz);
        var points = curve.Points.Select(p => reference is var (level, expanded) ? Less(p, new(referenceHz, level, expanded)) : p);
        var byBand = points.ToLookup(p => ThirdOctave.Of(p.Hz));
        return
        [
            .. table.Steps.Select(s => s.Band).Union(byBand.Select(g => g.Key)).OrderBy(b => b.Index)
                .Select(b => Judge(b, null, table.Of(b), [.. byBand[b]], reference is null
                    ? FormattableString.Invariant($"the curve does not reach {referenceHz:0.##} Hz, which deviations are relative to")
                    : null)),
        ];
    }

    /// <summary>Judges curves by angle by a table of limits of their differences from the one at 0°.</summary>
    /// <param name="curves">At most one for each angle in °, 0 to 180.</param>
    /// <param name="table">The limits.</param>
    /// <returns>For each angle but 0°, in order, all bands of the table and all that its curve has points in.</returns>
    /// <remarks>
    /// Levels are compared at points of both curves within 1 % of each other; U of the difference is the root of the sum of both squares.
    /// </remarks>
    public static IReadOnlyList<BandJudgement> OverAngle(IReadOnlyList<(double AngleDeg, ResponseCurve Curve)> curves, AngleTable table)
    {
        var ahead = curves.Where(c => c.AngleDeg == 0).Select(c => c.Curve).FirstOrDefault();
        var judged = new List<BandJudgement>();
        foreach (var (angle, curve) in curves.Where(c => c.AngleDeg != 0).OrderBy(c => c.AngleDeg))
        {
            var byBand = curve.Points.Select(p => (Point: p, Ahead: Same(ahead, p.Hz))).ToLookup(p => ThirdOctave.Of(p.Point.Hz));
            foreach (var band in table.Bands.Union(byBand.Select(g => g.Key)).OrderBy(b => b.Index))
            {
                CurvePoint[] both = [.. byBand[band].Where(p => p.Ahead is not null).Select(p => Difference(p.Point, p.Ahead!.Value))];
                var missing = both.Length > 0 || !byBand[band].Any() ? null
                    : ahead is null ? "there is no curve at 0°, which differences are from"
                    : "the curve at 0° has no point at this frequency";
                judged.Add(Judge(band, angle, table.Of(band, angle), both, missing));
            }
        }
        return judged;
    }

    private static BandJudgement Judge(
        ThirdOctave band, double? angleDeg, LimitStep? step, CurvePoint[] points, string? open)
    {
        if (step is not { } limits)
        {
            return new(
                band, angleDeg, null, points.Length > 0 ? points.MaxBy(p => Math.Abs(p.LevelDb)) : null, BandVerdict.NotCovered, null,
                "the table has no limit here");
        }
        if (open is not null) return new(band, angleDeg, limits, null, BandVerdict.Undecided, null, open);
        if (points.Length == 0) return new(band, angleDeg, limits, null, BandVerdict.NotCovered, null, NoPoint);
        return points.Select(p =>
        {
            var (verdict, by, why) = BandJudgement.Decide(limits, p.LevelDb, p.ExpandedDb);
            var between = IsNominal(p.Hz, band) ? "" : "between two nominal frequencies: limits of the nearer one";
            return new BandJudgement(
                band, angleDeg, limits, p, verdict, by, string.Join("; ", new[] { why, between }.Where(t => t.Length > 0)));
        }).OrderByDescending(j => Weight(j.Verdict)).ThenBy(j => Room(limits, j.Point!.Value)).First();
    }

    private static int Weight(BandVerdict verdict) => verdict switch
    {
        BandVerdict.Exceeded => 2,
        BandVerdict.Undecided => 1,
        _ => 0,
    };

    private static double Room(LimitStep step, CurvePoint p) => Math.Min(step.UpperDb - p.LevelDb, p.LevelDb - step.LowerDb);

    private static bool IsNominal(double hz, ThirdOctave band) => IsNear(hz, band.NominalHz) || IsNear(hz, band.MiddleHz);

    private static bool IsNear(double hz, double other) => Math.Abs(hz - other) <= NominalShare * other;

    private static CurvePoint? Same(ResponseCurve? curve, double hz) =>
        curve?.Points.Where(p => IsNear(p.Hz, hz)).OrderBy(p => Math.Abs(p.Hz - hz)).Select(p => (CurvePoint?)p).FirstOrDefault();

    // What is 0 at the reference frequency was stated relative to it, uncertainty included; against itself nothing is added.
    private static CurvePoint Less(CurvePoint point, CurvePoint reference) => DecisionLimit.Rounded(reference.LevelDb) == 0
        ? point
        : IsNear(point.Hz, reference.Hz) ? point with { LevelDb = point.LevelDb - reference.LevelDb } : Difference(point, reference);

    private static CurvePoint Difference(CurvePoint a, CurvePoint b) => new(
        a.Hz, a.LevelDb - b.LevelDb,
        a.ExpandedDb is { } ua && b.ExpandedDb is { } ub ? Math.Sqrt((ua * ua) + (ub * ub)) : null);
}
