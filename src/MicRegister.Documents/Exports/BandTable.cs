using MicRegister.Metrology.Responses;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Exports;

/// <summary>Corrections by third-octave band for the analysis: one row a station, part of an event, angle and band.</summary>
public static class BandTable
{
    private static readonly ExportColumn[] Columns =
    [
        new("campaign", "Campaign", "", "Id of the campaign."), new("event", "Event", "", "Id of the event."),
        AnalysisTable.Begin, AnalysisTable.End,
        new("station", "Station", "", "Name of the station."), AnalysisTable.Recorder, AnalysisTable.Channel,
        new("microphone", "Microphone", "", "Serial number."),
        new("incidence-deg", "Angle of incidence", "°", "0 along the microphone's axis, 90 grazing; empty where nobody stated one."), new("incidence-half-width-deg", "Half-width", "°", "How far the angle may lie from there."), new("incidence-source", "Where the angle comes from", "", "Id of the fact; asked for; or not stated."),
        new("band-hz", "Band", "Hz", "Nominal middle of the third-octave band."), new("reference-hz", "Reference frequency", "Hz", "Frequency of the sensitivity, which responses are relative to."),
        new("response-db", "Response", "dB", "To be added for the responses of the chain's devices."), new("windscreen-db", "Windscreen", "dB", "To be added for what the windscreen takes away."), new("normalisation-db", "Normalisation", "dB", "To be added for the mount."),
        new("correction-db", "Correction", "dB", "To be added to the band's level: the sum. Empty where a curve does not reach the band."), new("expanded-uncertainty-db", "Expanded uncertainty", "dB", "Of the level with the sensitivity in V/Pa and the correction applied."), AnalysisTable.Coverage,
        new("expanded-uncertainty-sensitivity-db", "U of the sensitivity", "dB", "Of the sensitivity in V/Pa and responses alone."),
        new("expanded-uncertainty-mount-db", "U of mount and direction", "dB", "Of what mount and direction make of a level, alone."),
        new("within-mount", "Mount holds", "", "yes or no: whether the mount keeps its normalisation in the band."), new("sources", "Sources", "", "Certificates of the curves."), new("cautions", "Cautions", "", "What must be known of the corrections."),
        .. AnalysisTable.InFullScale,
    ];

    /// <summary>Makes the table.</summary>
    /// <param name="title">What it is of.</param>
    /// <param name="plan">States the band of interest.</param>
    /// <param name="traces">Events in order.</param>
    /// <param name="read">Gives the curves of an attachment, by its SHA-256.</param>
    /// <param name="angles">Angles of incidence in ° to work out; empty takes the stated ones.</param>
    /// <param name="provenance">Register id, sequence, chain hash, set digest, version.</param>
    public static ExportTable Of(string title, CampaignPlanned? plan, IEnumerable<EventTrace> traces, Func<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>?> read, IReadOnlyList<double> angles, IReadOnlyList<(string Name, string Value)> provenance) =>
        new(title, Columns, [.. traces.SelectMany(t => t.Stations.SelectMany(s => Rows(t.Event, s, plan, read, angles)))], provenance);

    private static IEnumerable<IReadOnlyList<ExportCell>> Rows(RecordedEvent what, StationTrace s, CampaignPlanned? plan, Func<string, IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>?> read, IReadOnlyList<double> angles)
    {
        foreach (var angle in angles.Count == 0 ? [null] : angles.Cast<double?>())
        {
            if (BandCorrections.Of(s, plan, read, angle) is not { } corrections)
            {
                yield return
                [
                    ExportCell.Of(what.Campaign), ExportCell.Of(what.Id), ExportCell.Of(AnalysisTable.Time(s.FromMs)), ExportCell.Of(AnalysisTable.Time(s.ToMs)), ExportCell.Of(s.Station),
                    ExportCell.Of(s.Recorder), ExportCell.Of(s.Channel), ExportCell.Of(s.Of(DeviceKind.Microphone)?.Serial),
                    .. Enumerable.Repeat(ExportCell.Nothing, Columns.Length - 9 - AnalysisTable.InFullScale.Length),
                    ExportCell.Of("No sensitivity is known."), .. AnalysisTable.Of(null),
                ];
                yield break;
            }
            var cautions = string.Join(" | ", corrections.Cautions);
            foreach (var b in corrections.Bands) yield return Row(what, s, corrections, b, cautions);
        }
    }

    private static IReadOnlyList<ExportCell> Row(RecordedEvent what, StationTrace s, BandCorrections c, BandCorrection b, string cautions) =>
    [
        ExportCell.Of(what.Campaign), ExportCell.Of(what.Id), ExportCell.Of(AnalysisTable.Time(s.FromMs)), ExportCell.Of(AnalysisTable.Time(s.ToMs)), ExportCell.Of(s.Station),
        ExportCell.Of(s.Recorder), ExportCell.Of(s.Channel), ExportCell.Of(s.Of(DeviceKind.Microphone)?.Serial),
        ExportCell.Of(c.AngleDeg), ExportCell.Of(c.AngleDeg is null ? null : c.HalfWidthDeg), ExportCell.Of(c.AngleSource), ExportCell.Of(Math.Round(b.Band.NominalHz, 6)), ExportCell.Of(c.ReferenceHz),
        ExportCell.Of(Sum(b, CurveActs.Response)), ExportCell.Of(Sum(b, CurveActs.InsertionLoss)), ExportCell.Of(b.NormalisationDb), ExportCell.Of(b.TotalDb), ExportCell.Of(b.ExpandedDb), ExportCell.Of(b.TotalDb is null ? null : b.CoverageFactor),
        ExportCell.Of(b.Sensitivity?.ExpandedDb), ExportCell.Of(b.MountAndDirection?.ExpandedDb),
        ExportCell.Of(b.IsWithinMount ? "yes" : "no"), ExportCell.Of(string.Join(" | ", b.Terms.Select(t => t.Source))), ExportCell.Of(cautions),
        .. AnalysisTable.Of(b.InFullScale),
    ];

    private static double? Sum(BandCorrection b, CurveActs acts) => b.Terms.Any(t => t.Acts == acts) ? b.Terms.Where(t => t.Acts == acts).Sum(t => t.ValueDb) : null;
}
