namespace MicRegister.Documents.Exports;

/// <summary>A column of an export, with what somebody needs to know who has only the file.</summary>
/// <param name="Key">Name for programs, such as sensitivity-v-per-pa; it stays the same from one version to the next.</param>
/// <param name="Label">Name for people.</param>
/// <param name="Unit">Unit of its numbers; empty where it has none.</param>
/// <param name="Meaning">What it says, in a sentence.</param>
public sealed record ExportColumn(string Key, string Label, string Unit, string Meaning);
