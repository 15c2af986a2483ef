using System.Security.Cryptography.X509Certificates;
using MicRegister.Server.Setup;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace MicRegister.Server;

/// <summary>
/// The doors that a server listens at: one, by HTTPS where there is a certificate, and a plain one beside it where asked for.
/// </summary>
internal static class Doors
{
    public static void Open(KestrelServerOptions kestrel, ServerOptions options)
    {
        kestrel.AddServerHeader = false;
        Hardening.Bound(kestrel.Limits);
        kestrel.Listen(options.Address, options.Port, door =>
        {
            if (options.Certificate is { } certificate) door.UseHttps(Load(certificate, options.CertificateKey));
        });
        if (options is { IsSecure: true, PlainPort: { } plain }) kestrel.Listen(options.Address, plain);
    }

    // The field pages, how a phone joins, what both ask for, and what pages are drawn with.
    private static readonly string[] ServedPlain = ["/field", "/api", "/join", "/account/join", "/_content", "/fonts", "/look.css"];

    /// <summary>At the plain door a phone of a campaign may speak, and nobody else.</summary>
    public static Func<HttpContext, RequestDelegate, Task> LetPhonesAlone(ServerOptions options) => (context, next) =>
        !options.IsSecure || context.Request.IsHttps
        || !context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal)
        || Accounts.Speaker.Of(context.User) is null or { Kind: Accounts.Speaker.Phone }
            ? next(context)
            : Results.Problem(
                "This door is plain: phones that joined a campaign speak here, all others by HTTPS.",
                statusCode: StatusCodes.Status403Forbidden, title: "Not allowed").ExecuteAsync(context);

    /// <summary>
    /// Leads whoever comes by the plain door to HTTPS, or serves how to trust and the field pages there; says to stay with HTTPS.
    /// </summary>
    public static Func<HttpContext, RequestDelegate, Task> LeadToHttps(ServerOptions options) => (context, next) =>
    {
        if (!options.IsSecure) return next(context);
        if (context.Request.IsHttps)
        {
            // A year, for this name alone: others on this network are not ours.
            // Where phones work at the plain door, a browser must be let through to it.
            if (!options.PlainServesField) context.Response.Headers.StrictTransportSecurity = "max-age=31536000";
            return next(context);
        }
        var path = context.Request.Path;
        if (options.PlainServesField && path.StartsWithSegments("/l", StringComparison.OrdinalIgnoreCase, out var code) && code.HasValue)
        {
            // A camera opens the address of a label: the field page finds what it is on.
            context.Response.Redirect($"/field/#{Uri.EscapeDataString(code.Value!.Trim('/'))}");
            return Task.CompletedTask;
        }
        if (path.StartsWithSegments("/trust", StringComparison.Ordinal) || path == "/app.css" || path == "/look.css") return next(context);
        if (options.PlainServesField && ServedPlain.Any(p => path.StartsWithSegments(p, StringComparison.Ordinal)))
        {
            // Tokens and passwords are never taken here: whoever listens would have them.
            if (context.Request.Headers.Authorization.Count > 0)
            {
                return Results.Problem(
                    "This door is plain: tokens are taken by HTTPS alone. "
                        + "Make this one anew, since it was sent where others can read it.",
                    statusCode: StatusCodes.Status400BadRequest, title: "Plain HTTP").ExecuteAsync(context);
            }
            return next(context);
        }
        if (!HttpMethods.IsGet(context.Request.Method) && !HttpMethods.IsHead(context.Request.Method))
        {
            return Results.Problem(
                "This door is plain: use HTTPS. Nothing was stored.",
                statusCode: StatusCodes.Status400BadRequest, title: "Plain HTTP").ExecuteAsync(context);
        }
        var port = options.Port == 443 ? "" : ":" + options.Port.ToString(System.Globalization.CultureInfo.InvariantCulture);
        context.Response.Redirect(
            $"https://{context.Request.Host.Host}{port}{context.Request.PathBase}{path}{context.Request.QueryString}");
        return Task.CompletedTask;
    };

    // On this platform a key read from PEM serves TLS as it is.
    private static X509Certificate2 Load(string certificate, string? key) => X509Certificate2.CreateFromPemFile(certificate, key);
}

/// <summary>
/// The cookie of a phone at the plain door beside HTTPS has a name of its own: what was given by HTTPS is never sent there.
/// </summary>
internal sealed class PlainDoorCookies : Microsoft.AspNetCore.Authentication.Cookies.ICookieManager
{
    private const string Plain = "register-phone";
    private readonly Microsoft.AspNetCore.Authentication.Cookies.ChunkingCookieManager _inner = new();

    public string? GetRequestCookie(HttpContext context, string key) => _inner.GetRequestCookie(context, Named(context, key));

    public void AppendResponseCookie(HttpContext context, string key, string? value, CookieOptions options) =>
        _inner.AppendResponseCookie(context, Named(context, key), value, For(context, options));

    public void DeleteCookie(HttpContext context, string key, CookieOptions options) =>
        _inner.DeleteCookie(context, Named(context, key), For(context, options));

    private static string Named(HttpContext context, string key) => context.Request.IsHttps ? key : Plain;

    private static CookieOptions For(HttpContext context, CookieOptions options) =>
        context.Request.IsHttps ? options : new(options) { Secure = false };
}
