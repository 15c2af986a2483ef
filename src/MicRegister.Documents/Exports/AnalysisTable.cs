using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Exports;

/// <summary>What the analysis needs of events: one row a station and part of an event.</summary>
public static class AnalysisTable
{
    internal static readonly ExportColumn Begin =
        new("start-utc", "Begin", "", "Begin of the event or of its part, UTC.") { Type = ExportType.Instant };

    internal static readonly ExportColumn End =
        new("stop-utc", "End", "", "End of the event or of its part, UTC.") { Type = ExportType.Instant };

    internal static readonly ExportColumn Coverage =
        new("coverage-factor", "Coverage factor", "", "k, for 95.45 %.") { Type = ExportType.Number };

    internal static readonly ExportColumn Recorder = new("recorder", "Recorder", "", "Recorder of the channel, as its files name it.");

    internal static readonly ExportColumn Channel =
        new("channel", "Channel", "", "Number of the channel in the recorder's files.") { Type = ExportType.Number };

    /// <summary>How well a level in FS/Pa is known; the table of bands has the same columns.</summary>
    internal static readonly ExportColumn[] InFullScale =
    [
        new(
            "expanded-uncertainty-fs-db", "Expanded uncertainty in FS/Pa", "dB",
            "The same as expanded-uncertainty-db with the sensitivity in FS/Pa: the gain of the recorder channel counts in the one or the "
                + "other, by how the sensitivity was told. Empty where the range is not known."),
        new("coverage-factor-fs", "Coverage factor in FS/Pa", "", "k of that, for 95.45 %.") { Type = ExportType.Number },
        new(
            "expanded-uncertainty-sensitivity-fs-db", "U of the sensitivity in FS/Pa", "dB",
            "Without what mount and direction make of it."),
    ];

    private static readonly ExportColumn[] Columns =
    [
        new("campaign", "Campaign", "", "Id of the campaign."), new("event", "Event", "", "Id of the event."), new("event-name", "Event's name", "", "Name as people call it."),
        Begin, End,
        new("station", "Station", "", "Name of the station."), new("latitude-deg", "Latitude", "°", "WGS84 latitude: see place-by."), new("longitude-deg", "Longitude", "°", "WGS84 longitude: see place-by."),
        new("placed-latitude-deg", "Latitude as placed", "°", "By the phone that placed it."), new("placed-longitude-deg", "Longitude as placed", "°", "By the phone that placed it."), new("mount", "Mount", "", "How the microphone stands."), new("height-m", "Height", "m", "Height of the diaphragm over ground or plate: see height-by; empty is the mount's usual one."),
        Recorder, Channel,
        new("microphone", "Microphone", "", "Serial number."), new("preamplifier", "Preamplifier", "", "Serial number."), new("plate", "Plate", "", "Serial number."), new("devices", "Devices", "", "Label codes, or ids where there is none, of all devices of the chain."),
        new("sensitivity-v-per-pa", "Sensitivity", "V/Pa", "To be applied to voltages."), new("sensitivity-fs-per-pa", "Sensitivity", "FS/Pa", "To be applied to samples as parts of full scale."), new("sensitivity-db", "Sensitivity level", "dB re 1 V/Pa", "The same as a level."),
        new("rule", "Rule", "", "How the sensitivity was told."), new("environment-db", "Environmental correction", "dB", "Part of the level that comes from the air of the event."), new("normalisation-db", "Normalisation", "dB", "To be added to a measured level for the free field."),
        new("usable-from-hz", "Usable from", "Hz", "Lowest frequency of that normalisation."), new("usable-to-hz", "Usable to", "Hz", "Highest frequency; empty where the mount sets none."), new("caution", "Caution", "", "What must be known of the normalisation, and of the air."),
        new(
            "expanded-uncertainty-db", "Expanded uncertainty", "dB",
            "Of the sensitivity level in V/Pa and its normalisation; in FS/Pa see expanded-uncertainty-fs-db."),
        Coverage,
        new("expanded-uncertainty-sensitivity-db", "U of the sensitivity", "dB", "Of the sensitivity level in V/Pa alone."),
        new("expanded-uncertainty-mount-db", "U of mount and direction", "dB", "Of what mount and direction make of a level, alone."),
        new("uncertainty-note", "Note on U", "", "What must be known of the uncertainty."),
        new("verdict", "Verdict", "", "valid, doubtful, undecided or not-valid."), new("reasons", "Reasons", "", "Why, each with its source."), new("check-before", "Check before", "", "Id of the fact."), new("check-after", "Check after", "", "Id of the fact."), new("placement", "Placement", "", "Id of the fact."), new("certificate", "Certificate", "", "Id of the microphone's certificate in force."),
        new("in-place", "Compared in place", "", "Ids of the comparisons with other chains around it."), new("incidence-deg", "Angle of incidence", "°", "0 along the microphone's axis, 90 grazing; empty where nobody stated one."),
        new("place-by", "Place by", "", "Whether latitude and longitude are surveyed or planned; empty where the station was not planned."),
        new(
            "horizontal-uncertainty-m", "Uncertainty of the place", "m",
            "Standard uncertainty of each coordinate; empty where it was not surveyed."),
        new("height-by", "Height by", "", "Whether the height is surveyed, planned or the mount's usual one."),
        new("altitude-m", "Altitude", "m", "Surveyed altitude of the ground above sea level."),
        new(
            "vertical-uncertainty-m", "Uncertainty of the height", "m",
            "Standard uncertainty of altitude and height; empty where they were not surveyed."),
        new("survey", "Survey", "", "Id of the fact."),
        .. InFullScale,
    ];

