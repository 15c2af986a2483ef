using System.Collections.Concurrent;
using System.Text.RegularExpressions;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>What a column of a table can mean: a key, words for people, and the headers by which it is known.</summary>
/// <remarks>A class and not a record: it is looked up many times a row, by what it is and not by what it holds.</remarks>
public sealed partial class Column
{
    // The same few words stand in every row of a large list.
    private const int MostPlains = 20_000;
    private static readonly ConcurrentDictionary<string, string> Plains = new(StringComparer.Ordinal);
    private static int _plains;

    internal Column(string key, string meaning, IReadOnlyList<string> synonyms) => (Key, Meaning, Synonyms) = (key, meaning, synonyms);

    /// <summary>Key for mapping files; details of a device have the key of their field.</summary>
    public string Key { get; }

    /// <summary>What it holds.</summary>
    public string Meaning { get; }

    /// <summary>Headers, in small letters without punctuation, that stand for it.</summary>
    public IReadOnlyList<string> Synonyms { get; }

    public static readonly Column Kind = new("kind", "Kind of device",
        ["kind", "device kind", "category", "type of device", "art", "gerateart"]);
    public static readonly Column Maker = new("maker", "Maker", ["maker", "manufacturer", "make", "hersteller", "brand"]);
    public static readonly Column Model = new("model", "Model", ["model", "model no", "type", "typ", "modell", "type no"]);
    public static readonly Column Serial = new("serial", "Serial number",
        ["serial", "serial no", "serial number", "s n", "sn", "ser no", "ser", "seriennummer", "seriennr", "serien nr"]);
    public static readonly Column DeviceId = new("micregister-id", "Id of the device in this register or in another one", []);
    public static readonly Column Place = new("place", "Place",
        ["place", "location", "where", "stored at", "ort", "lagerort", "standort", "shelf"]);
    public static readonly Column Status = new("status", "State of use", ["status", "state", "condition", "zustand"]);
    public static readonly Column Note = new("note", "Note",
        ["note", "notes", "remarks", "comment", "comments", "bemerkung", "bemerkungen"]);

    public static readonly Column Day = new("day", "Day of calibration",
        ["date", "day", "calibration date", "cal date", "calibrated", "calibrated on", "date of calibration", "last calibration", "datum",
        "kalibrierdatum", "kalibriert am", "letzte kalibrierung"]);
    public static readonly Column Value = new("value", "Result",
        ["value", "result", "sensitivity", "sens", "sensitivity level", "level", "calibrator level", "gain", "output level", "wert",
        "empfindlichkeit", "ubertragungsmass", "pegel"]);
    public static readonly Column FoundValue = new("found", "Result as found",
        ["as found", "found", "before adjustment", "vor justierung"]);
    public static readonly Column LeftValue = new("left", "Result as left", ["as left", "left", "after adjustment", "nach justierung"]);
    public static readonly Column Uncertainty = new("uncertainty", "Expanded uncertainty",
        ["uncertainty", "expanded uncertainty", "u", "unc", "u k 2", "messunsicherheit", "unsicherheit", "erweiterte messunsicherheit"]);
    public static readonly Column Factor = new("k", "Coverage factor", ["k", "coverage factor", "erweiterungsfaktor"]);
    public static readonly Column Quantity = new("quantity", "Quantity", ["quantity", "measurand", "messgrosse"]);
    public static readonly Column Laboratory = new("laboratory", "Laboratory",
        ["laboratory", "lab", "calibrated by", "calibration laboratory", "labor", "kalibrierlabor"]);
    public static readonly Column Certificate = new("certificate", "Number of the certificate",
        ["certificate", "certificate no", "cert", "cert no", "certificate number", "zertifikat", "kalibrierschein"]);
    public static readonly Column Method = new("method", "Method", ["method", "procedure", "verfahren"]);
    public static readonly Column Field = new("sound-field", "Sound field of the result", ["field", "sound field", "schallfeld"]);
    public static readonly Column CalibrationHz = new("calibration-hz", "Frequency of the result, Hz",
        ["cal frequency", "calibration frequency", "frequency", "freq", "frequenz"]);
    public static readonly Column Pressure = new("pressure", "Static pressure, kPa",
        ["pressure", "static pressure", "air pressure", "luftdruck"]);
    public static readonly Column Temperature = new("temperature", "Temperature, °C", ["temperature", "temp", "temperatur"]);
    public static readonly Column Humidity = new("humidity", "Relative humidity, %",
        ["humidity", "rh", "relative humidity", "luftfeuchte", "feuchte"]);
    public static readonly Column Reference = new("reference", "Reference used",
        ["reference", "reference used", "standard used", "normal"]);
    public static readonly Column UncertaintyUnit = new("uncertainty-unit", "Unit of the expanded uncertainty", []);
    public static readonly Column Angle = new("angle-deg", "Angle of incidence of the result, °", []);
    public static readonly Column Loading = new("loading", "Loading of the result: open-circuit, or the preamplifier", []);
    public static readonly Column StatedFor = new("stated-for-kpa", "Static pressure that a level is stated for, kPa", []);
    public static readonly Column ReferenceDevice = new("reference-id", "Reference used, by its id in the register", []);
    public static readonly Column ToneHz = new("tone-hz", "Frequency of a calibrator's tone as measured, Hz", []);
    public static readonly Column ToneHzUncertainty = new("tone-hz-u-percent", "Its expanded uncertainty (k = 2), %", []);
    public static readonly Column Distortion = new("distortion-percent", "Distortion of a calibrator's tone, %", []);
    public static readonly Column DistortionUncertainty = new("distortion-u-percent", "Its expanded uncertainty (k = 2), %", []);
    public static readonly Column Fluctuation = new("fluctuation-db", "Fluctuation of a calibrator's level, dB", []);
    public static readonly Column ResultRemark = new("result-remark", "Remark on the result", []);
    public static readonly Column OwnResult = new("own-result", "A result of its own beside others of its day or year (yes)", []);
    public static readonly Column Due = new("due", "Due day",
        ["due", "due date", "next calibration", "next due", "valid until", "fallig", "nachste kalibrierung"]);

