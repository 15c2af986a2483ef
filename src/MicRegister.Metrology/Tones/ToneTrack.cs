using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace MicRegister.Metrology.Tones;

/// <summary>
/// The course of a tone in one channel: for each short piece a sine of a fixed frequency, its mean and its energy. Takes samples piece by
/// piece, so that a recording of any length needs little memory.
/// </summary>
public sealed class ToneTrack
{
    /// <summary>More pieces than this are not looked at: about twenty minutes.</summary>
    public const int MostPieces = 60_000;

    private const double PieceSeconds = 0.02;
    private const double LeastPeriods = 3;

    private readonly double[] _cos;
    private readonly double[] _sin;
    private readonly double[] _inverse;
    private readonly List<Piece> _pieces = [];

    /// <param name="frequencyHz">Frequency of the sine, within a hertz of the tone's.</param>
    /// <param name="sampleRate">Samples a second.</param>
    public ToneTrack(double frequencyHz, double sampleRate)
    {
        (FrequencyHz, SampleRate) = (frequencyHz, sampleRate);
        PieceLength = LengthOf(frequencyHz, sampleRate);
        (_cos, _sin) = (new double[PieceLength], new double[PieceLength]);
        double cc = 0, cs = 0, c = 0, ss = 0, s = 0;
        for (var i = 0; i < PieceLength; i++)
        {
            (_sin[i], _cos[i]) = Math.SinCos(2 * Math.PI * frequencyHz / sampleRate * i);
            cc += _cos[i] * _cos[i];
            cs += _cos[i] * _sin[i];
            ss += _sin[i] * _sin[i];
            c += _cos[i];
            s += _sin[i];
        }
        _inverse = Inverse(cc, cs, c, ss, s, PieceLength);
    }

    public double FrequencyHz { get; }

    public double SampleRate { get; }

    /// <summary>Samples of a piece: a fiftieth of a second, or three periods where that is longer.</summary>
    public int PieceLength { get; }

    public static int LengthOf(double frequencyHz, double sampleRate) => (int)Math.Ceiling(Math.Max(PieceSeconds * sampleRate, LeastPeriods * sampleRate / frequencyHz));

    public int Count => _pieces.Count;

    /// <summary>One piece.</summary>
    /// <param name="Cos">Amplitude of the cosine.</param>
    /// <param name="Sin">Amplitude of the sine.</param>
    /// <param name="Mean">Offset beside it.</param>
    /// <param name="Rest">Mean square of what sine and mean leave.</param>
    /// <param name="Peak">Greatest magnitude.</param>
    internal readonly record struct Piece(float Cos, float Sin, float Mean, float Rest, float Peak)
    {
        public double Square => ((double)Cos * Cos) + ((double)Sin * Sin);
    }

    internal IReadOnlyList<Piece> Pieces => _pieces;

    /// <summary>Takes the next piece.</summary>
    /// <param name="samples">As many samples as <see cref="PieceLength"/>, in parts of full scale.</param>
    public void Add(ReadOnlySpan<double> samples)
    {
        if (_pieces.Count >= MostPieces) return;
        // Two of each, so that an addition need not wait for the one before it.
        Vector256<double> a0 = default, a1 = default, b0 = default, b1 = default, sum0 = default, sum1 = default, squares0 = default, squares1 = default, peak0 = default, peak1 = default;
        ref var x0 = ref MemoryMarshal.GetReference(samples);
        ref var cos0 = ref MemoryMarshal.GetArrayDataReference(_cos);
        ref var sin0 = ref MemoryMarshal.GetArrayDataReference(_sin);
        var i = 0;
        for (; i + 8 <= samples.Length && i + 8 <= _cos.Length; i += 8)
        {
            var (x, y) = (Vector256.LoadUnsafe(ref x0, (nuint)i), Vector256.LoadUnsafe(ref x0, (nuint)i + 4));
            a0 += x * Vector256.LoadUnsafe(ref cos0, (nuint)i);
            a1 += y * Vector256.LoadUnsafe(ref cos0, (nuint)i + 4);
            b0 += x * Vector256.LoadUnsafe(ref sin0, (nuint)i);
            b1 += y * Vector256.LoadUnsafe(ref sin0, (nuint)i + 4);
            sum0 += x;
            sum1 += y;
            squares0 += x * x;
            squares1 += y * y;
            peak0 = Vector256.Max(peak0, Vector256.Abs(x));
            peak1 = Vector256.Max(peak1, Vector256.Abs(y));
        }
        var peak = Vector256.Max(peak0, peak1);
        double c = Vector256.Sum(a0 + a1), s = Vector256.Sum(b0 + b1), d = Vector256.Sum(sum0 + sum1), e = Vector256.Sum(squares0 + squares1), p = Math.Max(Math.Max(peak[0], peak[1]), Math.Max(peak[2], peak[3]));
        for (; i < samples.Length; i++)
        {
            c += samples[i] * _cos[i];
            s += samples[i] * _sin[i];
            d += samples[i];
            e += samples[i] * samples[i];
            p = Math.Max(p, Math.Abs(samples[i]));
        }
        var m = _inverse;
        double fitC = (m[0] * c) + (m[1] * s) + (m[2] * d), fitS = (m[1] * c) + (m[3] * s) + (m[4] * d), fitD = (m[2] * c) + (m[4] * s) + (m[5] * d);
        var rest = (e - (fitC * c) - (fitS * s) - (fitD * d)) / samples.Length;
        _pieces.Add(new((float)fitC, (float)fitS, (float)fitD, double.IsFinite(rest) ? (float)Math.Max(0, rest) : float.NaN, (float)p));
    }

    // Inverse of the symmetric normal matrix of cosine, sine and constant: entries 00 01 02 11 12 22.
    private static double[] Inverse(double cc, double cs, double c, double ss, double s, double n)
    {
        double m00 = (ss * n) - (s * s), m01 = (s * c) - (cs * n), m02 = (cs * s) - (ss * c), m11 = (cc * n) - (c * c), m12 = (cs * c) - (cc * s), m22 = (cc * ss) - (cs * cs);
        var determinant = (cc * m00) + (cs * m01) + (c * m02);
        return [m00 / determinant, m01 / determinant, m02 / determinant, m11 / determinant, m12 / determinant, m22 / determinant];
    }
}
