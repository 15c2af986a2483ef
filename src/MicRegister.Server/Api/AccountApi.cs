using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Server.Accounts;
using MicRegister.Server.Setup;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Mvc;

namespace MicRegister.Server.Api;

/// <summary>Signing in and out, by forms of this server's own pages; each carries the framework's antiforgery token.</summary>
internal static class AccountApi
{
    /// <summary>Days after a campaign in which its phones may still send.</summary>
    private const int GraceDays = 14;

    public static void Map(IEndpointRouteBuilder app, ServerOptions options)
    {
        app.MapGet("/api/me", (HttpContext c, Desk desk) => Desk.Speaker(c) is var s
            ? Results.Ok(new Me(s.Kind, s.Person, DutyWords.Of(desk.Access.Now(s)), s.Campaign, s.Client, Provenance.Software))
            : null).Produces<Me>().WithTags("account").AsOfNowAlone("Who asks is no part of the log.");
        if (options.Access.Book is not { } book) return;
        var account = app.MapGroup("/account").ExcludeFromDescription();
        account.MapPost(
            "/enter",
            (HttpContext c, GuessGuard guard, [FromForm] string? name, [FromForm] string? password, [FromForm] string? back) =>
                Enter(c, book, guard, name ?? "", password ?? "", back));
        account.MapPost(
            "/first-owner", (HttpContext c, [FromForm] string? key, [FromForm] string? name, [FromForm] string? password) =>
                FirstOwner(c, book, key, name ?? "", password ?? ""));
        account.MapPost("/password-link", (HttpContext c, [FromForm] string? key, [FromForm] string? password) =>
            ByLink(c, book, key, password ?? ""));
        account.MapPost("/join", (HttpContext c, Desk desk, TimeProvider time, [FromForm] string? key, [FromForm] string? crew) =>
            Join(c, desk, book, time, key, crew ?? ""));
        account.MapPost("/leave", async (HttpContext c, [FromForm] string? _) =>
        {
            if (Desk.Speaker(c).Session is { } session) book.Leave(session);
            await c.SignOutAsync(SessionScheme.Name);
            return Results.LocalRedirect("/sign-in");
        });
        account.MapPost("/leave-everywhere", async (HttpContext c, [FromForm] string? _) =>
        {
            if (Desk.Speaker(c) is { Kind: Speaker.Account } speaker) book.EndSessions(speaker.Id);
            await c.SignOutAsync(SessionScheme.Name);
            return Results.LocalRedirect("/sign-in");
        });
        account.MapPost("/password", (HttpContext c, GuessGuard guard, [FromForm] string? old, [FromForm] string? password) =>
            Change(c, book, guard, old ?? "", password ?? ""));
        if (options.Outside is not null)
        {
            account.MapGet("/outside", (string? back) =>
                Results.Challenge(new() { RedirectUri = Local(back) }, [OutsideSignIn.Scheme]));
        }
        if (options.Authority is { } authority)
        {
            app.MapGet("/trust/authority.crt", () => Results.File(
                Path.GetFullPath(authority), "application/x-x509-ca-cert", "register-authority.crt")).ExcludeFromDescription();
        }
    }

    private static async Task<IResult> Enter(
        HttpContext context, AccountBook book, GuessGuard guard, string name, string password, string? back)
    {
        if (name.Length is 0 or > 80 || password.Length is 0 or > 200) return Again("/sign-in", "wrong", back);
        var (address, device) = (Hardening.Address(context), KnownDevice.Of(context, name));
        if (guard.Ask(name, address, device) is { } wait) return Again("/sign-in", "wait", back, wait);
        if (await Task.Run(() => book.Verify(name, password)) is not { } account) return Again("/sign-in", "wrong", back);
        guard.Succeeded(name, address, device);
        KnownDevice.Keep(context, name, device);
        await SignIn(context, account);
        return Results.LocalRedirect(Local(back));
    }

    private static async Task<IResult> FirstOwner(HttpContext context, AccountBook book, string? key, string name, string password)
    {
        if (book.HasOwner || book.Peek(key, LinkPurpose.FirstOwner) is null) return Again("/first-owner", "link", null);
        if (AccountBook.WeakPassword(name.Trim(), password) is not null) return Again("/first-owner", "weak", null, key: key);
        if (await Task.Run(() => book.BecomeFirstOwner(key, name, password)) is not Result<Account>.Accepted { Value: var account })
            return Again("/first-owner", "name", null, key: key);
        await SignIn(context, account);
        return Results.LocalRedirect("/");
    }

