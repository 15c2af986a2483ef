using MicRegister.Metrology.Uncertainty;

namespace MicRegister.Metrology.Tests.Uncertainty;

/// <summary>Degrees of freedom where several contributions come from one source (JCGM 100:2008, 5.2.2 and G.4.1; hand algebra).</summary>
public sealed class SourceFreedomTests
{
    // One source alone, 0.3 + 0.1 = 0.4: the formula gives back the source's own degrees of freedom, and the least known part decides.
    [Fact]
    public void A_source_is_known_no_better_than_its_least_known_part()
    {
        UncertaintyComponent well = new("level", "K1", 0.3, 1, 50), badly = new("pressure", "K1", 0.1, 1, 4);
        UncertaintyComponent exactly = new("constant", "K1", 0, 1);

        foreach (var budget in new UncertaintyBudget[] { new([well, badly, exactly]), new([badly, exactly, well]) })
        {
            AssertClose.Relative(0.4, budget.Standard, 1e-12);
            AssertClose.Relative(4, budget.EffectiveDegreesOfFreedom, 1e-12);
        }
    }

    // Beside a source of 0.3 with 9: 0.5^4 / (0.4^4 / 4 + 0.3^4 / 9) = 0.0625 / 0.0073 = 8.5616.
    [Fact]
    public void Beside_another_source_it_counts_as_one_term() => AssertClose.Relative(
        0.0625 / ((0.0256 / 4) + (0.0081 / 9)),
        new UncertaintyBudget([new("level", "K1", 0.3, 1, 50), new("pressure", "K1", 0.1, 1, 4), new("insertion", "own", 0.3, 1, 9)])
            .EffectiveDegreesOfFreedom, 1e-12);

    // t(0.975) with 4 is 2.776 (any table of Student's t): a whole number of degrees of freedom is not cut to the one below.
    [Fact]
    public void A_whole_number_of_degrees_of_freedom_stays_whole()
    {
        AssertClose.Absolute(2.776, new UncertaintyBudget([new("x", "x", 0.3, 1, 4)]).CoverageFactor(0.95), 5e-4);
        // Less than one counts as one.
        AssertClose.Absolute(12.706, new UncertaintyBudget([new("x", "x", 0.3, 1, 0.5)]).CoverageFactor(0.95), 5e-4);
        AssertClose.Absolute(1.960, new UncertaintyBudget([new("x", "x", 0.3)]).CoverageFactor(0.95), 5e-4);
    }
}
