using System.Net;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Tests;

public sealed class ApiTests
{
    [Fact]
    public async Task A_device_is_entered_read_described_and_its_version_guards_it()
    {
        await using var server = await ServerUnderTest.Open();

        var (created, stored, _) = await server.Send(HttpMethod.Post, "/api/devices", new { kind = "microphone", maker = "M", model = "A-12", serial = "7", details = new Dictionary<string, object> { ["size-mm"] = 12.7, ["response-type"] = "pressure" } });
        Assert.Equal((200, "stored"), (created, (string)stored![0]!["result"]!));
        var id = DeviceIdentity.IdOf("microphone", "M", "A-12", "7");

        using var read = await server.Client.GetAsync("/api/devices/" + id, TestContext.Current.CancellationToken);
        var tag = read.Headers.ETag!.ToString();
        Assert.Equal("\"1\"", tag);
        using var same = new HttpRequestMessage(HttpMethod.Get, "/api/devices/" + id);
        same.Headers.TryAddWithoutValidation("If-None-Match", tag);
        using var unchanged = await server.Client.SendAsync(same, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotModified, unchanged.StatusCode);

        var change = new { set = new Dictionary<string, object> { ["owner"] = "Hall 2" }, clear = Array.Empty<string>() };
        Assert.Equal(200, (await server.Send(HttpMethod.Patch, "/api/devices/" + id, change, tag)).Status);
        // Another who saw the first version: a conflict that shows what stands now.
        var (conflict, problem, _) = await server.Send(HttpMethod.Patch, "/api/devices/" + id, new { set = new Dictionary<string, object> { ["owner"] = "Hall 9" } }, tag);
        Assert.Equal(409, conflict);
        Assert.Equal("Hall 2", (string)problem!["now"]!["device"]!["details"]!["owner"]!);
        Assert.Equal(2, (int)problem["now"]!["version"]!);
    }

