using System.Globalization;
using MicRegister.Documents.Curves;
using MicRegister.Documents.DigitalCertificates;
using MicRegister.Documents.Import;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Drift;
using MicRegister.Server.Imports;

namespace MicRegister.Server.Pages.Bench;

/// <summary>One result as it is being entered.</summary>
public sealed class BenchLine
{
    private readonly Dictionary<BenchField, string> _problems = [];
    private object? _insisted;

    public string? Serial { get; set; }

    /// <summary>Id of the device that is meant, where several carry the serial number and a person chose.</summary>
    public string? Chosen { get; set; }

    public string? Value { get; set; }

    /// <summary>Unit of the result; null takes that of the device's certificate before.</summary>
    public string? Unit { get; set; }

    /// <summary>U, in dB unless it is in percent; null takes that of all lines, and an empty text is none.</summary>
    public string? Expanded { get; set; }

    public bool IsInPercent { get; set; }

    /// <summary>Day; null takes that of all.</summary>
    public DateOnly? Day { get; set; }

    public string? Number { get; set; }

    /// <summary>Air during this measurement, where it was another than that of the day; an empty text is none stated.</summary>
    public string? Temperature { get; set; }

    public string? Humidity { get; set; }

    public string? Pressure { get; set; }

    /// <summary>The certificate itself.</summary>
    public BenchFile? Certificate { get; set; }

    /// <summary>A response curve that was measured with it.</summary>
    public BenchFile? Curve { get; set; }

    /// <summary>What a person said of the curve file.</summary>
    public CurveAnswers CurveAnswers { get; set; } = CurveAnswers.None;

    public IEnumerable<BenchFile> Files => new[] { Certificate, Curve }.OfType<BenchFile>();

    /// <summary>Whether a person says it all the same, though it does not fit: of these figures, and of no others.</summary>
    public bool IsInsisted
    {
        get => _insisted is { } on && on.Equals(Figures);
        set => _insisted = value ? Figures : null;
    }

    public DeviceState? Device { get; set; }

    /// <summary>Devices that carry the serial number, where that is not one alone.</summary>
    public IReadOnlyList<DeviceState> Namesakes { get; set; } = [];

    public CertificateIssued? Issued { get; set; }

    public DateOnly IssuedOn { get; set; }

    public string? ShownUnit { get; set; }

    /// <summary>Unit of U where it is not in percent.</summary>
    public string UncertaintyUnit { get; set; } = "dB";

    /// <summary>Level in reference conditions, in dB.</summary>
    public double? LevelDb { get; set; }

    /// <summary>What it is held against before it is stored; null where nothing can be expected.</summary>
    public EntryExpectation? Expectation { get; set; }

    /// <summary>What was read of the curve; null where there is none, or it cannot be read yet.</summary>
    public DeviceCurves? ReadCurve { get; set; }

    /// <summary>What the curve file leaves open.</summary>
    public CurveReading? Asking { get; set; }

    /// <summary>What is said beside it and keeps nobody from storing it.</summary>
    public List<string> Notes { get; } = [];

    /// <summary>What the digital certificate states; null where there is none.</summary>
    public DigitalCertificate? Digital { get; set; }

    /// <summary>Number of the line above that is of the same device and day, from 1; null where there is none.</summary>
    public int? TwinOf { get; set; }

    /// <summary>Counts up whenever something about it changed.</summary>
    public int Version { get; set; }

    /// <summary>What was read of files before, by what it was read with.</summary>
    internal object? CurveKey { get; set; }

    internal object? CertificateKey { get; set; }

    internal bool IsCertificateHere { get; set; }

    internal DigitalCertificate? DigitalRead { get; set; }

    /// <summary>What is said of the curve's certificate beside its figures.</summary>
    internal CurveCertificate? CurveAbout { get; set; }

    internal (DeviceCurves? Curve, CurveReading? Asking, IReadOnlyList<string> Notes, string? Problem) CurveRead { get; set; } =
        (null, null, [], null);

    /// <summary>What is wrong with a field; null where nothing is.</summary>
    public string? ProblemOf(BenchField field) => _problems.GetValueOrDefault(field);

    /// <summary>The first of all that is wrong; null where nothing is.</summary>
    public string? Problem => _problems.Count == 0 ? null : _problems.MinBy(p => p.Key).Value;

    /// <summary>Says what is wrong with a field; the first word counts.</summary>
    internal void Blame(BenchField field, string problem) => _problems.TryAdd(field, problem);

    internal void Forget()
    {
        _problems.Clear();
        Notes.Clear();
        (Device, Issued, Expectation, LevelDb, ReadCurve, Asking, Digital) = (null, null, null, null, null, null, null);
        (Namesakes, ShownUnit, UncertaintyUnit) = ([], null, "dB");
        Version++;
    }

    /// <summary>Whether it cannot be stored as it stands, whatever a person says of its figure.</summary>
    public bool IsStuck => Problem is not null || Asking is not null || TwinOf is not null;

    public bool Fits => Expectation?.Fits != false;

    /// <summary>Whether it can be stored as it stands.</summary>
    public bool IsGood => Issued is not null && _problems.Count == 0 && Asking is null && TwinOf is null && (Fits || IsInsisted);

    /// <summary>Whether it waits for a person to say that it is right all the same.</summary>
    public bool IsDoubted => Issued is not null && !Fits && !IsInsisted;

    public bool IsEmpty => string.IsNullOrWhiteSpace(Serial) && string.IsNullOrWhiteSpace(Value) && !Files.Any();

    /// <summary>Whether more was entered than the device that it is to be of.</summary>
    public bool HoldsSomething => Files.Any()
        || new[] { Value, Number, Expanded, Temperature, Humidity, Pressure }.Any(t => !string.IsNullOrWhiteSpace(t));

    /// <summary>Takes a result with or without its unit.</summary>
    /// <param name="text">What stands in the cell.</param>
    /// <param name="header">Unit in the header; null where none stands there.</param>
    public void TakeValue(string text, string? header = null)
    {
        Value = text;
        if (header is not null && ResultLevel.Units.Contains(header)) Unit = header;
        if (MeasuredText.TryRead(text, out var value, out var unit) && unit is not null && ResultLevel.Units.Contains(unit))
            (Value, Unit) = (value.ToString("R", CultureInfo.InvariantCulture), unit);
    }

    /// <summary>Takes an uncertainty with or without its unit.</summary>
    /// <param name="text">What stands in the cell.</param>
    /// <param name="header">Unit in the header; null where none stands there.</param>
    public void TakeUncertainty(string text, string? header = null)
    {
        (Expanded, IsInPercent) = (text, header == "%");
        if (MeasuredText.TryRead(text, out var value, out var unit) && unit is "dB" or "%")
            (Expanded, IsInPercent) = (value.ToString("R", CultureInfo.InvariantCulture), unit == "%");
    }

    // Whoever says that it is right says so of this device, day, result and expectation: others have to be looked at again.
    private (string?, DateOnly, double?, double?, double?) Figures =>
        (Device?.Id, IssuedOn, LevelDb, Expectation?.ExpectedDb, Issued?.Results[^1].ExpandedUncertainty);
}

/// <summary>Fields of a line, in the order in which they stand.</summary>
public enum BenchField
{
    Serial,
    Value,
    Unit,
    Uncertainty,
    Number,
    Temperature,
    Humidity,
    Pressure,
    Day,
    Factor,
    Certificate,
    Curve,
}
