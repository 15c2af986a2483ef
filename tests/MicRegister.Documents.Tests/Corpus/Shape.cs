namespace MicRegister.Documents.Tests.Corpus;

/// <summary>A way to lay a fleet out.</summary>
internal sealed record Shape(string Name, Func<Pen, IReadOnlyList<Instrument>, Draft> Draw)
{
    /// <summary>The words that its lists are written with where they are not the usual ones.</summary>
    public Func<Tongue, Vocabulary> Words { get; init; } = Vocabulary.Of;

    /// <summary>A text file of one table.</summary>
    public static Shape Text(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw, bool needsPerson = false) =>
        new(name, (pen, fleet) =>
    {
        var grid = new Grid("");
        draw(pen, fleet, grid);
        return new(name, pen.Words.Tongue, [grid]) { NeedsPerson = needsPerson };
    });

    /// <summary>A workbook.</summary>
    public static Shape Book(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) => new(name, (pen, fleet) =>
    {
        var grids = draw(pen, fleet);
        return new(name, pen.Words.Tongue, grids) { IsWorkbook = true, Uses1904 = pen.Uses1904 };
    });
}
