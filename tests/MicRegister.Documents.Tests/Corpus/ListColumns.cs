using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Columns and cells that lists of several houses have alike, in no words of their own.</summary>
internal static class ListColumns
{
    public static Calibrated? Before(Instrument i, Calibrated r) => i.Results.TakeWhile(o => o != r).LastOrDefault();

    public static Column Moved(Pen pen, string header) =>
        new(header, (i, r) => Before(i, r!) is { } b ? Decimal(pen, r!.Level - b.Level, 2) : Cell.Blank);

    public static Cell Day(Pen pen, DateOnly day) =>
        new(DayText.Of(day, pen.Days, pen.Words)) { Typed = DayText.Number(day, false), Shown = Shown.Day };

    public static Column Numbered(string header)
    {
        var number = 0;
        return new(header, (_, _) => Count(++number));
    }

    public static Cell Count(int number) => new(number.ToString(CultureInfo.InvariantCulture)) { Typed = number };

    public static Cell Decimal(Pen pen, double value, int decimals) =>
        new(pen.Number(Math.Round(value, decimals) + 0.0, decimals)) { Typed = Math.Round(value, decimals) };

    /// <summary>A column of which a register knows nothing.</summary>
    public static Column Told(string header, Func<Instrument, string> text) => new(header, (i, _) => new(text(i)));

    /// <summary>A column that says something where it would say nothing.</summary>
    public static Column Or(Column column, string nothing) => column with { Write = Or(column.Write, nothing) };

    public static Func<Instrument, Calibrated?, Cell> Or(Func<Instrument, Calibrated?, Cell> write, string nothing) =>
        (i, r) => write(i, r) is { Text.Length: > 0 } cell ? cell : new(nothing);

    public static Column Size(Pen pen) =>
        new(pen.Head(Said.Size), (i, _) => new(i.SizeMm > 10 ? "1/2\"" : "1/4\"", Pen.Of(Said.Size, i, null, i.SizeMm!.Value, "mm")));

    /// <summary>Uncertainties with their unit in each cell.</summary>
    public static Column UncertaintyInDecibels(Pen pen, string header, bool tellsFactor) => new(header, Pen.Result((i, r) =>
    {
        var u = Pen.Of(Said.U, i, r, r.U, "dB");
        return new($"{pen.Number(r.U, 2)} dB", tellsFactor ? [u, Pen.Of(Said.K, i, r, 2, "")] : [u]);
    }));
}
