using MathNet.Numerics.Distributions;

namespace MicRegister.Metrology.Conformity;

/// <summary>
/// An interval of allowed true values, with the decision rules that hold a measured value against it. One side may be open.
/// </summary>
public readonly record struct Tolerance
{
    /// <summary>A tolerance from its limits.</summary>
    /// <param name="lower">Least allowed value, inclusive; negative infinity where that side is open.</param>
    /// <param name="upper">Greatest allowed value, inclusive; positive infinity where that side is open.</param>
    /// <exception cref="ArgumentException">A limit is NaN, or the lower one is above the upper one.</exception>
    public Tolerance(double lower, double upper)
    {
        if (double.IsNaN(lower) || double.IsNaN(upper) || lower > upper)
            throw new ArgumentException($"A tolerance needs a lower limit ({lower}) that is not above its upper limit ({upper}).");
        Lower = lower;
        Upper = upper;
    }

    /// <summary>The same distance on both sides of a reference value.</summary>
    public static Tolerance Around(double reference, double halfWidth) => new(reference - halfWidth, reference + halfWidth);

    /// <summary>Only values up to the limit are allowed.</summary>
    public static Tolerance UpTo(double upper) => new(double.NegativeInfinity, upper);

    /// <summary>Only values from the limit on are allowed.</summary>
    public static Tolerance From(double lower) => new(lower, double.PositiveInfinity);

    /// <summary>Least allowed value, inclusive.</summary>
    public double Lower { get; }

    /// <summary>Greatest allowed value, inclusive.</summary>
    public double Upper { get; }

    /// <summary>Simple acceptance: the measured value alone decides, at the limit it passes.</summary>
    /// <param name="measured">Measured value; NaN is undecided.</param>
    /// <remarks>JCGM 106:2012, 8.2.</remarks>
    public ConformityVerdict Simple(double measured) => Guarded(measured, 0, 0);

    /// <summary>
    /// Guarded decision: accepted inside the limits by w, rejected outside them by w, undecided between.
    /// </summary>
    /// <param name="measured">Measured value; NaN is undecided.</param>
    /// <param name="expandedUncertainty">U at k = 2, not negative, in the unit of the value.</param>
    /// <param name="guardFactor">r in w = r U; 1 gives less than 2.5 % false acceptance (ILAC-G8:09/2019), 0 is simple acceptance.</param>
    /// <remarks>JCGM 106:2012, 8.3.2 (guarded acceptance) and 8.3.3 (guarded rejection).</remarks>
    public ConformityVerdict Guarded(double measured, double expandedUncertainty, double guardFactor)
    {
        if (!(expandedUncertainty >= 0) || !(guardFactor >= 0))
            throw new ArgumentException($"U ({expandedUncertainty}) and the guard factor ({guardFactor}) must not be negative.");
        if (double.IsNaN(measured)) return ConformityVerdict.Undecided;

        var guard = expandedUncertainty * guardFactor;
        if (DecisionLimit.AtLeast(measured, Lower + guard) && DecisionLimit.AtMost(measured, Upper - guard))
            return ConformityVerdict.Conforms;
        return !DecisionLimit.AtLeast(measured, Lower - guard) || !DecisionLimit.AtMost(measured, Upper + guard)
            ? ConformityVerdict.DoesNotConform
            : ConformityVerdict.Undecided;
    }

    /// <summary>Probability that the true value lies within the tolerance, for a normal distribution around the measured value.</summary>
    /// <param name="measured">Measured value, finite.</param>
    /// <param name="standardUncertainty">Standard uncertainty, not negative; 0 gives 0 or 1, with 1 at the limit.</param>
    /// <returns>p = Phi((upper - y) / u) - Phi((lower - y) / u), from 0 to 1.</returns>
    /// <remarks>JCGM 106:2012, 7.4, with no prior information about the value.</remarks>
    public double Probability(double measured, double standardUncertainty)
    {
        if (!double.IsFinite(measured) || !(standardUncertainty >= 0))
            throw new ArgumentException($"A probability needs a finite value ({measured}) and an uncertainty that is not negative ({standardUncertainty}).");
        if (standardUncertainty == 0) return Simple(measured) == ConformityVerdict.Conforms ? 1 : 0;

        // Both sides are taken in the tail that is far from 1, so that a very safe value keeps its digits.
        var above = Normal.CDF(0, 1, (measured - Upper) / standardUncertainty);
        var below = Normal.CDF(0, 1, (Lower - measured) / standardUncertainty);
        return Math.Clamp(1 - above - below, 0, 1);
    }
}
