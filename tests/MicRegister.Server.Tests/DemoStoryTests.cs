using System.Text.Json.Nodes;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Devices;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.InPlace;
using MicRegister.Register.Tracing;
using MicRegister.Storage.LiteDb;

namespace MicRegister.Server.Tests;

/// <summary>What the demo tells beside its coming campaign is what demo-inventory's README says was planted.</summary>
public sealed class DemoStoryTests
{
    private const string Flown = "LAPWING-FEN-26";

    /// <summary>
    /// By hand. Day 1: all 20 stations. Day 2: F07 lacks its evening's check, and the next one, 07:22 of the day after, lies within
    /// 18 hours of what ended after 13:22 alone. Day 3: F13 to F20 rest on K504 in doubt; five events were cleared and one confirmed; from
    /// noon on F04 holds a microphone whose certificate was out of date; the last event came after everything had been taken in.
    /// </summary>
    private static readonly (string Kind, int From, int To, string Stations)[] Planted =
    [
        ("QUIET-A", 1, 2, "valid: 20 valid"), ("FLY-BY-A", 1, 12, "valid: 20 valid"),
        ("QUIET-B", 1, 1, "doubtful: 19 valid, F07 doubtful"), ("FLY-BY-B", 1, 11, "doubtful: 19 valid, F07 doubtful"),
        ("FLY-BY-B", 12, 12, "valid: 20 valid"), ("QUIET-B", 2, 2, "valid: 20 valid"),
        ("QUIET-C", 1, 1, "valid: 20 valid"), ("FLY-BY-C", 1, 4, "valid: 20 valid"),
        ("FLY-BY-C", 5, 5, "doubtful: 12 valid, F13 F14 F15 F16 F17 F18 F19 F20 not valid"),
        ("FLY-BY-C", 6, 7, "doubtful: 12 valid, F13 F14 F15 F16 F17 F18 F19 F20 doubtful"),
        ("FLY-BY-C", 8, 10, "doubtful: 11 valid, F13 F14 F15 F16 F17 F18 F19 F20 doubtful, F04 not valid"),
        ("QUIET-C", 2, 2, "not valid: 0 valid, " + string.Join(' ', Enumerable.Range(1, 20).Select(n => $"F{n:00}")) + " not valid"),
    ];

    [Fact]
    public async Task Events_of_the_flown_campaign_are_what_was_planted()
    {
        var demo = (await ServerUnderTest.Reading(withDemo: true)).Live.Now;

        var expected = Planted.SelectMany(p => Enumerable.Range(p.From, p.To - p.From + 1)
            .Select(n => $"{Flown}.{p.Kind}{n} {p.Stations}")).Order(StringComparer.Ordinal);
        var events = EventBook.OfCampaign(demo, Flown);
        Assert.Equal(expected, events.Select(e => $"{e.Id} {Said(EventVerdict.Of(demo, e.Id)!)}").Order(StringComparer.Ordinal));
        // 14 of day 1, two late ones of day 2, five cleared; twelve of day 2 and six of day 3; one after the taking in.
        Assert.Equal((14 + 2 + 5, 12 + 6, 1), (Count(TraceVerdict.Valid), Count(TraceVerdict.Doubtful), Count(TraceVerdict.NotValid)));

        int Count(TraceVerdict verdict) => events.Count(e => EventVerdict.Of(demo, e.Id)!.Verdict == verdict);
    }

