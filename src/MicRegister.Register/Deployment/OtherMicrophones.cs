using System.Collections.Concurrent;
using System.Collections.Frozen;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.Fold;

namespace MicRegister.Register.Deployment;

/// <summary>
/// What was said in the place of a placement, a check or a taking in, and names another microphone: that is no correction but another
/// chain. At the desk it is refused; what comes from outdoors is kept, and which of both holds is for a person to decide.
/// </summary>
public static class OtherMicrophones
{
    private static readonly FrozenSet<string> Kinds = FactKinds.NamesOf<IStay>();

    /// <summary>Those of a campaign that nobody has settled yet by annulling one of both.</summary>
    internal static IReadOnlyList<OtherMicrophone> Of(Register register, string campaign)
    {
        var pairs = register.Memory.Of<Shelf<IReadOnlyList<Pair>>>()
            .Of(campaign, register.Version(Subject.Campaign(campaign)), id => Pairs(register, Subject.Campaign(id)));
        if (pairs.Count == 0) return [];
        var open = new List<OtherMicrophone>();
        foreach (var pair in pairs)
        {
            var (was, named) = (MicrophonesOf(register, pair.Target), MicrophonesOf(register, pair.Anew));
            if (!was.SetEquals(named) && InEffect(register, pair) is { } effect)
                open.Add(new(pair.Anew.Id, pair.Target.Id, effect, pair.Anew.Kind, StationOf(pair.Target.Body), was, named));
        }
        return open;
    }

    /// <summary>Findings of a campaign.</summary>
    internal static IEnumerable<RegisterFinding> Findings(Register register, string campaign)
    {
        var name = register.Campaign(campaign)?.Name ?? campaign;
        return Of(register, campaign).Select(o => new RegisterFinding(
            "replaced-microphone", [Subject.Campaign(campaign), .. o.Was.Union(o.Named).Order(StringComparer.Ordinal).Select(Subject.Device)],
            $"{o.Station ?? "A chain"} of {name}: {o.Text(register)} Annul the one that is wrong.",
            [o.Replacement.ToString(), o.Target.ToString()]));
    }

    /// <summary>Why a fact may not be stated in the place of another one; null where it may.</summary>
    /// <param name="register">The newest state.</param>
    /// <param name="target">What it is to replace.</param>
    /// <param name="anew">What is stated.</param>
    public static Rejection? Refusal(Register register, Fact target, Fact anew)
    {
        if (!Kinds.Contains(anew.Kind) || DevicesOf(target.Body) is null || DevicesOf(anew.Body) is null) return null;
        var (was, named) = (MicrophonesOf(register, target), MicrophonesOf(register, anew));
        return was.SetEquals(named)
            ? null
            : Saying.Invalid(
                $"Fact {anew.Id} replaces {target.Kind} {target.Id}, which names {Names(register, was)}, and names {Names(register, named)}: "
                + "what replaces it names the same microphone. Annul that fact, and state the other chain for itself.");
    }

    // Which facts replace others with other devices: facts never change, so each is read once for all states.
    private static List<Pair> Pairs(Register register, string campaign)
    {
        var (catalog, read) = (register.Catalog, register.Lasting<ConcurrentDictionary<FactId, Pair?>>());
        var pairs = new List<Pair>();
        foreach (var (sequence, pointer) in register.Corrections.Pointers)
        {
            if (pointer.IsAnnulment || pointer.At == 0 || !Kinds.Contains(catalog.Kind(sequence))) continue;
            var pair = read.GetOrAdd(catalog.Id(sequence), _ => Read(register, sequence, pointer.At));
            if (pair is not null && pair.Target.Subjects.Contains(campaign)) pairs.Add(pair);
        }
        pairs.Sort((a, b) => a.Anew.Id.CompareTo(b.Anew.Id));
        return pairs;
    }

    private static Pair? Read(Register register, int replacement, int target)
    {
        var (anew, old) = (register.Source.Read(replacement), register.Source.Read(target));
        return DevicesOf(anew.Body) is { } named && DevicesOf(old.Body) is { } was && !named.ToHashSet(StringComparer.Ordinal).SetEquals(was)
            ? new(old, anew)
            : null;
    }

    // The one of both that counts now, or what counts in its place; null where a person annulled one.
    private static FactId? InEffect(Register register, Pair pair)
    {
        if (register.TakenOutBy(pair.Anew.Id) is not null) return null;
        if (register.Counts(register.Find(pair.Anew.Id))) return pair.Anew.Id;
        if (register.Counts(register.Find(pair.Target.Id))) return pair.Target.Id;
        var standing = register.Corrections.Standing(pair.Target.Id, register.Catalog, register.Source);
        return standing == 0 ? null : register.Catalog.Id(standing);
    }

    private static HashSet<string> MicrophonesOf(Register register, Fact fact) => [.. (DevicesOf(fact.Body) ?? [])
        .Select(d => register.EntriesOf(d)[0]).Where(d => register.KindOf(d) == DeviceKind.Microphone.Key)];

    private static IReadOnlyList<string>? DevicesOf(FactBody body) => body switch
    {
        ChainPlaced f => f.Devices,
        ChainPlacedBriefly f => f.Devices,
        ChainTakenIn f => [.. f.Devices, .. f.Missing],
        ChainChecked f => f.Devices,
        _ => null,
    };

    private static string? StationOf(FactBody body) => body switch
    {
        ChainPlaced f => f.Station,
        ChainPlacedBriefly f => f.Station,
        ChainTakenIn f => f.Station,
        ChainChecked f => f.Station,
        _ => null,
    };

    internal static string Names(Register register, IReadOnlyCollection<string> devices) => devices.Count == 0
        ? "no microphone"
        : string.Join(" and ", devices.Order(StringComparer.Ordinal).Select(d => register.Device(d)?.Name ?? d));

    private sealed record Pair(Fact Target, Fact Anew);
}

/// <summary>A fact that was said in the place of another one and names another microphone.</summary>
/// <param name="Replacement">Id of the fact.</param>
/// <param name="Target">Id of the fact that it is to replace.</param>
/// <param name="InEffect">Id of the fact that counts of both, or that counts in their place.</param>
/// <param name="Kind">Kind of the fact.</param>
/// <param name="Station">Station of the fact that it is to replace; null where it names none.</param>
/// <param name="Was">Microphones that were named.</param>
/// <param name="Named">Microphones that it names.</param>
internal sealed record OtherMicrophone(
    FactId Replacement, FactId Target, FactId InEffect, string Kind, string? Station, IReadOnlyCollection<string> Was,
    IReadOnlyCollection<string> Named)
{
    /// <summary>What is the matter, in a sentence.</summary>
    public string Text(Register register) =>
        $"what was said in the place of a {Kind.Replace('-', ' ')} names {OtherMicrophones.Names(register, Named)} "
        + $"and not {OtherMicrophones.Names(register, Was)}: which of both it was is not decided.";
}
