using System.Globalization;
using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tracing;

/// <summary>Traces an event to the devices and calibrations behind it. A pure function of the register.</summary>
public static class Tracer
{
    private const long HourMs = 3_600_000;
    private const int MostReferences = 10;

    /// <summary>Traces an event; null where there is none of that id.</summary>
    /// <param name="register">The facts.</param>
    /// <param name="id">Id of the event.</param>
    /// <param name="station">One station only; null for all.</param>
    public static EventTrace? Of(Register register, string id, string? station = null)
    {
        if (ContextOf(register, id) is not { } context) return null;
        List<StationTrace> traces = [.. Chains(context, station).Select(Traced)];
        return new(context.Event, context.Campaign.Rule, traces) { Recorded = context.Coverage.Words };
    }

    /// <summary>What an event's stations have in common; null where there is no event of that id.</summary>
    internal static TraceContext? ContextOf(Register register, string id) => EventBook.Find(register, id) is { } what
        ? new(register, what, register.Campaign(what.Campaign) ?? new CampaignState(what.Campaign))
        : null;

    /// <summary>
    /// What the questions are asked of: every chain that stood during the event, and one of nothing for a station where none did.
    /// </summary>
    /// <param name="c">The event.</param>
    /// <param name="station">One station only; null for all.</param>
    internal static IEnumerable<TracedChain> Chains(TraceContext c, string? station = null)
    {
        // An event without a length is as long as a millisecond.
        var stop = Math.Max(c.Event.StopMs, c.Event.StartMs + 1);
        var placed = c.Deployment.Placements.Where(p => p.From < c.Event.StopMs && c.Event.StartMs < (p.Until ?? long.MaxValue));
        var stations = c.Campaign.Stations.Keys.Concat(placed.Select(p => p.Station)).Distinct(StringComparer.Ordinal);
        foreach (var name in stations.Where(s => station is null || s == station).Order(StringComparer.Ordinal))
        {
            var stood = c.Deployment.Placements
                .Where(p => p.Station == name && p.From < stop && c.Event.StartMs < (p.Until ?? long.MaxValue)).ToList();
            if (stood.Count == 0) yield return new(c.Register, c.Profile, [], c.Event.StartMs, c.Event.StopMs, c, name, null);
            // Where a part was swapped in mid-event, both chains are traced as such.
            foreach (var placement in stood) yield return Of(c, placement);
        }
    }

    private static TracedChain Of(TraceContext c, Placement placement)
    {
        List<DeviceState> devices = [.. placement.Devices.Select(d => c.Device(d) ?? new DeviceState(d))];
        long from = Math.Max(c.Event.StartMs, placement.From), to = Math.Min(c.Event.StopMs, placement.Until ?? long.MaxValue);
        var checks = ChecksAround(c, placement.Station, devices);
        var reach = new CheckReach(
            c.Span, SetUps.Of(c.Deployment, devices.Where(d => DeviceKind.MakesSound(d.Kind)).Select(d => d.Id)), c.Offsets);
        var chain = new TracedChain(c.Register, c.Profile, devices, from, to, c, placement.Station, placement)
        {
            Around = checks,
            Before = checks.LastOrDefault(k => reach.IsBefore(k, from, c.Test)),
            After = checks.FirstOrDefault(k => reach.IsAfter(k, to, c.Test)),
            AgainSinceBefore = checks.Where(k => c.Span.IsBefore(k, from, c.Test)).Select(k => reach.AgainAfter(k, from)).LastOrDefault(),
            AgainUntilAfter = checks.Where(k => c.Span.IsAfter(k, to, c.Test)).Select(k => reach.AgainBefore(k, to)).FirstOrDefault(),
        };
        chain = chain with { Bases = [.. chain.Checks.Select(k => CheckBasis.Of(c.Register, k, c.Device))] };
        return chain with
        {
            Links = Links(chain),
            Standing = Standing(chain),
            StandingDevices = StandingDevices(chain),
            StandingKits = [.. chain.Checks.Select(k => StandingKit(chain, k))],
            InPlace = InPlaceEvidence.Of(chain),
            Applied = Sensitivities.Apply(chain),
        };
    }

