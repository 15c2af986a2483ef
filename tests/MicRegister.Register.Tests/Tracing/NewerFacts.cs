using System.Text;
using System.Text.Json.Nodes;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Facts of a version to come.</summary>
internal static class NewerFacts
{
    /// <summary>A step of a version that nobody here knows.</summary>
    public static Fact Newer(string kind, string at, string? station, params string[] devices)
    {
        var body = new JsonObject();
        if (station is not null) body["station"] = station;
        return Of(kind, at, body, [Subject.Campaign(Heath.C), .. devices.Select(Subject.Device)]);
    }

    /// <summary>A fact of a version that nobody here knows.</summary>
    public static Fact Of(string kind, string at, JsonObject body, string[] subjects)
    {
        var instant = "2026-" + at.Replace(' ', 'T') + (at.Length > 11 ? ".000Z" : ":00.000Z");
        var content = Encoding.UTF8.GetBytes(kind + at + string.Join(' ', subjects) + body.ToJsonString());
        // Its keys stand in canonical order.
        var fact = new JsonObject
        {
            ["at"] = instant,
            ["author"] = "P1",
            ["body"] = body,
            ["client"] = "phone-9.ABCD",
            ["counter"] = 1,
            ["id"] = FactId.Derive(Make.On(instant), content).ToString(),
            ["kind"] = kind,
            ["subjects"] = new JsonArray([.. subjects.Select(s => (JsonNode)s)]),
            ["version"] = 9,
        };
        return FactText.ReadCanonical(Encoding.UTF8.GetBytes(fact.ToJsonString()));
    }
}
