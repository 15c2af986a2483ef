using MicRegister.Documents.Import;

namespace MicRegister.Documents.Exports;

/// <summary>An empty table to fill in, whose headers are understood without a question.</summary>
/// <param name="Key">Its name in addresses.</param>
/// <param name="Title">What its rows are.</param>
/// <param name="Columns">Its columns: header, what it holds, and an invented example.</param>
public sealed record ImportTemplate(string Key, string Title, IReadOnlyList<TemplateColumn> Columns)
{
    /// <summary>One for each sort of table that is understood.</summary>
    public static IReadOnlyList<ImportTemplate> All { get; } =
    [
        new("devices", "devices with their details, place and state of use",
        [
            Of(Column.Kind, "Kind", "microphone"), Of(Column.Maker, "Maker", "Own workshop"), Of(Column.Model, "Model", "M-12"),
            Of(Column.Serial, "Serial", "1001"), Of("inventory-code", "Inventory code", "INV-1001"), Of("size-mm", "Size [mm]", "12.7"),
            Of(Column.Place, "Location", "Cupboard 1"), Of(Column.Status, "Status", "in service"), Of("owner", "Owner", "Acoustics"),
            Of("interval-months", "Calibration interval [months]", "24"), Of(Column.Note, "Note", "bought as a pair"),
        ]),
        new("results", "results of calibrations, a row each",
        [
            Of(Column.Kind, "Kind", "microphone"), Of(Column.Model, "Model", "M-12"), Of(Column.Serial, "Serial", "1001"),
            Of(Column.Day, "Calibration date", "2026-03-04"), Of(Column.Value, "Sensitivity [dB re 1 V/Pa]", "-38.06"),
            Of(Column.Uncertainty, "Uncertainty [dB]", "0.06"), Of(Column.Factor, "Coverage factor", "2"),
            Of(Column.CalibrationHz, "Calibration frequency [Hz]", "250"), Of(Column.Laboratory, "Laboratory", "House laboratory"),
            Of(Column.Certificate, "Certificate no.", "C-2026-17"), Of(Column.Due, "Due date", "2028-03-04"),
        ]),
        new("inspections", "inspections of plates, windscreens and other devices",
        [
            Of(Column.Kind, "Kind", "ground plate"), Of(Column.Model, "Model", "GP-400"), Of(Column.Serial, "Serial", "GP001"),
            Of(Column.Inspected, "Inspection date", "2026-04-01"), Of(Column.Passed, "Inspection result", "yes"),
            Of(Column.FlushStep, "Flush step [mm]", "-0.05"), Of(Column.Flatness, "Flatness [mm]", "0.4"),
        ]),
        new("campaigns", "campaigns with their days, site and requirements",
        [
            Of(Column.Campaign, "Campaign", "Heronfield 27"), Of(Column.FirstDay, "First day", "2027-05-03"),
            Of(Column.LastDay, "Last day", "2027-05-14"), Of(Column.Zone, "Time zone", "UTC"), Of(Column.Offset, "UTC offset", "0"),
            Of(Column.Site, "Site", "Heronfield"), Of(Column.Altitude, "Altitude [m]", "120"), Of(Column.Source, "Source", "propeller"),
            Of(Column.BandFrom, "Band from [Hz]", "50"), Of(Column.BandTo, "Band to [Hz]", "10000"),
            Of(Column.QuietDb, "Lowest level [dB]", "40"), Of(Column.LoudDb, "Expected level [dB]", "110"),
            Of(Column.Profile, "Profile", "engineering-practice"), Of(Column.Losses, "Permitted losses", "2"),
            Of(Column.SparesWanted, "Spares wanted", "3"),
        ]),
        new("stations", "stations of a campaign with the serial numbers of their chains",
        [
            Of(Column.Campaign, "Campaign", "Heronfield 27"), Of(Column.Station, "Station", "S01"), Of(Column.Latitude, "Latitude", "52.1"),
            Of(Column.Longitude, "Longitude", "1.2"), Of(Column.Mount, "Mount", "flush plate"), Of(Column.Height, "Height [m]", "0"),
            Of("station-microphone", "Microphone", "1001"), Of("station-preamplifier", "Preamplifier", ""),
            Of("station-plate", "Plate", "GP001"), Of("station-channel", "Channel", ""),
        ]),
        new("kit", "spares and what checks are made with, for a campaign",
        [
            Of(Column.Campaign, "Campaign", "Heronfield 27"), Of(Column.Purpose, "Purpose", "spare"), Of(Column.Kind, "Kind", "microphone"),
            Of(Column.Serial, "Serial", "1001"),
        ]),
        new("limits", "limits of requirement profiles",
        [
            Of(Column.Profile, "Profile", "own-practice"), Of(Column.Limit, "Limit", "interval-months/microphone/sensitivity"),
            Of(Column.Value, "Value", "24"), Of(Column.LimitText, "Limit text", ""), Of(Column.Source, "Source", "own practice, 2026"),
            Of(Column.Certainty, "Certainty", "own"),
            Of(Column.Statement, "Statement", "Own profile; follow the authority's current text."),
        ]),
        new("settings", "settings of the register, in days",
        [
            Of(Column.Setting, "Setting", "laboratory-days"), Of(Column.Value, "Value", "28"),
        ]),
    ];

    /// <summary>The template of a key; null where there is none.</summary>
    public static ImportTemplate? Find(string key) => All.FirstOrDefault(t => t.Key == key);

    /// <summary>The empty table, with what its columns mean beside it where the file has room for that.</summary>
    public ExportTable Table => new(
        $"Empty table: {Title}",
        [.. Columns.Select(c => new ExportColumn(
            c.Header, c.Column.Meaning, "", c.Example.Length > 0 ? $"For example {c.Example}." : "May stay empty."))],
        [], []);

    private static TemplateColumn Of(Column column, string header, string example) => new(column, header, example);

    private static TemplateColumn Of(string key, string header, string example) => new(Column.OfKey(key)!, header, example);
}

/// <summary>A column of an empty table.</summary>
/// <param name="Column">What it holds.</param>
/// <param name="Header">Its header, with its unit in brackets.</param>
/// <param name="Example">An invented example; empty where it may stay empty.</param>
public sealed record TemplateColumn(Column Column, string Header, string Example);