    private static StationTrace Traced(TracedChain c)
    {
        var reasons = TraceQuestions.Ask(c);
        var (recorder, channel) = RecordingQuestions.ChannelOf(c);
        return new(
            c.Station, c.FromMs, c.ToMs, c.Plan, c.Placement, c.Chain, c.Before, c.After, c.Links, c.Applied,
            reasons.Count == 0 ? TraceVerdict.Valid : reasons[0].Weight, reasons)
        {
            Day = c.Day,
            Recorder = recorder,
            Channel = channel,
            InPlace = c.InPlace,
            Place = c.Place,
            Curves = ActingCurve.Of(c.Register, c.Chain, c.Day, c.Plan?.Mount),
            Incidence = c.Placement is null ? null : IncidenceBook.Of(c.Register, c.Shared.Event, c.Station),
        };
    }

    // Checks of the same sounding parts, around the event; a plate makes no sound.
    private static List<CheckRecord> ChecksAround(TraceContext c, string station, List<DeviceState> chain)
    {
        if (chain.FirstOrDefault(d => DeviceKind.MakesSound(d.Kind)) is not { } any) return [];
        var wanted = chain.Where(d => DeviceKind.MakesSound(d.Kind)).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        // One of a bare day lies at the begin of its day at home, which lies up to 26 hours from that at the site.
        var begin = c.Event.StartMs - Math.Max(c.Span.Ms, 50 * HourMs);
        var end = c.Event.StopMs + Math.Max(c.Span.Ms + 1, (TestSessions.LongestHours + 1) * HourMs);
        return [.. CheckBook.Around(c.Register, any.Id, begin, end)
            .Where(k => k.Campaign == c.Campaign.Id && k.Check.Station == station && IsOf(c, k.Check.Devices, wanted))];
    }

    /// <summary>Whether the sounding ones among some devices are those that are wanted, neither more nor fewer.</summary>
    internal static bool IsOf(TraceContext c, IEnumerable<string> devices, HashSet<string> wanted) =>
        devices.Where(d => c.Device(d) is not { } device || DeviceKind.MakesSound(device.Kind))
            .ToHashSet(StringComparer.Ordinal).SetEquals(wanted);

    private static List<TraceLink> Links(TracedChain c)
    {
        var links = new List<TraceLink>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (var device in c.Chain) Down(c, links, seen, device.Id, c.Day, null);
        // What a check took its level from is cited, whatever is in force by now.
        foreach (var basis in c.Bases.SelectMany(b => b).Where(b => b.IsOfCalibrator)) Down(c, links, seen, basis.Device!.Id, c.Day, basis);
        // So is what a check was held against, and what a device that nobody registered any more was certified by.
        foreach (var basis in c.Bases.SelectMany(b => b).Where(b => b is { Device: not null, Used: not null }))
        {
            if (!links.Exists(l => l.Certificate?.Fact == basis.Used!.Fact)) links.Add(Held(c, basis));
        }
        return links;
    }

    private static TraceLink Held(TracedChain c, CheckBasis basis) => new(0, basis.Device!, basis.Used, RestsOn(c.Shared, basis.Used))
    {
        Day = c.Day,
        InForce = basis.IsSuperseded ? basis.InForce : null,
        DifferenceDb = basis.IsSuperseded ? basis.DifferenceDb : null,
    };

    private static void Down(TracedChain c, List<TraceLink> links, HashSet<string> seen, string id, DateOnly from, CheckBasis? basis)
    {
        var (device, day, used) = (id, from, basis?.Used);
        for (var depth = 0; depth < MostReferences; depth++)
        {
            if (c.Shared.Device(device) is not { } state || DeviceKind.Find(state.Kind)?.Calibrated is not { } quantity) break;
            var certificate = used ?? CalibrationSeries.Newest(state.CertifiedBy(day), quantity);
            if (!seen.Add($"{device} {certificate?.Fact.ToString() ?? day.ToString(CultureInfo.InvariantCulture)}")) break;
            var isSuperseded = depth == 0 && basis is { IsSuperseded: true };
            links.Add(new(depth, state, certificate, RestsOn(c.Shared, certificate))
            {
                Day = day,
                InForce = isSuperseded ? basis!.InForce : null,
                DifferenceDb = isSuperseded ? basis!.DifferenceDb : null,
            });
            if (certificate?.Issued.ReferenceDevice is not { } reference) break;
            (device, day, used) = (reference, certificate.Day, null);
        }
    }

    private static string? RestsOn(TraceContext c, DeviceCertificate? certificate) => certificate?.Issued.ReferenceDevice is { } reference
        ? c.Device(reference)?.Name ?? reference
        : certificate?.Issued.Reference ?? certificate?.Issued.Laboratory;

