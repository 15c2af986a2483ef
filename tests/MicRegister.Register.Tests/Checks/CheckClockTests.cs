using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Checks;

/// <summary>
/// Checks by the clock, after 14 CFR 36, J36.109(e)(2) (2021 edition): at intervals of at most one hour, and a variation of at most 0.5 dB
/// over a day. Expected times and levels by hand.
/// </summary>
public sealed class CheckClockTests
{
    private static readonly Fact Hourly = Heath.Written((LimitKey.CheckIntervalMinutes, 60));

    // Begin and end at 10:00 and 10:01.
    [Theory]
    [InlineData("09:30:00.000", "10:30:00.000", null)] // an hour to the millisecond
    [InlineData("09:30:00.000", "10:30:00.001", "60 min 0.001 s")]
    [InlineData("09:30:00.000", "10:29:59.999", null)]
    [InlineData("09:00:00.000", "10:30:00.000", "90 min")]
    [InlineData("10:00:00.000", "11:00:00.000", null)] // the check lies on the begin
    [InlineData("09:01:00.000", "10:01:00.000", null)] // and on the end
    public void Checks_around_an_event_lie_an_hour_apart_at_most(string before, string after, string? apart)
    {
        var trace = Heath.One(Heath.With(
            [Hourly, Placed, At(before, CheckMoment.Before), E("10:00", "10:01"), At(after, CheckMoment.After, counter: 4)]));

        if (apart is null)
        {
            Assert.Empty(trace.Reasons);
            return;
        }
        var reason = Assert.Single(trace.Reasons);
        Assert.Equal("check-clock", reason.Question);
        Assert.Equal(TraceVerdict.Doubtful, trace.Verdict);
        Assert.Contains($"around it lie {apart}; the profile allows 60 min.", reason.Text, StringComparison.Ordinal);
        Assert.EndsWith($"profile {Heath.Rules}, check-interval-minutes", reason.Source, StringComparison.Ordinal);
    }

    // Two hours of an event with checks at 9:50, 10:40, 11:30 and 12:20: none lies more than 50 minutes from the next.
    [Fact]
    public void Checks_within_a_long_event_part_the_time_between_those_around_it()
    {
        Fact[] all =
        [
            Hourly, Placed, At("09:50:00.000", CheckMoment.Before), E("10:00", "12:00"), At("10:40:00.000", CheckMoment.Other, counter: 4),
            At("11:30:00.000", CheckMoment.Other, counter: 5), At("12:20:00.000", CheckMoment.After, counter: 6),
        ];

        Assert.Empty(Heath.One(Heath.With(all)).Reasons);
        var reason = Assert.Single(Heath.One(Heath.With([.. all, Make.Annulling(all[5])])).Reasons);
        Assert.Contains("checks of 10:40:00 UTC and 12:20:00 UTC around it lie 100 min", reason.Text, StringComparison.Ordinal);
    }

    // From a check to the event by the clock, though both lie in one session, on one day.
    [Theory]
    [InlineData("09:30:00.000", false)]
    [InlineData("09:29:59.999", true)]
    public void A_check_may_not_lie_further_from_the_event_than_the_clock_allows(string before, bool isFar)
    {
        var register = Heath.With([
            Heath.Written((LimitKey.CheckToEventMinutes, 30)), Placed, At(before, CheckMoment.Before), E("10:00", "10:01"),
            At("10:31:00.000", CheckMoment.After, counter: 4), Heath.Session("Morning", "06-02 09:00", "06-02 12:00")]);

        var reasons = Heath.One(register).Reasons;

        Assert.Equal(isFar ? 1 : 0, reasons.Count);
        Assert.All(reasons, r => Assert.Equal(
            (TraceVerdict.Doubtful, "The check before lies 30 min 0.001 s from it; the profile allows 30 min."), (r.Weight, r.Text)));
    }

    [Fact]
    public void A_check_of_a_bare_day_has_no_time_by_the_clock()
    {
        var register = Heath.With([
            Hourly, Placed, Heath.Checked("S1", "06-02", CheckMoment.Before, -38.15), E("10:00", "10:01"),
            At("10:30:00.000", CheckMoment.After, counter: 4)]);

        var reason = Assert.Single(Heath.One(register).Reasons);

        Assert.Contains("stated for a day without a time", reason.Text, StringComparison.Ordinal);
        Assert.Equal(TraceVerdict.Doubtful, reason.Weight);
    }

