using MicRegister.Metrology.Classes;

namespace MicRegister.Register.Devices;

/// <summary>One detail that a device can have: its key in facts, its words for people, its unit and what is allowed.</summary>
/// <param name="Key">Stored key; never given another meaning.</param>
/// <param name="Label">Words for people.</param>
/// <param name="Unit">Unit of a number; empty for a text.</param>
/// <param name="Least">Least number allowed, inclusive; null for a text.</param>
/// <param name="Greatest">Greatest number allowed, inclusive.</param>
/// <param name="Choices">Allowed texts; null where any text is.</param>
public sealed record DeviceField(string Key, string Label, string Unit, double? Least, double? Greatest, IReadOnlyList<string>? Choices = null)
{
    public bool IsNumber => Least is not null;

    /// <summary>The sort of instrument whose class it holds, or whose edition where <see cref="IsEdition"/>; null for all else.</summary>
    public InstrumentSort? Sort { get; init; }

    /// <summary>Whether it holds the edition of a class that another detail holds.</summary>
    public bool IsEdition { get; init; }

    /// <summary>What a person may enter, in words.</summary>
    public string Allowed => this switch
    {
        { Sort: { } sort, IsEdition: true } => "an edition: " + string.Join(", ", sort.Editions.Select(e => e.Text)),
        { Sort: { } sort } => "a class with its edition, such as " + sort.Example,
        { Choices: { } choices } => "one of " + string.Join(", ", choices),
        { IsNumber: true } => FormattableString.Invariant($"a number from {Least} to {Greatest}{(Unit.Length > 0 ? " " + Unit : "")}"),
        _ => "a text",
    };

    private static DeviceField Number(string key, string label, string unit, double least, double greatest) => new(key, label, unit, least, greatest);

    private static DeviceField Words(string key, string label, params string[] choices) => new(key, label, "", null, null, choices.Length > 0 ? choices : null);

    // Every kind
    public static readonly DeviceField Variant = Words("variant", "Variant");
    public static readonly DeviceField Owner = Words("owner", "Owner");
    public static readonly DeviceField Firmware = Words("firmware", "Software and firmware version");
    public static readonly DeviceField Verification = Words("verification", "Evidence of verification");
    public static readonly DeviceField AcceptanceCriteria = Words("acceptance-criteria", "Acceptance criteria");
    public static readonly DeviceField ReferenceMaterial = Words("reference-material", "Reference material and its validity");
    public static readonly DeviceField MaintenancePlan = Words("maintenance-plan", "Maintenance plan");
    public static readonly DeviceField IntervalMonths = Number("interval-months", "Calibration interval", "months", 1, 240);
    public static readonly DeviceField PartOf = Words("part-of", "Part of (id of a device)");
    public static readonly DeviceField InventoryCode = Words("inventory-code", "Inventory code");

    // Sound receivers
    public static readonly DeviceField SizeMm = Number("size-mm", "Nominal diameter", "mm", 1, 60);
    public static readonly DeviceField ResponseType = Words("response-type", "Response type", "free-field", "pressure", "diffuse");
    public static readonly DeviceField ResponseClass = Words("response-class", "Class and edition that its response is judged by",
        [.. Metrology.ResponseLimits.ResponseTable.Keys]);
    public static readonly DeviceField WorkingStandardClass = Words("class-61094", "Class of IEC 61094",
        "LS1P", "LS2aP", "LS2bP", "LS2F", "WS1F", "WS1P", "WS1D", "WS2F", "WS2P", "WS2D", "WS3F", "WS3P", "WS3D");
    public static readonly DeviceField PolarisationV = Number("polarisation-v", "Polarisation voltage", "V", 0, 200);
    public static readonly DeviceField LowestHz = Number("lowest-hz", "Lowest frequency", "Hz", 0, 1e6);
    public static readonly DeviceField HighestHz = Number("highest-hz", "Highest frequency", "Hz", 1, 1e6);
    public static readonly DeviceField HighestLevelDb = Number("highest-level-db", "Highest level", "dB", 60, 200);
    public static readonly DeviceField NoiseFloorDb = Number("noise-floor-db", "Noise floor, A-weighted", "dB", -20, 80);
    public static readonly DeviceField NominalSensitivity = Number("nominal-mv-per-pa", "Nominal sensitivity", "mV/Pa", 0.01, 2000);
    public static readonly DeviceField LoadVolumeMm3 = Number("load-volume-mm3", "Effective load volume", "mm³", 0, 5000);
    public static readonly DeviceField PressureCoefficient = Number("pressure-db-per-kpa", "Pressure coefficient", "dB/kPa", -1, 1);
    public static readonly DeviceField TemperatureCoefficient = Number("temperature-db-per-k", "Temperature coefficient", "dB/K", -1, 1);
    public static readonly DeviceField HumidityCoefficient = Number("humidity-db-per-percent", "Humidity coefficient", "dB/%RH", -1, 1);

