using System.Security.Claims;
using System.Text.Encodings.Web;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Authorization.Policy;
using Microsoft.Extensions.Options;

namespace MicRegister.Server.Accounts;

/// <summary>Asks the table of duties for every request.</summary>
public sealed class DutyRequirement : IAuthorizationRequirement;

/// <summary>Lets a request through where the table allows it; what is not in the table is refused.</summary>
internal sealed class DutyCheck(Access access) : AuthorizationHandler<DutyRequirement, HttpContext>
{
    protected override Task HandleRequirementAsync(AuthorizationHandlerContext context, DutyRequirement requirement, HttpContext resource)
    {
        var asked = DutyTable.Of(resource.GetEndpoint(), resource.Request.Method);
        // An address that leads nowhere, or not by this method, is told so to whoever is signed in: there is nothing behind it.
        if (asked is null && resource.GetEndpoint() is not RouteEndpoint
            && Speaker.Of(context.User) is { } someone && access.Now(someone) != Duties.None)
        {
            context.Succeed(requirement);
        }
        if (asked == DutyTable.Anybody) context.Succeed(requirement);
        // A phone that was lost must not tell the whole register.
        else if (asked is { } duties && Speaker.Of(context.User) is { } speaker && access.Now(speaker).Meets(duties)
            && (speaker.Kind != Speaker.Phone || PhoneTable.Allows(resource, speaker.Campaign))) context.Succeed(requirement);
        return Task.CompletedTask;
    }
}

/// <summary>Answers programs with problem documents, and leads people to the sign-in.</summary>
internal sealed class DutyAnswers : IAuthorizationMiddlewareResultHandler
{
    public async Task HandleAsync(
        RequestDelegate next, HttpContext context, AuthorizationPolicy policy, PolicyAuthorizationResult authorizeResult)
    {
        if (authorizeResult.Succeeded)
        {
            await next(context);
            return;
        }
        var isSignedIn = context.User.Identity?.IsAuthenticated == true;
        var isPage = HttpMethods.IsGet(context.Request.Method)
            && !context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal)
            && !context.Request.Path.StartsWithSegments("/_blazor", StringComparison.Ordinal);
        if (isPage)
        {
            context.Response.Redirect(isSignedIn
                ? "/not-allowed"
                : "/sign-in?back=" + UrlEncoder.Default.Encode(context.Request.Path + context.Request.QueryString));
            return;
        }
        if (!isSignedIn) context.Response.Headers.WWWAuthenticate = "Bearer";
        await (Speaker.Of(context.User) is { Kind: Speaker.Phone } phone
            ? Results.Problem(
                $"A phone asks for the kit of its campaign {phone.Campaign} and for labels, and sends what was done. "
                    + "All else asks for an account.",
                statusCode: StatusCodes.Status403Forbidden, title: "Not allowed")
            : isSignedIn
            ? Results.Problem(
                $"This needs one of the duties {DutyWords.Of(Asked(context))}; "
                    + $"you hold {DutyWords.Of(Speaker.Of(context.User)!.Duties)}.",
                statusCode: StatusCodes.Status403Forbidden, title: "Not allowed")
            : context.Request.Headers.Authorization.Count > 0
            ? Results.Problem(
                "The token is not known here, was revoked, or has lapsed; a new one is made under My account.",
                statusCode: StatusCodes.Status401Unauthorized, title: "Not signed in")
            : Results.Problem(
                "Sign in, or send a token: Authorization: Bearer mr_…",
                statusCode: StatusCodes.Status401Unauthorized, title: "Not signed in")).ExecuteAsync(context);
    }

    private static Duties Asked(HttpContext context) =>
        DutyTable.Of(context.GetEndpoint(), context.Request.Method) is { } asked ? asked & Duties.Any : Duties.Own;
}

/// <summary>A script's token in the Authorization header.</summary>
internal sealed class TokenScheme(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder, Access access)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public const string Name = "token";
    private const string Bearer = "Bearer ";

    protected override Task<AuthenticateResult> HandleAuthenticateAsync()
    {
        var header = Request.Headers.Authorization.ToString();
        if (!header.StartsWith(Bearer, StringComparison.OrdinalIgnoreCase)) return Task.FromResult(AuthenticateResult.NoResult());
        if (access.Book?.FindToken(header[Bearer.Length..].Trim()) is not ({ } token, { } account))
            return Task.FromResult(AuthenticateResult.Fail("The token is unknown, revoked or over."));
        access.Book.Note(token.Id);
        var speaker = new Speaker(Speaker.Token, token.Id, account.Name, Duties.None);
        var held = access.Now(new(Speaker.Token, token.Id, account.Name, token.Duties));
        return Task.FromResult(AuthenticateResult.Success(new((speaker with { Duties = held }).Principal(Name), Name)));
    }
}

/// <summary>No sign-in: whoever is on this machine may do everything.</summary>
internal sealed class OpenScheme(
    IOptionsMonitor<AuthenticationSchemeOptions> options, ILoggerFactory logger, UrlEncoder encoder)
    : AuthenticationHandler<AuthenticationSchemeOptions>(options, logger, encoder)
{
    public const string Name = "open";

    protected override Task<AuthenticateResult> HandleAuthenticateAsync() =>
        Task.FromResult(AuthenticateResult.Success(new(Speaker.Here(Speaker.Named(Request)).Principal(Name), Name)));
}

/// <summary>What stands in a session's cookie is looked up again on every request.</summary>
internal static class SessionScheme
{
    public const string Name = "session";

    /// <summary>Either a token or a session, by what a request carries.</summary>
    public const string Either = "either";

    /// <summary>The principal of a session as of now; null where it is over.</summary>
    public static ClaimsPrincipal? Renewed(Access access, ClaimsPrincipal? principal)
    {
        if (Speaker.Of(principal) is not { } speaker || access.Now(speaker) is var duties && duties == Duties.None) return null;
        if (speaker.Kind == Speaker.Phone) access.Book?.Note(speaker.Id);
        return speaker.Duties == duties ? principal : (speaker with { Duties = duties }).Principal(Name);
    }
}
