using MicRegister.Metrology.Quantities;
using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Reports;

/// <summary>What was recorded and whether it can be relied on, what was found, and what is in doubt.</summary>
internal static class EventEvidence
{
    private static readonly string[] EventHead =
    [
        "Event", "Verdict", "Start, site time", "Start, UTC", "Stop, UTC", "Valid at", "Doubtful at", "Undecided at", "Not valid at",
        "Why not valid or undecided", "Recording",
    ];

    private static readonly string[] ReasonHead = ["What stands against it", "Stations", "Events"];

    private static readonly string[] AppliedHead =
    [
        "Station", "Told by", "Sensitivity applied, dB re 1 V/Pa", "Greatest U in V/Pa, dB", "Greatest U in FS/Pa, dB",
        "of the sensitivity in V/Pa, dB", "of mount and direction, dB", "To be added for the free field, dB", "From, Hz", "To, Hz",
        "Caution",
    ];

    private static readonly string[] ReadinessHead = ["Weight", "Where", "What was found", "How it was settled"];
    private static readonly string[] FoundHead = ["What was found", "How it was settled"];
    private static readonly string[] CorrectedHead = ["What was said", "For when", "By whom", "What became of it"];
    private static readonly string[] DoubtHead = ["Doubt", "From, UTC", "To, UTC", "Greatest error", "Event", "Rescued by a check", "Not rescued", "Settled"];

    public static IEnumerable<ReportBlock> Events(Evidence e)
    {
        yield return new ReportHeading(1, "3 Events");
        if (e.Traces.Count == 0)
        {
            yield return new ReportText("No event was stated: nothing that flew or was recorded is known.");
            yield break;
        }
        yield return new ReportText(
            "An event is one pass, run or background that was recorded. At each station it is valid, doubtful, where something stands "
                + "against it that a person should weigh, undecided, where something was said of it that this register cannot use, or not "
                + "valid, where it must not be used. A station where a part was swapped in mid-event counts as the worse of its halves.");
        yield return new ReportTable("Events and what can be relied on", EventHead, [.. e.Traces.Select(t => Row(e, t))]);
        var doubtful = e.Traces.SelectMany(t => t.Stations.SelectMany(s => s.Reasons.Where(r => r.Weight == TraceVerdict.Doubtful).Select(r => (r.Text, s.Station, t.Event.Name))))
            .GroupBy(r => r.Text, StringComparer.Ordinal).Select(g => Evidence.Row(g.Key, Listed(g.Select(r => r.Station)), Listed(g.Select(r => r.Name)))).ToList();
        if (doubtful.Count > 0) yield return new ReportTable("What makes stations doubtful", ReasonHead, [.. doubtful]);

        yield return new ReportHeading(2, "Sensitivities and the mount");
        yield return new ReportText("A level is what was recorded divided by the sensitivity. The mount then makes it higher than in a free field: by 6.02 dB at a plate, where pressure doubles, and by 3.01 dB on a stand over the ground as an average over bands, never for a tone; a pole is taken as free field (common practice, no source). The correction is not part of the sensitivity: whoever evaluates the recordings adds it once. "
            + "The band in which it holds is worked out for a rigid, endless plane and sound from overhead; at other angles, or on real ground, it is another one.");
        yield return new ReportTable("Sensitivities applied, by station", AppliedHead, [.. Applied(e)]);
        foreach (var block in UncertaintyEvidence.Of(e)) yield return block;
    }

    private static string Greatest(IEnumerable<AppliedSensitivity> applied, UncertaintyPart part) =>
        QuantityText.Expanded(applied.Max(a => a.Part(part).ExpandedDb), "dB");

