using MicRegister.Register.Campaigns;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using MicRegister.Register.People;

namespace MicRegister.Register.Deployment;

/// <summary>What crews said that cannot all be true: kept, shown, and for a person to settle.</summary>
public static class DeploymentFindings
{
    /// <summary>Campaigns that lie further from a day than this are settled or lost.</summary>
    private const int NearDays = 60;

    private const long DayMs = 86_400_000;

    /// <summary>So many pairs of one device are told; of further ones each placement is told by itself.</summary>
    private const int MostPairs = 20;

    /// <summary>
    /// So many pairs of one device's placements are held against each other: all of some four hundred placements,
    /// or of more that do not overlap.
    /// </summary>
    private const int MostLooks = 100_000;

    /// <summary>Findings of all campaigns around a day.</summary>
    public static IEnumerable<RegisterFinding> Around(Register register, DateOnly today) => register.CampaignIds
        .Where(id => register.Campaign(id)?.Plan is not { } plan || (plan.FirstDay <= today.AddDays(NearDays) && plan.LastDay >= today.AddDays(-NearDays)))
        .SelectMany(id => Of(register, id));

    /// <summary>Findings of one campaign, in the order of stations and time.</summary>
    public static IReadOnlyList<RegisterFinding> Of(Register register, string campaign)
    {
        var deployment = ArrayDeployment.Of(register, campaign);
        if (deployment.Placements.Count == 0 && deployment.TakenIn.Count == 0) return [.. OtherMicrophones.Findings(register, campaign)];
        var state = register.Campaign(campaign);
        var name = state?.Name ?? campaign;
        var findings = new List<RegisterFinding>();
        findings.AddRange(OtherMicrophones.Findings(register, campaign));
        findings.AddRange(Twice(register, deployment));
        foreach (var p in deployment.Placements)
        {
            foreach (var label in p.UnknownLabels)
                findings.Add(new("label-unknown", [Subject.Label(label), Subject.Campaign(campaign)], $"Station {p.Station} of {name}: a part with the label {Spoken(label)} was placed, and no device carries that label here. Say what it is on.", [p.Fact.ToString()]));
            foreach (var device in p.Devices.Where(d => register.Device(d)?.Kind is null))
                findings.Add(new("device-unknown", [Subject.Device(device), Subject.Campaign(campaign)], $"Station {p.Station} of {name}: {device} was placed, and the register does not know it.", [p.Fact.ToString()]));
            if (state?.Stations.ContainsKey(p.Station) == false)
                findings.Add(new("station-unknown", [Subject.Campaign(campaign)], $"A chain was placed at {p.Station}, which {name} has not planned. Plan the station, or annul the placement.", [p.Fact.ToString()]));
        }
        var lastHere = LastHere(register, deployment);
        foreach (var (fact, taken, ended) in deployment.TakenIn)
        {
            if (ended is null) findings.Add(new("taken-in-unplaced", [Subject.Campaign(campaign)], $"{taken.Station} of {name} was taken in on {fact.Occurred.Day:yyyy-MM-dd}, and nothing had been placed there.", [fact.Id.ToString()]));
            foreach (var device in taken.Missing.Where(d => IsStillMissing(register, lastHere, fact, d)))
                findings.Add(new("missing-at-take-in", [Subject.Device(device), Subject.Campaign(campaign)], $"{NameOf(register, device)} was not at {taken.Station} when {name} took it in on {fact.Occurred.Day:yyyy-MM-dd}. Find it, or say that it is lost.", [fact.Id.ToString()]));
        }
        return findings;
    }

