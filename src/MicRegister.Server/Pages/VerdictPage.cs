using System.Text;
using System.Text.Encodings.Web;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Server.Commands;

namespace MicRegister.Server.Pages;

/// <summary>The verdict as one plain page: it needs no script, prints, and reads on a phone.</summary>
internal static class VerdictPage
{
    private const string Style = """
        :root { color-scheme: light dark; --ink: #16202a; --quiet: #55626f; --paper: #fff; --line: #d5dbe1; --ready: #0a6b3d; --risk: #8a5a00; --stop: #a3182a; --open: #2a4d8f }
        @media (prefers-color-scheme: dark) { :root { --ink: #e8edf2; --quiet: #a3afbb; --paper: #12181e; --line: #33404c; --ready: #5fd39a; --risk: #f0b84a; --stop: #ff8a94; --open: #9ab8f5 } }
        * { box-sizing: border-box } body { margin: 0; background: var(--paper); color: var(--ink); font: 17px/1.5 system-ui, sans-serif; font-variant-numeric: tabular-nums }
        main { max-width: 70rem; margin: 0 auto; padding: 1.5rem 1rem 4rem } h1 { font-size: 1.3rem; margin: 0 0 1.5rem; font-weight: 600 }
        h2 { font-size: 1.7rem; line-height: 1.25; margin: 2rem 0 .5rem } h3 { font-size: 1.1rem; margin: 2rem 0 .5rem }
        .ready { color: var(--ready) } .risks, .at-risk { color: var(--risk) } .stops, .not-ready { color: var(--stop) } .undecided { color: var(--open) } .note { color: var(--quiet) }
        ul { list-style: none; margin: 0; padding: 0 } li { border-top: 1px solid var(--line); padding: .7rem 0; display: grid; grid-template-columns: 7.5rem 1fr; gap: 0 1rem }
        .mark { font-weight: 600 } .by { color: var(--quiet); font-size: .92rem } .past { color: var(--stop) } p { margin: .4rem 0 } footer { color: var(--quiet); font-size: .85rem; margin-top: 3rem; overflow-wrap: anywhere }
        .map { display: flex; flex-wrap: wrap; gap: .35rem; margin: 1rem 0 } .map span { border: 1px solid currentColor; border-radius: .3rem; padding: .1rem .4rem; font-size: .85rem }
        @media (max-width: 40rem) { li { grid-template-columns: 1fr } } @media print { :root { color-scheme: light } li { break-inside: avoid } }
        """;

    public static string Render(IReadOnlyList<ReadinessReport> reports, LogHead head, string health)
    {
        var page = new StringBuilder();
        page.Append("<!doctype html><html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>Readiness</title><style>")
            .Append(Style).Append("</style></head><body><main><h1>Is the campaign ready, through its last day?</h1>");
        if (reports.Count == 0) page.Append("<p>No campaign is planned that is not over. Import a campaign, and its verdict stands here.</p>");
        foreach (var report in reports) Campaign(page, report);
        page.Append($"<p class=\"by\">{Text(health)}</p><footer>Calibrators are loud and polarisation voltages can hurt: follow the local rules and licensed practice. Log ").Append(Text(head.ToString())).Append("</footer></main></body></html>");
        return page.ToString();
    }

    private static void Campaign(StringBuilder page, ReadinessReport report)
    {
        var (shape, word) = ReadinessText.Verdict(report.Verdict);
        page.Append(Invariant($"<section><h2>{Text(report.Name)}: <span class=\"{Class(word)}\"><span aria-hidden=\"true\">{shape}</span> {word}</span></h2>"))
            .Append(Invariant($"<p>{report.FirstDay:yyyy-MM-dd} to {report.LastDay:yyyy-MM-dd}, judged as of {report.Today:yyyy-MM-dd} by the profile {Text(report.Profile)}.</p>"))
            .Append(Invariant($"<p>The array holds with probability {report.ArrayProbability:0.000}; with the permitted losses {report.WithLossesProbability:0.000}; with {report.UsableSpares} fit spares as well {report.WithSparesProbability:0.000}.</p>"))
            .Append("<div class=\"map\" role=\"list\" aria-label=\"Stations\">");
        foreach (var station in report.Stations)
        {
            var (mark, state) = ReadinessText.Verdict(station.Verdict);
            page.Append($"<span role=\"listitem\" class=\"{Class(state)}\" title=\"{state}\">{mark} {Text(station.Station)}</span>");
        }
        page.Append("</div>");
        if (report.Findings.Count == 0) page.Append("<p>Nothing stands against it.</p>");
        foreach (var group in report.Findings.GroupBy(f => f.Clearing).OrderByDescending(g => g.Max(f => f.Gravity)).ThenBy(g => g.Key))
        {
            page.Append($"<h3>To {ReadinessText.Act(group.Key)} ({group.Count()})</h3><ul>");
            foreach (var finding in group) Item(page, finding);
            page.Append("</ul>");
        }
        page.Append("</section>");
    }

    private static void Item(StringBuilder page, Finding finding)
    {
        var word = ReadinessText.Word(finding.Gravity);
        var shape = finding.Gravity switch { Gravity.Stops => "■", Gravity.Risks => "▲", _ => "○" };
        page.Append(Invariant($"<li><div><span class=\"mark {word}\"><span aria-hidden=\"true\">{shape}</span> {word}</span><br>{finding.BitesOn:yyyy-MM-dd}</div><div>"));
        if (finding.Station is { } station) page.Append($"<strong>{Text(station)}</strong> ");
        page.Append(Text(finding.Text));
        if (finding.Gravity != Gravity.Note)
            page.Append(Invariant($"<div class=\"by{(finding.IsTooLate ? " past" : "")}\">Start by {finding.LatestStart:yyyy-MM-dd}{(finding.IsTooLate ? ", which is past: take another device or change the plan" : "")}.</div>"));
        page.Append("</div></li>");
    }

    private static string Text(string text) => HtmlEncoder.Default.Encode(text);

    private static string Class(string word) => word.Replace(' ', '-');

    private static string Invariant(FormattableString text) => FormattableString.Invariant(text);
}
