using System.Text.RegularExpressions;

namespace MicRegister.Documents.Import;

/// <summary>A result that stands in one cell with its uncertainty: <c>50.36 mV/Pa ± 0.05 dB (k=2)</c>.</summary>
internal static partial class ResultText
{
    /// <summary>The parts of a cell.</summary>
    /// <returns>Null where it holds a result alone.</returns>
    public static (string Result, string Uncertainty, double? Factor)? Split(string text)
    {
        if (!text.Contains('±', StringComparison.Ordinal) && !text.Contains("+/-", StringComparison.Ordinal)
            && !text.Contains("+-", StringComparison.Ordinal)) return null;
        if (Parts().Match(text) is not { Success: true } m) return null;
        double? factor = m.Groups[3].Success && MeasuredText.TryRead(m.Groups[3].Value, out var k, out _) ? k : null;
        var (result, uncertainty) = (m.Groups[1].Value.Trim(), m.Groups[2].Value.Trim());
        // "50.1 ± 0.3 mV/Pa": the unit behind both is of both.
        if (MeasuredText.TryRead(result, out _, out var own) && own is null && MeasuredText.TryRead(uncertainty, out _, out var of)
            && of is "mV/Pa" or "V/Pa" or "dB" or "dB re 1 V/Pa")
            result += " " + of;
        return (result, uncertainty, factor);
    }

    /// <summary>A result that stands twice in one cell, as in <c>49.7 mV/Pa (-26.07 dB re 1 V/Pa)</c>; null where it does not.</summary>
    public static (string First, string Second)? Twice(string text) =>
        InBrackets().Match(text) is { Success: true } m && MeasuredText.TryRead(m.Groups[1].Value, out _, out var a) && a is not null
            && MeasuredText.TryRead(m.Groups[2].Value, out _, out var b) && b is not null && a != b
                ? (m.Groups[1].Value, m.Groups[2].Value) : null;

    [GeneratedRegex(@"^([^()]+?)\s*\(([^()]+(?:\([^()]*\))?)\)$")]
    private static partial Regex InBrackets();

    [GeneratedRegex(@"^([^±]+?)\s*(?:±|\+/-|\+-)\s*([^±(;]+?)\s*(?:[(;,]\s*k\s*=\s*([0-9]+(?:[.,][0-9]+)?)\s*\)?)?$", RegexOptions.IgnoreCase)]
    private static partial Regex Parts();
}
