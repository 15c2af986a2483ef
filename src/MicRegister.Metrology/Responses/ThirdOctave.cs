namespace MicRegister.Metrology.Responses;

/// <summary>A third-octave band.</summary>
/// <param name="Index">0 for 1 kHz, one more for each band above.</param>
/// <remarks>
/// Base ten: the middle lies at 1000 Hz · 10^(index / 10), the edges a twentieth of a decade beside it (IEC 61260-1:2014, seen in a library
/// that transcribes it; numbers of its clauses, 5.2 to 5.4, from memory).
/// </remarks>
public readonly record struct ThirdOctave(int Index)
{
    private static readonly double[] Nominal = [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8];

    /// <summary>Exact middle in Hz.</summary>
    public double MiddleHz => 1000 * Math.Pow(10, Index / 10.0);

    /// <summary>Lower edge in Hz, a twentieth of a decade under the middle.</summary>
    public double LowHz => 1000 * Math.Pow(10, (Index - 0.5) / 10);

    /// <summary>Upper edge in Hz, where the next band begins.</summary>
    public double HighHz => 1000 * Math.Pow(10, (Index + 0.5) / 10);

    /// <summary>The round figure in Hz that people call it by, such as 31.5 or 16000.</summary>
    public double NominalHz => Nominal[((Index % 10) + 10) % 10] * Math.Pow(10, 3 + (int)Math.Floor(Index / 10.0));

    /// <summary>The band that a frequency lies in; on an edge, the band farther from 1 kHz.</summary>
    /// <param name="hz">Above 0, finite, in Hz.</param>
    public static ThirdOctave Of(double hz)
    {
        if (!(hz > 0) || !double.IsFinite(hz)) throw new ArgumentOutOfRangeException(nameof(hz), hz, "A frequency lies above 0.");
        return new((int)Math.Round(10 * Math.Log10(hz / 1000), MidpointRounding.AwayFromZero));
    }

    /// <summary>Bands whose nominal middle lies within a span, both ends inclusive.</summary>
    /// <param name="lowHz">Above 0.</param>
    /// <param name="highHz">Not under <paramref name="lowHz"/>.</param>
    public static IReadOnlyList<ThirdOctave> Between(double lowHz, double highHz)
    {
        if (!(lowHz > 0) || !(highHz >= lowHz) || !double.IsFinite(highHz)) throw new ArgumentOutOfRangeException(nameof(lowHz), lowHz, "A span of frequencies lies above 0 and ends not under its begin.");
        var (from, to) = ((int)Math.Floor(10 * Math.Log10(lowHz / 1000)) - 1, (int)Math.Ceiling(10 * Math.Log10(highHz / 1000)) + 1);
        const double Rounding = 1e-9;
        return [.. Enumerable.Range(from, to - from + 1).Select(i => new ThirdOctave(i)).Where(b => b.NominalHz >= lowHz * (1 - Rounding) && b.NominalHz <= highHz * (1 + Rounding))];
    }
}
