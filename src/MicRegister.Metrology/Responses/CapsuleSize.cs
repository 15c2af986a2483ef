namespace MicRegister.Metrology.Responses;

/// <summary>How a capsule of a size bears a band, by wavelength over diameter: generic, never in the place of a type's own table.</summary>
/// <param name="DiameterMm">Nominal diameter in mm.</param>
/// <param name="WavesAcross">Wavelength at the band's upper end over the diameter.</param>
/// <param name="RiseDb">
/// Free field at 0° less pressure at the band's upper end, in dB: how wrong a level is where the type is taken for the other one; null
/// where the table does not reach.
/// </param>
/// <remarks>
/// Directivity and diffuse field less pressure of half-inch laboratory standard microphones, IEC 61183:1994, table B.1 (as transcribed
/// elsewhere, not seen in the original); their sum is taken for free field less pressure. Other sizes by the same wavelength over
/// diameter, as bodies of one shape behave.
/// </remarks>
public sealed record CapsuleSize(double DiameterMm, double WavesAcross, double? RiseDb)
{
    /// <summary>Where the figures are from, in words.</summary>
    public const string Source =
        "generic half-inch figures, IEC 61183:1994 table B.1 as transcribed elsewhere; free field less pressure is the sum of its columns; "
            + "other sizes by wavelength over diameter";

    private const double HalfInchMm = 12.7;

    // Hz, 10 lg γ, diffuse less pressure.
    private static readonly (double Hz, double DirectivityDb, double DiffuseDb)[] Table =
    [
        (800, 0, 0), (1000, .05, 0), (1250, .1, 0), (1600, .2, .05), (2000, .2, .1), (2500, .35, .1), (3150, .65, .15), (4000, .85, .25),
        (5000, 1.25, .4), (6300, 1.8, .65), (8000, 2.45, 1.2), (10000, 3.3, 1.9), (12500, 4.3, 2.7), (16000, 5.3, 3.05),
        (20000, 6.7, 2.2),
    ];

    /// <summary>Nominal diameters in mm that are usual, the largest first: one inch, a half, a quarter, an eighth.</summary>
    public static IReadOnlyList<double> UsualMm { get; } = [25.4, HalfInchMm, 6.35, 3.175];

    /// <summary>A capsule of a size at the upper end of a band.</summary>
    /// <param name="diameterMm">Above 0, finite.</param>
    /// <param name="topHz">Upper end of the band, above 0, finite.</param>
    /// <param name="speedOfSound">In m/s, above 0, finite.</param>
    /// <exception cref="ArgumentOutOfRangeException">One of them is not so.</exception>
    public static CapsuleSize Of(double diameterMm, double topHz, double speedOfSound)
    {
        (double, string)[] given = [(diameterMm, nameof(diameterMm)), (topHz, nameof(topHz)), (speedOfSound, nameof(speedOfSound))];
        foreach (var (value, name) in given)
        {
            if (!(value > 0) || !double.IsFinite(value)) throw new ArgumentOutOfRangeException(name, value, "It is above 0 and finite.");
        }
        return new(diameterMm, speedOfSound / topHz * 1000 / diameterMm, RiseDbAt(topHz * diameterMm / HalfInchMm));
    }

    /// <summary>Free field at 0° less pressure of the half-inch table, in dB.</summary>
    /// <param name="hz">Not negative. Between its frequencies on a straight line over their logarithm, 0 below 800 Hz.</param>
    /// <returns>Null above 20 kHz.</returns>
    internal static double? RiseDbAt(double hz)
    {
        if (hz <= Table[0].Hz) return 0;
        for (var i = 1; i < Table.Length; i++)
        {
            var (low, high) = (Table[i - 1], Table[i]);
            if (hz > high.Hz) continue;
            var share = Math.Log(hz / low.Hz) / Math.Log(high.Hz / low.Hz);
            var from = low.DirectivityDb + low.DiffuseDb;
            return from + (share * (high.DirectivityDb + high.DiffuseDb - from));
        }
        return null;
    }
}
