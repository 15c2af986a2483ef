using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Server.Accounts;

namespace MicRegister.Server.Tests;

public sealed class EventsApiTests
{
    private const string C = "QUILLMERE-26";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task A_table_of_events_is_taken_as_a_whole_or_not_at_all()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);

        var bad = await Post(server, "event,start,stop,kind,zone\nRun 1,2026-09-02 10:00:00,2026-09-02 10:01:00,fly-over,utc\nRun 2,yesterday,2026-09-02 10:03:00,fly-over,utc\n");
        Assert.Equal(HttpStatusCode.UnprocessableEntity, bad.Status);
        Assert.Contains("Row 3, start 'yesterday'", (string)bad.Body["detail"]!, StringComparison.Ordinal);
        Assert.Empty(EventBook.OfCampaign(server.Live.Now, C));

        var good = await Post(server, "event,start,stop,kind,zone\nRun 1,2026-09-02 10:00:00,2026-09-02 10:01:00,fly-over,utc\nRun 2,2026-09-02 10:02:00,10:03:00,run,utc\n");
        Assert.Equal(HttpStatusCode.OK, good.Status);
        var events = await server.Get($"/api/campaigns/{C}/events?kind=run");
        Assert.Equal($"{C}.RUN-2", (string)Assert.Single(events["items"]!.AsArray())!["id"]!);
        Assert.Equal(HttpStatusCode.Conflict, (await Post(server, "event,start,stop,zone\nRun 1,2026-09-02 10:00:00,2026-09-02 10:01:00,utc\n")).Status);
    }

    [Fact]
    public async Task An_event_is_traced_and_its_table_says_where_it_comes_from_and_can_be_made_again()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var chain = server.Live.Now.Campaign(C)!.Chains["S01"];
        await server.Live.Submit([FactText.WriteDerived(new(At("2026-09-02T09:00:00.000Z"), "P1", "phone-1.ABCD", 1), new ChainPlaced("S01", [.. chain], [], null, true, null, null, null, [], null), [Subject.Campaign(C), .. chain.Select(Subject.Device)])], "test", Cancel);
        await Post(server, "event,start,stop,zone\nRun 1,2026-09-02 10:00:00,2026-09-02 10:01:00,utc\n");

        var trace = await server.Get($"/api/events/{C}.RUN-1/trace?station=S01");
        var station = Assert.Single(trace["stations"]!.AsArray())!;
        Assert.Equal("doubtful", (string)station["verdict"]!); // nothing was checked
        Assert.Equal("certificate", (string)station["applied"]!["rule"]!);
        Assert.Equal(chain.Order(), station["devices"]!.AsArray().Select(d => (string)d!["id"]!).Order());

        var sequence = server.Live.Now.Count;
        var first = await server.Client.GetStringAsync($"/api/campaigns/{C}/analysis.csv?event={C}.RUN-1", Cancel);
        Assert.Contains($"provenance,sequence,{sequence}", first, StringComparison.Ordinal);
        Assert.Contains("provenance,set-digest," + server.Live.Now.Digest, first, StringComparison.Ordinal);
        await Post(server, "event,start,stop,zone\nRun 9,2026-09-02 11:00:00,2026-09-02 11:01:00,utc\n");
        Assert.Equal(first, await server.Client.GetStringAsync($"/api/campaigns/{C}/analysis.csv?event={C}.RUN-1&sequence={sequence}", Cancel));
        foreach (var format in new[] { "json", "xlsx" }) Assert.Equal(HttpStatusCode.OK, (await server.Client.GetAsync($"/api/campaigns/{C}/analysis.{format}", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync($"/api/campaigns/{C}/analysis.doc", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync("/api/events/NOTHING/trace", Cancel)).StatusCode);
    }

    [Fact]
    public async Task A_doubt_is_listed_reported_and_settled()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var microphone = server.Live.Now.DeviceIds.First(d => server.Live.Now.Device(d)!.Serial == "41001");
        var (status, body, _) = await server.Send(HttpMethod.Post, $"/api/devices/{microphone}/services", new { what = "damage", text = "dropped", beginsAnew = false, day = "2026-08-03" });
        Assert.True(status == 200, body?.ToJsonString());

        var doubt = Assert.Single((await server.Get($"/api/doubts?device={microphone}"))["items"]!.AsArray(), d => (string)d!["kind"]! == "reported")!;
        var key = Uri.EscapeDataString((string)doubt["key"]!);
        Assert.NotEmpty((await server.Get("/api/doubts/" + key))["toDo"]!.AsArray());
        Assert.Equal(422, (await server.Send(HttpMethod.Post, $"/api/doubts/{key}/settlements", new { isConfirmed = false, reason = " " })).Status);
        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/doubts/{key}/settlements", new { isConfirmed = false, reason = "looked at it, unhurt" })).Status);
        Assert.Equal(404, (int)(await server.Client.GetAsync("/api/doubts/nothing", Cancel)).StatusCode);
    }

    [Fact]
    public async Task The_calendar_opens_by_a_secret_that_can_be_revoked_and_opens_nothing_else()
    {
        await using var server = await ServerUnderTest.OpenWithPeople(withDemo: true);
        var account = server.Book!.Accounts.First(a => a.Duties.HasFlag(Duties.Plan));
        var secret = ((Result<string>.Accepted)server.Book.MakeCalendarSecret(account.Id)).Value;

        var text = await server.Client.GetStringAsync($"/calendar/{secret}.ics", Cancel);
        Assert.StartsWith("BEGIN:VCALENDAR\r\n", text, StringComparison.Ordinal);
        Assert.Contains("UID:campaign-QUILLMERE-26@register", text, StringComparison.Ordinal);
        using var api = new HttpRequestMessage(HttpMethod.Get, "/api/devices");
        api.Headers.Authorization = new("Bearer", secret);
        Assert.NotEqual(HttpStatusCode.OK, (await server.Client.SendAsync(api, Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync($"/calendar/{server.Tokens[Duties.Look]}.ics", Cancel)).StatusCode); // a token for scripts is no address
        server.Book.RevokeToken(server.Book.Tokens.Single(t => t.Name == AccountBook.CalendarName).Id);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync($"/calendar/{secret}.ics", Cancel)).StatusCode);
    }

    [Fact]
    public async Task The_command_traces_both_ways()
    {
        using var folder = new TemporaryFolder();
        await CommandLine.Run("demo", "--once", "--data", folder.Path);

        var (none, _, error) = await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1");
        Assert.Equal(2, none);
        Assert.Contains("there is no such event", error, StringComparison.Ordinal);
        var (exit, output, _) = await CommandLine.Run("trace", "--data", folder.Path, "--device", "41015", "--json");
        Assert.Equal(0, exit);
        Assert.NotNull(JsonNode.Parse(output));
        Assert.Equal(2, (await CommandLine.Run("trace", "--data", folder.Path)).Exit);
    }

    private static Occurred At(string text) => Occurred.TryParse(text, out var at) ? at : throw new FormatException(text);

    private static async Task<(HttpStatusCode Status, JsonNode Body)> Post(ServerUnderTest server, string table)
    {
        using var content = new StringContent(table, Encoding.UTF8, "text/csv");
        using var response = await server.Client.PostAsync($"/api/campaigns/{C}/events/table", content, Cancel);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync(Cancel))!);
    }
}
