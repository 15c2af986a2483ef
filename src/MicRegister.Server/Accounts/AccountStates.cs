namespace MicRegister.Server.Accounts;

/// <summary>An account.</summary>
/// <param name="Era">Counts how often all sessions were ended; a session of an earlier era is over.</param>
public sealed record Account(
    string Id, string Name, Duties Duties, string? PasswordHash, string? Provider, bool IsClosed, int Era, DateTimeOffset Made);

/// <summary>A token for scripts.</summary>
public sealed record ScriptToken(
    string Id, string Name, string Account, Duties Duties, DateTimeOffset Made, DateTimeOffset Until, bool IsRevoked,
    DateTimeOffset? LastUsed);

/// <summary>A phone in the field.</summary>
public sealed record Phone(
    string Id, string Crew, string Campaign, DateTimeOffset Joined, DateTimeOffset Until, bool IsRevoked, DateTimeOffset? LastSeen);
