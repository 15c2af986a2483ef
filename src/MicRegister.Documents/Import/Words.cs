using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Words of the trade as people write them, and what they stand for.</summary>
internal static class Words
{
    private static readonly Dictionary<string, DeviceKind> Kinds = Of<DeviceKind>(
    [
        ("mic", DeviceKind.Microphone), ("microphones", DeviceKind.Microphone), ("capsule", DeviceKind.Microphone), ("mikrofon", DeviceKind.Microphone), ("microphone capsule", DeviceKind.Microphone),
        ("preamp", DeviceKind.Preamplifier), ("pre amplifier", DeviceKind.Preamplifier), ("vorverstarker", DeviceKind.Preamplifier), ("preamplifiers", DeviceKind.Preamplifier),
        ("plate", DeviceKind.GroundPlate), ("ground board", DeviceKind.GroundPlate), ("bodenplatte", DeviceKind.GroundPlate), ("board", DeviceKind.GroundPlate),
        ("adapter", DeviceKind.Adapter), ("calibrator", DeviceKind.Calibrator), ("kalibrator", DeviceKind.Calibrator), ("pistonphone", DeviceKind.Calibrator), ("acoustic calibrator", DeviceKind.Calibrator),
        ("channel", DeviceKind.RecorderChannel), ("recorder", DeviceKind.RecorderChannel), ("daq channel", DeviceKind.RecorderChannel), ("kanal", DeviceKind.RecorderChannel),
        ("windscreen", DeviceKind.Windscreen), ("rain protection", DeviceKind.Windscreen), ("windschirm", DeviceKind.Windscreen), ("foam", DeviceKind.Windscreen),
        ("barometer", DeviceKind.Barometer), ("weather station", DeviceKind.Barometer), ("cable", DeviceKind.Cable), ("kabel", DeviceKind.Cable), ("gps receiver", DeviceKind.TimeReceiver),
        ("power supply", DeviceKind.PowerModule), ("hats", DeviceKind.HeadAndTorso), ("other", DeviceKind.General), ("misc", DeviceKind.General),
    ]);

    private static readonly Dictionary<string, DeviceKind> AllKinds = Kinds
        .Concat(DeviceKind.All.SelectMany(k => new[] { KeyValuePair.Create(Column.Plain(k.Label), k), KeyValuePair.Create(Column.Plain(k.Key), k) }))
        .DistinctBy(p => p.Key).ToDictionary(p => p.Key, p => p.Value);

