using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Curves;

/// <summary>What a curve file holds, or what has to be asked before that can be said.</summary>
/// <param name="Curves">By device, then in the order of angles; empty while something is asked.</param>
/// <param name="Questions">What only a person can say; empty where nothing is open.</param>
/// <param name="Columns">Every column, as far as it is understood.</param>
/// <param name="Notes">What was taken how, left out or assumed, with row and column.</param>
/// <param name="IsPlain">
/// Whether the file alone says all this: one relative curve, or one an angle, without answers. Such a file can be kept as it is.
/// </param>
public sealed record CurveReading(
    IReadOnlyList<ReadCurve> Curves, IReadOnlyList<CurveQuestion> Questions, IReadOnlyList<CurveColumn> Columns,
    IReadOnlyList<string> Notes, bool IsPlain)
{
    /// <summary>Serial numbers that stand beside the table, above no column; empty where none does.</summary>
    public IReadOnlyList<string> Serials { get; init; } = [];

    /// <summary>Whether something must be answered first.</summary>
    public bool IsAsking => Questions.Count > 0;
}

/// <summary>One curve of a file.</summary>
/// <param name="Device">Id of the device that the column's header names; null where it names none, or none that is known.</param>
/// <param name="Serial">How the header names it; null where it does not.</param>
/// <param name="AngleDeg">Angle of incidence in °; null where none is stated.</param>
/// <param name="Field">Sound field that the header names: pressure, free-field, diffuse; null where it names none.</param>
/// <param name="Curve">Levels in dB, relative to a reference frequency; U with k = 2.</param>
/// <param name="SensitivityDb">Sensitivity in dB re 1 V/Pa at <paramref name="AtHz"/>; null where the file holds relative levels.</param>
/// <param name="AtHz">Frequency in Hz at which the relative curve of a sensitivity is 0 dB; null for relative levels.</param>
public sealed record ReadCurve(
    string? Device, string? Serial, double? AngleDeg, string? Field, ResponseCurve Curve, double? SensitivityDb, double? AtHz);

/// <summary>A column of a curve file.</summary>
/// <param name="Number">From 1.</param>
/// <param name="Header">What stands above it; empty where nothing does.</param>
/// <param name="Values">Its first figures, as they are written.</param>
/// <param name="Meaning">Key of what it is taken for; null while it is asked.</param>
public sealed record CurveColumn(int Number, string Header, IReadOnlyList<string> Values, string? Meaning);

/// <summary>Something that only a person can say.</summary>
/// <param name="Columns">
/// Numbers of the columns it is about, from 1; empty for a question about commas and points, or about whose curve it is.
/// </param>
/// <param name="Text">The question.</param>
/// <param name="Choices">What can be answered.</param>
public sealed record CurveQuestion(IReadOnlyList<int> Columns, string Text, IReadOnlyList<CurveChoice> Choices)
{
    /// <summary>Whether it asks whose curve it is, since another serial number stands beside the table.</summary>
    public bool IsOfSerial { get; init; }

    /// <summary>How the answer begins on the command line and in an address: column 3, marks or serial.</summary>
    public string Asks => IsOfSerial ? "serial"
        : Columns.Count == 0 ? "marks"
        : Columns.Count == 1 ? FormattableString.Invariant($"column {Columns[0]}")
        : FormattableString.Invariant($"columns {Columns[0]}-{Columns[^1]}");
}

/// <param name="Key">What is answered.</param>
/// <param name="Words">What it means.</param>
public sealed record CurveChoice(string Key, string Words);
