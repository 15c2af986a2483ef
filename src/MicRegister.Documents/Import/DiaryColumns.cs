namespace MicRegister.Documents.Import;

/// <summary>
/// Columns of the tables that tell what was done outdoors, beside those that they share with other lists. A header stands for one of them
/// in its own table alone (<see cref="DiarySort"/>), so that no list of devices changes its meaning.
/// </summary>
internal static class DiaryColumns
{
    public static readonly Column Time = new("time", "Time, with its day or beside one",
        [
            "time", "timestamp", "date and time", "datetime", "at", "placed", "placed at", "set up at", "zeit", "zeitpunkt",
            "zeitstempel", "datum zeit", "datum uhrzeit", "aufgebaut", "aufgebaut um", "heure", "date heure", "date et heure",
            "horodatage", "pose", "hora", "fecha hora", "fecha y hora", "colocado", "ora", "data ora", "data e ora", "datum tijd",
            "posato", "tijd", "tijdstip", "geplaatst", "utc",
        ]);
    public static readonly Column Date = new("date", "Day of the times of a row",
        [
            "date", "day", "datum", "tag", "jour", "fecha", "dia", "data", "giorno", "dag",
        ]);
    public static readonly Column Clock = new("clock", "Time of day", ["clock", "time of day", "uhrzeit", "local time", "ortszeit"]);
    public static readonly Column Action = new("action", "What was done: placed, swapped or taken in",
        [
            "action", "what", "what was done", "done", "aktion", "vorgang", "tatigkeit", "operation", "accion", "azione", "actie",
            "handeling",
        ]);
    public static readonly Column TakenIn = new("taken-in", "Time at which the chain was taken in",
        [
            "taken in", "taken in at", "taken down", "recovered", "recovered at", "abgebaut", "abgebaut um", "eingeholt", "releve",
            "repris", "recogido", "recuperado", "ritirato", "binnengehaald", "opgehaald",
        ]);
    public static readonly Column Out = new("out", "Serial of the part that was taken out",
        [
            "out", "old", "old serial", "taken out", "removed", "replaced", "raus", "alt", "ausgebaut", "sorti", "ancien", "retire",
            "retirado", "viejo", "tolto", "vecchio", "uit", "oud",
        ]);
    public static readonly Column In = new("in", "Serial of the part that stands in for it",
        [
            "in", "new", "new serial", "put in", "replacement", "rein", "neu", "eingebaut", "entre", "nouveau", "nuevo", "puesto",
            "messo", "nuovo", "nieuw",
        ]);
    public static readonly Column Reason = new("reason", "Why it was swapped",
        [
            "reason", "grund", "cause", "motif", "motivo", "razon", "reden",
        ]);
    public static readonly Column Missing = new("missing", "Serials of parts that did not come back",
        [
            "missing", "missing serials", "fehlt", "fehlend", "manquant", "falta", "manca", "mancante", "ontbreekt",
        ]);
    public static readonly Column Flush = new("flush", "Diaphragm found flush (yes or no)", ["flush", "is flush", "bundig", "affleurant"]);
    public static readonly Column Range = new("set-range-v", "Peak voltage of the channel's full scale, V",
        [
            "range", "channel range", "full scale", "messbereich", "bereich", "gamme", "calibre", "rango", "campo", "bereik",
        ]);
    public static readonly Column By = new("by", "Who did it",
        [
            "by", "person", "who", "crew", "operator", "placed by", "checked by", "wer", "durch", "bearbeiter", "team", "operateur",
            "par", "operador", "por", "operatore", "da", "door",
        ]);
    public static readonly Column Moment = new("moment", "Before or after what was recorded",
        [
            "moment", "before after", "before or after", "when", "wann", "vorher nachher", "zeitpunkt der prufung", "momento", "quand",
            "cuando", "quando", "wanneer",
        ]);
    public static readonly Column Calibrator = new("calibrator", "Serial of the sound calibrator",
        [
            "calibrator", "calibrator serial", "calibrator serial no", "calibrator sn", "calibrator s n", "sound calibrator",
            "pistonphone", "kalibrator", "kalibrator seriennummer", "kalibrator nr", "schallkalibrator", "calibreur", "calibrateur",
            "calibrador", "calibratore", "ijkbron",
        ]);
    public static readonly Column CheckAdapter = new("check-adapter", "Serial of the calibrator's adapter",
        [
            "adapter", "calibrator adapter", "adaptateur", "adaptador", "adattatore",
        ]);
    public static readonly Column Barometer = new("barometer", "Serial of the barometer", ["barometer", "barometre", "barometro"]);
    public static readonly Column Meter = new("meter", "Serial of what the reading was taken with",
        [
            "meter", "voltmeter", "read with", "messgerat", "voltmetre", "voltimetro",
        ]);
    public static readonly Column Reading = new("reading", "Reading: level in dB, voltage in mV or V, share of full scale (rms)",
        [
            "reading", "readings", "read", "level", "indicated", "indicated level", "indication", "voltage", "measured", "value",
            "anzeige", "ablesung", "pegel", "angezeigter pegel", "spannung", "messwert", "wert", "lecture", "niveau", "tension",
            "lectura", "nivel", "lettura", "livello", "tensione", "aflezing", "spanning",
        ]);
    public static readonly Column Before = new("before", "Reading before what was recorded",
        [
            "before", "reading before", "level before", "check before", "vorher", "vor", "pegel vorher", "anzeige vorher", "avant",
            "lecture avant", "antes", "lectura antes", "prima", "lettura prima", "voor", "vooraf",
        ]);
    public static readonly Column After = new("after", "Reading after what was recorded",
        [
            "after", "reading after", "level after", "check after", "nachher", "nach", "pegel nachher", "anzeige nachher", "apres",
            "lecture apres", "despues", "lectura despues", "dopo", "lettura dopo", "na", "achteraf",
        ]);
    public static readonly Column TimeBefore = new("time-before", "Time of the reading before",
        [
            "time before", "before at", "zeit vorher", "uhrzeit vorher", "heure avant", "hora antes", "ora prima", "tijd voor",
        ]);
    public static readonly Column TimeAfter = new("time-after", "Time of the reading after",
        [
            "time after", "after at", "zeit nachher", "uhrzeit nachher", "heure apres", "hora despues", "ora dopo", "tijd na",
        ]);
    public static readonly Column Deviation = new("deviation", "Deviation from the certificates, dB, where no reading was written down",
        [
            "deviation", "difference", "abweichung", "differenz", "ecart", "desviacion", "scarto", "afwijking",
        ]);
    public static readonly Column Resolution = new("resolution", "Last step of the reading, in its unit",
        [
            "resolution", "step", "auflosung", "resolucion", "risoluzione", "resolutie",
        ]);
    public static readonly Column NominalDb = new("calibrator-level", "Nominal level of the calibrator, dB",
        [
            "calibrator level", "nominal level", "nominal", "nennpegel", "kalibratorpegel", "niveau nominal", "nivel nominal",
            "livello nominale",
        ]);
    public static readonly Column Wind = new("wind", "Wind speed: m/s, km/h, kt or mph", []);
    public static readonly Column Gust = new("gust", "Greatest wind speed: m/s, km/h, kt or mph", []);
    public static readonly Column WindFrom = new("wind-from", "Direction that the wind comes from, °", []);
    public static readonly Column Horizontal = new("horizontal", "Standard uncertainty of the place, m", []);
    public static readonly Column Vertical = new("vertical", "Standard uncertainty of altitude and height, m", []);
    public static readonly Column Event = new("event", "Name of the event",
        [
            "event", "event name", "run", "run no", "ereignis", "uberflug", "versuch", "evenement", "passage", "evento", "vuelo",
            "sorvolo", "gebeurtenis",
        ]);
    public static readonly Column Start = new("start", "When it began",
        [
            "start", "begin", "begins", "start time", "from", "beginn", "anfang", "von", "debut", "inicio", "comienzo", "inizio",
        ]);
    public static readonly Column Stop = new("stop", "When it ended",
        [
            "stop", "end", "ends", "stop time", "end time", "to", "until", "ende", "bis", "fin", "fine", "einde", "tot",
        ]);
    public static readonly Column Duration = new("duration", "How long it took, s, where its end was not written down",
        [
            "duration", "length", "dauer", "duree", "duracion", "durata", "duur",
        ]);
    public static readonly Column EventKind = new("event-kind", "Fly-over, run, hover, ambient or other",
        [
            "kind", "kind of event", "type", "art", "typ", "genre", "sorte", "tipo", "soort",
        ]);
    public static readonly Column Flew = new("flew", "What flew",
        [
            "source", "flew", "what flew", "aircraft", "quelle", "fluggerat", "flugzeug", "aeronef", "avion", "fuente", "aeronave",
            "velivolo", "bron", "vliegtuig",
        ]);
    public static readonly Column TimesIn = new("times-in", "Whether times are utc or the site's",
        [
            "zone", "times in", "time zone", "zeitzone", "fuseau", "zona", "tijdzone",
        ]);
    public static readonly Column Recorder = new("recorder-name", "Name of the recorder",
        [
            "recorder", "recorder name", "rekorder", "aufnahmegerat", "enregistreur", "grabador", "grabadora", "registratore",
        ]);
    public static readonly Column Scale = new("clock-shows", "What its clock was set to: utc, gps or local",
        [
            "clock set to", "clock shows", "set to", "scale", "time scale", "uhr zeigt", "gestellt auf", "zeitskala", "horloge",
            "echelle", "reloj", "escala", "orologio", "scala", "klok", "schaal",
        ]);
    public static readonly Column Shown = new("shown", "What its clock showed",
        [
            "shown", "showed", "recorder showed", "recorder time", "displayed", "angezeigt", "zeigte", "rekorderzeit", "affiche",
            "mostrado", "mostrato", "getoond",
        ]);
    public static readonly Column True = new("true-time", "When that was, by a better clock",
        [
            "true", "true time", "reference time", "wahre zeit", "richtige zeit", "sollzeit", "heure vraie", "hora real",
            "hora verdadera", "ora vera", "ware tijd",
        ]);
    public static readonly Column TimeU = new("time-uncertainty-s", "How far the comparison may be off, s",
        [
            "uncertainty", "may be off", "unsicherheit", "incertitude", "incertidumbre", "incertezza", "onzekerheid",
        ]);
    public static readonly Column Against = new("against", "The better clock",
        [
            "against", "compared with", "reference", "gegen", "verglichen mit", "contre", "contra", "contro", "tegen",
        ]);
    public static readonly Column Level = new("compared-level", "Level by the chain, dB", ["level", "pegel", "niveau", "nivel", "livello"]);
    public static readonly Column Expected = new("expected-db", "What the place makes of it against the others, dB",
        [
            "expected", "expected level", "erwartet", "attendu", "esperado", "atteso", "verwacht",
        ]);
    public static readonly Column Sound = new("sound", "What sounded",
        [
            "sound", "source", "sound source", "schall", "quelle", "schallquelle", "son", "bruit", "fuente", "sonido", "suono",
            "sorgente", "geluid", "bron",
        ]);
    public static readonly Column SoundHz = new("sound-hz", "Frequency of what was compared, Hz",
        [
            "frequency", "freq", "frequenz", "frequence", "frecuencia", "frequenza", "frequentie",
        ]);
    public static readonly Column LevelU = new("level-uncertainty-db", "U (k = 2) of one level, dB",
        [
            "uncertainty", "u", "unsicherheit", "incertitude", "incertidumbre", "incertezza", "onzekerheid",
        ]);

    /// <summary>All of them.</summary>
    public static IReadOnlyList<Column> All { get; } =
    [
        Time, Date, Clock, Action, TakenIn, Out, In, Reason, Missing, Flush, Range, By, Moment, Calibrator, CheckAdapter, Barometer,
        Meter, Reading, Before, After, TimeBefore, TimeAfter, Deviation, Resolution, NominalDb, Wind, Gust, WindFrom, Horizontal,
        Vertical, Event, Start, Stop, Duration, EventKind, Flew, TimesIn, Recorder, Scale, Shown, True, TimeU, Against, Level, Expected,
            Sound, SoundHz, LevelU,
    ];

    private static readonly Dictionary<string, Column> ByKey = All.ToDictionary(c => c.Key, StringComparer.Ordinal);

    /// <summary>The column of a key; null where it is none of these.</summary>
    public static Column? OfKey(string key) => ByKey.GetValueOrDefault(key);
}
