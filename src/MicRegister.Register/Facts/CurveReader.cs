using MicRegister.Metrology.Responses;

namespace MicRegister.Register.Facts;

/// <summary>
/// Gives the curves of an attachment by angle of incidence in °, the lowest first, by its SHA-256; null where it is not here or holds no
/// figures.
/// </summary>
public delegate IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? CurveReader(string sha256);
