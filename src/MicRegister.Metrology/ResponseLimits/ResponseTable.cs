using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.ResponseLimits;

/// <summary>Limits of a response over frequency as a document prints them: one step a nominal third octave, nothing between the steps.</summary>
/// <param name="Key">Stored words, with the edition: never given another meaning.</param>
/// <param name="Source">Document, edition and clause.</param>
/// <param name="Mark">How sure it is that the figures are the document's.</param>
/// <param name="About">What must be known where a curve is held against it; empty where nothing.</param>
/// <param name="Field">Sound field that it speaks of; null where that is the field of the microphone's own type.</param>
/// <param name="Steps">From the lowest band to the highest, each once.</param>
public sealed record ResponseTable(
    string Key, string Source, string Mark, string About, string? Field, IReadOnlyList<LimitStep> Steps)
{
    private const string Meter = "The limits are those of a whole sound level meter with its frequency weighting taken off; "
        + "a microphone alone must keep well inside of them.";

    /// <summary>Class 1 sound level meters, IEC 61672-1:2013.</summary>
    public static ResponseTable Class1Of2013 { get; } = Meters("IEC 61672-1:2013 class 1", "class1");

    /// <summary>Class 2 sound level meters, IEC 61672-1:2013.</summary>
    public static ResponseTable Class2Of2013 { get; } = Meters("IEC 61672-1:2013 class 2", "class2");

    /// <summary>Microphone systems of 14 CFR 36: free-field response relative to the calibration check frequency.</summary>
    public static ResponseTable Part36 { get; } = Certification();

    /// <summary>All tables; each edition is a table of its own, and no figure of another one stands in for a missing one.</summary>
    public static IReadOnlyList<ResponseTable> All { get; } = [Class1Of2013, Class2Of2013, Part36];

    /// <summary>The stored words of all tables.</summary>
    public static IReadOnlyList<string> Keys { get; } = [.. All.Select(t => t.Key)];

    /// <summary>The table of some stored words; null where there is none, also for another edition.</summary>
    public static ResponseTable? Find(string? key) => All.FirstOrDefault(t => t.Key == key);

    /// <summary>The step of a band; null where the table has none.</summary>
    public LimitStep? Of(ThirdOctave band)
    {
        foreach (var step in Steps)
        {
            if (step.Band == band) return step;
        }
        return null;
    }

    private static ResponseTable Meters(string key, string column)
    {
        var rows = EmbeddedTable.Rows("iec61672-1-2013.csv");
        return new(key, EmbeddedTable.One(rows, "source"), EmbeddedTable.One(rows, "mark"), Meter, null,
        [
            .. rows.Select(r => new LimitStep(
                Band(r["nominal_hz"]), EmbeddedTable.Db(r[column + "_lower_db"]), EmbeddedTable.Db(r[column + "_upper_db"]),
                EmbeddedTable.Db(r["most_expanded_db"]))),
        ]);
    }

    private static ResponseTable Certification()
    {
        var rows = EmbeddedTable.Rows("14cfr36-a36.3.5.3.csv");
        return new("14 CFR 36 A36.3.5.3", EmbeddedTable.One(rows, "source"), EmbeddedTable.One(rows, "mark"), "", "free-field",
        [
            .. rows.Select(r => new LimitStep(
                Band(r["nominal_hz"]), EmbeddedTable.Db(r["lower_db"]), EmbeddedTable.Db(r["upper_db"]), null)),
        ]);
    }

    internal static ThirdOctave Band(string nominalHz) => ThirdOctave.Of(EmbeddedTable.Db(nominalHz));
}

/// <summary>Limits of one nominal third octave.</summary>
/// <param name="Band">The band.</param>
/// <param name="LowerDb">Least deviation allowed in dB, inclusive; negative infinity where there is no lower limit.</param>
/// <param name="UpperDb">Greatest deviation allowed in dB, inclusive.</param>
/// <param name="MostExpandedDb">
/// Greatest expanded uncertainty (k = 2) in dB with which the document lets anybody decide, inclusive; null where it states none.
/// </param>
public readonly record struct LimitStep(ThirdOctave Band, double LowerDb, double UpperDb, double? MostExpandedDb);
