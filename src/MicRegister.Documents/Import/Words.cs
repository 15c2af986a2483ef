using System.Collections.Concurrent;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Words of the trade as people write them, and what they stand for.</summary>
internal static class Words
{
    private static readonly Dictionary<string, DeviceKind> Kinds = Of<DeviceKind>(
    [
        ("mic", DeviceKind.Microphone), ("microphones", DeviceKind.Microphone), ("capsule", DeviceKind.Microphone),
            ("mikrofon", DeviceKind.Microphone), ("microphone capsule", DeviceKind.Microphone),
        ("preamp", DeviceKind.Preamplifier), ("previo de microfono", DeviceKind.Preamplifier), ("previo", DeviceKind.Preamplifier),
            ("source etalon", DeviceKind.Calibrator), ("pre amplifier", DeviceKind.Preamplifier),
                ("vorverstarker", DeviceKind.Preamplifier),
            ("preamplifiers", DeviceKind.Preamplifier),
        ("plate", DeviceKind.GroundPlate), ("ground board", DeviceKind.GroundPlate), ("bodenplatte", DeviceKind.GroundPlate),
            ("board", DeviceKind.GroundPlate),
        ("adapter", DeviceKind.Adapter), ("calibrator", DeviceKind.Calibrator), ("kalibrator", DeviceKind.Calibrator),
            ("pistonphone", DeviceKind.Calibrator), ("acoustic calibrator", DeviceKind.Calibrator),
        ("channel", DeviceKind.RecorderChannel), ("recorder", DeviceKind.RecorderChannel), ("daq channel", DeviceKind.RecorderChannel),
            ("kanal", DeviceKind.RecorderChannel),
        ("windscreen", DeviceKind.Windscreen), ("rain protection", DeviceKind.Windscreen), ("windschirm", DeviceKind.Windscreen),
            ("foam", DeviceKind.Windscreen),
        ("barometer", DeviceKind.Barometer), ("weather station", DeviceKind.Barometer), ("cable", DeviceKind.Cable),
            ("kabel", DeviceKind.Cable), ("gps receiver", DeviceKind.TimeReceiver),
        ("power supply", DeviceKind.PowerModule), ("hats", DeviceKind.HeadAndTorso), ("other", DeviceKind.General),
            ("misc", DeviceKind.General),
    ]);

    private static readonly Dictionary<string, DeviceKind> AllKinds = Kinds
        .Concat(DeviceKind.All.SelectMany(k => new[] { KeyValuePair.Create(Column.Plain(k.Label), k),
            KeyValuePair.Create(Column.Plain(k.Key), k) }))
        .DistinctBy(p => p.Key).ToDictionary(p => p.Key, p => p.Value);