    public static readonly Column Inspected = new("inspected", "Day of inspection",
        ["inspected", "inspection", "inspection date", "inspected on", "last inspection", "gepruft am", "prufdatum"]);
    public static readonly Column Passed = new("passed", "Inspection passed",
        ["passed", "inspection result", "inspection ok", "prufergebnis"]);
    public static readonly Column FlushStep = new("flush-step-mm", "Step of the capsule, mm",
        ["flush step", "capsule step", "step", "proud", "uberstand"]);
    public static readonly Column Gap = new("gap-mm", "Gap of an inverted capsule, mm", ["gap", "capsule gap", "spalt"]);
    public static readonly Column Flatness = new("flatness-mm", "Deviation from flat, mm", ["flatness", "ebenheit"]);

    public static readonly Column Undamaged = new("undamaged", "Found undamaged", ["undamaged", "intact", "unbeschadigt"]);
    public static readonly Column Uncontaminated = new("uncontaminated", "Found uncontaminated",
        ["uncontaminated", "clean", "unverschmutzt"]);
    public static readonly Column MakersData = new("makers-data", "Maker's data that are kept",
        ["maker s data", "makers data", "herstellerdaten"]);

    public static readonly Column InspectionRemark = new("inspection-remark", "Remark on the inspection", []);

