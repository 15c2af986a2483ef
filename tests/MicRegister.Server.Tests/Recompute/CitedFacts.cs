using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Serialization;
using System.Text.RegularExpressions;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Tracing;

namespace MicRegister.Server.Tests.Recompute;

/// <summary>
/// One station of a trace as a second implementation is given it: the facts that its JSON names by id, what is said of the devices, the
/// campaign, the station and the profile that it names by theirs, and its words with every number taken out.
/// </summary>
/// <remarks>
/// Devices are named by the chain and its links, so their registrations, descriptions and couplings go along: details such as a
/// coefficient have no fact of their own in a trace. The campaign is named by the event, and its plan names the profile; one that came
/// with the program is no fact and goes along as if it were one. The register's founding tells the zone where no plan does.
/// </remarks>
internal static partial class CitedFacts
{
    /// <summary>As the API writes it.</summary>
    public static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web)
    {
        DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull,
        Converters = { new JsonStringEnumConverter(JsonNamingPolicy.KebabCaseLower) },
    };

    private static readonly string[] OfDevices = ["device-registered", "device-described", "coupling-stated"];
    private static readonly string[] OfStation = ["station-planned", "station-surveyed"];
    private static readonly string[] OfCampaign = ["campaign-planned", "sensitivity-rule-chosen"];

    /// <summary>A case for the second implementation.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="trace">The trace of an event.</param>
    /// <param name="station">One of its stations.</param>
    /// <param name="view">The same as the API gives it.</param>
    public static JsonObject Of(Register.Register register, EventTrace trace, StationTrace station, JsonObject view)
    {
        var cited = Texts(view).SelectMany(t => Ulid().Matches(t).Select(m => m.Value)).Append(trace.Event.Fact.ToString())
            .Distinct(StringComparer.Ordinal).Select(id => register.Find(FactId.Parse(id))).Where(s => s > 0).ToHashSet();
        var devices = view["devices"]!.AsArray().Select(d => (string)d!["id"]!)
            .Concat(view["links"]!.AsArray().Select(l => (string)l!["device"]!))
            .Concat(cited.SelectMany(s => register.Source.Read(s).Subjects).Where(Subject.IsDevice).Select(Subject.Id))
            .SelectMany(register.EntriesOf).ToHashSet(StringComparer.Ordinal);
        var named = devices.SelectMany(d => OfKinds(register, Subject.Device(d), OfDevices))
            .Concat(OfKinds(register, Subject.Campaign(trace.Event.Campaign), OfCampaign))
            .Concat(OfKinds(register, Subject.Campaign(trace.Event.Campaign), OfStation).Where(s => IsOf(register, s, station.Station)))
            .Concat(OfKinds(register, Subject.TheRegister, "register-founded"));
        var profile = register.Campaign(trace.Event.Campaign)?.Plan?.Profile;
        if (profile is not null) named = named.Concat(OfKinds(register, Subject.Profile(profile), "profile-written"));
        List<Fact> facts = [.. cited.Concat(named).Distinct().Select(register.Source.Read)
            .OrderBy(register.Instant).ThenBy(f => f.Counter).ThenBy(f => f.Id)];
        if (profile is not null && register.Profile(profile) is { IsBuiltIn: true } builtIn)
        {
            var stamp = new FactStamp(Occurred.On(new(1970, 1, 1)), "program", "program", 0);
            facts.Insert(0, FactText.WriteDerived(stamp, builtIn.Written, [Subject.Profile(profile)]));
        }
        var entries = devices.Where(d => register.EntriesOf(d)[0] != d).Order(StringComparer.Ordinal);
        var words = Named(station, view, [.. facts.Select(f => f.Id.ToString())]);
        words["event"] = trace.Event.Id;
        return new()
        {
            ["facts"] = new JsonArray([.. facts.Select(f => JsonNode.Parse(f.Bytes.Span))]),
            ["withdrawn"] = Array(
                facts.Where(f => register.Find(f.Id) is var s and > 0 && !register.Counts(s)).Select(f => f.Id.ToString())),
            ["entries"] = new JsonObject(entries.Select(d => KeyValuePair.Create<string, JsonNode?>(d, register.EntriesOf(d)[0]))),
            ["named"] = words,
        };
    }

    private static JsonObject Named(StationTrace station, JsonObject view, HashSet<string> cited)
    {
        JsonNode? Word(JsonNode? of, string key) => of?[key] is { } word ? NoFigures((string)word!) : null;
        JsonObject Words(JsonNode? of, params string[] keys) =>
            new(keys.Where(k => of![k] is not null).Select(k => KeyValuePair.Create(k, (JsonNode?)(string)of![k]!)));
        var named = Words(view, "station", "from", "to", "placement", "checkBefore", "checkAfter");
        named["devices"] = new JsonArray([.. view["devices"]!.AsArray().Select(d => Words(d, "id", "kind"))]);
        named["links"] = new JsonArray([.. view["links"]!.AsArray().Zip(station.Links).Select(l => Link(l.First!, l.Second))]);
        named["inPlace"] = new JsonArray([.. view["inPlace"]!.AsArray().Select(k => Words(k, "fact", "since"))]);
        named["curves"] = new JsonArray([.. view["curves"]!.AsArray().Select(c => Words(c, "certificate", "acts"))]);
        if (view["incidence"] is { } incidence) named["incidence"] = (string)incidence["fact"]!;
        if (view["applied"] is not { } applied) return named;
        named["rule"] = (string)applied["rule"]!;
        named["sources"] = Array(applied["budget"]!.AsArray().Select(l => (string)l!["source"]!));
        named["terms"] = new JsonArray([.. applied["terms"]!.AsArray().Select(t =>
            new JsonObject { ["name"] = (string)t!["name"]!, ["source"] = Word(t, "source"), ["remark"] = Word(t, "remark") })]);
        return named;

        // What is in force now is named by the reason that says so.
        JsonObject Link(JsonNode link, TraceLink known)
        {
            var words = Words(link, "device", "certificate");
            if (known.InForce is not { } force) return words;
            Assert.Contains(force.Fact.ToString(), cited);
            words["inForce"] = force.Fact.ToString();
            return words;
        }
    }

    private static IEnumerable<int> OfKinds(Register.Register register, string subject, params string[] kinds) =>
        register.Facts(subject).Where(s => kinds.Any(k => register.IsOfKind(s, k)) && register.Counts(s));

    private static bool IsOf(Register.Register register, int sequence, string station) =>
        register.Source.Read(sequence).Body switch
        {
            StationPlanned planned => planned.Station == station,
            StationSurveyed surveyed => surveyed.Station == station,
            _ => false,
        };

    private static JsonArray Array(IEnumerable<string> texts) => new([.. texts.Select(t => (JsonNode)t)]);

    private static IEnumerable<string> Texts(JsonNode? node) => node switch
    {
        JsonObject all => all.SelectMany(p => Texts(p.Value)),
        JsonArray all => all.SelectMany(Texts),
        JsonValue value when value.GetValueKind() == JsonValueKind.String => [(string)value!],
        _ => [],
    };

    private static string NoFigures(string text) => Figure().Replace(text, m => m.Groups["instant"].Success ? m.Value : "#");

    [GeneratedRegex(@"\b[0-7][0-9A-HJKMNP-TV-Z]{25}\b")]
    private static partial Regex Ulid();

    // A number that is no part of an id or of an instant.
    [GeneratedRegex(@"(?<instant>\b\d{4}-\d\d-\d\dT[\d:.]+Z)|\b\d+(\.\d+)?\b")]
    private static partial Regex Figure();
}
