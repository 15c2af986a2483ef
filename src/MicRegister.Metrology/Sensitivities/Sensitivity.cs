namespace MicRegister.Metrology.Sensitivities;

/// <summary>The sensitivity of a microphone or a chain, in V/Pa. The default is 0 V/Pa, which has no level.</summary>
/// <param name="VoltsPerPascal">Sensitivity in V/Pa.</param>
public readonly record struct Sensitivity(double VoltsPerPascal)
{
    /// <summary>The sensitivity that a level stands for.</summary>
    /// <param name="level">A sensitivity level, in dB re 1 V/Pa.</param>
    /// <returns>M = 10^(L/20) V/Pa; NaN stays NaN.</returns>
    /// <remarks>IEC 61094-1 terms, as repeated by 14 CFR 36, A36.3.1.6 (seen, 2021 edition): L = 20 lg(M / 1 V/Pa).</remarks>
    public static Sensitivity FromLevel(SensitivityLevel level) => new(Math.Pow(10, level.Decibels / 20));

    /// <summary>A sensitivity given in the unit that most certificates print.</summary>
    /// <param name="millivoltsPerPascal">Sensitivity in mV/Pa.</param>
    public static Sensitivity FromMillivoltsPerPascal(double millivoltsPerPascal) => new(millivoltsPerPascal / 1000);

    /// <summary>The sensitivity in mV/Pa.</summary>
    public double MillivoltsPerPascal => VoltsPerPascal * 1000;

    /// <summary>The sensitivity level, in dB re 1 V/Pa.</summary>
    /// <exception cref="InvalidOperationException">The sensitivity is zero, negative or not finite: it has no level.</exception>
    public SensitivityLevel Level => double.IsFinite(VoltsPerPascal) && VoltsPerPascal > 0
        ? new(20 * Math.Log10(VoltsPerPascal))
        : throw new InvalidOperationException($"A sensitivity of {VoltsPerPascal} V/Pa has no level; it must be above 0 and finite.");
}
