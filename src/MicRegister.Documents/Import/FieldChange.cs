namespace MicRegister.Documents.Import;

/// <summary>What a row changes of one field that the register holds, for people.</summary>
/// <param name="Field">Name of the field.</param>
/// <param name="Before">What stands there; <c>nothing</c> where nothing does.</param>
/// <param name="After">What would stand there.</param>
public sealed record FieldChange(string Field, string Before, string After);
