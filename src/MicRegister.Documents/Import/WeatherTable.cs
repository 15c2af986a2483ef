using System.Globalization;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>A table of a weather logger. Where a row is bad nothing of it may be stored.</summary>
/// <param name="Good">Readings in the order of time.</param>
/// <param name="Bad">What is wrong with the others.</param>
public sealed record WeatherTable(IReadOnlyList<LoggedWeather> Good, IReadOnlyList<BadFieldRow> Bad)
{
    /// <summary>Row of each good reading, the header being 1.</summary>
    public IReadOnlyList<int> Rows { get; private init; } = [];

    private const double AbsoluteZeroC = -273.15;

    internal static readonly (string Column, string[] Names)[] Names =
    [
        ("time",
            [
                "time", "timestamp", "datetime", "dateandtime", "zeitpunkt", "zeitstempel", "datumzeit", "datumuhrzeit", "utc", "timeutc",
                "horodatage", "dateheure", "dateetheure", "fechahora", "fechayhora", "dataora", "dataeora", "tijdstip", "datumtijd",
            ]),
        ("date", ["date", "day", "datum", "tag", "jour", "fecha", "dia", "data", "giorno", "dag"]),
        ("clock", ["timeofday", "clock", "uhrzeit", "zeit", "heure", "hora", "ora", "tijd"]),
        ("wind",
            [
                "wind", "windspeed", "meanwind", "windmean", "windgeschwindigkeit", "windmittel", "mittelwind", "vent", "vitesseduvent",
                "viento", "velocidaddelviento", "vento", "velocitadelvento", "windsnelheid",
            ]),
        ("gust",
            [
                "gust", "gusts", "windgust", "maxwind", "windmax", "böe", "boee", "böen", "boeen", "windböe", "windboee", "windspitze",
                "rafale", "rafales", "rafaga", "rachas", "raffica", "raffiche", "windstoot", "windvlaag",
            ]),
        ("from",
            [
                "winddirection", "windfrom", "direction", "windrichtung", "richtung", "directionduvent", "direcciondelviento",
                "direzionedelvento", "windrichting",
            ]),
        ("temperature", ["temperature", "temp", "airtemperature", "temperatur", "lufttemperatur", "temperatura", "temperatuur"]),
        ("humidity",
            [
                "humidity", "relativehumidity", "rh", "feuchte", "luftfeuchte", "luftfeuchtigkeit", "relativefeuchte", "humidite",
                "humedad", "umidita", "vochtigheid", "luchtvochtigheid",
            ]),
        ("pressure",
            [
                "pressure", "staticpressure", "airpressure", "luftdruck", "druck", "stationsdruck", "pression", "presion", "pressione",
                "luchtdruk",
            ]),
    ];

    private static readonly string[] Days = ["dd.MM.yyyy", "d.M.yyyy", "yyyy/MM/dd"];

    // How a value becomes that of a fact.
    private static readonly Dictionary<string, (string Allowed, Func<string, Func<double, double>?> Of)> Units = new(StringComparer.Ordinal)
    {
        ["wind"] = ("m/s, km/h, kt or mph", Speed),
        ["gust"] = ("m/s, km/h, kt or mph", Speed),
        ["from"] = ("°", u => u is "" or "°" or "deg" or "grad" ? x => x : null),
        ["temperature"] = ("°C, °F or K", Temperature),
        ["humidity"] = ("%", u => u is "" or "%" or "%rh" or "% rh" ? x => x : null),
        ["pressure"] = ("kPa, hPa, mbar, Pa or mmHg", Pressure),
    };

    /// <summary>Units that a column may have, as they are written; of a survey those of lengths.</summary>
    internal static IEnumerable<string> UnitsOf(string column) =>
        Units.TryGetValue(column, out var unit)
            ? unit.Allowed.Replace(" or ", ", ", StringComparison.Ordinal).Split(", ")
            : ["m", "cm", "mm"];

    /// <summary>Whether a text is a unit of any column, in small letters.</summary>
    internal static bool IsUnit(string unit) => unit.Length > 0 && Units.Values.Any(u => u.Of(unit) is not null);

