using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace MicRegister.Server.Tests;

/// <summary>Enumerations are what the API's own document states: taken in addresses, questions and bodies, and given in answers.</summary>
public sealed class EnumerationsTests
{
    private const string NoWord = "no-such-word";

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Each_stated_word_is_taken_in_addresses_and_questions_and_no_other()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var document = await server.Get("/api/openapi.json");
        var (wrong, tried) = (new List<string>(), new List<string>());
        foreach (var (path, method, operation) in Operations(document))
        {
            foreach (var p in operation["parameters"]?.AsArray() ?? [])
            {
                if (Resolved(p!["schema"], document)?["enum"] is not JsonArray words) continue;
                var name = (string)p["name"]!;
                tried.Add($"{method} {path} {name}");
                foreach (var word in words.OfType<JsonNode>().Select(w => (string)w!).Append(NoWord))
                {
                    var address = Regex.Replace(path, @"\{([^}]+)\}", m => m.Groups[1].Value == name ? word : m.Groups[1].Value == "id" ? ReadDemo.C : "csv");
                    if ((string)p["in"]! == "query") address += $"?{name}={word}";
                    using var request = new HttpRequestMessage(new(method), address);
                    if (method is not "GET") request.Content = JsonContent.Create(Array.Empty<string>());
                    using var answer = await server.Client.SendAsync(request, Cancel);
                    var text = await answer.Content.ReadAsStringAsync(Cancel);
                    if ((int)answer.StatusCode == 400 != (word == NoWord)) wrong.Add($"{method} {address}: {(int)answer.StatusCode} {text}");
                    if (word == NoWord && !words.OfType<JsonNode>().All(w => text.Contains((string)w!, StringComparison.Ordinal))) wrong.Add($"{method} {address} does not say what is allowed: {text}");
                }
            }
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        Assert.Equal(
            [
                "GET /api/campaigns/{id}/covariance.{format} part", "GET /api/campaigns/{id}/covariance.{format} unit",
                "GET /api/campaigns/{id}/events kind", "GET /api/devices status", "GET /api/fleet/devices.{format} status",
                "GET /api/fleet/inspections.{format} status", "GET /api/fleet/results.{format} status",
                "GET /api/mounts mount", "GET /api/mounts source", "GET /api/mounts/plot.{format} mount",
                "GET /api/mounts/plot.{format} source", "GET /api/mounts/table.{format} mount", "GET /api/mounts/table.{format} source",
                "PUT /api/campaigns/{id}/kit/{purpose} purpose",
            ],
            tried.Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Each_stated_word_is_taken_in_bodies_and_no_other()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var document = await server.Get("/api/openapi.json");
        var (wrong, tried) = (new List<string>(), 0);
        foreach (var (path, method, operation) in Operations(document))
        {
            if (operation["requestBody"]?["content"]?["application/json"]?["schema"] is not { } schema) continue;
            foreach (var (where, words) in Enumerations(schema, document, ""))
            {
                tried++;
                foreach (var word in words.Append(NoWord))
                {
                    var body = Made(schema, document, "", where, word);
                    var address = Regex.Replace(path, @"\{[^}]+\}", "nothing");
                    var answer = await server.Send(new(method), path.Contains("{purpose}", StringComparison.Ordinal) ? address.Replace("kit/nothing", "kit/spare", StringComparison.Ordinal) : address, body!);
                    if (answer.Status == 400 != (word == NoWord) || answer.Status >= 500) wrong.Add($"{method} {path} {where} {word}: {answer.Status} {answer.Body?["detail"]}");
                }
            }
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        Assert.True(tried >= 10, $"{tried}");
    }

    [Fact]
    public async Task Answers_hold_the_stated_words_alone()
    {
        await using var server = await ServerUnderTest.Open(withDemo: true);
        var document = await server.Get("/api/openapi.json");
        var (wrong, seen) = (new List<string>(), new HashSet<string>());
        foreach (var (route, address) in await ReadDemo.Of(server))
        {
            var stated = document["paths"]![route]?["get"]?["responses"]?["200"]?["content"]?["application/json"]?["schema"];
            if (stated is null) continue;
            Compare(stated, await server.Get(address), route);
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong.Distinct()));
        Assert.True(seen.Count >= 15, string.Join(", ", seen));

        void Compare(JsonNode? schema, JsonNode? node, string where)
        {
            if (node is null || Resolved(schema, document) is not { } own) return;
            if (own["enum"] is JsonArray words)
            {
                seen.Add(where);
                if (!words.Any(w => (string?)w == (string?)node)) wrong.Add($"{where}: {node}");
            }
            if (node is JsonArray items) foreach (var item in items) Compare(own["items"], item, where + "[]");
            if (node is not JsonObject members) return;
            foreach (var (name, member) in members) Compare(own["properties"]?[name] ?? own["additionalProperties"] as JsonObject, member, $"{where}.{name}");
        }
    }

    [Fact]
    public async Task Readiness_is_one_shape_on_the_command_line_and_in_the_API()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);
        var server = await ServerUnderTest.Reading(withDemo: true);