    // Electrical parts
    public static readonly DeviceField Powering = Words("powering", "Powering", "constant-current", "high-voltage", "low-voltage", "phantom", "none");
    public static readonly DeviceField Connector = Words("connector", "Connector");
    public static readonly DeviceField GainDb = Number("gain-db", "Gain", "dB", -80, 80);
    public static readonly DeviceField ChannelRangeV = Number("range-v", "Range, peak", "V", 0.001, 1000);
    public static readonly DeviceField SamplingHz = Number("sampling-hz", "Sampling rate", "Hz", 1000, 2e6);

    public static readonly DeviceField FilterClass = Words("filter-class", "Class of its filters (IEC 61260)") with { Sort = InstrumentSort.Filter };
    public static readonly DeviceField MeterClass =
        Words("meter-class", "Class as a sound level meter (IEC 651, IEC 61672)") with { Sort = InstrumentSort.Meter };
    public static readonly DeviceField Recorder = Words("recorder", "Recorder that it belongs to, as its recordings name it");
    public static readonly DeviceField ChannelNumber = Number("channel-number", "Channel number in the recorder's files", "", 1, 1024);

    // Plates, protection, adapters
    public static readonly DeviceField DiameterMm = Number("diameter-mm", "Plate diameter", "mm", 50, 3000);
    public static readonly DeviceField ThicknessMm = Number("thickness-mm", "Plate thickness", "mm", 0.1, 200);
    public static readonly DeviceField Material = Words("material", "Material");
    public static readonly DeviceField Batch = Words("batch", "Batch of material");
    public static readonly DeviceField CapsuleOffsetMm = Number("capsule-offset-mm", "Capsule's distance from the centre", "mm", 0, 1500);
    public static readonly DeviceField PlateStyle = Words("plate-style", "Way of mounting", "flush", "inverted");
    public static readonly DeviceField InsertionLossDb = Number("insertion-loss-db", "Greatest insertion loss over angle", "dB", -30, 60);
    public static readonly DeviceField FitsMm = Number("fits-mm", "Fits a nominal diameter of", "mm", 1, 60);

    // Calibrators
    public static readonly DeviceField CalibratorClass = Words("calibrator-class", "Class of IEC 60942") with { Sort = InstrumentSort.Calibrator };
    public static readonly DeviceField CalibratorEdition =
        Words("calibrator-edition", "Edition of IEC 60942 (year)") with { Sort = InstrumentSort.Calibrator, IsEdition = true };
    public static readonly DeviceField NominalLevelDb = Number("nominal-level-db", "Nominal level", "dB", 60, 160);
    public static readonly DeviceField FrequencyHz = Number("frequency-hz", "Nominal frequency", "Hz", 1, 20000);
    public static readonly DeviceField PressureLaw = Words("pressure-law", "How its level follows static pressure", "adiabatic", "coefficient", "none");
    public static readonly DeviceField LowestKPa = Number("lowest-kpa", "Lowest static pressure", "kPa", 30, 110);
    public static readonly DeviceField HighestKPa = Number("highest-kpa", "Highest static pressure", "kPa", 30, 120);

    private static readonly DeviceField[] Common =
        [Variant, Owner, Firmware, Verification, AcceptanceCriteria, ReferenceMaterial, MaintenancePlan, IntervalMonths, PartOf, InventoryCode];

    private static readonly DeviceField[] Special =
    [
        SizeMm, ResponseType, ResponseClass, WorkingStandardClass, PolarisationV, LowestHz, HighestHz, HighestLevelDb, NoiseFloorDb,
        NominalSensitivity, LoadVolumeMm3, PressureCoefficient, TemperatureCoefficient, HumidityCoefficient, Powering, Connector, GainDb, ChannelRangeV, SamplingHz, Recorder, ChannelNumber,
        FilterClass, MeterClass, DiameterMm, ThicknessMm,
        Material, Batch, CapsuleOffsetMm, PlateStyle, InsertionLossDb, FitsMm, CalibratorClass, CalibratorEdition, NominalLevelDb, FrequencyHz, PressureLaw,
        LowestKPa, HighestKPa,
    ];

    /// <summary>Details that a device of any kind can have.</summary>
    public static IReadOnlyList<DeviceField> OfEveryKind => Common;

    /// <summary>All details, those of every kind first.</summary>
    public static IReadOnlyList<DeviceField> All { get; } = [.. Common, .. Special];

    private static readonly Dictionary<string, DeviceField> ByKey = All.ToDictionary(f => f.Key);

    public static DeviceField? Find(string key) => ByKey.GetValueOrDefault(key);
}
