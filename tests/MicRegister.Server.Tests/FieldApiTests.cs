using System.Buffers.Binary;
using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Documents.Drawings;
using MicRegister.Documents.Labels;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Labels;
using MicRegister.Register.People;
using MicRegister.Register.Settings;
using MicRegister.Register.Settling;
using MicRegister.Server.Accounts;

namespace MicRegister.Server.Tests;

public sealed class FieldApiTests
{
    private const string C = "QUILLMERE-26";

    [Fact]
    public async Task The_kit_holds_what_a_crew_needs_and_is_not_sent_twice()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);

        using var first = await server.Client.GetAsync($"/api/campaigns/{C}/field-kit", TestContext.Current.CancellationToken);
        var kit = JsonNode.Parse(await first.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;

        Assert.Equal(server.Live.Now.Campaign(C)!.Stations.Keys, kit["stations"]!.AsArray().Select(s => (string)s!["name"]!));
        var station = kit["stations"]!.AsArray().Single(s => (string)s!["name"]! == "S01")!;
        Assert.Equal("planned", (string)station["state"]!);
        var devices = kit["devices"]!.AsArray();
        Assert.All(station["planned"]!.AsArray(), id => Assert.Contains(devices, d => (string)d!["id"]! == (string)id!));
        var microphone = devices.First(d => (string)d!["kind"]! == "microphone" && d["microphone"]!["sensitivity"] is not null)!;
        Assert.InRange((double)microphone["microphone"]!["sensitivity"]!["atReferenceDb"]!, -60, -20);
        Assert.Contains(devices, d => d!["calibrator"]?["levels"]?.AsArray().Count > 0);
        Assert.NotNull(kit["limits"]!["deviationDb"]);
        Assert.Equal(
            ("flush in a ground plate", "out of service", "at another time", "taken in", "at risk", "Recorder channel"),
            (Words("mounts", "flush-plate"), Words("statuses", "out-of-service"), Words("moments", "other"), Words("states", "taken-in"),
                Words("verdicts", "at-risk"), Words("kinds", "recorder-channel")));
        Assert.Equal(server.Live.Now.Count, (int)kit["sequence"]!);
        using var again = new HttpRequestMessage(HttpMethod.Get, $"/api/campaigns/{C}/field-kit");
        again.Headers.TryAddWithoutValidation("If-None-Match", first.Headers.ETag!.ToString());
        Assert.Equal(HttpStatusCode.NotModified, (await server.Client.SendAsync(again, TestContext.Current.CancellationToken)).StatusCode);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Client.GetAsync("/api/campaigns/NOWHERE/field-kit", TestContext.Current.CancellationToken)).StatusCode);

        string Words(string table, string key) => (string)kit["words"]![table]![key]!;
    }

    [Fact]
    public async Task Each_line_is_answered_by_itself_and_what_is_no_fact_is_put_aside()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var placed = Placed("S01", 1);
        var other = Text(placed).Replace("S01", "S02", StringComparison.Ordinal);

        var answer = await Send(server.Client, Text(placed), "{\"half\":", Text(Placed("S02", 2)), Text(placed), other);

        Assert.Equal(["stored", "unreadable", "stored", "duplicate", "conflict"], Results(answer));
        Assert.Equal(Text(placed), (string)answer["results"]![4]!["now"]!);
        Assert.Contains("not JSON", (string)answer["results"]![1]!["why"]!, StringComparison.Ordinal);
        Assert.Equal(["stored", "duplicate"], Results(await Send(server.Client, Text(Placed("S03", 3)), Text(placed))));
        // The broken line is kept byte for byte for a person to look at, once.
        await Send(server.Client, "{\"half\":");
        var finding = Assert.Single(server.Live.Now.Findings(new(2026, 8, 3)), f => f.Rule == "put-aside");
        await using var kept = server.Live.Log.OpenAttachment(Subject.Id(finding.Subjects[0]))!;
        Assert.Equal("{\"half\":", await new StreamReader(kept).ReadToEndAsync(TestContext.Current.CancellationToken));
        Assert.Equal(3, ArrayDeployment.Of(server.Live.Now, C).Placements.Count);
    }

    [Fact]
    public async Task A_phone_speaks_of_its_campaign_and_what_it_may_not_say_holds_up_nothing_else()
    {
        await using var server = await ServerUnderTest.OpenWithPeople(withDemo: true);
        using var phone = server.Browser();
        var key = server.Book!.MakeLink(LinkPurpose.Phone, C, TimeSpan.FromHours(1));
        await ServerUnderTest.Fill(phone, "/join?key=" + key, "/account/join", ("crew", "Crew West"), ("key", key));
        var me = JsonNode.Parse(await phone.GetStringAsync("/api/me", TestContext.Current.CancellationToken))!;
        var (client, crew) = ((string)me["client"]! + ".4K2M", PersonState.IdOf("Crew West"));
        var kit = JsonNode.Parse(await phone.GetStringAsync($"/api/campaigns/{C}/field-kit", TestContext.Current.CancellationToken))!;
        Assert.Equal(("Crew West", crew, (string)me["client"]!), ((string)kit["speaker"]!["person"]!, (string)kit["speaker"]!["author"]!, (string)kit["speaker"]!["client"]!));
        var planned = server.Live.Now.Campaign(C)!.Chains["S01"];

        using var content = Lines(Text(Placed("S01", 1, client, crew, planned[0])), Text(Placed("S02", 2, client, PersonState.IdOf("Somebody Else"), planned[0])),
            Text(FactText.WriteDerived(new(Now(3), crew, client, 3), new LabelBound("2AYS641TS", "S05"), [Subject.Label("2AYS641TS"), Subject.Campaign(C)])),
            Text(FactText.WriteDerived(new(Now(4), crew, client, 4), new DeviceNoted("seen"), [Subject.Device("NOTPLANNED")])));
        var sent = TimeProvider.System.GetTimestamp();
        content.Headers.Add("Client-Clock", Occurred.At(TimeProvider.System.GetUtcNow().AddMinutes(-7)).ToString());
        using var response = await phone.PostAsync("/api/field/facts", content, TestContext.Current.CancellationToken);
        var answer = JsonNode.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
        var tookMs = (long)TimeProvider.System.GetElapsedTime(sent).TotalMilliseconds;

        Assert.Equal(["stored", "refused", "stored", "refused"], Results(answer));
        Assert.Equal("Crew West", server.Live.Now.Person(crew)!.Name);
        // Its clock is seven minutes behind: noticed, kept with the facts, and a finding.
        Assert.InRange(server.Live.Now.State.Clocks.Single(c => c.Client == client).OffsetMs, 415_000, 425_000 + tookMs);
        Assert.Contains(server.Live.Now.Findings(new(2026, 8, 3)), f => f.Rule == "clock-off");
    }

    [Fact]
    public async Task A_photo_of_a_label_is_read_here_and_what_is_none_is_refused()
    {
        await using var server = await ServerUnderTest.Open();
        Assert.True(LabelCode.TryRead("2AYS641TS", out var code, out _));
        var layout = LabelLayout.Read(await File.ReadAllTextAsync(Path.Combine(AppContext.BaseDirectory, "labels", "sheet-3x8.layout"), TestContext.Current.CancellationToken), "sheet-3x8");
        var picture = Picture(LabelSheet.Pages(layout, [new(code, new Dictionary<string, string>())], "HTTPS://REGISTER.LAN/L/")[0], 200);

        Assert.Equal("2AYS641TS", (string)(await Photo(server, picture)).Body!["found"]![0]!["code"]!);

        Assert.Contains("No code is seen", (string)(await Photo(server, Picture(new(50, 50, "nothing", []), 100))).Body!["why"]!, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Photo(server, "no photo"u8.ToArray())).Status);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Photo(server, [])).Status);
        var huge = await Photo(server, Huge());
        Assert.Equal(HttpStatusCode.UnprocessableEntity, huge.Status);
        Assert.Contains("30000 × 30000", (string)huge.Body!["detail"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_worker_is_told_all_files_and_the_page_stands_at_a_folder()
    {
        await using var server = await ServerUnderTest.Open();
        using var plain = new HttpClient(new HttpClientHandler { AllowAutoRedirect = false }) { BaseAddress = server.Client.BaseAddress };

        Assert.Equal("/field/", (await plain.GetAsync("/field", TestContext.Current.CancellationToken)).Headers.Location!.ToString());
        Assert.Contains("<h1", await plain.GetStringAsync("/field/", TestContext.Current.CancellationToken), StringComparison.Ordinal);
        var worker = await plain.GetStringAsync("/field/sw.js", TestContext.Current.CancellationToken);
        var files = JsonNode.Parse(worker.Split('\n')[1]["const FILES = ".Length..^1])!.AsArray().Select(f => (string)f!).ToList();
        Assert.Contains("/field/app.js", files);
        Assert.DoesNotContain("/field/sw-body.js", files);
        foreach (var file in files) Assert.Equal(HttpStatusCode.OK, (await plain.GetAsync(file, TestContext.Current.CancellationToken)).StatusCode);
    }

    // A PNG that says it is 30,000 × 30,000 pixels: refused before anything is unpacked.
    private static byte[] Huge()
    {
        var bytes = Picture(new(10, 10, "nothing", []), 100);
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(16), 30_000);
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(20), 30_000);
        var crc = 0xffffffffu;
        foreach (var b in bytes.AsSpan(12, 17))
        {
            crc ^= b;
            for (var i = 0; i < 8; i++) crc = (crc & 1) != 0 ? 0xedb88320u ^ (crc >> 1) : crc >> 1;
        }
        BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(29), ~crc);
        return bytes;
    }

    private static byte[] Picture(Drawing drawing, int dotsPerInch)
    {
        using var content = new MemoryStream();
        PngPainter.Paint(drawing, dotsPerInch, content);
        return content.ToArray();
    }

    private static async Task<(HttpStatusCode Status, JsonNode? Body)> Photo(ServerUnderTest server, byte[] photo)
    {
        using var content = new ByteArrayContent(photo);
        using var response = await server.Client.PostAsync("/api/labels/photo", content, TestContext.Current.CancellationToken);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)));
    }

    private static StringContent Lines(params string[] lines) => new(string.Join('\n', lines), Encoding.UTF8, "application/x-ndjson");

    private static async Task<JsonNode> Send(HttpClient client, params string[] lines)
    {
        using var content = Lines(lines);
        using var response = await client.PostAsync("/api/field/facts", content, TestContext.Current.CancellationToken);
        response.EnsureSuccessStatusCode();
        return JsonNode.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
    }

    private static IEnumerable<string> Results(JsonNode answer) => answer["results"]!.AsArray().Select(r => (string)r!["result"]!);

    private static Fact Placed(string station, int counter, string client = "phone-1.ABCD", string author = "P1", string device = "M1") =>
        FactText.Write(FactId.Create(Now(counter).UnixMilliseconds, [1, 2, 3, 4, 5, 6, 7, 8, 9, (byte)counter]), new(Now(counter), author, client, counter), new ChainPlaced(station, [device], [], null, true, new(53.5, -1.2, 4), null, null, [], null), [Subject.Campaign(C), Subject.Device(device)]);

    private static Occurred Now(int second) => Occurred.At(new DateTimeOffset(2026, 8, 3, 9, 0, second, TimeSpan.Zero));

    private static string Text(Fact fact) => Encoding.UTF8.GetString(fact.Bytes.Span);
}
