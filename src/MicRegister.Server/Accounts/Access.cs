namespace MicRegister.Server.Accounts;

/// <summary>How a server lets people in.</summary>
public sealed class Access(AccountBook? book)
{
    /// <summary>Everyone on this machine may do everything: only ever on the loopback address.</summary>
    public static Access OpenHere { get; } = new(null);

    /// <summary>The accounts; null where there is no sign-in.</summary>
    public AccountBook? Book => book;

    public bool IsOpen => book is null;

    /// <summary>What a speaker may do now, whatever held when they signed in.</summary>
    /// <returns>None where the account is closed, the token or phone revoked, or the session over.</returns>
    public Duties Now(Speaker speaker)
    {
        if (book is null) return speaker.Duties;
        if (speaker.Session is { } session && book.WasLeft(session)) return Duties.None;
        switch (speaker.Kind)
        {
            case Speaker.Account:
                return book.Find(speaker.Id) is { IsClosed: false } account && account.Era == speaker.Era ? account.Duties : Duties.None;
            case Speaker.Token:
                if (book.TokenOf(speaker.Id) is not { IsRevoked: false } token || !book.IsGood(token)
                    || book.Find(token.Account) is not { IsClosed: false } owner)
                {
                    return Duties.None;
                }
                // A token never holds more than its account does now.
                return owner.Duties.HasFlag(Duties.Own) ? token.Duties : token.Duties & owner.Duties;
            case Speaker.Phone:
                return book.FindPhone(speaker.Id) is { } phone && book.IsGood(phone) ? Duties.Field : Duties.None;
            default:
                return Duties.None;
        }
    }
}
