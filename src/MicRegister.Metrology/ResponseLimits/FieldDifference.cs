using MicRegister.Metrology.Responses;

namespace MicRegister.Metrology.ResponseLimits;

/// <summary>
/// How much the responses of half-inch laboratory standard microphones in a free field at 0°, in a diffuse field and to pressure differ in
/// general. It shows what a mistaken field costs; it never replaces the table of a microphone's own type.
/// </summary>
/// <remarks>
/// IEC 61183:1994, table B.1, for LS2aP and LS2F with their grid: 10 lg of the directivity factor, which is the free field less the diffuse
/// one, and the diffuse field less pressure; the free field less pressure is their sum (recomputed).
/// </remarks>
public static class FieldDifference
{
    /// <summary>The words of the fields.</summary>
    public const string FreeField = "free-field", Diffuse = "diffuse", Pressure = "pressure";

    private static readonly IReadOnlyList<IReadOnlyDictionary<string, string>> Rows = EmbeddedTable.Rows("iec61183-1994.csv");

    private static readonly Dictionary<ThirdOctave, (double FreeLessDiffuse, double DiffuseLessPressure)> ByBand = Rows.ToDictionary(
        r => ResponseTable.Band(r["nominal_hz"]),
        r => (EmbeddedTable.Db(r["free_field_minus_diffuse_db"]), EmbeddedTable.Db(r["diffuse_minus_pressure_db"])));

    /// <summary>Document, edition and clause.</summary>
    public static string Source { get; } = EmbeddedTable.One(Rows, "source");

    /// <summary>How sure it is that the figures are the document's.</summary>
    public static string Mark { get; } = EmbeddedTable.One(Rows, "mark");

    /// <summary>Nominal bands of the table, from the lowest to the highest.</summary>
    public static IReadOnlyList<ThirdOctave> Bands { get; } = [.. ByBand.Keys.OrderBy(b => b.Index)];

    /// <summary>The response in one field less that in another, in dB.</summary>
    /// <param name="wanted">Field that is wanted.</param>
    /// <param name="stored">Field that is known.</param>
    /// <param name="band">The band.</param>
    /// <returns>Null for bands and fields that the table does not have.</returns>
    public static double? Of(string wanted, string stored, ThirdOctave band) =>
        ByBand.TryGetValue(band, out var row) && OverPressure(wanted, row) is { } a && OverPressure(stored, row) is { } b ? a - b : null;

    /// <summary>More than any two fields differ by for a microphone, in dB; null where no bound is held.</summary>
    /// <param name="band">The band.</param>
    /// <param name="isAlong">Whether sound comes in along the diaphragm.</param>
    /// <returns>12 dB to the 20 kHz band; along the diaphragm to the 5 kHz band.</returns>
    /// <remarks>
    /// Own practice: the greatest difference of the table, 8.90 dB, and a third more. Before a body facing the sound pressure doubles
    /// (6 dB), and diffraction at its edge adds some dB; either way of the difference is allowed for. Along the diaphragm crests and troughs
    /// lie on it together and cancel; to 5 kHz a capsule of one inch is below 0.4 wavelengths across, far from the first zero at 1.22.
    /// </remarks>
    public static double? BoundDb(ThirdOctave band, bool isAlong) =>
        band.NominalHz <= (isAlong ? GreatestAlongHz : GreatestHz) ? 12 : null;

    private const double GreatestHz = 20_000, GreatestAlongHz = 5_000;

    private static double? OverPressure(string field, (double FreeLessDiffuse, double DiffuseLessPressure) row) => field switch
    {
        FreeField => row.FreeLessDiffuse + row.DiffuseLessPressure,
        Diffuse => row.DiffuseLessPressure,
        Pressure => 0,
        _ => null,
    };
}
