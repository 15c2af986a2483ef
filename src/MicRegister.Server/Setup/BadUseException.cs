namespace MicRegister.Server.Setup;

/// <summary>A user asked for what cannot be; the message says what is allowed.</summary>
internal sealed class BadUseException(string message) : Exception(message);
