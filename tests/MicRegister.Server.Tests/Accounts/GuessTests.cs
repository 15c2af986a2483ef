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

    [Fact]
    public void The_wait_doubles_with_each_wrong_password_up_to_a_quarter_of_an_hour()
    {
        var guard = new GuessGuard(_time);
        for (var i = 0; i < 3; i++) Assert.Null(guard.Ask("owner", "192.0.2.1")); // three are free

        foreach (var seconds in new[] { 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900 }) Waits(guard, seconds, "owner", "192.0.2.1");
    }

    [Fact]
    public void An_address_has_twenty_guesses_free_whatever_the_names()
    {
        var guard = new GuessGuard(_time);
        var name = 0;
        while (name < 20) Assert.Null(guard.Ask($"name {name++}", "192.0.2.1"));

        foreach (var seconds in new[] { 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900 })
            Waits(guard, seconds, $"name {name++}", "192.0.2.1");
    }

    [Fact]
    public void An_account_has_fifty_guesses_free_and_waits_half_a_minute_at_most_whoever_guesses()
    {
        var guard = new GuessGuard(_time);
        var address = 0;
        while (address < 50) Assert.Null(guard.Ask("owner", $"192.0.2.{address++}"));

        foreach (var seconds in new[] { 2, 4, 8, 16, 30, 30 }) Waits(guard, seconds, "owner", $"192.0.2.{address++}");
    }

    [Theory]
    [InlineData(-1, 4)] // the fifth wrong one
    [InlineData(0, 0)] // the first one again
    public void Two_hours_without_a_try_forget_the_wrong_ones_and_less_does_not(int ticks, int seconds)
    {
        var guard = new GuessGuard(_time);
        for (var i = 0; i < 4; i++) Assert.Null(guard.Ask("owner", "192.0.2.1"));

        _time.Now += TimeSpan.FromHours(2) + TimeSpan.FromTicks(ticks);

        Assert.Null(guard.Ask("owner", "192.0.2.1"));
        TimeSpan? wait = seconds == 0 ? null : TimeSpan.FromSeconds(seconds);
        Assert.Equal(wait, guard.Ask("owner", "192.0.2.1"));
    }

    [Fact]
    public void A_right_password_costs_neither_its_address_nor_its_account_anything()
    {
        var guard = new GuessGuard(_time);
        for (var i = 0; i < 60; i++)
        {
            Assert.Null(guard.Ask("owner", "192.0.2.1"));
            guard.Succeeded("owner", "192.0.2.1");
        }
    }

    [Fact]
    public void A_right_password_lifts_the_wait_that_its_own_try_brought_and_no_other()
    {
        var guard = new GuessGuard(_time);
        for (var i = 0; i < 20; i++) Assert.Null(guard.Ask($"name {i}", "192.0.2.1"));
        Assert.Null(guard.Ask("owner", "192.0.2.1"));
        guard.Succeeded("owner", "192.0.2.1");

        Assert.Null(guard.Ask("name 20", "192.0.2.1")); // the twenty-first wrong one of this address
        _time.Now += TimeSpan.FromSeconds(2);
        Assert.Null(guard.Ask("owner", "192.0.2.1"));
        guard.Succeeded("owner", "192.0.2.1");

        // That one stays, and so does what the next one has to wait.
        TimeSpan? wait = TimeSpan.FromSeconds(4);
        Assert.Equal(wait, guard.Ask("name 21", "192.0.2.1"));
    }

    [Fact]
    public void Of_a_long_name_eighty_characters_count()
    {
        var guard = new GuessGuard(_time);
        var long79 = new string('n', 79);
        foreach (var end in new[] { "ab", "ac", "ad", "ae" }) Assert.Null(guard.Ask(long79 + end, "192.0.2.1"));

        TimeSpan? wait = TimeSpan.FromSeconds(2);
        Assert.Equal(wait, guard.Ask(long79 + "af", "192.0.2.1"));
        Assert.Null(guard.Ask(long79 + "b", "192.0.2.1")); // the eightieth is looked at
    }

    [Fact]
    public void Beyond_a_hundred_thousand_entries_those_that_nothing_holds_up_go()
    {
        var guard = new GuessGuard(_time);
        for (var i = 0; i < 3; i++) Assert.Null(guard.Ask("owner", "192.0.2.1", "free"));
        for (var i = 0; i < 4; i++) Assert.Null(guard.Ask("owner", "192.0.2.1", "held up"));
        Fill(guard, 99_999); // with those two one too many

        TimeSpan? wait = TimeSpan.FromSeconds(2);
        Assert.Equal(wait, guard.Ask("owner", "192.0.2.1", "held up"));
        // Its three wrong ones are gone: three are free again, and one that brings the first wait.
        for (var i = 0; i < 4; i++) Assert.Null(guard.Ask("owner", "192.0.2.1", "free"));
    }

    [Fact]
    public void Old_entries_go_first_and_where_that_is_enough_all_others_stay()
    {
        var guard = new GuessGuard(_time);
        Assert.Null(guard.Ask("owner", "192.0.2.1", "old"));
        _time.Now += TimeSpan.FromHours(3);
        for (var i = 0; i < 3; i++) Assert.Null(guard.Ask("owner", "192.0.2.1", "kept"));
        Fill(guard, 99_999); // with the old one, one too many

        // The fourth wrong one is still the fourth.
        Assert.Null(guard.Ask("owner", "192.0.2.1", "kept"));
        TimeSpan? wait = TimeSpan.FromSeconds(2);
        Assert.Equal(wait, guard.Ask("owner", "192.0.2.1", "kept"));
    }

    // A browser with a mark is one entry.
    private static void Fill(GuessGuard guard, int entries)
    {
        for (var i = 0; i < entries; i++) guard.Ask("guest", "192.0.2.9", $"mark {i}");
    }

    // A try is let through, the next one waits just so long, and asking meanwhile costs nothing.
    private void Waits(GuessGuard guard, int seconds, string account, string address)
    {
        TimeSpan? wait = TimeSpan.FromSeconds(seconds), last = TimeSpan.FromTicks(1);
        Assert.Null(guard.Ask(account, address));
        Assert.Equal(wait, guard.Ask(account, address));
        _time.Now += TimeSpan.FromSeconds(seconds) - TimeSpan.FromTicks(1);
        Assert.Equal(last, guard.Ask(account, address));
        _time.Now += TimeSpan.FromTicks(1);
    }
}
