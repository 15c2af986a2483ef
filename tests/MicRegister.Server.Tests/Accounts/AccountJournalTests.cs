using System.Text.Json.Nodes;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Server.Accounts;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>What stands in the journal of the accounts, what it says when it is opened anew, and who is told of a change.</summary>
public sealed class AccountJournalTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero);

    private readonly TemporaryFolder _folder = new();
    private readonly HandTime _time = new(Start);
    private readonly AccountBook _book;

    public AccountJournalTests() => _book = AccountBook.Open(new DiskFiles(_folder.Path), _time);

    [Fact]
    public void Opened_anew_it_says_what_it_said_before()
    {
        string olive = Made("Olive", Duties.Own), closed = Made("Closed", Duties.Look), several = Made("Several", Duties.Plan);
        Assert.Null(_book.SetPassword(olive, ServerUnderTest.Password));
        Assert.Null(_book.Close(closed, true));
        Assert.Null(_book.SetDuties(several, Duties.Plan | Duties.Bench));
        _book.Bind(several, "issuer several");
        Assert.Null(_book.EndSessions(several));
        Assert.Null(_book.EndSessions(several));
        _book.Leave("s1");
        string good = Token(several, "good"), revoked = Token(several, "revoked");
        Assert.Null(_book.RevokeToken(_book.Tokens.Single(t => t.Name == "revoked").Id));
        string open = Link(LinkPurpose.Password, olive), used = Link(LinkPurpose.Phone, "C"), other = Link(LinkPurpose.Phone, "D");
        Assert.IsType<Result<Phone>.Accepted>(_book.Join(used, "Crew west", _ => Start.AddDays(9)));
        Assert.IsType<Result<Phone>.Accepted>(_book.Join(other, "Crew east", _ => Start.AddDays(8)));
        Assert.Null(_book.RevokePhone(_book.Phones.Single(p => p.Crew == "Crew east").Id));
        _time.Now = Start.AddMinutes(1);
        _book.Note(_book.Tokens.Single(t => t.Name == "good").Id);
        _book.Note(_book.Phones.Single(p => p.Crew == "Crew west").Id);
        var (accounts, tokens, phones) = (_book.Accounts, _book.Tokens, _book.Phones);
        _book.Dispose();

        using var again = AccountBook.Open(new DiskFiles(_folder.Path), _time);

        Assert.Equal(accounts, again.Accounts);
        Assert.Equal(tokens, again.Tokens);
        Assert.Equal(phones, again.Phones);
        (string Name, Duties Duties, bool IsClosed, int Era, string? Provider)[] people =
        [
            ("Closed", Duties.Look, true, 1, null), ("Olive", Duties.Own, false, 1, null),
            ("Several", Duties.Bench | Duties.Plan, false, 2, "issuer several"),
        ];
        Assert.Equal(people, again.Accounts.Select(a => (a.Name, a.Duties, a.IsClosed, a.Era, a.Provider)));
        Assert.All(again.Accounts, a => Assert.Equal(Start, a.Made));
        (string Name, bool IsRevoked, DateTimeOffset? LastUsed)[] scripts = [("good", false, Start.AddMinutes(1)), ("revoked", true, null)];
        Assert.Equal(scripts, again.Tokens.Select(t => (t.Name, t.IsRevoked, t.LastUsed)));
        Assert.All(again.Tokens, t => Assert.Equal((several, Duties.Bench, Start.AddDays(5)), (t.Account, t.Duties, t.Until)));
        (string Crew, string Campaign, bool IsRevoked, DateTimeOffset Until, DateTimeOffset? LastSeen)[] crews =
            [("Crew west", "C", false, Start.AddDays(9), Start.AddMinutes(1)), ("Crew east", "D", true, Start.AddDays(8), null)];
        Assert.Equal(crews, again.Phones.Select(p => (p.Crew, p.Campaign, p.IsRevoked, p.Until, p.LastSeen)));
        Assert.Equal(olive, again.Verify("Olive", ServerUnderTest.Password)!.Id);
        Assert.Equal(several, again.FindToken(good)!.Value.Account.Id);
        Assert.Null(again.FindToken(revoked));
        Assert.Equal((true, false), (again.WasLeft("s1"), again.WasLeft("s2")));
        Assert.Equal(olive, again.Peek(open, LinkPurpose.Password)!.About);
        Assert.Null(again.Peek(used, LinkPurpose.Phone));
    }

    [Fact]
    public void No_secret_is_in_the_journal_but_its_hash()
    {
        // FIPS 180-4, the example of one block: SHA-256 of "abc".
        Assert.Equal("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", AccountBook.Hash("abc"));
        var id = Made("bench", Duties.Bench);
        Assert.Null(_book.SetPassword(id, ServerUnderTest.Password));

        foreach (var secret in new[] { Token(id, "script"), Link(LinkPurpose.Phone, "C") })
        {
            Assert.DoesNotContain(secret, Journal(), StringComparison.Ordinal);
            Assert.Contains(AccountBook.Hash(secret), Journal(), StringComparison.Ordinal);
        }
        Assert.DoesNotContain(ServerUnderTest.Password, Journal(), StringComparison.Ordinal);
        Assert.NotEqual(Link(LinkPurpose.Phone, "C"), Link(LinkPurpose.Phone, "C"));
    }

    // A crash between leaves the old password and nobody inside.
    [Fact]
    public void A_new_password_is_written_once_sessions_and_links_have_ended()
    {
        var id = Made("bench", Duties.Bench);
        Link(LinkPurpose.Password, id);

        Assert.Null(_book.SetPassword(id, ServerUnderTest.Password));

        Assert.Equal(["account-made", "link-made", "sessions-ended", "link-used", "password-set"], Said());
    }

    // A crash between leaves a link that is good, and an account that nobody can sign in with.
    [Fact]
    public void The_link_of_the_first_owner_is_used_up_once_the_password_is_there()
    {
        var link = Link(LinkPurpose.FirstOwner, null);

        Assert.IsType<Result<Account>.Accepted>(_book.BecomeFirstOwner(link, "Olive", ServerUnderTest.Password));

        Assert.Equal(["link-made", "account-made", "password-set", "link-used"], Said());
    }

    [Fact]
    public void What_changes_nothing_is_not_written()
    {
        var id = Made("field", Duties.Field);
        var before = Journal();

        Assert.Null(_book.SetDuties(id, Duties.Field));
        Assert.Null(_book.SetDuty(id, Duties.Field, true));
        Assert.Null(_book.SetDuty(id, Duties.Plan, false));
        _book.Note("nobody");
        _book.Bind("nobody", "issuer");
        _book.Leave("");
        Assert.Equal(RejectionSort.NotFound, _book.SetDuties("nobody", Duties.Look)!.Sort);
        Assert.Equal(RejectionSort.NotFound, _book.Close("nobody", true)!.Sort);
        Assert.Equal(RejectionSort.NotFound, _book.EndSessions("nobody")!.Sort);
        Assert.Equal(RejectionSort.NotFound, _book.SetPassword("nobody", ServerUnderTest.Password)!.Sort);
        Assert.Equal(RejectionSort.NotFound, _book.RevokeToken("none")!.Sort);
        Assert.Equal(RejectionSort.NotFound, _book.RevokePhone("none")!.Sort);

        Assert.Equal(before, Journal());
    }

    [Theory]
    [InlineData("""{"what":"account-praised","at":"2026-07-01T00:00:00+00:00"}""")]
    [InlineData("""{"what":"account-made","at":"soon"}""")]
    [InlineData("no account")]
    public void What_a_newer_version_wrote_stops_the_opening_and_the_file_is_let_go(string line)
    {
        using var folder = new TemporaryFolder();
        using (var journal = SmallJournal.Open(new DiskFiles(folder.Path), AccountBook.FileName)) journal.Append(line);

        // Not held by the first try, so that the second one says the same.
        for (var i = 0; i < 2; i++)
        {
            var why = Assert.Throws<StoreException>(() => AccountBook.Open(new DiskFiles(folder.Path), _time));
            Assert.Contains("cannot read", why.Message, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Whoever_listens_is_told_of_a_change_whatever_befalls_the_others()
    {
        using var told = new SemaphoreSlim(0);
        _book.Changed += () => throw new InvalidOperationException("A page is opening.");
        _book.Changed += () => throw new ObjectDisposedException("a page");
        _book.Changed += () => told.Release();

        for (var i = 0; i < 2; i++)
        {
            Made($"Account {i}", Duties.Look);
            Assert.True(await told.WaitAsync(TimeSpan.FromMinutes(1), TestContext.Current.CancellationToken));
        }
    }

    public void Dispose()
    {
        _book.Dispose();
        _folder.Dispose();
    }

    private string Made(string name, Duties duties) => Assert.IsType<Result<Account>.Accepted>(_book.Make(name, duties)).Value.Id;

    private string Token(string account, string name) =>
        Assert.IsType<Result<string>.Accepted>(_book.MakeToken(account, name, Duties.Bench, TimeSpan.FromDays(5))).Value;

    private string Link(LinkPurpose purpose, string? about) => _book.MakeLink(purpose, about, TimeSpan.FromHours(1));

    private string Journal() => File.ReadAllText(_folder.At(AccountBook.FileName));

    // Behind eight digits of a check sum and a tab.
    private IEnumerable<string> Said() =>
        File.ReadLines(_folder.At(AccountBook.FileName)).Select(line => (string)JsonNode.Parse(line[9..])!["what"]!);
}