    private static string[] Row(Evidence e, EventTrace trace)
    {
        var worst = trace.Stations.GroupBy(s => s.Station, StringComparer.Ordinal).Select(g => (Station: g.Key, Verdict: g.Max(s => s.Verdict))).ToLookup(s => s.Verdict, s => s.Station);
        var reasons = trace.Stations
            .SelectMany(s => s.Reasons.Where(r => r.Weight >= TraceVerdict.Undecided).Select(r => (s.Station, r.Text)))
            .GroupBy(r => r.Text, StringComparer.Ordinal).Select(g => $"{Listed(g.Select(r => r.Station))}: {g.Key}");
        return Evidence.Row(
            trace.Event.Name + (trace.Event.Source is { } source ? $" ({source})" : ""), trace.Verdict.InWords,
            e.Local(trace.Event.StartMs), Evidence.Utc(trace.Event.StartMs), Evidence.Utc(trace.Event.StopMs),
            Listed(worst[TraceVerdict.Valid]), Listed(worst[TraceVerdict.Doubtful]), Listed(worst[TraceVerdict.Undecided]),
            Listed(worst[TraceVerdict.NotValid]),
            string.Join(" ", reasons), trace.Recorded);
    }

    private static IEnumerable<string[]> Applied(Evidence e)
    {
        var applied = e.Traces.SelectMany(t => t.Stations).Where(s => s.Applied is not null).Select(s => (s.Station, Applied: s.Applied!));
        foreach (var g in applied.GroupBy(a => (a.Station, a.Applied.Rule, a.Applied.NormalisationDb, a.Applied.UsableFromHz, a.Applied.UsableToHz, a.Applied.Caution)).OrderBy(g => g.Key.Station, StringComparer.Ordinal))
        {
            var least = QuantityText.Number(g.Min(a => a.Applied.VoltsDb), 3);
            var greatest = QuantityText.Number(g.Max(a => a.Applied.VoltsDb), 3);
            yield return Evidence.Row(
                g.Key.Station, g.Key.Rule.InWords, least == greatest ? least : $"{least} to {greatest}",
                QuantityText.Expanded(g.Max(a => a.Applied.ExpandedDb), "dB"),
                g.Max(a => a.Applied.InFullScale?.ExpandedDb) is { } u ? QuantityText.Expanded(u, "dB") : "range not known",
                Greatest(g.Select(a => a.Applied), UncertaintyPart.Sensitivity),
                Greatest(g.Select(a => a.Applied), UncertaintyPart.MountAndDirection), QuantityText.Signed(g.Key.NormalisationDb, 2),
                Evidence.Hz(g.Key.UsableFromHz), Evidence.Hz(g.Key.UsableToHz), g.Key.Caution ?? "");
        }
    }

    public static IEnumerable<ReportBlock> Findings(Evidence e)
    {
        yield return new ReportHeading(1, "5 Findings, and how each was settled");
        var readiness = e.Readiness?.Findings ?? [];
        yield return new ReportText(e.Readiness is null ? $"As of {Evidence.Date(e.Today)} the plan was not known yet, so that nothing was held against it."
            : e.Readiness.IsOver ? ReadinessWords.Over(e.Readiness)
            : readiness.Count == 0 ? $"As of {Evidence.Date(e.Today)} nothing remains that stands against the planned array."
            : $"As of {Evidence.Date(e.Today)} {Evidence.Count(readiness.Count, "finding remains", "findings remain")} against the planned array. What was put right before is not listed.");
        if (readiness.Count > 0)
        {
            yield return new ReportTable("Findings that remain", ReadinessHead, [.. readiness.Select(f => Evidence.Row(
                f.Gravity.InWords, string.Join(", ", new[] { f.Station, f.DeviceName }.Where(t => t is not null)), f.Text, "not settled"))]);
        }
        var found = Found(e).ToList();
        if (found.Count > 0) yield return new ReportTable("Findings in the field and about alarms", FoundHead, [.. found]);
        var corrected = Corrected(e).ToList();
        yield return corrected.Count > 0
            ? new ReportTable("What was said of this campaign and does not count any more", CorrectedHead, [.. corrected])
            : new ReportText("No fact of this campaign was annulled or stated anew.");
    }

