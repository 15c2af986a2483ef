using MicRegister.Documents.Sheets;
using MicRegister.Metrology.Responses;

namespace MicRegister.Documents.Curves;

/// <summary>
/// Reads response curves from text tables as laboratories and instruments write them. Headers decide what a column is; what they leave open
/// is asked, never guessed.
/// </summary>
/// <remarks>
/// Separators are tab, semicolon, bar, comma or blanks; comments begin with #, ;, //, %, * or a quote; a row of units may stand below the
/// header. Columns are a frequency and levels: one, one for each angle of incidence such as <c>30°</c>, or one for each device, with
/// uncertainties.
/// </remarks>
public static class CurveFile
{
    /// <summary>Reads a table, or says what has to be asked.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <param name="answers">What a person said of it.</param>
    /// <exception cref="SheetException">It cannot be read; the message names row, column and value, and what is allowed.</exception>
    public static CurveReading Read(Stream content, string name, CurveAnswers answers)
    {
        var lines = CurveLines.Read(content, name);
        var columns = new CurveColumns(lines, answers, name);
        if (columns.Questions.Count > 0) return new([], columns.Questions, columns.Shown, [], false);
        var figures = new CurveFigures(lines, columns, answers, name);
        if (figures.Question is { } marks) return new([], [marks], columns.Shown, [], false);
        var made = new CurvePoints(lines, columns, figures, answers, name);
        if (made.Questions.Count > 0) return new([], made.Questions, columns.Shown, [], false);
        var isPlain = answers.Columns.Count == 0 && answers.Marks is null
            && made.Curves.All(c => c.Serial is null && c.SensitivityDb is null);
        return new(made.Curves, [], columns.Shown, made.Notes, isPlain) { Serials = columns.Sayings.Serials };
    }

    /// <summary>Reads a table of one curve.</summary>
    /// <returns>The curve; of a table by angle that of the lowest angle.</returns>
    /// <exception cref="SheetException">It cannot be read, or something must be asked first.</exception>
    public static ResponseCurve Read(Stream content, string name) => ReadByAngle(content, name)[0].Curve;

    /// <summary>The curves of an attachment by angle; null where it is not here, cannot be read, or is none without an answer.</summary>
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

    /// <summary>Reads a stored table of one curve, or of one an angle of incidence.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Name of the file, for messages.</param>
    /// <returns>Curves in the order of their angles; one without an angle where the table names none.</returns>
    /// <exception cref="SheetException">It cannot be read, or something must be asked first.</exception>
    /// <remarks>
    /// Earlier releases took tables without any header for frequency in Hz, level and uncertainty, and showed them before they were stored:
    /// such a table is read so still. A third column that is none makes the uncertainty too great, never too small.
    /// </remarks>
    public static IReadOnlyList<(double? AngleDeg, ResponseCurve Curve)> ReadByAngle(Stream content, string name)
    {
        var reading = Read(content, name, CurveAnswers.None);
        if (reading.IsAsking && reading.Columns.Count is 2 or 3 && reading.Columns.All(c => c.Header.Length == 0))
        {
            string[] usual = ["1=hz", "2=level", .. reading.Columns.Count == 3 ? ["3=u"] : Array.Empty<string>()];
            reading = Read(content, name, new(CurveAnswers.OfColumns(usual)));
        }
        if (reading.IsAsking) throw new SheetException($"{name}: {reading.Questions[0].Text}");
        if (reading.Curves.Select(c => c.Serial).Distinct().Count() > 1) throw new SheetException(
            $"{name} holds curves of several devices.");
        return [.. reading.Curves.Select(c => (c.AngleDeg, c.Curve))];
    }
}
