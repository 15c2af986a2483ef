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

    private static readonly Dictionary<string, DeviceStatus> Statuses = HeaderConcepts.Lines("states.txt")
        .Select(line => line.Split(" = "))
        .SelectMany(p => p[1].Split(" | ").Select(word => (Word: word, Status: StatusOf(p[0]))))
        .ToDictionary(s => s.Word, s => s.Status, StringComparer.Ordinal);

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

    /// <summary>The kind that a short form stands for where nothing but a kind can stand; null where it is none.</summary>
    public static DeviceKind? ShortKind(string text) => Column.Plain(Sheets.FoldedText.Of(text)) switch
    {
        "kali" or "kalis" or "kali s" or "calibr" or "kalibr" or "calib" or "kalib" or "cal" or "calis" => DeviceKind.Calibrator,
        "m" or "mk" or "mikr" or "micr" or "mik" => DeviceKind.Microphone,
        "vv" or "pa" or "pre" or "vorv" or "vorverst" or "preampl" => DeviceKind.Preamplifier,
        _ => null,
    };

    private const int MostSeen = 20_000;

    private static readonly ConcurrentDictionary<string, DeviceKind?> SeenKinds = new(StringComparer.Ordinal);

    private static DeviceKind? KindOf(string text) => text.IndexOf('(', StringComparison.Ordinal) is var at and >= 0
        && Find(Statuses, text[at..].Trim(' ', '(', ')')) is not null ? null : DeviceKind.Find(text.Trim())
            ?? AllKinds.GetValueOrDefault(Column.Plain(text))
        ?? AllKinds.GetValueOrDefault(Column.Plain(Sheets.FoldedText.Of(text))) ?? HeaderReading.KindIn(text);

    /// <summary>A state of use; null for other words, and where a question mark or a word in brackets says something else.</summary>
    public static DeviceStatus? Status(string text)
    {
        if (text.Length > LongestState || text.Contains('?', StringComparison.Ordinal)) return null;
        if (SeenStates.TryGetValue(text, out var seen)) return seen;
        var status = text.IndexOf('(', StringComparison.Ordinal) is var at and >= 0
            && StateOf(text[at..].Trim(' ', '(', ')')) != StateOf(text[..at]) ? null : StateOf(text);
        if (SeenStates.Count < MostSeen) SeenStates.TryAdd(text, status);
        return status;
    }

    private const int LongestState = 80;

    private static readonly ConcurrentDictionary<string, DeviceStatus?> SeenStates = new(StringComparer.Ordinal);

    private static DeviceStatus? StateOf(string text)
    {
        if (Find(Statuses, text) is { } said) return said;
        var words = Column.Plain(Sheets.FoldedText.Of(text)).Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0) return null;
        // "averiada" is averiado, "cassée" casse, "gesperrte" gesperrt.
        foreach (var ending in (Func<string, string>[])[w => w.EndsWith('a') ? w[..^1] + "o" : w, w => w is [.., 'e' or 's'] ? w[..^1] : w])
        {
            if (Statuses.TryGetValue(string.Join(' ', words.Select(w => w.Length > ShortestEnding ? ending(w) : w)),
                out var other)) return other;
        }
        return IsAtCalibration(words) ? DeviceStatus.Away : null;
    }

    // "Lista" is no feminine of "listo".
    private const int ShortestEnding = 5;

    private static readonly HashSet<string> AtPlace = ["at", "in", "im", "bei", "beim", "en", "au", "aux", "chez", "presso", "bij",
        "under", "ins", "sent", "gone", "out", "away", "off", "parti", "envoye", "expedie", "inviato", "spedito", "fuori", "fuera",
        "enviado", "verzonden", "opgestuurd", "verstuurd", "verschickt", "versandt", "gesandt", "geschickt", "eingeschickt", "unterwegs",
        "onderweg", "momentan",
            "currently"];

    private static readonly HashSet<string> Between = ["to", "for", "the", "zur", "zum", "a", "al", "alla", "l", "la", "le", "de", "d",
        "di", "del", "el", "het", "naar", "ter", "voor", "par", "por", "per", "external", "extern", "externe", "externo", "esterno",
        "esterna", "externa", "externer", "externem", "externen", "process", "cours", "corso", "proceso", "progress"];

    private static readonly HashSet<string> Calibrations = ["calibration", "cal", "kalibrierung", "kalibration", "kal", "etalonnage",
        "calibracion", "taratura", "calibrazione", "kalibratie", "ijking", "rekalibrierung", "reetalonnage", "recalibration",
        "kalibrieren"];

    // "parti en étalonnage", "presso il laboratorio di taratura": somewhere, for a calibration. "For calibration" alone may be to come.
    private static bool IsAtCalibration(string[] words) => words.Any(AtPlace.Contains) && words.Any(IsCalibration)
        && words.All(w => AtPlace.Contains(w) || Between.Contains(w) || IsCalibration(w) || HeaderConcepts.IsFiller(w)
            || w is "il" or "lo");

    private static bool IsCalibration(string word) => Calibrations.Contains(word)
        || (HeaderConcepts.Of(word) is { HasSlip: false, Concepts: ["laboratory"] or ["calibration", "laboratory"] });

    private static DeviceStatus StatusOf(string key) => key switch
    {
        "in-service" => DeviceStatus.InService,
        "away" => DeviceStatus.Away,
        "out-of-service" => DeviceStatus.OutOfService,
        "lost" => DeviceStatus.Lost,
        _ => DeviceStatus.Retired,
    };

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

    public static bool? YesNo(string text) => Column.Plain(Sheets.FoldedText.Of(text)) switch
    {
        "yes" or "y" or "ok" or "x" or "passed" or "pass" or "ja" or "oui" or "si" or "true" or "1" => true,
        "no" or "n" or "failed" or "fail" or "nein" or "non" or "nee" or "false" or "0" => false,
        _ => null,
    };

    private static Dictionary<string, T> Of<T>((string Word, T Meaning)[] words) => words.ToDictionary(w => w.Word, w => w.Meaning);

    private static T? Find<T>(Dictionary<string, T> words, string text)
        where T : struct => words.TryGetValue(Column.Plain(text), out var value)
            || words.TryGetValue(Column.Plain(Sheets.FoldedText.Of(text)), out value) ? value : null;
}