    [Theory]
    [InlineData("POST", "/api/devices", """{"kind":"teapot","serial":"1"}""", 422, "allowed are microphone")]
    [InlineData("POST", "/api/devices", """{"kind":"microphone"}""", 422, "serial number or an inventory code")]
    [InlineData("POST", "/api/devices", """{"kind":"microphone","serial":"1","details":{"size-mm":9999}}""", 422, "a number from 1 to 60 mm")]
    [InlineData("POST", "/api/devices", """{"kind":"microphone","serial":"1","details":{"thickness-mm":5}}""", 422, "has no such detail")]
    [InlineData("POST", "/api/devices", """{"kind":"microphone","serial":"1","details":{"response-type":"loud"}}""", 422, "one of free-field, pressure, diffuse")]
    [InlineData("POST", "/api/devices", "nonsense", 400, "")]
    [InlineData("POST", "/api/devices", "[]", 400, "")]
    [InlineData("POST", "/api/devices/NOWHERE/notes", """{"text":"x"}""", 404, "There is no device NOWHERE")]
    [InlineData("POST", "/api/certificates", """{"devices":["NOWHERE"],"day":"2026-01-01","issued":{"quantity":"sensitivity","results":[]}}""", 404, "There is no device NOWHERE")]
    [InlineData("POST", "/api/certificates", """{"devices":[],"day":"2026-01-01","issued":{"quantity":"sensitivity","results":[]}}""", 422, "at least one device")]
    [InlineData("PUT", "/api/certificates/01JD8XK3ZZ0000000000000000", """{"day":"2026-01-01","issued":{"quantity":"sensitivity","results":[]}}""", 404, "no such fact")]
    [InlineData("PUT", "/api/campaigns/C1", """{"name":"T","firstDay":"2026-02-02","lastDay":"2026-01-01","zone":"UTC","offsets":[],"site":"","altitudeM":1,"source":"jet","lowestHz":50,"highestHz":1000,"profile":"engineering-practice","permittedLosses":0}""", 422, "from the first day on")]
    [InlineData("PUT", "/api/campaigns/C1", """{"name":"T","firstDay":"2026-02-02","lastDay":"2026-02-03","zone":"UTC","offsets":[],"site":"","altitudeM":1,"source":"jet","lowestHz":50,"highestHz":1000,"profile":"engineering-practice","permittedLosses":2147483647}""", 422, "from 0 to 10000")]
    [InlineData("PUT", "/api/campaigns/C1", """{"name":"T","firstDay":"0001-01-02","lastDay":"0001-01-03","zone":"UTC","offsets":[],"site":"","altitudeM":1,"source":"jet","lowestHz":50,"highestHz":1000,"profile":"engineering-practice","permittedLosses":0}""", 422, "from 1950")]
    [InlineData("PUT", "/api/campaigns/C1", """{"name":"a\u202eb","firstDay":"2026-02-02","lastDay":"2026-02-03","zone":"UTC","offsets":[],"site":"","altitudeM":1,"source":"jet","lowestHz":50,"highestHz":1000,"profile":"engineering-practice","permittedLosses":0}""", 422, "name 'U+202E'")]
    [InlineData("PUT", "/api/campaigns/C1", """{"name":"T","firstDay":"2026-02-02","lastDay":"2026-02-03","zone":"Zone/X","offsets":[{"fromUtc":"tomorrow","minutes":60}],"site":"","altitudeM":1,"source":"jet","lowestHz":50,"highestHz":1000,"profile":"engineering-practice","permittedLosses":0}""", 422, "Offset from 'tomorrow'")]
    [InlineData("PUT", "/api/campaigns/C1/stations/S1", """{"station":"S2","latitudeDeg":1,"longitudeDeg":1,"mount":"pole"}""", 422, "The address names station S1")]
    [InlineData("PUT", "/api/profiles/own", """{"name":"Own","statement":"","limits":[{"key":"drift-db","value":-1,"source":"x","certainty":"own"}]}""", 422, "a number from 0.001 to 60 dB")]
    [InlineData("PUT", "/api/profiles/own", """{"name":"Own","statement":"","limits":[{"key":"drift-db","value":1,"source":"","certainty":"own"}]}""", 422, "source is missing")]
    [InlineData("POST", "/api/facts", "no fact\n", 422, "Line 1")]
    [InlineData("POST", "/api/facts/NOWHERE/annulments", """{"reason":"x"}""", 404, "no such fact")]
    [InlineData("POST", "/api/attachments", "", 422, "1 byte to 25 MB")]
    [InlineData("POST", "/api/imports", "just,words\n", 422, "no table that is understood")]
    [InlineData("POST", "/api/imports?store=true&partial=true", "Kind,Serial,Zweifel\nmic,1,7\n", 422, "columns are not understood yet")]
    [InlineData("GET", "/api/devices?sort=colour", null, 422, "allowed are kind, model")]
    [InlineData("GET", "/api/mounts?heightM=1,2", null, 422, "heightM '1,2': allowed is a number with a decimal point")]
    [InlineData("GET", "/api/devices?kind=99", null, 422, "Kind '99': allowed are microphone")]
    [InlineData("GET", "/api/facts?kind=99", null, 422, "Kind '99': allowed are ")]
    [InlineData("GET", "/api/devices?status=sleepy", null, 400, "")]
    [InlineData("GET", "/api/devices/NOWHERE", null, 404, "There is no device NOWHERE")]
    [InlineData("GET", "/api/campaigns/NOWHERE", null, 404, "There is no campaign")]
    [InlineData("GET", "/api/campaigns/NOWHERE/readiness", null, 404, "no plan")]
    [InlineData("GET", "/api/campaigns/NOWHERE/readiness?station=S1", null, 422, "both the station and the spare")]
    [InlineData("POST", "/api/campaigns/QUILLMERE-26/events", "[null]", 422, "holds null")]
    [InlineData("POST", "/api/campaigns/QUILLMERE-26/comparisons", """{"at":"2026-08-03","source":"x","chains":[null]}""", 422, "chains holds null")]
    [InlineData("GET", "/api/profiles/nowhere", null, 404, "There is no profile")]
    [InlineData("GET", "/api/facts/nowhere", null, 404, "There is no fact")]
    [InlineData("GET", "/api/attachments/nowhere", null, 404, "is not here")]
    [InlineData("GET", "/api/nowhere", null, 404, "")]
    [InlineData("DELETE", "/api/devices/NOWHERE", null, 405, "")]
    [InlineData("POST", "/api/devices/NOWHERE/statuses", "{}", 400, "status")]
    [InlineData("POST", "/api/certificates", "{}", 400, "devices")]
    [InlineData("POST", "/api/devices/NOWHERE/joins", "{}", 400, "other")]
    [InlineData("PUT", "/api/campaigns/C1/stations/S1", """{"station":"S1","mount":"pole"}""", 400, "latitudeDeg")]
    [InlineData("PUT", "/api/campaigns/C1", """{"name":"T","firstDay":"2026-01-01","lastDay":"2026-01-02"}""", 400, "zone")]
    [InlineData("PUT", "/api/profiles/own", """{"name":"Own","statement":"","limits":null}""", 400, "limits")]
    [InlineData("PUT", "/api/profiles/own", """{"name":"Own","limits":[]}""", 400, "statement")]
    [InlineData("GET", "/api/devices?limit=abc", null, 400, "limit 'abc': it cannot be read.")]
    [InlineData("POST", "/api/devices", """{"kind":3}""", 400, "The body does not fit: the part 'kind' is of another sort")]
    [InlineData("GET", "/api/devices?limit=0", null, 422, "from 1 to 1000")]
    [InlineData("GET", "/api/facts?offset=-1", null, 422, "from 0")]
    [InlineData("GET", "/api/campaigns?limit=1001", null, 422, "from 1 to 1000")]
    [InlineData("DELETE", "/api/campaigns/C1/stations/S1?reason=x", null, 404, "There is no campaign")]
    [InlineData("POST", "/api/imports?mapping=colour%20%3D%20hue", "a,b\n1,2\n", 422, "there is no column 'hue'")]
    public async Task Every_error_is_a_problem_document(string method, string path, string? body, int status, string says)
    {
        await using var server = await ServerUnderTest.Reading();
        using var request = new HttpRequestMessage(new(method), path);
        if (body is not null) request.Content = new StringContent(body, Encoding.UTF8, "application/json");

        using var response = await server.Client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(status, (int)response.StatusCode);
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        var problem = JsonNode.Parse(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))!;
        Assert.Equal(status, (int)problem["status"]!);
        Assert.Contains(says, (string?)problem["detail"] ?? "", StringComparison.Ordinal);
        Assert.Equal(0, server.Live.Now.Count);
    }

    [Fact]
    public async Task Lists_are_paged_filtered_and_sorted()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);

        var plates = await server.Get("/api/devices?kind=ground-plate&sort=-serial&limit=5&offset=2");
        Assert.Equal((73, 2, 5), ((int)plates["total"]!, (int)plates["offset"]!, plates["items"]!.AsArray().Count));
        Assert.Equal("GP071", (string)plates["items"]![0]!["serial"]!);
        Assert.Equal(1, (int)(await server.Get("/api/devices?q=plywood gp"))["total"]!);
        var facts = await server.Get("/api/facts?kind=campaign-planned");
        Assert.Equal(2, (int)facts["total"]!);
        var fact = (string)facts["items"]![0]!["id"]!;
        Assert.Equal("campaign-planned", (string)(await server.Get("/api/facts/" + fact))["kind"]!);
        var stations = await server.Get("/api/campaigns/QUILLMERE-26/stations?limit=2&offset=70");
        Assert.Equal((72, "S72", 4), ((int)stations["total"]!, (string)stations["items"]![1]!["plan"]!["station"]!, stations["items"]![1]!["devices"]!.AsArray().Count));
        Assert.Equal("not-ready", (string)(await server.Get("/api/campaigns/QUILLMERE-26/readiness"))["verdict"]!);
        Assert.Equal(6, (int)(await server.Get("/api/profiles?limit=1"))["total"]!);
        var described = (await server.Get("/api/openapi.json"))["paths"]!["/api/devices/{id}"]!["get"]!["responses"]!["200"]!;
        Assert.NotNull(described["content"]!["application/json"]!["schema"]);
    }

    [Theory]
    [InlineData("/api/devices/{device}")]
    [InlineData("/api/devices/{device}/certificates")]
    [InlineData("/api/campaigns/QUILLMERE-26")]
    [InlineData("/api/campaigns/QUILLMERE-26/stations")]
    [InlineData("/api/campaigns/QUILLMERE-26/readiness")]
    [InlineData("/api/profiles/engineering-practice")]
    public async Task A_read_carries_its_version_and_is_not_sent_again_to_who_holds_it(string path)
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);
        path = path.Replace("{device}", (string)(await server.Get("/api/devices?q=41007"))["items"]![0]!["id"]!, StringComparison.Ordinal);

        using var first = await server.Client.GetAsync(path, TestContext.Current.CancellationToken);
        using var again = new HttpRequestMessage(HttpMethod.Get, path);
        again.Headers.TryAddWithoutValidation("If-None-Match", first.Headers.ETag!.ToString());
        using var second = await server.Client.SendAsync(again, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.NotModified, second.StatusCode);
        Assert.Empty(await second.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_station_is_taken_out_and_put_back()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);

        Assert.Equal(200, (await server.Send(HttpMethod.Delete, "/api/campaigns/QUILLMERE-26/stations/S72?reason=under+water", new { })).Status);

        Assert.Equal(71, (int)(await server.Get("/api/campaigns/QUILLMERE-26/stations"))["total"]!);
        Assert.DoesNotContain("S72", server.Live.Now.Campaign("QUILLMERE-26")!.Chains.Keys);
        await server.Send(HttpMethod.Put, "/api/campaigns/QUILLMERE-26/stations/S72", new { station = "S72", latitudeDeg = 1, longitudeDeg = 2, mount = "pole" });
        Assert.Equal(72, (int)(await server.Get("/api/campaigns/QUILLMERE-26/stations"))["total"]!);
    }

    [Fact]
    public async Task A_spare_can_be_tried_without_storing()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);
        var spare = (string)(await server.Get("/api/devices?q=41073"))["items"]![0]!["id"]!;
        var before = server.Live.Now.Count;

        var tried = await server.Get($"/api/campaigns/QUILLMERE-26/readiness?station=S31&spare={spare}");

        Assert.Equal("ready", (string)tried["stations"]!.AsArray().Single(s => (string)s!["station"]! == "S31")!["verdict"]!);
        Assert.Equal(before, server.Live.Now.Count);
    }

    [Fact]
    public async Task A_certificate_is_entered_restated_annulled_and_the_annulment_taken_back()
    {
        await using var server = await ServerUnderTest.Open();
        await server.Send(HttpMethod.Post, "/api/devices", new { kind = "microphone", serial = "7" });
        var id = DeviceIdentity.IdOf("microphone", null, null, "7");
        object Issued(double value) => new { quantity = "sensitivity", results = new[] { new { state = "as-found-and-left", value, unit = "mV/Pa", expandedUncertainty = 0.06, uncertaintyUnit = "dB", coverageFactor = 2.0 } } };

        var (_, first, _) = await server.Send(HttpMethod.Post, "/api/certificates", new { devices = new[] { id }, day = "2026-01-05", issued = Issued(12.5) });
        var (status, second, _) = await server.Send(HttpMethod.Put, "/api/certificates/" + first![0]!["id"], new { day = "2026-01-05", issued = Issued(12.6) });
        Assert.Equal(200, status);
        Assert.Equal(12.6, InUse());
        var (_, annulment, _) = await server.Send(HttpMethod.Post, $"/api/facts/{second![0]!["id"]}/annulments", new { reason = "it was right" });
        Assert.Equal(12.5, InUse());
        await server.Send(HttpMethod.Post, $"/api/facts/{annulment![0]!["id"]}/annulments", new { reason = "no, it was not" });
        Assert.Equal(12.6, InUse());
        var (conflict, problem, _) = await server.Send(HttpMethod.Put, "/api/certificates/" + first[0]!["id"], new { day = "2026-01-05", issued = Issued(12.7) });
        Assert.Equal(409, conflict);
        Assert.NotEmpty(problem!["now"]!.AsArray());
        var slip = new { quantity = "sensitivity", results = new[] { new { state = "as-found-and-left", value = 12.5, unit = "mV/Pa", expandedUncertainty = 1e-6, uncertaintyUnit = "dB", coverageFactor = 2.0 } } };
        var (status2, refused, _) = await server.Send(HttpMethod.Post, "/api/certificates", new { devices = new[] { id }, day = "2026-01-06", issued = slip });
        Assert.Equal(422, status2);
        Assert.Contains("must be a slip", (string)refused!["detail"]!, StringComparison.Ordinal);

        double InUse() => server.Live.Now.Device(id)!.Certificates.Single(c => !c.IsAnnulled).InForce!.Value;
    }

    [Fact]
    public async Task Facts_stream_as_lines_and_can_be_sent_to_another_register()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        await using var other = await ServerUnderTest.Open();

        var lines = await server.Client.GetStringAsync("/api/facts/lines", TestContext.Current.CancellationToken);
        using var sent = await other.Client.PostAsync("/api/facts", new StringContent(lines), TestContext.Current.CancellationToken);
        using var again = await other.Client.PostAsync("/api/facts", new StringContent(lines), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, sent.StatusCode);
        Assert.All((await again.Content.ReadFromJsonAsync<JsonArray>(TestContext.Current.CancellationToken))!, o => Assert.Equal("duplicate", (string)o!["result"]!));
        Assert.Equal(server.Live.Now.Digest, other.Live.Now.Digest);
        Assert.Equal((string)(await server.Get("/api/facts/head"))["digest"]!, (string)(await other.Get("/api/facts/head"))["digest"]!);
    }

    [Fact]
    public async Task An_import_is_a_dry_run_until_it_is_told_to_store()
    {
        await using var server = await ServerUnderTest.Open();
        var text = "Kind,Serial,Date,Sensitivity [mV/Pa]\nmic,1,2026-01-01,12.5\nmic,2,2026-13-01,12.5\n";
        async Task<JsonNode> Import(string query)
        {
            using var response = await server.Client.PostAsync("/api/imports?name=a.csv" + query, new StringContent(text), TestContext.Current.CancellationToken);
            return (await response.Content.ReadFromJsonAsync<JsonNode>(TestContext.Current.CancellationToken))!;
        }

        Assert.Equal((false, 0), ((bool)(await Import(""))["isGood"]!, (int)(await Import("&store=true"))["stored"]!));
        Assert.Equal(0, server.Live.Now.Count);
        Assert.Equal(5, (int)(await Import("&store=true&partial=true"))["stored"]!); // founding, person, device, result, import
    }

    [Fact]
    public async Task A_fact_with_holes_is_kept_unread_and_breaks_nothing()
    {
        await using var server = await ServerUnderTest.Open();
        await server.Send(HttpMethod.Post, "/api/devices", new { kind = "microphone", serial = "7" });
        var id = DeviceIdentity.IdOf("microphone", null, null, "7");
        var line = $$$"""{"at":"2026-01-01","author":"P1","body":{"quantity":"sensitivity","results":[null]},"client":"c","counter":0,"id":"01JD8XK3ZZ0000000000000000","kind":"certificate-issued","subjects":["device:{{{id}}}"],"version":1}""";

        using var sent = await server.Client.PostAsync("/api/facts", new StringContent(line), TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.OK, sent.StatusCode); // offline facts are never refused
        Assert.Equal(1, (int)(await server.Get("/api/devices"))["total"]!);
        Assert.Single((await server.Get("/api/devices/" + id))["device"]!["writtenByNewer"]!.AsArray());
    }

    [Theory]
    [InlineData("W/\"1\"")]
    [InlineData("\"abc\"")]
    [InlineData("nonsense")]
    public async Task A_version_that_is_none_stores_nothing(string ifMatch)
    {
        await using var server = await ServerUnderTest.Open();
        await server.Send(HttpMethod.Post, "/api/devices", new { kind = "microphone", serial = "7" });
        var path = $"/api/devices/{DeviceIdentity.IdOf("microphone", null, null, "7")}/notes";
        var before = server.Live.Now.Count;

        Assert.Equal(400, (await server.Send(HttpMethod.Post, path, new { text = "x" }, ifMatch)).Status);
        Assert.Equal(before, server.Live.Now.Count);
        Assert.Equal(200, (await server.Send(HttpMethod.Post, path, new { text = "x" }, "*")).Status);
    }

    [Theory]
    [InlineData("Origin", "http://elsewhere.example")]
    [InlineData("Origin", "null")]
    [InlineData("Host", "elsewhere.example")]
    public async Task Pages_of_other_sites_are_turned_away(string header, string value)
    {
        await using var server = await ServerUnderTest.Reading();
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/facts") { Content = new StringContent("") };
        request.Headers.TryAddWithoutValidation(header, value);

        using var answer = await server.Client.SendAsync(request, TestContext.Current.CancellationToken);

        Assert.Equal(HttpStatusCode.Forbidden, answer.StatusCode);
        Assert.Equal("application/problem+json", answer.Content.Headers.ContentType?.MediaType);
        Assert.Contains("nosniff", answer.Headers.GetValues("X-Content-Type-Options"));
    }

    [Fact]
    public async Task Too_much_is_refused_with_its_bound()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);
        var device = (string)(await server.Get("/api/devices?q=41007"))["items"]![0]!["id"]!;

        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/attachments") { Content = new ByteArrayContent(new byte[30 << 20]) };
        request.Headers.ExpectContinue = true; // asks before it sends, so that the answer is read and not a closed connection
        using var huge = await server.Client.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, huge.StatusCode);
        using var limit = await server.Client.GetAsync($"/api/devices/{device}/history.svg?limitDb=1e12", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, limit.StatusCode);
        Assert.Equal(422, (await server.Send(HttpMethod.Post, $"/api/devices/{device}/statuses", new { status = "away", reason = new string('x', 3000) })).Status);
    }

    [Fact]
    public async Task Drawings_come_as_svg_files()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);
        var device = (string)(await server.Get("/api/devices?q=41007"))["items"]![0]!["id"]!;
        var plate = (string)(await server.Get("/api/devices?q=GP001"))["items"]![0]!["id"]!;

        foreach (var path in new[] { "/api/campaigns/QUILLMERE-26/map.svg", $"/api/devices/{device}/history.svg?limitDb=0.3&until=2026-09-12" })
        {
            using var answer = await server.Client.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal("image/svg+xml", answer.Content.Headers.ContentType?.MediaType);
            Assert.Equal("svg", System.Xml.Linq.XDocument.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)).Root!.Name.LocalName);
        }
        using var none = await server.Client.GetAsync($"/api/devices/{plate}/history.svg", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    [Fact]
    public async Task Drawings_come_as_pdf_and_nothing_else()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);
        var device = (string)(await server.Get("/api/devices?q=41007"))["items"]![0]!["id"]!;
        foreach (var path in new[] { "/api/campaigns/QUILLMERE-26/map.pdf", $"/api/devices/{device}/history.pdf" })
        {
            using var answer = await server.Client.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal("application/pdf", answer.Content.Headers.ContentType?.MediaType);
            Assert.Equal("%PDF", Encoding.ASCII.GetString(await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken), 0, 4));
        }
        using var none = await server.Client.GetAsync($"/api/devices/{device}/history.gif", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
    }

    [Fact]
    public async Task A_forecast_says_what_stands_behind_it_and_a_new_result_is_checked_before_it_is_entered()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);
        string Id(string serial) => server.Live.Now.DeviceIds.First(d => server.Live.Now.Device(d)!.Serial == serial);

        var quiet = await server.Get($"/api/devices/{Id("41001")}/forecast?on=2026-09-12&limitDb=0.3");
        // The cap: twice its longest gap, 1096 days from 1 March 2021 to 1 March 2024.
        Assert.Equal((0, 76, 2192), (quiet["findings"]!.AsArray().Count, (int)quiet["devices"]!, (int)quiet["intervalDays"]!));
        Assert.InRange((double)quiet["probability"]!, 0.999, 1);
        var open = await server.Get($"/api/devices/{Id("41015")}/forecast?on=2026-09-12&limitDb=0.1");
        Assert.Equal("newest result open", (string)open["findings"]![0]!["kind"]!);
        Assert.Equal((double)open["probability"]!, ((double)open["probabilityIfNewestIsWrong"]! + (double)open["probabilityIfItChanged"]!) / 2, 9);

        var certified = (double)quiet["certifiedDb"]!;
        string Entry(double off) => FormattableString.Invariant($"/api/devices/{Id("41001")}/entry-check?day=2026-08-03&levelDb={certified + off}&standardUncertaintyDb=0.03");
        Assert.True((bool)(await server.Get(Entry(0.02)))["fits"]!);
        Assert.False((bool)(await server.Get(Entry(0.3)))["fits"]!);
        foreach (var bad in new[] { $"/api/devices/{Id("41001")}/forecast?limitDb=0", $"/api/devices/{Id("41001")}/entry-check?day=2000-01-01&levelDb=-38&standardUncertaintyDb=0.03", $"/api/devices/{Id("41001")}/entry-check?day=2026-08-03&levelDb=-38&standardUncertaintyDb=0" })
        {
            using var answer = await server.Client.GetAsync(bad, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.UnprocessableEntity, answer.StatusCode);
        }
        using var plate = await server.Client.GetAsync($"/api/devices/{Id("GP001")}/forecast", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, plate.StatusCode);

        var models = await server.Get("/api/drift?limitDb=0.3");
        Assert.Equal("Maker A A-12P", (string)models["items"]![0]!["model"]!);
        // 41007 and 41015, and the old steps of 41031, 41047 and 41058, which nobody planned.
        Assert.Equal(5, (int)models["items"]![0]!["found"]!);
    }

    [Fact]
    public async Task An_attachment_comes_back_as_a_download()
    {
        await using var server = await ServerUnderTest.Open();

        using var kept = await server.Client.PostAsync("/api/attachments", new ByteArrayContent("<script>"u8.ToArray()), TestContext.Current.CancellationToken);
        var sha = (string)(await kept.Content.ReadFromJsonAsync<JsonNode>(TestContext.Current.CancellationToken))!["sha256"]!;
        using var back = await server.Client.GetAsync("/api/attachments/" + sha, TestContext.Current.CancellationToken);

        Assert.Equal("<script>", await back.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Equal("application/octet-stream", back.Content.Headers.ContentType?.MediaType);
        Assert.StartsWith("attachment", back.Content.Headers.ContentDisposition?.ToString(), StringComparison.Ordinal);
        Assert.Contains("nosniff", back.Headers.GetValues("X-Content-Type-Options"));
    }

    [Fact]
    public async Task Pages_are_whole_before_any_script_runs_and_none_is_over_a_megabyte()
    {
        await using var server = await ServerUnderTest.Reading(withDemo: true);
        foreach (var (path, says) in new[] { ("/", "What wants doing"), ("/fleet", "318 of 318"), ("/campaigns/QUILLMERE-26", "not ready"),
            ("/profiles/transport-1200mm", "A36.3.9.7"), ("/import", "Drop files"), ("/journal", "Newest first"),
            ("/plan/QUILLMERE-26", "Stations (72)"), ("/compare", "Mark two to"), ("/drift", "How the fleet drifts") })
        {
            var page = await server.Client.GetStringAsync(path, TestContext.Current.CancellationToken);
            Assert.Contains(says, page, StringComparison.Ordinal);
            Assert.InRange(page.Length, 1000, 1_000_000);
        }
        foreach (var (path, says) in new[] { ("/devices/NOWHERE", "No such device"), ("/campaigns/NOWHERE", "No such campaign"), ("/plan/NOWHERE", "No such campaign"), ("/profiles/NOWHERE", "No such profile") })
        {
            using var none = await server.Client.GetAsync(path, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.NotFound, none.StatusCode);
            Assert.Contains(says, await none.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
        using var missing = await server.Client.GetAsync("/nowhere", TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, missing.StatusCode);
        Assert.Contains("There is nothing at this address", await missing.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.True(IPAddress.IsLoopback(IPAddress.Parse(server.Client.BaseAddress!.Host)));
    }
}
