namespace MicRegister.Metrology.Checks;

/// <summary>The sensitivity of a chain from a calibrator's tone, as a level.</summary>
public static class ChainSensitivity
{
    /// <summary>Reference sound pressure in Pa.</summary>
    public const double ReferencePa = 20e-6;

    /// <summary>Sound pressure of a level.</summary>
    /// <param name="levelDb">Level in dB re 20 µPa.</param>
    /// <returns>Root mean square in Pa: 94 dB is 1.00237 Pa, not 1.</returns>
    public static double PressurePa(double levelDb) => ReferencePa * Math.Pow(10, levelDb / 20);

    /// <summary>Sensitivity level from a voltage, or from a recorded tone.</summary>
    /// <param name="rms">Root mean square, above 0: in V for V/Pa, in parts of full scale for full scale/Pa.</param>
    /// <param name="calibratorDb">Level at the microphone in dB re 20 µPa.</param>
    /// <returns>dB re 1 V/Pa, or re 1 full scale/Pa.</returns>
    /// <exception cref="ArgumentException">The voltage is not above 0 or the level is no number.</exception>
    public static double LevelDb(double rms, double calibratorDb) => rms > 0 && double.IsFinite(rms) && double.IsFinite(calibratorDb)
        ? 20 * Math.Log10(rms / PressurePa(calibratorDb))
        : throw new ArgumentException($"A sensitivity needs a voltage above 0 ({rms}) and a level ({calibratorDb}).");

    /// <summary>How far a chain indicates from the calibrator's level, where it shows levels itself.</summary>
    /// <returns>Indicated minus true, in dB.</returns>
    public static double DeviationDb(double indicatedDb, double calibratorDb) => indicatedDb - calibratorDb;

    /// <summary>What the parts' certificates let expect of the chain.</summary>
    /// <param name="openCircuitDb">Open-circuit sensitivity level of the microphone, in dB re 1 V/Pa.</param>
    /// <param name="gainDb">Gain of the preamplifier with the microphone's loading, in dB.</param>
    /// <param name="channelDb">Gain of the recorder channel at its set range, in dB: V to V, or V to parts of full scale.</param>
    /// <returns>dB re 1 V/Pa, or re 1 full scale/Pa.</returns>
    public static double ExpectedDb(double openCircuitDb, double gainDb, double channelDb) => openCircuitDb + gainDb + channelDb;
}
