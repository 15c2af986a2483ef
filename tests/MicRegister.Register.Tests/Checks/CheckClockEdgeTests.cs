using System.Globalization;
using MicRegister.Metrology.Conformity;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;
using MicRegister.Register.Tests.Tracing;
using MicRegister.Register.Tracing;

namespace MicRegister.Register.Tests.Checks;

/// <summary>
/// Checks by the clock where one millisecond or one more check decides: how far they lie from an event, which two of a day are held against
/// each other, and what the decision rule makes of their difference.
/// </summary>
public sealed class CheckClockEdgeTests
{
    [Theory]
    [InlineData("10:31:00.000", null)]
    [InlineData("10:31:00.001", "The check after lies 30 min 0.001 s from it; the profile allows 30 min.")]
    public void A_check_after_may_not_lie_further_from_the_event_than_the_clock_allows(string after, string? says)
    {
        var register = Heath.With(
            Heath.Written((LimitKey.CheckToEventMinutes, 30)), Heath.Placed("S1", "06-02 05:00"), At("09:50:00.000", CheckMoment.Before),
            Heath.Event("E1", "06-02 10:00", "06-02 10:01"), At(after, CheckMoment.After));

        var reason = Heath.One(register).Reasons.SingleOrDefault();

        Assert.Equal(says, reason?.Text);
        if (reason is not null) Assert.Equal(TraceVerdict.Doubtful, reason.Weight);
    }

    // An event of one instant: a check at it bounds the time on both sides.
    [Theory]
    [InlineData("09:30:00.000", "10:30:00.000", false)]
    [InlineData("09:30:00.000", "11:00:00.000", true)]
    [InlineData("10:00:00.000", "11:30:00.000", false)]
    [InlineData("08:30:00.000", "10:00:00.000", false)]
    public void An_event_of_an_instant_lies_between_checks_as_well(string before, string after, bool isFar)
    {
        var register = Heath.With(
            Heath.Written((LimitKey.CheckIntervalMinutes, 60)), Heath.Placed("S1", "06-02 05:00"), At(before, CheckMoment.Before),
            Heath.Event("E1", "06-02 10:00", "06-02 10:00"), At(after, CheckMoment.After));

        var reasons = Heath.One(register).Reasons;

        Assert.Equal(isFar, reasons.Any(r => r.Text.Contains("around it lie 90 min; the profile allows 60 min", StringComparison.Ordinal)));
    }

    // One far out of another range or chain hides no difference of two that can be compared, and the worst counts, in whichever order.
    [Fact]
    public void The_worst_of_what_can_be_compared_counts()
    {
        var clock = CheckClock.Of(BuiltInProfiles.Find("light-helicopter-1200mm"));
        ChainChecked low = Make.Check("S1", CheckMoment.Other, 0, "M1"), high = Make.Check("S1", CheckMoment.Other, 0.6, "M1");
        ChainChecked slight = Make.Check("S1", CheckMoment.Other, 0.2, "M1"), far = Make.Check("S1", CheckMoment.Other, 2, "M1");
        double? Worst(params ChainChecked[] checks)
        {
            List<CheckRecord> all = [.. checks.Select((c, i) => Unstored(FormattableString.Invariant($"{i + 6:00}:00"), c))];
            return clock.VariationOf(all, all[0].Test)?.DifferenceDb;
        }

        Assert.Equal(0.6, Worst(low, high, far with { RangeV = 1 })!.Value, 1e-9);
        Assert.Equal(0.6, Worst(low, high, far with { Devices = ["M2"] })!.Value, 1e-9);
        ChainChecked[] wide = [low, high], narrow = [low with { RangeV = 1 }, slight with { RangeV = 1 }];
        Assert.Equal(0.6, Worst([.. wide, .. narrow])!.Value, 1e-9);
        Assert.Equal(0.6, Worst([.. narrow, .. wide])!.Value, 1e-9);
    }

    // Each check has an insertion of its own with u = 0.03 dB and 4 degrees of freedom; what both share cancels. Together u is 0.0424 dB,
    // with 8 degrees, of which k is 2.31 at 95 % and 2.37 at 95.45 % (JCGM 100:2008, table G.2): U is near 0.1 dB.
    [Theory]
    [InlineData(0.35, ConformityVerdict.Conforms)]
    [InlineData(0.45, ConformityVerdict.Undecided)]
    [InlineData(0.55, ConformityVerdict.Undecided)]
    [InlineData(0.65, ConformityVerdict.DoesNotConform)]
    public void A_rule_that_takes_the_uncertainty_takes_that_of_the_difference(double db, ConformityVerdict verdict)
    {
        var clock = new CheckClock(null, null, 0.5, DecisionRule.Of("guarded", null));
        var one = Unstored("06:00", Make.Check("S1", CheckMoment.Before, 0, "M1"));

        var moved = clock.VariationOf([one, Unstored("07:00", Make.Check("S1", CheckMoment.Other, db, "M1"))], one.Test)!;

        Assert.Equal(verdict, moved.Verdict);
    }

    [Fact]
    public void A_day_that_cannot_be_decided_is_doubtful_and_puts_the_plan_at_risk()
    {
        var written = (ProfileWritten)Heath.Written((LimitKey.CheckVariationDb, 0.5)).Body;
        var guarded = written with { Limits = [.. written.Limits, new(LimitKey.DecisionRule, null, "guarded", "own", "own")] };
        var register = Heath.With(
            Make.Of(guarded, "2026-05-02", 9, Subject.Profile(Heath.Rules)), Heath.Placed("S1", "06-02 05:00"),
            Heath.Checked("S1", "06-02 06:00", CheckMoment.Before, -38.00),
            Heath.Checked("S1", "06-02 07:00", CheckMoment.Other, -38.49, counter: 4), Heath.Event("E1", "06-02 10:00", "06-02 10:01"),
            Heath.Checked("S1", "06-02 10:30", CheckMoment.After, -38.20, counter: 6));

        var reason = Assert.Single(Heath.One(register).Reasons, r => r.Question == "check-variation");
        Assert.Equal(TraceVerdict.Doubtful, reason.Weight);
        Assert.EndsWith(
            "differ by 0.490 dB; 0.5 dB are allowed over a day, which cannot be decided.", reason.Text, StringComparison.Ordinal);
        var found = Assert.Single(CampaignReadiness.Judge(register, Heath.C, new(2026, 6, 3))!.Findings, f => f.Rule == "check-clock");
        Assert.Equal(
            (Gravity.Risks, "On 2026-06-02 checks differ by 0.490 dB; 0.5 dB are allowed over a day."), (found.Gravity, found.Text));
    }

    private static Fact At(string time, CheckMoment moment)
    {
        var (made, counter) = (Heath.Checked("S1", "06-02 05:59", moment, -38.15), moment == CheckMoment.Before ? 3 : 4);
        return FactText.WriteDerived(new(Make.On($"2026-06-02T{time}Z"), "P1", "phone-1.ABCD", counter), made.Body, made.Subjects);
    }

    private static CheckRecord Unstored(string at, ChainChecked check) => CheckBook.Unstored(
        FactList.RegisterOf([]), null, Make.On($"2026-06-02T{at}:00.000Z"), check, int.Parse(at[..2], CultureInfo.InvariantCulture));
}
