using MicRegister.Metrology.Quantities;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Tracing;

namespace MicRegister.Documents.Reports;

/// <summary>
/// The first page: one verdict, how many of what, and what is open. All that it says is shown by the sections that follow.
/// </summary>
internal static class GlanceEvidence
{
    /// <summary>More are counted here and listed where the events are.</summary>
    private const int MostOpen = 40;

    private const int MostNames = 12;

    // The page must hold with the foot that it gets: register, sequence and chain take two lines at most.
    private static readonly string Foot = string.Join('\n', Enumerable.Repeat("foot", 3));

    private static readonly string[] CountHead = ["Counted", "All", "Valid", "Doubtful", "Undecided", "Not valid"];
    private static readonly string[] DoubtHead =
        ["What doubts touch", "All", "Rescued by a check", "Cleared by a person", "Confirmed by a person", "Open"];

    private static readonly string[] OpenHead = ["Weight", "What is asked", "What was found", "Stations", "Events"];

    public static IEnumerable<ReportBlock> Of(Evidence e)
    {
        var open = Open(e).ToList();
        for (var most = Math.Min(open.Count, MostOpen); ; most--)
        {
            List<ReportBlock> page = [.. Page(e, open, most)];
            if (most == 0 || ReportPages.Of(EvidenceReport.TitleOf(e.Campaign), Foot, page).Count == 1) return [.. page, new ReportTurn()];
        }
    }

    private static IEnumerable<ReportBlock> Page(Evidence e, List<Reason> open, int most)
    {
        yield return new ReportHeading(1, "1 In short");
        var site = e.Plan.Site.Length > 0 ? ", " + Cut(e.Plan.Site, 80) : "";
        var requirements = e.Profile?.Written.Name ?? e.Plan.Profile + ", which the register does not know";
        yield return new ReportText(
            $"{e.Plan.Name}, {Evidence.Date(e.Plan.FirstDay)} to {Evidence.Date(e.Plan.LastDay)}{site}. "
            + $"Requirement profile: {Cut(requirements, 120)}"
            + (e.Profile is { } profile ? $", {Cut(ProfileWords.Checked(e.Register, profile), 200)}." : "."));
        if (e.Verdicts.Count == 0)
        {
            yield return new ReportHeading(2, "Verdict: none");
            yield return new ReportText("No event was stated, so that there is nothing to rely on yet.");
        }
        else
        {
            var verdict = EventVerdict.Of(e.Verdicts.Select(v => v.Verdict.Verdict));
            yield return new ReportHeading(2, $"Verdict: {verdict.InWords}");
            yield return new ReportText(verdict switch
            {
                TraceVerdict.Valid => "What was recorded can be relied on at every station of every event.",
                TraceVerdict.NotValid => "No event can be relied on at any station.",
                TraceVerdict.Undecided => "Nothing can be relied on until what this register cannot use was read by a person.",
                _ => "What was recorded can be relied on in part only; what is open stands below.",
            });
            yield return new ReportTable("How many are what", CountHead, [.. Counts(e)]);
            yield return new ReportText(
                "A station is what its worst event is; an event is valid where all its stations are, not valid where none can be used, "
                + "and doubtful in between.");
            yield return new ReportTable("How many doubts were rescued and settled", DoubtHead, [.. Doubts(e)]);
        }
        yield return new ReportHeading(2, "What stands against it, and is open");
        if (open.Count == 0)
        {
            yield return new ReportText(e.Verdicts.Count == 0 ? "Whatever was measured." : "Nothing stands against what was recorded.");
            yield break;
        }
        if (most > 0) yield return new ReportTable("Each reason once, the gravest first", OpenHead, [.. open.Take(most).Select(Row)]);
        if (most < open.Count)
        {
            var rest = open.Skip(most).ToList();
            var grave = rest.Count(r => r.Weight >= TraceVerdict.Undecided);
            yield return new ReportText(
                $"And {Evidence.Count(rest.Count, "further reason", "further reasons")}, {grave} of them "
                + $"{TraceVerdict.NotValid.InWords} or {TraceVerdict.Undecided.InWords}; all are listed in section 3.");
        }
    }