    public static readonly Column CampaignId = new("campaign-id", "Id of the campaign in this register or in another one", []);
    public static readonly Column Track = new("track-deg", "Track over the array, ° clockwise from north", []);
    public static readonly Column StationOthers = new("station-others", "Further devices of the chain by their ids", []);
    public static readonly Column ProfileName = new("profile-name", "Name of the requirement profile", []);
    public static readonly Column LimitDocument = new("limit-document", "Document of a limit", []);
    public static readonly Column LimitEdition = new("limit-edition", "Edition of that document", []);
    public static readonly Column LimitClause = new("limit-clause", "Clause of that document", []);
    public static readonly Column Campaign = new("campaign", "Campaign",
        ["campaign", "campaign name", "kampagne", "messkampagne", "campagne", "campagne de mesure", "campana", "campana de medida",
            "campagna", "campagna di misura", "meetcampagne"]);
    public static readonly Column FirstDay = new("first-day", "First day",
        ["first day", "start", "start date", "begins", "from", "beginn", "erster tag", "premier jour", "debut", "primer dia", "inicio",
            "primo giorno", "inizio", "eerste dag", "begin"]);
    public static readonly Column LastDay = new("last-day", "Last day",
        ["last day", "end", "end date", "ends", "until", "ende", "letzter tag", "dernier jour", "fin", "ultimo dia", "ultimo giorno",
            "fine", "laatste dag", "einde"]);
    public static readonly Column Zone = new("zone", "Time zone",
        ["time zone", "zone", "timezone", "zeitzone", "fuseau horaire", "zona horaria", "fuso orario", "tijdzone"]);
    public static readonly Column Offset = new(
        "utc-offset", "Offset from UTC, minutes or ±hh:mm; utc for none; several as INSTANT=MINUTES with blanks between",
        ["utc offset", "offset"]);
    public static readonly Column Site = new("site", "Site", ["site", "airfield", "platz"]);
    public static readonly Column Altitude = new("altitude", "Altitude, m",
        ["altitude", "elevation", "height above sea level", "hohe", "hohe uber nn", "hohe u nn", "meereshohe", "altitude asl", "altitud",
            "altitudine", "quota", "hoogte", "hoogte boven zee", "altitude du site"]);
    public static readonly Column Source = new("source", "Source class",
        ["source", "source class", "aircraft", "quelle", "schallquelle", "source sonore", "fuente sonora", "sorgente sonora",
            "geluidsbron"]);
    public static readonly Column BandFrom = new("band-from", "Lowest frequency of interest, Hz",
        ["band from", "lowest frequency of interest", "from hz", "band von", "frequenz von", "unterste frequenz", "bande de",
            "frequence de", "banda desde", "frecuencia desde", "banda da", "frequenza da", "band van", "frequentie van"]);
    public static readonly Column BandTo = new("band-to", "Highest frequency of interest, Hz",
        ["band to", "highest frequency of interest", "to hz", "band bis", "frequenz bis", "oberste frequenz", "bande a", "frequence a",
            "banda hasta", "frecuencia hasta", "banda a", "frequenza a", "band tot", "frequentie tot"]);
    public static readonly Column QuietDb = new("lowest-level", "Lowest level of interest, dB",
        ["lowest level", "quietest level", "niedrigster pegel", "leisester pegel", "niveau le plus bas", "nivel mas bajo",
            "livello piu basso",
            "laagste niveau"]);
    public static readonly Column LoudDb = new("expected-level", "Highest level expected, dB",
        ["expected level", "loudest level", "highest expected level", "hochster pegel", "lautester pegel", "erwarteter pegel",
            "niveau le plus haut", "niveau attendu", "nivel mas alto", "nivel esperado", "livello piu alto", "livello atteso",
            "hoogste niveau", "verwacht niveau"]);
    public static readonly Column Profile = new("profile", "Requirement profile",
        ["profile", "requirement profile", "requirements", "profil", "anforderungsprofil", "anforderungen", "exigences",
            "profil d exigences", "perfil", "perfil de requisitos", "requisitos", "profilo", "requisiti", "profiel", "eisen",
            "eisenprofiel"]);
    public static readonly Column Losses = new("permitted-losses", "Permitted losses",
        ["permitted losses", "losses permitted", "zulassige ausfalle", "erlaubte ausfalle", "pertes admises", "perdidas admitidas",
            "perdite ammesse", "toegestane uitval"]);
    public static readonly Column SparesWanted = new("spares-wanted", "Spares wanted", ["spares wanted", "spares"]);

    public static readonly Column Station = new("station", "Station",
        ["station", "station name", "position name", "messpunkt", "messstation", "point de mesure", "punto de medida", "punto di misura",
            "meetpunt", "estacion", "stazione", "meetpost", "poste de mesure", "puesto de medida", "postazione", "postazione di misura",
            "monitoring station", "monitoring point", "measuring station", "messposten", "station de mesure", "estacion de medida",
            "stazione di misura", "meetstation"]);
    public static readonly Column Latitude = new("latitude", "Latitude, °",
        ["latitude", "lat", "breite", "breitengrad", "latitud", "latitudine", "breedtegraad"]);
    public static readonly Column Longitude = new("longitude", "Longitude, °",
        ["longitude", "lon", "long", "lange", "langengrad", "longitud", "longitudine", "lengtegraad"]);
    public static readonly Column Mount = new("mount", "Mount",
        ["mount", "mounting", "set up", "aufstellung", "montage", "montaje", "montaggio", "opstelling"]);
    public static readonly Column Height = new("height", "Height, m",
        ["height", "height above ground", "hohe uber grund", "hauteur au sol", "altura sobre el suelo", "altezza dal suolo",
            "hoogte boven grond"]);
    public static readonly Column Purpose = new("purpose", "Purpose of kit", ["purpose", "kit", "role", "zweck"]);
    public static readonly Column Limit = new("limit", "Key of a limit of a requirement profile", ["limit", "limit key"]);
    public static readonly Column LimitText = new("limit-text", "Words of a limit that is no number, or 'to the first day'",
        ["limit text", "words", "text"]);
    public static readonly Column Certainty = new("certainty", "How sure a limit is its source's", ["certainty"]);
    public static readonly Column Statement = new("statement", "What a requirement profile follows", ["statement", "follows"]);
    public static readonly Column Setting = new("setting", "Setting of the register", ["setting", "einstellung"]);
    public static readonly Column Unit = new("unit", "Unit of the result", []);
    public static readonly Column LeftOut = new("left-out", "Of no use here; left out", []);
    public static readonly Column Noted = new("noted", "Kept as a note of the device, with its header", []);
    public static readonly Column Checked = new("checked", "Looked at and right (yes)", ["checked"]);
    public static readonly Column Why = new("why", "Why the row was put aside; not read", ["why"]);

