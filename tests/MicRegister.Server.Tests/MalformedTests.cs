using System.Net.Http.Headers;
using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register.Devices;

namespace MicRegister.Server.Tests;

/// <summary>Ten thousand requests made from the API's own document, most of them wrong somewhere: no answer is a failure of the server.</summary>
public sealed class MalformedTests
{
    private const int Requests = 10_000;
    private static readonly string[] Texts = ["", "x", "..", "../../etc/passwd", "%00", "\u0000", "NaN", "-1", "1e999", "null", "'; drop", "2026-02-30", "2026-08-03", "true", "[]", "\ud83d\ude80", new('a', 1500), "<script>", "=1+1", "device:", "01JD8XK3ZZ0000000000000000"];

    [Fact]
    public async Task Malformed_requests_get_problem_documents_and_never_a_failure()
    {
        // Another seed tries other requests.
        var seed = int.TryParse(Environment.GetEnvironmentVariable("MALFORMED_SEED"), out var chosen) ? chosen : 9457;
        var random = new Random(seed);
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var document = await server.Get("/api/openapi.json");
        var operations = document["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject().Where(o => o.Key is "get" or "post" or "put" or "patch" or "delete").Select(o => (Path: p.Key, Method: o.Key, Operation: o.Value!))).ToList();
        Assert.True(operations.Count > 40);
        var known = server.Live.Now.DeviceIds.Take(5).Concat(["QUILLMERE-26", "S01", "spare", "small-unmanned-flush", "svg"]).ToArray();
        var wrong = new List<string>();
        var statuses = new Dictionary<int, int>();

        for (var i = 0; i < Requests && wrong.Count < 10; i++)
        {
            var (path, method, operation) = operations[random.Next(operations.Count)];
            var address = System.Text.RegularExpressions.Regex.Replace(path, @"\{[^}]+\}", _ => Uri.EscapeDataString(random.Next(2) == 0 ? known[random.Next(known.Length)] : Text(random).Replace("\0", "", StringComparison.Ordinal) is { Length: > 0 } t ? t : "x")); // a nought in a path is refused before any of our code
            var query = string.Join('&', (operation["parameters"]?.AsArray() ?? []).Where(p => (string)p!["in"]! == "query" && random.Next(2) == 0).Select(p => $"{(string)p!["name"]!}={Uri.EscapeDataString(Text(random))}"));
            using var request = new HttpRequestMessage(new(method.ToUpperInvariant()), address + (query.Length > 0 ? "?" + query : ""));
            if (random.Next(5) == 0) request.Headers.TryAddWithoutValidation("If-Match", random.Next(2) == 0 ? "\"1\"" : "nonsense");
            if (method is not ("get" or "delete"))
            {
                var schema = operation["requestBody"]?["content"]?["application/json"]?["schema"];
                var body = random.Next(6) == 0 ? Text(random) : Value(schema, document, random, 0)?.ToJsonString() ?? "null";
                request.Content = new ByteArrayContent(Encoding.UTF8.GetBytes(body));
                request.Content.Headers.ContentType = new MediaTypeHeaderValue(random.Next(12) == 0 ? "text/plain" : "application/json");
            }
            using var answer = await server.Client.SendAsync(request, TestContext.Current.CancellationToken);
            var status = (int)answer.StatusCode;
            statuses[status] = statuses.GetValueOrDefault(status) + 1;
            if (status >= 500 || (status >= 400 && answer.Content.Headers.ContentType?.MediaType != "application/problem+json"))
                wrong.Add($"seed {seed}, request {i}: {method} {request.RequestUri} gave {status} {answer.Content.Headers.ContentType}: {(request.Content is null ? "" : await request.Content.ReadAsStringAsync(TestContext.Current.CancellationToken))[..Math.Min(300, request.Content is null ? 0 : (int)request.Content.Headers.ContentLength!.Value)]}");
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        // The requests are of all sorts: some are accepted, most are not.
        Assert.True(statuses.GetValueOrDefault(200) > 200 && statuses.Keys.Count(s => s >= 400) >= 3, string.Join(", ", statuses));
    }

    [Fact]
    public async Task A_null_in_a_list_is_named()
    {
        await using var server = await ServerUnderTest.Open();

        var (status, problem, _) = await server.Send(HttpMethod.Post, "/api/checks", new { checks = new object?[] { null } });

        Assert.Equal(422, status);
        Assert.Equal("checks holds null: leave it out instead.", (string)problem!["detail"]!);
    }

    private static string Text(Random random) => Texts[random.Next(Texts.Length)];

    // A value that fits its schema, more or less.
    private static JsonNode? Value(JsonNode? schema, JsonNode document, Random random, int depth)
    {
        if (random.Next(14) == 0) return random.Next(5) switch { 0 => null, 1 => JsonValue.Create(Text(random)), 2 => JsonValue.Create(random.NextDouble() * 1e12), 3 => new JsonArray(), _ => new JsonObject() };
        if ((string?)schema?["$ref"] is { } reference) return depth > 8 ? null : Value(document["components"]!["schemas"]![reference.Split('/')[^1]], document, random, depth + 1);
        if (schema?["enum"] is JsonArray choices) return choices[random.Next(choices.Count)]?.DeepClone();
        if (schema?["oneOf"] is JsonArray several) return Value(several[random.Next(several.Count)], document, random, depth + 1);
        if (schema?["properties"] is JsonObject properties)
        {
            var made = new JsonObject();
            foreach (var (name, of) in properties)
            {
                if (random.Next(10) > 0) made[name] = Value(of, document, random, depth + 1);
            }
            return made;
        }
        var type = schema?["type"] is JsonArray types ? (string?)types[random.Next(types.Count)] : (string?)schema?["type"];
        return type switch
        {
            "array" => new JsonArray([.. Enumerable.Range(0, random.Next(3)).Select(_ => Value(schema!["items"], document, random, depth + 1))]),
            "integer" => JsonValue.Create(random.Next(-5, 3000)),
            "number" => JsonValue.Create(Math.Round((random.NextDouble() - 0.3) * 200, 2)),
            "boolean" => JsonValue.Create(random.Next(2) == 0),
            "null" => null,
            "object" => new JsonObject { ["size-mm"] = 12.7 },
            _ => JsonValue.Create((string?)schema?["format"] == "date" ? $"2026-0{random.Next(1, 10)}-0{random.Next(1, 10)}" : random.Next(2) == 0 ? "microphone" : Text(random)),
        };
    }
}
