using MicRegister.Register.Checks;
using MicRegister.Register.Facts;
using MicRegister.Register.Readiness;

namespace MicRegister.Register.Tests.Checks;

/// <summary>
/// What a plan says of the checks of six chains on one day: 0.3 dB from their certificates and 0.3 dB since the check before are allowed.
/// </summary>
public sealed class CheckReadinessTests
{
    // Half of the limit is worth knowing, more than the limit stops; each value of its own passes.
    [Theory]
    [InlineData(0.15, null)]
    [InlineData(0.16, Gravity.Risks)]
    [InlineData(-0.16, Gravity.Risks)]
    [InlineData(0.30, Gravity.Risks)]
    [InlineData(0.31, Gravity.Stops)]
    [InlineData(-0.31, Gravity.Stops)]
    public void What_all_chains_share_is_as_grave_as_the_limit_makes_it(double commonDb, Gravity? gravity)
    {
        var found = Found("check", Day(CheckMoment.Before, commonDb));

        Assert.Equal(gravity, found.Count == 0 ? null : Assert.Single(found).Gravity);
        Assert.All(found, f => Assert.Equal((null, commonDb), (f.Station, Math.Round(f.Figures[0].Value, 9))));
    }

    // Five chains share 0.25 dB; the fourth lies 0.4 dB from them, and beyond the limit.
    [Fact]
    public void A_chain_that_stands_out_is_blamed_beside_what_all_share()
    {
        var found = Found("check", Day(CheckMoment.Before, 0.25, fourthDb: 0.65));

        Assert.Equal(
            [(null, Gravity.Risks), ("S4", Gravity.Stops)],
            found.OrderBy(f => f.Station, StringComparer.Ordinal).Select(f => (f.Station, f.Gravity)));
    }

    // A shift that all share explains how far they lie from their certificates, and not that they moved between two checks.
    [Fact]
    public void Chains_that_moved_between_two_checks_are_named_beside_what_all_share()
    {
        var found = Found("check", [.. Day(CheckMoment.Before, 0), .. Day(CheckMoment.After, 0.35)]);

        Assert.Equal([null, "S1", "S2", "S3", "S4", "S5", "S6"], found.Select(f => f.Station).Order(StringComparer.Ordinal));
        Assert.All(found.Where(f => f.Station is not null), f => Assert.Contains(
            "+0.350 dB since the check before (limit 0.3 dB)", f.Text, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData(CheckMoment.Before, "not checked after the recordings")]
    [InlineData(CheckMoment.After, "not checked before the recordings")]
    [InlineData(CheckMoment.Other, null)]
    public void A_chain_that_was_checked_on_one_side_alone_is_at_risk(CheckMoment moment, string? says)
    {
        var found = Found("check-missing", [Checked("S2", moment, 0)]);

        Assert.Equal(says is null ? 0 : 1, found.Count);
        Assert.All(found, f => Assert.Equal(("S2", Gravity.Risks), (f.Station, f.Gravity)));
        Assert.All(found, f => Assert.Contains(says!, f.Text, StringComparison.Ordinal));
    }

    private static IReadOnlyList<Finding> Found(string rule, Fact[] checks) =>
        [.. CampaignReadiness.Judge(FactList.RegisterOf([.. CheckTests.Sound(), .. checks]), "C1", new(2026, 7, 10))!.Findings
            .Where(f => f.Rule == rule)];

    private static Fact[] Day(CheckMoment moment, double commonDb, double? fourthDb = null) =>
        [.. Enumerable.Range(1, 6).Select(i => Checked("S" + i, moment, i == 4 ? fourthDb ?? commonDb : commonDb))];

    private static Fact Checked(string station, CheckMoment moment, double deviationDb) => Make.Of(
        Make.Check(station, moment, deviationDb, "M" + station[1..]), "2026-07-02", moment == CheckMoment.After ? 1 : 0, "campaign:C1",
        "device:M" + station[1..]);
}