    /// <summary>Columns of stations that name the serial of a device of a kind.</summary>
    public static IReadOnlyList<(Column Column, DeviceKind Kind)> Parts { get; } =
    [
        (new("station-microphone", "Serial of the microphone", ["microphone", "mic", "capsule", "mikrofon"]), DeviceKind.Microphone),
        (new("station-preamplifier", "Serial of the preamplifier", ["preamplifier", "preamp", "vorverstarker"]), DeviceKind.Preamplifier),
        (new("station-plate", "Serial of the ground plate", ["plate", "ground plate", "bodenplatte"]), DeviceKind.GroundPlate),
        (new("station-channel", "Serial of the recorder channel", ["channel", "recorder channel", "kanal"]), DeviceKind.RecorderChannel),
        (new("station-windscreen", "Serial of the windscreen", ["windscreen", "windschirm"]), DeviceKind.Windscreen),
        (new("station-adapter", "Serial of the adapter", ["adapter"]), DeviceKind.Adapter),
        (new("station-cable", "Serial of the cable", ["cable", "kabel"]), DeviceKind.Cable),
        (new("station-power", "Serial of the power module", ["power module", "power"]), DeviceKind.PowerModule),
    ];

    private static readonly Dictionary<string, string[]> FieldSynonyms = new()
    {
        ["size-mm"] = ["size", "diameter", "nominal size", "grosse", "durchmesser"],
        ["response-type"] = ["response", "response type", "field type"],
        ["class-61094"] = ["class", "klasse", "ws class", "iec 61094 class"],
        ["polarisation-v"] = ["polarisation", "polarization", "polarisation voltage", "bias"],
        ["lowest-hz"] = ["fmin", "lowest frequency", "f low"],
        ["highest-hz"] = ["fmax", "highest frequency", "f high", "upper frequency"],
        ["highest-level-db"] = ["max level", "highest level", "max spl"],
        ["noise-floor-db"] = ["noise", "noise floor", "eigenrauschen"],
        ["nominal-mv-per-pa"] = ["nominal sensitivity", "nominal", "nennempfindlichkeit"],
        ["interval-months"] = ["interval", "interval months", "cal interval", "calibration interval", "intervall"],
        ["owner"] = ["owner", "department", "besitzer", "abteilung"],
        ["inventory-code"] = ["inventory code", "asset", "asset no", "inventory no", "inv no", "inventarnummer"],
        ["variant"] = ["variant", "version", "variante"],
        ["firmware"] = ["firmware", "software"],
        ["powering"] = ["powering", "supply", "speisung"],
        ["connector"] = ["connector", "plug", "stecker"],
        ["diameter-mm"] = ["plate diameter", "plattendurchmesser"],
        ["thickness-mm"] = ["thickness", "plate thickness", "dicke"],
        ["material"] = ["material", "werkstoff"],
        ["batch"] = ["batch", "charge"],
        ["plate-style"] = ["style", "plate style"],
        ["fits-mm"] = ["fits", "for size", "passt zu"],
        ["calibrator-class"] = ["calibrator class", "iec 60942 class", "kalibratorklasse"],
        ["calibrator-edition"] = ["edition", "iec 60942 edition"],
        ["filter-class"] = ["filter class", "iec 61260 class", "filterklasse"],
        ["meter-class"] = ["meter class", "meter type", "sound level meter class", "iec 61672 class", "iec 651 type"],
        ["nominal-level-db"] = ["nominal level"],
        ["frequency-hz"] = ["nominal frequency"],
        ["pressure-law"] = ["pressure law"],
        ["capsule-offset-mm"] = ["capsule offset", "offset from centre"],
    };

