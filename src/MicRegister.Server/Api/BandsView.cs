using MicRegister.Register.Tracing;

namespace MicRegister.Server.Api;

/// <summary>The corrections of a station by third-octave band.</summary>
/// <param name="Station">Name of the station.</param>
/// <param name="From">Begin of the event or of its part.</param>
/// <param name="To">Its end.</param>
/// <param name="AngleDeg">Angle of incidence in °; null where nobody stated one.</param>
/// <param name="HalfWidthDeg">How far it may lie from there, in °.</param>
/// <param name="AngleSource">Where the angle comes from.</param>
/// <param name="ReferenceHz">Frequency that responses are relative to, in Hz.</param>
/// <param name="Bands">From the lowest; empty where no sensitivity is known.</param>
/// <param name="Cautions">What must be known of them.</param>
public sealed record BandsView(
    string Station, DateTimeOffset From, DateTimeOffset To, double? AngleDeg, double HalfWidthDeg, string? AngleSource,
    double? ReferenceHz, IReadOnlyList<BandsView.Band> Bands, IReadOnlyList<string> Cautions)
{
    public static BandsView Of(StationTrace s, BandCorrections? c) => new(
        s.Station, DateTimeOffset.FromUnixTimeMilliseconds(s.FromMs), DateTimeOffset.FromUnixTimeMilliseconds(s.ToMs),
        c?.AngleDeg, c?.HalfWidthDeg ?? 0, c?.AngleSource, c?.ReferenceHz,
        [.. c?.Bands.Select(b => new Band(
            Math.Round(b.Band.NominalHz, 6), b.Terms, b.NormalisationDb, b.TotalDb, b.ExpandedDb, b.CoverageFactor,
            b.IsWithinMount, b.Sensitivity, b.MountAndDirection, TraceView.UnitView.Of(b.InFullScale))) ?? []],
        c?.Cautions ?? ["No sensitivity is known."]);

    /// <summary>The angle in words.</summary>
    public static string Angle(BandCorrections c)
    {
        if (c.AngleDeg is not { } angle) return "from an angle that nobody stated";
        var halfWidth = c.HalfWidthDeg > 0 ? FormattableString.Invariant($" ± {c.HalfWidthDeg:0.#}°") : "";
        return FormattableString.Invariant($"from {angle:0.#}°{halfWidth}");
    }

    /// <summary>One band.</summary>
    /// <param name="ExpandedDb">U in dB with the sensitivity in V/Pa applied.</param>
    /// <param name="InFullScale">The same with that in full scale/Pa; null with the correction, and where the range is not known.</param>
    public sealed record Band(
        double Hz, IReadOnlyList<BandTerm> Terms, double NormalisationDb, double? CorrectionDb, double? ExpandedDb,
        double CoverageFactor, bool IsWithinMount, PartUncertainty? Sensitivity, PartUncertainty? MountAndDirection,
        TraceView.UnitView? InFullScale);
}
