using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;

namespace MicRegister.Register.Tracing;

/// <summary>What a doubt touches: events and stations, which of them are rescued by a check, and what to do.</summary>
/// <param name="Doubt">The doubt.</param>
/// <param name="Touched">Events by their begin.</param>
/// <param name="Checks">How many checks were made with it in that time, or with a calibrator that was measured against it.</param>
/// <param name="ToDo">What to do, in order (ISO/IEC 17025:2017, 7.10, paraphrased; follow the current text).</param>
public sealed record DoubtReport(Doubt Doubt, IReadOnlyList<TouchedEvent> Touched, int Checks, IReadOnlyList<string> ToDo)
{
    private const long HourMs = 3_600_000;

    /// <summary>Events that are neither rescued everywhere nor cleared by a person.</summary>
    public IEnumerable<TouchedEvent> Open => Touched.Where(t => !t.IsRescued && t.Settled is not { What.IsConfirmed: false });

    /// <summary>Those of them of which nobody has said what they come to.</summary>
    public IEnumerable<TouchedEvent> Unweighed => Open.Where(t => t.Settled is null);

    /// <summary>Works a report out.</summary>
    public static DoubtReport Of(Register register, Doubt doubt)
    {
        var checks = 0;
        var all = new List<TouchedEvent>();
        var judges = new Judges(register, doubt);
        foreach (var reach in DoubtReach.From(register, doubt).Select(r => r.Doubt))
        {
            if (!reach.IsOfChecks) all.AddRange(OfChainDevice(register, reach, judges));
            else
            {
                all.AddRange(OfCalibrator(register, reach, judges, out var made));
                checks += made;
            }
        }
        // Where it comes to a station in two ways, both have to be rescued.
        var touched = all.GroupBy(t => t.Event.Id, StringComparer.Ordinal).Select(g => g.Count() == 1 ? g.First() : g.First() with
        {
            Stations = [.. g.SelectMany(t => t.Stations).GroupBy(s => s.Station, StringComparer.Ordinal)
                .Select(s => s.FirstOrDefault(x => x.Rescue is null) ?? s.First()).OrderBy(s => s.Station, StringComparer.Ordinal)],
        });
        List<TouchedEvent> ordered = [.. touched.OrderBy(t => t.Event.StartMs).ThenBy(t => t.Event.Id, StringComparer.Ordinal)];
        return new(doubt, ordered, checks, Advice(register, doubt, ordered));
    }

    private static IEnumerable<TouchedEvent> OfChainDevice(Register register, Doubt doubt, Judges judges)
    {
        var placements = DeploymentFindings.AsSaid(register, doubt.Device)
            .Where(p => p.From <= doubt.ToMs && (p.Until ?? long.MaxValue) >= doubt.FromMs).ToList();
        if (placements.Count == 0) yield break;
        var checks = doubt.ChecksAround(register);
        foreach (var group in placements.GroupBy(p => p.Campaign, StringComparer.Ordinal))
        {
            if (register.Campaign(group.Key) is not { } campaign || judges.Of(campaign) is not var (profile, kit)) continue;
            List<CheckRecord> good = [.. checks.Where(k => k.Campaign == group.Key && Doubt.IsGood(profile, k))];
            foreach (var e in EventBook.Between(register, group.Key, doubt.FromMs, doubt.ToMs))
            {
                List<TouchedStation> stations = [.. group
                    .Where(p => p.From < Math.Max(e.StopMs, e.StartMs + 1) && e.StartMs < (p.Until ?? long.MaxValue))
                    .Select(p => new TouchedStation(p.Station, doubt.RescueOf(profile, p, e.StopMs, good, kit.IsLeaning)?.Fact.ToString()))];
                if (stations.Count > 0) yield return new(e, stations, doubt.SettledFor(register, profile, e.Id));
            }
        }
    }

