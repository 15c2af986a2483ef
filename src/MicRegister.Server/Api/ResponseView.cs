using MicRegister.Metrology.ResponseLimits;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Api;

/// <summary>What a device's stored response says of printed limits.</summary>
/// <param name="Limits">Stored words of the limits, with their edition.</param>
/// <param name="Source">Document, edition and clause of the limits.</param>
/// <param name="Mark">How sure it is that the limits are the document's.</param>
/// <param name="About">What must be known of any curve that is held against them; empty where nothing.</param>
/// <param name="Certificates">Ids of the certificates whose curves were judged; empty where none is stored.</param>
/// <param name="ReferenceHz">Frequency in Hz that deviations are relative to; null for limits by angle.</param>
/// <param name="Verdict">
/// Exceeded where a band is, else undecided where a band with a limit is open or nothing can be judged, else met.
/// </param>
/// <param name="Bands">Band by band, by angle where limits are; empty where nothing can be judged.</param>
/// <param name="Remarks">What was assumed or must be known; empty where nothing.</param>
/// <param name="Open">Why nothing can be judged; null where something is.</param>
public sealed record ResponseView(
    string Limits, string Source, string Mark, string About, IReadOnlyList<string> Certificates, double? ReferenceHz, BandVerdict Verdict,
    IReadOnlyList<BandLimitView> Bands, IReadOnlyList<string> Remarks, string? Open)
{
    internal static ResponseView Of(ResponseConformity c) => new(
        c.Table, c.Source, c.Mark, c.About, [.. c.Certificates.Select(f => f.Fact.ToString())], c.ReferenceHz, Summary(c),
        [.. c.Bands.Select(BandLimitView.Of)], c.Remarks, c.Open);

    /// <summary>The table that a device is judged by: the one asked for, else the one that it states, else class 1 of meters.</summary>
    internal static ResponseTable TableOf(DeviceState device, string? asked) =>
        ResponseTable.Find(asked) ?? ResponseConformity.StatedTable(device) ?? ResponseTable.Class1Of2013;

    internal static BandVerdict Summary(ResponseConformity c) =>
        c.Bands.Any(b => b.Verdict == BandVerdict.Exceeded) ? BandVerdict.Exceeded
        : c.Open is not null || c.Bands.Any(b => b.Step is not null && b.Verdict != BandVerdict.Met) ? BandVerdict.Undecided
        : BandVerdict.Met;
}

/// <summary>A device's response over frequency and by angle.</summary>
/// <param name="OverFrequency">By the limits that were asked for, else those that the device states, else class 1 of meters.</param>
/// <param name="ByAngle">By limits of the differences from 0°.</param>
public sealed record ResponsesView(ResponseView OverFrequency, ResponseView ByAngle);

/// <summary>What a curve says about the limits of one band.</summary>
/// <param name="NominalHz">Nominal middle of the band in Hz.</param>
/// <param name="AngleDeg">Angle of incidence in °; null for limits over frequency.</param>
/// <param name="LowerDb">Least deviation allowed in dB; null where there is no lower limit.</param>
/// <param name="UpperDb">Greatest deviation allowed in dB; null where the table has no limit.</param>
/// <param name="MostExpandedDb">Greatest U (k = 2) permitted in dB; null where the document states none.</param>
/// <param name="Hz">Frequency of the point that decides, in Hz; null where the curve has none there.</param>
/// <param name="DeviationDb">Its deviation in dB.</param>
/// <param name="ExpandedDb">U (k = 2) of it in dB; null where none is stated.</param>
/// <param name="Verdict">What it comes to.</param>
/// <param name="ByDb">How far outside of the limits in dB; null where it is not.</param>
/// <param name="Why">Why it is open, and what must be known; empty where nothing.</param>
public sealed record BandLimitView(
    double NominalHz, double? AngleDeg, double? LowerDb, double? UpperDb, double? MostExpandedDb, double? Hz, double? DeviationDb,
    double? ExpandedDb, BandVerdict Verdict, double? ByDb, string Why)
{
    internal static BandLimitView Of(BandJudgement b) => new(
        b.Band.NominalHz, b.AngleDeg, b.Step is { LowerDb: var low } && double.IsFinite(low) ? low : null, b.Step?.UpperDb,
        b.Step?.MostExpandedDb, b.Point?.Hz, b.Point?.LevelDb, b.Point?.ExpandedDb, b.Verdict, b.ByDb, b.Why);
}
