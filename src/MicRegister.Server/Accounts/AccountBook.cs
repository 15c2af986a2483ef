using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Storage.LiteDb;
using Microsoft.AspNetCore.Identity;

namespace MicRegister.Server.Accounts;

/// <summary>
/// Who may do what: accounts, script tokens, phones and one-time links, kept in a journal of their own beside the register. Secrets are
/// kept as hashes only. All of it is in memory; each change is on the disk before it holds.
/// </summary>
public sealed partial class AccountBook : IDisposable
{
    /// <summary>Name of the file.</summary>
    public const string FileName = "accounts.journal";

    public const int LeastPassword = 10;
    private const int MostPassword = 200;
    private const int SecretBytes = 24;
    private static readonly TimeSpan SeenEvery = TimeSpan.FromHours(1);
    private static readonly JsonSerializerOptions Lines = new(JsonSerializerDefaults.Web)
    {
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
    };

    private readonly Lock _door = new();
    private readonly SmallJournal _journal;
    private readonly TimeProvider _time;
    private readonly PasswordHasher<Account> _hasher = new();
    private readonly string _nobody;
    private readonly AccountLedger _now = new();

    private AccountBook(SmallJournal journal, TimeProvider time)
    {
        (_journal, _time) = (journal, time);
        foreach (var line in journal.Lines)
        {
            _now.Apply(JsonSerializer.Deserialize<AccountEntry>(line, Lines)
                ?? throw new StoreException($"{FileName} holds a line that says nothing."));
        }
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

    public IReadOnlyList<Account> Accounts =>
        Read(() => (IReadOnlyList<Account>)[.. _now.Accounts.Values.OrderBy(a => a.Name, StringComparer.Ordinal)]);

    public IReadOnlyList<ScriptToken> Tokens => Read(() => (IReadOnlyList<ScriptToken>)[.. _now.Tokens.Values.OrderBy(t => t.Made)]);

    public IReadOnlyList<Phone> Phones => Read(() => (IReadOnlyList<Phone>)[.. _now.Phones.Values.OrderBy(p => p.Joined)]);

    public bool HasOwner => Read(() => _now.Accounts.Values.Any(IsOwner));

    public Account? Find(string id) => Read(() => _now.Accounts.GetValueOrDefault(id));

    public Account? Named(string name) => Read(() => _now.Accounts.Values.FirstOrDefault(a => Same(a.Name, name)));

    public Account? OfProvider(string provider) => Read(() => _now.Accounts.Values.FirstOrDefault(a => a.Provider == provider));

    public ScriptToken? TokenOf(string id) => Read(() => _now.Tokens.GetValueOrDefault(id));

    public Phone? FindPhone(string id) => Read(() => _now.Phones.GetValueOrDefault(id));

    /// <summary>Makes an account; without a password until one is set.</summary>
    /// <param name="name">Name to sign in with, like nobody else's.</param>
    /// <param name="duties">What it may do.</param>
    /// <param name="provider">Issuer and subject of an outside provider; null for an account with a password.</param>
    /// <param name="people">Who states facts in the register, beside those who have an account or a phone.</param>
    public Result<Account> Make(string name, Duties duties, string? provider = null, IEnumerable<PersonState>? people = null)
    {
        lock (_door)
        {
            name = name.Trim();
            if (name.Length is 0 or > 80) return Invalid($"Name '{name}': 1 to 80 characters are allowed.");
            if (_now.Accounts.Values.Any(a => Same(a.Name, name)))
                return new Rejection(RejectionSort.Conflict, $"There is an account {name} already.");
            if (TakenFor(name, people) is { } taken) return taken;
            if (provider is not null && _now.Accounts.Values.Any(a => a.Provider == provider))
                return new Rejection(RejectionSort.Conflict, "There is an account of that e-mail address already.");
            if (duties == Duties.None) return Invalid("Duties: at least one is needed.");
            var id = FactId.Create(_time.GetUtcNow().ToUnixTimeMilliseconds(), RandomNumberGenerator.GetBytes(10)).ToString();
            Say(new AccountMade(Now, id, name, duties, provider));
            return new Result<Account>.Accepted(_now.Accounts[id]);
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
            if (HasOwner || Peek(secret, LinkPurpose.FirstOwner) is not { } link)
                return new Rejection(RejectionSort.Conflict, "This link was used already, or its time is over.");
            if (Make(name, Duties.Own) is not Result<Account>.Accepted { Value: var account }) return Make(name, Duties.Own);
            // An owner counts from the password on: a crash before it leaves the link good, and a name that has to be another one.
            Say(new PasswordSet(Now, account.Id, hash));
            Say(new LinkUsed(Now, link.Hash));
            return new Result<Account>.Accepted(_now.Accounts[account.Id]);
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
            foreach (var link in _now.Links.Values.Where(l => l.Purpose == LinkPurpose.Password && l.About == id).ToList())
                Say(new LinkUsed(Now, link.Hash));
            Say(new PasswordSet(Now, id, hash));
        }
        return null;
    }

    /// <summary>Why a password is too weak; null where it is not.</summary>
    public static Rejection? WeakPassword(string name, string password) =>
        password.Length is < LeastPassword or > MostPassword
            ? Invalid($"Password: {LeastPassword} to {MostPassword} characters are allowed; this one has {password.Length}.")
        : password.Contains(name, StringComparison.OrdinalIgnoreCase) || password.Distinct().Count() < 5
            ? Invalid("Password: it is too easy to guess; take some words that have nothing to do with you.")
        : null;

    /// <summary>Whether a name and a password are an account's; an unknown name takes as long as a known one.</summary>
    public Account? Verify(string name, string password)
    {
        var account = Named(name);
        var isRight = _hasher.VerifyHashedPassword(account ?? Empty, account?.PasswordHash ?? _nobody, password)
            != PasswordVerificationResult.Failed;
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
            if (!_now.Accounts.TryGetValue(id, out var account)) return Missing(id);
            var duties = change(account.Duties);
            if (duties == account.Duties) return null;
            if (duties == Duties.None) return Invalid("Duties: at least one is needed.");
            if (!duties.HasFlag(Duties.Own) && IsLastOwner(account))
                return new Rejection(RejectionSort.Conflict, $"{account.Name} is the last owner: make another first.");
            Say(new DutiesSet(Now, id, duties));
            return null;
        }
    }

