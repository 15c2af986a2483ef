using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;
using Own = MicRegister.Documents.Import.DiaryColumns;

namespace MicRegister.Documents.Import;

/// <summary>A sort of table that tells what was done outdoors: which columns it has, and which of them it is known by.</summary>
/// <param name="Name">What it holds, for people.</param>
/// <param name="Columns">Its columns, each with headers beside its own.</param>
/// <param name="Fits">Whether a table with these columns is one.</param>
internal sealed record DiarySort(string Name, IReadOnlyList<(Column Column, string[] Names)> Columns, Func<Func<Column, bool>, bool> Fits)
{
    private static readonly (Column Column, string[] Names)[] Shared =
    [
        (Column.Campaign, ["messkampagne", "campagne", "campana", "campagna", "meetcampagne"]),
        (Column.Note, ["remark", "remarque", "remarques", "observacion", "observaciones", "nota", "note", "opmerking", "notiz"]),
        (Column.Checked, []), (Column.Why, []),
    ];

    private static readonly (Column Column, string[] Names)[] Times = [(Own.Time, []), (Own.Date, []), (Own.Clock, [])];

    private static readonly (Column Column, string[] Names) Station =
        (Column.Station, ["messstelle", "punkt", "point", "point de mesure", "estacion", "punto", "stazione", "meetpunt"]);

    private static readonly (Column Column, string[] Names)[] Chain =
    [
        .. Column.Parts.Select(p => (p.Column, NamesOf(p.Kind))),
        (Column.Serial, ["serials", "device", "devices", "gerat", "numero de serie", "numero di serie", "matricola", "serienummer"]),
    ];

    private static readonly (Column Column, string[] Names)[] Air =
    [
        (Column.Pressure, Of(WeatherTable.Names, "pressure")), (Column.Temperature, Of(WeatherTable.Names, "temperature")),
        (Column.Humidity, Of(WeatherTable.Names, "humidity")),
    ];

    /// <summary>What recorded.</summary>
    public static DiarySort Events { get; } = new(
        "events",
        [
            .. Shared, (Own.Event, []), (Own.Start, []), (Own.Stop, []), (Own.Duration, []), (Own.Date, []), (Own.EventKind, []),
                (Own.Flew, []), (Own.TimesIn, []),
        ],
        has => has(Own.Event) && has(Own.Start) && (has(Own.Stop) || has(Own.Duration)));

    /// <summary>What recorders' clocks were set to, and what they showed.</summary>
    public static DiarySort Clocks { get; } = new(
        "recorder clocks",
        [
            .. Shared, .. Times, (Own.Recorder, []), (Own.Scale, []), (Own.Shown, []), (Own.True, []), (Own.TimeU, []), (Own.Against, []),
            (Column.Zone, ["fuseau", "fuseau horaire", "zona", "zona horaria", "fuso orario", "tijdzone"]), (Own.By, []),
        ],
        has => has(Own.Recorder) && (has(Own.Scale) || (has(Own.Shown) && has(Own.True))));

    /// <summary>Checks with a calibrator.</summary>
    public static DiarySort Checks { get; } = new(
        "checks with a calibrator",
        [
            .. Shared, .. Times, Station, (Column.Serial, Chain[^1].Names), (Column.Parts[0].Column, Chain[0].Names), (Own.Moment, []),
            (Own.Calibrator, []), (Own.CheckAdapter, []), (Own.Barometer, []), (Own.Meter, []), (Own.Reading, []), (Own.Before, []),
            (Own.After, []), (Own.TimeBefore, []), (Own.TimeAfter, []), (Own.Deviation, []), (Own.Resolution, []), (Own.NominalDb, []),
            (Column.CalibrationHz, ["frequence", "frecuencia", "frequenza", "frequentie"]), .. Air, (Own.Range, []), (Own.By, []),
        ],
        has => has(Own.Calibrator) && (has(Own.Reading) || has(Own.Before) || has(Own.After) || has(Own.Deviation))
            && (has(Column.Station) || has(Column.Serial) || has(Column.Parts[0].Column)));

    /// <summary>Chains held against each other in place.</summary>
    public static DiarySort Comparisons { get; } = new(
        "comparisons in place",
        [
            .. Shared, .. Times, Station, (Own.Level, []), (Own.Expected, []), (Own.Sound, []), (Own.SoundHz, []), (Own.LevelU, []),
            (Own.By, []),
        ],
        has => has(Column.Station) && has(Own.Level) && has(Own.Sound) && (has(Own.Time) || has(Own.Date)));