    private static readonly Dictionary<string, DeviceStatus> Statuses = Of<DeviceStatus>(
    [
        ("in service", DeviceStatus.InService), ("ok", DeviceStatus.InService), ("in use", DeviceStatus.InService), ("active", DeviceStatus.InService), ("in betrieb", DeviceStatus.InService), ("good", DeviceStatus.InService),
        ("available", DeviceStatus.InService), ("operational", DeviceStatus.InService), ("usable", DeviceStatus.InService), ("in ordnung", DeviceStatus.InService), ("aktiv", DeviceStatus.InService),
        ("im einsatz", DeviceStatus.InService), ("verfugbar", DeviceStatus.InService), ("einsatzbereit", DeviceStatus.InService), ("en service", DeviceStatus.InService), ("en servicio", DeviceStatus.InService),
        ("in servizio", DeviceStatus.InService), ("in gebruik", DeviceStatus.InService), ("bon", DeviceStatus.InService), ("disponible", DeviceStatus.InService),
        ("away", DeviceStatus.Away), ("at lab", DeviceStatus.Away), ("lent", DeviceStatus.Away), ("on loan", DeviceStatus.Away), ("verliehen", DeviceStatus.Away),
        ("at calibration", DeviceStatus.Away), ("in calibration", DeviceStatus.Away), ("at the laboratory", DeviceStatus.Away), ("ausgeliehen", DeviceStatus.Away), ("im labor", DeviceStatus.Away),
        ("in kalibrierung", DeviceStatus.Away), ("zur kalibrierung", DeviceStatus.Away), ("en etalonnage", DeviceStatus.Away), ("en calibracion", DeviceStatus.Away), ("in taratura", DeviceStatus.Away),
        ("uitgeleend", DeviceStatus.Away), ("prestado", DeviceStatus.Away), ("in prestito", DeviceStatus.Away),
        ("out of service", DeviceStatus.OutOfService), ("defect", DeviceStatus.OutOfService), ("defective", DeviceStatus.OutOfService), ("broken", DeviceStatus.OutOfService), ("damaged", DeviceStatus.OutOfService), ("defekt", DeviceStatus.OutOfService),
        ("faulty", DeviceStatus.OutOfService), ("in repair", DeviceStatus.OutOfService), ("under repair", DeviceStatus.OutOfService), ("in reparatur", DeviceStatus.OutOfService), ("gesperrt", DeviceStatus.OutOfService),
        ("ausser betrieb", DeviceStatus.OutOfService), ("beschadigt", DeviceStatus.OutOfService), ("hors service", DeviceStatus.OutOfService), ("en panne", DeviceStatus.OutOfService),
        ("fuera de servicio", DeviceStatus.OutOfService), ("fuori servizio", DeviceStatus.OutOfService), ("guasto", DeviceStatus.OutOfService), ("buiten gebruik", DeviceStatus.OutOfService),
        ("lost", DeviceStatus.Lost), ("missing", DeviceStatus.Lost), ("verloren", DeviceStatus.Lost), ("vermisst", DeviceStatus.Lost), ("perdu", DeviceStatus.Lost), ("perdido", DeviceStatus.Lost), ("smarrito", DeviceStatus.Lost), ("stolen", DeviceStatus.Lost),
        ("retired", DeviceStatus.Retired), ("scrapped", DeviceStatus.Retired), ("ausgemustert", DeviceStatus.Retired), ("decommissioned", DeviceStatus.Retired), ("obsolete", DeviceStatus.Retired), ("reforme", DeviceStatus.Retired), ("dismesso", DeviceStatus.Retired), ("afgevoerd", DeviceStatus.Retired),
    ]);

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
        ("flush plate", Mount.FlushPlate), ("flush", Mount.FlushPlate), ("flush in plate", Mount.FlushPlate), ("inverted plate", Mount.InvertedPlate), ("inverted", Mount.InvertedPlate),
        ("ground stand", Mount.GroundStand), ("stand", Mount.GroundStand), ("tripod", Mount.GroundStand), ("1 2 m", Mount.GroundStand), ("pole", Mount.Pole), ("mast", Mount.Pole),
    ]);

    private static readonly Dictionary<string, SourceClass> Sources = Of<SourceClass>(
    [
        ("jet", SourceClass.Jet), ("propeller", SourceClass.Propeller), ("small multirotor", SourceClass.SmallMultirotor), ("multirotor", SourceClass.SmallMultirotor),
        ("drone", SourceClass.SmallMultirotor), ("other", SourceClass.Other), ("helicopter", SourceClass.Other),
    ]);

    private static readonly Dictionary<string, KitPurpose> Purposes = Of<KitPurpose>(
    [
        ("spare", KitPurpose.Spare), ("spares", KitPurpose.Spare), ("reserve", KitPurpose.Spare), ("check", KitPurpose.Check), ("checks", KitPurpose.Check), ("calibration", KitPurpose.Check),
    ]);

    private static readonly Dictionary<string, string> Quantities = Of<string>(
    [
        ("sensitivity", "sensitivity"), ("empfindlichkeit", "sensitivity"), ("level", "level"), ("spl", "level"), ("gain", "gain"), ("response", "response"), ("frequency response", "response"),
        ("insertion loss", "insertion-loss"), ("attenuation", "attenuation"), ("noise level", "noise-level"), ("static pressure", "static-pressure"), ("pressure", "static-pressure"),
        ("insertion voltage", "insertion-voltage"),
    ]);

    public static DeviceKind? Kind(string text) => DeviceKind.Find(text.Trim()) ?? AllKinds.GetValueOrDefault(Column.Plain(text)) ?? HeaderReading.KindIn(text);

    public static DeviceStatus? Status(string text) => Find(Statuses, text);

    public static Mount? MountOf(string text) => Find(Mounts, text);

    public static SourceClass? Source(string text) => Find(Sources, text);

    public static KitPurpose? Purpose(string text) => Find(Purposes, text);

    public static string? Quantity(string text) => Quantities.GetValueOrDefault(Column.Plain(text));

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
        where T : struct => words.TryGetValue(Column.Plain(text), out var value) || words.TryGetValue(Column.Plain(Sheets.FoldedText.Of(text)), out value) ? value : null;
}
