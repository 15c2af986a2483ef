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
        var (a, b, sum, squares, peak) = (Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero, Vector256<double>.Zero);
        ReadOnlySpan<double> cos = _cos, sin = _sin;
        var i = 0;
        for (; i + Vector256<double>.Count <= samples.Length; i += Vector256<double>.Count)
        {
            var x = Vector256.Create(samples[i..]);
            a += x * Vector256.Create(cos[i..]);
            b += x * Vector256.Create(sin[i..]);
            sum += x;
            squares += x * x;
            peak = Vector256.Max(peak, Vector256.Abs(x));
        }
        double c = Vector256.Sum(a), s = Vector256.Sum(b), d = Vector256.Sum(sum), e = Vector256.Sum(squares), p = Math.Max(Math.Max(peak[0], peak[1]), Math.Max(peak[2], peak[3]));
        for (; i < samples.Length; i++)
        {
            c += samples[i] * cos[i];
            s += samples[i] * sin[i];
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