    private static readonly Dictionary<string, DeviceStatus> Statuses = new (DeviceStatus Status, string[] Words)[]
    {
        (DeviceStatus.InService,
        [
            "functional", "serviceable ok", "fit for use", "ready for use", "deployed", "in stock", "stock", "on shelf", "spare",
            "issued", "einsatzfahig", "funktionsfahig",
            "gebrauchsfahig", "im gebrauch", "in gebruik genomen", "in benutzung", "in verwendung", "im bestand", "auf lager",
            "lagernd", "vorhanden", "nutzbar", "freigegeben", "n d", "utilisable", "utilise", "en fonction", "en etat",
            "en stock", "fonctionnel", "en marcha", "utilizable", "disponible en almacen", "funciona",
            "en funcionamiento", "utilizzabile", "in funzione", "a magazzino", "in esercizio", "operativa",
            "bruikbaar", "operationeel", "in bedrijf", "op voorraad", "inzetbaar", "werkend", "gereed",
            "good condition", "gute verfassung", "guter zustand", "buen estado", "en buen estado", "buono stato",
            "in buono stato", "goede staat", "in goede staat", "listo", "listo para uso", "listo para usar", "pronto",
            "pronto all uso", "pret a l emploi", "klaar", "klaar voor gebruik", "klar", "fertig",
            "in gebrauch", "idoneo", "idonea", "apte", "apto", "geeignet", "geschikt", "inzetbaar voor gebruik",
            "in service", "ok", "i o", "in use", "active", "in betrieb", "good", "available", "operational", "usable", "working",
            "serviceable", "in ordnung", "aktiv", "im einsatz", "verfugbar", "einsatzbereit", "betriebsbereit", "gut",
            "en service", "en usage", "bon", "bon etat", "actif", "disponible", "operationnel", "en servicio", "en uso",
            "activo", "operativo", "bueno", "in servizio", "in uso", "attivo", "funzionante", "buono", "disponibile",
            "in gebruik", "actief", "beschikbaar", "goed", "in orde", "fine", "new", "neu", "neuf", "nuevo", "nuovo", "nieuw",
            "ready", "bereit",
        ]),
        (DeviceStatus.Away,
        [
            "out on loan", "on hire", "hired", "rented", "verleend", "sent away", "sent out", "sent to lab",
            "sent to laboratory", "sent for cal", "out for cal", "at cal", "in cal", "in cal lab", "at cal lab",
            "at calibration lab", "at the calibration laboratory", "awaiting return", "ausser haus",
            "auswarts", "im kalibrierlabor", "bei kalibrierung", "zum kalibrieren", "zur kal", "in kal", "kalibrierung lauft",
            "verschickt", "verliehen an", "leihe", "verleih", "naar kalibratie", "naar kalibratielab", "ter kalibratie",
            "in het lab", "uit geleend", "geleend", "bij lab", "verzonden", "opgestuurd", "envoye en etalonnage",
            "parti en etalonnage", "envoye a l etalonnage", "au laboratoire", "en etalonnage externe", "chez le prestataire",
            "pret", "enviado a calibrar", "enviado a calibracion", "en el laboratorio", "fuera para calibracion", "prestada",
            "inviato a taratura", "inviato in taratura", "fuori per taratura", "presso il laboratorio", "in laboratorio",
            "a taratura", "spedito",
            "chez le laboratoire", "au laboratoire d etalonnage", "bij het kalibratielab", "bij het lab",
            "presso il laboratorio di taratura", "en el laboratorio de calibracion", "beim labor", "im kalibrierlabor abgegeben",
            "beim kalibrierlabor", "at the lab", "at the cal lab", "with the lab", "at supplier", "beim lieferanten",
            "extern zur kalibrierung", "extern voor kalibratie", "extern in kalibrierung", "in the calibration lab",
            "in laboratorio esterno", "en laboratorio externo", "en laboratoire externe", "in extern lab", "extern lab",
            "externes labor",
            "spedito a tarare", "fuera por calibracion", "fuera por la calibracion",
            "away", "at lab", "lent", "on loan", "lent out", "loaned", "verliehen", "at calibration", "in calibration",
            "at the laboratory", "out for calibration", "sent for calibration", "being calibrated", "ausgeliehen", "entliehen",
            "unterwegs", "im labor", "in kalibrierung", "zur kalibrierung", "beim kalibrieren", "bei der kalibrierung",
            "en etalonnage", "a l etalonnage", "prete", "en pret", "emprunte", "en calibracion", "prestado", "en prestamo",
            "in taratura", "in prestito", "prestato", "in kalibratie", "bij kalibratie", "uitgeleend", "uitgeleend aan",
            "shipped", "in transit", "versandt",
        ]),
        (DeviceStatus.OutOfService,
        [
            "unserviceable", "u s", "us", "inoperative", "inop", "failed", "not ok", "nok", "bad", "needs repair", "repair",
            "awaiting repair", "to be repaired", "for repair", "on hold", "hold", "suspended", "locked",
            "nicht ok", "n i o", "nio", "nicht in ordnung", "fehlerhaft", "reparaturbedurftig", "reparatur",
            "nicht einsatzbereit", "nicht verfugbar", "gesperrt fur messungen", "sperre", "schadhaft",
            "ne pas utiliser", "inutilisable", "defaillant", "abime", "a reparer", "hors d usage", "immobilise", "no usar",
            "no apto", "inservible", "a reparar", "estropeado", "bloqueado", "en cuarentena", "non usare", "non utilizzabile",
            "da riparare", "bloccato", "inutilizzabile", "difettosa", "niet gebruiken", "niet bruikbaar", "onbruikbaar",
            "geblokkeerd", "te repareren", "defecte",
            "a depanner", "da riparare subito", "reparieren", "zu reparieren", "muss repariert werden", "to repair",
            "not working", "non idoneo", "inapte", "funktionsunfahig", "nicht funktionsfahig", "ungeeignet", "niet werkend",
            "ongeschikt", "does not work", "malfunction",
            "por reparar", "bloque", "a reparer d urgence",
            "not in service", "nicht in betrieb", "pas en service", "no en servicio", "non in servizio", "niet in gebruik",
            "out of service", "defect", "defective", "broken", "damaged", "defekt", "faulty", "in repair", "under repair",
            "in reparatur", "zur reparatur", "gesperrt", "blocked", "quarantine", "out of order", "not usable", "do not use",
            "kaputt", "beschadigt", "ausser betrieb", "nicht verwenden", "hors service", "hs", "en panne", "defectueux", "casse",
            "en reparation", "endommage", "fuera de servicio", "averiado", "defectuoso", "danado", "roto", "en reparacion",
            "fuori servizio", "guasto", "difettoso", "danneggiato", "rotto", "in riparazione", "buiten gebruik", "buiten dienst",
            "kapot", "beschadigd", "stuk", "in reparatie",
        ]),
        (DeviceStatus.Lost,
        [
            "lost in field", "mislaid", "misplaced", "not located", "untraceable", "verschwunden", "nicht gefunden",
            "unauffindbar", "fehlt", "fehlend", "disparu", "perdue", "non trouve", "no encontrado", "desaparecido",
            "no localizado", "perdida", "scomparso", "non trovato", "introvabile", "irreperibile", "verdwenen", "niet gevonden",
            "onvindbaar", "niet vindbaar", "verloren gegaan",
            "non retrouve", "non retrouvee", "nicht wiedergefunden", "niet teruggevonden", "not recovered", "no recuperado",
            "non ritrovato",
            "cannot be located", "cannot be found", "verbleib unbekannt", "whereabouts unknown", "sparito", "not locatable",
            "unbekannter verbleib", "onbekend waar", "verblijf onbekend", "paradero desconocido",
            "spoorloos", "lost", "missing", "verloren", "vermisst", "verschollen", "abhanden gekommen", "nicht auffindbar", "not found",
            "stolen", "gestohlen", "perdu", "egare", "manquant", "vole", "introuvable", "perdido", "extraviado", "robado",
            "smarrito", "perso", "mancante", "rubato", "disperso", "kwijt", "vermist", "zoek", "gestolen",
        ]),
        (DeviceStatus.Retired,
        [
            "scrap", "to scrap", "discarded", "end of life", "eol", "sold", "junked", "condemned",
            "phased out", "abgeschrieben", "abgeschafft", "verkauft", "ausser dienst gestellt", "ausrangiert", "schrott",
            "ausgeschieden", "ausgebucht", "rebute", "rebutee", "au rebus", "sorti", "vendu", "ferraille",
            "elimine", "retirado del servicio", "eliminado", "desguazado", "vendido", "obsoleto", "desechada",
            "fuori uso definitivo", "dismessa", "alienata", "scartato", "venduto", "radiato", "eliminato",
            "verschroot", "verkocht", "weggegooid", "afgedankt", "afgekeurd",
            "gesloopt", "tolto dall inventario", "retire de l inventaire", "sorti de l inventaire", "sorti d inventaire",
            "aus dem inventar genommen", "aus inventar", "removed from inventory", "struck off", "uit inventaris",
            "dado de baja en inventario", "retirado de inventario", "sacado de inventario",
            "abgegangen", "escluso dall inventario", "abgang", "ausgebucht und entsorgt", "uit de inventaris", "weggedaan",
            "taken off inventory", "abgeschrieben und entsorgt",
            "retirado del inventario",
            "excluido del inventario", "retired", "scrapped", "disposed", "disposed of", "decommissioned", "obsolete", "written off",
                "withdrawn",
            "ausgemustert", "verschrottet", "ausgesondert", "entsorgt", "stillgelegt", "reforme", "mis au rebut", "au rebut",
            "retire", "declasse", "dado de baja", "baja", "retirado", "desechado", "dismesso", "rottamato", "ritirato",
            "alienato", "afgevoerd", "afgeschreven", "verwijderd", "buiten gebruik gesteld",
        ]),
    }.SelectMany(s => s.Words.Select(word => (word, s.Status))).ToDictionary(s => s.word, s => s.Status);