    private static async Task<IResult> ByLink(HttpContext context, AccountBook book, string? key, string password)
    {
        if (book.Peek(key, LinkPurpose.Password) is not { About: { } id } || book.Find(id) is not { IsClosed: false } account)
            return Again("/password-link", "link", null);
        if (AccountBook.WeakPassword(account.Name, password) is not null) return Again("/password-link", "weak", null, key: key);
        if (book.Use(key, LinkPurpose.Password) is null) return Again("/password-link", "link", null);
        await Task.Run(() => book.SetPassword(id, password));
        await SignIn(context, book.Find(id)!);
        return Results.LocalRedirect("/");
    }

    private static async Task<IResult> Join(HttpContext context, Desk desk, AccountBook book, TimeProvider time, string? key, string crew)
    {
        var joined = book.Join(key, crew, campaign =>
        {
            var lastDay = desk.Now.Campaign(campaign)?.Plan?.LastDay ?? desk.Today;
            DateTimeOffset end = lastDay.AddDays(GraceDays + 1).ToDateTime(TimeOnly.MinValue, DateTimeKind.Utc);
            // Who is invited after that comes to bring something in.
            return end > time.GetUtcNow().AddDays(1) ? end : time.GetUtcNow().AddDays(1);
        }, desk.People);
        if (joined is not Result<Phone>.Accepted { Value: var phone }) return Again("/join", "name", null, key: key);
        var speaker = new Speaker(Speaker.Phone, phone.Id, phone.Crew, Duties.Field, phone.Campaign).Begin();
        await context.SignInAsync(
            SessionScheme.Name, speaker.Principal(SessionScheme.Name), new() { IsPersistent = true, ExpiresUtc = phone.Until });
        return Results.LocalRedirect("/field/");
    }

    private static async Task<IResult> Change(HttpContext context, AccountBook book, GuessGuard guard, string old, string password)
    {
        if (Desk.Speaker(context) is not { Kind: Speaker.Account } speaker || book.Find(speaker.Id) is not { } account)
            return Again("/me", "account", null);
        if (guard.Ask(account.Name, Hardening.Address(context), speaker.Session) is { } wait) return Again("/me", "wait", null, wait);
        if (await Task.Run(() => book.Verify(account.Name, old)) is null) return Again("/me", "wrong", null);
        guard.Succeeded(account.Name, Hardening.Address(context), speaker.Session);
        if (AccountBook.WeakPassword(account.Name, password) is not null) return Again("/me", "weak", null);
        await Task.Run(() => book.SetPassword(account.Id, password));
        await SignIn(context, book.Find(account.Id)!);
        return Again("/me", "changed", null);
    }

    private static Task SignIn(HttpContext context, Account account)
    {
        var speaker = new Speaker(Speaker.Account, account.Id, account.Name, account.Duties, null, account.Era).Begin();
        return context.SignInAsync(SessionScheme.Name, speaker.Principal(SessionScheme.Name));
    }

    // Back to the form with what was wrong; never with what was typed.
    private static IResult Again(string page, string problem, string? back, TimeSpan? wait = null, string? key = null) =>
        Results.LocalRedirect(
            $"{page}?problem={problem}"
            + (wait is { } w ? FormattableString.Invariant($"&seconds={Math.Ceiling(w.TotalSeconds)}") : "")
            + (back is null ? "" : "&back=" + Uri.EscapeDataString(Local(back)))
            + (key is null ? "" : "&key=" + Uri.EscapeDataString(key)));

    // Only addresses of this server.
    private static string Local(string? back) =>
        back is { Length: > 0 and < 2000 } && back[0] == '/' && (back.Length == 1 || back[1] is not ('/' or '\\'))
        && !back.Any(char.IsControl)
            ? back : "/";

    /// <summary>Who one is here.</summary>
    /// <param name="Client">Name of the client that facts of one's own programs should carry.</param>
    /// <param name="Version">Version of the program that answers.</param>
    internal sealed record Me(string Kind, string Person, string Duties, string? Campaign, string Client, string Version);
}