    [Fact]
    public async Task The_failed_calibrator_puts_in_doubt_what_came_after_it_was_last_known_to_be_good()
    {
        var demo = (await ServerUnderTest.Reading(withDemo: true)).Live.Now;
        var calibrator = Device(demo, "K504");

        var doubt = Assert.Single(DoubtBook.OfDevice(demo, calibrator.Id));

        // Found at 93.57 dB, certified at 93.99 dB.
        Assert.Equal(0.42, doubt.GreatestDb!.Value, 1e-9);
        // Eight stations, before and after, on three days, and once more on F20 at noon of the second.
        var checks = CheckBook.MadeWith(demo, calibrator.Id);
        Assert.Equal((8 * 2 * 3) + 1, checks.Count);
        // K501 stood on F20 at noon of the second day: within 18 hours of that K504 was last on F20 in that evening.
        var behind = checks.Where(c => c.Instant >= doubt.FromMs && c.Instant <= doubt.ToMs).ToList();
        Assert.Equal(8 * 2, behind.Count);
        Assert.All(behind, c => Assert.Equal(new DateOnly(2026, 4, 23), c.Day));

        var touched = DoubtReport.Of(demo, doubt).Touched;
        Assert.Equal(
            Enumerable.Range(1, 10).Select(n => $"{Flown}.FLY-BY-C{n}").Append(Flown + ".QUIET-C1").Order(StringComparer.Ordinal),
            touched.Select(t => t.Event.Id).Order(StringComparer.Ordinal));
        Assert.All(touched, t => Assert.Equal(Enumerable.Range(13, 8).Select(n => $"F{n}"), t.Stations.Select(s => s.Station)));
        Assert.Equal((5, 1, 5), (touched.Count(t => t.Settled?.What.IsConfirmed == false),
            touched.Count(t => t.Settled?.What.IsConfirmed == true), touched.Count(t => t.Settled is null)));
    }