    // The site's clock goes from 03:00 back to 02:00 at 01:00 UTC on 25 October 2026: 02:30 before and 02:30 after lie 60 minutes apart.
    [Theory]
    [InlineData("2026-10-25T01:30:00.000Z", null)]
    [InlineData("2026-10-25T01:30:00.001Z", "60 min 0.001 s")]
    public void An_hour_is_an_hour_where_the_sites_clock_is_put_back(string later, string? apart)
    {
        ZoneOffset[] offsets = [new("2026-03-29T01:00:00.000Z", 120), new("2026-10-25T01:00:00.000Z", 60)];
        var clock = CheckClock.Of(BuiltInProfiles.Find("light-helicopter-1200mm"));
        CheckRecord At(string at) => new(default, Make.On(at), ZoneOffsets.LocalDay(Make.On(at).UnixMilliseconds, offsets), "P1", null,
            Make.Check("S1", CheckMoment.Other, 0, "M1"), Make.On(at).UnixMilliseconds);

        var gaps = clock.GapsWithin([At("2026-10-25T00:30:00.000Z"), At(later)]).ToList();

        Assert.Equal(apart, gaps.Count == 0 ? null : CheckWords.Apart(Assert.Single(gaps).ApartMs));
        Assert.Equal(Make.On("2026-10-25T01:30:00.000Z").UnixMilliseconds, clock.NextDue(At("2026-10-25T00:30:00.000Z")));
    }

    // Of -38.00, -38.51 and -38.20 the first two lie 0.51 dB apart, though no two neighbours around the event do.
    [Theory]
    [InlineData(-38.50, null)]
    [InlineData(-38.51, "Checks of its day differ by 0.510 dB; 0.5 dB are allowed over a day.")]
    public void All_checks_of_a_day_agree_with_each_other(double lowDb, string? says)
    {
        Fact[] facts =
        [
            Heath.Written((LimitKey.CheckVariationDb, 0.5)), Placed, At("06:00:00.000", CheckMoment.Before, -38.00),
            At("07:00:00.000", CheckMoment.Other, lowDb, 4), At("09:30:00.000", CheckMoment.Other, -38.20, 5), E("10:00", "10:01"),
            At("10:30:00.000", CheckMoment.After, -38.20, 6),
        ];

        var reasons = Heath.One(Heath.With(facts)).Reasons.Where(r => r.Question == "check-variation").ToList();

        Assert.Equal(says, reasons.Count == 0 ? null : Assert.Single(reasons).Text);
        Assert.All(reasons, r => Assert.Equal(TraceVerdict.NotValid, r.Weight));
        Assert.All(reasons, r => Assert.Equal($"facts {facts[3].Id}, {facts[2].Id}, profile {Heath.Rules}, check-variation-db", r.Source));
    }

    // 21:00 UTC is 23:00 at the site; a session that runs over midnight there is one testing, another day is none.
    [Theory]
    [InlineData("06-03 08:00", false, false)]
    [InlineData("06-02 23:30", false, false)]
    [InlineData("06-02 23:30", true, true)]
    public void A_day_is_the_sites_or_a_session_that_was_stated(string at, bool isSession, bool counts)
    {
        List<Fact> facts =
        [
            Heath.Written((LimitKey.CheckVariationDb, 0.5)), Placed, At("20:30:00.000", CheckMoment.Before, -38.00), E("21:00", "21:01"),
            At("21:20:00.000", CheckMoment.After, -38.00, 4), Heath.Checked("S1", at, CheckMoment.Other, -38.60, counter: 5),
        ];
        if (isSession) facts.Add(Heath.Session("Night", "06-02 20:00", "06-03 00:00"));

        Assert.Equal(counts, Heath.One(Heath.With([.. facts])).Reasons.Any(r => r.Question == "check-variation"));
    }

    [Fact]
    public void Checks_of_another_range_or_method_are_not_compared()
    {
        var clock = CheckClock.Of(BuiltInProfiles.Find("light-helicopter-1200mm"));
        CheckRecord Of(string at, ChainChecked check) => CheckBook.Unstored(
            FactList.RegisterOf([]), null, Make.On($"2026-06-02T{at}:00.000Z"), check, check.Moment == CheckMoment.Before ? 1 : 2);
        var one = Of("06:00", Make.Check("S1", CheckMoment.Before, 0, "M1"));
        CheckRecord Other(ChainChecked check) => Of("07:00", check);
        var far = Make.Check("S1", CheckMoment.Other, 2, "M1");

        Assert.Equal(2, clock.VariationOf([one, Other(far)], one.Test)!.DifferenceDb, 1e-9);
        Assert.Null(clock.VariationOf([one, Other(far with { RangeV = 1 })], one.Test));
        Assert.Null(clock.VariationOf([one, Other(far with { Method = CheckMethod.Recording })], one.Test));
        Assert.Null(clock.VariationOf([one], one.Test));
        Assert.Null(CheckClock.Of(null).VariationOf([one, Other(far)], one.Test));
        Assert.False(CheckClock.Of(null).IsAsked);
    }

    // Its time is not known, and so is not when an hour after it is over.
    [Fact]
    public void After_a_check_of_a_bare_day_no_time_is_told_for_the_next_one() =>
        Assert.Null(Board(Heath.With(Hourly, Placed, Heath.Checked("S1", "06-02", CheckMoment.Before, -38.15))).NextCheckMs);

