using System.Security.Cryptography.X509Certificates;
using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace MicRegister.Server;

/// <summary>The doors that a server listens at: one, by HTTPS where there is a certificate, and a plain one beside it where asked for.</summary>
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

    /// <summary>Leads whoever comes by the plain door to HTTPS, or serves how to trust and the field pages there; says to stay with HTTPS.</summary>
    public static Func<HttpContext, RequestDelegate, Task> LeadToHttps(ServerOptions options) => (context, next) =>
    {
        if (!options.IsSecure) return next(context);
        if (context.Request.IsHttps)
        {
            // A year, for this name alone: others on this network are not ours.
            context.Response.Headers.StrictTransportSecurity = "max-age=31536000";
            return next(context);
        }
        var path = context.Request.Path;
        var isServed = path.StartsWithSegments("/trust", StringComparison.Ordinal) || path == "/app.css" || (options.PlainServesField && path.StartsWithSegments("/field", StringComparison.Ordinal));
        if (isServed) return next(context);
        if (!HttpMethods.IsGet(context.Request.Method) && !HttpMethods.IsHead(context.Request.Method))
            return Results.Problem("This door is plain: use HTTPS. Nothing was stored.", statusCode: StatusCodes.Status400BadRequest, title: "Plain HTTP").ExecuteAsync(context);
        var port = options.Port == 443 ? "" : ":" + options.Port.ToString(System.Globalization.CultureInfo.InvariantCulture);
        context.Response.Redirect($"https://{context.Request.Host.Host}{port}{context.Request.PathBase}{path}{context.Request.QueryString}");
        return Task.CompletedTask;
    };

    // On this platform a key read from PEM serves TLS as it is.
    private static X509Certificate2 Load(string certificate, string? key) => X509Certificate2.CreateFromPemFile(certificate, key);
}
