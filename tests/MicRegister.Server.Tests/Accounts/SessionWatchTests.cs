using System.Runtime.CompilerServices;
using System.Security.Claims;
using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Storage.LiteDb;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.Extensions.Logging.Abstractions;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>What becomes of a page that is open while accounts change.</summary>
public sealed class SessionWatchTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();
    private readonly AccountBook _book;
    private readonly Speaker _plan;

    public SessionWatchTests()
    {
        _book = AccountBook.Open(new DiskFiles(_folder.Path), TimeProvider.System);
        _plan = new Speaker(Speaker.Account, Made("plan", Duties.Plan), "plan", Duties.Plan).Begin();
    }

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task An_open_page_has_the_duties_that_are_held_now_and_ends_with_its_session()
    {
        using var opening = new SessionWatch(NullLoggerFactory.Instance, new Access(_book)); // nobody sits before it yet
        using var watch = Watching();
        using var told = new SemaphoreSlim(0);
        _book.Changed += () => told.Release(); // after the pages
        async Task<ClaimsPrincipal> After(Action change)
        {
            change();
            Assert.True(await told.WaitAsync(TimeSpan.FromMinutes(1), Cancel));
            return (await watch.GetAuthenticationStateAsync()).User;
        }

        var before = (await watch.GetAuthenticationStateAsync()).User;
        Assert.Same(before, await After(() => Made("other", Duties.Look)));
        var more = await After(() => _book.SetDuties(_plan.Id, Duties.Plan | Duties.Bench));
        Assert.Equal(_plan with { Duties = Duties.Plan | Duties.Bench }, Speaker.Of(more));
        var ended = await After(() => _book.EndSessions(_plan.Id));
        Assert.Null(Speaker.Of(ended));
        Assert.Null(Speaker.Of(await After(() => _book.SetDuties(_plan.Id, Duties.Plan))));
    }

    [Fact]
    public async Task A_page_that_is_gone_is_told_nothing_more()
    {
        var watch = Watching();
        ((IDisposable)watch).Dispose();
        using var told = new SemaphoreSlim(0);
        _book.Changed += () => told.Release();

        Assert.Null(_book.SetDuties(_plan.Id, Duties.Bench));

        Assert.True(await told.WaitAsync(TimeSpan.FromMinutes(1), Cancel));
        Assert.Equal(_plan, Speaker.Of((await watch.GetAuthenticationStateAsync()).User));
    }

    // What was done elsewhere shows within 20 s.
    [Fact]
    public async Task An_open_page_is_looked_at_every_twenty_seconds()
    {
        using var watch = Watching();
        var state = new AuthenticationState(_plan.Principal(SessionScheme.Name));

        Assert.Equal(TimeSpan.FromSeconds(20), Every(watch));
        Assert.True(await Holds(watch, state, Cancel));
        Assert.False(await Holds(watch, new(new ClaimsPrincipal()), Cancel));
        Assert.Null(_book.Close(_plan.Id, true));
        Assert.False(await Holds(watch, state, Cancel));
    }

    public void Dispose()
    {
        _book.Dispose();
        _folder.Dispose();
    }

    private SessionWatch Watching()
    {
        var watch = new SessionWatch(NullLoggerFactory.Instance, new Access(_book));
        watch.SetAuthenticationState(Task.FromResult(new AuthenticationState(_plan.Principal(SessionScheme.Name))));
        return watch;
    }

    private string Made(string name, Duties duties) => Assert.IsType<Result<Account>.Accepted>(_book.Make(name, duties)).Value.Id;

    [UnsafeAccessor(UnsafeAccessorKind.Method, Name = "get_RevalidationInterval")]
    private static extern TimeSpan Every(SessionWatch watch);

    [UnsafeAccessor(UnsafeAccessorKind.Method, Name = "ValidateAuthenticationStateAsync")]
    private static extern Task<bool> Holds(SessionWatch watch, AuthenticationState state, CancellationToken cancel);
}
