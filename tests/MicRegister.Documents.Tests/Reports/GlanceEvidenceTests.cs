using MicRegister.Documents.Drawings;
using MicRegister.Documents.Reports;
using MicRegister.Register;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Tests.Reports;

/// <summary>The evidence begins with one page that says what it comes to; limits stand at the end.</summary>
public sealed class GlanceEvidenceTests
{
    [Fact]
    public void The_first_page_says_verdict_and_counts_and_each_reason_once_with_its_stations()
    {
        var report = Made(72, 2, [70, 71], [72]);
        var first = report.TakeWhile(b => b is not ReportTurn).ToList();

        Assert.Contains(first.OfType<ReportHeading>(), t => t.Text == "Verdict: doubtful");
        // 72 stations of which one was empty and two were not checked, in each of two events.
        Assert.Equal(
            ["Events|2|0|2|0|0", "Stations|72|69|2|0|1", "Stations of events|144|138|4|0|2"], Rows(first, "How many are what"));
        var open = Rows(first, "Each reason once, the gravest first");
        Assert.Equal(
            [
                "not valid|Did anything stand there?|Nothing stood there.|S072|2", "doubtful|Was the chain checked before it?",
                "doubtful|Was the chain checked after it?", "doubtful|Does a check tell the sensitivity, as the campaign's rule asks?",
            ],
            open.Select(o => o.StartsWith("not", StringComparison.Ordinal) ? o : string.Join('|', o.Split('|')[..2])).Order(StringComparer.Ordinal).Reverse());
        Assert.All(open.Where(o => o.StartsWith("doubtful", StringComparison.Ordinal)), o => Assert.EndsWith("|S070, S071|2", o, StringComparison.Ordinal));
        Assert.StartsWith("not valid", open[0], StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_rescued_settled_and_is_open_is_counted()
    {
        // Damage of M1 to M3 after the evening's check rescues all; of M70, which nobody checked, the one event stays open.
        List<Fact> damage = [.. new[] { 1, 2, 3, 70, 71 }.Select(i => LargeArray.At(
            "2026-06-02T21:00:00.000Z", new DeviceServiced(ServiceKind.Damage, "dented", false), $"device:M{i}"))];
        var keys = DoubtBook.OfDevice(FactList.RegisterOf([.. LargeArray.Facts(72, 1, [70, 71]), .. damage]), "M71").Select(d => d.Key);
        damage.AddRange(keys.Select(k => LargeArray.Of(new DoubtSettled(k, false, [], "dented while packing"), "2026-06-03", "device:M71")));

        var first = Made(72, 1, [70, 71], more: [.. damage]).TakeWhile(b => b is not ReportTurn).ToList();

        // Doubts of M1 to M3 reach only from their evening's check to the damage: no event lies there.
        Assert.Equal(
            ["Events, once for each doubt|2|0|1|0|1", "Stations of these events|2|0|1|0|1"], Rows(first, "How many doubts were rescued and settled"));
    }

    [Theory]
    [InlineData(72)]
    [InlineData(200)]
    public void It_is_one_page_and_what_follows_begins_another_before_any_limit_of_the_profile(int stations)
    {
        int[] grave = [.. Enumerable.Range(1, stations / 2)];
        var report = Made(stations, 1, grave);
        var pages = ReportPages.Of("Evidence of Fen", "Invented", report);
        int PageOf(string text) => pages.ToList().FindIndex(p => p.Shapes.OfType<Label>().Any(l => l.Text == text));

        Assert.Equal((0, 1), (PageOf("1 In short"), PageOf("2 Scope")));
        Assert.Single(pages, p => p.Shapes.OfType<Label>().Any(l => l.Text == "1 In short"));
        var heads = report.OfType<ReportHeading>().Where(h => h.Level == 1).Select(h => h.Text).ToList();
        Assert.Equal(["1 In short", "2 Scope", "3 Events", "4 Doubt"], heads.Take(4));
        Assert.Equal(["10 The requirements it is judged by", "11 Where this report comes from, and how to read it"], heads[^2..]);
        Assert.True(PageOf("3 Events") <= 2, $"Events begin on page {PageOf("3 Events") + 1}.");
        var limits = report.ToList().FindIndex(b => b is ReportTable { Caption: "Limits of the profile" });
        Assert.True(limits > report.ToList().FindIndex(b => b is ReportTable { Caption: "Checks by station and day" }));
        // Limits take as many pages as their rows need, whatever the number of stations.
        Assert.True(PageOf("11 Where this report comes from, and how to read it") - PageOf("10 The requirements it is judged by") <= 3);
        ReportPagesTests.AssertWithinMargins(pages);
    }

    [Fact]
    public void Reasons_of_one_sort_are_one_however_many_devices_they_name()
    {
        int[] all = [.. Enumerable.Range(1, 60)];
        var report = Made(60, 1, all, more: [.. all.Select(i => LargeArray.At(
            "2026-06-02T21:00:00.000Z", new DeviceServiced(ServiceKind.Damage, $"found bent, {i} mm", false), $"device:M{i}"))]);

        var doubt = Assert.Single(
            Rows(report.TakeWhile(b => b is not ReportTurn), "Each reason once, the gravest first"),
            r => r.Contains("Does a doubt reach a device", StringComparison.Ordinal));
        Assert.Contains("And 59 more of this sort.", doubt, StringComparison.Ordinal);
        Assert.Contains("S011, S012 and 48 more", doubt, StringComparison.Ordinal);
    }

    [Fact]
    public void Reasons_that_the_page_cannot_hold_are_counted()
    {
        // Twelve long names in a narrow column make each row some ten lines high.
        int[] some = [.. Enumerable.Range(1, 40)];
        var facts = LargeArray.Facts(60, 1, some, [.. Enumerable.Range(41, 20)], prefix: "Station-beside-the-old-fen-");
        var damage = some.SelectMany(i => new[] { "M", "R" }.Select(kind => LargeArray.At(
            "2026-06-02T21:00:00.000Z", new DeviceServiced(ServiceKind.Damage, string.Join(' ', Enumerable.Repeat("found bent", 20)), false), $"device:{kind}{i}")));
        var report = EvidenceReport.Of(FactList.RegisterOf([.. facts, .. damage]), LargeArray.C, new(2026, 6, 20), [])!;
        var first = report.TakeWhile(b => b is not ReportTurn).ToList();

        Assert.Single(ReportPages.Of("Evidence of Fen", "Invented", first));
        var shown = Rows(first, "Each reason once, the gravest first");
        Assert.InRange(shown.Count, 1, 4);
        Assert.StartsWith("not valid", shown[0], StringComparison.Ordinal);
        var rest = 5 - shown.Count; // one empty, three of what nobody checked, and the damage
        Assert.Contains(first.OfType<ReportText>(), t => t.Text == $"And {(rest == 1 ? "1 further reason" : $"{rest} further reasons")}, 0 of them not valid or undecided; all are listed in section 3.");
    }

    [Fact]
    public void Without_an_event_there_is_no_verdict()
    {
        var first = Made(2, 0, []).TakeWhile(b => b is not ReportTurn).ToList();

        Assert.Contains(first.OfType<ReportHeading>(), t => t.Text == "Verdict: none");
        Assert.DoesNotContain(first.OfType<ReportText>(), t => t.Text.Contains("Nothing stands against", StringComparison.Ordinal));
    }

    [Fact]
    public void Where_all_is_valid_it_says_so()
    {
        var first = Made(5, 1, []).TakeWhile(b => b is not ReportTurn).ToList();

        Assert.Contains(first.OfType<ReportHeading>(), t => t.Text == "Verdict: valid");
        Assert.Contains(first.OfType<ReportText>(), t => t.Text == "Nothing stands against what was recorded.");
    }

    private static IReadOnlyList<ReportBlock> Made(int stations, int events, int[] @unchecked, int[]? empty = null, params Fact[] more) => EvidenceReport.Of(
        FactList.RegisterOf([.. LargeArray.Facts(stations, events, @unchecked, empty), .. more]), LargeArray.C, new(2026, 6, 20), [("Log", "invented")])!;

    private static List<string> Rows(IEnumerable<ReportBlock> blocks, string caption) =>
        [.. Assert.Single(blocks.OfType<ReportTable>(), t => t.Caption == caption).Rows.Select(r => string.Join('|', r))];
}
