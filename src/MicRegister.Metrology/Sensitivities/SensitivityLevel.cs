namespace MicRegister.Metrology.Sensitivities;

/// <summary>
/// A sensitivity level, in dB re 1 V/Pa. Two levels have a difference but no sum. The default is 0 dB, which is 1 V/Pa.
/// </summary>
/// <param name="Decibels">Level in dB re 1 V/Pa.</param>
public readonly record struct SensitivityLevel(double Decibels)
{
    /// <summary>The change that leads from <paramref name="from"/> to <paramref name="to"/>.</summary>
    public static LevelChange operator -(SensitivityLevel to, SensitivityLevel from) => new(to.Decibels - from.Decibels);

    /// <summary>The level after a change.</summary>
    public static SensitivityLevel operator +(SensitivityLevel level, LevelChange change) => new(level.Decibels + change.Decibels);

    /// <summary>The level before a change.</summary>
    public static SensitivityLevel operator -(SensitivityLevel level, LevelChange change) => new(level.Decibels - change.Decibels);
}
