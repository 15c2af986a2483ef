using System.Collections.Concurrent;
using MicRegister.Metrology.Responses;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Calibration;

/// <summary>Gives the curves of an attachment by angle, by its SHA-256; null where it is not here or holds no figures.</summary>
public delegate IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? CurveReader(string sha256);

/// <summary>
/// The curves that certificates of a register name. They are attachments, told by their SHA-256: the same name is always the same curve, so
/// that what is worked out of them follows from the facts as long as they are here.
/// </summary>
internal sealed class CurveShelf : IOfAllStates
{
    private const int MostPairs = 4000;

    private readonly ConcurrentDictionary<(string Now, string Before), IReadOnlyList<AngleChange>> _changes = new();

    /// <summary>Reads a curve; nothing where nobody gave a reader.</summary>
    public CurveReader Read { get; set; } = static _ => null;

    /// <summary>What a curve is against an earlier one, angle by angle; null where one of them cannot be read here.</summary>
    public IReadOnlyList<AngleChange>? Change(string now, string before)
    {
        if (_changes.TryGetValue((now, before), out var known)) return known;
        if (Read(now) is not { } later || Read(before) is not { } earlier) return null;
        if (_changes.Count >= MostPairs) _changes.Clear();
        return _changes[(now, before)] = AngleChange.Of(later, earlier);
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
public static class CurvesOfRegister
{
    extension(Register register)
    {
        /// <summary>Says how curves are read, for this state of the register and for all that come of it.</summary>
        public void ReadCurvesBy(CurveReader reader) => register.CurveShelf.Read = reader;

        internal CurveShelf CurveShelf => register.Lasting<CurveShelf>();
    }
}
