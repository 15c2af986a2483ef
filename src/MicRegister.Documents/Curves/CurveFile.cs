using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Curves;

/// <summary>Reads response curves from text tables: comma, semicolon or tab; point or decimal comma; a first row of headers, which may say kHz.</summary>
/// <remarks>
/// Either frequency, level and, where it is stated, uncertainty; or, with headers that are angles such as <c>0°</c> or <c>30 deg</c>, a level for each
/// angle of incidence, and at the end a column <c>U</c> that holds for all of them.
/// </remarks>
public static class CurveFile
{
    private const int MostRows = 20_000;
    private const int MostAngles = 40;

    private static readonly string[] AngleUnits = ["°", "deg"];

    /// <summary>Reads a table of one curve.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <returns>The curve; of a table by angle that of the lowest angle.</returns>
    /// <exception cref="SheetException">It cannot be read; the message names row and value, and what is allowed.</exception>
    public static ResponseCurve Read(Stream content, string name) => ReadByAngle(content, name)[0].Curve;

    /// <summary>The curves of an attachment by angle; null where it is not here or cannot be read.</summary>
    public static IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)>? ReadByAngle(Func<string, Stream?> open, string sha)
    {
        using var content = open(sha);
        if (content is null) return null;
        try
        {
            return ReadByAngle(content, "curve");
        }
        catch (SheetException)
        {
            return null; // a picture or a print of a curve is kept too
        }
    }

    /// <summary>Reads a table of one curve, or of one an angle of incidence.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <returns>Curves in the order of their angles; one without an angle where the table names none.</returns>
    /// <exception cref="SheetException">It cannot be read; the message names row and value, and what is allowed.</exception>
    public static IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> ReadByAngle(Stream content, string name)
    {
        List<double?> angles = [null];
        var points = new List<List<CurvePoint>> { new() };
        var (scale, isFirst, uncertainty) = (1.0, true, 2);
        foreach (var row in CsvSheet.Read(content, name, SheetLimits.Usual with { Rows = MostRows }).Rows)
        {
            if (row.IsBlank) continue;
            if (isFirst && !MeasuredText.TryRead(row.At(0).Text ?? "", out _, out _))
            {
                isFirst = false;
                if (MeasuredText.UnitOfHeader(row.At(0).Text ?? "") == "kHz") scale = 1000;
                if (Angles(name, row) is not { Count: > 0 } stated) continue;
                (angles, uncertainty) = ([.. stated.Cast<double?>()], stated.Count + 1);
                points = [.. stated.Select(_ => new List<CurvePoint>())];
                continue;
            }
            isFirst = false;
            // A further column would be taken for nothing, and levels at an angle for an uncertainty.
            if (angles is [null] && !row.At(3).IsBlank) throw new SheetException($"{name}, row {row.Number}: more than three columns; allowed are frequency, level and uncertainty, or headers that are angles, such as 30°, with a level for each.");
            var hz = Number(name, row, 0, "frequency", "Hz") * scale;
            if (!(hz is >= 0.1 and <= 1e6)) throw Wrong(name, row, 0, "frequency", "a number from 0.1 to 1000000 Hz");
            double? expanded = row.At(uncertainty).IsBlank ? null : Number(name, row, uncertainty, "uncertainty", "dB");
            if (expanded is < 0 or > 50) throw Wrong(name, row, uncertainty, "uncertainty", "a number from 0 to 50 dB");
            for (var i = 0; i < points.Count; i++)
            {
                // A level that was not measured at one angle is left out there; a single curve has a level in each row.
                if (points.Count > 1 && row.At(i + 1).IsBlank) continue;
                var level = Number(name, row, i + 1, "level", "dB");
                if (!(Math.Abs(level) <= 200)) throw Wrong(name, row, i + 1, "level", "a number from -200 to 200 dB");
                points[i].Add(new(hz, level, expanded));
            }
        }
        return [.. angles.Zip(points).Select(c => (c.First, Made(c.Second, c.First, name))).OrderBy(c => c.First)];
    }

    // Columns after the first that are angles; a last one may be the uncertainty. Empty where the first of them is no angle.
    private static List<double>? Angles(string name, SheetRow row)
    {
        var found = new List<double>();
        for (var i = 1; !row.At(i).IsBlank; i++)
        {
            if (Angle(row.At(i).Text ?? "") is not { } angle)
            {
                if (found.Count > 0 && !row.At(i + 1).IsBlank) throw Wrong(name, row, i, "header", "an angle such as 30°, and U in the last column");
                break;
            }
            if (!(angle is >= 0 and <= 180)) throw Wrong(name, row, i, "angle of incidence", "a number from 0 to 180 °");
            if (found.Contains(angle)) throw Wrong(name, row, i, "angle of incidence", "each angle once");
            found.Add(angle);
        }
        if (found.Count > MostAngles) throw new SheetException($"{name} has {found.Count} angles; {MostAngles} are allowed.");
        return found;
    }

    private static double? Angle(string header)
    {
        var text = header.Trim();
        var unit = AngleUnits.FirstOrDefault(u => text.EndsWith(u, StringComparison.OrdinalIgnoreCase));
        return unit is not null && double.TryParse(text[..^unit.Length].Trim().Replace(',', '.'), NumberStyles.Float, CultureInfo.InvariantCulture, out var angle) ? angle : null;
    }

    private static ResponseCurve Made(List<CurvePoint> points, double? angle, string name)
    {
        var which = angle is { } a ? FormattableString.Invariant($" at {a}°") : "";
        if (points.Count == 0) throw new SheetException($"{name} holds no point{which}; rows of frequency, level and uncertainty are read.");
        points.Sort((a, b) => a.Hz.CompareTo(b.Hz));
        for (var i = 1; i < points.Count; i++)
        {
            if (points[i].Hz == points[i - 1].Hz) throw new SheetException(string.Create(CultureInfo.InvariantCulture, $"{name} states {points[i].Hz} Hz twice{which}."));
        }
        return new(points);
    }

    private static double Number(string name, SheetRow row, int column, string field, string unit)
    {
        if (!MeasuredText.TryRead(row.At(column).Text ?? "", out var number, out var stated)) throw Wrong(name, row, column, field, "a number");
        return MeasuredText.Convert(number, stated, unit) ?? throw Wrong(name, row, column, field, "a number in " + unit);
    }

    private static SheetException Wrong(string name, SheetRow row, int column, string field, string allowed) => new($"{name}, row {row.Number}: {field} '{row.At(column).Text}': allowed is {allowed}.");
}
