using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Components.Server;

namespace MicRegister.Server.Accounts;

/// <summary>Who sits before a page.</summary>
public sealed class Speaking(AuthenticationStateProvider? people)
{
    /// <summary>The speaker; null where the sign-in is over.</summary>
    public Speaker? Now => people is null ? Speaker.Here("Desk")
        : people.GetAuthenticationStateAsync() is { IsCompletedSuccessfully: true } state ? Speaker.Of(state.Result.User)
        : null;
}

/// <summary>Looks again and again whether the session of an open page still holds; at once where accounts changed.</summary>
internal sealed class SessionWatch : RevalidatingServerAuthenticationStateProvider
{
    private readonly Access _access;

    public SessionWatch(ILoggerFactory logger, Access access)
        : base(logger)
    {
        _access = access;
        if (access.Book is { } book) book.Changed += Look;
    }

    protected override TimeSpan RevalidationInterval => TimeSpan.FromSeconds(20);

    protected override Task<bool> ValidateAuthenticationStateAsync(
        AuthenticationState authenticationState, CancellationToken cancellationToken) =>
        Task.FromResult(Speaker.Of(authenticationState.User) is { } speaker && _access.Now(speaker) != Duties.None);

    protected override void Dispose(bool disposing)
    {
        if (_access.Book is { } book) book.Changed -= Look;
        base.Dispose(disposing);
    }

    // Whoever may not stay does not stay until the next look, and who holds other duties now gets the pages of those.
    private void Look()
    {
        if (GetAuthenticationStateAsync() is not { IsCompletedSuccessfully: true } state
            || Speaker.Of(state.Result.User) is not { } speaker)
        {
            return;
        }
        var held = _access.Now(speaker);
        if (held == speaker.Duties) return;
        var user = held == Duties.None
            ? new(new System.Security.Claims.ClaimsIdentity())
            : (speaker with { Duties = held }).Principal(SessionScheme.Name);
        SetAuthenticationState(Task.FromResult(new AuthenticationState(user)));
    }
}
