using System.Collections.Concurrent;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Calibration;

/// <summary>
/// The curves that certificates of a register name. They are attachments, told by their SHA-256: the same name is always the same curve, so
/// that what is worked out of them follows from the facts as long as they are here.
/// </summary>
/// <param name="read">Reads a curve.</param>
/// <param name="changes">What was worked out of pairs of them.</param>
internal sealed class CurveShelf(CurveReader read, CurveChanges changes)
{
    /// <summary>Without any curve.</summary>
    public static CurveShelf None { get; } = new(_ => null, new());

    /// <summary>The curves of an attachment by angle; null where it is not here or holds no figures.</summary>
    public IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? Read(string sha256) => read(sha256);

    /// <summary>What a curve is against an earlier one, angle by angle; null where one of them cannot be read here.</summary>
    public IReadOnlyList<AngleChange>? Change(string now, string before) => changes.Of(read, now, before);
}

/// <summary>Changes between pairs of curves, each worked out once.</summary>
internal sealed class CurveChanges
{
    private const int MostPairs = 4000;

    private readonly ConcurrentDictionary<(string Now, string Before), IReadOnlyList<AngleChange>> _known = new();

    /// <summary>What a curve is against an earlier one; null where one of them cannot be read here.</summary>
    public IReadOnlyList<AngleChange>? Of(CurveReader read, string now, string before)
    {
        if (_known.TryGetValue((now, before), out var known)) return known;
        if (read(now) is not { } later || read(before) is not { } earlier) return null;
        if (_known.Count >= MostPairs) _known.Clear();
        return _known[(now, before)] = AngleChange.Of(later, earlier);
    }
}

/// <summary>What a curve is against an earlier one at an angle of incidence.</summary>
/// <param name="AngleDeg">The angle in °; null where the tables name none.</param>
/// <param name="Change">Band by band; null where only one of the two has that angle.</param>
internal sealed record AngleChange(double? AngleDeg, CurveChange? Change)
{
    public static IReadOnlyList<AngleChange> Of(
        IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> now, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> before)
    {
        ResponseCurve? At(IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> table, double? angle) =>
            table.Where(t => t.AngleDeg == angle).Select(t => t.Curve).FirstOrDefault();
        return [.. now.Concat(before).Select(t => t.AngleDeg).Distinct().Order().Select(angle => new AngleChange(
            angle, At(now, angle) is { } later && At(before, angle) is { } earlier ? CurveChange.Of(later, earlier) : null))];
    }
}

/// <summary>The curves of a register.</summary>
internal static class CurvesOfRegister
{
    extension(Register register)
    {
        internal CurveShelf CurveShelf => new(register.Source.Curves, register.Lasting<CurveChanges>());
    }
}