    [Fact]
    public async Task A_day_outdoors_is_there_in_all_its_parts()
    {
        var demo = (await ServerUnderTest.Reading(withDemo: true)).Live.Now;
        var deployment = ArrayDeployment.Of(demo, Flown);

        var swap = Assert.Single(deployment.Placements, p => p.Said.Swap is not null);
        Assert.Equal(("F04", Device(demo, "41026").Id, Device(demo, "41085").Id), (swap.Station, swap.Said.Swap!.Out, swap.Said.Swap.In));
        Assert.Equal(20, deployment.TakenIn.Count);
        Assert.DoesNotContain(deployment.Placements, p => p.Stands);
        // Twenty stations before and after on three days, less the forgotten one; two at the swap and two at noon.
        var checks = CheckBook.OfCampaign(demo, Flown);
        Assert.Equal((20 * 2 * 3) - 1 + 2 + 2, checks.Count);
        Assert.All(checks, c => Assert.True(c.Check is { Air.PressureKPa: > 100 and < 101, Adapter: not null, Barometer: not null }));
        // Every half hour from seven to nineteen.
        Assert.Equal(3 * 25, WeatherLog.Of(demo, Flown).Samples.Count);
        Assert.Equal(20, demo.Campaign(Flown)!.Surveys.Count);
        Assert.Equal([20, 20], ComparisonBook.OfCampaign(demo, Flown).Select(c => c.Said.Chains.Count));
        Assert.Equal(TimeScale.Utc, EventBook.SetOf(demo, Flown, "C05")!.Scale);
        var trace = Assert.Single(Tracer.Of(demo, Flown + ".FLY-BY-C9", "F04")!.Stations);
        Assert.Contains(trace.Reasons, r => r.Text.Contains(
            "41085: its sensitivity calibration is valid through 2025-03-09", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Its_files_add_nothing_when_they_are_taken_over_again()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);
        string[] files = [.. Directory.GetFiles(Path.Combine(AppContext.BaseDirectory, "demo-inventory", "flown"), "*.csv")];
        Assert.Equal(12, files.Length);

        var (exit, output, error) = await CommandLine.Run(["import", .. files, "--data", folder.Path, "--today", "2026-09-01"]);

        Assert.True(exit == 0, output + error);
        Assert.Contains("\n0 facts stored.", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_morning_of_laying_out_comes_only_when_it_is_asked_for()
    {
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);
        var (_, before, _) = await CommandLine.Run("demo", "--once", "--json", "--data", folder.Path);
        Assert.Empty(JsonNode.Parse(before)!["outdoors"]!.AsArray());

        var (_, output, error) = await CommandLine.Run("demo", "--once", "--json", "--day", "field", "--data", folder.Path);

        Assert.Equal("", error);
        var answer = JsonNode.Parse(output)!;
        // 30 placings and a swap, 22 checks, the state and the note of the microphone that was not found, and three files.
        Assert.Equal(30 + 1 + 22 + 2 + 3, (int)answer["stored"]!);
        Assert.Equal("2026-09-01", (string)Assert.Single(answer["campaigns"]!.AsArray())!["today"]!);
        // 30 of 72 are placed, 22 of them checked; the check of S21 is rejected.
        using var store = ReadOnlyStore.Open(new DiskFiles(folder.Path))!;
        var campaign = store.Register.Campaign(ReadDemo.C)!;
        var standing = StationStanding.Of(store.Register, campaign, ArrayDeployment.Of(store.Register, campaign.Id),
            CheckBook.OfCampaign(store.Register, campaign.Id));
        Assert.Equal(
            [(StationState.Planned, 42), (StationState.Placed, 8), (StationState.Checked, 21), (StationState.Failing, 1)],
            standing.GroupBy(s => s.State).OrderBy(g => g.Key).Select(g => (g.Key, g.Count())));
        Assert.Equal([42, 8, 21, 1], answer["outdoors"]![0]!["stations"]!.AsObject().Select(s => (int)s.Value!));
        var failing = standing.Single(s => s.State == StationState.Failing);
        Assert.Equal(("S21", "reject"), (failing.Station, failing.Check!.Word));
        Assert.Equal("S12", Assert.Single(standing, s => s.Placement?.Said.Swap is not null).Station);
        Assert.Equal(StationState.Planned, standing.Single(s => s.Station == "S19").State);
        Assert.Equal(DeviceStatus.Lost, Device(store.Register, "41019").Status);

        var (_, again, _) = await CommandLine.Run("demo", "--once", "--json", "--day", "field", "--data", folder.Path);
        Assert.Equal(0, (int)JsonNode.Parse(again)!["stored"]!);
    }

    [Fact]
    public async Task It_says_what_was_flown_and_names_five_pages_that_are_there()
    {
        var server = await ServerUnderTest.Reading(withDemo: true);
        using var folder = new TemporaryFolder();
        await DemoFolder.CopyTo(folder.Path);

        var (_, output, _) = await CommandLine.Run("demo", "--once", "--data", folder.Path);

        Assert.Contains("Lapwing Fen 26 was flown, 2026-04-21 to 2026-04-23: 40 events: 21 valid, 18 doubtful, 1 not valid.", output,
            StringComparison.Ordinal);
        var pages = output.Split('\n').Where(l => l.StartsWith("  /", StringComparison.Ordinal)).Select(l => l.Trim().Split(' ')[0])
            .ToList();
        Assert.Equal(5, pages.Count);
        foreach (var page in pages)
        {
            using var answer = await server.Client.GetAsync(page, TestContext.Current.CancellationToken);
            Assert.Equal(System.Net.HttpStatusCode.OK, answer.StatusCode);
        }
    }

    [Fact]
    public async Task Its_files_are_taken_as_of_the_day_they_were_written_whichever_day_is_judged()
    {
        using var folder = new TemporaryFolder();

        var (_, output, error) = await CommandLine.Run("demo", "--once", "--json", "--today", "2026-02-01", "--data", folder.Path);

        Assert.Equal("", error);
        var answer = JsonNode.Parse(output)!;
        var outcomes = answer["files"]!.AsArray().SelectMany(f => f!["outcomes"]!.AsArray());
        Assert.DoesNotContain(outcomes, o => (string)o!["outcome"]! == "refused");
        Assert.Empty(answer["flown"]!.AsArray());
        Assert.Equal([Flown, ReadDemo.C], answer["campaigns"]!.AsArray().Select(c => (string)c!["campaign"]!));
    }

    [Fact]
    public async Task Another_word_for_the_day_is_refused()
    {
        using var folder = new TemporaryFolder();

        var (exit, _, error) = await CommandLine.Run("demo", "--once", "--day", "noon", "--data", folder.Path);

        Assert.Equal(2, exit);
        Assert.Contains("--day noon: allowed are plan and field.", error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFileSystemEntries(folder.Path));
    }

    private static DeviceState Device(Register.Register register, string serial) =>
        register.DeviceIds.Select(id => register.Device(id)!).First(d => d.Serial == serial);

    private static string Said(EventVerdict verdict)
    {
        var others = verdict.Stations.Where(s => s.Verdict != TraceVerdict.Valid).GroupBy(s => s.Verdict).OrderBy(g => g.Key)
            .Select(g => $", {string.Join(' ', g.Select(s => s.Station))} {g.Key.InWords}");
        return $"{verdict.Verdict.InWords}: {verdict.Valid} valid{string.Concat(others)}";
    }
}
