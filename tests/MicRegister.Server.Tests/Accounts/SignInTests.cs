using System.Net;
using System.Net.Http.Json;
using System.Text;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settings;
using MicRegister.Server.Accounts;

namespace MicRegister.Server.Tests.Accounts;

public sealed class SignInTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_person_signs_in_sees_pages_changes_the_password_and_signs_out_everywhere()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        var account = server.Book!.Named("plan")!;
        Assert.Null(server.Book.SetPassword(account.Id, ServerUnderTest.Password));
        using HttpClient browser = server.Browser(), other = server.Browser();

        using var wrong = await ServerUnderTest.Fill(browser, "/sign-in?back=/fleet", "/account/enter", ("name", "plan"), ("password", "not that one"));
        Assert.StartsWith("/sign-in?problem=wrong", wrong.Headers.Location!.OriginalString, StringComparison.Ordinal);
        using var entered = await ServerUnderTest.Fill(browser, "/sign-in?back=/fleet", "/account/enter", ("name", "plan"), ("password", ServerUnderTest.Password));
        Assert.Equal("/fleet", entered.Headers.Location!.OriginalString);
        var cookie = Assert.Single(entered.Headers.GetValues("Set-Cookie"), c => c.StartsWith("register=", StringComparison.Ordinal));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=lax", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("Fleet", await browser.GetStringAsync("/fleet", Cancel), StringComparison.Ordinal);
        Assert.Equal("plan", (string)System.Text.Json.Nodes.JsonNode.Parse(await browser.GetStringAsync("/api/me", Cancel))!["person"]!);
        using var people = await browser.GetAsync("/people", Cancel);
        Assert.Equal("/not-allowed", people.Headers.Location!.OriginalString);

        // Another session of the same account ends when the password is changed; this one goes on.
        await ServerUnderTest.Fill(other, "/sign-in", "/account/enter", ("name", "plan"), ("password", ServerUnderTest.Password));
        using var changed = await ServerUnderTest.Fill(browser, "/me", "/account/password", ("old", ServerUnderTest.Password), ("password", "eight loud lapwings"));
        Assert.Equal("/me?problem=changed", changed.Headers.Location!.OriginalString);
        Assert.Equal(HttpStatusCode.OK, (await browser.GetAsync("/fleet", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.Unauthorized, (await other.GetAsync("/api/me", Cancel)).StatusCode);

        // A copy of a cookie is worth nothing once its session was left.
        using HttpClient third = server.Browser();
        using var again = await ServerUnderTest.Fill(third, "/sign-in", "/account/enter", ("name", "plan"), ("password", "eight loud lapwings"));
        var copy = again.Headers.GetValues("Set-Cookie").First(c => c.StartsWith("register=", StringComparison.Ordinal)).Split(';')[0];
        await ServerUnderTest.Fill(third, "/me", "/account/leave");
        using var copied = new HttpRequestMessage(HttpMethod.Get, "/api/me");
        copied.Headers.TryAddWithoutValidation("Cookie", copy);
        Assert.Equal(HttpStatusCode.Unauthorized, (await server.Client.SendAsync(copied, Cancel)).StatusCode);

        await ServerUnderTest.Fill(browser, "/me", "/account/leave-everywhere");
        Assert.Equal(HttpStatusCode.Unauthorized, (await browser.GetAsync("/api/me", Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_form_without_the_pages_own_token_is_refused_and_so_is_another_site()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        server.Book!.SetPassword(server.Book.Named("plan")!.Id, ServerUnderTest.Password);

        using var bare = await server.Client.PostAsync("/account/enter", new FormUrlEncodedContent([new("name", "plan"), new("password", ServerUnderTest.Password)]), Cancel);
        using var foreign = new HttpRequestMessage(HttpMethod.Post, "/api/devices") { Content = JsonContent.Create(new { }) };
        foreign.Headers.Authorization = new("Bearer", server.Tokens[Duties.Plan]);
        foreign.Headers.TryAddWithoutValidation("Origin", "https://elsewhere.example");
        using var refused = await server.Client.SendAsync(foreign, Cancel);

        Assert.Equal(HttpStatusCode.BadRequest, bare.StatusCode);
        Assert.Equal(HttpStatusCode.Forbidden, refused.StatusCode);
    }

    [Theory]
    [InlineData("//elsewhere.example")]
    [InlineData("/\\elsewhere.example")]
    [InlineData("https://elsewhere.example/")]
    public async Task Signing_in_never_leads_to_another_site(string back)
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        server.Book!.SetPassword(server.Book.Named("look")!.Id, ServerUnderTest.Password);
        using var browser = server.Browser();

        using var entered = await ServerUnderTest.Fill(browser, "/sign-in", "/account/enter", ("name", "look"), ("password", ServerUnderTest.Password), ("back", back));

        Assert.Equal("/", entered.Headers.Location!.OriginalString);
    }

    [Fact]
    public async Task The_first_owner_comes_by_a_link_that_is_good_once()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        var key = server.Book!.MakeLink(LinkPurpose.FirstOwner, null, TimeSpan.FromHours(1));
        using var browser = server.Browser();
        // An owner who cannot sign in is none.
        using var first = await ServerUnderTest.Fill(browser, "/first-owner?key=" + key, "/account/first-owner", ("name", " Olive "), ("password", ServerUnderTest.Password));
        Assert.Equal("/", first.Headers.Location!.OriginalString);
        Assert.Equal(Duties.Own, server.Book.Verify("Olive", ServerUnderTest.Password)!.Duties);
        key = server.Book.MakeLink(LinkPurpose.FirstOwner, null, TimeSpan.FromHours(1));
        // There is an owner already: the link is good for nothing.
        using var late = await ServerUnderTest.Fill(browser, "/first-owner?key=" + key, "/account/first-owner", ("name", "Second"), ("password", ServerUnderTest.Password));
        Assert.Contains("problem=link", late.Headers.Location!.OriginalString, StringComparison.Ordinal);

        using var folder = new TemporaryFolder();
        using var book = AccountBook.Open(new MicRegister.Storage.LiteDb.DiskFiles(folder.Path), TimeProvider.System);
        var secret = book.MakeLink(LinkPurpose.FirstOwner, null, TimeSpan.FromHours(1));
        Assert.NotNull(book.Peek(secret, LinkPurpose.FirstOwner));
        Assert.Null(book.Peek(secret, LinkPurpose.Password));
        Assert.NotNull(book.Use(secret, LinkPurpose.FirstOwner));
        Assert.Null(book.Use(secret, LinkPurpose.FirstOwner));
    }

    [Fact]
    public async Task A_password_link_sets_a_password_once()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        var account = server.Book!.Named("bench")!;
        var page = "/password-link?key=" + server.Book.MakeLink(LinkPurpose.Password, account.Id, TimeSpan.FromDays(1));
        using var browser = server.Browser();

        using var weak = await ServerUnderTest.Fill(browser, page, "/account/password-link", ("password", "bench bench bench"));
        Assert.Contains("problem=weak", weak.Headers.Location!.OriginalString, StringComparison.Ordinal);
        using var done = await ServerUnderTest.Fill(browser, page, "/account/password-link", ("password", ServerUnderTest.Password));
        Assert.Equal("/", done.Headers.Location!.OriginalString);

        Assert.NotNull(server.Book.Verify("bench", ServerUnderTest.Password));
        Assert.Contains("used already", await browser.GetStringAsync(page, Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Tokens_lapse_are_revoked_and_hold_no_more_than_their_account()
    {
        var time = new HandTime(new(2026, 8, 3, 8, 0, 0, TimeSpan.Zero));
        await using var server = await ServerUnderTest.OpenWithPeople(time);
        async Task<int> Ask(string token, string path = "/api/me")
        {
            using var request = new HttpRequestMessage(HttpMethod.Get, path);
            request.Headers.Authorization = new("Bearer", token);
            return (int)(await server.Client.SendAsync(request, Cancel)).StatusCode;
        }
        var token = server.Tokens[Duties.Plan];
        Assert.Equal(200, await Ask(token));
        Assert.NotNull(server.Book!.Tokens.First(t => t.Duties == Duties.Plan).LastUsed);
        Assert.IsType<Result<string>.Rejected>(server.Book.MakeToken(server.Book.Named("look")!.Id, "more", Duties.Plan, TimeSpan.FromDays(1)));

        server.Book.SetDuties(server.Book.Named("plan")!.Id, Duties.Look);
        Assert.Equal(403, await Ask(token)); // a token for planning of one who may only look holds nothing
        server.Book.SetDuties(server.Book.Named("plan")!.Id, Duties.Plan);
        time.Now += TimeSpan.FromDays(31);
        Assert.Equal(401, await Ask(token));
        Assert.Equal(401, await Ask("mr_nonsense"));

        time.Now -= TimeSpan.FromDays(31);
        server.Book.RevokeToken(server.Book.Tokens.First(t => t.Duties == Duties.Plan).Id);
        Assert.Equal(401, await Ask(token));
        Assert.DoesNotContain(token, await File.ReadAllTextAsync(Path.Combine(server.Folder, AccountBook.FileName), Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_phone_joins_by_a_code_speaks_of_its_campaign_alone_and_ends_when_revoked()
    {
        await using var server = await ServerUnderTest.OpenWithPeople(withDemo: true);
        var key = server.Book!.MakeLink(LinkPurpose.Phone, "QUILLMERE-26", TimeSpan.FromMinutes(10));
        using HttpClient phone = server.Browser(), second = server.Browser();

        using var joined = await ServerUnderTest.Fill(phone, "/join?key=" + key, "/account/join", ("crew", "Crew north"));
        Assert.Equal("/field/", joined.Headers.Location!.OriginalString);
        using var again = await second.GetAsync("/join?key=" + key, Cancel);
        Assert.Contains("used already", await again.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);

        var planned = server.Live.Now.Campaign("QUILLMERE-26")!.Devices.First();
        var stranger = server.Live.Now.DeviceIds.First(id => !server.Live.Now.Campaign("QUILLMERE-26")!.Devices.Contains(id));
        var joinedPhone = Assert.Single(server.Book.Phones);
        var crew = MicRegister.Register.People.PersonState.IdOf("Crew north");
        Fact Note(string device, int counter, string? author = null, string? client = null, FactBody? body = null, params string[] also) => FactText.WriteDerived(
            new(Occurred.At(new(2026, 8, 3, 7, 0, 0, TimeSpan.Zero)), author ?? crew, client ?? "phone-" + joinedPhone.Id, counter), body ?? new MicRegister.Register.Devices.DeviceNoted("wet after rain"), [Subject.Device(device), .. also]);
        async Task<HttpResponseMessage> Send(HttpClient by, string path, params Fact[] facts)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = new StringContent(string.Join('\n', facts.Select(f => Encoding.UTF8.GetString(f.Bytes.Span)))) };
            request.Headers.TryAddWithoutValidation("Client-Clock", Occurred.At(TimeProvider.System.GetUtcNow().AddMinutes(-5)).ToString());
            return await by.SendAsync(request, Cancel);
        }
        async Task<string> Result(Fact fact)
        {
            using var answer = await Send(phone, "/api/field/facts", fact);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            var results = System.Text.Json.Nodes.JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["results"]!;
            return (string)results[0]!["result"]!;
        }
        var sent = TimeProvider.System.GetTimestamp();
        Assert.Equal("stored", await Result(Note(planned, 1)));
        var tookMs = (long)TimeProvider.System.GetElapsedTime(sent).TotalMilliseconds;
        Assert.Equal("refused", await Result(Note(stranger, 2)));
        // It has one door; that of programs and desks is not its own.
        Assert.Equal(HttpStatusCode.Forbidden, (await Send(phone, "/api/facts", Note(planned, 1))).StatusCode);
        // Nobody else's name, none of the server's own clients, and no subject of its campaign lets a stranger in.
        foreach (var forged in new[]
        {
            Note(planned, 9, author: MicRegister.Register.People.PersonState.IdOf("own")), Note(planned, 9, client: "desk"),
            Note(stranger, 9, body: new MicRegister.Register.Devices.DeviceStatusChanged(MicRegister.Register.Devices.DeviceStatus.Lost, null), also: "campaign:QUILLMERE-26"),
            FactText.WriteDerived(new(Occurred.At(new(2026, 8, 3, 7, 0, 0, TimeSpan.Zero)), crew, "phone-1", 9), new FactAnnulled(server.Live.Log.Read(server.Live.Now.Facts(Subject.Device(stranger))[0]).Id.ToString(), "x"), ["campaign:QUILLMERE-26"]),
            FactText.WriteDerived(new(Occurred.At(new(2026, 8, 3, 7, 0, 0, TimeSpan.Zero)), crew, "phone-1", 9), new ClientClockNoticed("desk", 0, 1_000_000), [Subject.TheRegister]),
            FactText.WriteDerived(new(Occurred.At(new(2026, 8, 3, 7, 0, 0, TimeSpan.Zero)), crew, "phone-1", 9), new MicRegister.Register.People.PersonNamed("King"), ["person:" + MicRegister.Register.People.PersonState.IdOf("own")]),
        })
        {
            Assert.Equal("refused", await Result(forged));
        }
        // Its clock is five minutes behind: noticed once, as a fact of its own.
        Assert.InRange(Assert.Single(server.Live.Now.State.Clocks).OffsetMs, 299_000, 301_000 + tookMs);
        Assert.Contains($"by phone {joinedPhone.Id}", server.Live.Log.ReadFrom(server.Live.Now.Count - 1).First().Door, StringComparison.Ordinal);

        server.Book.RevokePhone(joinedPhone.Id);
        Assert.Equal(HttpStatusCode.Unauthorized, (await Send(phone, "/api/field/facts", Note(planned, 3))).StatusCode);
        // Nothing is lost: an owner hands over what it still holds, and the door says so.
        using var owner = new HttpRequestMessage(HttpMethod.Post, "/api/facts/handed-over?from=Crew%20north") { Content = new StringContent(Encoding.UTF8.GetString(Note(planned, 3).Bytes.Span)) };
        owner.Headers.Authorization = new("Bearer", server.Tokens[Duties.Own]);
        Assert.Equal(HttpStatusCode.OK, (await server.Client.SendAsync(owner, Cancel)).StatusCode);
        using var asked = new HttpRequestMessage(HttpMethod.Get, "/api/facts?door=handed%20over");
        asked.Headers.Authorization = new("Bearer", server.Tokens[Duties.Look]);
        var found = System.Text.Json.Nodes.JsonNode.Parse(await (await server.Client.SendAsync(asked, Cancel)).Content.ReadAsStringAsync(Cancel))!;
        Assert.Equal(1, (int)found["total"]!);
        Assert.StartsWith("handed over from Crew north by token", (string)found["items"]![0]!["receipt"]!["door"]!, StringComparison.Ordinal);
    }

    [Fact]
    public void The_demo_has_an_account_for_each_duty_and_prints_what_to_sign_in_with()
    {
        using var folder = new TemporaryFolder();
        using var book = AccountBook.Open(new MicRegister.Storage.LiteDb.DiskFiles(folder.Path), TimeProvider.System);

        var said = MicRegister.Server.Commands.DemoCommand.People(book);
        var again = MicRegister.Server.Commands.DemoCommand.People(book);

        Assert.Equal(said, again);
        var password = said[0].Split("password ")[1].TrimEnd(':');
        foreach (var duty in DutyWords.Single)
        {
            Assert.Contains(said, s => s.Contains("Demo " + DutyWords.Of(duty), StringComparison.Ordinal));
            Assert.Equal(duty, book.Verify("Demo " + DutyWords.Of(duty), password)!.Duties);
        }
    }

    [Fact]
    public async Task Attachments_are_known_by_their_bytes_and_always_downloads()
    {
        await using var server = await ServerUnderTest.Open();
        using var pdf = await server.Client.PostAsync("/api/attachments", new ByteArrayContent("%PDF-1.7 x"u8.ToArray()), Cancel);
        using var program = await server.Client.PostAsync("/api/attachments", new ByteArrayContent([0x7F, (byte)'E', (byte)'L', (byte)'F', 0, 0]), Cancel);

        Assert.Equal(HttpStatusCode.UnprocessableEntity, program.StatusCode);
        var sha = (string)System.Text.Json.Nodes.JsonNode.Parse(await pdf.Content.ReadAsStringAsync(Cancel))!["sha256"]!;
        using var sent = await server.Client.GetAsync("/api/attachments/" + sha, Cancel);
        Assert.Equal(("application/octet-stream", "attachment", sha[..12] + ".pdf"), (sent.Content.Headers.ContentType!.MediaType, sent.Content.Headers.ContentDisposition!.DispositionType, sent.Content.Headers.ContentDisposition.FileName!.Trim('"')));
        Assert.Equal("%PDF-1.7 x", await sent.Content.ReadAsStringAsync(Cancel));
    }

    [Fact]
    public async Task Every_answer_carries_the_headers_and_no_script_of_others()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();

        using var page = await server.Client.GetAsync("/sign-in", Cancel);

        var policy = page.Headers.GetValues("Content-Security-Policy").Single();
        Assert.Contains("script-src 'self' 'nonce-", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("unsafe-eval", policy, StringComparison.Ordinal);
        Assert.DoesNotContain("script-src 'self' 'unsafe-inline'", policy, StringComparison.Ordinal);
        foreach (var (header, value) in new[] { ("X-Content-Type-Options", "nosniff"), ("X-Frame-Options", "DENY"), ("Referrer-Policy", "same-origin"), ("Cache-Control", "no-store") })
            Assert.Contains(value, page.Headers.GetValues(header).Single(), StringComparison.Ordinal);
        Assert.False(page.Headers.Contains("Server"));
        // No page opens a circuit for whoever is not signed in.
        Assert.DoesNotContain("\"type\":\"server\"", await page.Content.ReadAsStringAsync(Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Whoever_knocks_too_often_is_told_to_wait()
    {
        await using var server = await ServerUnderTest.OpenWithPeople();
        var refused = 0;
        for (var i = 0; i < 2000 && refused == 0; i++)
        {
            using var answer = await server.Client.GetAsync("/api/me", Cancel);
            if (answer.StatusCode != HttpStatusCode.TooManyRequests) continue;
            refused++;
            Assert.Equal("application/problem+json", answer.Content.Headers.ContentType!.MediaType);
        }
        Assert.Equal(1, refused);
    }
}
