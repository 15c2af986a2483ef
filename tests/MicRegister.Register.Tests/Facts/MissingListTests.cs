using System.Reflection;
using System.Text.Json;
using System.Text.Json.Nodes;
using MicRegister.Register.Facts;
using MicRegister.Register.Settling;

namespace MicRegister.Register.Tests.Facts;

/// <summary>
/// A fact of a known version whose required list is missing or null is kept, has no effect, and is a finding: never without a word.
/// Lists are found in the bodies of all kinds by reflection.
/// </summary>
public sealed class MissingListTests
{
    private static readonly NullabilityInfoContext Nullability = new();

    public static TheoryData<string, int, string> Lists
    {
        get
        {
            var data = new TheoryData<string, int, string>();
            foreach (var kind in FactKinds.All)
            {
                foreach (var path in ListsOf(kind.Example)) data.Add(kind.Name, kind.Version, path);
            }
            return data;
        }
    }

    [Fact]
    public void Placements_checks_events_and_certificates_are_among_them()
    {
        var lists = FactKinds.All.SelectMany(k => ListsOf(k.Example).Select(p => $"{k.Name} {k.Version} {p}")).ToList();

        Assert.Contains("chain-placed 2 devices", lists);
        Assert.Contains("chain-placed 1 devices", lists);
        Assert.Contains("chain-checked 2 budget", lists);
        Assert.Contains("event-recorded 2 recordings", lists);
        Assert.Contains("certificate-issued 1 results", lists);
        Assert.Contains("chain-taken-in 1 missing", lists);
        Assert.Contains("chains-compared 1 chains.devices", lists);
        Assert.True(lists.Count > 20, $"Only {lists.Count} lists were found.");
    }

    [Theory]
    [MemberData(nameof(Lists))]
    public void Without_it_or_with_null_in_its_place_a_fact_is_a_finding(string name, int version, string path)
    {
        var kind = FactKinds.Find(name, version)!;
        var written = FactText.WriteDerived(
            new(Occurred.On(new(2026, 5, 4)), "P1", "desk", 7), kind.Example, ["device:A1", "campaign:C1", "event:C1.E1"]);
        Assert.IsType(kind.Body, FactText.ReadCanonical(written.Bytes).Body);

        foreach (var hasNull in new[] { false, true })
        {
            var fact = FactText.ReadCanonical(Without(written.Bytes, path, hasNull));

            Assert.Equal($"{name} {version}", $"{fact.Kind} {fact.Version}");
            Assert.IsType<UnreadBody>(fact.Body);
            var finding = Assert.Single(FactList.RegisterOf([fact]).Findings(new(2026, 5, 4)), f => f.Rule == "unread");
            Assert.Contains(fact.Id.ToString(), finding.Facts);
            Assert.Contains(name, finding.Text, StringComparison.Ordinal);
        }
    }

    private static byte[] Without(ReadOnlyMemory<byte> bytes, string path, bool hasNull)
    {
        var fact = JsonNode.Parse(bytes.Span)!.AsObject();
        var parts = path.Split('.');
        var holder = parts[..^1].Aggregate(fact["body"]!, (node, part) => node[part]![0]!).AsObject();
        Assert.True(holder.Remove(parts[^1]), $"The example has no '{path}'.");
        if (hasNull) holder[parts[^1]] = null;
        return CanonicalJson.Write(JsonDocument.Parse(fact.ToJsonString()).RootElement);
    }

    // Lists that cannot be absent: of the body itself, and of what stands first in the lists of its example.
    private static IEnumerable<string> ListsOf(object body)
    {
        foreach (var member in BodyBounds.Members(body.GetType()))
        {
            if (Bound.ItemOf(member.PropertyType) is null || member.PropertyType == typeof(string)) continue;
            var name = char.ToLowerInvariant(member.Name[0]) + member.Name[1..];
            if (Nullability.Create(member).WriteState != NullabilityState.Nullable) yield return name;
            if (member.GetValue(body) is not IEnumerable<object> items || items.FirstOrDefault() is not { } first) continue;
            if (!BodyBounds.IsOurs(first.GetType())) continue;
            foreach (var inner in ListsOf(first)) yield return $"{name}.{inner}";
        }
    }
}
