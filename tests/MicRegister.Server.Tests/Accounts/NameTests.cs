using System.Text.Json;
using MicRegister.Register;
using MicRegister.Register.Facts;
using MicRegister.Register.People;
using MicRegister.Server.Accounts;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>Names of accounts, phones and people that a person could take for each other.</summary>
public sealed class NameTests
{
    [Theory]
    [InlineData("Ｏｌｉｖｅ")] // full width
    [InlineData("Оlive")] // a Cyrillic O
    [InlineData("Ol\u200Bive")] // a blank of no width
    [InlineData("Oli\u0301ve")] // a mark
    [InlineData("0live")]
    public void A_name_that_looks_like_an_owners_is_given_to_no_account_and_no_phone(string name)
    {
        using var folder = new TemporaryFolder();
        using var book = AccountBook.Open(new DiskFiles(folder.Path), TimeProvider.System);
        Assert.IsType<Result<Account>.Accepted>(book.Make("Olive", Duties.Own));

        var account = Assert.IsType<Result<Account>.Rejected>(book.Make(name, Duties.Field)).Why;
        var phone = Assert.IsType<Result<Phone>.Rejected>(Join(book, name)).Why;

        Assert.All([account, phone], why => Assert.Equal(RejectionSort.Conflict, why.Sort));
        Assert.All([account, phone], why => Assert.Contains("looks like Olive", why.Text, StringComparison.Ordinal));
        Assert.All([account, phone], why => Assert.Contains("add something", why.Text, StringComparison.Ordinal));
        Assert.Null(book.Named(name));
        Assert.IsType<Result<Account>.Accepted>(book.Make(name + " of the lab", Duties.Field));
    }

    [Theory]
    [InlineData("\u202EnwO omeD", "cannot be seen")] // reads as Demo Own
    [InlineData("Rolf\u202Ex", "cannot be seen")]
    [InlineData("import", "its own doors")]
    [InlineData("Taken over", "its own doors")]
    [InlineData("Desk", "its own doors")]
    [InlineData("D\u0435sk", "its own doors")] // a Cyrillic e
    [InlineData("Server", "its own doors")]
    public void A_name_that_hides_or_stands_for_the_register_itself_is_given_to_nobody(string name, string says)
    {
        using var folder = new TemporaryFolder();
        using var book = AccountBook.Open(new DiskFiles(folder.Path), TimeProvider.System);

        foreach (var why in new[]
        {
            Assert.IsType<Result<Account>.Rejected>(book.Make(name, Duties.Field)).Why,
            Assert.IsType<Result<Phone>.Rejected>(Join(book, name)).Why,
        })
        {
            Assert.Equal(RejectionSort.Invalid, why.Sort);
            Assert.True(why.Text.Contains(says, StringComparison.Ordinal) || why.Text.StartsWith("Crew: 1 to 80", StringComparison.Ordinal), why.Text);
        }
    }

    [Theory]
    [InlineData("Crew\u202Ewest")]
    [InlineData("Crew west\u2069")]
    [InlineData("\u0007Crew west")]
    public void One_hidden_sign_in_the_name_of_a_crew_is_enough_and_its_invitation_stays_good(string crew)
    {
        using var folder = new TemporaryFolder();
        using var book = AccountBook.Open(new DiskFiles(folder.Path), TimeProvider.System);
        var key = book.MakeLink(LinkPurpose.Phone, "C", TimeSpan.FromHours(1));

        var why = Assert.IsType<Result<Phone>.Rejected>(book.Join(key, crew, _ => DateTimeOffset.MaxValue)).Why;

        // Said of the crew: a phone knows of no accounts.
        Assert.StartsWith("Crew: ", why.Text, StringComparison.Ordinal);
        Assert.Equal(RejectionSort.Invalid, why.Sort);
        Assert.Empty(book.Phones);
        Assert.NotNull(book.Peek(key, LinkPurpose.Phone));
    }

    [Fact]
    public void A_name_like_that_of_a_crew_that_speaks_or_of_a_person_in_the_register_is_not_given_either()
    {
        using var folder = new TemporaryFolder();
        using var book = AccountBook.Open(new DiskFiles(folder.Path), TimeProvider.System);
        var joined = Assert.IsType<Result<Phone>.Accepted>(Join(book, "Crew west")).Value;
        PersonState[] people = [new(PersonState.IdOf("Hanna"), "Hanna")];

        Assert.IsType<Result<Phone>.Rejected>(Join(book, "Сrew wеst"));
        Assert.IsType<Result<Account>.Rejected>(book.Make("Сrew wеst", Duties.Look));
        var account = Assert.IsType<Result<Account>.Rejected>(book.Make("ΗΑΝΝΑ", Duties.Look, people: people)).Why;
        var phone = Assert.IsType<Result<Phone>.Rejected>(Join(book, "ΗΑΝΝΑ", people)).Why;
        Assert.All([account, phone], why => Assert.Contains("like Hanna", why.Text, StringComparison.Ordinal));
        // The same person may have an account, whatever capitals it is written in.
        Assert.IsType<Result<Account>.Accepted>(book.Make("HANNA", Duties.Look, people: people));
        // Who does not speak any more leaves the name.
        book.RevokePhone(joined.Id);
        Assert.IsType<Result<Phone>.Accepted>(Join(book, "Сrew wеst"));
    }