    /// <summary>Makes the table.</summary>
    /// <param name="title">What it is of.</param>
    /// <param name="traces">Events in order.</param>
    /// <param name="provenance">Register id, sequence, chain hash, set digest, version.</param>
    public static ExportTable Of(string title, IEnumerable<EventTrace> traces, IReadOnlyList<(string Name, string Value)> provenance) => new(title, Columns, [.. traces.SelectMany(t => t.Stations.Select(s => Row(t, s)))], provenance);

    private static IReadOnlyList<ExportCell> Row(EventTrace trace, StationTrace s)
    {
        var applied = s.Applied;
        double? environment = applied?.Terms.Where(t => t.Name.EndsWith("to the air of the event", StringComparison.Ordinal)).Sum(t => t.ValueDb);
        return
        [
            ExportCell.Of(trace.Event.Campaign), ExportCell.Of(trace.Event.Id), ExportCell.Of(trace.Event.Name), ExportCell.Of(Time(s.FromMs)), ExportCell.Of(Time(s.ToMs)),
            ExportCell.Of(s.Station), ExportCell.Of(s.Place?.LatitudeDeg), ExportCell.Of(s.Place?.LongitudeDeg), ExportCell.Of(s.Placement?.Said.Position?.LatitudeDeg), ExportCell.Of(s.Placement?.Said.Position?.LongitudeDeg), ExportCell.Of(s.Plan is { } plan ? Words(plan.Mount.ToString()) : null), ExportCell.Of(s.Place?.HeightM),
            ExportCell.Of(s.Recorder), ExportCell.Of(s.Channel),
            ExportCell.Of(s.Of(DeviceKind.Microphone)?.Serial), ExportCell.Of(s.Of(DeviceKind.Preamplifier)?.Serial), ExportCell.Of(s.Of(DeviceKind.GroundPlate)?.Serial), ExportCell.Of(string.Join(' ', s.Chain.Select(d => d.Label ?? d.Id))),
            ExportCell.Of(applied?.VoltsPerPascal), ExportCell.Of(applied?.FullScalePerPascal), ExportCell.Of(applied?.VoltsDb),
            ExportCell.Of(applied is null ? null : Words(applied.Rule.ToString())), ExportCell.Of(environment), ExportCell.Of(applied?.NormalisationDb),
            ExportCell.Of(applied?.UsableFromHz), ExportCell.Of(applied is { } a && double.IsFinite(a.UsableToHz) ? a.UsableToHz : null), ExportCell.Of(applied?.Caution),
            ExportCell.Of(applied?.ExpandedDb), ExportCell.Of(applied?.CoverageFactor),
            ExportCell.Of(applied?.Part(UncertaintyPart.Sensitivity).ExpandedDb),
            ExportCell.Of(applied?.Part(UncertaintyPart.MountAndDirection).ExpandedDb), ExportCell.Of(applied?.UncertaintyNote),
            ExportCell.Of(Words(s.Verdict.ToString())), ExportCell.Of(string.Join(" | ", s.Reasons.Select(r => $"{r.Text} [{r.Source}]"))), ExportCell.Of(s.Before?.Fact.ToString()), ExportCell.Of(s.After?.Fact.ToString()), ExportCell.Of(s.Placement?.Fact.ToString()),
            ExportCell.Of(s.Links.FirstOrDefault(l => l.Depth == 0 && l.Device.Kind == DeviceKind.Microphone.Key)?.Certificate?.Fact.ToString()),
            ExportCell.Of(string.Join(' ', s.InPlace.Select(k => k.Fact))), ExportCell.Of(s.Incidence?.Said.AngleDeg),
            ExportCell.Of(s.Place?.PlaceBy), ExportCell.Of(s.Place?.Survey?.Said.HorizontalStandardM), ExportCell.Of(s.Place?.HeightBy),
            ExportCell.Of(s.Place?.Survey?.Said.AltitudeM), ExportCell.Of(s.Place?.Survey?.Said.VerticalStandardM),
            ExportCell.Of(s.Place?.Survey?.Fact),
            .. Of(applied?.InFullScale),
        ];
    }

    internal static IEnumerable<ExportCell> Of(UnitUncertainty? known) =>
    [
        ExportCell.Of(known?.ExpandedDb), ExportCell.Of(known?.CoverageFactor),
        ExportCell.Of(known?.Part(UncertaintyPart.Sensitivity).ExpandedDb),
    ];

    internal static string Time(long ms) => Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(ms)).ToString();

    // MeanOfChecks becomes mean-of-checks.
    internal static string Words(string name) => string.Concat(name.Select((c, i) => char.IsUpper(c) ? (i > 0 ? "-" : "") + char.ToLowerInvariant(c) : c.ToString()));
}