    [Theory]
    [InlineData(480, 9)] // eight hours: at 0, 1, … 8 h
    [InlineData(60, 2)]
    [InlineData(60.1, 3)]
    [InlineData(1, 2)]
    public void A_time_of_testing_takes_so_many_checks(double minutes, int checks)
    {
        Assert.Equal(checks, CheckClock.Of(BuiltInProfiles.Find("light-helicopter-1200mm")).ChecksFor(minutes));
        Assert.Null(CheckClock.Of(null).ChecksFor(minutes));
    }

    // What the plan, the board and the trace say of one day: checks at 08:00, 09:00, 10:30 (the last two 90 minutes apart) and after.
    [Fact]
    public void Plan_board_and_trace_say_the_same()
    {
        Fact[] facts =
        [
            Hourly, Placed, At("08:00:00.000", CheckMoment.Before), At("09:00:00.000", CheckMoment.Other, counter: 4), E("09:10", "09:11"),
            At("10:30:00.000", CheckMoment.Other, counter: 5), At("13:00:00.000", CheckMoment.Before, counter: 6),
        ];
        var register = Heath.With(facts);

        var found = CampaignReadiness.Judge(register, Heath.C, new(2026, 6, 2))!.Findings.Where(f => f.Rule == "check-clock").ToList();
        var asked = Assert.Single(found, f => f.Gravity == Gravity.Note);
        Assert.Contains("8 h of testing take 9 checks a chain", asked.Text, StringComparison.Ordinal);
        var risks = found.Where(f => f.Gravity == Gravity.Risks).ToList();
        Assert.Equal(["90 min", "150 min"], risks.OrderBy(f => f.Figures[0].Value).Select(f => CheckWords.Minutes(f.Figures[0].Value)));
        const string planned = "On 2026-06-02 90 min lie between the checks of 09:00:00 UTC and 10:30:00 UTC;";
        Assert.Contains(risks, f => f.Text.StartsWith(planned, StringComparison.Ordinal));
        var traced = Assert.Single(Heath.One(register).Reasons, r => r.Question == "check-clock");
        Assert.Contains("checks of 09:00:00 UTC and 10:30:00 UTC around it lie 90 min", traced.Text, StringComparison.Ordinal);

        var board = Board(register);
        Assert.Equal(Heath.Ms("06-02 14:00"), board.NextCheckMs);
        Assert.False(board.IsOverdue(Heath.Ms("06-02 14:00")));
        Assert.True(board.IsOverdue(Heath.Ms("06-02 14:00") + 1));
        // Evidence of a campaign that is over says it too, and asks for nothing more.
        var over = CampaignReadiness.Judge(register, Heath.C, new(2026, 6, 12))!.Findings.Where(f => f.Rule == "check-clock").ToList();
        Assert.Equal([Gravity.Risks, Gravity.Risks], over.Select(f => f.Gravity));
    }

    [Fact]
    public void After_the_check_after_none_is_due_and_the_time_to_the_next_days_testing_is_no_gap()
    {
        Fact[] facts = [Hourly, Placed, At("08:00:00.000", CheckMoment.Before), At("09:00:00.000", CheckMoment.After, counter: 4)];

        Assert.Null(Board(Heath.With(facts)).NextCheckMs);
        Assert.Null(Board(Heath.With([.. facts[1..]])).NextCheckMs); // nothing asks for it
        var next = Heath.With(
            [.. facts, At("12:00:00.000", CheckMoment.Before, counter: 5), At("12:30:00.000", CheckMoment.After, counter: 6)]);
        Assert.DoesNotContain(
            CampaignReadiness.Judge(next, Heath.C, new(2026, 6, 2))!.Findings, f => f.Rule == "check-clock" && f.Gravity != Gravity.Note);
    }

    [Fact]
    public void A_day_of_checks_that_differ_puts_the_plan_at_risk()
    {
        Fact[] facts = [Heath.Written((LimitKey.CheckVariationDb, 0.05)), Placed, .. Heath.Flight()[1..]];

        var found = Assert.Single(
            CampaignReadiness.Judge(Heath.With(facts), Heath.C, new(2026, 6, 3))!.Findings, f => f.Rule == "check-clock");

        // -38.11 and -38.19.
        Assert.Equal("On 2026-06-02 checks differ by 0.080 dB; 0.05 dB are allowed over a day.", found.Text);
        Assert.Equal((Gravity.Risks, "S1"), (found.Gravity, found.Station));
    }

    private static Fact Placed => Heath.Placed("S1", "06-02 05:00");

    private static Fact E(string from, string to) => Heath.Event("E1", "06-02 " + from, "06-02 " + to);

    private static Fact At(string time, CheckMoment moment, double db = -38.15, int counter = 3)
    {
        var made = Heath.Checked("S1", "06-02 05:59", moment, db, counter: counter);
        return FactText.WriteDerived(new(Make.On($"2026-06-02T{time}Z"), "P1", "phone-1.ABCD", counter), made.Body, made.Subjects);
    }

    private static StationStanding Board(Register register) => StationStanding.Of(
        register, register.Campaign(Heath.C)!, ArrayDeployment.Of(register, Heath.C), CheckBook.OfCampaign(register, Heath.C))
        .Single(s => s.Station == "S1");
}
