using MicRegister.Metrology.Conformity;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Events;

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
        if (EventBook.Find(register, id) is not { } what) return null;
        var campaign = register.Campaign(what.Campaign) ?? new CampaignState(what.Campaign);
        var context = new TraceContext(register, what, campaign);
        var stations = campaign.Stations.Keys.Concat(context.Deployment.Placements.Where(p => p.From < what.StopMs && what.StartMs < (p.Until ?? long.MaxValue)).Select(p => p.Station)).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);
        List<StationTrace> traces = [.. stations.Where(s => station is null || s == station).SelectMany(s => Station(context, s))];
        return new(what, campaign.Rule, traces, traces.Count == 0 ? TraceVerdict.NotValid : traces.Min(t => t.Verdict));
    }

    private static IEnumerable<StationTrace> Station(TraceContext c, string station)
    {
        var parts = c.Deployment.Placements.Where(p => p.Station == station && p.From < Math.Max(c.Event.StopMs, c.Event.StartMs + 1) && c.Event.StartMs < (p.Until ?? long.MaxValue)).ToList();
        if (parts.Count == 0)
        {
            yield return new(station, c.Event.StartMs, c.Event.StopMs, c.Campaign.Stations.GetValueOrDefault(station), null, [], null, null, [], null, TraceVerdict.NotValid, [new(TraceVerdict.NotValid, "Nothing stood there.", "no placement")]) { Day = c.Day };
            yield break;
        }
        foreach (var placement in parts)
        {
            var part = Part(c, station, placement);
            // Where a part was swapped in mid-event, both halves are named as such.
            yield return part;
        }
    }

    private static StationTrace Part(TraceContext c, string station, Placement placement)
    {
        long from = Math.Max(c.Event.StartMs, placement.From), to = Math.Min(c.Event.StopMs, placement.Until ?? long.MaxValue);
        List<DeviceState> chain = [.. placement.Devices.Select(d => c.Device(d) ?? new DeviceState(d))];
        var reasons = new List<TraceReason>();
        var checks = Checks(c, station, chain);
        var before = checks.LastOrDefault(k => IsBefore(c, k, from));
        var after = checks.FirstOrDefault(k => IsAfter(c, k, to));
        if (placement.From > c.Event.StartMs || placement.Until < c.Event.StopMs) reasons.Add(new(TraceVerdict.Doubtful, $"It stood there during a part of the event only, {Time(from)} to {Time(to)}.", $"fact {placement.Fact}"));
        ChainReasons(c, placement, chain, reasons);
        CheckReasons(c, placement, before, after, from, to, chain, reasons);
        var links = Links(c, chain, before, after);
        CertificateReasons(c, links, reasons);
        DueReasons(c, chain, before, after, reasons);
        var inPlace = InPlaceEvidence.Of(c, placement, chain, before, after, from, to);
        InPlaceReasons(c, inPlace, before, after, from, to, reasons);
        DoubtReasons(c, placement, chain, before, after, from, to, reasons);
        var applied = Sensitivities.Apply(c, placement, chain, before, after, from, to, reasons);
        if (applied is null) reasons.Add(new(TraceVerdict.NotValid, "No sensitivity is known: neither a check nor a certificate tells it.", "no result"));
        List<TraceReason> ordered = [.. reasons.OrderByDescending(r => r.Weight)];
        var plan = c.Campaign.Stations.GetValueOrDefault(station);
        return new(station, from, to, plan, placement, chain, before, after, links, applied, ordered.Count == 0 ? TraceVerdict.Valid : ordered[0].Weight, ordered)
        {
            Day = c.Day,
            InPlace = inPlace,
            Curves = ActingCurve.Of(c.Register, chain, c.Day, plan?.Mount),
            Incidence = IncidenceBook.Of(c.Register, c.Event, station),
        };
    }

    // Checks of the same sounding parts, around the event; a plate makes no sound.
    private static List<CheckRecord> Checks(TraceContext c, string station, List<DeviceState> chain)
    {
        if (chain.FirstOrDefault(Sounds) is not { } any) return [];
        var wanted = chain.Where(Sounds).Select(d => d.Id).ToHashSet(StringComparer.Ordinal);
        // One of a bare day lies at the begin of its day at home, which lies up to 26 hours from that at the site.
        return [.. CheckBook.Around(c.Register, any.Id, c.Event.StartMs - Math.Max(c.Span.Ms, 50 * HourMs), c.Event.StopMs + Math.Max(c.Span.Ms + 1, 27 * HourMs))
            .Where(k => k.Campaign == c.Campaign.Id && k.Check.Station == station && k.Check.Devices.Where(d => c.Device(d) is not { } device || Sounds(device)).ToHashSet(StringComparer.Ordinal).SetEquals(wanted))];
    }

    internal static bool Sounds(DeviceState device) => Sounds(device.Kind);

    /// <summary>Whether devices of a kind have a part in a chain's sensitivity; one that nobody registered is taken to.</summary>
    internal static bool Sounds(string? kind) => kind != DeviceKind.GroundPlate.Key && kind != DeviceKind.Windscreen.Key && kind != DeviceKind.TransportCase.Key && kind != DeviceKind.Adapter.Key;

    private static bool IsBefore(TraceContext c, CheckRecord k, long from) => c.Span.IsBefore(k, from, c.Day);

    private static bool IsAfter(TraceContext c, CheckRecord k, long to) => c.Span.IsAfter(k, to, c.Day);

    private static void ChainReasons(TraceContext c, Placement placement, List<DeviceState> chain, List<TraceReason> reasons)
    {
        var source = $"fact {placement.Fact}";
        foreach (var label in placement.UnknownLabels) reasons.Add(new(TraceVerdict.NotValid, $"A part carries the label {label}, and nobody knows what it is on.", source));
        foreach (var device in chain.Where(d => d.Kind is null)) reasons.Add(new(TraceVerdict.NotValid, $"{device.Id} is not in the register.", source));
        if (chain.All(d => d.Kind != DeviceKind.Microphone.Key) && placement.UnknownLabels.Count == 0) reasons.Add(new(TraceVerdict.NotValid, "No microphone was placed there.", source));
        if (chain.All(d => d.Kind != DeviceKind.RecorderChannel.Key)) reasons.Add(new(TraceVerdict.Doubtful, "No recorder channel was placed with it.", source));
        foreach (var finding in c.Contradictions.Where(f => f.Facts.Contains(placement.Fact.ToString()))) reasons.Add(new(TraceVerdict.Doubtful, finding.Text, "facts " + string.Join(", ", finding.Facts)));
        foreach (var device in chain.Where(d => !d.WrittenByNewer.IsEmpty)) reasons.Add(new(TraceVerdict.Doubtful, $"Facts of a newer version stand about {device.Name}.", "facts " + string.Join(", ", device.WrittenByNewer)));
        if (placement.Said.IsFlush == false) reasons.Add(new(TraceVerdict.Doubtful, "The microphone was not flush with its plate.", source));
        if (placement.Said.GapMm is { } gap && c.Profile?.Value(LimitKey.GapMm) is { } wanted && c.Profile.Value(LimitKey.GapToleranceMm) is { } tolerance && !DecisionLimit.AtMost(Math.Abs(gap - wanted), tolerance))
            reasons.Add(new(TraceVerdict.Doubtful, FormattableString.Invariant($"The gap was {gap:0.##} mm; {wanted:0.##} ± {tolerance:0.##} mm are asked."), $"{source}, profile {c.Profile.Id}"));
    }

    private static void CheckReasons(TraceContext c, Placement placement, CheckRecord? before, CheckRecord? after, long from, long to, List<DeviceState> chain, List<TraceReason> reasons)
    {
        foreach (var (check, word) in new[] { (before, "before"), (after, "after") })
        {
            if (check is null)
            {
                reasons.Add(new(TraceVerdict.Doubtful, $"The chain was not checked {word} it, {c.Span.Words}, with the same parts.", c.Profile?.Value(LimitKey.CheckSpanHours) is null ? "common practice, no source" : $"profile {c.Profile.Id}, {LimitKey.CheckSpanHours}"));
                continue;
            }
            // Whatever moment they were made for: to this event one is before and the other after.
            var judged = word == "after" && before is not null ? CheckJudge.Judge(c.Profile, As(check, CheckMoment.After), [As(before, CheckMoment.Before), As(check, CheckMoment.After)]) : CheckJudge.Judge(c.Profile, check, [check]);
            foreach (var k in judged.Comparisons.Where(k => k.Verdict is ConformityVerdict.DoesNotConform or ConformityVerdict.Undecided))
            {
                reasons.Add(new(k.Verdict == ConformityVerdict.Undecided ? TraceVerdict.Doubtful : TraceVerdict.NotValid,
                    FormattableString.Invariant($"The check {word} {(k.Verdict == ConformityVerdict.Undecided ? "cannot be decided" : "is rejected")}: {k.DifferenceDb:+0.000;-0.000} dB {k.What}, {k.LimitDb:0.###} dB allowed."), $"fact {check.Fact}, profile {c.Profile?.Id}, {k.Key}"));
            }
            if (check.Check.RangeV is { } range && placement.Said.RangeV is { } set && range != set) reasons.Add(new(TraceVerdict.Doubtful, FormattableString.Invariant($"The check {word} was made at a range of {range} V, the chain was placed at {set} V."), $"facts {check.Fact}, {placement.Fact}"));
        }
        if (before is { Occurred.IsInstant: true } b && b.Instant < placement.From && placement.Said.Swap is not null) reasons.Add(new(TraceVerdict.Doubtful, "A part was swapped between the check before and the event.", $"fact {placement.Fact}"));
        var (since, until) = (before?.Instant ?? from, after?.Instant ?? to);
        foreach (var device in chain)
        {
            foreach (var service in device.Services.Where(s => s.Day >= c.DayOf(since) && s.Day <= c.DayOf(until)))
            {
                var at = c.Register.Find(service.Fact) is var sequence and > 0 && c.Register.Source.Read(sequence) is { Occurred.IsInstant: true } fact ? c.Register.Instant(fact) : (long?)null;
                if (at is { } instant && (instant < since || instant > until)) continue;
                reasons.Add(new(TraceVerdict.Doubtful, $"Between the checks: {device.Name}, {service.What.Text}.", $"fact {service.Fact}"));
            }
        }
    }

    private static CheckRecord As(CheckRecord record, CheckMoment moment) => record with { Check = record.Check with { Moment = moment } };

    private static List<TraceLink> Links(TraceContext c, List<DeviceState> chain, CheckRecord? before, CheckRecord? after)
    {
        var links = new List<TraceLink>();
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var first = chain.Where(d => DeviceKind.Find(d.Kind)?.Calibrated is not null).Select(d => d.Id).Concat(new[] { before, after }.OfType<CheckRecord>().Select(k => k.Check.Calibrator));
        foreach (var id in first)
        {
            var (device, day) = (id, c.Day);
            for (var depth = 0; depth < MostReferences && seen.Add($"{device} {day}"); depth++)
            {
                if (c.Device(device) is not { } state || DeviceKind.Find(state.Kind)?.Calibrated is not { } quantity) break;
                var certificate = CalibrationSeries.Newest(state.CertifiedBy(day), quantity);
                var reference = certificate?.Issued.ReferenceDevice;
                links.Add(new(depth, state, certificate, certificate is null ? null : reference is not null ? c.Device(reference)?.Name ?? reference : certificate.Issued.Reference ?? certificate.Issued.Laboratory) { Day = day });
                if (certificate is null || reference is null) break;
                (device, day) = (reference, certificate.Day);
            }
        }
        return links;
    }

    private static void CertificateReasons(TraceContext c, List<TraceLink> links, List<TraceReason> reasons)
    {
        foreach (var link in links.Where(l => l.Certificate is null && (l.Depth > 0 || IsLevel(l.Device)))) reasons.Add(new(TraceVerdict.NotValid, $"{link.Device.Name} had no certificate on {link.Day:yyyy-MM-dd}.", "no certificate"));
    }

    // Without their certificates there is no level at all.
    private static bool IsLevel(DeviceState device) => device.Kind == DeviceKind.Microphone.Key || device.Kind == DeviceKind.Calibrator.Key;

    // What the profile asks of chain, calibrator and adapter, by the days of the series as readiness counts them.
    private static void DueReasons(TraceContext c, List<DeviceState> chain, CheckRecord? before, CheckRecord? after, List<TraceReason> reasons)
    {
        var first = c.Campaign.Plan is { } plan && plan.FirstDay < c.Day ? plan.FirstDay : c.Day;
        var others = new[] { before, after }.OfType<CheckRecord>().SelectMany(k => new[] { k.Check.Calibrator, k.Check.Adapter }).OfType<string>().Distinct(StringComparer.Ordinal).Select(c.Device).OfType<DeviceState>();
        foreach (var device in chain.Concat(others))
        {
            var state = device.CertifiedBy(c.Day);
            List<CalibrationDue> dues = [.. CalibrationDue.Of(state, c.Profile, first, c.Day)];
            foreach (var due in dues.Where(d => d.Due < d.Needed))
            {
                var what = due.Quantity == DeviceKind.Find(device.Kind)?.Calibrated ? "The certificate" : $"The {due.Quantity} calibration";
                reasons.Add(new(TraceVerdict.NotValid, $"{what} of {device.Name} was valid through {due.Due:yyyy-MM-dd}.", $"fact {due.Newest.Fact}, {(due.Limit is { } limit ? $"profile {c.Profile!.Id}, {limit.Key}" : due.Why)}"));
            }
            // Of a microphone and a calibrator a missing certificate was named with its link already.
            foreach (var (quantity, limit) in c.Profile?.Intervals(device.Kind ?? "").Where(i => !IsLevel(device) || i.Quantity != DeviceKind.Find(device.Kind)?.Calibrated) ?? [])
            {
                // Each interval with a certificate has a due day.
                if (!dues.Exists(d => d.Quantity == quantity)) reasons.Add(new(TraceVerdict.Doubtful, $"{device.Name} had no {quantity} calibration on {c.Day:yyyy-MM-dd}; the profile asks for one.", $"profile {c.Profile!.Id}, {limit.Key}"));
            }
        }
    }

    private static void InPlaceReasons(TraceContext c, IReadOnlyList<InPlaceEvidence> evidence, CheckRecord? before, CheckRecord? after, long from, long to, List<TraceReason> reasons)
    {
        if (evidence.Count == 0 && (before ?? after) is not null && new[] { before, after }.OfType<CheckRecord>().All(k => InPlaceEvidence.IsAsked(c, k, from, to)))
        {
            var span = c.Profile?.Value(LimitKey.InPlaceHours) is { } hours ? FormattableString.Invariant($"within {hours:0.#} h") : "on the same day or in the same session";
            reasons.Add(new(TraceVerdict.Doubtful, $"Its checks lie on other days, and no comparison in place, {span}, shows that the chain stayed as it was.", $"profile {c.Profile?.Id}, {(c.Profile?.Value(LimitKey.InPlaceHours) is null ? LimitKey.CheckSpanHours : LimitKey.InPlaceHours)}"));
        }
        foreach (var k in evidence.Where(k => k.Verdict is ConformityVerdict.DoesNotConform or ConformityVerdict.Undecided))
        {
            reasons.Add(new(TraceVerdict.Doubtful, FormattableString.Invariant($"Compared in place on {EventBook.Minute(k.Instant)} it lay {k.MovedDb:+0.00;-0.00} dB {(k.Since is null ? "from the others" : "against the others since the comparison before")} (U = {k.ExpandedDb:0.00} dB), {k.LimitDb:0.###} dB allowed{(k.Verdict == ConformityVerdict.Undecided ? ": that cannot be decided" : "")}."),
                $"facts {string.Join(", ", new[] { k.Fact, k.Since }.OfType<Facts.FactId>())}, profile {c.Profile?.Id}, {k.LimitKey}"));
        }
    }

    private static void DoubtReasons(TraceContext c, Placement placement, List<DeviceState> chain, CheckRecord? before, CheckRecord? after, long from, long to, List<TraceReason> reasons)
    {
        var calibrators = new[] { before, after }.OfType<CheckRecord>().SelectMany(k => new[] { k.Check.Calibrator, k.Check.Adapter }).OfType<string>().Distinct(StringComparer.Ordinal);
        foreach (var device in chain.Select(d => d.Id).Concat(calibrators))
        {
            // A calibrator's doubt is about the checks that were made while it lasted, whenever the event was.
            foreach (var reach in c.Reaching(device).Where(r => r.Doubt.IsOfChecks
                ? new[] { before, after }.OfType<CheckRecord>().Any(r.Doubt.IsBehind)
                : r.Doubt.FromMs <= to && r.Doubt.ToMs >= from))
            {
                var doubt = reach.Doubt;
                var settled = doubt.SettledFor(c.Event.Id);
                if (settled is { IsConfirmed: false }) continue;
                bool Leans(CheckRecord k) => new[] { k.Check.Calibrator, k.Check.Adapter }.OfType<string>().SelectMany(c.Reaching).Any(r => r.Doubt.Key == doubt.Key && r.Doubt.IsBehind(k));
                if (settled is null && (doubt.IsOfChecks ? doubt.RescueOf(c.Profile, before, after, Leans) : doubt.RescueOf(c.Profile, placement, c.Event.StopMs, doubt.ChecksAround(c.Register), Leans)) is not null) continue;
                reasons.Add(new(settled is null ? TraceVerdict.Doubtful : TraceVerdict.NotValid, $"{reach.Text}{(settled is null ? "" : " Confirmed: " + settled.Reason)}", $"fact {doubt.Fact}"));
            }
        }
    }

    internal static string Time(long ms) => EventBook.Text(ms)[11..19] + " UTC";
}
