namespace MicRegister.Documents.Curves;

/// <summary>Acceptance limits of a class over frequency.</summary>
/// <param name="Name">What they are, with their source.</param>
/// <param name="Points">Frequency in Hz with lower and upper limit in dB, in the order of frequency.</param>
public sealed record ClassLimits(string Name, IReadOnlyList<(double Hz, double LowerDb, double UpperDb)> Points)
{
    private const double HalfThird = 1.122462048; // 2^(1/6)

    /// <summary>Class 1 sound level meters; a microphone alone must keep well inside (IEC 61672-1:2013; from memory, unchecked).</summary>
    public static ClassLimits One { get; } = new("class 1 of IEC 61672-1:2013, from memory, unchecked",
    [
        (20, -2, 2), (31.5, -1.5, 1.5), (63, -1, 1), (125, -1, 1), (250, -1, 1), (500, -1, 1), (1000, -0.7, 0.7), (2000, -1, 1), (4000, -1, 1), (8000, -2.5, 1.5), (16000, -16, 2.5),
    ]);

    /// <summary>Points of a curve beyond the limits, held against the limit of the nominal frequency within a sixth of an octave.</summary>
    public IReadOnlyList<CurvePoint> Beyond(ResponseCurve curve) => [.. curve.Points.Where(p => Points.FirstOrDefault(l => p.Hz > l.Hz / HalfThird && p.Hz < l.Hz * HalfThird) is { Hz: > 0 } limit
        && !(Metrology.Conformity.DecisionLimit.AtLeast(p.LevelDb, limit.LowerDb) && Metrology.Conformity.DecisionLimit.AtMost(p.LevelDb, limit.UpperDb)))];
}
