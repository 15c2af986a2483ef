namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Inventories of one row a device.</summary>
internal static class InventoryShapes
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        Shape.Text("plain-inventory", (pen, fleet, grid) => grid.Table(
            [pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Code(), pen.Status(), pen.Place(), pen.Day(), pen.ValueWithUnit(),
                pen.Laboratory()], fleet)),

        Shape.Text("unit-as-header", (pen, fleet, grid) =>
        {
            grid.Table([pen.Model(), pen.Serial(), pen.Day(), new("mV/Pa", Pen.Result(pen.Bare))], Mics(fleet));
            grid.Lines.ImplyKind();
        }),

        Shape.Text("level-as-header", (pen, fleet, grid) =>
        {
            grid.Table([pen.Maker(), pen.Model(), pen.Serial(), pen.Day(), new("dB re 1 V/Pa", Pen.Result(pen.AsLevel)),
                pen.Uncertainty()], Mics(fleet));
            grid.Lines.ImplyKind();
        }),

        Shape.Text("unit-in-own-column", (pen, fleet, grid) => grid.Table(
            [pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), new(pen.Head(Said.Value), Pen.Result(pen.Bare)),
                new(pen.Head(Said.Unit), Pen.Result((_, r) => new(r.Unit)))],
            fleet.Where(i => i.Last is not null))),

        Shape.Text("row-of-units", (pen, fleet, grid) =>
        {
            Column[] columns = [pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), new(pen.Head(Said.Value), Pen.Result(pen.Bare)),
                new(pen.Head(Said.U), pen.Uncertainty().Write)];
            grid.Lines.Add(columns.Header());
            grid.Add("", "", "", "", "mV/Pa", "dB");
            grid.Rows(columns, Mics(fleet).Select(i => (i, i.Last)));
        }),

        Shape.Text("kind-in-title", (pen, fleet, grid) =>
        {
            grid.Add($"{pen.Words.Plural(Sort.Microphone)[0]} – {pen.Words.Word("Inventory")}");
            grid.Blank();
            grid.Table([pen.Maker(), pen.Model(), pen.Serial(), pen.Code(), pen.Place()], Mics(fleet));
            grid.Lines.ImplyKind();
        }),

        Shape.Text("kind-in-header-of-serial", (pen, fleet, grid) =>
        {
            grid.Table([new($"{pen.Words.Singular(Sort.Microphone)[0]} {pen.Head(Said.Serial)}", (i, _) => Pen.Number(i)), pen.Model(),
                pen.Status(), pen.Place()], Mics(fleet));
            grid.Lines.ImplyKind();
        }),

        Shape.Text("kind-in-any-word", (pen, fleet, grid) =>
            grid.Table([pen.KindInAnyWord(), pen.Maker(), pen.Model(), pen.Serial(), pen.Code()], fleet)),

        Shape.Text("status-in-any-word", (pen, fleet, grid) =>
            grid.Table([pen.Kind(), pen.Model(), pen.Serial(), pen.StatusInAnyWord(), pen.Place()], fleet)),

        Shape.Text("sizes", (pen, fleet, grid) => grid.Table(
            [pen.Kind(), pen.Model(), pen.Serial(), new(pen.Head(Said.Size), (i, _) => Size(pen, i)), pen.Place()], fleet
                .Where(i => i.SizeMm is not null))),

        Shape.Text("other-columns", (pen, fleet, grid) => grid.Table(
            [
                pen.Code(), pen.Kind(), pen.Model(), pen.Serial(),
                pen.Other(Said.Bought, i => DayText.Of(new(2009 + i.Serial.Length, 5, 17), pen.Days, pen.Words)),
                pen.Other(Said.Price, _ => pen.Number(pen.Dice.From(400, 2900), 2)),
                pen.Other(Said.Key, _ => $"K{pen.Dice.From(1, 40)}"), pen.Other(Said.Initials, _ => pen.Dice.One(["JD", "MK", "ab"])),
                pen.Place(), pen.Day(), pen.ValueWithUnit(), pen.Due(),
            ],
            fleet)),

        // A remark that speaks of other values, days and devices is none of them.
        Shape.Text("remarks", (pen, fleet, grid) => grid.Table(
            [pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), pen.ValueWithUnit(), pen.Other(Said.Remark, i => Remark(pen, i))], fleet)),

        Shape.Text("model-and-serial-in-one", (pen, fleet, grid) => grid.Table(
            [
                pen.Kind(),
                new($"{pen.Head(Said.Model)} / {pen.Head(Said.Serial)}",
                    (i, _) => new($"{i.Model} / {i.Serial}", Pen.Text(Said.Model, i, i.Model), Pen.Text(Said.Serial, i, i.Serial))),
                pen.Code(), pen.Place(),
            ],
            fleet)),

        Shape.Text("calibrators", (pen, fleet, grid) =>
        {
            grid.Table([pen.Maker(), pen.Model(), pen.Serial(), pen.Day(), pen.Level(), pen.Frequency(), pen.Uncertainty(), pen.Factor(),
                pen.Certificate()], fleet.Where(i => i.IsCalibrator));
            grid.Lines.Insert(0, Line.Of(pen.Words.Plural(Sort.Calibrator)[0]));
            grid.Lines.ImplyKind();
        }),
    ];

    public static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => fleet.Where(i => i.IsMicrophone);

    private static Cell Size(Pen pen, Instrument i)
    {
        var inch = i.SizeMm > 10 ? 2 : 4;
        var fraction = inch == 2 ? "½" : "¼";
        var mm = i.SizeMm!.Value;
        var text = pen.Dice.Below(6) switch
        {
            0 => $"1/{inch}\"",
            1 => $"{fraction}\"",
            2 => $"{fraction} {pen.Words.Inch}",
            3 => $"1/{inch} {pen.Words.Inch}",
            4 => $"{pen.Number(mm, inch == 2 ? 1 : 2)} mm",
            _ => $"1/{inch}''",
        };
        return new(text, Pen.Of(Said.Size, i, null, mm, "mm"));
    }

    private static string Remark(Pen pen, Instrument i) => pen.Dice.Below(5) switch
    {
        0 => $"{pen.Number(48.2, 1)} mV/Pa 2016",
        1 => $"{i.Model} 4711, 2019-05-06",
        2 => "S/N 990099?",
        3 => $"94 dB; {pen.Words.Word("Total")} 3",
        _ => "",
    };
}
