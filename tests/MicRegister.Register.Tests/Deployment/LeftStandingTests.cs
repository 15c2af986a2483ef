using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Facts;
using MicRegister.Register.Tests.Tracing;

namespace MicRegister.Register.Tests.Deployment;

/// <summary>
/// What nobody took in ends one day after its campaign: here 10 June at a site two hours ahead of UTC, so at 22:00 UTC on 11 June.
/// </summary>
public sealed class LeftStandingTests
{
    private static readonly long Ends = Heath.Ms("06-11 22:00");

    [Fact]
    public void A_placement_that_was_never_taken_in_stands_one_day_longer_than_its_campaign()
    {
        var placement = Assert.Single(DeploymentFindings.OfDevice(Heath.With(Heath.Placed("S1", "06-02 06:00")), "M1"));

        Assert.Equal(Ends, placement.Until);
        Assert.True(placement.StoodAt(Ends - 1));
        Assert.False(placement.StoodAt(Ends));
    }

    [Fact]
    public void Another_campaign_finds_it_there_until_then_and_free_afterwards()
    {
        var register = Heath.With(Heath.Placed("S1", "06-02 06:00"), Plan());

        Assert.Equal("at station S1 of Heath", DeploymentFindings.Elsewhere(register, "M1", "MOOR-26", Ends - 1));
        Assert.Null(DeploymentFindings.Elsewhere(register, "M1", "MOOR-26", Ends));
        Assert.Null(DeploymentFindings.Elsewhere(register, "M1", Heath.C, Ends - 1)); // its own campaign is nowhere else
    }

    [Theory]
    [InlineData("06-11 21:59", true)]
    [InlineData("06-11 22:00", false)]
    public void Placed_elsewhere_within_the_day_it_stood_at_two_places(string at, bool isTwice)
    {
        var placed = new ChainPlaced("T1", ["M1"], [], null, null, null, null, null, [], null);
        var elsewhere = Heath.Said(at, 9, placed, [Subject.Campaign("MOOR-26"), "device:M1"]);
        var register = Heath.With(Heath.Placed("S1", "06-02 06:00"), Plan(), elsewhere);

        Assert.Equal(isTwice, DeploymentFindings.Of(register, "MOOR-26").Any(f => f.Rule == "placed-twice"));
        Assert.Equal(isTwice, DeploymentFindings.Of(register, Heath.C).Any(f => f.Rule == "placed-twice"));
        Assert.Equal(isTwice, DeploymentFindings.Overlapping(register, "MOOR-26", Heath.Ms(at), Heath.Ms(at) + 1000).Count > 0);
    }

    private static Fact Plan() => Make.Of(
        new CampaignPlanned(
            "Moor", new(2026, 6, 11), new(2026, 6, 20), "Zone/Heath", [new("2020-01-01T00:00:00.000Z", 120)], "Moor", 20,
            SourceClass.Propeller, 20, 10_000, null, null, Heath.Rules, 0, null),
        "2026-05-01", Subject.Campaign("MOOR-26"));
}
