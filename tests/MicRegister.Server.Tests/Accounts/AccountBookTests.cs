using MicRegister.Register;
using MicRegister.Server.Accounts;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>Edges of accounts, links, tokens and phones, each on both sides, and the same again after the book is opened anew.</summary>
public sealed class AccountBookTests : IDisposable
{
    private static readonly DateTimeOffset Start = new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero);

    private readonly TemporaryFolder _folder = new();
    private readonly HandTime _time = new(Start);
    private readonly AccountBook _book;

    public AccountBookTests() => _book = AccountBook.Open(new DiskFiles(_folder.Path), _time);

    [Fact]
    public void Names_have_one_to_eighty_characters_and_are_told_apart_without_case_and_blanks()
    {
        Assert.True(IsMade("A"));
        Assert.True(IsMade(new('n', 80)));
        Assert.False(IsMade(new('m', 81)));
        Assert.False(IsMade(" "));
        Assert.False(IsMade("a\u0007b"));
        Assert.False(IsMade(" a "));
        Assert.False(IsMade("Nobody", Duties.None));
        Assert.True(IsMade("One", provider: "issuer one"));
        Assert.False(IsMade("Other", provider: "issuer one"));
        Assert.True(IsMade("Other", provider: "issuer two"));
        Assert.Equal("One", _book.OfProvider("issuer one")!.Name);
        Assert.Null(_book.OfProvider("issuer three"));
        Assert.Equal(["A", "One", "Other", new('n', 80)], _book.Accounts.Select(a => a.Name));
        bool IsMade(string name, Duties duties = Duties.Look, string? provider = null) =>
            _book.Make(name, duties, provider) is Result<Account>.Accepted;
    }

    [Theory]
    [InlineData(9, false)]
    [InlineData(10, true)]
    [InlineData(200, true)]
    [InlineData(201, false)]
    public void Passwords_have_ten_to_two_hundred_characters(int length, bool isGood)
    {
        var password = string.Concat(Enumerable.Range(0, length).Select(i => (char)('a' + (i % 7))));

        Assert.Equal(isGood, AccountBook.WeakPassword("Olive", password) is null);
    }

    [Theory]
    [InlineData("abcdabcdabcd", false)] // four different characters
    [InlineData("abcdeabcdeab", true)]
    [InlineData("xxOLIVExx123", false)] // the name, however it is written
    [InlineData("xxOLIVxx1234", true)]
    public void Passwords_have_nothing_to_do_with_the_name_and_five_different_characters(string password, bool isGood) =>
        Assert.Equal(isGood, AccountBook.WeakPassword("Olive", password) is null);

    [Fact]
    public void A_link_is_good_until_its_time_for_its_purpose_and_once()
    {
        var secret = _book.MakeLink(LinkPurpose.Password, "about", TimeSpan.FromMinutes(10));

        _time.Now = Start.AddMinutes(10).AddTicks(-1);
        Assert.Equal("about", _book.Peek(secret, LinkPurpose.Password)!.About);
        Assert.Null(_book.Peek(secret, LinkPurpose.Phone));
        Assert.Null(_book.Use(secret, LinkPurpose.FirstOwner));
        Assert.All(new[] { null, "", secret + "0", new string('0', 200) }, s => Assert.Null(_book.Peek(s, LinkPurpose.Password)));
        _time.Now = Start.AddMinutes(10);
        Assert.Null(_book.Peek(secret, LinkPurpose.Password));
        Assert.Null(_book.Use(secret, LinkPurpose.Password));
        _time.Now = Start;
        Assert.NotNull(_book.Use(secret, LinkPurpose.Password));
        Assert.Null(_book.Use(secret, LinkPurpose.Password));
    }

    [Fact]
    public void A_token_lasts_up_to_four_hundred_days_and_is_named()
    {
        var id = Made("plan", Duties.Plan | Duties.Look);
        bool IsMade(TimeSpan lifetime, string name = "script", Duties duties = Duties.Plan) =>
            _book.MakeToken(id, name, duties, lifetime) is Result<string>.Accepted;

        Assert.True(IsMade(TimeSpan.FromDays(400)));
        Assert.False(IsMade(TimeSpan.FromDays(400) + TimeSpan.FromTicks(1)));
        Assert.True(IsMade(TimeSpan.FromTicks(1)));
        Assert.False(IsMade(TimeSpan.Zero));
        Assert.True(IsMade(TimeSpan.FromDays(1), new('n', 80)));
        Assert.False(IsMade(TimeSpan.FromDays(1), new('n', 81)));
        Assert.False(IsMade(TimeSpan.FromDays(1), " "));
        Assert.True(IsMade(TimeSpan.FromDays(1), duties: Duties.Look));
        Assert.False(IsMade(TimeSpan.FromDays(1), duties: Duties.None));
        Assert.False(IsMade(TimeSpan.FromDays(1), duties: Duties.Plan | Duties.Bench)); // more than its account holds
        Assert.IsType<Result<string>.Rejected>(_book.MakeToken("nobody", "script", Duties.Look, TimeSpan.FromDays(1)));
    }

    [Fact]
    public void A_token_ends_at_its_time_when_revoked_and_with_its_account()
    {
        var id = Made("plan", Duties.Plan);
        string Token() => ((Result<string>.Accepted)_book.MakeToken(id, "script", Duties.Plan, TimeSpan.FromDays(1))).Value;
        var token = Token();

        _time.Now = Start.AddDays(1).AddTicks(-1);
        Assert.True(IsGood(token));
        _time.Now = Start.AddDays(1);
        Assert.False(IsGood(token));
        Assert.False(_book.IsGood(Assert.Single(_book.Tokens)));
        Assert.Equal(Duties.None, Held(_book.Tokens[0]));
        var next = Token();
        Assert.Equal(Duties.Plan, Held(_book.Tokens[1]));
        Assert.Null(_book.Close(id, true));
        Assert.False(IsGood(next));
        Assert.Equal(Duties.None, Held(_book.Tokens[1]));
        Assert.Null(_book.Close(id, false));
        Assert.True(IsGood(next));
        Assert.Null(_book.RevokeToken(_book.Tokens[1].Id));
        Assert.False(IsGood(next));
        Assert.NotNull(_book.RevokeToken("none"));
        bool IsGood(string secret) => _book.FindToken(secret) is not null;
        Duties Held(ScriptToken t) => new Access(_book).Now(new Speaker(Speaker.Token, t.Id, "plan", Duties.Plan));
    }

    [Fact]
    public void A_token_holds_no_more_than_its_account_does_now()
    {
        var id = Made("several", Duties.Plan | Duties.Bench);
        Assert.IsType<Result<string>.Accepted>(_book.MakeToken(id, "script", Duties.Plan | Duties.Bench, TimeSpan.FromDays(1)));
        Duties Held() => new Access(_book).Now(new Speaker(Speaker.Token, _book.Tokens[0].Id, "several", Duties.Own));

        Assert.Equal(Duties.Plan | Duties.Bench, Held());
        Assert.Null(_book.SetDuty(id, Duties.Plan, false));
        Assert.Equal(Duties.Bench, Held());
        Assert.Null(_book.SetDuties(id, Duties.Own)); // an owner may do all that a token says
        Assert.Equal(Duties.Plan | Duties.Bench, Held());
    }

    [Fact]
    public void An_accounts_sessions_end_by_era_by_being_left_and_when_it_is_closed()
    {
        var id = Made("field", Duties.Field);
        Speaker At(int era, string? session = null) => new(Speaker.Account, id, "field", Duties.Own, null, era, session);
        var access = new Access(_book);

        Assert.Equal(Duties.Field, access.Now(At(0, "s1")));
        _book.Leave("s1");
        Assert.Equal((Duties.None, Duties.Field), (access.Now(At(0, "s1")), access.Now(At(0, "s2"))));
        Assert.Null(_book.EndSessions(id));
        Assert.Equal((Duties.None, Duties.Field), (access.Now(At(0)), access.Now(At(1))));
        Assert.Null(_book.Close(id, true));
        Assert.Equal((Duties.None, 2), (access.Now(At(2)), _book.Find(id)!.Era));
        Assert.Null(_book.Close(id, false));
        Assert.Equal((Duties.Field, 2), (access.Now(At(2)), _book.Find(id)!.Era)); // opening ends nothing more
        Assert.NotNull(_book.EndSessions("nobody"));
        Assert.NotNull(_book.Close("nobody", true));
        Assert.NotNull(_book.SetDuties("nobody", Duties.Look));
        Assert.NotNull(_book.SetPassword("nobody", ServerUnderTest.Password));
        Assert.Equal(Duties.Own, Access.OpenHere.Now(Speaker.Here("me")));
        Assert.Equal(Duties.None, access.Now(Speaker.Here("me"))); // nobody is let in without a sign-in
        _book.Leave("");
        _book.Leave(new('s', 61));
        Assert.Equal((false, false), (_book.WasLeft(""), _book.WasLeft(new('s', 61))));
        _book.Leave(new('s', 60));
        Assert.True(_book.WasLeft(new('s', 60)));
    }

    [Fact]
    public void The_last_owner_who_can_sign_in_stays_one()
    {
        string first = Made("Olive", Duties.Own), second = Made("Second", Duties.Own);
        Assert.False(_book.HasOwner); // nobody can sign in yet
        Assert.Null(_book.SetPassword(first, ServerUnderTest.Password));
        Assert.True(_book.HasOwner);

        Assert.NotNull(_book.SetDuties(first, Duties.Plan));
        Assert.NotNull(_book.SetDuty(first, Duties.Own, false));
        Assert.NotNull(_book.Close(first, true));
        Assert.Null(_book.SetDuty(first, Duties.Plan, true)); // may hold more
        Assert.Null(_book.SetDuties(second, Duties.Plan)); // could not help anyway
        Assert.Null(_book.SetDuties(second, Duties.Own));
        _book.Bind(second, "issuer second");
        Assert.Null(_book.Close(first, true));
        Assert.NotNull(_book.Close(second, true));
        Assert.NotNull(_book.SetDuties(second, Duties.None));
        Assert.Equal("issuer second", _book.Find(second)!.Provider);
        _book.Bind("nobody", "issuer");
        Assert.Null(_book.OfProvider("issuer"));
    }

    [Fact]
    public void A_password_ends_sessions_and_other_links_and_opens_no_closed_account()
    {
        string id = Made("bench", Duties.Bench), other = Made("other", Duties.Bench);
        var link = _book.MakeLink(LinkPurpose.Password, id, TimeSpan.FromDays(1));
        var others = _book.MakeLink(LinkPurpose.Password, other, TimeSpan.FromDays(1));
        var phone = _book.MakeLink(LinkPurpose.Phone, id, TimeSpan.FromDays(1));
        Assert.Null(_book.Verify("bench", ServerUnderTest.Password));

        Assert.Null(_book.SetPassword(id, ServerUnderTest.Password));

        Assert.Equal(1, _book.Find(id)!.Era);
        Assert.Null(_book.Peek(link, LinkPurpose.Password));
        Assert.NotNull(_book.Peek(others, LinkPurpose.Password));
        Assert.NotNull(_book.Peek(phone, LinkPurpose.Phone));
        Assert.Equal(id, _book.Verify(" BENCH", ServerUnderTest.Password)!.Id);
        Assert.Null(_book.Verify("bench", ServerUnderTest.Password + "x"));
        Assert.Null(_book.Verify("other", ServerUnderTest.Password));
        Assert.Null(_book.Close(id, true));
        Assert.Null(_book.Verify("bench", ServerUnderTest.Password));
    }

    [Fact]
    public void A_crews_name_is_its_own_while_its_phone_is_good()
    {
        Made("Olive", Duties.Look);
        var until = Start.AddDays(1);
        bool Joins(string crew) =>
            _book.Join(_book.MakeLink(LinkPurpose.Phone, "C", TimeSpan.FromDays(9)), crew, _ => until) is Result<Phone>.Accepted;

        Assert.False(Joins(" olive"));
        Assert.False(Joins(" "));
        Assert.False(Joins(new('c', 81)));
        Assert.False(Joins("a\u0007b"));
        Assert.True(Joins(new('c', 80)));
        Assert.True(Joins(" Crew "));
        Assert.False(Joins("CREW"));
        Assert.Equal("Crew", _book.Phones[^1].Crew);
        Assert.True(_book.IsGood(_book.Phones[^1]));
        _time.Now = until.AddTicks(-1);
        Assert.False(Joins("Crew"));
        _time.Now = until;
        Assert.False(_book.IsGood(_book.Phones[^1]));
        until = Start.AddDays(3);
        Assert.True(Joins("Crew"));
        Assert.Null(_book.RevokePhone(_book.Phones[^1].Id));
        Assert.False(_book.IsGood(_book.Phones[^1]));
        Assert.True(Joins("Crew"));
        Assert.NotNull(_book.RevokePhone("none"));
        Assert.IsType<Result<Phone>.Rejected>(_book.Join("nonsense", "Another", _ => until));
    }

    [Fact]
    public void Use_is_noted_once_an_hour_and_survives_a_new_start()
    {
        _ = _book.Join(_book.MakeLink(LinkPurpose.Phone, "C", TimeSpan.FromDays(9)), "Crew", _ => Start.AddDays(9));
        var id = _book.Phones[0].Id;
        DateTimeOffset? Seen(TimeSpan after)
        {
            _time.Now = Start + after;
            _book.Note(id);
            return _book.Phones[0].LastSeen;
        }

        Assert.Equal(Start, Seen(TimeSpan.Zero));
        Assert.Equal(Start, Seen(TimeSpan.FromHours(1) - TimeSpan.FromTicks(1)));
        Assert.Equal(Start.AddHours(1), Seen(TimeSpan.FromHours(1)));
        _book.Note("none");
        _book.Dispose();
        using var again = AccountBook.Open(new DiskFiles(_folder.Path), _time);
        var phone = Assert.Single(again.Phones);
        Assert.Equal(("Crew", Start.AddDays(9), (DateTimeOffset?)Start.AddHours(1)), (phone.Crew, phone.Until, phone.LastSeen));
    }

    [Fact]
    public void Outer_blanks_belong_to_no_name()
    {
        Assert.Equal("Anna", _book.Find(Made(" Anna ", Duties.Look))!.Name);
        var long80 = new string('n', 80);
        var id = Made($" {long80} ", Duties.Look);
        Assert.Equal(long80, _book.Find(id)!.Name);

        Assert.IsType<Result<string>.Accepted>(_book.MakeToken(id, " script ", Duties.Look, TimeSpan.FromDays(1)));

        Assert.Equal("script", Assert.Single(_book.Tokens).Name);
    }

    [Fact]
    public void An_account_holds_at_least_one_duty_and_is_given_or_loses_one_at_a_time()
    {
        var id = Made("field", Duties.Field | Duties.Look);
        Duties Held() => _book.Find(id)!.Duties;

        Assert.Equal(RejectionSort.Invalid, _book.SetDuties(id, Duties.None)!.Sort);
        Assert.Null(_book.SetDuty(id, Duties.Field, false));
        Assert.Equal(Duties.Look, Held());
        Assert.Equal(RejectionSort.Invalid, _book.SetDuty(id, Duties.Look, false)!.Sort);
        Assert.Equal(Duties.Look, Held());
        Assert.Null(_book.SetDuty(id, Duties.Bench, true));
        Assert.Equal(Duties.Look | Duties.Bench, Held());
        Assert.Null(_book.SetDuties(id, Duties.Plan));
        Assert.Equal(Duties.Plan, Held());
    }

    [Fact]
    public void Whoever_does_not_hold_own_is_no_owner_and_of_two_either_may_go_but_not_both()
    {
        var plan = Made("plan", Duties.Plan);
        _book.Bind(plan, "issuer plan");
        Assert.False(_book.HasOwner);
        string first = Made("first", Duties.Own | Duties.Look), second = Made("second", Duties.Own);
        _book.Bind(first, "issuer first");
        _book.Bind(second, "issuer second");
        Assert.True(_book.HasOwner);

        Assert.Null(_book.SetDuties(second, Duties.Plan));
        Assert.Equal(RejectionSort.Conflict, _book.SetDuty(first, Duties.Own, false)!.Sort);
        Assert.Equal(RejectionSort.Conflict, _book.SetDuties(first, Duties.Look)!.Sort);
        Assert.Equal(RejectionSort.Conflict, _book.Close(first, true)!.Sort);
        Assert.Equal((Duties.Own | Duties.Look, false), (_book.Find(first)!.Duties, _book.Find(first)!.IsClosed));
        Assert.Null(_book.Close(first, false)); // open it is anyway
        Assert.Null(_book.SetDuties(second, Duties.Own));
        Assert.Null(_book.SetDuty(first, Duties.Own, false));
        Assert.Equal(Duties.Look, _book.Find(first)!.Duties);
        Assert.Equal(RejectionSort.Conflict, _book.Close(second, true)!.Sort);
    }

    [Fact]
    public void A_token_holds_a_duty_of_its_account_and_that_of_an_owner_any()
    {
        foreach (var held in DutyWords.Single)
        {
            var id = Made(DutyWords.Of(held), held);
            foreach (var asked in DutyWords.Single)
            {
                var isMade = _book.MakeToken(id, "script", asked, TimeSpan.FromDays(1)) is Result<string>.Accepted;
                Assert.True(isMade == (held == asked || held == Duties.Own), $"{asked} for one who holds {held}: {isMade}");
            }
        }
    }

    [Fact]
    public void The_secret_of_a_calendar_holds_no_duty_and_lasts_four_hundred_days()
    {
        var id = Made("look", Duties.Look);
        var secret = Assert.IsType<Result<string>.Accepted>(_book.MakeCalendarSecret(id)).Value;

        var token = Assert.Single(_book.Tokens);
        Assert.Equal(
            (AccountBook.CalendarName, Duties.None, Start, Start.AddDays(400)), (token.Name, token.Duties, token.Made, token.Until));
        Assert.Equal(Duties.None, new Access(_book).Now(new Speaker(Speaker.Token, token.Id, "look", Duties.Look)));
        _time.Now = Start.AddDays(400).AddTicks(-1);
        Assert.Equal(id, _book.FindToken(secret)!.Value.Account.Id);
        _time.Now = Start.AddDays(400);
        Assert.Null(_book.FindToken(secret));
        Assert.IsType<Result<string>.Rejected>(_book.MakeCalendarSecret("nobody"));
    }

    [Fact]
    public void Use_of_a_token_is_noted_once_an_hour_and_a_revoked_one_is_not_good()
    {
        var id = Made("look", Duties.Look);
        Assert.IsType<Result<string>.Accepted>(_book.MakeToken(id, "script", Duties.Look, TimeSpan.FromDays(1)));
        ScriptToken Token() => Assert.Single(_book.Tokens);
        DateTimeOffset? Used(TimeSpan after)
        {
            _time.Now = Start + after;
            _book.Note(Token().Id);
            return Token().LastUsed;
        }

        Assert.Null(Token().LastUsed);
        Assert.Equal(Start, Used(TimeSpan.Zero));
        Assert.Equal(Start, Used(TimeSpan.FromHours(1) - TimeSpan.FromTicks(1)));
        Assert.Equal(Start.AddHours(1), Used(TimeSpan.FromHours(1)));
        Assert.True(_book.IsGood(Token()));
        Assert.Null(_book.RevokeToken(Token().Id));
        Assert.False(_book.IsGood(Token()));
    }

    [Fact]
    public void Tokens_and_phones_stand_in_the_order_in_which_they_were_made_also_where_the_clock_was_set_back()
    {
        var id = Made("look", Duties.Look);
        foreach (var (days, name) in new[] { (2, "later"), (0, "earlier"), (1, "between") })
        {
            _time.Now = Start.AddDays(days);
            Assert.IsType<Result<string>.Accepted>(_book.MakeToken(id, name, Duties.Look, TimeSpan.FromDays(9)));
            var key = _book.MakeLink(LinkPurpose.Phone, "C", TimeSpan.FromDays(1));
            Assert.IsType<Result<Phone>.Accepted>(_book.Join(key, name, _ => Start.AddDays(9)));
        }

        Assert.Equal(["earlier", "between", "later"], _book.Tokens.Select(t => t.Name));
        Assert.Equal(["earlier", "between", "later"], _book.Phones.Select(p => p.Crew));
    }

    [Fact]
    public void A_phone_joins_the_campaign_of_its_link_and_speaks_until_it_is_over_revoked_or_left()
    {
        var key = _book.MakeLink(LinkPurpose.Phone, "HEATH", TimeSpan.FromMinutes(10));
        bool Joins(string? secret) => _book.Join(secret, "Crew", c => c == "HEATH" ? Start.AddDays(3) : Start) is Result<Phone>.Accepted;
        Assert.False(Joins(null));
        Assert.False(Joins(_book.MakeLink(LinkPurpose.Phone, null, TimeSpan.FromMinutes(10)))); // of no campaign
        Assert.False(Joins(_book.MakeLink(LinkPurpose.Password, "HEATH", TimeSpan.FromMinutes(10))));
        Assert.Empty(_book.Phones);

        Assert.True(Joins(key));

        var phone = Assert.Single(_book.Phones);
        Assert.Equal(("HEATH", Start, Start.AddDays(3), false), (phone.Campaign, phone.Joined, phone.Until, phone.IsRevoked));
        Assert.Null(phone.LastSeen);
        Duties Held(string id, string? session = null) =>
            new Access(_book).Now(new Speaker(Speaker.Phone, id, "Crew", Duties.Own, "HEATH", 0, session));
        Assert.Equal((Duties.Field, Duties.None), (Held(phone.Id, "s1"), Held("none")));
        _book.Leave("s1");
        Assert.Equal((Duties.None, Duties.Field), (Held(phone.Id, "s1"), Held(phone.Id, "s2")));
        _time.Now = Start.AddDays(3).AddTicks(-1);
        Assert.Equal(Duties.Field, Held(phone.Id));
        _time.Now = Start.AddDays(3);
        Assert.Equal(Duties.None, Held(phone.Id));
        _time.Now = Start;
        Assert.Null(_book.RevokePhone(phone.Id));
        Assert.Equal(Duties.None, Held(phone.Id));
    }

    [Fact]
    public void Who_is_of_no_known_sort_may_nothing_and_where_there_is_no_sign_in_all_is_open()
    {
        var id = Made("Olive", Duties.Own);
        var access = new Access(_book);

        Assert.Equal(Duties.Own, access.Now(new Speaker(Speaker.Account, id, "Olive", Duties.Own)));
        Assert.Equal(Duties.None, access.Now(new Speaker("king", id, "Olive", Duties.Own)));
        Assert.Equal(Duties.None, access.Now(new Speaker(Speaker.Account, "nobody", "Olive", Duties.Own)));
        Assert.Equal(Duties.None, access.Now(new Speaker(Speaker.Token, "none", "Olive", Duties.Own)));
        Assert.Equal((false, true), (access.IsOpen, Access.OpenHere.IsOpen));
        Assert.Equal(Duties.Look, Access.OpenHere.Now(new Speaker("king", "", "me", Duties.Look)));
    }

    public void Dispose()
    {
        _book.Dispose();
        _folder.Dispose();
    }

    private string Made(string name, Duties duties) => ((Result<Account>.Accepted)_book.Make(name, duties)).Value.Id;
}
