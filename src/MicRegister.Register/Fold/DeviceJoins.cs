using System.Collections.Immutable;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Fold;

/// <summary>Which entries stand under which kept one. Joining and parting are stated in time, so the last word on a pair counts.</summary>
internal static class DeviceJoins
{
    public static ImmutableSortedDictionary<string, string> Fold(IEnumerable<Fact> facts)
    {
        var joined = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        foreach (var fact in facts)
        {
            if (fact.Body is DevicesJoined j && Root(j.Keep) is var keep && Root(j.Other) != keep) joined[Root(j.Other)] = keep;
            if (fact.Body is DevicesParted p && Root(p.Keep) == Root(p.Other) && !joined.Remove(p.Other)) joined.Remove(p.Keep);
        }
        foreach (var other in joined.Keys.ToList()) joined[other] = Root(other);
        return joined.ToImmutable();

        string Root(string id)
        {
            while (joined.TryGetValue(id, out var next)) id = next;
            return id;
        }
    }
}