    /// <summary>All columns but those of devices' details and history years.</summary>
    public static IReadOnlyList<Column> Named { get; } =
    [
        Kind, Maker, Model, Serial, Place, Status, Note, Day, Value, FoundValue, LeftValue, Uncertainty, Factor, Quantity, Laboratory,
            Certificate, Method, Field, CalibrationHz, Pressure, Temperature, Humidity, Reference, Due, Inspected, Passed, FlushStep, Gap,
            Flatness, Undamaged, Uncontaminated, MakersData, Campaign, FirstDay, LastDay, Zone, Offset, Site,
        Altitude, Source, BandFrom, BandTo, QuietDb, LoudDb, Profile, Losses, SparesWanted, Station, Latitude, Longitude, Mount, Height,
            DeviceId, UncertaintyUnit, Angle, Loading, StatedFor, ReferenceDevice, ToneHz, ToneHzUncertainty, Distortion,
            DistortionUncertainty, Fluctuation, ResultRemark, OwnResult, InspectionRemark, CampaignId, Track, StationOthers, ProfileName,
            LimitDocument, LimitEdition, LimitClause,
            Purpose, Limit, LimitText, Certainty, Statement, Setting, Unit, LeftOut, Noted, Checked, Why,
        .. Parts.Select(p => p.Column),
    ];

    /// <summary>Columns of devices' details, by field.</summary>
    public static IReadOnlyDictionary<DeviceField, Column> Fields { get; } = DeviceField.All.ToDictionary(
        f => f, f => new Column(f.Key, f.Label + (f.Unit.Length > 0 ? ", " + f.Unit : ""),
            [.. new[] { Plain(f.Label), Plain(f.Key) }.Concat(FieldSynonyms.GetValueOrDefault(f.Key, [])).Distinct()]));

    private static readonly Dictionary<string, Column> ByHeader = Build();

    private static readonly Dictionary<string, Column> ByKey = Named.Concat(Fields.Values).ToDictionary(c => c.Key);

    /// <summary>All columns, for the documentation.</summary>
    public static IEnumerable<Column> All => Named.Concat(Fields.Values).Concat(DiaryColumns.All);

    /// <summary>The column that a header stands for; null where none is known.</summary>
    public static Column? ByName(string header) => ByHeader.GetValueOrDefault(Plain(header));

    public static Column? OfKey(string key) => ByKey.GetValueOrDefault(key) ?? DiaryColumns.OfKey(key)
        ?? (key.Split(" + ") is [var a, var b] && OfKey(a) is { Halves: null } first && OfKey(b) is { Halves: null } second
            && first != second ? Pair(first, second) : null);

    /// <summary>The two things that each cell holds, in their order; null where it holds one.</summary>
    internal (Column First, Column Second)? Halves { get; private init; }

    /// <summary>Two things in one cell, as in <i>serial + inventory-code</i>.</summary>
    internal static Column Pair(Column first, Column second) =>
        new($"{first.Key} + {second.Key}", $"{first.Meaning} and {second.Meaning}", []) { Halves = (first, second) };

    /// <summary>A header as it is compared: without units in brackets, accents, punctuation and capitals.</summary>
    public static string Plain(string header)
    {
        if (Plains.TryGetValue(header, out var known)) return known;
        var text = Brackets().Replace(header, " ").ToLowerInvariant()
            .Replace('ä', 'a').Replace('ö', 'o').Replace('ü', 'u').Replace("ß", "ss", StringComparison.Ordinal);
        var plain = string.Join(' ', Words().Matches(text).Select(m => m.Value));
        if (_plains < MostPlains && Plains.TryAdd(header, plain)) Interlocked.Increment(ref _plains);
        return plain;
    }

    // The first that claims a header keeps it: named columns before details.
    private static Dictionary<string, Column> Build()
    {
        var headers = new Dictionary<string, Column>();
        foreach (var column in Named.Concat(Fields.Values))
        {
            foreach (var synonym in column.Synonyms.Append(Plain(column.Key))) headers.TryAdd(synonym, column);
        }
        return headers;
    }

    [GeneratedRegex(@"[\[(].*?[\])]")]
    private static partial Regex Brackets();

    [GeneratedRegex(@"[a-z0-9]+")]
    private static partial Regex Words();
}
