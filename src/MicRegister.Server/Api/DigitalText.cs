using MicRegister.Documents.DigitalCertificates;
using MicRegister.Metrology.Quantities;

namespace MicRegister.Server.Api;

/// <summary>Values of digital certificates as people read them.</summary>
internal static class DigitalText
{
    /// <summary>A value with its uncertainty, or with why there is none.</summary>
    public static string Of(DigitalValue v)
    {
        var level = v.LevelDb is not { } db ? ""
            : v.ExpandedDb is { } u ? $" ({QuantityText.Of(db, "dB", 3)} re 1 V/Pa, U = {QuantityText.Expanded(u, "dB")} dB)"
            : $" ({QuantityText.Of(db, "dB", 3)} re 1 V/Pa)";
        var uncertainty = v.Expanded is { } expanded
            ? FormattableString.Invariant($"U = {expanded:G6} {v.Unit}, k = {v.CoverageFactor:0.##}, {v.Remark}") : v.Remark;
        return FormattableString.Invariant($"{v.Value:G10} {v.Unit}{level}; {uncertainty}");
    }
}
