using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Accounts;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>What is asked at the register's own door, without a server before it.</summary>
public sealed class DoorkeeperTests : IAsyncDisposable
{
    private const string M1 = "device:M1";
    private static readonly Occurred Then = Occurred.At(new(2026, 8, 3, 7, 0, 0, TimeSpan.Zero));

    private readonly TemporaryFolder _folder = new();
    private readonly LiveRegister _live;
    private readonly AccountBook _book;
    private int _counter;

    public DoorkeeperTests()
    {
        _live = new(JournalStore.Open(new DiskFiles(_folder.Path), TimeProvider.System));
        _book = AccountBook.Open(new DiskFiles(_folder.Path), TimeProvider.System);
    }

    [Fact]
    public void Whoever_is_not_let_in_any_more_states_nothing_and_an_empty_list_asks_just_that()
    {
        var field = Holding(Duties.Field);
        var key = _book.MakeLink(LinkPurpose.Phone, "C", TimeSpan.FromHours(1));
        var joined = Assert.IsType<Result<Phone>.Accepted>(_book.Join(key, "Crew", _ => DateTimeOffset.MaxValue)).Value;
        var phone = new Speaker(Speaker.Phone, joined.Id, joined.Crew, Duties.Field, joined.Campaign);
        var noted = Said(field, new DeviceNoted("seen"), M1);
        Assert.Null(Why(field, true));
        Assert.Null(Why(phone, true));
        Assert.Null(Why(field, true, noted));
        Assert.Null(Why(field, true, noted, noted)); // said twice is said once

        Assert.Null(_book.Close(field.Id, true));
        Assert.Null(_book.RevokePhone(joined.Id));

        Assert.StartsWith("Your sign-in is over", Why(field, true), StringComparison.Ordinal);
        Assert.StartsWith("Your sign-in is over", Why(field, true, noted), StringComparison.Ordinal);
        Assert.StartsWith("This phone may not speak any more", Why(phone, true), StringComparison.Ordinal);
    }

    [Fact]
    public void Of_several_reasons_the_first_one_is_told()
    {
        var field = Holding(Duties.Field);

        var why = Why(
            field, false, Said(field, new DeviceNoted("seen"), M1), Said(field, new DevicesJoined("M1", "M2", "same"), M1, "device:M2"),
            Said(field, new ClientClockNoticed("phone-1", 0, 1000), Subject.TheRegister));

        Assert.Equal("To state 'devices joined' needs one of the duties plan; you hold field.", why);
    }

    [Fact]
    public void What_nobody_here_has_seen_is_annulled_by_an_owner_alone()
    {
        Speaker plan = Holding(Duties.Plan), owner = Holding(Duties.Own);
        foreach (var target in new[] { FactId.Create(1, new byte[10]).ToString(), "no id" })
        {
            Assert.NotNull(Why(plan, false, Said(plan, new FactAnnulled(target, "undone"), M1)));
            Assert.Null(Why(owner, false, Said(owner, new FactAnnulled(target, "undone"), M1)));
        }
        // What stands beside it in the same batch is seen.
        var noted = Said(plan, new DeviceNoted("seen"), M1);
        Assert.Null(Why(plan, false, Said(plan, new FactAnnulled(noted.Id.ToString(), "undone"), M1), noted));
    }

    [Fact]
    public void A_thousand_annulments_are_followed_to_what_they_are_of_and_one_more_is_for_an_owner()
    {
        var field = Holding(Duties.Field);
        var facts = new List<Fact> { Said(field, new DeviceNoted("seen"), M1) };
        while (facts.Count <= 1001) facts.Add(Said(field, new FactAnnulled(facts[^1].Id.ToString(), "undone"), M1));

        var refused = Doorkeeper.Refusals(new Access(_book), _live.Now, field, facts, isFromOutside: true).ToList();

        Assert.All(refused.Take(1001), r => Assert.Null(r)); // the note and a thousand annulments
        Assert.NotNull(refused[1001]);
    }

    [Fact]
    public void A_name_that_is_of_another_person_as_well_is_given_by_an_owner_alone()
    {
        Speaker olive = Holding(Duties.Field, "Olive"), owner = Holding(Duties.Own);
        var (own, other) = (Subject.Person(PersonState.IdOf("Olive")), Subject.Person(PersonState.IdOf("Hanna")));

        Assert.Null(Why(olive, false, Said(olive, new PersonNamed("Olive"), own)));
        foreach (var both in new string[][] { [own, other], [other, own], [other] })
        {
            var why = Why(olive, false, Said(olive, new PersonNamed("Olive"), both));
            Assert.StartsWith("A person is named by themselves", why, StringComparison.Ordinal);
            Assert.Null(Why(owner, false, Said(owner, new PersonNamed("Olive"), both)));
        }
    }

    [Fact]
    public void What_comes_from_outside_is_of_its_sender_and_of_no_client_of_the_server_unless_an_owner_sends_it()
    {
        Speaker field = Holding(Duties.Field), owner = Holding(Duties.Own);
        var (own, other) = (PersonState.IdOf("field"), PersonState.IdOf("Hanna"));
        Fact By(string author, string client) =>
            FactText.WriteDerived(new(Then, author, client, _counter++), new DeviceNoted("seen"), [M1]);

        foreach (var client in new[] { "desk", "api", "command", "server", "import" })
            Assert.Contains("own name", Why(field, true, By(own, client)), StringComparison.Ordinal);
        Assert.Contains("by another person", Why(field, true, By(other, field.Client)), StringComparison.Ordinal);
        Assert.Null(Why(field, true, By(own, field.Client)));
        Assert.Null(Why(field, false, By(other, "desk"))); // made here, so that nobody wrote it down
        Assert.Null(Why(owner, true, By(other, "desk")));
    }

    public async ValueTask DisposeAsync()
    {
        await _live.DisposeAsync();
        _book.Dispose();
        _folder.Dispose();
    }

    private Speaker Holding(Duties duties, string? name = null)
    {
        var account = Assert.IsType<Result<Account>.Accepted>(_book.Make(name ?? DutyWords.Of(duties), duties)).Value;
        return new(Speaker.Account, account.Id, account.Name, account.Duties);
    }

    private Fact Said(Speaker by, FactBody body, params string[] subjects) =>
        FactText.WriteDerived(new(Then, PersonState.IdOf(by.Person), by.Client, _counter++), body, subjects);

    private string? Why(Speaker by, bool isFromOutside, params Fact[] facts)
    {
        var refusal = Doorkeeper.Refusal(new Access(_book), _live.Now, by, facts, isFromOutside);
        if (refusal is not null) Assert.Equal(RejectionSort.Forbidden, refusal.Sort);
        return refusal?.Text;
    }
}
