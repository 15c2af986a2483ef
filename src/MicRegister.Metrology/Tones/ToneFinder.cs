using System.Numerics;
using MathNet.Numerics.IntegralTransforms;

namespace MicRegister.Metrology.Tones;

/// <summary>Finds the strongest tone in a stretch of samples.</summary>
public static class ToneFinder
{
    private const double LowestHz = 20;
    private const double HighestShare = 0.45;

    /// <summary>Samples that a stretch should have: a power of two, about a twelfth of a second.</summary>
    public static int Length(double sampleRate) => 1 << Math.Clamp((int)Math.Round(Math.Log2(0.08 * sampleRate)), 10, 20);

    /// <summary>The frequency of the strongest tone, to a few tenths of a hertz where it stands clear.</summary>
    /// <param name="samples">A power of two of samples.</param>
    /// <param name="sampleRate">Samples a second.</param>
    /// <returns>0 where there is nothing but nought.</returns>
    /// <remarks>Hann window, highest line from 20 Hz to 0.45 of the sampling rate, parabola through the logarithms of three lines.</remarks>
    public static double Find(ReadOnlySpan<double> samples, double sampleRate)
    {
        var n = samples.Length;
        var lines = new Complex[n];
        double mean = 0;
        foreach (var x in samples) mean += x;
        mean /= n;
        for (var i = 0; i < n; i++) lines[i] = (samples[i] - mean) * (0.5 - (0.5 * Math.Cos(2 * Math.PI * (i + 0.5) / n)));
        Fourier.Forward(lines, FourierOptions.NoScaling);
        var (best, greatest) = (0, 0.0);
        for (var k = Math.Max(2, (int)Math.Ceiling(LowestHz * n / sampleRate)); k < HighestShare * n; k++)
        {
            var power = (lines[k].Real * lines[k].Real) + (lines[k].Imaginary * lines[k].Imaginary);
            if (power > greatest) (best, greatest) = (k, power);
        }
        if (best == 0) return 0;
        double a = Math.Log(lines[best - 1].Magnitude + double.Epsilon), b = Math.Log(lines[best].Magnitude), c = Math.Log(lines[best + 1].Magnitude + double.Epsilon);
        var bend = a - (2 * b) + c;
        var shift = bend < 0 ? Math.Clamp(0.5 * (a - c) / bend, -0.5, 0.5) : 0;
        return (best + shift) * sampleRate / n;
    }
}