    [Fact]
    public void A_refused_crew_keeps_its_invitation()
    {
        using var folder = new TemporaryFolder();
        using var book = AccountBook.Open(new DiskFiles(folder.Path), TimeProvider.System);
        Assert.IsType<Result<Phone>.Accepted>(Join(book, "Crew west"));
        var key = book.MakeLink(LinkPurpose.Phone, "C", TimeSpan.FromHours(1));

        Assert.IsType<Result<Phone>.Rejected>(book.Join(key, "Сrew wеst", _ => DateTimeOffset.MaxValue));
        Assert.IsType<Result<Phone>.Accepted>(book.Join(key, "Crew east", _ => DateTimeOffset.MaxValue));
    }

    [Fact]
    public void A_name_of_which_nothing_is_seen_is_none()
    {
        using var folder = new TemporaryFolder();
        using var book = AccountBook.Open(new DiskFiles(folder.Path), TimeProvider.System);
        var account = Assert.IsType<Result<Account>.Rejected>(book.Make("\u200B\u2060", Duties.Look)).Why;
        var phone = Assert.IsType<Result<Phone>.Rejected>(Join(book, "\u2060\u200B")).Why;
        Assert.All([account, phone], why => Assert.Contains("can be seen", why.Text, StringComparison.Ordinal));
    }

    [Fact]
    public void Names_that_were_stored_before_keep_opening()
    {
        using var folder = new TemporaryFolder();
        using (var journal = SmallJournal.Open(new DiskFiles(folder.Path), AccountBook.FileName))
        {
            // As earlier versions wrote them, alike as they are.
            foreach (var name in new[] { "Olive", "Оlive", "\u200B" })
            {
                var (id, text) = (PersonState.IdOf(name), JsonSerializer.Serialize(name));
                journal.Append($$"""{"what":"account-made","id":"{{id}}","name":{{text}},"duties":"own","at":"2026-07-01T00:00:00+00:00"}""");
            }
        }
        using var book = AccountBook.Open(new DiskFiles(folder.Path), TimeProvider.System);

        Assert.Equal(3, book.Accounts.Count);
        var other = book.Named("Оlive")!;
        Assert.NotEqual(book.Named("Olive")!.Id, other.Id);
        Assert.Null(book.SetPassword(other.Id, ServerUnderTest.Password));
        Assert.Equal(other.Id, book.Verify("Оlive", ServerUnderTest.Password)!.Id);
    }

    [Fact]
    public async Task The_join_page_looks_at_the_people_of_the_register_and_says_what_to_do()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        var hanna = Subject.Person(PersonState.IdOf("Hanna"));
        var named = FactText.WriteDerived(new(Occurred.Unknown, "P1", "desk", 1), new PersonNamed("Hanna"), [hanna]);
        await server.Live.Submit(_ => new Result<IReadOnlyList<Fact>>.Accepted([named]), "desk", TestContext.Current.CancellationToken);
        var key = server.Book!.MakeLink(LinkPurpose.Phone, "C", TimeSpan.FromHours(1));
        using var phone = server.Browser();

        using var refused = await ServerUnderTest.Fill(phone, "/join?key=" + key, "/account/join", ("crew", "ΗΑΝΝΑ"), ("key", key));
        Assert.Contains("problem=name", refused.Headers.Location!.OriginalString, StringComparison.Ordinal);
        var page = await phone.GetStringAsync(refused.Headers.Location, TestContext.Current.CancellationToken);
        Assert.Contains("Add something to it", page, StringComparison.Ordinal);
        using var taken = await ServerUnderTest.Fill(phone, "/join?key=" + key, "/account/join", ("crew", "Hanna of the heath"), ("key", key));
        Assert.Equal("/field/", taken.Headers.Location!.OriginalString);
    }

    private static Result<Phone> Join(AccountBook book, string crew, IEnumerable<PersonState>? people = null) =>
        book.Join(book.MakeLink(LinkPurpose.Phone, "C", TimeSpan.FromHours(1)), crew, _ => DateTimeOffset.MaxValue, people);
}
