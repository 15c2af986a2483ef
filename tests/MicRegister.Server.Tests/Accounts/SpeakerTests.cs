using System.Security.Claims;
using MicRegister.Server.Accounts;
using Microsoft.AspNetCore.Components.Authorization;
using Microsoft.AspNetCore.Http;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>Who speaks, as it stands in claims, and what is made of it.</summary>
public sealed class SpeakerTests
{
    [Fact]
    public void What_stands_in_claims_is_read_back_whole()
    {
        Speaker[] speakers =
        [
            Speaker.Here("Desk"), new(Speaker.Account, "a1", "Olive", Duties.Plan | Duties.Bench, null, 3, "s1"),
            new(Speaker.Token, "t1", "Olive", Duties.None), new(Speaker.Phone, "p1", "Crew west", Duties.Field, "HEATH", 0, "s2"),
        ];

        foreach (var speaker in speakers) Assert.Equal(speaker, Speaker.Of(speaker.Principal("test")));
    }

    [Fact]
    public void Whoever_is_not_signed_in_is_nobody_and_what_cannot_be_read_gives_nothing()
    {
        Claim[] garbled = [new("duties", "king"), new("era", "-1")];

        Assert.Null(Speaker.Of(null));
        Assert.Null(Speaker.Of(new ClaimsPrincipal()));
        Assert.Null(Speaker.Of(new ClaimsPrincipal(new ClaimsIdentity([new Claim("sub", "a1"), new Claim("kind", Speaker.Account)]))));
        Assert.Equal(
            new Speaker(Speaker.Account, "", "", Duties.None),
            Speaker.Of(new ClaimsPrincipal(new ClaimsIdentity(garbled, "test", "name", "duties"))));
    }

    [Fact]
    public void Each_session_has_an_id_of_its_own()
    {
        var speaker = new Speaker(Speaker.Account, "a1", "Olive", Duties.Look, null, 2);
        Speaker one = speaker.Begin(), other = speaker.Begin();

        Assert.Matches("^[0-9a-f]{24}$", one.Session);
        Assert.NotEqual(one.Session, other.Session);
        Assert.Equal(speaker, one with { Session = null });
    }

    [Fact]
    public void Clients_and_doors_name_who_speaks_where_there_is_a_sign_in()
    {
        var phone = new Speaker(Speaker.Phone, "7", "Crew west", Duties.Field, "HEATH");

        Assert.Equal(("phone-7", "field by phone 7"), (phone.Client, phone.Door("field")));
        Assert.Equal("desk", Speaker.Here("Olive").Door("desk"));
        Assert.Equal(new Speaker(Speaker.Open, "", "Olive", Duties.Own), Speaker.Here("Olive"));
    }

    [Theory]
    [InlineData(0, "Desk")]
    [InlineData(1, null)]
    [InlineData(80, null)]
    [InlineData(81, "Desk")]
    public void Without_a_sign_in_a_request_says_who_speaks_in_one_to_eighty_characters(int length, string? instead)
    {
        var (request, name) = (new DefaultHttpContext().Request, new string('n', length));
        request.Headers[Speaker.PersonHeader] = name;

        Assert.Equal(instead ?? name, Speaker.Named(request));
    }

    [Fact]
    public void A_page_knows_its_speaker_once_the_sign_in_was_looked_up()
    {
        var olive = new Speaker(Speaker.Account, "a1", "Olive", Duties.Look);
        Speaker? Now(Task<AuthenticationState> state) => new Speaking(new People(state)).Now;

        Assert.Equal(olive, Now(Task.FromResult(new AuthenticationState(olive.Principal("test")))));
        Assert.Null(Now(Task.FromResult(new AuthenticationState(new ClaimsPrincipal()))));
        Assert.Null(Now(new TaskCompletionSource<AuthenticationState>().Task));
        Assert.Null(Now(Task.FromException<AuthenticationState>(new InvalidOperationException("It failed."))));
        Assert.Equal(Speaker.Here("Desk"), new Speaking(null).Now);
    }

    private sealed class People(Task<AuthenticationState> state) : AuthenticationStateProvider
    {
        public override Task<AuthenticationState> GetAuthenticationStateAsync() => state;
    }
}
