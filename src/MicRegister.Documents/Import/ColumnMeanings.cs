namespace MicRegister.Documents.Import;

/// <summary>What a person can say that a column holds: the right side of a rule for its header, with words.</summary>
public static class ColumnMeanings
{
    private static readonly string[] ResultUnits = ["mV/Pa", "V/Pa", "dB re 1 V/Pa", "dB"];

    /// <summary>What is left out and what is noted, then the others by their words, results with each of their units.</summary>
    /// <remarks>A unit in brackets is said; without one the header's own counts, or it is asked.</remarks>
    public static IReadOnlyList<(string Rule, string Words)> All { get; } =
    [
        .. new[] { Column.LeftOut, Column.Noted }.Select(c => (c.Key, c.Meaning)),
        .. Column.All.Except([Column.LeftOut, Column.Noted, Column.Checked, Column.Why])
            .SelectMany(Of).OrderBy(m => m.Words, StringComparer.OrdinalIgnoreCase),
    ];

    private static IEnumerable<(string Rule, string Words)> Of(Column column)
    {
        yield return (column.Key, column.Meaning);
        string[] units = column == Column.Value || column == Column.FoundValue || column == Column.LeftValue ? ResultUnits
            : column == Column.Uncertainty ? ["dB", "%"]
            : column == Column.Pressure ? ["kPa", "hPa", "Pa"]
            : [];
        foreach (var unit in units) yield return ($"{column.Key} [{unit}]", $"{column.Meaning}, {unit}");
    }
}
