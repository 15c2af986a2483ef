using System.Security.Claims;
using System.Text;
using System.Text.Encodings.Web;
using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Storage.LiteDb;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Authorization.Policy;
using Microsoft.AspNetCore.Components.Endpoints;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Patterns;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging.Abstractions;
using Microsoft.Extensions.Options;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>What becomes of one request, by its route and by who sends it, without a server.</summary>
public sealed class DutyCheckTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero);
    private static readonly Endpoint NoRoute = new(null, EndpointMetadataCollection.Empty, "a method that is not answered");

    private readonly TemporaryFolder _folder = new();
    private readonly HandTime _time = new(Start);
    private readonly AccountBook _book;
    private readonly Access _access;

    public DutyCheckTests()
    {
        _book = AccountBook.Open(new DiskFiles(_folder.Path), _time);
        _access = new(_book);
    }

    [Fact]
    public void A_row_is_found_by_method_and_route_and_what_is_in_none_is_in_none()
    {
        Assert.Equal(Duties.Any, DutyTable.Of(At("/api/devices"), "GET"));
        Assert.Equal(Duties.Any, DutyTable.Of(At("api/devices/"), "HEAD"));
        Assert.Equal(Duties.Plan, DutyTable.Of(At("/api/devices"), "POST"));
        Assert.Null(DutyTable.Of(At("/api/devices"), "DELETE"));
        Assert.Null(DutyTable.Of(At("/api/checks/again"), "HEAD")); // only read where something is read
        Assert.Null(DutyTable.Of(At("/api/nothing"), "GET"));
        Assert.Equal(DutyTable.Anybody, DutyTable.Of(At("/field"), "PUT"));
        Assert.Equal(DutyTable.Anybody, DutyTable.Of(At("/_framework/blazor.web.js"), "GET"));
        Assert.Null(DutyTable.Of(NoRoute, "GET"));
        Assert.Null(DutyTable.Of(null, "GET"));

        var page = new ComponentTypeMetadata(typeof(DutyCheckTests));
        Assert.Equal(Duties.Any, DutyTable.Of(At("/fleet", page), "GET"));
        Assert.Equal(Duties.Own, DutyTable.Of(At("people", page), "GET"));
        Assert.Null(DutyTable.Of(At("/api/devices", page), "GET")); // no page
        Assert.Null(DutyTable.Of(At("/fleet"), "GET")); // no endpoint of a program
        Assert.Equal(Duties.Any, DutyTable.OfPage("fleet/"));
        Assert.Null(DutyTable.OfPage("/nowhere"));
    }

    [Fact]
    public async Task The_table_decides_for_whoever_is_signed_in()
    {
        Speaker look = Holding(Duties.Look), plan = Holding(Duties.Plan), owner = Holding(Duties.Own);
        var (devices, enter) = (At("/api/devices"), At("/account/enter"));

        Assert.Equal((false, true), (await IsLetIn("GET", devices, null), await IsLetIn("GET", devices, look)));
        Assert.Equal((false, true), (await IsLetIn("POST", devices, look), await IsLetIn("POST", devices, plan)));
        Assert.True(await IsLetIn("POST", devices, owner));
        Assert.True(await IsLetIn("POST", enter, null));
        Assert.False(await IsLetIn("GET", At("/api/nothing"), owner)); // mapped, and in no row

        // What they held when they signed in does not count.
        Assert.Null(_book.SetDuties(plan.Id, Duties.Bench));
        Assert.False(await IsLetIn("POST", devices, plan));
        Assert.Null(_book.SetDuties(look.Id, Duties.Plan));
        Assert.True(await IsLetIn("POST", devices, look));
    }

    [Fact]
    public async Task Whoever_is_signed_in_is_told_that_an_address_leads_nowhere_and_nobody_else()
    {
        var look = Holding(Duties.Look);
        foreach (var nowhere in new[] { null, NoRoute })
            Assert.Equal((false, true), (await IsLetIn("GET", nowhere, null), await IsLetIn("GET", nowhere, look)));

        Assert.Null(_book.EndSessions(look.Id));

        foreach (var nowhere in new[] { null, NoRoute }) Assert.False(await IsLetIn("GET", nowhere, look));
    }

    [Fact]
    public async Task A_phone_is_let_in_where_its_own_table_says_so_too()
    {
        var phone = Joined();
        var (kit, facts) = (At("/api/campaigns/{id}/field-kit"), At("/api/field/facts"));

        Assert.Equal((true, true), (await IsLetIn("GET", kit, phone, "HEATH"), await IsLetIn("HEAD", kit, phone, "HEATH")));
        Assert.Equal((false, false), (await IsLetIn("GET", kit, phone, "MOOR"), await IsLetIn("GET", kit, phone)));
        Assert.True(await IsLetIn("POST", facts, phone));
        Assert.False(await IsLetIn("GET", facts, phone));
        Assert.False(await IsLetIn("GET", At("/api/devices"), phone)); // any who are signed in, but for phones
        Assert.False(await IsLetIn("POST", At("/api/devices/{id}/notes"), phone, "M1"));
        Assert.True(await IsLetIn("POST", At("/account/enter"), phone)); // open to anybody

        Assert.Null(_book.RevokePhone(phone.Id));
        Assert.False(await IsLetIn("POST", facts, phone));
    }

    [Fact]
    public async Task Who_is_not_signed_in_is_led_to_the_sign_in_and_programs_are_told_how()
    {
        var page = await Refusal("GET", "/fleet", null);
        Assert.Equal((302, "/sign-in?back=%2Ffleet%3Fq%3D1"), (page.Status, page.Location));
        foreach (var (method, path) in new[] { ("GET", "/api/devices"), ("POST", "/fleet"), ("GET", "/_blazor") })
        {
            var program = await Refusal(method, path, null);
            Assert.Equal((401, "", "Bearer"), (program.Status, program.Location, program.Asks));
            Assert.Contains("send a token", program.Body, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Who_is_signed_in_is_told_what_it_takes_and_what_they_hold()
    {
        Speaker look = Holding(Duties.Look), several = Holding(Duties.Field | Duties.Bench);

        var page = await Refusal("GET", "/people", look);
        Assert.Equal((302, "/not-allowed"), (page.Status, page.Location));
        var program = await Refusal("POST", "/api/devices", look, At("/api/devices"));
        Assert.Equal((403, "", ""), (program.Status, program.Location, program.Asks));
        Assert.Contains("one of the duties plan; you hold look.", program.Body, StringComparison.Ordinal);
        var notes = await Refusal("POST", "/api/devices/M1/notes", look, At("/api/devices/{id}/notes"));
        Assert.Contains("one of the duties field, bench, plan; you hold look.", notes.Body, StringComparison.Ordinal);
        var nowhere = await Refusal("POST", "/api/nothing", several, At("/api/nothing"));
        Assert.Contains("one of the duties own; you hold field, bench.", nowhere.Body, StringComparison.Ordinal);
        var phone = await Refusal("GET", "/api/devices", Joined(), At("/api/devices"));
        Assert.Equal(403, phone.Status);
        Assert.Contains("its campaign HEATH", phone.Body, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_allowed_goes_on()
    {
        var wentOn = false;
        var context = new DefaultHttpContext();

        await new DutyAnswers().HandleAsync(
            _ =>
            {
                wentOn = true;
                return Task.CompletedTask;
            }, context, Policy, PolicyAuthorizationResult.Success());

        Assert.Equal((true, 200), (wentOn, context.Response.StatusCode));
    }

    [Fact]
    public async Task A_token_says_who_speaks_and_holds_what_its_account_holds_too()
    {
        var plan = Holding(Duties.Plan | Duties.Bench);
        var secret = Assert.IsType<Result<string>.Accepted>(
            _book.MakeToken(plan.Id, "script", Duties.Plan | Duties.Bench, TimeSpan.FromDays(1))).Value;
        var expected = new Speaker(Speaker.Token, _book.Tokens[0].Id, plan.Person, Duties.Plan | Duties.Bench);

        Assert.True((await Authenticated(null)).None);
        Assert.True((await Authenticated("Basic " + secret)).None);
        Assert.NotNull((await Authenticated("Bearer mr_nonsense")).Failure);
        Assert.NotNull((await Authenticated("Bearer ")).Failure);
        Assert.Null(_book.Tokens[0].LastUsed);
        foreach (var header in new[] { "Bearer " + secret, "bearer  " + secret + " " })
            Assert.Equal(expected, Speaker.Of((await Authenticated(header)).Principal));
        Assert.Equal(Start, _book.Tokens[0].LastUsed);

        Assert.Null(_book.SetDuties(plan.Id, Duties.Bench | Duties.Field));
        Assert.Equal(expected with { Duties = Duties.Bench }, Speaker.Of((await Authenticated("Bearer " + secret)).Principal));
        Assert.Null(_book.RevokeToken(expected.Id));
        Assert.NotNull((await Authenticated("Bearer " + secret)).Failure);
    }

    [Fact]
    public void A_session_is_looked_up_again_and_goes_on_with_what_is_held_now()
    {
        var plan = Holding(Duties.Plan).Begin();
        var user = plan.Principal(SessionScheme.Name);
        Assert.Null(SessionScheme.Renewed(_access, null));
        Assert.Null(SessionScheme.Renewed(_access, new ClaimsPrincipal()));
        Assert.Same(user, SessionScheme.Renewed(_access, user));

        Assert.Null(_book.SetDuties(plan.Id, Duties.Plan | Duties.Bench));
        Assert.Equal(plan with { Duties = Duties.Plan | Duties.Bench }, Speaker.Of(SessionScheme.Renewed(_access, user)));
        _book.Leave(plan.Session!);
        Assert.Null(SessionScheme.Renewed(_access, user));

        var phone = Joined().Begin();
        Assert.Null(_book.Phones[0].LastSeen);
        Assert.Equal(phone, Speaker.Of(SessionScheme.Renewed(_access, phone.Principal(SessionScheme.Name))));
        Assert.Equal(Start, _book.Phones[0].LastSeen);
    }

    public void Dispose()
    {
        _book.Dispose();
        _folder.Dispose();
    }

    private static AuthorizationPolicy Policy => new AuthorizationPolicyBuilder().AddRequirements(new DutyRequirement()).Build();

    private static RouteEndpoint At(string route, params object[] metadata) =>
        new(_ => Task.CompletedTask, RoutePatternFactory.Parse(route), 0, new EndpointMetadataCollection(metadata), route);

    private Speaker Holding(Duties duties)
    {
        var account = Assert.IsType<Result<Account>.Accepted>(_book.Make(DutyWords.Of(duties), duties)).Value;
        return new(Speaker.Account, account.Id, account.Name, account.Duties);
    }

    private Speaker Joined()
    {
        var key = _book.MakeLink(LinkPurpose.Phone, "HEATH", TimeSpan.FromHours(1));
        var phone = Assert.IsType<Result<Phone>.Accepted>(_book.Join(key, "Crew west", _ => Start.AddDays(9))).Value;
        return new(Speaker.Phone, phone.Id, phone.Crew, Duties.Field, phone.Campaign);
    }

    private async Task<bool> IsLetIn(string method, Endpoint? endpoint, Speaker? by, string? id = null)
    {
        var context = new DefaultHttpContext();
        context.Request.Method = method;
        if (id is not null) context.Request.RouteValues["id"] = id;
        context.SetEndpoint(endpoint);
        var asked = new AuthorizationHandlerContext([new DutyRequirement()], by?.Principal("test") ?? new ClaimsPrincipal(), context);
        await new DutyCheck(_access).HandleAsync(asked);
        return asked.HasSucceeded;
    }

    private static async Task<(int Status, string Location, string Asks, string Body)> Refusal(
        string method, string path, Speaker? by, Endpoint? endpoint = null)
    {
        await using var services = new ServiceCollection().AddLogging().BuildServiceProvider();
        using var body = new MemoryStream();
        var context = new DefaultHttpContext { RequestServices = services };
        context.Request.Method = method;
        context.Request.Path = path;
        context.Request.QueryString = new("?q=1");
        context.Response.Body = body;
        context.SetEndpoint(endpoint);
        if (by is not null) context.User = by.Principal("test");
        var result = by is null ? PolicyAuthorizationResult.Challenge() : PolicyAuthorizationResult.Forbid();
        await new DutyAnswers().HandleAsync(_ => throw new InvalidOperationException("It goes on."), context, Policy, result);
        var headers = context.Response.Headers;
        return (context.Response.StatusCode, $"{headers.Location}", $"{headers.WWWAuthenticate}", Encoding.UTF8.GetString(body.ToArray()));
    }

    private async Task<AuthenticateResult> Authenticated(string? header)
    {
        await using var services = new ServiceCollection().AddLogging().BuildServiceProvider();
        var options = services.GetRequiredService<IOptionsMonitor<AuthenticationSchemeOptions>>();
        var context = new DefaultHttpContext { RequestServices = services };
        if (header is not null) context.Request.Headers.Authorization = header;
        var scheme = new TokenScheme(options, NullLoggerFactory.Instance, UrlEncoder.Default, _access);
        await scheme.InitializeAsync(new(TokenScheme.Name, null, typeof(TokenScheme)), context);
        return await scheme.AuthenticateAsync();
    }
}
