using MicRegister.Register.Checks;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Events;

/// <summary>
/// What files hold of an event of a minute, 10:00 to 10:01 UTC of 2 June, at a station whose channel belongs to recorder REC-A, channel 3.
/// Clocks show UTC and were checked to 0.1 s an hour before and after, unless a case says otherwise. Spans are taken off by hand.
/// </summary>
public sealed class EventCoverageTests
{
    private static readonly Fact Channel = Heath.Described("R1", ("recorder", "REC-A"), ("channel-number", 3), ("range-v", 10));

    [Fact]
    public void A_file_over_all_of_it_leaves_it_valid()
    {
        var register = With(File("a.wav", "REC-A", "09:59:30", 120));

        Assert.Equal((TraceVerdict.Valid, "Its files hold all of it."), (Heath.One(register).Verdict, Tracer.Of(register, "E1")!.Recorded));
        Assert.Empty(Findings(register));
    }

    [Fact]
    public void Ten_of_its_sixty_seconds_are_said()
    {
        var register = With(File("a.wav", "REC-A", "10:00:20", 10));

        const string text = "a.wav holds 10 of the 60 s of Flight E1 only, from 2026-06-02T10:00:20.000Z to 2026-06-02T10:00:30.000Z.";
        Assert.Equal(["file-gap " + text], Said(register));
        Assert.Equal(["file-gap " + text], Findings(register));
        Assert.Equal("What its files hold is in doubt.", Tracer.Of(register, "E1")!.Recorded);
    }

