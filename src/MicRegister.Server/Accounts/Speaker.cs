using System.Globalization;
using System.Security.Claims;

namespace MicRegister.Server.Accounts;

/// <summary>Who speaks: a person by an account or a script token, or a crew by a phone.</summary>
/// <param name="Kind">account, token, phone, or open where there is no sign-in.</param>
/// <param name="Id">Id of the account, token or phone.</param>
/// <param name="Person">Name of the person or crew that facts are of.</param>
/// <param name="Duties">What may be done, as of the sign-in; looked up again at the door.</param>
/// <param name="Campaign">The only campaign that a phone may speak of; null for all others.</param>
/// <param name="Era">Of the account when the session began.</param>
/// <param name="Session">Id of the session; null for tokens.</param>
public sealed record Speaker(
    string Kind, string Id, string Person, Duties Duties, string? Campaign = null, int Era = 0, string? Session = null)
{
    public const string Account = "account";
    public const string Token = "token";
    public const string Phone = "phone";
    public const string Open = "open";

    /// <summary>Header that names the person who speaks, where there is no sign-in.</summary>
    public const string PersonHeader = "Said-By";

    /// <summary>Who speaks where there is no sign-in: this machine's own person, with all duties.</summary>
    public static Speaker Here(string person) => new(Open, "", person, Duties.Own);

    /// <summary>Name of the person where there is no sign-in: what the request says, or the desk.</summary>
    public static string Named(HttpRequest request) =>
        request.Headers[PersonHeader].ToString() is { Length: > 0 and <= 80 } name ? name : "Desk";

    /// <summary>Who an authenticated user is; null for one who is not signed in.</summary>
    public static Speaker? Of(ClaimsPrincipal? user) => user?.Identity?.IsAuthenticated != true ? null : new(
        Claim(user, "kind") ?? Account, Claim(user, "sub") ?? "", user.Identity.Name ?? "",
        Enum.TryParse<Duties>(Claim(user, "duties"), out var duties) ? duties : Duties.None, Claim(user, "campaign"),
        int.TryParse(Claim(user, "era"), NumberStyles.None, CultureInfo.InvariantCulture, out var era) ? era : 0, Claim(user, "sid"));

    /// <summary>The same as claims.</summary>
    public ClaimsPrincipal Principal(string scheme)
    {
        List<Claim> claims =
        [
            new("sub", Id), new("kind", Kind), new("name", Person),
            new("duties", ((int)Duties).ToString(CultureInfo.InvariantCulture)),
            new("era", Era.ToString(CultureInfo.InvariantCulture)),
        ];
        if (Campaign is { } campaign) claims.Add(new("campaign", campaign));
        if (Session is { } session) claims.Add(new("sid", session));
        return new(new ClaimsIdentity(claims, scheme, "name", "duties"));
    }

    /// <summary>The same at the begin of a session of its own.</summary>
    public Speaker Begin() =>
        this with { Session = Convert.ToHexStringLower(System.Security.Cryptography.RandomNumberGenerator.GetBytes(12)) };

    /// <summary>Name of the client that facts of this speaker's own programs carry: its clock can be noticed.</summary>
    public string Client => $"{Kind}-{Id}";

    /// <summary>Through which door facts of this speaker come.</summary>
    /// <param name="place">desk, api.</param>
    public string Door(string place) => Kind == Open ? place : $"{place} by {Kind} {Id}";

    private static string? Claim(ClaimsPrincipal user, string type) => user.FindFirst(type)?.Value;
}
