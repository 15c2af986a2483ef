using System.Threading.RateLimiting;
using MicRegister.Server.Accounts;

namespace MicRegister.Server.Setup;

/// <summary>What every answer and every request is held to.</summary>
internal static class Hardening
{
    // Inline styles: the component library sets widths and colours on elements. Scripts: only files of this server; the import map by a
    // nonce.
    private const string Policy =
        "default-src 'none'; script-src 'self' 'nonce-{0}'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self'; "
            + "connect-src 'self'; manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'self'; frame-ancestors 'none'";
    private const string FieldPolicy =
        "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; font-src 'self'; "
            + "connect-src 'self'; manifest-src 'self'; worker-src 'self'; media-src 'self' blob:; "
            + "form-action 'self'; base-uri 'self'; frame-ancestors 'none'";
    private const string NonceItem = "nonce";

    /// <summary>Greatest request where nothing else is said.</summary>
    public const int MostBytes = 32 << 20;

    /// <summary>Longest time that a request of a program may take.</summary>
    public static readonly TimeSpan LongestRequest = TimeSpan.FromMinutes(10);

    /// <summary>Nonce of this answer's one inline script.</summary>
    public static string Nonce(HttpContext context)
    {
        if (context.Items[NonceItem] is string nonce) return nonce;
        context.Items[NonceItem] = nonce = Convert.ToBase64String(System.Security.Cryptography.RandomNumberGenerator.GetBytes(16));
        return nonce;
    }

    /// <summary>Headers of every answer; where there is no sign-in, only this machine's own pages and programs are answered.</summary>
    public static Func<HttpContext, RequestDelegate, Task> Guard(ServerOptions options) => (context, next) =>
    {
        context.Response.OnStarting(() =>
        {
            var headers = context.Response.Headers;
            headers.XContentTypeOptions = "nosniff";
            headers["Referrer-Policy"] = "same-origin"; // with none at all, a browser names no origin for a form of our own
            headers.XFrameOptions = "DENY";
            headers["Cross-Origin-Opener-Policy"] = "same-origin";
            headers["Cross-Origin-Resource-Policy"] = "same-origin";
            headers["Permissions-Policy"] = context.Request.Path.StartsWithSegments("/field", StringComparison.Ordinal)
                ? "camera=(self), geolocation=(self), microphone=()"
                : "camera=(), geolocation=(), microphone=()";
            headers.ContentSecurityPolicy = context.Request.Path.StartsWithSegments("/field", StringComparison.Ordinal)
                ? FieldPolicy
                : Policy.Replace("{0}", Nonce(context), StringComparison.Ordinal);
            // What was answered to one person is no other's.
            if (!headers.ContainsKey("Cache-Control") && !options.Access.IsOpen) headers.CacheControl = "no-store";
            return Task.CompletedTask;
        });
        var origin = context.Request.Headers.Origin.ToString();
        // A link from elsewhere names no origin; whatever does is a script or a form, also where it asks for a web socket.
        var isForeign = origin.Length > 0
            && !(Uri.TryCreate(origin, UriKind.Absolute, out var from)
                && from.Authority == context.Request.Host.Value
                && from.Scheme == context.Request.Scheme);
        var reads = HttpMethods.IsGet(context.Request.Method) || HttpMethods.IsHead(context.Request.Method);
        if (isForeign || (!reads && context.Request.Headers["Sec-Fetch-Site"] == "cross-site"))
            return Refuse(context, "A page of another site may not speak to the register.");
        if (options.Access.IsOpen && context.Request.Host.Host is not ("localhost" or "127.0.0.1" or "[::1]"))
            return Refuse(context, "The register answers this machine's own pages and programs only.");
        return next(context);
    };

    /// <summary>How many requests are answered: generous for who is signed in, sparing for whoever knocks.</summary>
    public static void Limit(Microsoft.AspNetCore.RateLimiting.RateLimiterOptions limiter, ServerOptions options)
    {
        limiter.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        limiter.OnRejected = async (rejected, _) =>
        {
            if (rejected.Lease.TryGetMetadata(MetadataName.RetryAfter, out var after))
                rejected.HttpContext.Response.Headers.RetryAfter =
                    Math.Ceiling(after.TotalSeconds).ToString(System.Globalization.CultureInfo.InvariantCulture);
            await Results.Problem(
                "Too many requests; wait a little.", statusCode: StatusCodes.Status429TooManyRequests, title: "Too many requests")
                .ExecuteAsync(rejected.HttpContext);
        };
        limiter.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(context =>
        {
            if (options.Access.IsOpen) return RateLimitPartition.GetNoLimiter("here");
            if (Speaker.Of(context.User) is { } speaker) return Bucket($"{speaker.Kind} {speaker.Id}", 3000, 300);
            return context.GetEndpoint()?.Metadata.GetMetadata<Microsoft.AspNetCore.StaticAssets.StaticAssetDescriptor>() is not null
                ? Bucket("files " + Address(context), 1000, 200)
                : Bucket(Address(context), 240, 4);
        });
    }

    /// <summary>Sizes and times that a request may take.</summary>
    public static void Bound(Microsoft.AspNetCore.Server.Kestrel.Core.KestrelServerLimits limits)
    {
        limits.MaxRequestBodySize = MostBytes;
        limits.RequestHeadersTimeout = TimeSpan.FromSeconds(15);
        limits.KeepAliveTimeout = TimeSpan.FromMinutes(2);
        limits.MaxRequestLineSize = 8 << 10;
        limits.MaxRequestHeadersTotalSize = 32 << 10;
    }

    /// <summary>Address that a request came from.</summary>
    public static string Address(HttpContext context) => context.Connection.RemoteIpAddress?.ToString() ?? "nowhere";

    private static RateLimitPartition<string> Bucket(string key, int most, int aSecond) =>
        RateLimitPartition.GetTokenBucketLimiter(key, _ => new()
        {
            TokenLimit = most,
            TokensPerPeriod = aSecond,
            ReplenishmentPeriod = TimeSpan.FromSeconds(1),
            QueueLimit = 0,
            AutoReplenishment = true,
        });

    private static Task Refuse(HttpContext context, string why) =>
        Results.Problem(why, statusCode: StatusCodes.Status403Forbidden, title: "Not allowed").ExecuteAsync(context);
}