    /// <summary>Devices of a campaign that stood at two places at once at any time of a span, in it or in another campaign that ran then.</summary>
    internal static IReadOnlyList<RegisterFinding> Overlapping(Register register, string campaign, long fromMs, long toMs)
    {
        var here = ArrayDeployment.Of(register, campaign);
        var running = register.CampaignIds.Where(c => c != campaign && register.Campaign(c)?.Plan is { } plan && ZoneOffsets.StartOfDay(plan.FirstDay, plan.Offsets) - DayMs <= toMs && ZoneOffsets.StartOfDay(plan.LastDay.AddDays(1), plan.Offsets) + DayMs >= fromMs);
        var then = running.Select(c => ArrayDeployment.Of(register, c)).Prepend(here).SelectMany(d => d.Placements).Select(p => Closed(register, p)).Where(p => p.From <= toMs && (p.Until ?? long.MaxValue) > fromMs);
        return [.. then.SelectMany(p => p.Devices.Select(d => (Device: d, Placement: p))).GroupBy(x => x.Device, x => x.Placement, StringComparer.Ordinal).SelectMany(g => Twice(register, here, g.Key, [.. g]))];
    }

    /// <summary>All placements of a device, in all campaigns; one that was never taken in ends a day after its campaign.</summary>
    public static IReadOnlyList<Placement> OfDevice(Register register, string device) => [.. AsSaid(register, device).Select(p => Closed(register, p)).OrderBy(p => p.From)];

    /// <summary>The same as it was said: one that was never taken in goes on.</summary>
    internal static IEnumerable<Placement> AsSaid(Register register, string device)
    {
        var kept = register.EntriesOf(device)[0];
        return CampaignsOf(register, kept, [])
            .SelectMany(c => ArrayDeployment.Of(register, c).Placements)
            .Where(p => p.Devices.Contains(kept));
    }

    /// <summary>Where a device stands at an instant outside a campaign, in words; null where nowhere.</summary>
    public static string? Elsewhere(Register register, string device, string campaign, long instant) =>
        OfDevice(register, device).LastOrDefault(p => p.Campaign != campaign && p.StoodAt(instant)) is { } p ? $"at station {p.Station} of {register.Campaign(p.Campaign)?.Name ?? p.Campaign}" : null;

    private static IEnumerable<RegisterFinding> Twice(Register register, ArrayDeployment deployment)
    {
        var byDevice = deployment.Placements.SelectMany(p => p.Devices.Select(d => (Device: d, Placement: p))).GroupBy(x => x.Device, x => x.Placement, StringComparer.Ordinal);
        var others = new Dictionary<string, List<Placement>>(StringComparer.Ordinal);
        var read = new Dictionary<int, string[]>();
        foreach (var device in byDevice.OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            List<Placement> all = [.. device.Select(p => Closed(register, p))];
            foreach (var campaign in CampaignsOf(register, device.Key, read).Where(c => c != deployment.Campaign))
            {
                if (!others.TryGetValue(campaign, out var there)) others[campaign] = there = [.. ArrayDeployment.Of(register, campaign).Placements.Select(p => Closed(register, p))];
                all.AddRange(there.Where(p => p.Devices.Contains(device.Key)));
            }
            foreach (var finding in Twice(register, deployment, device.Key, all)) yield return finding;
        }
    }

    // Pairs of a device's placements that cannot both be; those of other campaigns alone are theirs to settle.
    private static IEnumerable<RegisterFinding> Twice(Register register, ArrayDeployment deployment, string device, List<Placement> all)
    {
        List<Placement> ordered = [.. all.OrderBy(p => p.From)];
        var told = new HashSet<FactId>();
        var (pairs, looks) = (0, 0);
        for (var i = 0; i < ordered.Count; i++)
        {
            for (var j = i + 1; j < ordered.Count && ordered[j].From < (ordered[i].Until ?? long.MaxValue); j++)
            {
                var (a, b) = (ordered[i], ordered[j]);
                if (++looks > MostLooks || pairs == MostPairs)
                {
                    List<Placement> contradicting = [.. Also(ordered)];
                    foreach (var one in contradicting.Where(p => p.Campaign == deployment.Campaign && !told.Contains(p.Fact)))
                    {
                        yield return new("placed-twice", [Subject.Device(device), Subject.Campaign(deployment.Campaign)],
                            $"{NameOf(register, device)} stood at {Place(register, deployment, one)} and elsewhere at the same time: "
                            + $"it has {contradicting.Count} placements that contradict each other. Annul those that are wrong.",
                            [one.Fact.ToString()]);
                    }
                    yield break;
                }
                if ((a.Station == b.Station && a.Campaign == b.Campaign) || !a.Overlaps(b)) continue;
                if (a.Campaign != deployment.Campaign && b.Campaign != deployment.Campaign) continue;
                pairs++;
                told.UnionWith([a.Fact, b.Fact]);
                yield return new("placed-twice", [Subject.Device(device), Subject.Campaign(deployment.Campaign)],
                    $"{NameOf(register, device)} stood at {Place(register, deployment, a)} and at {Place(register, deployment, b)} at the same time. Annul the placement that is wrong, or say when it was taken in.", [a.Fact.ToString(), b.Fact.ToString()]);
            }
        }
    }

