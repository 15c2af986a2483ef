using MicRegister.Metrology.Lines;

namespace MicRegister.Metrology.Uncertainty;

/// <summary>Whether a coverage factor and a coverage probability can be said of one uncertainty.</summary>
public static class CoverageProbability
{
    // A rectangular distribution needs the smallest factor of those in use: at 95 % sqrt 3 · 0.95 = 1.645, which is 0.84 of the normal
    // one (JCGM 100:2008, G.1.3). A share of 0.8 lets that through and not k = 2 at 99 % (0.776); common practice, no source.
    private const double LeastShare = 0.8;
    private const double Rounding = 1.01;

    /// <summary>Whether a probability is about 95 %, so that k = 2 stands for it: from 94.5 to 96 % (common practice, no source).</summary>
    /// <param name="probability">0 to 1.</param>
    public static bool IsUsual(double probability) => probability is >= 0.945 and <= 0.96;

    /// <summary>Whether both can be said of one uncertainty.</summary>
    /// <param name="factor">Coverage factor k.</param>
    /// <param name="probability">Above 0 and below 1; anything else fits nothing.</param>
    /// <returns>
    /// True from 0.8 times the factor of a normal distribution to that of a t distribution with two degrees of freedom, with 1 % for
    /// rounding.
    /// </returns>
    /// <remarks>The upper one is t = p · sqrt(2 / (1 - p²)), the closed form of two degrees of freedom.</remarks>
    public static bool Fits(double factor, double probability) => probability is > 0 and < 1
        && factor >= LeastShare * Quantile.Normal(probability)
        && factor <= Rounding * probability * Math.Sqrt(2 / (1 - (probability * probability)));
}
