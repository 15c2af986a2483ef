using System.Security.Cryptography;
using System.Text.Json;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Register.People;

namespace MicRegister.Server.Accounts;

/// <summary>What is not an account and lets in all the same: links that are good once, tokens of scripts, phones.</summary>
public sealed partial class AccountBook
{
    /// <summary>Makes a link that is good once.</summary>
    /// <returns>The secret that stands in it; only its hash is kept.</returns>
    public string MakeLink(LinkPurpose purpose, string? about, TimeSpan lifetime)
    {
        var secret = Secret();
        lock (_door) Say(new LinkMade(Now, Hash(secret), purpose, about, Now + lifetime));
        return secret;
    }

    /// <summary>What a link is about while it is good; null where it is not, or not any more.</summary>
    public LinkMade? Peek(string? secret, LinkPurpose purpose) => secret is { Length: > 0 and < 200 }
        ? Read(() => _now.Links.GetValueOrDefault(Hash(secret)) is { } link && link.Purpose == purpose && link.Until > Now ? link : null)
        : null;

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

    /// <summary>Makes the secret of a calendar's address: it opens the calendar and nothing else, since it holds no duty.</summary>
    public Result<string> MakeCalendarSecret(string account) =>
        MakeToken(account, CalendarName, Duties.None, TimeSpan.FromDays(400), isCalendar: true);

    /// <summary>Name of the tokens that open the calendar.</summary>
    public const string CalendarName = "calendar";

    /// <summary>Makes a token for scripts, with duties that its account holds.</summary>
    /// <returns>The token itself, which is shown once.</returns>
    public Result<string> MakeToken(string account, string name, Duties duties, TimeSpan lifetime) =>
        MakeToken(account, name, duties, lifetime, isCalendar: false);

    private Result<string> MakeToken(string account, string name, Duties duties, TimeSpan lifetime, bool isCalendar)
    {
        lock (_door)
        {
            if (!_now.Accounts.TryGetValue(account, out var owner)) return Missing(account);
            if (string.IsNullOrWhiteSpace(name) || name.Length > 80) return Invalid("Name of the token: 1 to 80 characters are allowed.");
            if ((duties == Duties.None) != isCalendar
                || DutyWords.Single.Any(d => duties.HasFlag(d) && !owner.Duties.Meets(d)))
            {
                return Invalid(
                    $"Duties '{DutyWords.Of(duties)}': a token may hold what its account holds: {DutyWords.Of(owner.Duties)}.");
            }
            if (lifetime <= TimeSpan.Zero || lifetime > TimeSpan.FromDays(400)) return Invalid("A token lasts from a day to 400 days.");
            var secret = "mr_" + Secret();
            Say(new TokenMade(
                Now, FactId.Create(_time.GetUtcNow().ToUnixTimeMilliseconds(), RandomNumberGenerator.GetBytes(10)).ToString(),
                name.Trim(), account, duties, Hash(secret), Now + lifetime));
            return new Result<string>.Accepted(secret);
        }
    }

    /// <summary>The token with its account, while both are good.</summary>
    public (ScriptToken Token, Account Account)? FindToken(string secret)
    {
        if (secret.Length > 200) return null;
        lock (_door)
        {
            return _now.TokenOfHash.TryGetValue(Hash(secret), out var id)
                && _now.Tokens[id] is { IsRevoked: false } token && token.Until > Now
                && _now.Accounts[token.Account] is { IsClosed: false } account
                    ? (token, account) : null;
        }
    }

    public Rejection? RevokeToken(string id)
    {
        lock (_door)
        {
            if (!_now.Tokens.ContainsKey(id)) return new Rejection(RejectionSort.NotFound, $"There is no token {id}.");
            Say(new TokenRevoked(Now, id));
            return null;
        }
    }

    /// <summary>Lets a phone join the campaign that its link is about.</summary>
    /// <param name="secret">What stands in the link; used up by this.</param>
    /// <param name="crew">Who carries it.</param>
    /// <param name="until">When it lapses, by campaign.</param>
    /// <param name="people">Who states facts in the register, beside those who have an account or a phone.</param>
    public Result<Phone> Join(string? secret, string crew, Func<string, DateTimeOffset> until, IEnumerable<PersonState>? people = null)
    {
        lock (_door)
        {
            if (string.IsNullOrWhiteSpace(crew) || crew.Length > 80 || crew.Any(HiddenSigns.Holds))
                return Invalid("Crew: 1 to 80 characters are allowed.");
            if (_now.Accounts.Values.Any(a => Same(a.Name, crew))
                || _now.Phones.Values.Any(p => IsGood(p) && Same(p.Crew, crew)))
            {
                return new Rejection(
                    RejectionSort.Conflict,
                    $"Somebody is called {crew.Trim()} here already: add something to the name, so that facts can be told apart.");
            }
            if (TakenFor(crew, people) is { } taken) return taken;
            if (Use(secret, LinkPurpose.Phone) is not { About: { } campaign })
                return Invalid("This invitation was used already, or its minutes are over. Ask the desk for a new one.");
            var id = FactId.Create(_time.GetUtcNow().ToUnixTimeMilliseconds(), RandomNumberGenerator.GetBytes(10)).ToString();
            Say(new PhoneJoined(Now, id, crew.Trim(), campaign, until(campaign)));
            return new Result<Phone>.Accepted(_now.Phones[id]);
        }
    }

    public Rejection? RevokePhone(string id)
    {
        lock (_door)
        {
            if (!_now.Phones.ContainsKey(id)) return new Rejection(RejectionSort.NotFound, $"There is no phone {id}.");
            Say(new PhoneRevoked(Now, id));
            return null;
        }
    }

    /// <summary>Notes that a token or phone was used; on the disk at most once an hour.</summary>
    public void Note(string id)
    {
        lock (_door)
        {
            var last = _now.Tokens.TryGetValue(id, out var token) ? token.LastUsed
                : _now.Phones.TryGetValue(id, out var phone) ? phone.LastSeen
                : DateTimeOffset.MaxValue;
            if (last is { } seen && (seen == DateTimeOffset.MaxValue || Now - seen < SeenEvery)) return;
            var entry = new Seen(Now, id);
            _journal.Append(JsonSerializer.Serialize<AccountEntry>(entry, Lines));
            _now.Apply(entry);
        }
    }

    public bool IsGood(ScriptToken token) => !token.IsRevoked && token.Until > Now;

    public bool IsGood(Phone phone) => !phone.IsRevoked && phone.Until > Now;
}
