using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Server.Accounts;
using MicRegister.Storage.LiteDb;

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
    public async Task A_replacement_that_names_another_microphone_is_refused_to_who_states_it_and_taken_of_others()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var chains = server.Live.Now.Campaign(C)!.Chains;
        var placed = Placed("P1", "phone-1.ABCD", chains["S01"], null);
        await server.Live.Submit([placed], "test", Cancel);
        await Post(server, "event,start,stop,zone\nRun 1,2026-09-02 10:00:00,2026-09-02 10:01:00,utc\n");
        var count = server.Live.Now.Count;

        var refused = await Send(Placed(Register.People.PersonState.IdOf("Desk"), "script-1", chains["S02"], placed.Id));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, refused.Status);
        Assert.Contains($"replaces chain-placed {placed.Id}", (string)refused.Body["detail"]!, StringComparison.Ordinal);
        Assert.Contains("names the same microphone", (string)refused.Body["detail"]!, StringComparison.Ordinal);
        Assert.Equal(count, server.Live.Now.Count);
        Assert.Equal("doubtful", await Verdict()); // nothing was checked

        Assert.Equal(HttpStatusCode.OK, (await Send(Placed("P1", "phone-1.ABCD", chains["S02"], placed.Id))).Status);
        Assert.Contains(DeploymentFindings.Of(server.Live.Now, C), f => f.Rule == "replaced-microphone");
        Assert.Equal("undecided", await Verdict());
        var table = await server.Client.GetStringAsync($"/api/campaigns/{C}/analysis.csv?event={C}.RUN-1", Cancel);
        Assert.Contains(",undecided,", table, StringComparison.Ordinal);

        static Fact Placed(string author, string client, IEnumerable<string> devices, FactId? replaces) => FactText.WriteDerived(
            new(At("2026-09-02T09:00:00.000Z"), author, client, 1),
            new ChainPlaced("S01", [.. devices], [], null, true, null, null, null, [], null),
            [Subject.Campaign(C), .. devices.Select(Subject.Device)], replaces);

        async Task<(HttpStatusCode Status, JsonNode Body)> Send(Fact fact)
        {
            using var content = new ByteArrayContent(fact.Bytes.ToArray());
            using var answer = await server.Client.PostAsync("/api/facts", content, Cancel);
            return (answer.StatusCode, JsonNode.Parse(await answer.Content.ReadAsStringAsync(Cancel))!);
        }

        async Task<string> Verdict()
        {
            var trace = await server.Get($"/api/events/{C}.RUN-1/trace?station=S01");
            Assert.Contains("No file is stated of any event", (string)trace["recorded"]!, StringComparison.Ordinal);
            return (string)Assert.Single(trace["stations"]!.AsArray())!["verdict"]!;
        }
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
        using var answer = await server.Client.GetAsync($"/api/campaigns/{C}/analysis.csv?event={C}.RUN-1", Cancel);
        var first = await answer.Content.ReadAsStringAsync(Cancel);
        Assert.StartsWith("campaign,event,", first, StringComparison.Ordinal);
        Assert.Equal(73, first.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length); // a header and 72 stations
        var values = $"/api/campaigns/{C}/analysis.csv?event={C}.RUN-1&sequence={sequence}";
        Assert.Equal([values], answer.Content.Headers.GetValues("Content-Location"));
        var description = $"/api/campaigns/{C}/analysis.csv-metadata.json?event={C}.RUN-1&sequence={sequence}";
        Assert.Equal([$"<{description}>; rel=\"describedby\"; type=\"application/csvm+json\""], answer.Headers.GetValues("Link"));
        var described = await server.Get(description);
        Assert.Equal(values, (string)described["url"]!);
        Assert.Equal(first.Split("\r\n")[0], string.Join(',', described["tableSchema"]!["columns"]!.AsArray().Select(c => (string)c!["titles"]!)));
        var provenance = described["schema:additionalProperty"]!.AsArray().ToDictionary(p => (string)p!["schema:name"]!, p => (string)p!["schema:value"]!);
        Assert.Equal($"{sequence}", provenance["sequence"]);
        Assert.Equal(server.Live.Now.Digest.ToString(), provenance["set-digest"]);
        await Post(server, "event,start,stop,zone\nRun 9,2026-09-02 11:00:00,2026-09-02 11:01:00,utc\n");
        Assert.Equal(first, await server.Client.GetStringAsync($"/api/campaigns/{C}/analysis.csv?event={C}.RUN-1&sequence={sequence}", Cancel));
        foreach (var format in new[] { "json", "xlsx" }) Assert.Equal(HttpStatusCode.OK, (await server.Client.GetAsync($"/api/campaigns/{C}/analysis.{format}", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync($"/api/campaigns/{C}/analysis.doc", Cancel)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync("/api/events/NOTHING/trace", Cancel)).StatusCode);
        Assert.Contains((await server.Get($"/api/rests-on/event/{C}.RUN-1"))["restsOn"]!.AsArray(), n => (string)n!["label"]! == "S01");
        var author = Register.People.PersonState.IdOf("Desk");
        Assert.Contains((await server.Get($"/api/rests-on/person/{author}"))["bears"]!.AsArray(), n => (string)n!["kind"]! == "event");
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync("/api/rests-on/moon/1", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Sessions_are_stated_listed_annulled_and_told_to_phones()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        object Night(string name, string stop) => new { name, startUtc = "2026-09-02T18:00:00.000Z", stopUtc = stop };
        var address = $"/api/campaigns/{C}/sessions";

        Assert.Empty((await server.Get(address)).AsArray());
        Assert.Equal(200, (await server.Send(HttpMethod.Post, address, Night("Night 1", "2026-09-03T01:00:00.000Z"))).Status);
        Assert.Equal(409, (await server.Send(HttpMethod.Post, address, Night("Night 2", "2026-09-03T02:00:00.000Z"))).Status);
        var (status, problem, _) = await server.Send(HttpMethod.Post, address, Night("Night 1", "tomorrow"));
        Assert.Equal(422, status);
        Assert.Contains("Stop 'tomorrow'", (string)problem!["detail"]!, StringComparison.Ordinal);
        Assert.Equal(404, (await server.Send(HttpMethod.Post, "/api/campaigns/NOWHERE/sessions", Night("N", "2026-09-03T01:00:00.000Z"))).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync("/api/campaigns/NOWHERE/sessions", Cancel)).StatusCode);

        var session = Assert.Single((await server.Get(address)).AsArray())!;
        Assert.Equal(("Night 1", "2026-09-02T18:00:00.000Z", "2026-09-03T01:00:00.000Z"), ((string)session["name"]!, (string)session["startUtc"]!, (string)session["stopUtc"]!));
        var tests = (await server.Get($"/api/campaigns/{C}/field-kit"))["tests"]!;
        Assert.Equal((string)session["fact"]!, (string)tests["sessions"]![0]!["fact"]!);
        Assert.False((bool)tests["areApart"]!);
        Assert.Equal(18 * 3_600_000, (long)tests["mostMs"]!);

        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/facts/{(string)session["fact"]!}/annulments", new { reason = "another night" })).Status);
        Assert.Empty((await server.Get(address)).AsArray());
    }

    [Fact]
    public async Task Bands_are_corrected_by_the_curves_of_the_chain_from_the_stated_angle()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        await Stand(server, "S01");
        await Post(server, "event,start,stop,zone\nRun 1,2026-09-02 10:00:00,2026-09-02 10:01:00,utc\n");
        var microphone = server.Live.Now.Campaign(C)!.Chains["S01"].First(d => server.Live.Now.Device(d)!.Kind == "microphone");
        using var file = await server.Client.PostAsync("/api/attachments", new StringContent("Hz;0°;60°;U\n20;0;0;0,2\n250;0;0;0,2\n20000;-2;-4;0,4\n"), Cancel);
        var sha = (string)JsonNode.Parse(await file.Content.ReadAsStringAsync(Cancel))!["sha256"]!;
        var (stored, problem, _) = await server.Send(HttpMethod.Post, "/api/certificates", new { devices = new[] { microphone }, day = "2026-07-01", issued = new { quantity = "response", field = "pressure", results = new[] { new { state = "as-found-and-left", value = 0, unit = "dB" } }, curve = sha } });
        Assert.True(stored == 200, problem?.ToJsonString());

        var open = Assert.Single((await server.Get($"/api/events/{C}.RUN-1/bands?station=S01")).AsArray())!;
        Assert.Null(open["angleDeg"]);
        Assert.Equal(422, (await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/incidences", new { @event = $"{C}.RUN-1", angleDeg = 200, reason = "track" })).Status);
        Assert.Equal(404, (await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/incidences", new { @event = $"{C}.RUN-9", angleDeg = 30, reason = "track" })).Status);
        Assert.Equal(200, (await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/incidences", new { @event = $"{C}.RUN-1", angleDeg = 30, halfWidthDeg = 15, reason = "track" })).Status);

        var bands = Assert.Single((await server.Get($"/api/events/{C}.RUN-1/bands?station=S01")).AsArray())!;
        Assert.Equal(30, (double)bands["angleDeg"]!);
        var top = bands["bands"]!.AsArray()[^1]!; // 16 kHz, exactly 15849 Hz
        // Relative to 250 Hz: half way between -2 and -4 dB, log(15849/250) / log(80) of them; a plate takes 6.02 dB off.
        Assert.Equal((3 * Math.Log(15848.93 / 250) / Math.Log(80)) - 6.0206, (double)top["correctionDb"]!, 1e-4);
        Assert.Equal($"certificate {(string)(await server.Get($"/api/events/{C}.RUN-1/trace?station=S01"))["stations"]![0]!["curves"]![0]!["certificate"]!}", ((string)top["terms"]![0]!["source"]!)["curve of ".Length..]);

        var csv = await server.Client.GetStringAsync($"/api/campaigns/{C}/bands.csv?event={C}.RUN-1&station=S01&angle=0&angle=60", Cancel);
        Assert.Equal(2 * bands["bands"]!.AsArray().Count, csv.Split('\n').Count(l => l.Contains(",S01,", StringComparison.Ordinal)));
        foreach (var format in new[] { "json", "xlsx" }) Assert.Equal(HttpStatusCode.OK, (await server.Client.GetAsync($"/api/campaigns/{C}/bands.{format}?event={C}.RUN-1", Cancel)).StatusCode);
        foreach (var (query, status) in new[] { ("", 422), ($"?event={C}.RUN-1&angle=181", 422), ($"?event={C}.RUN-9", 404), ($"?event={C}.RUN-1&sequence=-1", 422) })
            Assert.Equal(status, (int)(await server.Client.GetAsync($"/api/campaigns/{C}/bands.csv{query}", Cancel)).StatusCode);
    }

    [Fact]
    public async Task Campaigns_around_today_are_read_ahead()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var desk = (Work.Desk)server.Services.GetService(typeof(Work.Desk))!;
        Assert.Equal(0, Api.ReadAhead.Read(desk, Cancel)); // planned, and nothing was recorded
        await Post(server, "event,start,stop,zone\nRun 1,2026-08-03 10:00:00,2026-08-03 10:01:00,utc\n");
        Assert.Equal(1, Api.ReadAhead.Read(desk, Cancel));
    }

    [Fact]
    public async Task Chains_are_compared_in_place_and_the_trace_cites_it()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        string[] stations = ["S01", "S02", "S03", "S04", "S05"];
        foreach (var station in stations) await Stand(server, station);
        // What is said at the desk of this server belongs to the day that it was told, 3 August 2026.
        await Post(server, "event,start,stop,zone\nRun 1,2026-08-03 10:00:00,2026-08-03 10:01:00,utc\n");
        object Said(double first) => new { at = "2026-08-03T10:30:00.000Z", source = "distant loudspeaker", frequencyHz = 250, expandedDb = 0.4, chains = stations.Select((s, i) => new { station = s, levelDb = i == 0 ? first : 70, expectedDb = 0 }) };

        Assert.Equal(422, (await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/comparisons", new { at = "2026-08-03T10:30:00.000Z", source = "x", chains = new[] { new { station = "S01", levelDb = 70 } } })).Status);
        var (status, problem, _) = await server.Send(HttpMethod.Post, $"/api/campaigns/{C}/comparisons", Said(71.5));
        Assert.True(status == 200, problem?.ToJsonString());

        var listed = Assert.Single((await server.Get($"/api/campaigns/{C}/comparisons"))["items"]!.AsArray())!;
        Assert.Equal((70, 1.5, true), ((double)listed["commonDb"]!, (double)listed["chains"]![0]!["ownDb"]!, (bool)listed["chains"]![0]!["standsOut"]!));
        var trace = (await server.Get($"/api/events/{C}.RUN-1/trace?station=S01"))["stations"]![0]!;
        Assert.Equal((string)listed["fact"]!, (string)Assert.Single(trace["inPlace"]!.AsArray())!["fact"]!);
        Assert.Contains(trace["reasons"]!.AsArray(), r => ((string)r!["text"]!).StartsWith("Compared in place on 2026-08-03 10:30 UTC it lay +1.50 dB from the others", StringComparison.Ordinal));
        Assert.Equal(404, (int)(await server.Client.GetAsync("/api/campaigns/NONE/comparisons", Cancel)).StatusCode);
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
        await DemoFolder.CopyTo(folder.Path);

        var (none, _, error) = await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1");
        Assert.Equal(2, none);
        Assert.Contains("there is no such event", error, StringComparison.Ordinal);
        var (exit, output, _) = await CommandLine.Run("trace", "--data", folder.Path, "--device", "41015", "--json");
        Assert.Equal(0, exit);
        Assert.NotNull(JsonNode.Parse(output));
        Assert.Equal(2, (await CommandLine.Run("trace", "--data", folder.Path)).Exit);
        var microphone = (string)JsonNode.Parse((await CommandLine.Run("forecast", "--data", folder.Path, "--on", "2026-09-12", "--limit-db", "0.3", "--json")).Out)!["devices"]!.AsArray()[0]!["device"]!;
        var (around, walked, _) = await CommandLine.Run("trace", "--data", folder.Path, "--rests-on", "device:" + microphone);
        Assert.Equal(0, around);
        Assert.Contains("  rests on certificate ", walked, StringComparison.Ordinal);
        Assert.Equal(2, (await CommandLine.Run("trace", "--data", folder.Path, "--rests-on", "device:NOWHERE")).Exit);
        Assert.Contains("--angle needs --bands", (await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1", "--angle", "30")).Error, StringComparison.Ordinal);
        Assert.Contains("from 0 to 180", (await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1", "--bands", "--angle", "-5")).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_command_prints_the_bands_of_an_event()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);
        await using (var live = new LiveRegister(JournalStore.Open(new DiskFiles(folder.Path), TimeProvider.System)))
        {
            var chain = live.Now.Campaign(C)!.Chains["S01"];
            await live.Submit([FactText.WriteDerived(new(At("2026-09-02T09:00:00.000Z"), "P1", "phone-1.ABCD", 1), new ChainPlaced("S01", [.. chain], [], null, true, null, null, null, [], null), [Subject.Campaign(C), .. chain.Select(Subject.Device)])], "test", Cancel);
            var saying = new Saying(new(At("2026-09-02T12:00:00.000Z"), "P1", "desk", 1));
            await live.Submit(r => EventDecisions.Record(r, saying, C, [new("Run 1", "2026-09-02T10:00:00.000Z", "2026-09-02T10:01:00.000Z", EventKind.FlyOver, null, [], null)]), "test", Cancel);
        }

        var (exit, output, _) = await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1", "--station", "S01", "--bands", "--angle", "30");
        Assert.Equal(0, exit);
        Assert.StartsWith("S01: from 30°, responses relative to 250 Hz", output, StringComparison.Ordinal);
        Assert.Contains("taken as flat", output, StringComparison.Ordinal);
        Assert.Contains("     250 Hz    −6.021 dB, U = ", output, StringComparison.Ordinal);
        var (_, json, _) = await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1", "--station", "S01", "--bands", "--json");
        Assert.Equal(26, JsonNode.Parse(json)![0]!["bands"]!.AsArray().Count); // 50 Hz to 16 kHz

        foreach (var (option, header) in new[] { ("--covariance", "station,S01"), ("--budget", "campaign,event,start-utc"), ("--bands", "campaign,event,start-utc") })
        {
            var file = folder.At($"table {option}.csv");
            Assert.Equal(0, (await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1", option, "--csv", file)).Exit);
            Assert.StartsWith(header, await File.ReadAllTextAsync(file, Cancel), StringComparison.Ordinal);
            Assert.Equal($"table%20{option}.csv", (string)JsonNode.Parse(await File.ReadAllTextAsync(file + "-metadata.json", Cancel))!["url"]!);
        }
        var (_, shown, _) = await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1", "--covariance", "--part", "mount-and-direction");
        Assert.StartsWith("station\tS01" + Environment.NewLine + "S01\t0.333333", shown, StringComparison.Ordinal); // 1 dB by the profile, over √3
        var (_, lines, _) = await CommandLine.Run("trace", "--data", folder.Path, "--event", "Run 1", "--budget", "--json");
        Assert.Contains(JsonNode.Parse(lines)!["rows"]!.AsArray(), r => (string)r!["source"]! == "mount flush-plate");
        foreach (var (arguments, says) in new[]
        {
            ("--event|Run 1|--covariance|--part|roof", "sensitivity and mount-and-direction"), ("--device|41001|--csv|x.csv", "--csv needs --event"),
            ("--event|Run 1|--covariance|--budget", "one of"), ("--event|Run 1|--part|sensitivity", "--part needs --covariance"),
            ("--event|Run 1|--unit|volts", "--unit needs --covariance"),
            ("--event|Run 1|--covariance|--unit|pascal", "volts and full-scale"),
            ("--event|Run 1|--covariance|--station|S01", "leave --station out"), ("--event|Run 1|--csv|nowhere/at/all.csv", "--csv nowhere/at/all.csv"),
        })
        {
            var refused = await CommandLine.Run(["trace", "--data", folder.Path, .. arguments.Split('|')]);
            Assert.Equal(2, refused.Exit);
            Assert.Contains(says, refused.Error, StringComparison.Ordinal);
        }
    }

    /// <summary>What says that a station's planned chain stands there.</summary>
    internal static IReadOnlyList<Fact> Standing(ServerUnderTest server, string station)
    {
        var chain = server.Live.Now.Campaign(C)!.Chains[station];
        var counter = int.Parse(station[1..], System.Globalization.CultureInfo.InvariantCulture);
        return
        [
            FactText.WriteDerived(
                new(At("2026-08-02T09:00:00.000Z"), "P1", "phone-1.ABCD", counter),
                new ChainPlaced(station, [.. chain], [], null, true, null, null, null, [], null),
                [Subject.Campaign(C), .. chain.Select(Subject.Device)]),
        ];
    }

    [Fact]
    public async Task Budgets_and_covariances_leave_as_tables_and_in_the_trace()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        await server.Live.Submit([.. AtRange(server, "S01"), .. AtRange(server, "S02")], "test", Cancel);
        await Post(server, "event,start,stop,zone\nRun 1,2026-08-03 10:00:00,2026-08-03 10:01:00,utc\n");

        var trace = await server.Get($"/api/events/{C}.RUN-1/trace");
        var applied = trace["stations"]!.AsArray().Where(s => s!["applied"] is not null).Select(s => s!["applied"]!).ToList();
        Assert.Equal(2, applied.Count);
        foreach (var a in applied)
        {
            var parts = new[] { a["sensitivity"]!, a["mountAndDirection"]! }.Select(p => (double)p["standardDb"]!).ToList();
            Assert.Equal(Math.Pow((double)a["standardDb"]!, 2), parts.Sum(p => p * p), 1e-9);
            // 1 dB by the profile, over the square root of 3.
            Assert.Equal(1 / Math.Sqrt(3), parts[1], 1e-9);
            Assert.Equal("mount-and-direction", (string)a["budget"]!.AsArray().Single(l => (string)l!["source"]! == "mount flush-plate")!["part"]!);
            Assert.StartsWith("U is nearly all the assumed limit of the mount", (string)a["uncertaintyNote"]!, StringComparison.Ordinal);
        }

        var budget = await server.Client.GetStringAsync($"/api/campaigns/{C}/budget.csv?event={C}.RUN-1", Cancel);
        Assert.Equal(applied.Sum(a => a["budget"]!.AsArray().Count), budget.Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Length - 1);
        var matrix = (await server.Client.GetStringAsync($"/api/campaigns/{C}/covariance.csv?event={C}.RUN-1", Cancel))
            .Split("\r\n", StringSplitOptions.RemoveEmptyEntries).Select(l => l.Split(',')).ToList();
        Assert.Equal([["station", "S01", "S02"], ["S01"], ["S02"]], [matrix[0], [matrix[1][0]], [matrix[2][0]]]);
        double Cell(int row, int column) => double.Parse(matrix[row][column], System.Globalization.CultureInfo.InvariantCulture);
        Assert.Equal(Math.Pow((double)applied[0]["standardDb"]!, 2), Cell(1, 1), 1e-12);
        Assert.Equal(Cell(1, 2), Cell(2, 1));
        Assert.InRange(Cell(1, 2), 1 / 3.0, Cell(1, 1)); // both stand flush in plates
        var notes = (await server.Get($"/api/campaigns/{C}/covariance.csv-metadata.json?event={C}.RUN-1"))["rdfs:comment"]!.AsArray();
        Assert.Contains(notes, n => ((string)n!).StartsWith("The deviation of a mount", StringComparison.Ordinal));
        // By certificates in volts, so that in full scale the certificate of the channel's gain counts besides.
        var full = await server.Get($"/api/campaigns/{C}/covariance.json?event={C}.RUN-1&unit=full-scale");
        foreach (var (a, i) in applied.Select((a, i) => (a, i)))
        {
            var gain = a["budget"]!.AsArray().Single(l => (string)l!["name"]! == "channel's gain")!;
            Assert.Equal((0, 1), ((double)gain["sensitivity"]!, (double)gain["fullScaleSensitivity"]!));
            var square = Math.Pow((double)a["standardDb"]!, 2) + Math.Pow((double)gain["standardUncertainty"]!, 2);
            Assert.Equal(square, Math.Pow((double)a["inFullScale"]!["standardDb"]!, 2), 1e-12);
            Assert.Equal(square, (double)full["rows"]![i]![$"S0{i + 1}"]!, 1e-12);
        }
        var header = budget.Split("\r\n")[0];
        Assert.EndsWith(",sensitivity-coefficient-fs,contribution-fs-db", header, StringComparison.Ordinal);
        var analysis = await server.Get($"/api/campaigns/{C}/analysis.json?event={C}.RUN-1");
        Assert.Equal(
            (double)applied[0]["inFullScale"]!["expandedDb"]!, (double)analysis["rows"]![0]!["expanded-uncertainty-fs-db"]!, 1e-12);
        var bands = await server.Get($"/api/campaigns/{C}/bands.json?event={C}.RUN-1");
        Assert.All(
            bands["rows"]!.AsArray().Where(r => r!["correction-db"] is not null),
            r => Assert.True((double)r!["expanded-uncertainty-fs-db"]! > (double)r["expanded-uncertainty-db"]!));
        var mount = await server.Get($"/api/campaigns/{C}/covariance.json?event={C}.RUN-1&part=mount-and-direction");
        Assert.Equal(1 / 3.0, (double)mount["rows"]![0]!["S02"]!, 1e-12);
        foreach (var (query, status) in new[]
        {
            ("", 422), ($"?event={C}.RUN-9", 404), ($"?event={C}.RUN-1&part=x", 400), ($"?event={C}.RUN-1&unit=x", 400),
        })
            Assert.Equal(status, (int)(await server.Client.GetAsync($"/api/campaigns/{C}/covariance.csv{query}", Cancel)).StatusCode);
    }

    // The planned chain as it stands there, at a range of 10 V; the gain of each channel has a certificate.
    private static IEnumerable<Fact> AtRange(ServerUnderTest server, string station) => Standing(server, station)
        .Select(f => FactText.WriteDerived(
            new(f.Occurred, "P1", "phone-1.ABCD", f.Counter), ((ChainPlaced)f.Body) with { RangeV = 10 }, f.Subjects));

    private static async Task Stand(ServerUnderTest server, string station) =>
        await server.Live.Submit(Standing(server, station), "test", Cancel);

    private static Occurred At(string text) => Occurred.TryParse(text, out var at) ? at : throw new FormatException(text);

    private static async Task<(HttpStatusCode Status, JsonNode Body)> Post(ServerUnderTest server, string table)
    {
        using var content = new StringContent(table, Encoding.UTF8, "text/csv");
        using var response = await server.Client.PostAsync($"/api/campaigns/{C}/events/table", content, Cancel);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync(Cancel))!);
    }
}
