using System.Globalization;

namespace MicRegister.Documents.Curves;

/// <summary>What a column of a curve file can be.</summary>
public enum ColumnKind
{
    /// <summary>Frequency in Hz or kHz.</summary>
    Frequency,

    /// <summary>A level in dB, relative to that at a reference frequency.</summary>
    Level,

    /// <summary>A sensitivity: dB re 1 V/Pa, mV/Pa or V/Pa.</summary>
    Sensitivity,

    /// <summary>An uncertainty of the levels before it.</summary>
    Uncertainty,

    /// <summary>A coverage factor for the uncertainties of its row.</summary>
    Factor,

    /// <summary>What is to be added to a reading: a response with its sign turned.</summary>
    Correction,

    /// <summary>A phase, which is not kept.</summary>
    Phase,

    /// <summary>Left out.</summary>
    Ignored,
}

/// <summary>What a column holds.</summary>
/// <param name="Kind">What it is.</param>
/// <param name="Unit">Hz or kHz; dB, %, mV/Pa or V/Pa; dB re 1 V/Pa. Empty where the kind has none, or none is stated yet.</param>
/// <param name="Factor">Coverage factor of an uncertainty, 1 for a standard uncertainty; null where none is stated.</param>
/// <param name="AngleDeg">Angle of incidence in °, 0 to 180; null where none is stated.</param>
public sealed record ColumnMeaning(ColumnKind Kind, string Unit = "", double? Factor = null, double? AngleDeg = null)
{
    /// <summary>Smallest coverage factor that is taken.</summary>
    public const double LeastFactor = 1;

    /// <summary>Greatest coverage factor that is taken.</summary>
    public const double GreatestFactor = 5;

    /// <summary>What people can say of a column, in words.</summary>
    public static IReadOnlyList<(string Key, string Words)> All { get; } =
    [
        ("hz", "frequency in Hz"),
        ("khz", "frequency in kHz"),
        ("level", "level in dB, relative to a reference frequency; level:30 at an angle of incidence of 30°"),
        ("db-re-v/pa", "sensitivity in dB re 1 V/Pa"),
        ("mv/pa", "sensitivity in mV/Pa"),
        ("v/pa", "sensitivity in V/Pa"),
        ("u", "expanded uncertainty in dB, k = 2; u:3 for k = 3, u:1 for a standard uncertainty"),
        ("u-percent", "expanded uncertainty in %, k = 2; u-percent:3 for k = 3"),
        ("u-linear", "expanded uncertainty in the unit of the sensitivity, k = 2; u-linear:3 for k = 3"),
        ("correction", "correction to be added to readings: kept as a response, with its sign turned"),
        ("k", "coverage factor"),
        ("phase", "phase: not kept"),
        ("ignore", "leave it out"),
    ];

    /// <summary>Whether it gives points of a curve.</summary>
    public bool IsCurve => Kind is ColumnKind.Level or ColumnKind.Sensitivity or ColumnKind.Correction;

    /// <summary>The key under which people say it.</summary>
    public string Key => Kind switch
    {
        ColumnKind.Frequency => Unit == "kHz" ? "khz" : "hz",
        ColumnKind.Level => AngleDeg is { } angle ? FormattableString.Invariant($"level:{angle}") : "level",
        ColumnKind.Sensitivity => Unit switch { "mV/Pa" => "mv/pa", "V/Pa" => "v/pa", _ => "db-re-v/pa" },
        ColumnKind.Uncertainty => (Unit switch { "%" => "u-percent", "linear" => "u-linear", _ => "u" })
            + (Factor is { } k and not 2 ? FormattableString.Invariant($":{k}") : ""),
        ColumnKind.Factor => "k",
        ColumnKind.Correction => "correction",
        ColumnKind.Phase => "phase",
        _ => "ignore",
    };

    /// <summary>Reads what a person says of a column, such as u, level:30 or khz.</summary>
    /// <returns>Null where it is none of <see cref="All"/>, or its number is beyond what is allowed.</returns>
    public static ColumnMeaning? Parse(string text)
    {
        var (key, detail) = text.Trim().ToLowerInvariant().Split(':', 2) is [var k, var d] ? (k, d)
            : (text.Trim().ToLowerInvariant(), null);
        double? number = null;
        if (detail is not null)
        {
            if (!double.TryParse(detail, NumberStyles.Float, CultureInfo.InvariantCulture, out var read)) return null;
            number = read;
        }
        return (key, number) switch
        {
            ("hz", null) => new(ColumnKind.Frequency, "Hz"),
            ("khz", null) => new(ColumnKind.Frequency, "kHz"),
            ("level", null or (>= 0 and <= 180)) => new(ColumnKind.Level, "dB", AngleDeg: number),
            ("db-re-v/pa", null) => new(ColumnKind.Sensitivity, "dB re 1 V/Pa"),
            ("mv/pa", null) => new(ColumnKind.Sensitivity, "mV/Pa"),
            ("v/pa", null) => new(ColumnKind.Sensitivity, "V/Pa"),
            ("u", null or (>= LeastFactor and <= GreatestFactor)) => new(ColumnKind.Uncertainty, "dB", number ?? 2),
            ("u-percent", null or (>= LeastFactor and <= GreatestFactor)) => new(ColumnKind.Uncertainty, "%", number ?? 2),
            ("u-linear", null or (>= LeastFactor and <= GreatestFactor)) => new(ColumnKind.Uncertainty, "linear", number ?? 2),
            ("k", null) => new(ColumnKind.Factor),
            ("correction", null) => new(ColumnKind.Correction, "dB"),
            ("phase", null) => new(ColumnKind.Phase),
            ("ignore", null) => new(ColumnKind.Ignored),
            _ => null,
        };
    }

    /// <summary>What one key means, in words.</summary>
    public static string InWords(string key) => All.First(a => a.Key == key.Split(':')[0]).Words.Split(';')[0];
}
