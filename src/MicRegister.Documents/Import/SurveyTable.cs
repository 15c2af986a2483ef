using MicRegister.Register.Campaigns;

namespace MicRegister.Documents.Import;

/// <summary>A table of surveyed stations. Where a row is bad nothing of it may be stored.</summary>
/// <param name="Good">Rows that can be stated, in their order.</param>
/// <param name="Bad">What is wrong with the others.</param>
public sealed record SurveyTable(IReadOnlyList<StationSurveyed> Good, IReadOnlyList<BadFieldRow> Bad)
{
    internal static readonly (string Column, string[] Names)[] Names =
    [
        ("station",
            ["station", "point", "punkt", "messpunkt", "name", "messstelle", "pointdemesure", "estacion", "punto", "stazione", "meetpunt"]),
        ("latitude",
            ["latitude", "lat", "latitudedeg", "breite", "geographischebreite", "breitengrad", "latitud", "latitudine", "breedtegraad"]),
        ("longitude",
            [
                "longitude", "lon", "long", "longitudedeg", "länge", "laenge", "geographischelänge", "geographischelaenge", "längengrad",
                "longitud", "longitudine", "lengtegraad",
            ]),
        ("altitude",
            ["altitude", "elevation", "groundaltitude", "geländehöhe", "gelaendehoehe", "höheübernn", "höheübernhn", "hoeheuebernn"]),
        ("height",
            [
                "height", "diaphragmheight", "microphoneheight", "höhe", "hoehe", "membranhöhe", "membranhoehe", "mikrofonhöhe",
                "mikrofonhoehe", "hauteur", "altura", "altezza", "hoogte",
            ]),
        ("horizontal",
            [
                "horizontaluncertainty", "horizontal", "lageunsicherheit", "incertitudehorizontale", "incertidumbrehorizontal",
                "incertezzaorizzontale", "horizontaleonzekerheid",
            ]),
        ("vertical",
            [
                "verticaluncertainty", "vertical", "höhenunsicherheit", "hoehenunsicherheit", "incertitudeverticale",
                "incertidumbrevertical", "incertezzaverticale", "verticaleonzekerheid",
            ]),
        ("method", ["method", "methode", "verfahren", "metodo"]),
        ("remark", ["remark", "bemerkung", "note", "notiz", "remarque", "observacion", "nota", "opmerking"]),
    ];

    /// <summary>Row of each good survey, the header being 1.</summary>
    public IReadOnlyList<int> Rows { get; private init; } = [];

    private static readonly string[] Required = ["station", "latitude", "longitude", "horizontal"];
    private static readonly string[] Lengths = ["altitude", "height", "horizontal", "vertical"];

    /// <summary>Reads a table.</summary>
    /// <param name="rows">
    /// Cells by row; the first names the columns in English or German: station, latitude and longitude (WGS84, °) and horizontal
    /// uncertainty (standard, m), which must be there, altitude, height, vertical uncertainty, method, remark. Lengths are in m unless mm
    /// or cm stands behind the name.
    /// </param>
    /// <param name="method">How it was surveyed, for rows that do not say.</param>
    public static SurveyTable Read(IReadOnlyList<IReadOnlyList<string>> rows, string? method)
    {
        var table = new FieldTable(rows, Names);
        foreach (var column in Required.Where(c => !table.Has(c)))
        {
            table.Bad.Add(new(1, column, "", "a first row that names the columns station, latitude, longitude and horizontal uncertainty"));
        }
        foreach (var column in Lengths.Where(c => table.Has(c) && Metres(table.UnitOf(c)) is null))
            table.Say(1, column, table.UnitOf(column), "a unit of m, cm or mm behind its name; nothing is m");
        if (table.Bad.Count > 0) return new([], table.Bad);

        var good = new List<StationSurveyed>();
        var numbers = new List<int>();
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var row in table.Numbers)
        {
            var before = table.Bad.Count;
            double? Length(string column) => table.Number(row, column) * Metres(table.UnitOf(column));
            double Must(string column, double? value, string allowed)
            {
                if (value is null && table.Bad.Count == before) table.Say(row, column, "", allowed);
                return value ?? 0;
            }
            var station = table.Text(row, "station");
            if (station.Length == 0) table.Say(row, "station", station, "the name of a station");
            else if (!seen.TryAdd(station, row))
                table.Say(row, "station", station, FormattableString.Invariant($"a station once; it stands in row {seen[station]} too"));
            var said = new StationSurveyed(
                station, Must("latitude", table.Number(row, "latitude"), "a number from -90 to 90 °"),
                Must("longitude", table.Number(row, "longitude"), "a number from -180 to 180 °"), Length("altitude"), Length("height"),
                Must("horizontal", Length("horizontal"), "a standard uncertainty above 0 m"), Length("vertical"),
                table.Text(row, "method") is { Length: > 0 } own ? own : method?.Trim() ?? "",
                table.Text(row, "remark") is { Length: > 0 } remark ? remark : null);
            if (table.Bad.Count == before && CampaignDecisions.WrongSurvey(said) is { } wrong)
                table.Say(row, "station", station, "a survey that can be: " + wrong.TrimEnd('.'));
            if (table.Bad.Count > before) continue;
            good.Add(said);
            numbers.Add(row);
        }
        if (good.Count == 0 && table.Bad.Count == 0) table.Say(2, "station", "", "at least one row");
        return new(good, table.Bad) { Rows = numbers };
    }

    private static double? Metres(string unit) => unit switch { "" or "m" => 1, "cm" => 0.01, "mm" => 0.001, _ => null };
}
