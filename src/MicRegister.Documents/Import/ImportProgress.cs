namespace MicRegister.Documents.Import;

/// <summary>How far the working out of a file is.</summary>
/// <param name="Done">Rows that are worked out.</param>
/// <param name="Total">Rows of all its tables.</param>
public readonly record struct ImportProgress(int Done, int Total);
