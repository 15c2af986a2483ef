using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Columns and cells of the last shapes.</summary>
internal static class LastColumns
{
    /// <summary>The day on which the lists were last kept.</summary>
    public static readonly DateOnly Kept = new(2026, 5, 27);

    public static string Word(Pen pen, string key) => Vocabulary.Last(pen.Words.Tongue).Word(key);

    /// <summary>One of a few words of a key.</summary>
    public static string AnyWord(Pen pen, string key) => pen.Dice.One(Word(pen, key).Split(','));

    public static string Today(Pen pen) => DayText.Of(Kept, pen.Days, pen.Words);

    public static string Near(Pen pen, int first, int last) => DayText.Of(Kept.AddDays(pen.Dice.From(first, last)), pen.Days, pen.Words);

    /// <summary>A column with a head of the house, where it is not written with the usual ones.</summary>
    public static Column Headed(Pen pen, Column column, string key) => pen.IsUsual ? column : column with { Header = Word(pen, key) };

    /// <summary>A remark that most devices do not have.</summary>
    public static Column Remarks(Pen pen, int rarity) =>
        pen.Other(Said.Remark, _ => pen.Dice.Once(rarity) ? AnyWord(pen, "Notes") : "");

    /// <summary>A day that is none of a calibration's, so many days after that of the result.</summary>
    public static Column OtherDay(Pen pen, string header, int least, int most) => new(header, Pen.Result((i, r) =>
        pen.DayCell(i, r with { Day = r.Day.AddDays(pen.Dice.From(least, most)) }) with { Means = [] }));

    public static Column UnitColumn(Pen pen, Func<Calibrated, string> unit) =>
        new(pen.Head(Said.Unit), Pen.Result((_, r) => new(unit(r))));

    /// <summary>The month in which a calibration falls due: which day of it, the file does not say.</summary>
    public static Column DueMonth(Pen pen) => new(pen.Head(Said.Due), Pen.Result((i, r) => new(
        r.Day.AddYears(1).ToString(pen.Words.Tongue == Tongue.English ? "MMM yyyy" : "MM'/'yyyy", CultureInfo.InvariantCulture),
        new Meaning(Said.Due, i, r, Stated.Anything))));

    /// <summary>The year in which a legal verification ends: whether that is when a calibration falls due, only a person can say.</summary>
    public static Column VerifiedUntil(Pen pen) => new(Word(pen, "Verified"), Pen.Result((i, r) =>
        ListColumns.Count(r.Day.Year + 2) with { Means = [new(Said.Due, i, r, Stated.Anything)] }));

    /// <summary>A drawer or a bag: whether that is the place of a device, only a person can say.</summary>
    public static Cell Somewhere(Instrument i, string text) => new(text, new Meaning(Said.Place, i, null, Stated.Anything));

    /// <summary>Temperature, pressure and humidity in one cell.</summary>
    public static Column Air(Pen pen) => new(Word(pen, "Air"), Pen.Result((i, r) => new(
        $"{pen.Number(r.Celsius, 1)} °C / {pen.Number(r.KPa, 2)} kPa / {pen.Number(r.Percent, 0)} %",
        Pen.Of(Said.Temperature, i, r, r.Celsius, "°C"), Pen.Of(Said.Pressure, i, r, r.KPa, "kPa"),
        Pen.Of(Said.Humidity, i, r, r.Percent, "%"))));
}
