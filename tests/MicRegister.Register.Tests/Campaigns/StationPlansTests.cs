using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Campaigns;

/// <summary>Many stations planned as one act; the campaign has S1 to S3, and a chain at S1.</summary>
public sealed class StationPlansTests
{
    private static readonly StationPlanned New = new("S7", 53.007, 1, Mount.Pole, 10);
    private static Saying Saying => new(new(Make.On("2026-05-05"), "P2", "desk", 9));

    [Fact]
    public void Only_what_differs_is_said()
    {
        var register = Planned();
        var campaign = register.Campaign(Heath.C)!;
        var (one, chain) = (campaign.Stations["S1"], campaign.Chains["S1"]);

        var same = Accepted(register, [new(one, [.. chain]), new(campaign.Stations["S2"], null)]);
        var moved = Accepted(register, [new(one with { HeightM = 0.5 }, [.. chain]), new(New, [chain[0]])]);

        Assert.Empty(same);
        Assert.Equal([typeof(StationPlanned), typeof(StationPlanned), typeof(ChainPlanned)], moved.Select(f => f.Body.GetType()));
        var then = register.WhatIf(moved).Campaign(Heath.C)!;
        Assert.Equal((0.5, 10), (then.Stations["S1"].HeightM, then.Stations["S7"].HeightM));
        Assert.Equal([chain[0]], then.Chains["S7"]);
        Assert.Equal(chain.AsSpan(), then.Chains["S1"].AsSpan());
    }

    [Fact]
    public void A_chain_that_is_emptied_is_empty_and_a_station_that_falls_away_is_gone()
    {
        var register = Planned();

        var facts = Accepted(register, [new(register.Campaign(Heath.C)!.Stations["S1"], [])], ["S2"], "the field was ploughed");

        var then = register.WhatIf(facts).Campaign(Heath.C)!;
        Assert.Equal(["S1", "S3"], then.Stations.Keys);
        Assert.Empty(then.Chains);
        Assert.All(facts.Select(f => f.Body).OfType<FactAnnulled>(), f => Assert.Equal("the field was ploughed", f.Reason));
    }

    [Fact]
    public void What_one_station_cannot_be_stores_none_of_them()
    {
        var register = Planned();

        Assert.Contains("Station S9: Position '91, 1'", Refused(register, [new(New, []), new(New with { Station = "S9", LatitudeDeg = 91 }, null)]), StringComparison.Ordinal);
        Assert.Contains("Station S7: There is no device nobody", Refused(register, [new(New, ["nobody"])]), StringComparison.Ordinal);
        Assert.Contains("'S7' stands twice", Refused(register, [new(New, []), new(New, [])]), StringComparison.Ordinal);
        Assert.Contains("'S1' stands twice", Refused(register, [new(register.Campaign(Heath.C)!.Stations["S1"], [])], ["S1"]), StringComparison.Ordinal);
        Assert.Contains("Station S2: Reason", Refused(register, [], ["S2"], ""), StringComparison.Ordinal);
        Assert.Contains("no station S8", Refused(register, [], ["S8"]), StringComparison.Ordinal);
    }

    [Fact]
    public void Whoever_saw_an_older_plan_is_told_once_and_of_the_whole()
    {
        var register = Planned();
        var old = Saying with { SawVersion = register.Version(Subject.Campaign(Heath.C)) - 1 };
        var fresh = Saying with { SawVersion = register.Version(Subject.Campaign(Heath.C)) };
        StationRow[] rows = [new(New, []), new(New with { Station = "S8" }, [register.Campaign(Heath.C)!.Chains["S1"][0]])];

        var why = Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(StationPlans.Plan(register, old, Heath.C, rows, [], "")).Why;
        Assert.Equal(RejectionSort.Conflict, why.Sort);
        // The chain speaks of a station that came by the same act: that is no change by others.
        Assert.Equal(3, Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(StationPlans.Plan(register, fresh, Heath.C, rows, [], "")).Value.Count);
        Assert.Equal(
            RejectionSort.NotFound, Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(StationPlans.Plan(register, Saying, "nowhere", rows, [], "")).Why.Sort);
    }

    private static Register Planned() =>
        Heath.With(Make.Of(new ChainPlanned("S1", Heath.Chain("S1")), "2026-05-02", [Subject.Campaign(Heath.C), .. Heath.Chain("S1").Select(Subject.Device)]));

    private static IReadOnlyList<Fact> Accepted(Register register, StationRow[] rows, string[]? fallen = null, string reason = "moved") =>
        Assert.IsType<Result<IReadOnlyList<Fact>>.Accepted>(StationPlans.Plan(register, Saying, Heath.C, rows, fallen ?? [], reason)).Value;

    private static string Refused(Register register, StationRow[] rows, string[]? fallen = null, string reason = "moved") =>
        Assert.IsType<Result<IReadOnlyList<Fact>>.Rejected>(StationPlans.Plan(register, Saying, Heath.C, rows, fallen ?? [], reason)).Why.Text;
}
