using Microsoft.AspNetCore.Authentication;

namespace MicRegister.Server.Accounts;

/// <summary>
/// Sign-in by an outside provider (OpenID Connect), where one is configured. Accounts are made here all the same: the provider only says
/// who it is.
/// </summary>
internal static class OutsideSignIn
{
    public const string Scheme = "outside";
    public const string ReturnPath = "/account/outside-return";

    public static void Add(AuthenticationBuilder authentication, OutsideProvider provider, Access access) =>
        authentication.AddOpenIdConnect(Scheme, options =>
        {
            options.Authority = provider.Authority;
            options.ClientId = provider.Client;
            options.ClientSecret = provider.Secret;
            options.RequireHttpsMetadata = !provider.AllowsPlain;
            options.ResponseType = "code";
            options.ResponseMode = "query";
            options.UsePkce = true;
            options.CallbackPath = ReturnPath;
            options.SignInScheme = SessionScheme.Name;
            // People come back by a link, so that cookies of the same site serve.
            foreach (var cookie in new[] { options.CorrelationCookie, options.NonceCookie })
                (cookie.SameSite, cookie.SecurePolicy) = (SameSiteMode.Lax, CookieSecurePolicy.SameAsRequest);
            options.MapInboundClaims = false;
            options.SaveTokens = false;
            options.Scope.Clear();
            options.Scope.Add("openid");
            options.Scope.Add("profile");
            options.Scope.Add("email");
            options.TokenValidationParameters.NameClaimType = "name";
            options.Events.OnTokenValidated = context =>
            {
                // By issuer and subject; the first time by an e-mail address that an owner wrote down and the provider verified, which
                // binds both.
                var key = $"{context.SecurityToken.Issuer} {context.Principal?.FindFirst("sub")?.Value}";
                var account = access.Book?.OfProvider(key);
                if (account is null && context.Principal?.FindFirst("email_verified")?.Value is "true" or "True"
                    && access.Book?.OfProvider("e-mail " + context.Principal?.FindFirst("email")?.Value?.ToLowerInvariant()) is { } invited)
                {
                    access.Book.Bind(invited.Id, key);
                    account = invited;
                }
                if (account is not { IsClosed: false })
                {
                    context.Fail("There is no account here for whoever signed in there.");
                    return Task.CompletedTask;
                }
                var speaker = new Speaker(Speaker.Account, account.Id, account.Name, account.Duties, null, account.Era).Begin();
                context.Principal = speaker.Principal(SessionScheme.Name);
                return Task.CompletedTask;
            };
            options.Events.OnRemoteFailure = context =>
            {
                context.Response.Redirect("/sign-in?problem=outside");
                context.HandleResponse();
                return Task.CompletedTask;
            };
        });
}
