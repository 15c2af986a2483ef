using System.Net;
using System.Security.Claims;
using System.Security.Cryptography;
using System.Web;
using MicRegister.Register;
using MicRegister.Server.Accounts;
using Microsoft.AspNetCore.Authentication.OpenIdConnect;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Microsoft.Extensions.Options;
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

    [Fact]
    public async Task Whoever_was_bound_gets_in_by_the_subject_alone_while_the_account_is_open()
    {
        await using var provider = await Provider.Open("anna@house.example");
        await using var server = await WithProvider(provider);
        // The provider's address and subject; nobody wrote down an e-mail address.
        var made = server.Book!.Make("Anna", Duties.Bench, provider.Address + " s-1");
        var anna = Assert.IsType<Result<Account>.Accepted>(made).Value.Id;

        Assert.Equal(("/fleet", HttpStatusCode.OK), await Enter(server));
        Assert.Null(server.Book.Close(anna, true));
        Assert.Equal(("/sign-in?problem=outside", HttpStatusCode.Unauthorized), await Enter(server));
        Assert.Null(server.Book.Close(anna, false)); // open again, with sessions of the next era
        Assert.Equal(("/fleet", HttpStatusCode.OK), await Enter(server));
    }

    [Fact]
    public async Task An_address_that_was_written_down_binds_the_first_who_comes_with_it_and_nobody_after()
    {
        await using var provider = await Provider.Open("anna@house.example");
        await using var server = await WithProvider(provider);
        var made = server.Book!.Make("Anna", Duties.Bench, "e-mail anna@house.example");
        server.Book.Bind(Assert.IsType<Result<Account>.Accepted>(made).Value.Id, provider.Address + " s-2");

        Assert.Equal(("/sign-in?problem=outside", HttpStatusCode.Unauthorized), await Enter(server));
        Assert.Equal(provider.Address + " s-2", server.Book.Named("Anna")!.Provider);
    }

    [Fact]
    public async Task The_provider_is_asked_for_name_and_address_and_answers_by_the_query()
    {
        await using var provider = await Provider.Open("anna@house.example");
        await using var server = await WithProvider(provider);
        using var browser = server.Browser();

        using var challenge = await browser.GetAsync("/account/outside?back=/fleet", TestContext.Current.CancellationToken);

        var asked = HttpUtility.ParseQueryString(challenge.Headers.Location!.Query);
        Assert.Equal("openid profile email", asked["scope"]);
        Assert.Equal(("code", "register"), (asked["response_type"], asked["client_id"]));
        Assert.Null(asked["response_mode"]); // by the query is what a code is answered by where nothing is said
        Assert.Equal("/account/outside-return", new Uri(asked["redirect_uri"]!).AbsolutePath);
        var cookies = challenge.Headers.GetValues("Set-Cookie").ToList();
        Assert.NotEmpty(cookies);
        Assert.All(cookies, c => Assert.Contains("samesite=lax", c, StringComparison.OrdinalIgnoreCase));
        Assert.All(cookies, c => Assert.DoesNotContain("; secure", c, StringComparison.OrdinalIgnoreCase)); // it came by plain HTTP
        // What the provider gives is looked at once: its tokens are in no cookie.
        var options = server.Services.GetRequiredService<IOptionsMonitor<OpenIdConnectOptions>>().Get(OutsideSignIn.Scheme);
        Assert.False(options.SaveTokens);
    }

    private static Task<ServerUnderTest> WithProvider(Provider provider) => ServerUnderTest.OpenWithPeople(
        more: o => o with { Outside = new(provider.Address, "register", "a secret", AllowsPlain: true) });

    // Where a sign-in leads, and whether whoever came that way is in.
    private static async Task<(string To, HttpStatusCode Me)> Enter(ServerUnderTest server)
    {
        var cancel = TestContext.Current.CancellationToken;
        using var browser = server.Browser();
        using var challenge = await browser.GetAsync("/account/outside?back=/fleet", cancel);
        using var agreed = await browser.GetAsync(challenge.Headers.Location, cancel);
        using var back = await browser.GetAsync(agreed.Headers.Location, cancel);
        using var me = await browser.GetAsync("/api/me", cancel);
        return (back.Headers.Location!.OriginalString, me.StatusCode);
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
