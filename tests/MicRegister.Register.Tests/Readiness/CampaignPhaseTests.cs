using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Readiness;

/// <summary>How far a campaign is, by its days, by what stands outdoors, by its events, and by what is open.</summary>
public sealed class CampaignPhaseTests
{
    // The campaign of ReadinessTests: 1 to 10 July 2026.
    private static readonly Fact Placed = Make.Of(
        new ChainPlaced("S1", ["M1"], [], null, null, null, null, null, [], null), "2026-06-30T08:00:00.000Z", 1, "campaign:C1",
            "device:M1");

    private static readonly Fact TakenIn = Make.Of(new ChainTakenIn("S1", ["M1"], [], null), "2026-07-10T18:00:00.000Z", 2, "campaign:C1",
        "device:M1");

    private static readonly Fact Flown = Make.Of(
        new EventHappened("Run 1", "2026-07-02T10:00:00.000Z", "2026-07-02T10:01:00.000Z", EventKind.FlyOver, null, [], null),
        "2026-07-02T10:00:00.000Z", 3, Subject.Event("E1"), "campaign:C1");

    [Theory]
    [InlineData("2026-06-01", CampaignPhase.Planning)]
    [InlineData("2026-06-30", CampaignPhase.Planning)]
    [InlineData("2026-07-01", CampaignPhase.LayingOut)] // its first day has come
    [InlineData("2026-07-10", CampaignPhase.LayingOut)] // and its last is one still
    public void Before_anything_stands_its_days_decide(string day, CampaignPhase phase) => Assert.Equal(phase, Phase(day));

    [Fact]
    public void What_stands_outdoors_is_laid_out_whatever_the_day_is() =>
        Assert.Equal(CampaignPhase.LayingOut, Phase("2026-06-30", Placed));

    [Fact]
    public void With_an_event_it_flies_until_its_last_day_is_over()
    {
        Assert.Equal(CampaignPhase.Flying, Phase("2026-07-02", Placed, Flown));
        Assert.Equal(CampaignPhase.Flying, Phase("2026-07-10", Placed, TakenIn, Flown));
        Assert.NotEqual(CampaignPhase.Flying, Phase("2026-07-11", Placed, TakenIn, Flown));
    }

    [Fact]
    public void After_its_last_day_it_is_closed_where_nothing_is_open() =>
        Assert.Equal(CampaignPhase.Closed, Phase("2026-07-11", Placed, Flown, TakenIn));

    [Fact]
    public void What_still_stands_keeps_it_open() => Assert.Equal(CampaignPhase.Afterwards, Phase("2026-07-11", Placed, Flown));

    [Theory]
    [InlineData(Gravity.Note, CampaignPhase.Closed)]
    [InlineData(Gravity.Risks, CampaignPhase.Afterwards)]
    [InlineData(Gravity.Stops, CampaignPhase.Afterwards)]
    public void What_may_cost_results_keeps_it_open_and_what_is_merely_worth_knowing_does_not(Gravity gravity, CampaignPhase phase)
    {
        var (register, report) = Judged("2026-07-11");
        var finding = new Finding("check-missing", gravity, "M1", "M1", "S1", new(2026, 7, 1), "It lacks a check.", [], Clearing.Enter,
            null, false);

        Assert.Equal(phase, CampaignPhases.Of(register, register.Campaign("C1")!, new(2026, 7, 11), report! with { Findings = [finding] }));
    }

    [Fact]
    public void What_cannot_be_judged_is_open()
    {
        var (register, _) = Judged("2026-07-11");

        Assert.Equal(CampaignPhase.Afterwards, CampaignPhases.Of(register, register.Campaign("C1")!, new(2026, 7, 11), null));
    }

    [Fact]
    public void Without_a_plan_it_is_planned()
    {
        var register = FactList.RegisterOf([Placed]);

        Assert.Equal(CampaignPhase.Planning, CampaignPhases.Of(register, register.Campaign("C1")!, new(2026, 7, 11), null));
    }

    [Fact]
    public void Each_has_words() => Assert.Equal(
        ["planning", "laying out", "flying", "afterwards", "closed"], Enum.GetValues<CampaignPhase>().Select(p => p.InWords));

    private static CampaignPhase Phase(string day, params Fact[] facts)
    {
        var (register, report) = Judged(day, facts);
        return CampaignPhases.Of(register, register.Campaign("C1")!, Make.Day(day), report! with { Findings = [] });
    }

    private static (Register Register, ReadinessReport? Report) Judged(string day, params Fact[] facts)
    {
        var register = FactList.RegisterOf([.. ReadinessTests.Sound(), .. facts]);
        return (register, CampaignReadiness.Judge(register, "C1", Make.Day(day)));
    }
}