    /// <summary>Chains placed, swapped and taken in.</summary>
    public static DiarySort Placements { get; } = new(
        "placements",
        [
            .. Shared, .. Times, Station, .. Chain, (Own.Action, []), (Own.TakenIn, []), (Own.Out, []), (Own.In, []), (Own.Reason, []),
            (Own.Missing, []), (Column.Gap, []), (Own.Flush, []), (Own.Range, []), (Own.By, []),
        ],
        has => has(Column.Station) && (has(Own.Time) || has(Own.Date) || has(Own.TakenIn))
            && (Chain.Any(c => has(c.Column)) || has(Own.Action) || has(Own.Out) || has(Own.TakenIn)));

    /// <summary>Stations as they were surveyed.</summary>
    public static DiarySort Surveys { get; } = new(
        "surveyed stations",
        [
            .. Shared, (Column.Station, Of(SurveyTable.Names, "station")), (Column.Latitude, Of(SurveyTable.Names, "latitude")),
            (Column.Longitude, Of(SurveyTable.Names, "longitude")), (Column.Altitude, Of(SurveyTable.Names, "altitude")),
            (Column.Height, Of(SurveyTable.Names, "height")), (Own.Horizontal, Of(SurveyTable.Names, "horizontal")),
            (Own.Vertical, Of(SurveyTable.Names, "vertical")), (Column.Method, Of(SurveyTable.Names, "method")),
        ],
        has => has(Column.Station) && has(Column.Latitude) && has(Column.Longitude) && has(Own.Horizontal));

    /// <summary>What a weather logger read.</summary>
    public static DiarySort Weather { get; } = new(
        "weather",
        [
            .. Shared, (Own.Time, Of(WeatherTable.Names, "time")), (Own.Date, Of(WeatherTable.Names, "date")),
            (Own.Clock, Of(WeatherTable.Names, "clock")), (Own.Wind, Of(WeatherTable.Names, "wind")),
            (Own.Gust, Of(WeatherTable.Names, "gust")), (Own.WindFrom, Of(WeatherTable.Names, "from")), .. Air,
        ],
        has => (has(Own.Time) || (has(Own.Date) && has(Own.Clock)))
            && new[] { Own.Wind, Own.Gust, Own.WindFrom, Column.Temperature, Column.Humidity, Column.Pressure }.Any(has));

    /// <summary>All sorts; a table is the first that it fits.</summary>
    public static IReadOnlyList<DiarySort> All { get; } = [Events, Clocks, Checks, Comparisons, Surveys, Placements, Weather];

    /// <summary>In which order tables are taken: checks and comparisons ask what stood there.</summary>
    public int Order => this == Placements ? 1 : this == Checks ? 2 : this == Comparisons ? 3 : this == Events ? 4 : 0;

    /// <summary>Whether columns that nobody knows are passed over: loggers write many.</summary>
    public bool PassesOver => this == Weather;

    /// <summary>The column of this table that a header names; null where none.</summary>
    /// <param name="plain">The header in small letters, without accents, blanks and marks.</param>
    public Column? Named(string plain) => (_byName ??= ByName()).GetValueOrDefault(plain);

    private Dictionary<string, Column>? _byName;

    // The first column that claims a name keeps it.
    private Dictionary<string, Column> ByName()
    {
        var names = new Dictionary<string, Column>(StringComparer.Ordinal);
        foreach (var (column, name) in Columns.SelectMany(c => c.Names.Concat(c.Column.Synonyms).Select(n => (c.Column, Squeezed(n)))))
        {
            if (name.Length > 0) names.TryAdd(name, column);
        }
        return names;
    }

    public bool Equals(DiarySort? other) => ReferenceEquals(this, other);

    public override int GetHashCode() => Name.GetHashCode(StringComparison.Ordinal);

    private static string Squeezed(string name) => string.Concat(FoldedText.Of(name).Where(char.IsLetterOrDigit));

    private static string[] Of((string Column, string[] Names)[] names, string column) => names.First(n => n.Column == column).Names;

    private static string[] NamesOf(DeviceKind kind) => kind == DeviceKind.Microphone
        ? ["mic serial", "microphone serial", "mikrofon nr", "micro", "microfono", "microfoon"]
        : kind == DeviceKind.Preamplifier ? ["preamplificateur", "preamplificador", "preamplificatore", "voorversterker"]
        : kind == DeviceKind.GroundPlate ? ["platte", "plaque", "placa", "piastra", "plaat"]
        : kind == DeviceKind.RecorderChannel ? ["voie", "canal", "canale", "kanaal", "recorder channel serial"]
        : kind == DeviceKind.Windscreen ? ["bonnette", "paravientos", "cuffia", "windkap"]
        : [];
}
