using MicRegister.Metrology.Responses;

namespace MicRegister.Register.Facts;

/// <summary>Gives the facts of one log by their sequence. The bytes come from the log itself; the register keeps keys, not bodies.</summary>
public interface IFactSource
{
    /// <summary>The fact with a sequence from 1 on.</summary>
    Fact Read(int sequence);

    /// <summary>The curves of an attachment that a fact names (<see cref="CurveReader"/>); null also where nobody reads them here.</summary>
    IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Curves(string sha256) => null;
}
