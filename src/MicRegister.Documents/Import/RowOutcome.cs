namespace MicRegister.Documents.Import;

/// <summary>What would become of a row, or became of it.</summary>
/// <param name="Sheet">Name of the sheet; empty in a text file.</param>
/// <param name="Row">Number of the row.</param>
/// <param name="Sort">What.</param>
/// <param name="Text">What is new or changed, or why it is questioned or refused.</param>
/// <param name="Header">Header of the cell at fault, where there is one.</param>
/// <param name="Value">Its value.</param>
public sealed record RowOutcome(string Sheet, int Row, RowSort Sort, string Text, string? Header = null, string? Value = null)
{
    /// <summary>Key of the question that this row waits for, where it is asked once for many.</summary>
    public string? Question { get; init; }

    /// <summary>Whether the register holds something of a later day than the list, so that part of the row or all of it was left.</summary>
    public bool NewerStands { get; init; }

    /// <summary>What the row changes of what the register holds, field by field; what is new is no change.</summary>
    public IReadOnlyList<FieldChange> Changes { get; init; } = [];

    /// <summary>What it adds beside those changes and what newer things stand, for people.</summary>
    public IReadOnlyList<string> Beside { get; init; } = [];

    /// <summary>Name of what it changes; null where it changes nothing.</summary>
    public string? Name { get; init; }

    /// <summary>What the row speaks of: a kind of device, a station, a campaign; null where it is no row, or says no kind.</summary>
    public string? About { get; init; }
}

/// <summary>What becomes of a row.</summary>
public enum RowSort
{
    /// <summary>It says something that the register does not hold.</summary>
    New,

    /// <summary>The register holds all of it.</summary>
    AlreadyThere,

    /// <summary>It says something else than the register holds, and that is taken over.</summary>
    Changed,

    /// <summary>It may be wrong; a person has to look.</summary>
    Questioned,

    /// <summary>It cannot be read.</summary>
    Refused,

    /// <summary>It is no row of the table: a title, a blank, a total, a footnote.</summary>
    PassedOver,

    /// <summary>All that it says otherwise, the register holds of a later day: that stands.</summary>
    NewerStands,
}

/// <summary>A row is not taken; which cell, and why.</summary>
internal sealed class RowProblem(RowSort sort, string text, string? header = null, string? value = null) : Exception(text)
{
    public RowSort Sort { get; } = sort;

    public string? Header { get; } = header;

    public string? Value { get; } = value;

    /// <summary>What is asked once for all rows of its kind; null where the row is asked about alone.</summary>
    public ImportQuestion? Question { get; init; }
}
