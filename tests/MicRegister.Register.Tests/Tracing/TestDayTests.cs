using System.Globalization;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Doubts;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Tracing;

/// <summary>Checks serve each day's testing by the site's clock, two hours ahead of UTC, or a session that was stated.</summary>
public sealed class TestDayTests
{
    private static readonly Fact Asks = Heath.WrittenTestDay();

    // 17:30 at the site, and 10:05 there on the next day: 16 h 35 min.
    private static readonly Fact[] Overnight =
    [
        Heath.Placed("S1", "06-02 06:00"), Before("06-02 15:30"), Heath.Event("E1", "06-03 08:05", "06-03 08:06"), After("06-03 09:00"),
    ];

    [Fact]
    public void A_check_of_the_evening_does_not_serve_a_flight_of_the_next_morning()
    {
        var asked = Heath.One(Heath.With([Asks, .. Overnight]));
        var usual = Heath.One(Heath.With(Overnight));

        Assert.Null(asked.Before);
        Assert.Equal(Overnight[3].Id, asked.After?.Fact);
        var reason = Assert.Single(asked.Reasons);
        Assert.Equal(
            "The chain was not checked before it, in the testing of the same day at the site, or in the same stated session, with the same parts.",
            reason.Text);
        Assert.Equal($"profile {Heath.Rules}, {LimitKey.CheckTestDay}", reason.Source);
        Assert.Equal(TraceVerdict.Doubtful, asked.Verdict);
        Assert.Equal(Overnight[1].Id, usual.Before?.Fact);
        Assert.Equal(TraceVerdict.Valid, usual.Verdict);
    }

    [Fact]
    public void Readiness_and_the_judged_check_say_the_same_of_that_evening()
    {
        foreach (var asks in new[] { true, false })
        {
            var register = Heath.With([.. asks ? new[] { Asks } : [], .. Overnight]);
            var missing = CampaignReadiness.Judge(register, Heath.C, new(2026, 6, 5))!.Findings.Where(f => f.Rule == "check-missing").ToList();
            var judged = Judged(register, Overnight[3]);

            Assert.Equal(asks ? 2 : 0, missing.Count);
            Assert.Equal(asks ? null : Overnight[1].Id, judged.Before?.Fact);
        }
    }

    [Theory]
    [InlineData(null, null, null, false)]
    [InlineData("06-02 19:00", "06-02 23:30", null, true)] // 21:00 to 01:30 at the site
    [InlineData("06-02 19:00", "06-02 23:00", null, false)] // ended before the check after
    [InlineData("06-02 19:10", "06-02 23:30", null, false)] // began after the check before
    [InlineData("06-02 19:00", "06-02 23:30", "annulled", false)]
    [InlineData("06-02 19:00", "06-02 23:30", "anew", false)] // the same name, stated again for another night
    public void Testing_over_midnight_is_one_session_where_people_say_so(string? from, string? to, string? then, bool isServed)
    {
        List<Fact> facts =
        [
            Asks, Heath.Placed("S1", "06-02 06:00"), Before("06-02 19:05"), Heath.Event("E1", "06-02 22:10", "06-02 22:11"), After("06-02 23:20"),
        ];
        if (from is not null) facts.Add(Heath.Session("Night", from, to!));
        if (then == "annulled") facts.Add(Make.Annulling(facts[^1]));
        if (then == "anew") facts.Add(Heath.Session("Night", "06-03 19:00", "06-03 23:30"));
        var register = Heath.With([.. facts]);

        var trace = Heath.One(register);

        Assert.Equal(isServed, trace.Before is not null && trace.After is not null);
        Assert.Equal(isServed, Judged(register, facts[4]).Before is not null);
        // The flight is at 00:10 at the site: without a session it belongs to the second day, as the check after does.
        if (from is null) Assert.Equal(facts[4].Id, trace.After?.Fact);
    }

    // Before at 08:00, a session from 10:00 to 12:00 with checks of its own, an event at 13:00 and the check after at 17:00, site time.
    [Fact]
    public void A_session_within_a_day_stands_apart_from_the_rest_of_it()
    {
        Fact[] facts =
        [
            Asks, Heath.Placed("S1", "06-02 05:00"), Before("06-02 06:00"), Before("06-02 08:05"), Heath.Event("E1", "06-02 09:00", "06-02 09:01"),
            After("06-02 09:50"), Heath.Event("E2", "06-02 11:00", "06-02 11:01"), After("06-02 15:00"), Heath.Session("Two hours", "06-02 08:00", "06-02 10:00"),
        ];
        var register = Heath.With(facts);

        var (within, rest) = (Heath.One(register), Heath.One(register, "E2"));

        Assert.Equal((facts[3].Id, facts[5].Id), (within.Before!.Fact, within.After!.Fact));
        Assert.Equal((facts[2].Id, facts[7].Id), (rest.Before!.Fact, rest.After!.Fact));
        Assert.Equal(facts[3].Id, Judged(register, facts[5]).Before?.Fact);
        Assert.Equal(facts[2].Id, Judged(register, facts[7]).Before?.Fact);
        Assert.DoesNotContain(CampaignReadiness.Judge(register, Heath.C, new(2026, 6, 5))!.Findings, f => f.Rule == "check-missing");
    }

