using MicRegister.Metrology.Uncertainty;

namespace MicRegister.Metrology.Tests.Uncertainty;

public sealed class UncertaintyBudgetTests
{
    // JCGM 100:2008, H.1, end-gauge calibration (figures seen in an open library of a national institute; that they add up to the printed
    // 32 nm, 16 degrees of freedom, 2.92 and 93 nm was recomputed): standard 25 nm with 18, comparison 9.7 nm with 25.6, expansion 2.9 nm
    // with 50, temperature 16.6 nm with 2.
    [Fact]
    public void The_end_gauge_of_the_guide_comes_out()
    {
        var budget = new UncertaintyBudget([new("standard", "a", 25, 1, 18), new("comparison", "b", 9.7, 1, 25.6), new("expansion", "c", 2.9, 1, 50), new("temperature", "d", 16.6, 1, 2)]);
        AssertClose.Absolute(32, budget.Standard, 0.5);
        Assert.Equal(16, Math.Floor(budget.EffectiveDegreesOfFreedom));
        AssertClose.Absolute(2.92, budget.CoverageFactor(0.99), 0.005);
        AssertClose.Absolute(93, budget.Expanded(0.99), 0.6);
    }

    // Hand algebra, in the manner of EA-4/02: a certificate of U = 0.10 dB at k = 2, a resolution of 0.1 dB, three readings.
    [Fact]
    public void Certificate_resolution_and_repeatability_are_combined_by_hand_algebra()
    {
        var readings = UncertaintyComponent.FromReadings("insertions", "insertions of 3 August", [93.90, 93.94, 93.98]);
        var budget = new UncertaintyBudget([UncertaintyComponent.FromExpanded("certificate", "C 1", 0.10, 2), UncertaintyComponent.FromHalfWidth("resolution", "display", 0.05, UncertaintyDistribution.Rectangular), readings]);

        AssertClose.Relative(0.04 / Math.Sqrt(3), readings.StandardUncertainty, 1e-9);
        AssertClose.Relative(Math.Sqrt((0.05 * 0.05) + (0.05 * 0.05 / 3) + (0.04 * 0.04 / 3)), budget.Standard, 1e-9);
        AssertClose.Relative(Math.Pow(budget.Standard, 4) / (Math.Pow(0.04 * 0.04 / 3, 2) / 2), budget.EffectiveDegreesOfFreedom, 1e-9);
        AssertClose.Absolute(2.0, new UncertaintyBudget([new("certificate", "C 1", 0.05)]).CoverageFactor(), 1e-3);
        AssertClose.Relative(0.05 / Math.Sqrt(6), UncertaintyComponent.FromHalfWidth("x", "x", 0.05, UncertaintyDistribution.Triangular).StandardUncertainty, 1e-12);
        AssertClose.Relative(0.05 / Math.Sqrt(2), UncertaintyComponent.FromHalfWidth("x", "x", 0.05, UncertaintyDistribution.UShaped).StandardUncertainty, 1e-12);
    }

    // Hand algebra: a common 0.05 cancels in after - before and stays whole in the mean; own parts of 0.03 add by their squares.
    [Fact]
    public void What_two_results_share_cancels_in_their_difference_and_stays_in_their_mean()
    {
        UncertaintyBudget Of(string own) => new([new("calibrator", "K1", 0.05), new("insertion", own, 0.03)]);
        var (before, after) = (Of("before"), Of("after"));

        AssertClose.Relative(0.03 * Math.Sqrt(2), UncertaintyBudget.OfSum((after, 1), (before, -1)).Standard, 1e-12);
        AssertClose.Relative(Math.Sqrt((0.05 * 0.05) + (0.03 * 0.03 / 2)), UncertaintyBudget.OfSum((after, 0.5), (before, 0.5)).Standard, 1e-12);
        // Two channels checked with one calibrator: their difference does not know its level.
        var channel = new UncertaintyBudget([new("calibrator", "K1", 0.05)]);
        Assert.Equal(0, UncertaintyBudget.OfSum((channel, 1), (channel, -1)).Standard);
    }

    [Fact]
    public void Nothing_but_figures_makes_a_budget()
    {
        Assert.Throws<ArgumentException>(() => new UncertaintyBudget([]));
        Assert.Throws<ArgumentException>(() => new UncertaintyBudget([new("x", "x", -1)]));
        Assert.Throws<ArgumentException>(() => new UncertaintyBudget([new("x", "x", 1, double.NaN)]));
        Assert.Throws<ArgumentException>(() => UncertaintyComponent.FromReadings("x", "x", [1]));
        Assert.Throws<ArgumentException>(() => UncertaintyComponent.FromHalfWidth("x", "x", 1, UncertaintyDistribution.Normal));
        Assert.Throws<ArgumentOutOfRangeException>(() => new UncertaintyBudget([new("x", "x", 1)]).CoverageFactor(1));
    }
}
