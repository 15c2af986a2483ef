using MicRegister.Metrology.Responses;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>A source of facts whose attachments somebody reads.</summary>
internal sealed class SourceWithCurves(IFactSource within, CurveReader read) : IFactSource
{
    public Fact Read(int sequence) => within.Read(sequence);

    public IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Curves(string sha256) => read(sha256);
}