    // Where the station or the campaign was never planned, nothing says what is wanted there.
    private static StandingChain? Standing(TracedChain c)
    {
        if (c.Place?.AsBuilt is not { } station || c.Campaign.Plan is not { } plan) return null;
        var profile = c.Profile ?? new(plan.Profile, new(plan.Profile, "", []), null, false);
        List<DeviceState> devices = [.. c.Chain.Select(d => On(c, d))];
        return new(new(c.Station, station, devices), plan, profile, id => c.Shared.Device(id)?.Name ?? id)
        {
            MeasuredGapMm = c.Stood.Said.GapMm,
            Read = c.Register.Source.Curves,
        };
    }

    // Of the chain's devices for as long as the event lasted, then of what each check was made with, on its own day.
    private static List<StandingDevice> StandingDevices(TracedChain c)
    {
        var first = c.Campaign.Plan is { } planned && planned.FirstDay < c.Day ? planned.FirstDay : c.Day;
        var usual = c.Register.Profile(BuiltInProfiles.Usual);
        var last = c.Shared.DayOf(c.ToMs);
        StandingDevice Standing(DeviceState known, DeviceState then, DateOnly from, DateOnly to) => new(then, c.Profile, from, to)
        {
            Usual = usual,
            Later = known,
            Band = c.Campaign.Plan is { } plan ? (plan.LowestHz, plan.HighestHz) : null,
            Curves = c.Register.CurveShelf,
        };
        List<StandingDevice> standing = [.. c.Chain.Select(d => Standing(d, On(c, d), first, last))];
        foreach (var used in c.Checks.SelectMany(k => KitOf(c, k).Select(id => (Id: id, k.Day))).GroupBy(u => u.Id, StringComparer.Ordinal))
        {
            if (c.Shared.Device(used.Key) is not { } device) continue;
            var day = used.Max(u => u.Day);
            standing.Add(Standing(device, StandingDevice.On(device, day), first < day ? first : day, day));
        }
        return standing;
    }

    // A check that names no barometer was made with the one that goes along, where its calibrator needs one and only one does.
    private static IEnumerable<string> KitOf(TracedChain c, CheckRecord check) =>
        check.Check.Barometer is null && !check.Check.PressureIsEstimated && c.Shared.OnlyBarometer is { } only
            && c.Shared.Device(check.Check.Calibrator)?.Text(DeviceField.PressureLaw) is "adiabatic" or "coefficient"
            ? check.Kit.Append(only)
            : check.Kit;

    private static StandingKit StandingKit(TracedChain c, CheckRecord check)
    {
        var isEstimated = check.Check.PressureIsEstimated;
        var hasBarometer = !isEstimated && (check.Check.Barometer is not null || c.Shared.HasBarometer);
        List<DeviceState> devices = [.. check.Kit.Select(c.Shared.Device).OfType<DeviceState>()];
        if (!isEstimated && check.Check.Air?.PressureKPa is { } read)
            return new(devices, read, $"{QuantityText.Of(read, "kPa", 1)} were read there", hasBarometer);
        // What nobody read is what the plan expected.
        var (kPa, words) = c.Campaign.Plan is { } plan ? CheckKitRules.AtAltitude(plan.AltitudeM) : (null, "");
        return new(devices, kPa, words, hasBarometer);
    }

    // As it was known then; certificates of the event's first day, and of its last day what was said before the event ended.
    private static DeviceState On(TracedChain c, DeviceState device)
    {
        var last = c.Shared.DayOf(c.ToMs);
        var known = StandingDevice.On(device, last).CertifiedBy(c.Day);
        bool IsLater(Dated<DeviceStatusChanged> s) => s.Day == last && InstantOf(c.Register, s.Fact) > c.ToMs;
        return known.Statuses.Any(IsLater) ? known with { Statuses = known.Statuses.RemoveAll(IsLater) } : known;
    }

    /// <summary>When a fact was said to hold from, in ms; null where only the day of it is known.</summary>
    internal static long? InstantOf(Register register, Facts.FactId id) =>
        register.Find(id) is var sequence and > 0 && register.Source.Read(sequence) is { Occurred.IsInstant: true } fact
            ? register.Instant(fact)
            : null;

    internal static string Time(long ms) => EventBook.Text(ms)[11..19] + " UTC";
}
