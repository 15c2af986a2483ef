namespace MicRegister.Server.Accounts;

/// <summary>What the lines of the accounts' journal say: a fold over them, without a lock or a disk.</summary>
internal sealed class AccountLedger
{
    public Dictionary<string, Account> Accounts { get; } = [];

    public Dictionary<string, ScriptToken> Tokens { get; } = [];

    /// <summary>Ids of tokens by the hash of their secret.</summary>
    public Dictionary<string, string> TokenOfHash { get; } = [];

    public Dictionary<string, Phone> Phones { get; } = [];

    /// <summary>One-time links that were not used, by the hash of their secret.</summary>
    public Dictionary<string, LinkMade> Links { get; } = [];

    /// <summary>Sessions that were left.</summary>
    public HashSet<string> Left { get; } = [];

    public void Apply(AccountEntry entry)
    {
        switch (entry)
        {
            case AccountMade e: Accounts[e.Id] = new(e.Id, e.Name, e.Duties, null, e.Provider, false, 0, e.At); break;
            case PasswordSet e: Accounts[e.Id] = Accounts[e.Id] with { PasswordHash = e.Hash }; break;
            case DutiesSet e: Accounts[e.Id] = Accounts[e.Id] with { Duties = e.Duties }; break;
            case AccountClosed e: Accounts[e.Id] = Accounts[e.Id] with { IsClosed = e.IsClosed }; break;
            case SessionsEnded e: Accounts[e.Id] = Accounts[e.Id] with { Era = Accounts[e.Id].Era + 1 }; break;
            case LinkMade e: Links[e.Hash] = e; break;
            case LinkUsed e: Links.Remove(e.Hash); break;
            case SessionLeft e: Left.Add(e.Session); break;
            case ProviderBound e: Accounts[e.Id] = Accounts[e.Id] with { Provider = e.Provider }; break;
            case TokenMade e:
                Tokens[e.Id] = new(e.Id, e.Name, e.Account, e.Duties, e.At, e.Until, false, null);
                TokenOfHash[e.Hash] = e.Id;
                break;
            case TokenRevoked e: Tokens[e.Id] = Tokens[e.Id] with { IsRevoked = true }; break;
            case PhoneJoined e: Phones[e.Id] = new(e.Id, e.Crew, e.Campaign, e.At, e.Until, false, null); break;
            case PhoneRevoked e: Phones[e.Id] = Phones[e.Id] with { IsRevoked = true }; break;
            case Seen e when Tokens.TryGetValue(e.Id, out var token): Tokens[e.Id] = token with { LastUsed = e.At }; break;
            case Seen e when Phones.TryGetValue(e.Id, out var phone): Phones[e.Id] = phone with { LastSeen = e.At }; break;
            default: break;
        }
    }
}