    // Those that overlap any other: in one pass, with what was first and what ended last so far.
    private static IEnumerable<Placement> Also(List<Placement> ordered)
    {
        var end = long.MinValue;
        for (var i = 0; i < ordered.Count; i++)
        {
            var until = ordered[i].Until ?? long.MaxValue;
            if (end > ordered[i].From || (i + 1 < ordered.Count && ordered[i + 1].From < until)) yield return ordered[i];
            end = Math.Max(end, until);
        }
    }

    // A placement of many devices is read once for all of them.
    private static HashSet<string> CampaignsOf(Register register, string device, Dictionary<int, string[]> read)
    {
        var campaigns = new HashSet<string>(StringComparer.Ordinal);
        foreach (var sequence in register.EntriesOf(device).SelectMany(e => register.Facts(Subject.Device(e)))
            .Where(s => register.IsOfKind(s, "chain-placed")))
        {
            if (!read.TryGetValue(sequence, out var named))
                read[sequence] = named = [.. register.Source.Read(sequence).Subjects.Where(Subject.IsCampaign).Select(Subject.Id)];
            campaigns.UnionWith(named);
        }
        return campaigns;
    }

    // Nobody takes in what a campaign left behind; a day after it nothing of it stands.
    private static Placement Closed(Register register, Placement p)
    {
        if (!p.Stands || register.Campaign(p.Campaign)?.Plan is not { } plan) return p;
        var end = ZoneOffsets.StartOfDay(plan.LastDay.AddDays(1), plan.Offsets) + DayMs;
        return end > p.From ? p with { Until = end } : p;
    }

    // When each device was placed or taken in last: of a campaign, each is looked up once a missing part.
    private static Dictionary<string, long> LastHere(Register register, ArrayDeployment deployment)
    {
        var last = new Dictionary<string, long>(StringComparer.Ordinal);
        foreach (var placement in deployment.TakenIn.Count > 0 ? deployment.Placements : [])
        {
            foreach (var device in placement.Devices)
                last[device] = Math.Max(last.GetValueOrDefault(device, long.MinValue), placement.From);
        }
        foreach (var (fact, said, _) in deployment.TakenIn)
        {
            var at = register.Instant(fact);
            foreach (var device in said.Devices.Select(d => register.EntriesOf(d)[0]))
                last[device] = Math.Max(last.GetValueOrDefault(device, long.MinValue), at);
        }
        return last;
    }

    private static bool IsStillMissing(Register register, Dictionary<string, long> lastHere, Fact fact, string device) =>
        register.Device(device) is { Status: not (DeviceStatus.Lost or DeviceStatus.Retired) } state
        && !(lastHere.GetValueOrDefault(state.Id, long.MinValue) > register.Instant(fact))
        && !state.Places.Any(m => m.Day > fact.Occurred.Day);

    private static string Place(Register register, ArrayDeployment deployment, Placement p) => (p.Campaign == deployment.Campaign ? p.Station : $"{p.Station} of {register.Campaign(p.Campaign)?.Name ?? p.Campaign}")
        + $" ({register.Person(p.Author)?.Name ?? p.Author}, {p.Occurred.Day:yyyy-MM-dd}{(p.Occurred.IsInstant ? $" {p.Occurred.ToString()[11..16]} UTC" : "")})";

    private static string NameOf(Register register, string device) => register.Device(device)?.Name ?? device;

    private static string Spoken(string label) => Labels.LabelCode.TryRead(label, out var code, out _) ? code.Spoken : label;
}
