using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>All traces and doubts of a register as one text, so that two can be compared; figures to 1e-9, since sums may be taken in another order.</summary>
internal static partial class TraceDump
{
    /// <summary>Ids of facts that stand in a text.</summary>
    public static IEnumerable<string> Ids(string text) => Ulid().Matches(text).Select(m => m.Value);

    public static string WithoutIds(string text) => Ulid().Replace(text, "#");

    public static string Of(Register register)
    {
        var text = new StringBuilder();
        foreach (var e in EventBook.OfCampaign(register, Heath.C))
        {
            var trace = Tracer.Of(register, e.Id)!;
            Line(text, $"event {e.Id} {e.Fact} {trace.Rule} {trace.Verdict} {trace.Recorded}");
            foreach (var station in trace.Stations) Station(text, station);
        }
        foreach (var doubt in DoubtBook.All(register))
        {
            var report = DoubtReport.Of(register, doubt);
            Line(text, $"doubt {doubt.Key} {doubt.FromMs} {doubt.ToMs} {Figure(doubt.GreatestDb)} {doubt.Text} checks {report.Checks}");
            foreach (var t in report.Touched) Line(text, $"  touches {t.Event.Id} {t.Settled?.What.Reason} {string.Join(", ", t.Stations.Select(s => $"{s.Station} {s.Rescue}"))}");
            foreach (var todo in report.ToDo) Line(text, "  " + todo);
        }
        return text.ToString();
    }

    private static void Station(StringBuilder text, StationTrace s)
    {
        Line(text, $" station {s.Station} {s.FromMs} {s.ToMs} {s.Verdict} placed {s.Placement?.Fact} chain {string.Join(' ', s.Chain.Select(d => d.Id))} before {s.Before?.Fact} after {s.After?.Fact}");
        foreach (var link in s.Links) Line(text, $"  link {link.Depth} {link.Device.Id} {link.Certificate?.Fact} {link.RestsOn}");
        foreach (var reason in s.Reasons) Line(text, $"  {reason.Weight} {reason.Text} [{reason.Source}]");
        foreach (var k in s.InPlace) Line(text, $"  in place {k.Fact} {k.Instant} of {k.Chains} since {k.Since} {Figure(k.MovedDb)} {Figure(k.ExpandedDb)} {Figure(k.LimitDb)} {k.Verdict}");
        foreach (var k in s.Curves) Line(text, $"  curve {k.Device.Id} {k.Acts} {k.Certificate.Fact} {k.Sha256[..4]} {Figure(k.AngleDeg)}");
        if (s.Incidence is { } i) Line(text, $"  incidence {i.Fact} {Figure(i.Said.AngleDeg)} {Figure(i.Said.HalfWidthDeg)} {i.IsOfEvent}");
        if (s.Applied is not { } a) return;
        Line(text, $"  applied {a.Rule} {Figure(a.VoltsDb)} {Figure(a.FullScaleDb)} {Figure(a.NormalisationDb)} {Figure(a.UsableFromHz)} {Figure(a.UsableToHz)} {Figure(a.StandardDb)} {Figure(a.CoverageFactor)} {a.Caution}");
        foreach (var term in a.Terms) Line(text, $"   term {term.Name} {Figure(term.ValueDb)} {Figure(term.StandardDb)} {term.Source} {term.Remark}");
        foreach (var line in a.Budget) Line(text, $"   line {line.Name} {line.Source} {Figure(line.StandardUncertainty)} {Figure(line.Sensitivity)}");
    }

    private static void Line(StringBuilder text, string line) => text.Append(line).Append('\n');

    // A nought has no sign.
    private static string Figure(double? value) => value is { } v ? (Math.Abs(v) < 5e-10 ? 0 : v).ToString("F9", CultureInfo.InvariantCulture) : "-";

    [GeneratedRegex(@"\b[0-7][0-9A-HJKMNP-TV-Z]{25}\b")]
    private static partial Regex Ulid();
}