    private static List<TouchedEvent> OfCalibrator(Register register, Doubt doubt, Judges judges, out int count)
    {
        count = 0;
        var touched = new List<TouchedEvent>();
        // Where no check was ever made with it, none of a campaign has to be read.
        var used = CheckBook.MadeWith(register, doubt.Device).Select(k => k.Campaign).ToHashSet(StringComparer.Ordinal);
        foreach (var id in CampaignsOf(register, doubt).Where(used.Contains))
        {
            if (register.Campaign(id) is not { } campaign || judges.Of(campaign) is not var (profile, kit)) continue;
            var span = CheckSpan.Of(profile);
            var deployment = ArrayDeployment.Of(register, id);
            var offsets = campaign.Plan?.Offsets ?? register.OffsetsOf(null);
            List<RecordedEvent> events = [.. EventBook.Between(register, id, Least(doubt.FromMs, span.Ms), Most(doubt.ToMs, span.Ms))];
            // A check that rescues may lie on the far side of an event from one in doubt; one of a bare day lies up to two days from its site's.
            var reach = (2 * span.Ms) + events.Select(e => e.StopMs - e.StartMs).DefaultIfEmpty().Max() + (50 * HourMs);
            var around = CheckBook.OfCampaignBetween(register, id, Least(doubt.FromMs, reach), Most(doubt.ToMs, reach));
            (long From, long Until)[] Stood(string station, string chain) => [.. deployment.Placements
                .Where(p => p.Station == station && Sounding(register, p.Devices) == chain)
                .Select(p => (p.From, p.Until ?? long.MaxValue))];
            CheckReach Reach(string chain) => new(span, SetUps.Of(deployment, chain.Split(' ')), offsets);
            count += around.Count(doubt.IsBehind);
            List<StationChecks> stations = [.. around.Where(k => k.Check.Station is not null)
                .GroupBy(k => (Station: k.Check.Station!, Chain: Sounding(register, k.Check.Devices)))
                .Where(g => g.Any(k => k.IsMadeWith(doubt.Device)))
                .Select(g => new StationChecks(
                    g.Key.Station, [.. g], Stood(g.Key.Station, g.Key.Chain), doubt, kit.IsLeaning, profile, Reach(g.Key.Chain)))
                .OrderBy(s => s.Station, StringComparer.Ordinal)];
            if (stations.Count == 0 || events.Count == 0) continue;
            // Events come by their begin. Most lie between the same checks as the one before: then they touch the same stations.
            int[] states = new int[stations.Count], last = new int[stations.Count];
            IReadOnlyList<TouchedStation>? same = null;
            var sessions = TestSessions.Of(register, id);
            foreach (var e in events)
            {
                var test = new TestTime(e.DayAt(offsets), sessions.At(e.StartMs)?.Fact);
                for (var i = 0; i < states.Length; i++) states[i] = stations[i].StateOf(e, test);
                if (same is null || !states.AsSpan().SequenceEqual(last))
                {
                    same = [.. Enumerable.Range(0, states.Length).Where(i => states[i] != StationChecks.Untouched)
                        .Select(i => new TouchedStation(stations[i].Station, stations[i].Rescue(states[i])))];
                    states.CopyTo(last, 0);
                }
                if (same.Count > 0) touched.Add(new(e, same, doubt.SettledFor(register, profile, e.Id)));
            }
        }
        return touched;
    }

    // Checks of another chain at the same station say nothing of this one.
    private static string Sounding(Register register, IReadOnlyList<string> devices) =>
        string.Join(' ', devices.Where(d => DeviceKind.MakesSound(register.KindOf(d))).Order(StringComparer.Ordinal));

    // Campaigns that ran in that time, or recorded something in it outside of their days.
    private static List<string> CampaignsOf(Register register, Doubt doubt) => [.. register.CampaignIds.Where(c =>
        register.Campaign(c)?.Plan is not { } plan
        || (ZoneOffsets.StartOfDay(plan.FirstDay, plan.Offsets) - (24 * HourMs) <= doubt.ToMs
            && ZoneOffsets.StartOfDay(plan.LastDay.AddDays(1), plan.Offsets) + (24 * HourMs) >= doubt.FromMs)
        || HasEvents(register, c, doubt, CheckSpan.Of(register.Profile(plan.Profile)).Ms + (50 * HourMs)))];

