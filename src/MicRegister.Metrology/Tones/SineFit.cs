using MathNet.Numerics.LinearAlgebra;

namespace MicRegister.Metrology.Tones;

/// <summary>A sine fitted to samples.</summary>
/// <param name="FrequencyHz">Frequency in Hz.</param>
/// <param name="Amplitude">Peak amplitude, in the samples' unit.</param>
/// <param name="PhaseRad">Phase of the cosine at the first sample, in rad.</param>
/// <param name="Offset">Mean beside the sine, in the samples' unit.</param>
/// <param name="ResidualRms">Root mean square of what the fit leaves.</param>
/// <remarks>IEEE Std 1057, least-squares fit with three parameters (frequency known) and with four.</remarks>
public readonly record struct SineFit(double FrequencyHz, double Amplitude, double PhaseRad, double Offset, double ResidualRms)
{
    private const int MostSteps = 20;

    public double Rms => Amplitude / Math.Sqrt(2);

    /// <summary>Three parameters: the frequency is known.</summary>
    /// <param name="samples">At least three samples.</param>
    /// <param name="frequencyHz">Above 0, under half the sampling rate.</param>
    /// <param name="sampleRate">Samples a second.</param>
    public static SineFit Three(ReadOnlySpan<double> samples, double frequencyHz, double sampleRate) => Fit(samples, [frequencyHz], sampleRate, out _);

    /// <summary>Four parameters: the frequency is refined from a guess, by Gauss-Newton.</summary>
    /// <param name="samples">At least four samples.</param>
    /// <param name="guessHz">A frequency within half a period over the whole stretch.</param>
    /// <param name="sampleRate">Samples a second.</param>
    public static SineFit Four(ReadOnlySpan<double> samples, double guessHz, double sampleRate)
    {
        var (n, frequency) = (samples.Length, guessHz);
        Span<double> row = stackalloc double[4];
        for (var step = 0; step < MostSteps; step++)
        {
            var three = Three(samples, frequency, sampleRate);
            double a = three.Amplitude * Math.Cos(three.PhaseRad), b = -three.Amplitude * Math.Sin(three.PhaseRad), w = 2 * Math.PI * frequency / sampleRate;
            var normal = Matrix<double>.Build.Dense(4, 4);
            var right = Vector<double>.Build.Dense(4);
            for (var i = 0; i < n; i++)
            {
                double c = Math.Cos(w * i), s = Math.Sin(w * i);
                row[0] = c;
                row[1] = s;
                row[2] = 1;
                row[3] = i * ((b * c) - (a * s));
                for (var j = 0; j < 4; j++)
                {
                    right[j] += row[j] * samples[i];
                    for (var k = 0; k < 4; k++) normal[j, k] += row[j] * row[k];
                }
            }
            var found = normal.Solve(right);
            var change = found[3] * sampleRate / (2 * Math.PI);
            frequency += change;
            if (!double.IsFinite(frequency) || Math.Abs(change) < 1e-12 * guessHz) break;
        }
        return Three(samples, frequency, sampleRate);
    }

    /// <summary>A fundamental with harmonics, all frequencies known, fitted together.</summary>
    /// <param name="samples">Samples.</param>
    /// <param name="frequencyHz">Fundamental.</param>
    /// <param name="harmonics">Highest harmonic; those above half the sampling rate are left out.</param>
    /// <param name="sampleRate">Samples a second.</param>
    /// <param name="amplitudes">Peak amplitude of each, the fundamental first; 0 where it was left out.</param>
    public static SineFit WithHarmonics(ReadOnlySpan<double> samples, double frequencyHz, int harmonics, double sampleRate, out double[] amplitudes)
    {
        double[] wanted = [.. Enumerable.Range(1, harmonics).Select(k => k * frequencyHz).TakeWhile(f => f < 0.49 * sampleRate)];
        var fit = Fit(samples, wanted, sampleRate, out var found);
        amplitudes = new double[harmonics];
        found.CopyTo(amplitudes, 0);
        return fit;
    }

    private static SineFit Fit(ReadOnlySpan<double> samples, double[] frequencies, double sampleRate, out double[] amplitudes)
    {
        var size = (2 * frequencies.Length) + 1;
        if (samples.Length < size) throw new ArgumentException($"A fit of {size} parameters needs as many samples, not {samples.Length}.");
        var normal = new double[size * size];
        var right = new double[size];
        var row = new double[size];
        row[^1] = 1;
        for (var i = 0; i < samples.Length; i++)
        {
            for (var k = 0; k < frequencies.Length; k++) (row[(2 * k) + 1], row[2 * k]) = Math.SinCos(2 * Math.PI * frequencies[k] / sampleRate * i);
            for (var j = 0; j < size; j++)
            {
                right[j] += row[j] * samples[i];
                for (var k = j; k < size; k++) normal[(j * size) + k] += row[j] * row[k];
            }
        }
        var found = Matrix<double>.Build.Dense(size, size, (r, c) => normal[(Math.Min(r, c) * size) + Math.Max(r, c)]).Solve(Vector<double>.Build.Dense(right));
        amplitudes = [.. Enumerable.Range(0, frequencies.Length).Select(k => Math.Sqrt((found[2 * k] * found[2 * k]) + (found[(2 * k) + 1] * found[(2 * k) + 1])))];
        double squares = 0;
        for (var i = 0; i < samples.Length; i++)
        {
            var left = samples[i] - found[size - 1];
            for (var k = 0; k < frequencies.Length; k++)
            {
                var (sin, cos) = Math.SinCos(2 * Math.PI * frequencies[k] / sampleRate * i);
                left -= (found[2 * k] * cos) + (found[(2 * k) + 1] * sin);
            }
            squares += left * left;
        }
        return new(frequencies[0], amplitudes[0], Math.Atan2(-found[1], found[0]), found[size - 1], Math.Sqrt(squares / samples.Length));
    }
}
