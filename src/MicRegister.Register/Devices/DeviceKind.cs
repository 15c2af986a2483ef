using static MicRegister.Register.Devices.DeviceField;

namespace MicRegister.Register.Devices;

/// <summary>A kind of device: its stored key, its words, the details it has, and what is calibrated about it.</summary>
/// <param name="Key">Stored key.</param>
/// <param name="Label">Words for people.</param>
/// <param name="Own">Details beside those of every kind.</param>
/// <param name="Calibrated">The quantity whose results tell whether it is in date; null for what is not calibrated.</param>
public sealed record DeviceKind(string Key, string Label, IReadOnlyList<DeviceField> Own, string? Calibrated = null)
{
    public static readonly DeviceKind Microphone = new("microphone", "Microphone",
        [SizeMm, ResponseType, ResponseClass, WorkingStandardClass, PolarisationV, LowestHz, HighestHz, HighestLevelDb, NoiseFloorDb,
         NominalSensitivity, LoadVolumeMm3, PressureCoefficient, TemperatureCoefficient, HumidityCoefficient], "sensitivity");

    public static readonly DeviceKind Preamplifier = new("preamplifier", "Preamplifier", [SizeMm, Powering, PolarisationV, Connector, GainDb, LowestHz, HighestHz], "gain");

    public static readonly DeviceKind GroundPlate = new("ground-plate", "Ground plate",
        [DiameterMm, ThicknessMm, Material, Batch, CapsuleOffsetMm, PlateStyle, FitsMm]);

    public static readonly DeviceKind Adapter = new("calibration-adapter", "Calibration adapter", [FitsMm, LoadVolumeMm3]);

    public static readonly DeviceKind Calibrator = new("sound-calibrator", "Sound calibrator",
        [CalibratorClass, CalibratorEdition, NominalLevelDb, FrequencyHz, PressureLaw, PressureCoefficient, TemperatureCoefficient, LowestKPa, HighestKPa, FitsMm], "level");

    public static readonly DeviceKind RecorderChannel = new("recorder-channel", "Recorder channel",
        [Recorder, ChannelNumber, Powering, Connector, ChannelRangeV, SamplingHz, LowestHz, HighestHz, FilterClass, MeterClass], "gain");

    public static readonly DeviceKind Windscreen = new("windscreen", "Windscreen or rain protection",
        [FitsMm, InsertionLossDb, DiameterMm, LowestHz, HighestHz], "insertion-loss");

    public static readonly DeviceKind Barometer = new("barometer", "Barometer or weather station", [LowestKPa, HighestKPa], "static-pressure");

    public static readonly DeviceKind NoiseSource = new("noise-source", "Noise source", [LowestHz, HighestHz], "noise-level");

    public static readonly DeviceKind Attenuator = new("attenuator", "Attenuator", [GainDb], "attenuation");

    public static readonly DeviceKind ReferenceMicrophone = new("reference-microphone", "Reference microphone",
        [SizeMm, ResponseType, WorkingStandardClass, PolarisationV, LowestHz, HighestHz, NominalSensitivity, PressureCoefficient,
         TemperatureCoefficient, HumidityCoefficient], "sensitivity");

    public static readonly DeviceKind VoltageInsertion =
        new("voltage-insertion", "Voltage insertion device", [LowestHz, HighestHz], "insertion-voltage");

    public static readonly DeviceKind TimeReceiver = new("time-receiver", "Time receiver", []);

    public static readonly DeviceKind PowerModule = new("power-module", "Power module", [Powering, PolarisationV, Connector]);

    public static readonly DeviceKind Cable = new("cable", "Cable", [Connector]);

    public static readonly DeviceKind HeadAndTorso = new("head-and-torso", "Head and torso simulator", []);

    public static readonly DeviceKind TransportCase = new("transport-case", "Transport case", []);

    public static readonly DeviceKind General = new("general", "Other device", [.. DeviceField.All.Except(OfEveryKind)]);

    /// <summary>All kinds, in the order in which people expect them.</summary>
    public static IReadOnlyList<DeviceKind> All { get; } =
    [
        Microphone, Preamplifier, GroundPlate, Adapter, Calibrator, RecorderChannel, Windscreen, Barometer, NoiseSource, Attenuator,
        ReferenceMicrophone, VoltageInsertion, TimeReceiver, PowerModule, Cable, HeadAndTorso, TransportCase, General,
    ];

    private static readonly Dictionary<string, DeviceKind> ByKey = All.ToDictionary(k => k.Key);

    public static DeviceKind? Find(string? key) => key is null ? null : ByKey.GetValueOrDefault(key);

    /// <summary>
    /// Whether a device of a kind takes part in the sound of a chain, so that another one in its place makes another chain;
    /// one of an unknown kind does.
    /// </summary>
    internal static bool MakesSound(string? key) =>
        key != GroundPlate.Key && key != Windscreen.Key && key != TransportCase.Key && key != Adapter.Key;

    /// <summary>The unit of a level of a quantity: kPa for a static pressure, dB for all else.</summary>
    public static string UnitOf(string? quantity) => quantity == "static-pressure" ? "kPa" : "dB";

    /// <summary>Whether a device of a kind stands in chains, so that checks are made of it and not with it.</summary>
    internal static bool IsOfChain(string? key) =>
        key == Microphone.Key || key == Preamplifier.Key || key == RecorderChannel.Key || key == GroundPlate.Key || key == Windscreen.Key;

    public bool Has(DeviceField field) => OfEveryKind.Contains(field) || Own.Contains(field);
}