    /// <summary>Reads a table.</summary>
    /// <param name="rows">
    /// Cells by row; the first names the columns in English or German, each with its unit, as in <c>Wind [m/s]</c>: a time, or a date and
    /// a time of day, and any of wind, gust, wind direction, temperature, humidity and pressure at the place; others are passed over.
    /// </param>
    /// <param name="isUtc">
    /// Whether times are UTC, rather than what clocks at the site show; null where nobody said, so that the name of the column or a Z
    /// behind each time has to.
    /// </param>
    /// <param name="offsets">The site's offsets from UTC.</param>
    public static WeatherTable Read(IReadOnlyList<IReadOnlyList<string>> rows, bool? isUtc, IReadOnlyList<ZoneOffset> offsets)
    {
        var table = new FieldTable(rows, Names);
        var figures = Units.Keys.Where(table.Has).ToList();
        if (!table.Has("time") && !(table.Has("date") && table.Has("clock")))
            table.Bad.Add(new(1, "time", "", "a first row that names a column time, or the columns date and time of day"));
        if (figures.Count == 0)
        {
            table.Bad.Add(new(
                1, "wind", "", "a first row that names at least one of wind, gust, wind direction, temperature, humidity and pressure"));
        }
        foreach (var column in figures.Where(c => Units[c].Of(table.UnitOf(c)) is null))
            table.Say(1, column, table.UnitOf(column), $"a unit behind its name: {Units[column].Allowed}");
        var times = table.Has("time") ? "time" : "clock";
        bool? stated = table.UnitOf(times) switch { "utc" or "z" => true, "site" or "local" or "ortszeit" => false, _ => isUtc };
        if (table.Bad.Count > 0) return new([], table.Bad);

        var good = new List<(string At, LoggedWeather Reading, int Row)>();
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var row in table.Numbers)
        {
            var before = table.Bad.Count;
            var at = Time(table, row, times, stated, offsets);
            double? Of(string column) => table.Number(row, column) is { } v ? Math.Round(Units[column].Of(table.UnitOf(column))!(v), 6)
                : null;
            var reading = new LoggedWeather(at ?? "", Of("from"), Of("wind"), Of("gust"), Of("temperature"), Of("humidity"),
                Of("pressure"));
            if (at is not null && !seen.TryAdd(at, row))
                table.Say(row, times, table.Text(row, times), FormattableString.Invariant($"a time once; it stands in row {seen[at]} too"));
            if (table.Bad.Count > before) continue;
            var said = new WeatherNoted(reading.WindFromDeg, reading.WindMs, reading.TemperatureC, reading.HumidityPercent,
                reading.PressureKPa);
            // A gap of the logger is no reading.
            if (figures.TrueForAll(c => Of(c) is null)) continue;
            if (DeploymentDecisions.Wrong(said, reading.GustMs) is { } wrong)
                table.Say(row, times, table.Text(row, times), "a reading that can be: " + wrong.TrimEnd('.'));
            else good.Add((at!, reading, row));
        }
        if (good.Count == 0 && table.Bad.Count == 0) table.Say(2, times, "", "at least one reading");
        good.Sort((a, b) => string.CompareOrdinal(a.At, b.At));
        return new([.. good.Select(g => g.Reading)], table.Bad) { Rows = [.. good.Select(g => g.Row)] };
    }

    private static string? Time(FieldTable table, int row, string column, bool? isUtc, IReadOnlyList<ZoneOffset> offsets)
    {
        var text = column == "time" ? table.Text(row, "time") : $"{table.Text(row, "date")} {table.Text(row, "clock")}";
        if (isUtc is null && !text.EndsWith('Z'))
        {
            table.Say(
                row, column, text,
                "a time that ends in Z, unless it is said whether times are UTC or the site's: write UTC or site behind the column's name");
            return null;
        }
        if (EventTable.Time(Plain(text), isUtc ?? true, offsets, out var allowed) is { } instant) return instant;
        table.Say(row, column, text, allowed ?? "a time");
        return null;
    }

    // Days as loggers write them beside 2026-05-04.
    private static string Plain(string text)
    {
        var at = text.IndexOfAny([' ', 'T']);
        return at > 0 && DateTime.TryParseExact(text[..at], Days, CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) + " " + text[(at + 1)..].Trim()
            : text;
    }

    // Exact: 1852 m and 1609.344 m.
    private static Func<double, double>? Speed(string unit) => unit switch
    {
        "m/s" or "ms" => x => x,
        "km/h" or "kmh" => x => x / 3.6,
        "kt" or "kn" or "kts" or "knots" => x => x * 1852 / 3600,
        "mph" => x => x * 1609.344 / 3600,
        _ => null,
    };

    private static Func<double, double>? Temperature(string unit) => unit switch
    {
        "°c" or "c" or "degc" => x => x,
        "°f" or "f" or "degf" => x => (x - 32) / 1.8,
        "k" => x => x + AbsoluteZeroC,
        _ => null,
    };

    private static Func<double, double>? Pressure(string unit) => unit switch
    {
        "kpa" => x => x,
        "hpa" or "mbar" => x => x / 10,
        "mmhg" or "torr" => x => MeasuredText.Convert(x, "mmHg", "kPa")!.Value,
        "pa" => x => x / 1000,
        _ => null,
    };
}