        var (_, output, _) = await CommandLine.Run("readiness", ReadDemo.C, "--data", folder.Path, "--today", "2026-08-03", "--json");
        var answer = await server.Get($"/api/campaigns/{ReadDemo.C}/readiness");

        Assert.True(JsonNode.DeepEquals(answer, JsonNode.Parse(output)!["campaigns"]![0]));
        Assert.Equal("not-ready", (string)answer["verdict"]!);
    }

    private static IEnumerable<(string Path, string Method, JsonNode Operation)> Operations(JsonNode document) =>
        document["paths"]!.AsObject().SelectMany(p => p.Value!.AsObject()
            .Where(o => o.Key is "get" or "post" or "put" or "patch" or "delete").Select(o => (p.Key, o.Key.ToUpperInvariant(), o.Value!)));

    // A reference is followed, and of several the one that is not null is taken.
    private static JsonNode? Resolved(JsonNode? schema, JsonNode document)
    {
        if ((string?)schema?["$ref"] is { } reference) return Resolved(document["components"]!["schemas"]![reference.Split('/')[^1]], document);
        return (schema?["oneOf"] ?? schema?["anyOf"]) is JsonArray several ? Resolved(several.First(s => (string?)s!["type"] != "null"), document) : schema;
    }

    private static IEnumerable<(string Where, IReadOnlyList<string> Words)> Enumerations(JsonNode? schema, JsonNode document, string where)
    {
        if (where.Count(c => c is '.' or '[') > 8 || Resolved(schema, document) is not { } own) yield break;
        if (own["enum"] is JsonArray words) yield return (where, [.. words.OfType<JsonNode>().Select(w => (string)w!)]);
        if (own["items"] is { } items) foreach (var e in Enumerations(items, document, where + "[]")) yield return e;
        foreach (var (name, member) in own["properties"] as JsonObject ?? [])
            foreach (var e in Enumerations(member, document, $"{where}.{name}")) yield return e;
    }

    // What fits the schema, with one word in one place.
    private static JsonNode? Made(JsonNode? schema, JsonNode document, string where, string place, string word)
    {
        if (Resolved(schema, document) is not { } own) return null;
        if (own["enum"] is JsonArray words) return where == place ? word : words.First(w => w is not null)!.DeepClone();
        if (own["properties"] is JsonObject members)
        {
            var required = (own["required"] as JsonArray)?.Select(r => (string)r!).ToHashSet() ?? [];
            return new JsonObject(members
                .Where(m => required.Contains(m.Key) || place.StartsWith($"{where}.{m.Key}", StringComparison.Ordinal))
                .Select(m => KeyValuePair.Create(m.Key, Made(m.Value, document, $"{where}.{m.Key}", place, word))));
        }
        var type = own["type"] is JsonArray types ? (string?)types.First(t => (string?)t != "null") : (string?)own["type"];
        return type switch
        {
            "array" => place.StartsWith(where + "[]", StringComparison.Ordinal) ? new JsonArray(Made(own["items"], document, where + "[]", place, word)) : new JsonArray(),
            "integer" => 1,
            "number" => 1,
            "boolean" => true,
            "object" => new JsonObject(),
            _ => (string?)own["format"] == "date" ? "2026-08-03" : "x",
        };
    }
}
