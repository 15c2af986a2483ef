using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Storage.LiteDb;
using Microsoft.AspNetCore.Identity;

namespace MicRegister.Server.Accounts;

/// <summary>
/// Who may do what: accounts, script tokens, phones and one-time links, kept in a journal of their own beside the register. Secrets are
/// kept as hashes only. All of it is in memory; each change is on the disk before it holds.
/// </summary>
public sealed class AccountBook : IDisposable
{
    /// <summary>Name of the file.</summary>
    public const string FileName = "accounts.journal";

    public const int LeastPassword = 10;
    private const int MostPassword = 200;
    private const int SecretBytes = 24;
    private static readonly TimeSpan SeenEvery = TimeSpan.FromHours(1);
    private static readonly JsonSerializerOptions Lines = new(JsonSerializerDefaults.Web) { Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) }, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull };

    private readonly Lock _door = new();
    private readonly SmallJournal _journal;
    private readonly TimeProvider _time;
    private readonly PasswordHasher<Account> _hasher = new();
    private readonly string _nobody;
    private readonly Dictionary<string, Account> _accounts = [];
    private readonly Dictionary<string, ScriptToken> _tokens = [];
    private readonly Dictionary<string, string> _tokenOfHash = [];
    private readonly Dictionary<string, Phone> _phones = [];
    private readonly Dictionary<string, LinkMade> _links = [];
    private readonly HashSet<string> _left = [];

    private AccountBook(SmallJournal journal, TimeProvider time)
    {
        (_journal, _time) = (journal, time);
        foreach (var line in journal.Lines) Apply(JsonSerializer.Deserialize<AccountEntry>(line, Lines) ?? throw new StoreException($"{FileName} holds a line that says nothing."));
        // Unknown names take as long as known ones.
        _nobody = _hasher.HashPassword(Empty, Convert.ToHexString(RandomNumberGenerator.GetBytes(16)));
    }

    /// <summary>Opens the accounts beside a register.</summary>
    /// <exception cref="StoreException">They cannot be read, or another program holds them.</exception>
    public static AccountBook Open(IStoreFiles files, TimeProvider time)
    {
        var journal = SmallJournal.Open(files, FileName);
        try
        {
            return new(journal, time);
        }
        catch (JsonException e)
        {
            journal.Dispose();
            throw new StoreException($"{FileName} holds what this version cannot read: {e.Message}", e);
        }
    }

    /// <summary>Raised when anything changed, so that sessions can be looked at again.</summary>
    public event Action? Changed;

    public IReadOnlyList<Account> Accounts => Read(() => (IReadOnlyList<Account>)[.. _accounts.Values.OrderBy(a => a.Name, StringComparer.Ordinal)]);

    public IReadOnlyList<ScriptToken> Tokens => Read(() => (IReadOnlyList<ScriptToken>)[.. _tokens.Values.OrderBy(t => t.Made)]);

    public IReadOnlyList<Phone> Phones => Read(() => (IReadOnlyList<Phone>)[.. _phones.Values.OrderBy(p => p.Joined)]);

    public bool HasOwner => Read(() => _accounts.Values.Any(IsOwner));

    public Account? Find(string id) => Read(() => _accounts.GetValueOrDefault(id));

    public Account? Named(string name) => Read(() => _accounts.Values.FirstOrDefault(a => Same(a.Name, name)));

    public Account? OfProvider(string provider) => Read(() => _accounts.Values.FirstOrDefault(a => a.Provider == provider));

    public ScriptToken? TokenOf(string id) => Read(() => _tokens.GetValueOrDefault(id));

    public Phone? FindPhone(string id) => Read(() => _phones.GetValueOrDefault(id));

    /// <summary>Makes an account; without a password until one is set.</summary>
    public Result<Account> Make(string name, Duties duties, string? provider = null)
    {
        lock (_door)
        {
            name = name.Trim();
            if (name.Length is 0 or > 80 || name.Any(char.IsControl)) return Invalid($"Name '{name}': 1 to 80 characters are allowed.");
            if (_accounts.Values.Any(a => Same(a.Name, name))) return new Rejection(RejectionSort.Conflict, $"There is an account {name} already.");
            if (provider is not null && _accounts.Values.Any(a => a.Provider == provider)) return new Rejection(RejectionSort.Conflict, "There is an account of that e-mail address already.");
            if (duties == Duties.None) return Invalid("Duties: at least one is needed.");
            var id = FactId.Create(_time.GetUtcNow().ToUnixTimeMilliseconds(), RandomNumberGenerator.GetBytes(10)).ToString();
            Say(new AccountMade(Now, id, name, duties, provider));
            return new Result<Account>.Accepted(_accounts[id]);
        }
    }

    /// <summary>Makes the first owner by a link: the link is used, and account and password are there, or nothing is.</summary>
    public Result<Account> BecomeFirstOwner(string? secret, string name, string password)
    {
        name = name.Trim();
        if (WeakPassword(name, password) is { } weak) return weak;
        var hash = _hasher.HashPassword(Empty, password);
        lock (_door)
        {
            if (HasOwner || Peek(secret, LinkPurpose.FirstOwner) is not { } link) return new Rejection(RejectionSort.Conflict, "This link was used already, or its time is over.");
            if (Make(name, Duties.Own) is not Result<Account>.Accepted { Value: var account }) return Make(name, Duties.Own);
            // An owner counts from the password on: a crash before it leaves the link good, and a name that has to be another one.
            Say(new PasswordSet(Now, account.Id, hash));
            Say(new LinkUsed(Now, link.Hash));
            return new Result<Account>.Accepted(_accounts[account.Id]);
        }
    }

    /// <summary>Sets a password; sessions that were open end, and links that were to set one are void.</summary>
    public Rejection? SetPassword(string id, string password)
    {
        if (Find(id) is not { } account) return Missing(id);
        if (WeakPassword(account.Name, password) is { } weak) return weak;
        var hash = _hasher.HashPassword(account, password); // slow on purpose: not behind the lock
        lock (_door)
        {
            // Sessions first: a crash between leaves the old password and nobody inside.
            Say(new SessionsEnded(Now, id));
            foreach (var link in _links.Values.Where(l => l.Purpose == LinkPurpose.Password && l.About == id).ToList()) Say(new LinkUsed(Now, link.Hash));
            Say(new PasswordSet(Now, id, hash));
        }
        return null;
    }

    /// <summary>Why a password is too weak; null where it is not.</summary>
    public static Rejection? WeakPassword(string name, string password) =>
        password.Length is < LeastPassword or > MostPassword ? Invalid($"Password: {LeastPassword} to {MostPassword} characters are allowed; this one has {password.Length}.")
        : password.Contains(name, StringComparison.OrdinalIgnoreCase) || password.Distinct().Count() < 5 ? Invalid("Password: it is too easy to guess; take some words that have nothing to do with you.")
        : null;

    /// <summary>Whether a name and a password are an account's; an unknown name takes as long as a known one.</summary>
    public Account? Verify(string name, string password)
    {
        var account = Named(name);
        var isRight = _hasher.VerifyHashedPassword(account ?? Empty, account?.PasswordHash ?? _nobody, password) != PasswordVerificationResult.Failed;
        return isRight && account is { IsClosed: false, PasswordHash: not null } ? account : null;
    }

    /// <summary>Gives an account other duties.</summary>
    public Rejection? SetDuties(string id, Duties duties) => SetDuties(id, _ => duties);

    /// <summary>Gives or takes a single duty, whatever else is held by then.</summary>
    public Rejection? SetDuty(string id, Duties duty, bool holds) => SetDuties(id, d => holds ? d | duty : d & ~duty);

    private Rejection? SetDuties(string id, Func<Duties, Duties> change)
    {
        lock (_door)
        {
            if (!_accounts.TryGetValue(id, out var account)) return Missing(id);
            var duties = change(account.Duties);
            if (duties == account.Duties) return null;
            if (duties == Duties.None) return Invalid("Duties: at least one is needed.");
            if (!duties.HasFlag(Duties.Own) && IsLastOwner(account)) return new Rejection(RejectionSort.Conflict, $"{account.Name} is the last owner: make another first.");
            Say(new DutiesSet(Now, id, duties));
            return null;
        }
    }

    /// <summary>Closes or reopens an account; closing ends its sessions.</summary>
    public Rejection? Close(string id, bool isClosed)
    {
        lock (_door)
        {
            if (!_accounts.TryGetValue(id, out var account)) return Missing(id);
            if (isClosed && IsLastOwner(account)) return new Rejection(RejectionSort.Conflict, $"{account.Name} is the last owner: make another first.");
            Say(new AccountClosed(Now, id, isClosed));
            if (isClosed) Say(new SessionsEnded(Now, id));
            return null;
        }
    }

    /// <summary>Ends all sessions of an account.</summary>
    public Rejection? EndSessions(string id)
    {
        lock (_door)
        {
            if (!_accounts.ContainsKey(id)) return Missing(id);
            Say(new SessionsEnded(Now, id));
            return null;
        }
    }

    /// <summary>One session is over, wherever its cookie was copied to.</summary>
    public void Leave(string session)
    {
        if (session.Length is 0 or > 60) return;
        lock (_door) Say(new SessionLeft(Now, session));
    }

    /// <summary>Whether a session was left.</summary>
    public bool WasLeft(string session) => Read(() => _left.Contains(session));

    /// <summary>Ties an account to whom the outside provider says it is, from the first sign-in on.</summary>
    public void Bind(string id, string provider)
    {
        lock (_door)
        {
            if (_accounts.ContainsKey(id)) Say(new ProviderBound(Now, id, provider));
        }
    }

    /// <summary>Makes a link that is good once.</summary>
    /// <returns>The secret that stands in it; only its hash is kept.</returns>
    public string MakeLink(LinkPurpose purpose, string? about, TimeSpan lifetime)
    {
        var secret = Secret();
        lock (_door) Say(new LinkMade(Now, Hash(secret), purpose, about, Now + lifetime));
        return secret;
    }

    /// <summary>What a link is about while it is good; null where it is not, or not any more.</summary>
    public LinkMade? Peek(string? secret, LinkPurpose purpose) =>
        secret is { Length: > 0 and < 200 } ? Read(() => _links.GetValueOrDefault(Hash(secret)) is { } link && link.Purpose == purpose && link.Until > Now ? link : null) : null;

    /// <summary>Uses a link up.</summary>
    /// <returns>What it was about; null where it is not good, or not any more.</returns>
    public LinkMade? Use(string? secret, LinkPurpose purpose)
    {
        lock (_door)
        {
            if (Peek(secret, purpose) is not { } link) return null;
            Say(new LinkUsed(Now, link.Hash));
            return link;
        }
    }

    /// <summary>Makes a token for scripts, with duties that its account holds.</summary>
    /// <returns>The token itself, which is shown once.</returns>
    public Result<string> MakeToken(string account, string name, Duties duties, TimeSpan lifetime)
    {
        lock (_door)
        {
            if (!_accounts.TryGetValue(account, out var owner)) return Missing(account);
            if (string.IsNullOrWhiteSpace(name) || name.Length > 80) return Invalid("Name of the token: 1 to 80 characters are allowed.");
            if (duties == Duties.None || DutyWords.Single.Any(d => duties.HasFlag(d) && !owner.Duties.Meets(d))) return Invalid($"Duties '{DutyWords.Of(duties)}': a token may hold what its account holds: {DutyWords.Of(owner.Duties)}.");
            if (lifetime <= TimeSpan.Zero || lifetime > TimeSpan.FromDays(400)) return Invalid("A token lasts from a day to 400 days.");
            var secret = "mr_" + Secret();
            Say(new TokenMade(Now, FactId.Create(_time.GetUtcNow().ToUnixTimeMilliseconds(), RandomNumberGenerator.GetBytes(10)).ToString(), name.Trim(), account, duties, Hash(secret), Now + lifetime));
            return new Result<string>.Accepted(secret);
        }
    }

    /// <summary>The token with its account, while both are good.</summary>
    public (ScriptToken Token, Account Account)? FindToken(string secret)
    {
        if (secret.Length > 200) return null;
        lock (_door)
        {
            return _tokenOfHash.TryGetValue(Hash(secret), out var id) && _tokens[id] is { IsRevoked: false } token && token.Until > Now && _accounts[token.Account] is { IsClosed: false } account ? (token, account) : null;
        }
    }

    public Rejection? RevokeToken(string id)
    {
        lock (_door)
        {
            if (!_tokens.ContainsKey(id)) return new Rejection(RejectionSort.NotFound, $"There is no token {id}.");
            Say(new TokenRevoked(Now, id));
            return null;
        }
    }

    /// <summary>Lets a phone join the campaign that its link is about.</summary>
    /// <param name="secret">What stands in the link; used up by this.</param>
    /// <param name="crew">Who carries it.</param>
    /// <param name="until">When it lapses, by campaign.</param>
    public Result<Phone> Join(string? secret, string crew, Func<string, DateTimeOffset> until)
    {
        lock (_door)
        {
            if (string.IsNullOrWhiteSpace(crew) || crew.Length > 80 || crew.Any(char.IsControl)) return Invalid("Crew: 1 to 80 characters are allowed.");
            if (_accounts.Values.Any(a => Same(a.Name, crew)) || _phones.Values.Any(p => IsGood(p) && Same(p.Crew, crew))) return new Rejection(RejectionSort.Conflict, $"Somebody is called {crew.Trim()} here already: add something to the name, so that facts can be told apart.");
            if (Use(secret, LinkPurpose.Phone) is not { About: { } campaign }) return Invalid("This invitation was used already, or its minutes are over. Ask the desk for a new one.");
            var id = FactId.Create(_time.GetUtcNow().ToUnixTimeMilliseconds(), RandomNumberGenerator.GetBytes(10)).ToString();
            Say(new PhoneJoined(Now, id, crew.Trim(), campaign, until(campaign)));
            return new Result<Phone>.Accepted(_phones[id]);
        }
    }

    public Rejection? RevokePhone(string id)
    {
        lock (_door)
        {
            if (!_phones.ContainsKey(id)) return new Rejection(RejectionSort.NotFound, $"There is no phone {id}.");
            Say(new PhoneRevoked(Now, id));
            return null;
        }
    }

    /// <summary>Notes that a token or phone was used; on the disk at most once an hour.</summary>
    public void Note(string id)
    {
        lock (_door)
        {
            var last = _tokens.TryGetValue(id, out var token) ? token.LastUsed : _phones.TryGetValue(id, out var phone) ? phone.LastSeen : DateTimeOffset.MaxValue;
            if (last is { } seen && (seen == DateTimeOffset.MaxValue || Now - seen < SeenEvery)) return;
            var entry = new Seen(Now, id);
            _journal.Append(JsonSerializer.Serialize<AccountEntry>(entry, Lines));
            Apply(entry);
        }
    }

    public bool IsGood(ScriptToken token) => !token.IsRevoked && token.Until > Now;

    public bool IsGood(Phone phone) => !phone.IsRevoked && phone.Until > Now;

    public void Dispose() => _journal.Dispose();

    /// <summary>SHA-256 of a secret, in hexadecimal.</summary>
    internal static string Hash(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));

    private static Account Empty { get; } = new("", "", Duties.None, null, null, true, 0, default);

    private DateTimeOffset Now => _time.GetUtcNow();

    // Letters and digits that survive being typed, spoken and put into an address.
    private static string Secret() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(SecretBytes));

    private bool IsLastOwner(Account account) => IsOwner(account) && _accounts.Values.Count(IsOwner) == 1;

    // One who cannot sign in is no owner that could help.
    private static bool IsOwner(Account a) => a.Duties.HasFlag(Duties.Own) && !a.IsClosed && (a.PasswordHash is not null || a.Provider is not null);

    private static bool Same(string a, string b) => DeviceIdentity.Normal(a) == DeviceIdentity.Normal(b);

    private static Rejection Invalid(string text) => new(RejectionSort.Invalid, text);

    private static Rejection Missing(string id) => new(RejectionSort.NotFound, $"There is no account {id}.");

    private T Read<T>(Func<T> read)
    {
        lock (_door) return read();
    }

    private void Say(AccountEntry entry)
    {
        _journal.Append(JsonSerializer.Serialize(entry, Lines));
        Apply(entry);
        // Not here, where the lock is held and what follows must not be stopped by whoever listens.
        if (Changed is { } told) _ = Task.Run(() => Tell(told));
    }

    private static void Tell(Action told)
    {
        foreach (var listener in told.GetInvocationList().Cast<Action>())
        {
            try
            {
                listener();
            }
            catch (Exception e) when (e is InvalidOperationException or ObjectDisposedException)
            {
                // A page that is opening or gone: it asks for itself.
            }
        }
    }

    private void Apply(AccountEntry entry)
    {
        switch (entry)
        {
            case AccountMade e: _accounts[e.Id] = new(e.Id, e.Name, e.Duties, null, e.Provider, false, 0, e.At); break;
            case PasswordSet e: _accounts[e.Id] = _accounts[e.Id] with { PasswordHash = e.Hash }; break;
            case DutiesSet e: _accounts[e.Id] = _accounts[e.Id] with { Duties = e.Duties }; break;
            case AccountClosed e: _accounts[e.Id] = _accounts[e.Id] with { IsClosed = e.IsClosed }; break;
            case SessionsEnded e: _accounts[e.Id] = _accounts[e.Id] with { Era = _accounts[e.Id].Era + 1 }; break;
            case LinkMade e: _links[e.Hash] = e; break;
            case LinkUsed e: _links.Remove(e.Hash); break;
            case SessionLeft e: _left.Add(e.Session); break;
            case ProviderBound e: _accounts[e.Id] = _accounts[e.Id] with { Provider = e.Provider }; break;
            case TokenMade e:
                _tokens[e.Id] = new(e.Id, e.Name, e.Account, e.Duties, e.At, e.Until, false, null);
                _tokenOfHash[e.Hash] = e.Id;
                break;
            case TokenRevoked e: _tokens[e.Id] = _tokens[e.Id] with { IsRevoked = true }; break;
            case PhoneJoined e: _phones[e.Id] = new(e.Id, e.Crew, e.Campaign, e.At, e.Until, false, null); break;
            case PhoneRevoked e: _phones[e.Id] = _phones[e.Id] with { IsRevoked = true }; break;
            case Seen e when _tokens.TryGetValue(e.Id, out var token): _tokens[e.Id] = token with { LastUsed = e.At }; break;
            case Seen e when _phones.TryGetValue(e.Id, out var phone): _phones[e.Id] = phone with { LastSeen = e.At }; break;
            default: break;
        }
    }
}
