namespace MicRegister.Metrology.Tones;

/// <summary>What a calibrator's tone in one channel is asked to be.</summary>
/// <param name="ExpectedHz">Frequency that is expected, in Hz; null takes whatever is found.</param>
/// <param name="FrequencyShare">Greatest deviation from it, as a share: 2 %.</param>
/// <param name="LeastSeconds">Least usable stretch, in seconds: 3.</param>
/// <param name="FluctuationDb">Greatest short-term level fluctuation, in dB: 0.1.</param>
/// <param name="Distortion">Greatest total harmonic distortion, as a share: 3 %.</param>
/// <param name="SignalToNoiseDb">Least signal-to-noise ratio, in dB: 20.</param>
/// <remarks>The defaults are common practice, without a source.</remarks>
public sealed record ToneLimits(double? ExpectedHz = null, double FrequencyShare = 0.02, double LeastSeconds = 3, double FluctuationDb = 0.1, double Distortion = 0.03, double SignalToNoiseDb = 20);

/// <summary>A tone in one channel.</summary>
/// <param name="Reasons">Why it is not usable; empty where it is.</param>
/// <param name="Rms">Root mean square of the fundamental in parts of full scale (a full-scale sine has 0.7071); NaN where there is no tone.</param>
/// <param name="FrequencyHz">Mean frequency over the usable stretch, in Hz.</param>
/// <param name="FluctuationDb">Half of greatest minus least F-weighted level over at most 20 s, in dB.</param>
/// <param name="Distortion">Total harmonic distortion, harmonics 2 to 10 over the fundamental, as a share.</param>
/// <param name="SignalToNoiseDb">Fundamental over what is neither it nor a harmonic nor the mean, in dB.</param>
/// <param name="Offset">Mean, in parts of full scale.</param>
/// <param name="Peak">Greatest magnitude in the whole recording, in parts of full scale.</param>
/// <param name="FromSeconds">Where the usable stretch begins.</param>
/// <param name="ToSeconds">Where it ends.</param>
/// <param name="LevelsDb">Level of each tenth of a second in dB re full-scale rms 1; very low where there is no tone.</param>
/// <param name="StepSeconds">Seconds between two of those levels.</param>
public sealed record ToneReport(
    IReadOnlyList<string> Reasons, double Rms, double FrequencyHz, double FluctuationDb, double Distortion, double SignalToNoiseDb, double Offset, double Peak,
    double FromSeconds, double ToSeconds, IReadOnlyList<float> LevelsDb, double StepSeconds)
{
    public bool IsUsable => Reasons.Count == 0;
}
