using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Register.People;
using MicRegister.Register.Settings;
using MicRegister.Server.Accounts;
using MicRegister.Server.Work;

namespace MicRegister.Server.Tests.Accounts;

/// <summary>What a phone may speak of, whose clock it can move, and how long it speaks.</summary>
public sealed class PhoneTests
{
    private const string C = "HEATH-26";
    private const string Other = "MOOR-26";

    private static readonly DateTimeOffset Morning = new(2026, 8, 3, 9, 0, 0, TimeSpan.Zero);
    private static readonly DateTimeOffset LastDay = new(2026, 8, 10, 0, 0, 0, TimeSpan.Zero);

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_fact_that_names_another_campaign_as_well_is_refused_whatever_it_says()
    {
        await using var server = await WithCampaign(new(Morning));
        var phone = await Join(server, "Crew West");
        FactBody[] bodies =
        [
            new ChainPlaced("S1", ["M1"], [], null, true, null, null, null, [], null), new ChainTakenIn("S1", ["M1"], [], null),
            new WeatherNoted(null, 3, 20, null, null), new DeviceNoted("wet after rain"), new PersonNamed("Crew West"),
            new LabelBound("2AYS641TS", "S1"),
        ];
        foreach (var body in bodies)
        {
            string[] own = body switch
            {
                PersonNamed => [Subject.Person(phone.Author)],
                LabelBound => [Subject.Label("2AYS641TS"), Subject.Campaign(C)],
                WeatherNoted => [Subject.Campaign(C)],
                _ => [Subject.Campaign(C), "device:M1"],
            };
            foreach (var subjects in new string[][] { [.. own, Subject.Campaign(Other)], [Subject.Campaign(Other), .. own] })
            {
                var (refused, why) = await phone.Tell(phone.Said(body, 1, subjects));
                Assert.Equal("refused", refused);
                if (body is PersonNamed) continue; // refused for another reason already
                Assert.Contains($"speaks of the campaign {C} only", why, StringComparison.Ordinal);
            }
            Assert.Equal("stored", (await phone.Tell(phone.Said(body, 1, own))).Result);
        }
        Assert.Null(server.Live.Now.Campaign(Other));
    }

    // A phone sends facts that carry another's client, with a clock that is five minutes off: nothing is noticed of that client.
    [Fact]
    public async Task A_header_moves_the_clock_of_the_senders_own_client_alone()
    {
        await using var server = await WithCampaign(new(Morning));
        var phone = await Join(server, "Crew West");
        string[] others =
        [
            "phone-01JD8XK3ZZ0000000000000001", phone.Client + "X", phone.Client[..^1], "P" + phone.Client[1..], "phone-1.ABCD",
        ];
        foreach (var foreign in others)
        {
            using var taken = await phone.Send(Door, "2026-08-03T08:55:00.000Z", phone.Noted(5, foreign));
            Assert.Equal(HttpStatusCode.OK, taken.StatusCode);
        }
        Assert.Empty(server.Live.Now.State.Clocks);

        using var own = await phone.Send(Door, "2026-08-03T08:55:00.000Z", phone.Noted(7, phone.Client + ".4K2M"));
        Assert.Equal(new ClientClockNoticed(phone.Client + ".4K2M", 7, 300_000), Assert.Single(server.Live.Now.State.Clocks));
    }

    // Said at 07:00 by a clock that lags by five minutes: the fact that the header came with stands at 07:05 itself, the one before it does
    // not.
    [Fact]
    public async Task What_comes_with_the_notice_is_put_right_by_it()
    {
        await using var server = await WithCampaign(new(Morning));
        var phone = await Join(server, "Crew West");

        using var taken = await phone.Send(Door, "2026-08-03T08:55:00.000Z", phone.Noted(3));

        Assert.Equal(300_000, Assert.Single(server.Live.Now.State.Clocks).OffsetMs);
        Assert.Equal(Seven.UnixMilliseconds + 300_000, server.Live.Now.Instant(phone.Noted(3)));
        Assert.Equal(Seven.UnixMilliseconds, server.Live.Now.Instant(phone.Noted(2)));
    }

    // Two seconds are noted and less is not; what was noticed before is not said again; ten times 366 days are no clock that runs wrong.
    [Fact]
    public async Task A_clock_that_is_off_is_noticed_within_reason()
    {
        await using var server = await WithCampaign(new(Morning));
        var phone = await Join(server, "Crew West");
        (string Said, long? OffsetMs)[] cases =
        [
            ("2026-08-03T08:59:58.000Z", 2_000), ("2026-08-03T08:59:58.001Z", null),
            ("2026-08-03T09:00:02.000Z", -2_000), ("2026-08-03T09:00:01.999Z", null),
            ("2016-07-26T09:00:00.000Z", 316_224_000_000), ("2016-07-26T08:59:59.999Z", null), ("2026-08-03", null), ("soon", null),
        ];
        for (var i = 0; i < cases.Length; i++)
        {
            var client = $"{phone.Client}.{i}";
            for (var counter = 1; counter <= 2; counter++)
            {
                using var taken = await phone.Send(Door, cases[i].Said, phone.Noted(counter, client));
                Assert.Equal(HttpStatusCode.OK, taken.StatusCode);
            }
            var noticed = server.Live.Now.State.Clocks.Where(c => c.Client == client).Select(c => c.OffsetMs);
            Assert.Equal(cases[i].OffsetMs is { } ms ? [ms] : [], noticed);
        }
    }

