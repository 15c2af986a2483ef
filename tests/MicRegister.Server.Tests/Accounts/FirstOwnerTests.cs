using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>How the first owner is made, and what a password needs.</summary>
public sealed class FirstOwnerTests : IDisposable
{
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);

    private readonly TemporaryFolder _folder = new();
    private readonly HandTime _time = new(new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero));
    private readonly AccountBook _book;

    public FirstOwnerTests() => _book = AccountBook.Open(new DiskFiles(_folder.Path), _time);

    [Fact]
    public void The_first_owner_uses_the_link_up_and_whatever_is_wrong_leaves_it_good()
    {
        var link = _book.MakeLink(LinkPurpose.FirstOwner, null, Hour);

        Assert.Equal(RejectionSort.Invalid, Refused(link, "Olive", "with olive in it"));
        Assert.Equal(RejectionSort.Invalid, Refused(link, "Olive", "too short"));
        Assert.Equal(RejectionSort.Invalid, Refused(link, new('n', 81), ServerUnderTest.Password));
        Assert.Equal(RejectionSort.Conflict, Refused("nonsense", "Olive", ServerUnderTest.Password));
        Assert.Equal(RejectionSort.Conflict, Refused(null, "Olive", ServerUnderTest.Password));
        var other = _book.MakeLink(LinkPurpose.Password, null, Hour);
        Assert.Equal(RejectionSort.Conflict, Refused(other, "Olive", ServerUnderTest.Password));
        Assert.Empty(_book.Accounts);

        var owner = Assert.IsType<Result<Account>.Accepted>(_book.BecomeFirstOwner(link, " Olive ", ServerUnderTest.Password)).Value;

        Assert.Equal(("Olive", Duties.Own, 0, false), (owner.Name, owner.Duties, owner.Era, owner.IsClosed));
        Assert.Equal(owner, _book.Verify("Olive", ServerUnderTest.Password));
        Assert.Null(_book.Verify("Olive", "eight loud lapwings"));
        Assert.Null(_book.Verify("Nobody", ServerUnderTest.Password));
        Assert.Null(_book.Peek(link, LinkPurpose.FirstOwner));
        var late = _book.MakeLink(LinkPurpose.FirstOwner, null, Hour);
        Assert.Equal(RejectionSort.Conflict, Refused(late, "Second", ServerUnderTest.Password));
        Assert.Equal("Olive", Assert.Single(_book.Accounts).Name);
    }

    [Fact]
    public void The_link_of_the_first_owner_is_good_until_exactly_its_end()
    {
        var link = _book.MakeLink(LinkPurpose.FirstOwner, null, Hour);
        var begin = _time.Now;

        _time.Now = begin + Hour;
        Assert.Equal(RejectionSort.Conflict, Refused(link, "Olive", ServerUnderTest.Password));
        _time.Now = begin + Hour - TimeSpan.FromTicks(1);
        Assert.IsType<Result<Account>.Accepted>(_book.BecomeFirstOwner(link, "Olive", ServerUnderTest.Password));
    }

    // What a crash between the account and its password leaves: a name that is taken, and a link that is good.
    [Fact]
    public void A_first_owner_without_a_password_is_none_and_another_name_gets_in()
    {
        Assert.IsType<Result<Account>.Accepted>(_book.Make("Olive", Duties.Own));
        var link = _book.MakeLink(LinkPurpose.FirstOwner, null, Hour);

        Assert.Equal(RejectionSort.Conflict, Refused(link, "Olive", ServerUnderTest.Password));
        Assert.False(_book.HasOwner);
        Assert.IsType<Result<Account>.Accepted>(_book.BecomeFirstOwner(link, "Second", ServerUnderTest.Password));
        Assert.True(_book.HasOwner);
    }

    [Theory]
    [InlineData("ninechars", false)]
    [InlineData("ten chars!", true)]
    [InlineData("bench bench bench", false)]
    public void A_weak_password_is_not_set_and_ends_nothing(string password, bool isSet)
    {
        var id = Assert.IsType<Result<Account>.Accepted>(_book.Make("bench", Duties.Bench)).Value.Id;
        var link = _book.MakeLink(LinkPurpose.Password, id, Hour);

        var why = _book.SetPassword(id, password);

        RejectionSort? refused = isSet ? null : RejectionSort.Invalid;
        Assert.Equal(refused, why?.Sort);
        var account = _book.Find(id)!;
        Assert.Equal((isSet, isSet ? 1 : 0), (account.PasswordHash is not null, account.Era));
        Assert.Equal(!isSet, _book.Peek(link, LinkPurpose.Password) is not null);
        Assert.Equal(isSet, _book.Verify("bench", password) is not null);
    }

    public void Dispose()
    {
        _book.Dispose();
        _folder.Dispose();
    }

    private RejectionSort Refused(string? link, string name, string password) =>
        Assert.IsType<Result<Account>.Rejected>(_book.BecomeFirstOwner(link, name, password)).Why.Sort;
}
