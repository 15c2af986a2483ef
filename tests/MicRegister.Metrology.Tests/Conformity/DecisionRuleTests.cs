using MicRegister.Metrology.Conformity;

namespace MicRegister.Metrology.Tests.Conformity;

/// <summary>Decisions at both limits of a tolerance; JCGM 106:2012, 7.4, 8.3.2 and 8.3.3 (clauses from memory, unchecked).</summary>
public sealed class DecisionRuleTests
{
    // w = U = 0.3 dB: the lower limit -0.5 dB accepts from -0.2 dB on and rejects below -0.8 dB (hand algebra).
    [Theory]
    [InlineData(-0.199999, ConformityVerdict.Conforms)]
    [InlineData(-0.2, ConformityVerdict.Conforms)]
    [InlineData(-0.200001, ConformityVerdict.Undecided)]
    [InlineData(-0.5, ConformityVerdict.Undecided)]
    [InlineData(-0.500001, ConformityVerdict.Undecided)]
    [InlineData(-0.8, ConformityVerdict.Undecided)]
    [InlineData(-0.800001, ConformityVerdict.DoesNotConform)]
    public void The_lower_limit_has_its_guard_band_on_both_sides(double measured, ConformityVerdict expected)
    {
        Assert.Equal(expected, Tolerance.Around(0, 0.5).Guarded(measured, 0.3, 1));
        Assert.Equal(expected, Tolerance.From(-0.5).Guarded(measured, 0.3, 1));
        Assert.Equal(expected, Tolerance.UpTo(0.5).Guarded(-measured, 0.3, 1)); // the upper limit is its mirror
        Assert.Equal(expected, new DecisionRule(DecisionRuleKind.Guarded).Decide(Tolerance.From(-0.5), measured, 99, 0.3));
    }

    // One limit at 0 with u = 1: within with Phi(-y). Phi^-1(0.95) = 1.6448536 (any table of the normal distribution).
    [Theory]
    [InlineData(-1.6449, ConformityVerdict.Conforms)]
    [InlineData(-1.6448, ConformityVerdict.Undecided)]
    [InlineData(0, ConformityVerdict.Undecided)] // one half
    [InlineData(0.01, ConformityVerdict.Undecided)] // less than one half is no proof of the contrary
    [InlineData(1.6448, ConformityVerdict.Undecided)]
    [InlineData(1.6449, ConformityVerdict.DoesNotConform)]
    [InlineData(double.NaN, ConformityVerdict.Undecided)]
    public void The_rule_by_probability_rejects_only_what_is_as_surely_outside(double measured, ConformityVerdict expected) =>
        Assert.Equal(expected, DecisionRule.Of("probability", null).Decide(Tolerance.UpTo(0), measured, 1, 0));

    // Phi(1) = 0.841345: with at least 0.84 asked it decides at one standard uncertainty, with 0.85 it does not.
    [Theory]
    [InlineData(0.84, -1, ConformityVerdict.Conforms)]
    [InlineData(0.84, 1, ConformityVerdict.DoesNotConform)]
    [InlineData(0.85, -1, ConformityVerdict.Undecided)]
    [InlineData(0.85, 1, ConformityVerdict.Undecided)]
    public void The_probability_that_is_asked_for_decides(double least, double measured, ConformityVerdict expected) =>
        Assert.Equal(expected, DecisionRule.Of("probability", least).Decide(Tolerance.UpTo(0), measured, 1, 0));

    // Without uncertainty only 1 and 0 can be: a value at the limit is within.
    [Fact]
    public void A_rule_is_found_by_its_name_and_anything_else_is_simple()
    {
        Assert.Equal(["simple", "guarded", "probability"], DecisionRule.Names);
        Assert.Equal(
            [
                DecisionRuleKind.Simple, DecisionRuleKind.Guarded, DecisionRuleKind.Probability, DecisionRuleKind.Simple,
                DecisionRuleKind.Simple,
            ],
            new[] { "simple", "guarded", "probability", "else", null }.Select(n => DecisionRule.Of(n, null).Kind));
        Assert.Equal((0.95, 0.9), (DecisionRule.Of("simple", null).LeastProbability, DecisionRule.Of("simple", 0.9).LeastProbability));
        Assert.Equal(ConformityVerdict.Conforms, DecisionRule.Of("simple", null).Decide(Tolerance.UpTo(0), 0, 99, 99));
        Assert.Equal(ConformityVerdict.DoesNotConform, DecisionRule.Of("simple", null).Decide(Tolerance.UpTo(0), 0.001, 99, 99));
        Assert.Equal(ConformityVerdict.Undecided, DecisionRule.Of("simple", null).Decide(Tolerance.UpTo(0), double.NaN, 0, 0));
        Assert.Equal(ConformityVerdict.Conforms, DecisionRule.Of("probability", 1).Decide(Tolerance.UpTo(0), 0, 0, 0));
        Assert.Equal(ConformityVerdict.DoesNotConform, DecisionRule.Of("probability", 1).Decide(Tolerance.UpTo(0), 0.001, 0, 0));
    }
}
