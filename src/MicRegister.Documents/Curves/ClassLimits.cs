using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Curves;

/// <summary>Acceptance limits of a class over frequency.</summary>
/// <param name="Name">What they are, with their source.</param>
/// <param name="Points">Frequency in Hz with lower and upper limit in dB, in the order of frequency.</param>
public sealed record ClassLimits(string Name, IReadOnlyList<(double Hz, double LowerDb, double UpperDb)> Points)
{
    /// <summary>Class 1 sound level meters; a microphone alone must keep well inside (IEC 61672-1:2013; from memory, unchecked).</summary>
    public static ClassLimits One { get; } = new("class 1 of IEC 61672-1:2013, from memory, unchecked",
    [
        (20, -2, 2), (31.5, -1.5, 1.5), (63, -1, 1), (125, -1, 1), (250, -1, 1), (500, -1, 1), (1000, -0.7, 0.7), (2000, -1, 1), (4000, -1, 1), (8000, -2.5, 1.5), (16000, -16, 2.5),
    ]);

    /// <summary>Points of a curve beyond the limits; between two nominal frequencies the limits lie on the line over the logarithm of frequency, as they are drawn.</summary>
    public IReadOnlyList<CurvePoint> Beyond(ResponseCurve curve) => [.. curve.Points.Where(p => At(p.Hz) is var (lower, upper)
        && !(Metrology.Conformity.DecisionLimit.AtLeast(p.LevelDb, lower) && Metrology.Conformity.DecisionLimit.AtMost(p.LevelDb, upper)))];

    private (double LowerDb, double UpperDb)? At(double hz)
    {
        for (var i = 1; i < Points.Count; i++)
        {
            var (a, b) = (Points[i - 1], Points[i]);
            if (hz < a.Hz || hz > b.Hz) continue;
            var share = Math.Log(hz / a.Hz) / Math.Log(b.Hz / a.Hz);
            return (a.LowerDb + ((b.LowerDb - a.LowerDb) * share), a.UpperDb + ((b.UpperDb - a.UpperDb) * share));
        }
        return null;
    }
}
