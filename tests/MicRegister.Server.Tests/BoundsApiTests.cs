using System.Net;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Settling;
using MicRegister.Server.Api;
using MicRegister.Server.Tests.Accounts;
using MicRegister.Server.Work;
using Microsoft.AspNetCore.Http;

namespace MicRegister.Server.Tests;

/// <summary>Bounds of facts at the doors: said in the document, refused at the desk's, kept without effect at the phones'.</summary>
public sealed class BoundsApiTests
{
    private const string C = "QUILLMERE-26";

    [Fact]
    public async Task The_document_says_the_bound_of_every_number_text_and_list_that_a_request_may_carry()
    {
        await using var server = await ServerUnderTest.Open();
        var schemas = (await server.Get("/api/openapi.json"))["components"]!["schemas"]!.AsObject();

        var station = schemas["StationPlanned"]!["properties"]!;
        Assert.Equal((-90, 90), ((double)station["latitudeDeg"]!["minimum"]!, (double)station["latitudeDeg"]!["maximum"]!));
        Assert.Equal((-180, 180), ((double)station["longitudeDeg"]!["minimum"]!, (double)station["longitudeDeg"]!["maximum"]!));
        Assert.Equal(Bound.MostOfName, (int)station["station"]!["maxLength"]!);
        Assert.Equal(1000, (int)schemas["ProfileWritten"]!["properties"]!["limits"]!["maxItems"]!);
        Assert.Contains("From 1950-01-01 to 2200-12-31", (string)schemas["CampaignPlanned"]!["properties"]!["firstDay"]!["description"]!,
            StringComparison.Ordinal);

        // By the document itself: whatever the body of a request refers to.
        var paths = (await server.Get("/api/openapi.json"))["paths"]!.AsObject();
        var (seen, without) = (new HashSet<string>(), new List<string>());
        foreach (var operation in paths.SelectMany(p => p.Value!.AsObject().Select(o => o.Value!)))
        {
            if (operation["requestBody"]?["content"]?["application/json"]?["schema"] is { } schema) Walk("", schema);
        }
        Assert.True(seen.Count > 25, $"only {seen.Count} schemas are sent");
        Assert.True(without.Count == 0, string.Join(", ", without));

        void Walk(string where, JsonNode schema)
        {
            foreach (var one in schema["oneOf"]?.AsArray() ?? []) Walk(where, one!);
            if ((string?)schema["$ref"] is { } reference && reference.Split('/')[^1] is var name && seen.Add(name))
                Walk(name, schemas[name]!);
            foreach (var (member, of) in schema["properties"]?.AsObject() ?? [])
            {
                var types = of!["type"] is JsonArray several ? several.Select(t => (string)t!).ToList() : of["type"] is { } single
                    ? [(string)single!] : [];
                var isNumber = types.Contains("number") || types.Contains("integer");
                if (isNumber && (of["minimum"] is null || of["maximum"] is null)) without.Add($"{where}.{member}");
                if (!isNumber && types.Contains("string") && of["enum"] is null && of["maxLength"] is null
                    && (string?)of["format"] != "date") without.Add($"{where}.{member}");
                if ((string?)of["format"] == "date" && of["description"] is null) without.Add($"{where}.{member}");
                if (types.Contains("array") && of["maxItems"] is null) without.Add($"{where}.{member}");
                Walk($"{where}.{member}", of);
                if (of["items"] is { } item) Walk($"{where}.{member}[]", item);
            }
        }
    }

    [Fact]
    public async Task What_is_beyond_its_bound_is_refused_with_the_field_and_nothing_is_stored()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var before = server.Live.Now.Count;

        var (status, problem, _) = await server.Send(HttpMethod.Put, $"/api/campaigns/{C}/stations/S01",
            new { station = "S01", latitudeDeg = 1e300, longitudeDeg = 9.0, mount = "pole" });

