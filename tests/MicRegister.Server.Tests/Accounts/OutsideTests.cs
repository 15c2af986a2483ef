using System.Net;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Web;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Logging;
using Microsoft.IdentityModel.JsonWebTokens;
using Microsoft.IdentityModel.Tokens;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>Sign-in by an outside provider, which is a small one made here.</summary>
public sealed class OutsideTests
{
    [Theory]
    [InlineData("anna@house.example", "/fleet")]
    [InlineData("!anna@house.example", "/sign-in?problem=outside")] // an address that the provider did not verify
    [InlineData("stranger@elsewhere.example", "/sign-in?problem=outside")]
    public async Task Whoever_the_provider_names_gets_in_where_an_owner_made_an_account(string mail, string leadsTo)
    {
        await using var provider = await Provider.Open(mail);
        await using var server = await ServerUnderTest.OpenWithPeople(more: o => o with { Outside = new(provider.Address, "register", "a secret", AllowsPlain: true) });
        server.Book!.Make("Anna", Duties.Bench, "e-mail anna@house.example");
        using var browser = server.Browser();

        using var challenge = await browser.GetAsync("/account/outside?back=/fleet", TestContext.Current.CancellationToken);
        Assert.StartsWith(provider.Address + "/authorize", challenge.Headers.Location!.ToString(), StringComparison.Ordinal);
        using var agreed = await browser.GetAsync(challenge.Headers.Location, TestContext.Current.CancellationToken);
        using var back = await browser.GetAsync(agreed.Headers.Location, TestContext.Current.CancellationToken);

        Assert.Equal(leadsTo, back.Headers.Location!.OriginalString);
        var me = await browser.GetAsync("/api/me", TestContext.Current.CancellationToken);
        if (leadsTo == "/fleet") Assert.EndsWith(" s-1", server.Book.Named("Anna")!.Provider, StringComparison.Ordinal);
        if (leadsTo == "/fleet") Assert.Contains("Anna", await me.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        else Assert.Equal(HttpStatusCode.Unauthorized, me.StatusCode);
    }

    [Fact]
    public async Task An_answer_that_was_not_asked_for_is_refused()
    {
        await using var provider = await Provider.Open("anna@house.example");
        await using var server = await ServerUnderTest.OpenWithPeople(more: o => o with { Outside = new(provider.Address, "register", "a secret", AllowsPlain: true) });
        server.Book!.Make("Anna", Duties.Bench, "e-mail anna@house.example");
        using var browser = server.Browser();

        using var forged = await browser.GetAsync("/account/outside-return?code=1&state=forged", TestContext.Current.CancellationToken);

        Assert.Equal("/sign-in?problem=outside", forged.Headers.Location!.OriginalString);
    }

    private sealed class Provider(WebApplication app, RSA key) : IAsyncDisposable
    {
        public string Address => app.Urls.First();

        public static async Task<Provider> Open(string mail)
        {
            var key = RSA.Create(2048);
            var signing = new RsaSecurityKey(key) { KeyId = "k1" };
            var builder = WebApplication.CreateBuilder();
            builder.Logging.ClearProviders();
            builder.WebHost.UseUrls("http://127.0.0.1:0");
            var app = builder.Build();
            var nonce = "";
            app.MapGet("/.well-known/openid-configuration", () => Results.Json(new Dictionary<string, object>
            {
                ["issuer"] = app.Urls.First(),
                ["authorization_endpoint"] = app.Urls.First() + "/authorize",
                ["token_endpoint"] = app.Urls.First() + "/token",
                ["jwks_uri"] = app.Urls.First() + "/keys",
                ["response_types_supported"] = new[] { "code" },
                ["subject_types_supported"] = new[] { "public" },
                ["id_token_signing_alg_values_supported"] = new[] { "RS256" },
            }));
            app.MapGet("/keys", () => Results.Json(new { keys = new[] { new { kty = "RSA", use = "sig", kid = "k1", alg = "RS256", n = Base64UrlEncoder.Encode(key.ExportParameters(false).Modulus), e = Base64UrlEncoder.Encode(key.ExportParameters(false).Exponent) } } }));
            app.MapGet("/authorize", (HttpRequest request) =>
            {
                nonce = request.Query["nonce"].ToString();
                Assert.Equal("S256", request.Query["code_challenge_method"].ToString());
                return Results.Redirect($"{request.Query["redirect_uri"]}?code=c1&state={HttpUtility.UrlEncode(request.Query["state"].ToString())}");
            });
            app.MapPost("/token", async (HttpRequest request) =>
            {
                var form = await request.ReadFormAsync();
                if (form["code"] != "c1" || form["client_secret"] != "a secret") return Results.BadRequest(new { error = "invalid_grant" });
                var token = new JsonWebTokenHandler().CreateToken(new SecurityTokenDescriptor
                {
                    Issuer = app.Urls.First(),
                    Audience = "register",
                    Expires = TimeProvider.System.GetUtcNow().UtcDateTime.AddMinutes(5),
                    Subject = new ClaimsIdentity([new("sub", "s-1"), new("email", mail.TrimStart('!')), new("email_verified", mail[0] == '!' ? "false" : "true"), new("nonce", nonce)]),
                    SigningCredentials = new(signing, SecurityAlgorithms.RsaSha256),
                });
                return Results.Json(new { access_token = "a", token_type = "Bearer", id_token = token, expires_in = 300 });
            });
            await app.StartAsync();
            return new(app, key);
        }

        public async ValueTask DisposeAsync()
        {
            await app.StopAsync();
            await app.DisposeAsync();
            key.Dispose();
        }
    }
}
