namespace MicRegister.Metrology.Conformity;

/// <summary>How a figure meets a limit: after rounding to 1e-6, and equality passes.</summary>
/// <remarks>
/// Rounding makes the same decision on every machine, whatever the last bits of a sum are; limits of the trade say "may not
/// exceed", so the limit itself passes.
/// </remarks>
public static class DecisionLimit
{
    /// <summary>A figure as it is held against a limit.</summary>
    /// <param name="value">Any figure; NaN and infinities are returned as they are.</param>
    /// <returns>The figure rounded to six decimals, halves away from zero.</returns>
    public static double Rounded(double value) => double.IsFinite(value) && Math.Abs(value) < 1e9
        ? Math.Round(value, 6, MidpointRounding.AwayFromZero)
        : value;

    /// <summary>Whether a figure does not exceed a limit.</summary>
    /// <param name="value">The figure, in the limit's unit. NaN never passes.</param>
    /// <param name="limit">The greatest figure allowed, inclusive.</param>
    public static bool AtMost(double value, double limit) => Rounded(value) <= Rounded(limit);

    /// <summary>Whether a figure does not fall below a limit.</summary>
    /// <param name="value">The figure, in the limit's unit. NaN never passes.</param>
    /// <param name="limit">The least figure allowed, inclusive.</param>
    public static bool AtLeast(double value, double limit) => Rounded(value) >= Rounded(limit);
}