        Assert.Equal((422, "latitudeDeg", "latitudeDeg '1E+300': allowed is a number from -90 to 90."),
            (status, (string)problem!["field"]!, (string)problem["detail"]!));
        var device = server.Live.Now.DeviceIds.First();
        (status, problem, _) = await server.Send(HttpMethod.Post, $"/api/devices/{device}/statuses",
            new { status = "away", reason = new string('r', 20_001) });
        Assert.Equal((422, "reason"), (status, (string)problem!["field"]!));
        (status, problem, _) = await server.Send(HttpMethod.Put, $"/api/campaigns/{C}/stations/S01/chain", Enumerable.Repeat("A", 10_001));
        Assert.Equal(422, status);
        Assert.Contains("at most 10000 items", (string)problem!["detail"]!, StringComparison.Ordinal);
        Assert.Equal(before, server.Live.Now.Count);
    }

    [Fact]
    public async Task A_phone_that_says_what_cannot_be_is_answered_as_ever_and_it_is_found_without_effect()
    {
        await using var phone = await HeathPhone.Open();
        var (server, campaign) = (phone.Server, HeathPhone.Campaign);
        var good = phone.Say(
            new ChainPlaced("S1", ["PLANNED"], [], null, null, new(53.5, -1.2, 4), null, null, [], null),
            Subject.Campaign(campaign), Subject.Device("PLANNED"));
        var absurd = Encoding.UTF8.GetString(good.Bytes.Span).Replace("53.5", "1e+300", StringComparison.Ordinal);

        async Task<string> Answer(HttpClient by, string path, string? token)
        {
            using var request = new HttpRequestMessage(HttpMethod.Post, path)
            {
                Content = new StringContent(absurd, Encoding.UTF8, "application/x-ndjson"),
            };
            if (token is not null) request.Headers.Authorization = new("Bearer", token);
            using var response = await by.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.OK, response.StatusCode);
            return await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        }
        Assert.Contains("\"stored\"", await Answer(phone.Browser, "/api/field/facts", null), StringComparison.Ordinal);
        Assert.Contains("\"duplicate\"", await Answer(server.Client, "/api/facts", server.Tokens[Duties.Own]), StringComparison.Ordinal);

        // Byte for byte, for whoever it is passed on to.
        Assert.Contains(absurd, server.Live.Now.Facts(Subject.Campaign(campaign)).Select(s =>
            Encoding.UTF8.GetString(server.Live.Now.Source.Read(s).Bytes.Span)));
        Assert.Empty(ArrayDeployment.Of(server.Live.Now, campaign).Placements);
        Assert.Contains("position.latitudeDeg '1E+300': allowed is a number from -90 to 90",
            Assert.Single(server.Live.Now.Findings(new(2026, 8, 3)), f => f.Rule == "unread").Text, StringComparison.Ordinal);
        using var asked = new HttpRequestMessage(HttpMethod.Get, $"/api/campaigns/{campaign}/deployment");
        asked.Headers.Authorization = new("Bearer", server.Tokens[Duties.Own]);
        Assert.Equal(HttpStatusCode.OK, (await server.Client.SendAsync(asked, TestContext.Current.CancellationToken)).StatusCode);
    }

    [Fact]
    public async Task What_a_decision_makes_beyond_its_bound_is_refused_with_the_field_too()
    {
        await using var server = await ServerUnderTest.Open();
        var desk = (Desk)server.Services.GetService(typeof(Desk))!;

        var answer = await Answers.Submit(new DefaultHttpContext(), desk, (r, s) =>
            s.Of(r, new DeviceNoted(new string('n', 20_001)), [Subject.Device("A")]));

        var problem = Assert.IsType<Microsoft.AspNetCore.Http.HttpResults.ProblemHttpResult>(answer);
        Assert.Equal((422, "text"), (problem.StatusCode, (string)problem.ProblemDetails.Extensions["field"]!));
        Assert.Equal(0, server.Live.Now.Count);
    }

    [Fact]
    public async Task The_board_tells_so_much_and_says_how_much_more_there_is()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true, new PatientTime());
        const int Stations = 1100;
        await server.Live.Submit(
            [.. Enumerable.Range(0, Stations).Select(n => FactText.WriteDerived(
                new(Occurred.At(new DateTimeOffset(2026, 8, 3, 9, 0, 0, TimeSpan.Zero).AddSeconds(n)), "P1", "phone-" + n, n),
                new ChainPlaced($"X{n:0000}", ["M1"], [], null, null, new(89, 179, 1e8), null, null, [], null),
                    [Subject.Campaign(C), Subject.Device("M1")]))], "test");
        var findings = DeploymentFindings.Of(server.Live.Now, C);
        Assert.InRange(findings.Count, 2 * Stations, 4 * Stations); // each in no plan, of no known device, and somewhere else too

        var board = await server.Client.GetStringAsync($"/board/{C}", TestContext.Current.CancellationToken);

        Assert.Equal(50, Count(board, "<details class=\"settle\">"));
        Assert.Contains($"And {findings.Count - 50} more", board, StringComparison.Ordinal);
        Assert.Equal(1000, System.Text.RegularExpressions.Regex.Count(board, "<td><button [^>]*aria-pressed="));
        Assert.Contains("more stations; those that fail come first", board, StringComparison.Ordinal);
        Assert.Contains($"and {Stations - 200} more, who spoke before", board, StringComparison.Ordinal);
        Assert.Contains("more; they are told here", await server.Client.GetStringAsync("/journal", TestContext.Current.CancellationToken),
            StringComparison.Ordinal);
        var start = await server.Client.GetStringAsync("/", TestContext.Current.CancellationToken);
        Assert.Contains("more findings in the facts themselves", start, StringComparison.Ordinal);
    }

    private static int Count(string text, string part) => text.Split(part).Length - 1;

    [Fact]
    public async Task Reading_a_photo_ends_with_the_request()
    {
        using var left = new CancellationTokenSource();
        var context = new DefaultHttpContext { RequestAborted = left.Token };
        context.Request.Body = new MemoryStream(Png());

        // The clock is asked when the photo has come and its turn too: then the client leaves.
        await Assert.ThrowsAnyAsync<OperationCanceledException>(() => DeploymentApi.Read(context, new Leaving(left)));

        // The next one finds its turn.
        var next = new DefaultHttpContext();
        next.Request.Body = new MemoryStream(Png());
        var answer = await DeploymentApi.Read(next, TimeProvider.System);
        Assert.IsType<Microsoft.AspNetCore.Http.HttpResults.Ok<DeploymentApi.PhotoView>>(answer);
    }

    private static byte[] Png()
    {
        using var content = new MemoryStream();
        MicRegister.Documents.Drawings.PngPainter.Paint(new(50, 50, "nothing", []), 100, content);
        return content.ToArray();
    }

    private sealed class Leaving(CancellationTokenSource left) : TimeProvider
    {
        public override long GetTimestamp()
        {
            left.Cancel();
            return 0;
        }
    }
}
