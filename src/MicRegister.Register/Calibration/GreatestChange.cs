using MicRegister.Metrology.Responses;

namespace MicRegister.Register.Calibration;

/// <summary>The greatest change of all bands and angles.</summary>
/// <param name="AngleDeg">Angle of incidence in °; null where the tables name none.</param>
/// <param name="Change">The change in its band.</param>
internal readonly record struct GreatestChange(double? AngleDeg, BandChange Change)
{
    /// <summary>Where it is, as in "at 1000 Hz and 30°".</summary>
    public string Where => FormattableString.Invariant($"at {Change.Band.NominalHz:0.###} Hz")
        + (AngleDeg is { } angle ? FormattableString.Invariant($" and {angle:0.###}°") : "");

    /// <summary>The greatest; of equal ones the lowest angle and band. Null where nothing can be compared.</summary>
    public static GreatestChange? Of(IReadOnlyList<AngleChange>? angles) => All(angles ?? [])
        .Select(g => (GreatestChange?)g).MaxBy(g => Math.Abs(g!.Value.Change.Db));

    /// <summary>All changes, angle by angle.</summary>
    public static IEnumerable<GreatestChange> All(IEnumerable<AngleChange> angles) =>
        angles.SelectMany(a => a.Change?.Bands.Select(b => new GreatestChange(a.AngleDeg, b)) ?? []);
}
