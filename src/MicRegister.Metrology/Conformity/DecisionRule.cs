namespace MicRegister.Metrology.Conformity;

/// <summary>How a measured figure with its uncertainty is held against a tolerance. The default is simple acceptance.</summary>
/// <param name="Kind">Which rule.</param>
/// <param name="LeastProbability">For the rule by probability: from this probability on it is accepted, and rejected from this probability of the contrary on.</param>
public readonly record struct DecisionRule(DecisionRuleKind Kind, double LeastProbability = DecisionRule.UsualProbability)
{
    /// <summary>0.95 (common practice, no source).</summary>
    public const double UsualProbability = 0.95;

    /// <summary>Words by which a profile names the rules.</summary>
    public static IReadOnlyList<string> Names { get; } = ["simple", "guarded", "probability"];

    /// <summary>The rule of a name; simple acceptance where there is none.</summary>
    public static DecisionRule Of(string? name, double? leastProbability) => new(name switch
    {
        "guarded" => DecisionRuleKind.Guarded,
        "probability" => DecisionRuleKind.Probability,
        _ => DecisionRuleKind.Simple,
    }, leastProbability ?? UsualProbability);

    /// <summary>Decides.</summary>
    /// <param name="tolerance">What is allowed.</param>
    /// <param name="measured">Measured value; NaN is undecided.</param>
    /// <param name="standardUncertainty">Its standard uncertainty, not negative.</param>
    /// <param name="expandedUncertainty">Its expanded uncertainty: the guard band of the guarded rule.</param>
    /// <returns>Under simple acceptance never undecided, unless the value is no number.</returns>
    /// <remarks>JCGM 106:2012, 8.2 (simple), 8.3.2 and 8.3.3 (guarded, w = U), 7.4 (probability).</remarks>
    public ConformityVerdict Decide(Tolerance tolerance, double measured, double standardUncertainty, double expandedUncertainty)
    {
        if (double.IsNaN(measured)) return ConformityVerdict.Undecided;
        switch (Kind)
        {
            case DecisionRuleKind.Guarded:
                return tolerance.Guarded(measured, expandedUncertainty, 1);
            case DecisionRuleKind.Probability:
                var within = tolerance.Probability(measured, standardUncertainty);
                return DecisionLimit.AtLeast(within, LeastProbability) ? ConformityVerdict.Conforms
                    : DecisionLimit.AtLeast(1 - within, LeastProbability) ? ConformityVerdict.DoesNotConform
                    : ConformityVerdict.Undecided;
            default:
                return tolerance.Simple(measured);
        }
    }
}

/// <summary>Which rule decides.</summary>
public enum DecisionRuleKind
{
    /// <summary>The measured value alone.</summary>
    Simple,

    /// <summary>Limits tightened by U for acceptance and widened by it for rejection.</summary>
    Guarded,

    /// <summary>The probability to be within the limits.</summary>
    Probability,
}