    private static bool HasEvents(Register register, string campaign, Doubt doubt, long around) =>
        EventBook.Between(register, campaign, Least(doubt.FromMs, around), Most(doubt.ToMs, around)).Any();

    private static long Least(long ms, long by) => ms < long.MinValue + by ? long.MinValue : ms - by;

    private static long Most(long ms, long by) => ms > long.MaxValue - by - 1 ? long.MaxValue : ms + by + 1;

    private static List<string> Advice(Register register, Doubt doubt, List<TouchedEvent> touched)
    {
        var name = register.Device(doubt.Device)?.Name ?? doubt.Device;
        var open = touched.Count(t => !t.IsRescued && t.Settled is null);
        var advice = new List<string>();
        if (touched.Count == 0)
        {
            var allowing = doubt.Limited is null ? "" : " of a campaign whose profile allows less";
            advice.Add($"No event{allowing} lies in that time: nothing that was recorded depends on {name}.");
        }
        if (open > 0)
        {
            var events = open == 1 ? "event" : "events";
            advice.Add($"Hold back the results of {open} {events} until they are decided (ISO/IEC 17025:2017, 7.10.1 a and b).");
        }
        if (open > 0 && doubt.GreatestDb is { } db)
        {
            var most = QuantityText.Of(db, doubt.Unit, 3);
            advice.Add($"Weigh whether {most} matter for them: that is the most by which they can be wrong (7.10.1 c).");
        }
        else if (open > 0) advice.Add("Nobody knows by how much they are wrong: have it measured before you weigh them (7.10.1 c).");
        if (open > 0)
        {
            advice.Add("Say of each event whether the doubt holds or not, with the reason; "
                + "where it holds, tell whoever got the results (7.10.1 d and e).");
        }
        if (touched.Any(t => t.IsRescued))
        {
            advice.Add($"{touched.Count(t => t.IsRescued)} of {touched.Count} events are rescued by a check; "
                + "nothing is to be done for them.");
        }
        advice.Add($"Keep {name} out of use until its cause is known (6.4.9), and keep this report (7.10.2).");
        return advice;
    }

    /// <summary>What campaigns hold against a doubt: each by its own profile.</summary>
    private sealed class Judges(Register register, Doubt doubt)
    {
        private readonly Dictionary<string, (ProfileState? Profile, KitInDoubt Kit)?> _known = new(StringComparer.Ordinal);

        /// <summary>Profile of a campaign, and what its checks were made with; null where its profile raises no such doubt.</summary>
        public (ProfileState? Profile, KitInDoubt Kit)? Of(CampaignState campaign)
        {
            var id = campaign.Plan?.Profile ?? "";
            if (_known.TryGetValue(id, out var known)) return known;
            var profile = campaign.Plan is { } plan ? register.Profile(plan.Profile) : null;
            return _known[id] = doubt.IsRaisedBy(register, profile) ? (profile, new(register, profile)) : null;
        }
    }
}

/// <summary>An event that a doubt touches.</summary>
/// <param name="Event">The event.</param>
/// <param name="Stations">Where.</param>
/// <param name="Settled">The last word on it; null where nobody spoke.</param>
public sealed record TouchedEvent(RecordedEvent Event, IReadOnlyList<TouchedStation> Stations, Dated<DoubtSettled>? Settled)
{
    /// <summary>Whether a check rescues every station of it.</summary>
    public bool IsRescued => Stations.All(s => s.Rescue is not null);
}

/// <summary>A station of an event that a doubt touches.</summary>
/// <param name="Station">Its name.</param>
/// <param name="Rescue">Id of the check that rescues it; null where none does.</param>
public sealed record TouchedStation(string Station, string? Rescue);
