using MicRegister.Register.Devices;
using MicRegister.Server.Api;
using Microsoft.AspNetCore.Routing;

namespace MicRegister.Server.Tests;

/// <summary>Every read answers from the state that it names, or says why not: whatever endpoints there are.</summary>
public sealed class EarlierStatesTests
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Every_read_answers_from_an_earlier_state_or_says_why_not()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var addresses = await ReadDemo.Of(server);
        var newest = server.Live.Now.Count;
        var reads = Reads(server);
        var (wrong, honoured) = (new List<string>(), 0);

        Assert.Equal(addresses.Keys.Order(StringComparer.Ordinal), reads.Keys.Order(StringComparer.Ordinal));
        foreach (var (route, endpoint) in reads)
        {
            var address = addresses[route];
            var now = await Ask(server, address);
            if (now.Status != 200) wrong.Add($"{address}: {now.Status} {now.Text}");
            var latest = await Ask(server, At(address, newest));
            if (endpoint.Metadata.GetMetadata<EarlierStates.NowAlone>() is { } alone)
            {
                if (latest.Status != 422 || !latest.Text.Contains(alone.Why, StringComparison.Ordinal)) wrong.Add($"{address} does not refuse: {latest.Status}");
                continue;
            }
            honoured++;
            if (latest != now) wrong.Add($"{address} says something else of the newest state: {latest.Status}");
            var first = await Ask(server, At(address, 0));
            if (first.Status is not (200 or 404) || first == now) wrong.Add($"{address} says the same of the empty log: {first.Status}");
            if ((await Ask(server, At(address, newest + 1))) is not { Status: 422 } beyond || !beyond.Text.Contains($"from 0 to {newest}", StringComparison.Ordinal))
                wrong.Add($"{address} takes a state that is not there yet");
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        Assert.Equal(reads.Count - 6, honoured); // the document, who asks, kit of a phone, calendar, attachments, empty tables
    }

    [Theory]
    [InlineData("-1")]
    [InlineData("x")]
    [InlineData("")]
    [InlineData("1.5")]
    [InlineData("99999999999")]
    public async Task What_is_no_sequence_is_refused(string sequence)
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        using var answer = await server.Client.GetAsync($"/api/campaigns?sequence={sequence}", Cancel);

        Assert.Equal((422, "application/problem+json"), ((int)answer.StatusCode, answer.Content.Headers.ContentType!.MediaType));
    }

    [Fact]
    public async Task A_state_in_between_is_the_one_of_its_sequence()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var microphone = server.Live.Now.DeviceIds.First(d => server.Live.Now.Device(d)!.Serial == "41001");
        var before = await Ask(server, $"/api/devices/{microphone}");
        var sequence = server.Live.Now.Count;
        await server.Send(HttpMethod.Post, $"/api/devices/{microphone}/notes", new { text = "scratched" });

        Assert.NotEqual(before, await Ask(server, $"/api/devices/{microphone}"));
        Assert.Equal(before, await Ask(server, $"/api/devices/{microphone}?sequence={sequence}"));
        // What is stated is stated in the newest state, whatever was read before.
        Assert.NotEqual(before, await Ask(server, $"/api/devices/{microphone}"));
    }

    [Fact]
    public async Task The_document_offers_the_question_where_it_is_answered_and_says_why_it_is_not()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        var paths = (await server.Get("/api/openapi.json"))["paths"]!.AsObject();
        foreach (var (path, operations) in paths)
        {
            foreach (var (method, operation) in operations!.AsObject())
            {
                var offered = (operation!["parameters"]?.AsArray() ?? []).Count(p => (string)p!["name"]! == "sequence");
                var isRefused = ((string?)operation["description"])?.Contains("No earlier state: ", StringComparison.Ordinal) == true;
                Assert.True(offered == (method == "get" && !isRefused ? 1 : 0), $"{method} {path}: {offered} times");
                Assert.True(!isRefused || method == "get", $"{method} {path}");
            }
        }
    }

    private static Dictionary<string, RouteEndpoint> Reads(ServerUnderTest server) =>
        ((EndpointDataSource)server.Services.GetService(typeof(EndpointDataSource))!).Endpoints.OfType<RouteEndpoint>()
            .Where(e => EarlierStates.IsOurs(e) && e.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods.Contains("GET") == true)
            .ToDictionary(e => "/" + e.RoutePattern.RawText!.Trim('/'));

    private static string At(string address, int sequence) =>
        $"{address}{(address.Contains('?', StringComparison.Ordinal) ? '&' : '?')}sequence={sequence}";

    private static async Task<(int Status, string Text)> Ask(ServerUnderTest server, string address)
    {
        using var answer = await server.Client.GetAsync(address, Cancel);
        // A PDF says when it was made.
        return ((int)answer.StatusCode, answer.Content.Headers.ContentType?.MediaType == "application/pdf"
            ? $"{(await answer.Content.ReadAsByteArrayAsync(Cancel)).Length} bytes"
            : await answer.Content.ReadAsStringAsync(Cancel));
    }
}
