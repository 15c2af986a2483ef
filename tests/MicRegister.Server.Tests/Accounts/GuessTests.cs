using MicRegister.Server.Accounts;

namespace MicRegister.Server.Tests.Accounts;

public sealed class GuessTests
{
    private readonly HandTime _time = new(new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero));

    [Fact]
    public void A_hundred_thousand_guesses_from_one_address_hardly_reach_the_hasher()
    {
        var guard = new GuessGuard(_time);
        var reached = 0;
        for (var i = 0; i < 100_000; i++)
        {
            if (guard.Ask("owner", "192.0.2.1") is null) reached++;
            _time.Now += TimeSpan.FromSeconds(1);
        }
        // 3 free, delays of 2, 4, ... 512 s, then one each 15 minutes of 100,000 s: 3 + 9 + 111 at most.
        Assert.InRange(reached, 20, 125);
    }

    [Fact]
    public void Guesses_from_many_addresses_are_bounded_for_an_account_too()
    {
        var guard = new GuessGuard(_time);
        var reached = 0;
        for (var i = 0; i < 100_000; i++)
        {
            if (guard.Ask("owner", $"192.0.{i / 250 % 250}.{i % 250}") is null) reached++;
            _time.Now += TimeSpan.FromSeconds(1);
        }
        // 50 free, then one each 30 s at most of 100,000 s.
        Assert.InRange(reached, 50, 3_500);
    }

    [Fact]
    public void A_browser_that_came_in_before_is_not_held_up_by_what_others_guess()
    {
        var guard = new GuessGuard(_time);
        for (var i = 0; i < 10_000; i++) guard.Ask("owner", $"192.0.{i / 250 % 250}.{i % 250}");

        Assert.NotNull(guard.Ask("owner", "203.0.113.9"));
        // Also from the very address that guesses come from.
        Assert.Null(guard.Ask("OWNER ", "192.0.0.1", "mark of its browser"));
        for (var i = 0; i < 3; i++) guard.Ask("owner", "192.0.0.1", "mark of its browser");
        Assert.NotNull(guard.Ask("owner", "192.0.0.1", "mark of its browser"));
    }

    [Fact]
    public void Whoever_knows_one_password_does_not_wash_away_guesses_of_others()
    {
        var guard = new GuessGuard(_time);
        var reached = 0;
        for (var i = 0; i < 2000; i++)
        {
            if (guard.Ask("victim " + i, "192.0.2.1") is null) reached++;
            if (guard.Ask("own", "192.0.2.1") is null) guard.Succeeded("own", "192.0.2.1");
        }
        Assert.InRange(reached, 15, 25); // as many as an address has free
    }

    [Fact]
    public void Many_at_once_do_not_slip_through()
    {
        var guard = new GuessGuard(_time);

        var reached = 0;
        Parallel.For(0, 1000, _ =>
        {
            if (guard.Ask("owner", "192.0.2.1") is null) Interlocked.Increment(ref reached);
        });

        Assert.Equal(4, reached); // three free ones, and the one that sets the first delay
    }

    [Fact]
    public void A_right_password_forgets_wrong_ones_and_so_does_time()
    {
        var guard = new GuessGuard(_time);
        for (var i = 0; i < 4; i++) guard.Ask("owner", "192.0.2.1");
        Assert.NotNull(guard.Ask("owner", "192.0.2.1"));
        _time.Now += TimeSpan.FromSeconds(2);
        Assert.Null(guard.Ask("owner", "192.0.2.1"));
        guard.Succeeded("owner", "192.0.2.1");
        for (var i = 0; i < 4; i++) Assert.Null(guard.Ask("owner", "192.0.2.1"));

        for (var i = 0; i < 20; i++) guard.Ask("other", "192.0.2.2");
        _time.Now += TimeSpan.FromHours(3);
        for (var i = 0; i < 3; i++) Assert.Null(guard.Ask("other", "192.0.2.2"));
    }
}