    [Fact]
    public void A_check_of_a_bare_day_counts_for_its_day()
    {
        Fact[] facts =
        [
            Asks, Heath.Placed("S1", "06-01 06:00"), Before("06-02"), Heath.Event("E1", "06-02 09:00", "06-02 09:01"),
            Heath.Event("E2", "06-03 09:00", "06-03 09:01"), After("06-02", 13), Heath.Session("Morning", "06-02 08:00", "06-02 12:00"),
        ];
        var register = Heath.With(facts);

        var (day, next) = (Heath.One(register), Heath.One(register, "E2"));

        Assert.Equal((facts[2].Id, facts[5].Id), (day.Before!.Fact, day.After!.Fact));
        Assert.Null(next.Before);
        Assert.Null(next.After);
        Assert.Equal(facts[2].Id, Judged(register, facts[5]).Before?.Fact);
    }

    // The check after of a night that goes on is not asked for before the night is over.
    [Fact]
    public void What_can_still_come_is_not_missing()
    {
        Fact[] night = [Asks, Heath.Placed("S1", "06-02 06:00"), Before("06-02 19:05"), Heath.Session("Night", "06-02 19:00", "06-03 04:00")];
        Fact[] days = [Heath.Written((LimitKey.CheckSpanHours, 48)), Heath.Placed("S1", "06-02 06:00"), Before("06-02 19:05")];

        Assert.DoesNotContain("check-missing", Rules(night, 3));
        Assert.Contains("check-missing", Rules(night, 4));
        Assert.DoesNotContain("check-missing", Rules(days, 6)); // twice 48 hours reach to 6 June, 21:05 at the site
        Assert.Contains("check-missing", Rules(days, 7));

        static List<string> Rules(Fact[] facts, int day) =>
            [.. CampaignReadiness.Judge(Heath.With(facts), Heath.C, new(2026, 6, day))!.Findings.Select(f => f.Rule)];
    }

    // By hours the check before and the one after of a week belong together, in the trace as in the judged check.
    [Fact]
    public void Checks_days_apart_are_held_against_each_other_where_the_profile_counts_by_hours()
    {
        Fact[] facts =
        [
            Heath.Written((LimitKey.CheckSpanHours, 100)), Heath.Placed("S1", "06-01 06:00"), Before("06-02 06:00", db: -38.0),
            Heath.Event("E1", "06-04 09:00", "06-04 09:01"), After("06-06 06:00", db: -38.31),
        ];
        var register = Heath.With(facts);

        Assert.Equal(facts[2].Id, Judged(register, facts[4]).Before?.Fact);
        Assert.Contains(Heath.One(register).Reasons, r => r.Text.Contains("since the check before", StringComparison.Ordinal));
        Assert.DoesNotContain(
            CampaignReadiness.Judge(register, Heath.C, new(2026, 6, 9))!.Findings, f => f.Rule == "check-missing");
    }

    [Theory]
    [InlineData("", "2026-06-02T19:00:00.000Z", "2026-06-03T01:00:00.000Z", "Name")]
    [InlineData("Night", "2026-06-02", "2026-06-03T01:00:00.000Z", "Start '2026-06-02'")]
    [InlineData("Night", "2026-06-02T19:00:00.000Z", "soon", "Stop 'soon'")]
    [InlineData("Night", "2026-06-02T19:00:00.000Z", "2026-06-02T19:00:00.000Z", "at most 36 hours later")]
    [InlineData("Night", "2026-06-02T19:00:00.000Z", "2026-06-04T07:00:00.001Z", "at most 36 hours later")]
    [InlineData("Night", "2026-06-01T20:00:00.000Z", "2026-06-02T06:00:00.000Z", "overlaps First")]
    [InlineData("Night", "2026-06-02T19:00:00.000Z", "2026-06-04T07:00:00.000Z", null)]
    [InlineData("First", "2026-06-02T05:00:00.000Z", "2026-06-02T08:00:00.000Z", null)] // says anew when it was
    public void A_session_is_stated_or_refused_with_the_reason(string name, string from, string to, string? why)
    {
        var register = Heath.With(Heath.Session("First", "06-02 06:00", "06-02 07:00"));
        var saying = new Saying(new(Heath.At("06-05 10:00"), "P1", "desk", 70));

        var answer = TestSessions.State(register, saying, Heath.C, new(name, from, to));

        if (why is null) Assert.Single(((Result<IReadOnlyList<Fact>>.Accepted)answer).Value);
        else Assert.Contains(why, ((Result<IReadOnlyList<Fact>>.Rejected)answer).Why.Text, StringComparison.Ordinal);
        Assert.Equal(RejectionSort.NotFound, ((Result<IReadOnlyList<Fact>>.Rejected)TestSessions.State(register, saying, "NOWHERE", new("N", from, to))).Why.Sort);
    }

