using System.Runtime.Intrinsics;
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
            if (!double.IsFinite(frequency) || Math.Abs(change) < 1e-11 * guessHz) break;
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

    // Normal equations whose matrix is known in closed form: sums of products of sines are sums of cosines of sums and differences.
    private static SineFit Fit(ReadOnlySpan<double> samples, double[] frequencies, double sampleRate, out double[] amplitudes)
    {
        var (count, n) = (frequencies.Length, samples.Length);
        var size = (2 * count) + 1;
        if (n < size) throw new ArgumentException($"A fit of {size} parameters needs as many samples, not {n}.");
        var w = Array.ConvertAll(frequencies, f => 2 * Math.PI * f / sampleRate);
        var normal = Matrix<double>.Build.Dense(size, size);
        for (var i = 0; i < count; i++)
        {
            for (var k = 0; k < count; k++)
            {
                var (sumCos, sumSin) = Sums(w[i] + w[k], n);
                var (differenceCos, differenceSin) = Sums(w[i] - w[k], n);
                normal[2 * i, 2 * k] = 0.5 * (differenceCos + sumCos);
                normal[(2 * i) + 1, (2 * k) + 1] = 0.5 * (differenceCos - sumCos);
                normal[2 * i, (2 * k) + 1] = normal[(2 * k) + 1, 2 * i] = 0.5 * (sumSin - differenceSin);
            }
            var (c, s) = Sums(w[i], n);
            normal[2 * i, size - 1] = normal[size - 1, 2 * i] = c;
            normal[(2 * i) + 1, size - 1] = normal[size - 1, (2 * i) + 1] = s;
        }
        normal[size - 1, size - 1] = n;

        var right = new double[size];
        double squares = 0;
        for (var k = 0; k < count; k++) Project(samples, w[k], out right[2 * k], out right[(2 * k) + 1]);
        foreach (var x in samples)
        {
            right[size - 1] += x;
            squares += x * x;
        }
        var found = normal.Solve(Vector<double>.Build.Dense(right));
        amplitudes = new double[count];
        for (var k = 0; k < count; k++) amplitudes[k] = Math.Sqrt((found[2 * k] * found[2 * k]) + (found[(2 * k) + 1] * found[(2 * k) + 1]));
        for (var k = 0; k < size; k++) squares -= found[k] * right[k];
        return new(frequencies[0], amplitudes[0], Math.Atan2(-found[1], found[0]), found[size - 1], Math.Sqrt(Math.Max(0, squares) / n));
    }

    // Sums of x cos(w i) and x sin(w i): four turning pointers, set anew now and then so that rounding does not add up.
    private static void Project(ReadOnlySpan<double> samples, double w, out double cos, out double sin)
    {
        const int Run = 256;
        (cos, sin) = (0, 0);
        var (stepSin, stepCos) = Math.SinCos(4 * w);
        Span<double> c = stackalloc double[4], s = stackalloc double[4];
        for (var from = 0; from < samples.Length; from += Run)
        {
            var part = samples.Slice(from, Math.Min(Run, samples.Length - from));
            for (var k = 0; k < 4; k++) (s[k], c[k]) = Math.SinCos(w * (from + k));
            var (vc, vs, sumC, sumS) = (Vector256.Create<double>(c), Vector256.Create<double>(s), Vector256<double>.Zero, Vector256<double>.Zero);
            var (turnC, turnS) = (Vector256.Create(stepCos), Vector256.Create(stepSin));
            var i = 0;
            for (; i + 4 <= part.Length; i += 4)
            {
                var x = Vector256.Create(part[i..]);
                sumC += x * vc;
                sumS += x * vs;
                (vc, vs) = ((vc * turnC) - (vs * turnS), (vs * turnC) + (vc * turnS));
            }
            cos += Vector256.Sum(sumC);
            sin += Vector256.Sum(sumS);
            for (; i < part.Length; i++)
            {
                var (ps, pc) = Math.SinCos(w * (from + i));
                cos += part[i] * pc;
                sin += part[i] * ps;
            }
        }
    }

    // Sums of cos(w i) and sin(w i) for i = 0 .. n - 1.
    private static (double Cos, double Sin) Sums(double w, int n)
    {
        var half = Math.Sin(w / 2);
        if (Math.Abs(half) < 1e-12) return (n, 0);
        var (sin, cos) = Math.SinCos(w * (n - 1) / 2);
        var share = Math.Sin(w * n / 2) / half;
        return (share * cos, share * sin);
    }
}