    // Two weeks after its campaign's last day a phone still brings in what it holds; the day after that it does not.
    [Fact]
    public async Task A_phone_speaks_until_two_weeks_after_its_campaign()
    {
        var time = new HandTime(Morning);
        await using var server = await WithCampaign(time);
        var phone = await Join(server, "Crew West");
        var joined = Assert.Single(server.Book!.Phones);

        Assert.Equal(LastDay.AddDays(15), joined.Until); // the fourteenth day after it is whole
        time.Now = LastDay.AddDays(15).AddMilliseconds(-1);
        using (var taken = await phone.Send("/api/field/facts", null, phone.Noted(1))) Assert.Equal(HttpStatusCode.OK, taken.StatusCode);
        time.Now = LastDay.AddDays(15);
        Assert.Equal(Duties.None, new Access(server.Book).Now(new Speaker(Speaker.Phone, joined.Id, joined.Crew, Duties.Field, C)));
        using var late = await phone.Send("/api/field/facts", null, phone.Noted(2));
        Assert.Equal(HttpStatusCode.Unauthorized, late.StatusCode);
    }

    // Who is invited when the two weeks are over, or nearly, has a day to bring something in.
    [Fact]
    public async Task Who_is_invited_late_has_a_day()
    {
        var time = new HandTime(Morning);
        await using var server = await WithCampaign(time);
        (int Days, int Hours, int EndsAfterHours)[] invited =
            [(12, 0, 15 * 24), (14, 0, 15 * 24), (14, 1, (15 * 24) + 1), (40, 0, 41 * 24)];
        foreach (var (days, hours, endsAfterHours) in invited)
        {
            time.Now = LastDay.AddDays(days).AddHours(hours);

            await Join(server, $"Crew {days}.{hours}");

            Assert.Equal(LastDay.AddHours(endsAfterHours), server.Book!.Phones.Single(p => p.Crew == $"Crew {days}.{hours}").Until);
        }
    }

    /// <summary>The one door that phones have.</summary>
    private const string Door = "/api/field/facts";

    private static Occurred Seven => Occurred.At(Morning.AddHours(-2));

    // A campaign through 10 August with one planned microphone.
    private static async Task<ServerUnderTest> WithCampaign(HandTime time)
    {
        var server = await ServerUnderTest.OpenWithPeople(time);
        Fact Stated(FactBody body, params string[] subjects) => FactText.WriteDerived(new(Seven, "P1", "desk", 0), body, subjects);
        await server.Live.Submit(
        [
            Stated(
                new CampaignPlanned(
                    "Heath", new(2026, 8, 1), DateOnly.FromDateTime(LastDay.Date), "Zone/Heath", [], "Heath", 20, SourceClass.Propeller,
                    20, 10_000, null, null, "engineering-practice", 0, null),
                Subject.Campaign(C)),
            Stated(new DeviceRegistered("microphone", "Maker", "Model", "101", []), "device:M1"),
            Stated(new ChainPlanned("S1", ["M1"]), Subject.Campaign(C), "device:M1"),
        ], "desk", Cancel);
        return server;
    }

    private static async Task<JoinedPhone> Join(ServerUnderTest server, string crew)
    {
        using var browser = server.Browser();
        var key = server.Book!.MakeLink(LinkPurpose.Phone, C, TimeSpan.FromHours(1));
        using var joined = await ServerUnderTest.Fill(browser, "/join?key=" + key, "/account/join", ("crew", crew), ("key", key));
        Assert.Equal("/field/", joined.Headers.Location!.OriginalString);
        // By the machine's clock the cookie may have lapsed long ago, so that no container would keep it.
        var cookie = joined.Headers.GetValues("Set-Cookie").First(c => c.StartsWith("register=", StringComparison.Ordinal)).Split(';')[0];
        return new(server, cookie, PersonState.IdOf(crew), "phone-" + server.Book.Phones.Single(p => p.Crew == crew).Id);
    }

    private sealed record JoinedPhone(ServerUnderTest Server, string Cookie, string Author, string Client)
    {
        public Fact Said(FactBody body, int counter, params string[] subjects) =>
            FactText.WriteDerived(new(Seven, Author, Client, counter), body, subjects);

        public Fact Noted(int counter, string? client = null) =>
            FactText.WriteDerived(new(Seven, Author, client ?? Client, counter), new DeviceNoted("seen"), ["device:M1"]);

        /// <summary>What became of a fact, and why.</summary>
        public async Task<(string Result, string? Why)> Tell(Fact fact)
        {
            using var answer = await Send(Door, null, fact);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            var result = JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!["results"]![0]!;
            return ((string)result["result"]!, (string?)result["why"]);
        }

        public async Task<HttpResponseMessage> Send(string path, string? clock, Fact fact)
        {
            using var content = new StringContent(Encoding.UTF8.GetString(fact.Bytes.Span), Encoding.UTF8, "application/x-ndjson");
            using var request = new HttpRequestMessage(HttpMethod.Post, path) { Content = content };
            request.Headers.TryAddWithoutValidation("Cookie", Cookie);
            if (clock is not null) request.Headers.TryAddWithoutValidation(ClockOffset.Header, clock);
            return await Server.Client.SendAsync(request, Cancel);
        }
    }
}