    private static IEnumerable<string[]> Counts(Evidence e)
    {
        yield return Row("Events", [.. e.Verdicts.Select(v => v.Verdict.Verdict)]);
        var stations = e.Verdicts.SelectMany(v => v.Verdict.Stations).ToList();
        yield return Row("Stations", [.. stations.GroupBy(s => s.Station, StringComparer.Ordinal).Select(g => g.Max(s => s.Verdict))]);
        yield return Row("Stations of events", [.. stations.Select(s => s.Verdict)]);

        static string[] Row(string what, List<TraceVerdict> verdicts) => Evidence.Row(
            what, Number(verdicts.Count), Number(verdicts.Count(v => v == TraceVerdict.Valid)),
            Number(verdicts.Count(v => v == TraceVerdict.Doubtful)), Number(verdicts.Count(v => v == TraceVerdict.Undecided)),
            Number(verdicts.Count(v => v == TraceVerdict.NotValid)));
    }

    private static IEnumerable<string[]> Doubts(Evidence e)
    {
        List<TouchedEvent> touched = [.. e.Doubts.Select(d => d.Touched)];
        yield return Evidence.Row(
            "Events, once for each doubt", Number(touched.Count),
            Number(touched.Count(t => t.Settled is null && t.IsRescued)),
            Number(touched.Count(t => t.Settled is { What.IsConfirmed: false })),
            Number(touched.Count(t => t.Settled is { What.IsConfirmed: true })),
            Number(touched.Count(t => t.Settled is null && !t.IsRescued)));
        List<(TouchedEvent Event, TouchedStation Station)> stations = [.. touched.SelectMany(t => t.Stations.Select(s => (t, s)))];
        yield return Evidence.Row(
            "Stations of these events", Number(stations.Count),
            Number(stations.Count(s => s.Event.Settled is null && s.Station.Rescue is not null)),
            Number(stations.Count(s => s.Event.Settled is { What.IsConfirmed: false })),
            Number(stations.Count(s => s.Event.Settled is { What.IsConfirmed: true })),
            Number(stations.Count(s => s.Event.Settled is null && s.Station.Rescue is null)));
    }

    // Reasons of one question and weight are one, whatever device or time they name.
    private static IEnumerable<Reason> Open(Evidence e) => e.Traces
        .SelectMany(t => t.Stations.SelectMany(s => s.Reasons.Select(r => (Reason: r, s.Station, Event: t.Event.Id))))
        .Where(r => r.Reason.Weight != TraceVerdict.Valid)
        .GroupBy(r => (r.Reason.Weight, Question: r.Reason.Question.Length > 0 ? r.Reason.Question : r.Reason.Text))
        .Select(g => new Reason(
            g.Key.Weight, g.First().Reason.Asked, [.. g.Select(r => r.Reason.Text).Distinct(StringComparer.Ordinal)],
            [.. g.Select(r => r.Station).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)],
            g.Select(r => r.Event).Distinct(StringComparer.Ordinal).Count()))
        .OrderByDescending(r => r.Weight).ThenByDescending(r => r.Stations.Count).ThenBy(r => r.Texts[0], StringComparer.Ordinal);

    private static string[] Row(Reason r) => Evidence.Row(
        r.Weight.InWords, r.Asked, Cut(r.Texts[0], 160) + (r.Texts.Count > 1 ? $" And {r.Texts.Count - 1} more of this sort." : ""),
        string.Join(", ", r.Stations.Take(MostNames).Select(s => Cut(s, 24)))
            + (r.Stations.Count > MostNames ? $" and {r.Stations.Count - MostNames} more" : ""),
        Number(r.Events));

    private static string Cut(string text, int most) => text.Length <= most ? text : text[..(most - 1)] + "…";

    private static string Number(int n) => QuantityText.Number(n, 0);

    private sealed record Reason(
        TraceVerdict Weight, string Asked, IReadOnlyList<string> Texts, IReadOnlyList<string> Stations, int Events);
}
