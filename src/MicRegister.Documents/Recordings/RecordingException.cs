namespace MicRegister.Documents.Recordings;

/// <summary>A recording that cannot be read; the message says what is wrong with it.</summary>
public sealed class RecordingException(string message) : Exception(message);
