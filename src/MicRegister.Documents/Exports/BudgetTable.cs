using MicRegister.Metrology.Uncertainty;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Exports;

/// <summary>Where the uncertainties of events come from: one row a station, part of an event and source.</summary>
public static class BudgetTable
{
    private static readonly ExportColumn[] Columns =
    [
        new("campaign", "Campaign", "", "Id of the campaign."), new("event", "Event", "", "Id of the event."),
        AnalysisTable.Begin, AnalysisTable.End, new("station", "Station", "", "Name of the station."),
        AnalysisTable.Recorder, AnalysisTable.Channel,
        new("part", "Part", "", "sensitivity, or mount-and-direction."), new("name", "Quantity", "", "What is not exactly known."),
        new(
            "source", "Source", "",
            "Identity of what it comes from. Rows of one source are fully correlated, whatever their station or event; all others are not."),
        new("standard-uncertainty", "Standard uncertainty", "", "Of the quantity, in the unit beside it.") { Type = ExportType.Number },
        new("unit", "Unit", "", "Unit of the quantity."),
        new(
            "sensitivity-coefficient", "Sensitivity coefficient", "", "Of the level in V/Pa: dB for each unit of the quantity, with its sign.")
        { Type = ExportType.Number },
        new("contribution-db", "Contribution", "dB", "Of the level in V/Pa: coefficient times standard uncertainty, with its sign."),
        new("degrees-of-freedom", "Degrees of freedom", "", "Empty where the standard uncertainty is taken as exact.")
        { Type = ExportType.Number },
        new("distribution", "Distribution", "", "What is assumed of the quantity."),
        new(
            "sensitivity-coefficient-fs", "Sensitivity coefficient in FS/Pa", "",
            "The same of the level in FS/Pa; it differs where the channel's gain converts. Empty where the range is not known.")
        { Type = ExportType.Number },
        new("contribution-fs-db", "Contribution in FS/Pa", "dB", "The same of the level in FS/Pa."),
    ];

    /// <summary>Makes the table.</summary>
    /// <param name="title">What it is of.</param>
    /// <param name="traces">Events in order.</param>
    /// <param name="provenance">Register id, sequence, chain hash, set digest, version.</param>
    public static ExportTable Of(string title, IEnumerable<EventTrace> traces, IReadOnlyList<(string Name, string Value)> provenance) =>
        new(title, Columns, [.. traces.SelectMany(t => t.Stations.SelectMany(s => Rows(t, s)))], provenance);

    private static IEnumerable<IReadOnlyList<ExportCell>> Rows(EventTrace trace, StationTrace s) =>
        (s.Applied?.Sources ?? []).Select(l => (IReadOnlyList<ExportCell>)
        [
            ExportCell.Of(trace.Event.Campaign), ExportCell.Of(trace.Event.Id), ExportCell.Of(AnalysisTable.Time(s.FromMs)),
            ExportCell.Of(AnalysisTable.Time(s.ToMs)), ExportCell.Of(s.Station), ExportCell.Of(s.Recorder),
            ExportCell.Of(s.Channel), ExportCell.Of(AnalysisTable.Words(l.Part.ToString())),
            ExportCell.Of(l.Name), ExportCell.Of(l.Source), ExportCell.Of(l.StandardUncertainty), ExportCell.Of(l.Unit),
            ExportCell.Of(l.Sensitivity), ExportCell.Of(l.ContributionDb), ExportCell.Of(l.DegreesOfFreedom),
            ExportCell.Of(l.Distribution == UncertaintyDistribution.UShaped ? "u-shaped" : AnalysisTable.Words(l.Distribution.ToString())),
            ExportCell.Of(l.FullScaleSensitivity), ExportCell.Of(l.FullScaleContributionDb),
        ]);
}
