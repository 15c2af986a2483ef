using System.Globalization;
using MicRegister.Documents.DigitalCertificates;

namespace MicRegister.Server.Api;

/// <summary>Values of digital certificates as people read them.</summary>
internal static class DigitalText
{
    /// <summary>A value with its uncertainty, or with why there is none.</summary>
    public static string Of(DigitalValue v)
    {
        var level = v.LevelDb is { } db
            ? string.Create(CultureInfo.InvariantCulture, $" ({db:0.000} dB re 1 V/Pa{(v.ExpandedDb is { } u ? $", U = {u:0.000} dB" : "")})") : "";
        var uncertainty = v.Expanded is { } expanded
            ? string.Create(CultureInfo.InvariantCulture, $"U = {expanded:G6} {v.Unit}, k = {v.CoverageFactor:0.##}, {v.Remark}") : v.Remark;
        return string.Create(CultureInfo.InvariantCulture, $"{v.Value:G10} {v.Unit}{level}; {uncertainty}");
    }
}
