namespace MicRegister.Documents.DigitalCertificates;

/// <summary>What a digital calibration certificate states, as far as it is read.</summary>
/// <param name="SchemaVersion">Version of its schema, as it is written there; empty where none is.</param>
/// <param name="Number">Unique identifier.</param>
/// <param name="Begin">First day of the measurement.</param>
/// <param name="End">Last day of the measurement.</param>
/// <param name="Laboratory">Name of the calibration laboratory.</param>
/// <param name="Items">What was calibrated.</param>
/// <param name="Quantities">Results in their order; what is no figure is left out and said in the notes.</param>
/// <param name="Notes">What was not read, or is not known.</param>
public sealed record DigitalCertificate(
    string SchemaVersion, string? Number, DateOnly? Begin, DateOnly? End, string? Laboratory, IReadOnlyList<DigitalItem> Items,
    IReadOnlyList<DigitalQuantity> Quantities, IReadOnlyList<string> Notes);

/// <param name="Serial">The identification that its manufacturer issued.</param>
public sealed record DigitalItem(string? Name, string? Manufacturer, string? Model, string? Serial);

/// <summary>A quantity of a result: one value, or a list.</summary>
/// <param name="Result">Name of the result.</param>
/// <param name="Name">Its own name.</param>
/// <param name="RefType">What it stands for by the conventions of the format; null where none is written.</param>
/// <param name="Values">At least one.</param>
public sealed record DigitalQuantity(string? Result, string? Name, string? RefType, IReadOnlyList<DigitalValue> Values);

/// <summary>A value with its uncertainty.</summary>
/// <param name="Value">Finite.</param>
/// <param name="Unit">V/Pa, mV/Pa, dB, Hz, kHz, Pa, kPa, K, °C, % or 1; what is not known as it is written there.</param>
/// <param name="IsUnitKnown">Whether the unit is one of those.</param>
/// <param name="Expanded">Expanded uncertainty in the unit of the value; null where none was read, which never means that the value is
/// exact.</param>
/// <param name="CoverageFactor">k; null where no uncertainty was read.</param>
/// <param name="Remark">Where the uncertainty is from, or why there is none.</param>
public sealed record DigitalValue(double Value, string Unit, bool IsUnitKnown, double? Expanded, double? CoverageFactor, string Remark)
{
    /// <summary>Begins the remark of a value whose uncertainty was not read.</summary>
    public const string NotRead = "U not read";

    /// <summary>Level in dB re 1 V/Pa of a sensitivity in V/Pa or mV/Pa; null for all else.</summary>
    public double? LevelDb => Unit is "V/Pa" or "mV/Pa" && Value > 0 ? 20 * Math.Log10(Unit == "mV/Pa" ? Value / 1000 : Value) : null;

    /// <summary>Expanded uncertainty of that level in dB, the greater half: 20 lg(1 + U / value).</summary>
    public double? ExpandedDb => LevelDb is not null && Expanded is { } u ? 20 * Math.Log10(1 + (u / Value)) : null;
}
