using MicRegister.Metrology.Conformity;

namespace MicRegister.Metrology.Tests.Conformity;

public sealed class ToleranceTests
{
    // Examples of JCGM 106:2012, 7.3 and 7.4 (inputs from memory, unchecked), probabilities recomputed with SciPy 1.10.
    [Fact]
    public void Published_examples_give_their_probabilities()
    {
        AssertClose.Absolute(0.919243340766229, Tolerance.UpTo(-5.40).Probability(-5.47, 0.05), 1e-12);
        AssertClose.Absolute(0.989009547384822, Tolerance.From(490).Probability(509.7, 8.6), 1e-12);
        AssertClose.Absolute(0.662629786495308, new Tolerance(12.5, 16.3).Probability(13.6, 1.8), 1e-12);
    }

    // JCGM 106:2012, 9.5, resistors of 1500 Ω within ±0.2 Ω, made with a standard deviation of 0.12 Ω and measured with 0.04 Ω: accepted
    // from 1499.82 Ω to 1500.18 Ω, a guard band of 0.02 Ω (figures seen in a public script that cites it; number of the clause from
    // memory). Risks of both sides recomputed with SciPy 1.10; here by 24,000 strips of the midpoint rule.
    [Theory]
    [InlineData(0.02, 1500.18, 0.009878292, 0.069026510)]
    [InlineData(0, 1500.20, 0.018942, 0.037208)]
    [InlineData(0.04, 1500.16, 0.004334, 0.114657)]
    public void The_resistors_of_the_guide_are_accepted_within_their_band_at_its_risks(
        double guard, double edge, double consumer, double producer)
    {
        var tolerance = new Tolerance(1499.80, 1500.20);
        Assert.Equal(ConformityVerdict.Conforms, tolerance.Guarded(edge, guard, 1));
        Assert.NotEqual(ConformityVerdict.Conforms, tolerance.Guarded(edge + 1e-5, guard, 1));
        Assert.Equal(ConformityVerdict.Conforms, tolerance.Guarded(3000 - edge, guard, 1));
        Assert.NotEqual(ConformityVerdict.Conforms, tolerance.Guarded(3000 - edge - 1e-5, guard, 1));

        // Of a true value η: how likely it is made, and how likely a reading of it lies in the band.
        var (accepted, band) = (new Tolerance(3000 - edge, edge), 0.12 * 10);
        var (falselyIn, falselyOut, step) = (0.0, 0.0, 2 * band / 24_000);
        for (var i = 0; i < 24_000; i++)
        {
            var off = -band + ((i + 0.5) * step);
            var made = Math.Exp(-off * off / (2 * 0.12 * 0.12)) / (0.12 * Math.Sqrt(2 * Math.PI)) * step;
            var isIn = accepted.Probability(1500 + off, 0.04);
            if (Math.Abs(off) > 0.2) falselyIn += made * isIn;
            else falselyOut += made * (1 - isIn);
        }
        AssertClose.Absolute(consumer, falselyIn, 1e-6);
        AssertClose.Absolute(producer, falselyOut, 1e-6);
    }

    // ±0.5 dB with u = 0.15 dB, recomputed with SciPy 1.10.
    [Theory]
    [InlineData(0, 0.99914)]
    [InlineData(0.2, 0.97725)]
    [InlineData(0.3, 0.90879)]
    [InlineData(0.35, 0.84134)]
    [InlineData(0.4, 0.74751)]
    [InlineData(0.45, 0.63056)]
    [InlineData(0.5, 0.50000)]
    public void A_half_decibel_tolerance_gives_its_probabilities(double deviationDb, double p) =>
        AssertClose.Absolute(p, Tolerance.Around(0, 0.5).Probability(deviationDb, 0.15), 5e-6);

    [Fact]
    public void Without_uncertainty_the_probability_is_one_up_to_the_limit_and_nought_beyond()
    {
        Assert.Equal(1, Tolerance.Around(0, 0.5).Probability(0.5, 0));
        Assert.Equal(0, Tolerance.Around(0, 0.5).Probability(0.500001, 0));
    }

    [Theory]
    [InlineData(0.5, ConformityVerdict.Conforms)] // equality passes
    [InlineData(0.5000004, ConformityVerdict.Conforms)] // the same figure to 1e-6
    [InlineData(0.500001, ConformityVerdict.DoesNotConform)]
    [InlineData(-0.5, ConformityVerdict.Conforms)]
    [InlineData(-0.500001, ConformityVerdict.DoesNotConform)]
    [InlineData(double.NaN, ConformityVerdict.Undecided)]
    public void Simple_acceptance_decides_after_rounding(double measured, ConformityVerdict expected) =>
        Assert.Equal(expected, Tolerance.Around(0, 0.5).Simple(measured));

    // w = U = 0.3 dB leaves ±0.2 dB to accept and rejects from beyond 0.8 dB; between it cannot be decided (hand algebra).
    [Theory]
    [InlineData(0.2, ConformityVerdict.Conforms)]
    [InlineData(0.200001, ConformityVerdict.Undecided)]
    [InlineData(-0.35, ConformityVerdict.Undecided)]
    [InlineData(0.8, ConformityVerdict.Undecided)]
    [InlineData(0.800001, ConformityVerdict.DoesNotConform)]
    public void A_guard_band_leaves_room_for_undecided(double measured, ConformityVerdict expected) =>
        Assert.Equal(expected, Tolerance.Around(0, 0.5).Guarded(measured, 0.3, 1));

    // Probability of false acceptance of a reading exactly at the acceptance limit, w = r U with U = 2u: Phi(-2r). SciPy 1.10.
    [Theory]
    [InlineData(0, 0.5)]
    [InlineData(0.5, 0.15866)]
    [InlineData(0.83, 0.04846)]
    [InlineData(1, 0.02275)]
    [InlineData(1.5, 0.00135)]
    public void A_wider_guard_band_lowers_the_risk_at_its_edge(double r, double risk)
    {
        var limit = 10.0;
        var atEdge = limit - (r * 2);

        AssertClose.Absolute(risk, 1 - Tolerance.UpTo(limit).Probability(atEdge, 1), 1e-5);
    }

    [Fact]
    public void Impossible_limits_and_uncertainties_are_refused()
    {
        Assert.Throws<ArgumentException>(() => new Tolerance(1, 0));
        Assert.Throws<ArgumentException>(() => new Tolerance(double.NaN, 0));
        Assert.Throws<ArgumentException>(() => Tolerance.UpTo(1).Guarded(0, -1, 1));
        Assert.Throws<ArgumentException>(() => Tolerance.UpTo(1).Probability(0, -1));
        Assert.Throws<ArgumentException>(() => Tolerance.UpTo(1).Probability(double.NaN, 1));
    }

    [Fact]
    public void A_sum_that_misses_the_limit_by_its_last_bits_still_passes()
    {
        Assert.False(0.1 + 0.2 <= 0.3); // what plain doubles would say
        Assert.True(DecisionLimit.AtMost(0.1 + 0.2, 0.3));
        Assert.True(DecisionLimit.AtLeast(-(0.1 + 0.2), -0.3));
        Assert.False(DecisionLimit.AtMost(double.NaN, 1));
        Assert.Equal(double.NegativeInfinity, DecisionLimit.Rounded(double.NegativeInfinity));
    }
}
