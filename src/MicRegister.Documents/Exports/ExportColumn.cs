namespace MicRegister.Documents.Exports;

/// <summary>A column of an export, with what somebody needs to know who has only the file.</summary>
/// <param name="Key">Name for programs, such as sensitivity-v-per-pa; it stays the same from one version to the next.</param>
/// <param name="Label">Name for people.</param>
/// <param name="Unit">Unit of its numbers; empty where it has none.</param>
/// <param name="Meaning">What it says, in a sentence.</param>
public sealed record ExportColumn(string Key, string Label, string Unit, string Meaning)
{
    /// <summary>What its cells hold where they hold anything; with a unit they hold numbers.</summary>
    public ExportType Type { get; init; } = Unit.Length > 0 ? ExportType.Number : ExportType.Text;
}

/// <summary>What the cells of a column hold.</summary>
public enum ExportType
{
    /// <summary>Texts.</summary>
    Text,

    /// <summary>Numbers.</summary>
    Number,

    /// <summary>Instants in UTC, as texts such as 2026-05-04T10:00:00.000Z.</summary>
    Instant,
}
