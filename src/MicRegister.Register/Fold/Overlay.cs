using MicRegister.Metrology.Responses;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>Further facts on top of a source, for a register that is stored nowhere.</summary>
internal sealed class Overlay(IFactSource below, int count, IReadOnlyList<Fact> above) : IFactSource
{
    public Fact Read(int sequence) => sequence <= count ? below.Read(sequence) : above[sequence - count - 1];

    public IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Curves(string sha256) => below.Curves(sha256);
}