    private static readonly Dictionary<string, string> Choices = Of<string>(
    [
        ("ff", "free-field"), ("free field", "free-field"), ("freefield", "free-field"), ("freifeld", "free-field"), ("f", "free-field"),
        ("p", "pressure"), ("press", "pressure"), ("druck", "pressure"), ("pressure field", "pressure"),
        ("d", "diffuse"), ("diffuse field", "diffuse"), ("diffusfeld", "diffuse"), ("random", "diffuse"), ("random incidence", "diffuse"),
        ("constant current", "constant-current"), ("high voltage", "high-voltage"), ("low voltage", "low-voltage"),
        ("pistonphone", "adiabatic"), ("20 lg p", "adiabatic"), ("inverse", "inverted"),
    ]);

    private static readonly Dictionary<string, Mount> Mounts = Of<Mount>(
    [
        ("flush plate", Mount.FlushPlate), ("flush", Mount.FlushPlate), ("flush in plate", Mount.FlushPlate),
            ("inverted plate", Mount.InvertedPlate), ("inverted", Mount.InvertedPlate),
        ("ground stand", Mount.GroundStand), ("stand", Mount.GroundStand), ("tripod", Mount.GroundStand), ("1 2 m", Mount.GroundStand),
            ("pole", Mount.Pole), ("mast", Mount.Pole),
    ]);

