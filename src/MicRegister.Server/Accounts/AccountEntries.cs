using System.Text.Json.Serialization;

namespace MicRegister.Server.Accounts;

/// <summary>One line of the accounts' journal. Accounts are no facts: they live apart and never travel.</summary>
[JsonPolymorphic(TypeDiscriminatorPropertyName = "what")]
[JsonDerivedType(typeof(AccountMade), "account-made")]
[JsonDerivedType(typeof(PasswordSet), "password-set")]
[JsonDerivedType(typeof(DutiesSet), "duties-set")]
[JsonDerivedType(typeof(AccountClosed), "account-closed")]
[JsonDerivedType(typeof(SessionsEnded), "sessions-ended")]
[JsonDerivedType(typeof(SessionLeft), "session-left")]
[JsonDerivedType(typeof(ProviderBound), "provider-bound")]
[JsonDerivedType(typeof(LinkMade), "link-made")]
[JsonDerivedType(typeof(LinkUsed), "link-used")]
[JsonDerivedType(typeof(TokenMade), "token-made")]
[JsonDerivedType(typeof(TokenRevoked), "token-revoked")]
[JsonDerivedType(typeof(PhoneJoined), "phone-joined")]
[JsonDerivedType(typeof(PhoneRevoked), "phone-revoked")]
[JsonDerivedType(typeof(Seen), "seen")]
public abstract record AccountEntry(DateTimeOffset At);

/// <param name="Id">Id of the account.</param>
/// <param name="Name">Name to sign in with, and the person that its facts are of.</param>
/// <param name="Duties">What it may do.</param>
/// <param name="Provider">Issuer and subject of an outside provider; null for an account with a password.</param>
public sealed record AccountMade(DateTimeOffset At, string Id, string Name, Duties Duties, string? Provider) : AccountEntry(At);

/// <param name="Hash">As the framework's hasher gives it.</param>
public sealed record PasswordSet(DateTimeOffset At, string Id, string Hash) : AccountEntry(At);

public sealed record DutiesSet(DateTimeOffset At, string Id, Duties Duties) : AccountEntry(At);

public sealed record AccountClosed(DateTimeOffset At, string Id, bool IsClosed) : AccountEntry(At);

/// <summary>All sessions of an account end; new ones are of the next era.</summary>
public sealed record SessionsEnded(DateTimeOffset At, string Id) : AccountEntry(At);

/// <summary>One session was left; its cookie is good for nothing, wherever it was copied to.</summary>
public sealed record SessionLeft(DateTimeOffset At, string Session) : AccountEntry(At);

/// <param name="Provider">Issuer and subject, as the provider stated them at the first sign-in.</param>
public sealed record ProviderBound(DateTimeOffset At, string Id, string Provider) : AccountEntry(At);

/// <param name="Hash">SHA-256 of the secret in the link.</param>
/// <param name="Purpose">What it is good for.</param>
/// <param name="About">Account to be reset, or campaign to be joined.</param>
/// <param name="Until">When it lapses.</param>
public sealed record LinkMade(DateTimeOffset At, string Hash, LinkPurpose Purpose, string? About, DateTimeOffset Until) : AccountEntry(At);

public sealed record LinkUsed(DateTimeOffset At, string Hash) : AccountEntry(At);

/// <param name="Account">Account that made it, whose person its facts are of.</param>
/// <param name="Hash">SHA-256 of the token: it is random and long, so that a slow hash would add nothing.</param>
public sealed record TokenMade(
    DateTimeOffset At, string Id, string Name, string Account, Duties Duties, string Hash, DateTimeOffset Until) : AccountEntry(At);

public sealed record TokenRevoked(DateTimeOffset At, string Id) : AccountEntry(At);

/// <param name="Crew">Who carries it.</param>
/// <param name="Campaign">Id of the campaign that it may speak of.</param>
/// <param name="Until">When it lapses: the campaign's last day and some days of grace.</param>
public sealed record PhoneJoined(DateTimeOffset At, string Id, string Crew, string Campaign, DateTimeOffset Until) : AccountEntry(At);

public sealed record PhoneRevoked(DateTimeOffset At, string Id) : AccountEntry(At);

/// <summary>A token or phone was used; written at most once an hour.</summary>
public sealed record Seen(DateTimeOffset At, string Id) : AccountEntry(At);

/// <summary>What a one-time link is good for.</summary>
public enum LinkPurpose
{
    /// <summary>Makes the first owner.</summary>
    FirstOwner,

    /// <summary>Sets a password.</summary>
    Password,

    /// <summary>Lets a phone join a campaign.</summary>
    Phone,
}