    [Fact]
    public void Two_files_that_follow_each_other_hold_it_together()
    {
        Assert.Equal(TraceVerdict.Valid, Heath.One(With(File("a.wav", "REC-A", "09:59:00", 90), File("b.wav", "REC-A", "10:00:30", 60))).Verdict);

        // Five seconds between them are missing: 30 + 25 s.
        var gap = Assert.Single(Said(With(File("a.wav", "REC-A", "09:59:00", 90), File("b.wav", "REC-A", "10:00:35", 60))));
        Assert.StartsWith("file-gap a.wav, b.wav hold 55 of the 60 s of Flight E1 only, from 2026-06-02T10:00:00.000Z to", gap, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_outside_of_it_is_said_unless_another_one_holds_it()
    {
        Assert.Equal(
            ["file-outside a.wav runs from 2026-06-02T10:05:00.000Z to 2026-06-02T10:06:00.000Z by its recorder's clock, outside of Flight E1."],
            Said(With(File("a.wav", "REC-A", "10:05:00", 60))));
        Assert.Empty(Said(With(File("a.wav", "REC-A", "10:05:00", 60), File("b.wav", "REC-A", "09:59:00", 180))));
    }

    [Fact]
    public void No_file_counts_against_it_only_where_files_of_others_are_stated()
    {
        const string unknown = "whether it was recorded is not known.";
        var without = With();
        Assert.Equal(TraceVerdict.Valid, Heath.One(without).Verdict);
        Assert.Equal($"No file is stated of any event of this campaign: {unknown}", Tracer.Of(without, "E1")!.Recorded);
        Assert.Empty(Findings(without));

        var other = Event("E2", "11:00", "11:01", File("z.wav", "REC-A", "10:59:30", 120));
        var with = Heath.With([.. Day(), Event("E1", "10:00", "10:01"), other]);
        Assert.Equal([$"event-unrecorded No file is stated of it, though files are stated of other events: {unknown}"], Said(with));
        Assert.Equal(
            [$"event-unrecorded No file is stated of Flight E1, though files are stated of other events: {unknown}"], Findings(with));
    }

    [Fact]
    public void A_station_asks_for_files_of_its_own_recorder_and_channel()
    {
        var others = With(File("b.wav", "REC-B", "09:59:00", 180));
        Assert.Equal(
            ["event-unrecorded No file of its recorder REC-A is stated of the event, though files of others are: "
                + "whether it was recorded there is not known."],
            Said(others));
        // Its channel says nothing of a recorder: the file holds for it.
        Assert.Empty(Said(others, "S2"));

        var part = With(File("a.wav", "rec-a", "10:00:20", 10), File("b.wav", "REC-B", "09:59:00", 180));
        Assert.StartsWith("file-gap a.wav holds 10 of the 60 s", Assert.Single(Said(part)), StringComparison.Ordinal);
        Assert.EndsWith(
            "Which of its recorders the channel belongs to is not known.", Assert.Single(Said(part, "S2")), StringComparison.Ordinal);

        var pair = File("a.wav", "REC-A", "09:59:00", 180);
        Assert.Equal(
            ["event-unrecorded The files of recorder REC-A hold no channel 3: whether it was recorded is not known."],
            Said(With(pair with { Channels = [1, 2] })));
        Assert.Empty(Said(With(pair with { Channels = [1, 2, 3] })));
        // A file of one channel numbers it from 1.
        Assert.Empty(Said(With(pair with { Channels = [1] })));
    }

    [Fact]
    public void A_file_that_does_not_say_when_it_begins_holds_it_as_stated_unless_it_is_too_short()
    {
        // A file that names no recorder may be any one's.
        foreach (var (file, missing) in new[]
        {
            (File("a.wav", "REC-A", "09:59:00", 60) with { Recorder = null }, "which recorder made it"),
            (File("a.wav", "REC-A", "09:59:00", 60) with { RecorderStart = null }, "when it begins"),
        })
        {
            var register = With(file);
            var reason = Assert.Single(Heath.One(register).Reasons);
            Assert.Equal(
                (TraceVerdict.Valid, $"a.wav does not say {missing}: that it holds Flight E1 is as it was stated."), (reason.Weight, reason.Text));
            Assert.Equal("Its files hold all of it, as far as was said: when some begin is not known.", Tracer.Of(register, "E1")!.Recorded);
            Assert.Empty(Findings(register));

            string[] text = [$"file-gap a.wav holds at most 59 of the 60 s of Flight E1, and does not say {missing}."];
            Assert.Equal(text, Said(With(file with { Seconds = 59 })));
            Assert.Equal(text, Findings(With(file with { Seconds = 59 })));
        }
    }

    [Fact]
    public void A_clock_that_nobody_checked_or_somebody_set_is_said()
    {
        var file = File("a.wav", "REC-A", "09:59:30", 120);
        var uncheckedClock = Heath.With([.. Day(checks: false), Event("E1", "10:00", "10:01", file)]);
        Assert.Equal(
            ["clock-unchecked Nobody checked the clock of recorder REC-A: that a.wav holds Flight E1 rests on it alone."], Said(uncheckedClock));
        Assert.Equal(
            ["clock-unchecked Nobody checked the clock of recorder REC-A: what its files hold of Flight E1 rests on it alone."],
            Findings(uncheckedClock));

        // It was right at nine and 30 s ahead at eleven.
        var set = Heath.With([.. Day(checks: false), Clock("09:00:00", "09:00:00"), Clock("11:00:30", "11:00:00"),
            Event("E1", "10:00", "10:01", File("a.wav", "REC-A", "09:59:00", 300))]);
        Assert.Contains("more than a clock drifts", Assert.Single(Said(set)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.4, false)]
    [InlineData(0.6, true)]
    public void An_end_that_its_clock_may_have_missed_is_said(double uncertaintyS, bool isSaid)
    {
        // It begins half a second before the event does.
        var register = Heath.With([.. Day(checks: false), Clock("09:00:00", "09:00:00", uncertaintyS), Clock("11:00:00", "11:00:00", uncertaintyS),
            Event("E1", "10:00", "10:01", File("a.wav", "REC-A", "09:59:59.500", 120))]);

        Assert.Equal(
            isSaid
                ? ["file-gap a.wav may hold Flight E1 in part only: it runs from 2026-06-02T09:59:59.500Z to 2026-06-02T10:01:59.500Z, "
                    + "and its time is known within 0.6 s."]
                : [],
            Said(register));
    }

    [Fact]
    public void An_event_that_its_file_timed_is_held_by_it()
    {
        Assert.Empty(Said(Heath.With([.. Day(checks: false), Clock("09:00:00", "09:00:00", 5), Clock("11:00:00", "11:00:00", 5),
            Event("E1", "10:00", "10:01", File("a.wav", "REC-A", "10:00:00", 60))])));
    }

    [Fact]
    public void An_hour_that_came_twice_leaves_its_file_open()
    {
        // Clocks were put back by an hour at 09:30 UTC: what showed 10:00 was 09:00 or 10:00.
        var local = Heath.Said("06-02 05:00", 20, new RecorderClockSet(
            "REC-A", TimeScale.Local, "Zone/Heath", [new("2020-01-01T00:00:00.000Z", 60), new("2026-06-02T09:30:00.000Z", 0)]), [Subject.Campaign(Heath.C)]);
        var register = Heath.With([.. Day(checks: false), local, Event("E1", "10:00", "10:01", File("a.wav", "REC-A", "10:00:00", 60))]);

        var said = Assert.Single(Said(register));
        Assert.Contains("occurred twice in local time", said, StringComparison.Ordinal);
        Assert.Equal([said], Findings(register));
    }

    private static Register With(params EventRecording[] files) => Heath.With([.. Day(), Event("E1", "10:00", "10:01", files)]);

    // Channels and clocks are known; both stations were checked before and after.
    private static IEnumerable<Fact> Day(bool checks = true)
    {
        yield return Channel;
        foreach (var station in new[] { "S1", "S2" })
        {
            yield return Heath.Placed(station, "06-02 06:00");
            yield return Heath.Checked(station, "06-02 06:30", CheckMoment.Before, -38.15);
            yield return Heath.Checked(station, "06-02 16:00", CheckMoment.After, -38.15);
        }
        if (!checks) yield break;
        foreach (var recorder in new[] { "REC-A", "REC-B", "rec-a" })
        {
            yield return Clock("09:00:00", "09:00:00", 0.1, recorder);
            yield return Clock("11:00:00", "11:00:00", 0.1, recorder);
        }
    }

    private static Fact Clock(string shown, string truth, double uncertaintyS = 0.1, string recorder = "REC-A") => Heath.Said(
        "06-02 12:00", 21, new RecorderTimeChecked(recorder, $"2026-06-02T{shown}.000", $"2026-06-02T{truth}.000Z", uncertaintyS, null),
        [Subject.Campaign(Heath.C)]);

    private static Fact Event(string id, string from, string to, params EventRecording[] files) => Heath.Said(
        "06-02 " + from, 4,
        new EventHappened("Flight " + id, Heath.At("06-02 " + from).ToString(), Heath.At("06-02 " + to).ToString(), EventKind.FlyOver, null, files, null),
        [Subject.Event(id), Subject.Campaign(Heath.C)]);

    private static EventRecording File(string name, string recorder, string begin, double seconds) => new(
        name, 1000, new string(name[0], 64), recorder, $"2026-06-02T{begin}{(begin.Length > 8 ? "" : ".000")}", seconds, [1, 2, 3, 4]);

    // What the trace says of the recording.
    private static List<string> Said(Register register, string station = "S1") => [.. Tracer.Of(register, "E1", station)!.Stations[0].Reasons
        .Where(r => r.Source.Contains(", rule ", StringComparison.Ordinal) && r.Weight == TraceVerdict.Doubtful)
        .Where(r => r.Source.Contains("rule file-", StringComparison.Ordinal) || r.Source.Contains("rule event-", StringComparison.Ordinal)
            || r.Source.Contains("rule clock-", StringComparison.Ordinal))
        .Select(r => $"{r.Source[(r.Source.LastIndexOf(' ') + 1)..]} {r.Text}")];

    private static List<string> Findings(Register register) =>
        [.. EventBook.Findings(register, Heath.C).Where(f => f.Rule is not "event-overlap").Select(f => $"{f.Rule} {f.Text}")];
}
