namespace MicRegister.Documents.Tests.Corpus;

/// <summary>One list, its days written in every way.</summary>
internal static class DayShapes
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        Shape.Text("days-month-first", (pen, fleet, grid) => Draw(pen, fleet, grid, DayStyle.MonthFirst)),
        Shape.Text("days-short-month", (pen, fleet, grid) => Draw(pen, fleet, grid, DayStyle.ShortMonth)),
        Shape.Text("days-long-month", (pen, fleet, grid) => Draw(pen, fleet, grid, DayStyle.LongMonth)),
        Shape.Text("days-short-dots", (pen, fleet, grid) => Draw(pen, fleet, grid, DayStyle.ShortDots)),
        Shape.Text("days-mixed", (pen, fleet, grid) =>
        {
            Column[] columns = Columns(pen);
            grid.Lines.Add(columns.Header());
            foreach (var (i, r) in fleet.EachResult())
            {
                pen.Days = pen.Dice.One([DayStyle.Iso, DayStyle.LongMonth, DayStyle.Dots, DayStyle.ShortMonth]);
                grid.Lines.Add(columns.Row(i, r));
            }
        }),
        Shape.Book("days-typed", (pen, fleet) => [Sheet(pen, fleet, DayStyle.Typed)]),
        Shape.Book("days-bare", (pen, fleet) => [Sheet(pen, fleet, DayStyle.Bare)]),
        Shape.Book("days-of-1904", (pen, fleet) =>
        {
            pen.Uses1904 = true;
            return [Sheet(pen, fleet, DayStyle.Typed)];
        }),
    ];

    private static Grid Sheet(Pen pen, IReadOnlyList<Instrument> fleet, DayStyle days)
    {
        var grid = new Grid(pen.Words.Word("History"));
        Draw(pen, fleet, grid, days);
        return grid;
    }

    private static void Draw(Pen pen, IReadOnlyList<Instrument> fleet, Grid grid, DayStyle days)
    {
        pen.Days = days;
        grid.Table(Columns(pen), fleet.EachResult());
    }

    private static Column[] Columns(Pen pen) => [pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), pen.ValueWithUnit()];
}