    // What came from elsewhere and cannot be has no effect.
    [Fact]
    public void A_session_that_cannot_be_is_none()
    {
        var register = Heath.With(Heath.Session("Long", "06-02 06:00", "06-04 06:00"), Heath.Session("Back", "06-03 06:00", "06-03 05:00"));

        Assert.Empty(TestSessions.Of(register, Heath.C).All);
        Assert.Empty(TestSessions.Of(register, null).All);
    }

    [Fact]
    public void Of_sessions_that_overlap_the_one_that_began_last_counts()
    {
        var sessions = TestSessions.Of(
            Heath.With(Heath.Session("Day", "06-02 06:00", "06-02 18:00"), Heath.Session("Hour", "06-02 10:00", "06-02 11:00")), Heath.C);

        string?[] found = [.. new[] { "05:59", "06:00", "10:00", "11:00", "11:01", "18:00", "18:01" }.Select(t => sessions.At(Heath.Ms("06-02 " + t))?.Name)];
        Assert.Equal([null, "Day", "Hour", "Hour", "Day", "Day", null], found);
    }

    [Fact]
    public void Which_profiles_ask_for_each_days_testing_and_what_may_be_written()
    {
        Assert.Equal(
            ["transport-1200mm", "small-propeller-inverted", "light-helicopter-1200mm"],
            BuiltInProfiles.All.Where(p => p.Words(LimitKey.CheckTestDay) is ["site-day"]).Select(p => p.Id));
        var saying = new Saying(new(Heath.At("06-05 10:00"), "P1", "desk", 70));
        Result<IReadOnlyList<Fact>> Written(string words) => CampaignDecisions.Write(
            Heath.With(), saying, "own", new("Own", "", [new(LimitKey.CheckTestDay, null, words, "own", "own")]));
        Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(Written("site-day"));
        Assert.Contains("allowed is site-day", ((Result<IReadOnlyList<Fact>>.Rejected)Written("week")).Why.Text, StringComparison.Ordinal);
        // From elsewhere: the stricter reading.
        Assert.Null(Heath.One(Heath.With([Heath.WrittenWords(LimitKey.CheckTestDay, "week"), .. Overnight])).Before);
    }