    private static IEnumerable<string[]> Found(Evidence e)
    {
        foreach (var f in DeploymentFindings.Of(e.Register, e.Campaign.Id).Concat(EventBook.Findings(e.Register, e.Campaign.Id))) yield return Evidence.Row(f.Text, "not settled");
        foreach (var p in e.Deployment.Placements)
        {
            foreach (var concern in p.Said.Concerns) yield return Evidence.Row($"Station {p.Station}: {concern}", $"placed all the same by {e.Person(p.Author)}{(p.Said.Remark is { } remark ? ": " + remark : "")}");
        }
        foreach (var device in e.Days.Keys.Select(e.Device).OfType<DeviceState>())
        {
            foreach (var (certificate, review) in device.Reviews)
            {
                var day = device.Certificates.FirstOrDefault(c => c.Fact.ToString() == certificate)?.Day;
                var word = review.Decision switch { AlarmDecision.NoChange => "no change", AlarmDecision.LastingStep => "a lasting step", _ => "a bad result" };
                yield return Evidence.Row($"{device.Name}: an alarm about its result{(day is { } d ? $" of {Evidence.Date(d)}" : "")}", $"{word}: {review.Reason}");
            }
        }
    }

    private static IEnumerable<string[]> Corrected(Evidence e)
    {
        var facts = e.Register.Facts(Subject.Campaign(e.Campaign.Id));
        var gone = facts.Where(s => !e.Register.Counts(s)).Select(s => e.Register.Source.Read(s)).Where(f => f.Body is not FactAnnulled).ToList();
        if (gone.Count == 0) yield break;
        var annulled = facts.Where(s => e.Register.IsOfKind(s, "fact-annulled") && e.Register.Counts(s)).Select(s => e.Register.Source.Read(s))
            .Select(f => (f.Author, Body: f.Body as FactAnnulled)).Where(a => a.Body is not null).ToLookup(a => a.Body?.Target ?? "", a => $"annulled by {e.Person(a.Author)}: {a.Body?.Reason}", StringComparer.Ordinal);
        foreach (var fact in gone)
        {
            List<string> why = [.. annulled[fact.Id.ToString()]];
            yield return Evidence.Row(EvidenceReport.Said(fact), fact.Occurred.ToString(), e.Person(fact.Author), why.Count > 0 ? string.Join("; ", why) : "stated anew, or its annulment stands elsewhere");
        }
    }

    public static IEnumerable<ReportBlock> Doubts(Evidence e)
    {
        yield return new ReportHeading(1, "4 Doubt");
        yield return new ReportText("A doubt is a span of time in which a device cannot be relied on as it was: it was found out of tolerance, a certificate was withdrawn, or damage was reported. An event in that span is rescued where a check shows that the chain was still good after it, or where another calibrator says so. What is neither rescued nor settled by a person stays open.");
        var rows = e.Doubts.Select(d => Row(d.Doubt, d.Touched)).ToList();
        if (rows.Count > 0) yield return new ReportTable("Doubts that touch events of this campaign", DoubtHead, [.. rows]);
        else yield return new ReportText("No doubt touches an event of this campaign.");
    }

    private static string[] Row(Doubt doubt, TouchedEvent touched) => Evidence.Row(
        doubt.Text, Evidence.Utc(doubt.FromMs), Evidence.Utc(doubt.ToMs),
        doubt.GreatestDb is { } db ? QuantityText.Of(db, doubt.Unit, 3) : "nobody knows", touched.Event.Name,
        Listed(touched.Stations.Where(s => s.Rescue is not null).Select(s => s.Station)),
        Listed(touched.Stations.Where(s => s.Rescue is null).Select(s => s.Station)),
        touched.Settled is { } settled
            ? $"{(settled.What.IsConfirmed ? "confirmed, not to be relied on" : "does not hold")}: {settled.What.Reason}"
            : touched.IsRescued ? "not needed" : "open");

    internal static string Listed(IEnumerable<string> names) => string.Join(", ", names.Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)) is { Length: > 0 } text ? text : "none";
}