    /// <summary>Closes or reopens an account; closing ends its sessions.</summary>
    public Rejection? Close(string id, bool isClosed)
    {
        lock (_door)
        {
            if (!_now.Accounts.TryGetValue(id, out var account)) return Missing(id);
            if (isClosed && IsLastOwner(account))
                return new Rejection(RejectionSort.Conflict, $"{account.Name} is the last owner: make another first.");
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
            if (!_now.Accounts.ContainsKey(id)) return Missing(id);
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
    public bool WasLeft(string session) => Read(() => _now.Left.Contains(session));

    /// <summary>Ties an account to whom the outside provider says it is, from the first sign-in on.</summary>
    public void Bind(string id, string provider)
    {
        lock (_door)
        {
            if (_now.Accounts.ContainsKey(id)) Say(new ProviderBound(Now, id, provider));
        }
    }

    public void Dispose() => _journal.Dispose();

    /// <summary>SHA-256 of a secret, in hexadecimal.</summary>
    internal static string Hash(string secret) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(secret)));

    private static Account Empty { get; } = new("", "", Duties.None, null, null, true, 0, default);

    private DateTimeOffset Now => _time.GetUtcNow();

    // Letters and digits that survive being typed, spoken and put into an address.
    private static string Secret() => Convert.ToHexStringLower(RandomNumberGenerator.GetBytes(SecretBytes));

    private bool IsLastOwner(Account account) => IsOwner(account) && _now.Accounts.Values.Count(IsOwner) == 1;

    // One who cannot sign in is no owner that could help.
    private static bool IsOwner(Account a) =>
        a.Duties.HasFlag(Duties.Own) && !a.IsClosed && (a.PasswordHash is not null || a.Provider is not null);

    // What stands in lists in the place of a person.
    private static readonly string[] OwnWords = [FactStamp.Import, "taken over", "desk", "server"];

    // Facts of one must never pass for another's: a name that looks like another is not given, also where its letters are others.
    private Rejection? TakenFor(string name, IEnumerable<PersonState>? people)
    {
        if (name.Any(HiddenSigns.Holds)) return Invalid("Name: it holds a sign that cannot be seen. Type it anew.");
        if (Array.Exists(OwnWords, w => NameLook.Of(w).IsLike(NameLook.Of(name))))
            return Invalid($"Name '{name}': the register calls its own doors so.");
        if (NameLook.Of(name).IsBlank) return Invalid("Name: nothing of it can be seen. Take one that can be read.");
        var known = _now.Accounts.Values.Select(a => a.Name).Concat(_now.Phones.Values.Where(IsGood).Select(p => p.Crew))
            .Select(n => new PersonState(PersonState.IdOf(n), n));
        return NameLook.Other(name, known.Concat(people ?? [])) is { } other
            ? new(RejectionSort.Conflict, $"The name {name.Trim()} looks like {other.Name}, who is somebody else here: "
                + "add something to it, such as a place or a number, so that facts can be told apart.")
            : null;
    }

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
        _now.Apply(entry);
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
}