    // A second implementation of the pairing, from the words alone, against the trace, the doubt report and the judged checks.
    [Fact]
    public void Trace_report_and_judged_checks_pair_alike_in_random_campaigns()
    {
        var (with, without, pairs, rescued, held) = (0, 0, 0, 0, 0);
        for (var seed = 0; seed < 120; seed++)
        {
            var random = new Random(160600 + seed);
            var facts = Campaign(random);
            var register = FactList.RegisterOf(facts);
            List<CheckRecord> checks = [.. CheckBook.OfCampaign(register, Heath.C).Where(k => k.Check.Station == "S1")];
            var doubts = DoubtBook.All(register).Select(d => (Doubt: d, Report: DoubtReport.Of(register, d))).ToList();
            foreach (var e in EventBook.OfCampaign(register, Heath.C))
            {
                var trace = Heath.One(register, e.Id);
                bool Serves(CheckRecord k) => TestOf(facts, k.Instant) == TestOf(facts, e.StartMs);
                var before = checks.LastOrDefault(k => k.Instant <= e.StartMs && Serves(k));
                var after = checks.FirstOrDefault(k => k.Instant >= e.StopMs && Serves(k));
                Assert.True((before?.Fact, after?.Fact) == (trace.Before?.Fact, trace.After?.Fact), $"Seed {seed}, {e.Id}");
                _ = before is null || after is null ? without++ : with++;

                // The judged check after an event with nothing between them and the check before has that check before.
                if (before is { Check.Moment: CheckMoment.Before } && after is { Check.Moment: CheckMoment.After })
                {
                    pairs++;
                    Assert.Equal(before.Fact, CheckJudge.Judge(register.Profile(Heath.Rules), after, checks).Before?.Fact);
                }
                foreach (var (doubt, report) in doubts)
                {
                    var touched = report.Touched.FirstOrDefault(t => t.Event.Id == e.Id)?.Stations[0];
                    var traced = trace.Reasons.Any(r => r.Source == $"fact {doubt.Fact}" && r.Text.StartsWith(doubt.Text, StringComparison.Ordinal));
                    var isOpen = touched is { Rescue: null };
                    Assert.True(traced == isOpen, $"Seed {seed}, {e.Id}: the trace says {traced}, the report {isOpen}.");
                    if (isOpen) held++;
                    else if (touched is not null) rescued++;
                }
            }
            // What is missing by readiness is what the judged checks lack.
            var missing = CampaignReadiness.Judge(register, Heath.C, new(2026, 6, 11))!.Findings.Count(f => f.Rule == "check-missing");
            var judged = checks.Select(k => CheckJudge.Judge(register.Profile(Heath.Rules), k, checks)).ToList();
            var used = judged.Select(j => j.Before?.Fact).OfType<FactId>().ToHashSet();
            var last = CheckDay.Of(checks, register.Profile(Heath.Rules)).SelectMany(d => d.Checks).Select(j => j.Record.Fact).ToHashSet();
            Assert.Equal(
                judged.Count(j => last.Contains(j.Record.Fact) && (j.Record.Check.Moment == CheckMoment.After ? j.Before is null
                    : !judged.Any(o => last.Contains(o.Record.Fact) && o.Before?.Fact == j.Record.Fact))),
                missing);
        }
        Assert.True(with > 60 && without > 60 && pairs > 40 && rescued > 0 && held > 20, $"{with} {without} {pairs} {rescued} {held}");
    }

    // Sessions and days by the texts of the facts: "site" is two hours ahead.
    private static string TestOf(IReadOnlyList<Fact> facts, long ms)
    {
        var session = facts.Select(f => f.Body).OfType<TestSessionStated>().FirstOrDefault(s => Ms(s.StartUtc) <= ms && ms <= Ms(s.StopUtc));
        return session?.Name ?? DateTimeOffset.FromUnixTimeMilliseconds(ms).AddHours(2).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

        static long Ms(string text) => DateTimeOffset.Parse(text, CultureInfo.InvariantCulture).ToUnixTimeMilliseconds();
    }

    private static List<Fact> Campaign(Random random)
    {
        List<Fact> facts = [.. Heath.Base, Asks, Heath.Placed("S1", "06-01 20:00")];
        var minutes = Enumerable.Range(0, 3 * 24 * 60).OrderBy(_ => random.Next()).Take(60).ToArray();
        string At(int minute) => new DateTime(2026, 6, 2, 0, 0, 0, DateTimeKind.Utc).AddMinutes(minute).ToString("MM-dd HH:mm", CultureInfo.InvariantCulture);
        for (var i = 0; i < 3; i++)
        {
            var begin = (i * 24 * 60) + random.Next(16 * 60);
            if (random.Next(4) > 0) facts.Add(Heath.Session("Session " + i, At(begin), At(begin + random.Next(60, 8 * 60))));
        }
        for (var i = 0; i < 10; i++)
            facts.Add(Heath.Checked("S1", At(minutes[i]), (CheckMoment)random.Next(2), -38.16 + (0.1 * random.NextDouble()), "K" + random.Next(1, 3), counter: 20 + i));
        for (var i = 0; i < 6; i++) facts.Add(Heath.Event("E" + i, At(minutes[20 + i]), At(minutes[20 + i] + 1 + random.Next(20))));
        // A calibrator moved by more than it may: its checks are in doubt.
        facts.Add(Make.Of(Make.Issued(94.6, 0.1, "level", "dB"), "2026-07-02", "device:K1"));
        return facts;
    }

    private static JudgedCheck Judged(Register register, Fact check)
    {
        var all = CheckBook.OfCampaign(register, Heath.C);
        return CheckJudge.Judge(register.Profile(Heath.Rules), all.Single(k => k.Fact == check.Id), all);
    }

    private static Fact Before(string at, int counter = 3, double db = -38.11) => Heath.Checked("S1", at, CheckMoment.Before, db, counter: counter);

    private static Fact After(string at, int counter = 3, double db = -38.19) => Heath.Checked("S1", at, CheckMoment.After, db, counter: counter);
}
