using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Columns and cells of the last shapes.</summary>
internal static class LastColumns
{
    /// <summary>The day on which the lists were last kept.</summary>
    public static readonly DateOnly Kept = new(2026, 5, 18);

    public static Calibrated? Before(Instrument i, Calibrated r) => i.Results.TakeWhile(o => o != r).LastOrDefault();

    public static Column Moved(Pen pen, string header) =>
        new(header, (i, r) => Before(i, r!) is { } b ? Decimal(pen, r!.Level - b.Level, 2) : Cell.Blank);

    public static string Word(Pen pen, string key) => Vocabulary.Last(pen.Words.Tongue).Word(key);

    /// <summary>A remark that most devices do not have.</summary>
    public static string Note(Pen pen, Instrument i, int rarity) =>
        !pen.Dice.Once(rarity) ? "" : Word(pen, i.IsMicrophone ? pen.Dice.One(["NoteGrid", "NoteBox"]) : "NoteBox");

    public static string Near(Pen pen, int first, int last) => DayText.Of(Kept.AddDays(pen.Dice.From(first, last)), pen.Days, pen.Words);

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

    /// <summary>A column headed as short as people who fill it in themselves head it.</summary>
    public static Column Short(Pen pen, Column column, string key) => pen.IsUsual ? column : column with { Header = Word(pen, key) };

    public static Column Size(Pen pen) =>
        new(pen.Head(Said.Size), (i, _) => new(i.SizeMm > 10 ? "1/2\"" : "1/4\"", Pen.Of(Said.Size, i, null, i.SizeMm!.Value, "mm")));

    /// <summary>Uncertainties with their unit in each cell.</summary>
    public static Column UncertaintyInDecibels(Pen pen, string header, bool tellsFactor) => new(header, Pen.Result((i, r) =>
    {
        var u = Pen.Of(Said.U, i, r, r.U, "dB");
        return new($"{pen.Number(r.U, 2)} dB", tellsFactor ? [u, Pen.Of(Said.K, i, r, 2, "")] : [u]);
    }));
}
