namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Columns and cells of the sixth shapes that once were the last.</summary>
internal static class FormerlyLastColumns6
{
    /// <summary>The day on which the lists were last kept.</summary>
    public static readonly DateOnly Kept = new(2026, 5, 18);

    public static string Word(Pen pen, string key) => Vocabulary.FormerlyLast6(pen.Words.Tongue).Word(key);

    /// <summary>A remark that most devices do not have.</summary>
    public static string Note(Pen pen, Instrument i, int rarity) =>
        !pen.Dice.Once(rarity) ? "" : Word(pen, i.IsMicrophone ? pen.Dice.One(["NoteGrid", "NoteBox"]) : "NoteBox");

    public static string Near(Pen pen, int first, int last) => DayText.Of(Kept.AddDays(pen.Dice.From(first, last)), pen.Days, pen.Words);

    /// <summary>A column headed as short as people who fill it in themselves head it.</summary>
    public static Column Short(Pen pen, Column column, string key) => pen.IsUsual ? column : column with { Header = Word(pen, key) };
}
