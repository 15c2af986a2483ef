using System.Collections.Concurrent;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Curves;

/// <summary>Reads the curves of attachments and keeps what was read: the same bytes hold the same curves.</summary>
/// <param name="open">Opens an attachment by its SHA-256; null where it is not here.</param>
public sealed class CurveShelf(Func<string, Stream?> open)
{
    private const int Most = 2000;

    private readonly ConcurrentDictionary<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>> _read =
        new(StringComparer.Ordinal);

    /// <summary>
    /// The curves by angle of incidence, the lowest first; null where they are not here, which may change, or cannot be read.
    /// </summary>
    public IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Read(string sha256)
    {
        if (_read.TryGetValue(sha256, out var known)) return known;
        if (CurveFile.ReadByAngle(open, sha256) is not { } read) return null;
        if (_read.Count >= Most) _read.Clear();
        return _read[sha256] = read;
    }
}
