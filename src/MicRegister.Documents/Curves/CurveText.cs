using System.Globalization;
using System.Text;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Curves;

/// <summary>Writes curves as the program's own table, which it reads without a question.</summary>
public static class CurveText
{
    /// <summary>The table of one device's curves.</summary>
    /// <param name="curves">One, or one for each angle; at least one.</param>
    /// <param name="said">Where it is from, in lines that are kept as comments.</param>
    /// <returns>UTF-8 without a byte order mark.</returns>
    public static byte[] Write(IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> curves, IEnumerable<string> said)
    {
        ArgumentOutOfRangeException.ThrowIfZero(curves.Count);
        var text = new StringBuilder().Append("# ").Append(CurveLines.Own).Append('\n');
        foreach (var line in said) text.Append("# ").Append(line.ReplaceLineEndings(" ")).Append('\n');
        // Where one angle states uncertainties each has a column for them, so that none is taken for that of another.
        var isUncertain = curves.Any(c => c.Curve.Points.Any(p => p.ExpandedDb is not null));
        text.Append("frequency [Hz]");
        foreach (var (angle, _) in curves)
        {
            text.Append(angle is { } a ? FormattableString.Invariant($";{a}°") : ";level [dB]");
            if (isUncertain) text.Append(";U [dB] (k=2)");
        }
        text.Append('\n');
        foreach (var hz in curves.SelectMany(c => c.Curve.Points.Select(p => p.Hz)).Distinct().Order())
        {
            text.Append(Number(hz));
            foreach (var (_, curve) in curves)
            {
                CurvePoint? point = curve.Points.Where(p => p.Hz == hz).Select(p => (CurvePoint?)p).FirstOrDefault();
                text.Append(';').Append(Number(point?.LevelDb));
                if (isUncertain) text.Append(';').Append(Number(point?.ExpandedDb));
            }
            text.Append('\n');
        }
        return Encoding.UTF8.GetBytes(text.ToString());
    }

    private static string Number(double? value) => value?.ToString("R", CultureInfo.InvariantCulture) ?? "";
}