    private static readonly Dictionary<string, SourceClass> Sources = Of<SourceClass>(
    [
        ("jet", SourceClass.Jet), ("propeller", SourceClass.Propeller), ("small multirotor", SourceClass.SmallMultirotor),
            ("multirotor", SourceClass.SmallMultirotor),
        ("drone", SourceClass.SmallMultirotor), ("other", SourceClass.Other), ("helicopter", SourceClass.Other),
    ]);

    private static readonly Dictionary<string, KitPurpose> Purposes = Of<KitPurpose>(
    [
        ("spare", KitPurpose.Spare), ("spares", KitPurpose.Spare), ("reserve", KitPurpose.Spare), ("check", KitPurpose.Check),
            ("checks", KitPurpose.Check), ("calibration", KitPurpose.Check),
    ]);

    private static readonly Dictionary<string, string> Quantities = Of<string>(
    [
        ("sensitivity", "sensitivity"), ("empfindlichkeit", "sensitivity"), ("level", "level"), ("spl", "level"), ("gain", "gain"),
            ("response", "response"), ("frequency response", "response"),
        ("insertion loss", "insertion-loss"), ("attenuation", "attenuation"), ("noise level", "noise-level"),
            ("static pressure", "static-pressure"), ("pressure", "static-pressure"),
        ("insertion voltage", "insertion-voltage"), ("general", "general"),
    ]);

    /// <summary>The kind that a text names; null where it names none, or says more than a kind.</summary>
    public static DeviceKind? Kind(string text)
    {
        // The same few words stand in every row of a large list.
        if (SeenKinds.TryGetValue(text, out var seen)) return seen;
        var kind = KindOf(text);
        if (SeenKinds.Count < MostSeen) SeenKinds.TryAdd(text, kind);
        return kind;
    }

    private const int MostSeen = 20_000;

    private static readonly ConcurrentDictionary<string, DeviceKind?> SeenKinds = new(StringComparer.Ordinal);

    private static DeviceKind? KindOf(string text) => text.IndexOf('(', StringComparison.Ordinal) is var at and >= 0
        && Find(Statuses, text[at..].Trim(' ', '(', ')')) is not null ? null : DeviceKind.Find(text.Trim())
            ?? AllKinds.GetValueOrDefault(Column.Plain(text))
        ?? AllKinds.GetValueOrDefault(Column.Plain(Sheets.FoldedText.Of(text))) ?? HeaderReading.KindIn(text);

    /// <summary>A state of use; null for other words, and where a question mark or a word in brackets says something else.</summary>
    public static DeviceStatus? Status(string text) => text.Contains('?', StringComparison.Ordinal)
        || (text.IndexOf('(', StringComparison.Ordinal) is var at and >= 0
            && Find(Statuses, text[at..].Trim(' ', '(', ')')) != Find(Statuses, text))
        ? null : Find(Statuses, text);

    public static Mount? MountOf(string text) => Find(Mounts, text);

    public static SourceClass? Source(string text) => Find(Sources, text);

    public static KitPurpose? Purpose(string text) => Find(Purposes, text);

    public static string? Quantity(string text) => Quantities.GetValueOrDefault(Column.Plain(text))
        ?? (HeaderConcepts.Of(text) is { Unknown: 0 } of
        ? of.Concepts switch
        {
            ["sensitivity"] or ["sensitivity", "level"] or ["microphone", "sensitivity"] => "sensitivity",
            ["level"] or ["level", "pressure"] or ["level", "value"] => "level",
            ["gain"] => "gain",
            _ => null,
        }
        : null);

    /// <summary>A choice of a field, by its own word or one of the trade's; null where it is none.</summary>
    public static string? Choice(DeviceField field, string text)
    {
        var choices = field.Choices!;
        return choices.FirstOrDefault(c => string.Equals(c, text.Trim(), StringComparison.OrdinalIgnoreCase))
            ?? choices.FirstOrDefault(c => Column.Plain(c) == Column.Plain(text) && Column.Plain(text).Length > 0)
            ?? (Choices.GetValueOrDefault(Column.Plain(text)) is { } word && choices.Contains(word) ? word : null);
    }

    public static bool? YesNo(string text) => Column.Plain(text) switch
    {
        "yes" or "y" or "ok" or "x" or "passed" or "pass" or "ja" or "true" or "1" => true,
        "no" or "n" or "failed" or "fail" or "nein" or "false" or "0" => false,
        _ => null,
    };

    private static Dictionary<string, T> Of<T>((string Word, T Meaning)[] words) => words.ToDictionary(w => w.Word, w => w.Meaning);

    private static T? Find<T>(Dictionary<string, T> words, string text)
        where T : struct => words.TryGetValue(Column.Plain(text), out var value)
            || words.TryGetValue(Column.Plain(Sheets.FoldedText.Of(text)), out value) ? value : null;
}
