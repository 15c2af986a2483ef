namespace MicRegister.Register.Facts;

/// <summary>From an instant on, local time runs ahead of UTC by some minutes.</summary>
/// <param name="FromUtc">Start, as text of an instant; the first one of a list holds for all times before as well.</param>
/// <param name="Minutes">Minutes ahead of UTC, negative behind.</param>
public sealed record ZoneOffset(string FromUtc, int Minutes);
