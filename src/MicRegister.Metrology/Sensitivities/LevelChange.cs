namespace MicRegister.Metrology.Sensitivities;

/// <summary>A difference of two levels, in dB. Changes add up. The default is no change.</summary>
/// <param name="Decibels">Difference in dB; positive when the later level is the higher one.</param>
public readonly record struct LevelChange(double Decibels)
{
    /// <summary>Decibels for each unit of relative change at the working point: 20 / ln 10.</summary>
    public const double DecibelsPerRelative = 8.685889638065036;

    /// <summary>The standard uncertainty in dB of a level whose linear quantity has a small relative standard uncertainty.</summary>
    /// <param name="relative">Relative standard uncertainty, for example 0.01 for 1 %.</param>
    /// <returns>Uncertainty in dB, to first order (JCGM 100:2008, 5.1.2).</returns>
    public static double UncertaintyFromRelative(double relative) => DecibelsPerRelative * relative;

    public static LevelChange operator +(LevelChange a, LevelChange b) => new(a.Decibels + b.Decibels);

    public static LevelChange operator -(LevelChange a, LevelChange b) => new(a.Decibels - b.Decibels);

    public static LevelChange operator -(LevelChange a) => new(-a.Decibels);
}
