using System.Collections.Concurrent;
using MicRegister.Documents.Curves;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Calibration;

namespace MicRegister.Server.Work;

/// <summary>The curves among the attachments of a store, each read once.</summary>
/// <param name="open">Opens an attachment by its SHA-256; null where it is not here.</param>
internal sealed class StoredCurves(Func<string, Stream?> open)
{
    private const int MostCurves = 2000;

    private readonly ConcurrentDictionary<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>> _known =
        new(StringComparer.Ordinal);

    /// <summary>The curves of a store, and its register told to read them.</summary>
    public static StoredCurves Of(Register.Register register, Func<string, Stream?> open)
    {
        var curves = new StoredCurves(open);
        register.ReadCurvesBy(curves.Read);
        return curves;
    }

    /// <summary>The curves of an attachment by angle of incidence, the lowest first; null where it is not here or cannot be read.</summary>
    public IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Read(string sha)
    {
        // The same bytes hold the same curves.
        if (_known.TryGetValue(sha, out var known)) return known;
        if (CurveFile.ReadByAngle(open, sha) is not { } read) return null;
        if (_known.Count >= MostCurves) _known.Clear();
        return _known[sha] = read;
    }
}
