using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Shapes of the second time that once counted alone, before readers learned by them.</summary>
internal static class FormerlyLastShapes2
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        // A sheet that says what the file is, and the list behind it.
        LastBook("last-11", (pen, fleet) =>
        {
            var cover = new Grid(pen.Words.Word("Cover"));
            cover.Add(pen.Words.Word("Meant"));
            cover.Add($"{pen.Words.Word("AsOf")} {DayText.Of(new(2026, 5, 4), pen.Days, pen.Words)}");
            cover.Add($"{pen.Words.Word("Kept")} HL, TR");
            var grid = new Grid("1");
            grid.Table(
                [
                    pen.Code(), pen.Model(), pen.Maker(), pen.Kind(), pen.Serial(), pen.Day(),
                    new(pen.Head(Said.Result), Pen.Result(pen.Bare)), new(pen.Head(Said.Unit), Pen.Result((_, r) => new(r.Unit))),
                    pen.Place(), pen.Status(),
                ],
                fleet.Where(i => i.Last is not null));
            return [cover, grid];
        }),

        Last("last-12", (pen, fleet, grid) => grid.Table(
            [
                pen.Day(), pen.Certificate(), pen.Kind(), pen.Model(), pen.Serial(),
                new(pen.Head(Said.Value), Pen.Result((i, r) => pen.AsLevel(i, r) with
                {
                    Text = $"{pen.Number(r.Level, 2)} dB re 1 V/Pa",
                    Typed = null,
                })),
                new("± dB", pen.Uncertainty().Write),
            ],
            Mics(fleet).EachResult())),

        Last("last-13", (pen, fleet, grid) =>
        {
            pen.Days = DayStyle.Iso;
            grid.Table(
                [
                    new("cal.certificate", pen.Certificate().Write), new("cal.date", pen.Day().Write),
                    new("cal.lab", pen.Laboratory().Write),
                    new("device.kind", pen.Kind().Write), new("device.model", pen.Model().Write), new("device.serial", pen.Serial().Write),
                    new("result.value", Pen.Result(pen.Bare)), new("result.unit", Pen.Result((_, r) => new(r.Unit))),
                    new("result.frequency_hz", pen.Frequency().Write), new("sync.revision", (_, _) => Count(pen.Dice.From(3, 90))),
                ],
                fleet.EachResult());
        }),

        // Letters of quantities as heads.
        Last("last-14", (pen, fleet, grid) =>
        {
            grid.Add($"{pen.Words.Plural(Sort.Calibrator)[0]} / {pen.Words.Word("LastOne")}");
            grid.Table(
                [
                    pen.Model(), pen.Serial(), new("Lp (dB)", Pen.Result(pen.Bare)), new("f (Hz)", pen.Frequency().Write),
                    new("U (dB), k = 2", pen.Uncertainty(tellsFactor: true).Write), new("p (kPa)", pen.Pressure().Write),
                    new("T (°C)", pen.Temperature().Write), pen.Day(), pen.Due(), pen.Laboratory(),
                ],
                fleet.Where(i => i.IsCalibrator));
            grid.Lines.ImplyKind();
        }),

        // One sheet a room, which its first line names.
        LastBook("last-15", (pen, fleet) =>
        {
            var place = pen.Head(Said.Place);
            Column[] columns = [pen.Kind(), pen.Model(), pen.Serial(), pen.Code(), pen.Other(Said.Remark, _ => "")];
            return [.. fleet.GroupBy(i => i.Place).Select((room, n) =>
            {
                var grid = new Grid($"{(char)('A' + n)}");
                grid.Add(place, room.Key);
                grid.Blank();
                grid.Table([Numbered("#"), .. columns], room);
                foreach (var (i, line) in room.Zip(grid.Lines.TakeLast(room.Count())))
                    line.Implied.Add(Pen.Text(Said.Place, i, i.Place));
                return grid;
            })];
        }),

        // The value before stands without its day, for the eye alone.
        Last("last-16", (pen, fleet, grid) => grid.Table(
            [
                pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), pen.Sensitivity(),
                new($"{pen.Words.Word("Previous")} [mV/Pa]", (i, _) => new(pen.Value(i.Results[^2]))),
                new($"{pen.Words.Word("Drift")} [dB]", (i, r) => new(pen.Number(r!.Level - i.Results[^2].Level, 2))), pen.Laboratory(),
            ],
            Mics(fleet))),

        // Cases of several devices; the number of the case stands at its first.
        LastBook("last-17", (pen, fleet) =>
        {
            var grid = new Grid(pen.Words.Word("Set"));
            Column[] columns = [pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Day(), pen.ValueWithUnit()];
            grid.Lines.Add(new(LineSort.Header, [new(pen.Words.Word("Set")), .. columns.Header().Cells]));
            foreach (var (set, n) in fleet.Where(i => i.Last is not null).Chunk(4).Select((s, n) => (s, n)))
            {
                var first = grid.Lines.Count + 1;
                grid.Lines.AddRange(set.Select((i, at) => new Line(LineSort.Data,
                    [at == 0 ? new($"S{n + 1}") : Cell.Blank, .. columns.Row(i, i.Last).Cells])));
                if (set.Length > 1) grid.Merges.Add($"A{first}:A{grid.Lines.Count}");
            }
            return [grid];
        }),

        // Nobody kept the days, only the years.
        Last("last-18", (pen, fleet, grid) =>
        {
            grid.Add($"{pen.Words.Word("History")}, {pen.Words.Word("AsOf")} 2026");
            grid.Table(
                [
                    pen.Serial(), pen.Kind(), pen.Model(),
                    new(pen.Head(Said.Year), Pen.Result((i, r) => Count(r.Day.Year) with
                    {
                        Means = [Pen.Text(Said.Year, i, r.Day.Year.ToString(CultureInfo.InvariantCulture), r)],
                    })),
                    new($"{pen.Head(Said.Value)} (mV/Pa)", Pen.Result(pen.Bare)), pen.Certificate(),
                ],
                Mics(fleet).EachResult());
        }),

        // What was calibrated stands in one cell, each figure with its unit.
        Last("last-19", (pen, fleet, grid) => grid.Table(
            [
                pen.Certificate(),
                new(pen.Words.Word("Device"), (i, _) =>
                {
                    var kind = pen.Words.Singular(i.Sort)[0];
                    return new($"{kind} {i.Model}", Pen.Text(Said.Kind, i, i.Kind), Pen.Text(Said.Model, i, i.Model));
                }),
                pen.Serial(), pen.Day(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)),
                new(pen.Head(Said.U), Pen.Result((i, r) => new($"{pen.Number(r.U, 2)} dB", Pen.Of(Said.U, i, r, r.U, "dB")))),
                new(pen.Head(Said.Hz), Pen.Result((i, r) => new($"{pen.Number(r.Hz, 0)} Hz", Pen.Of(Said.Hz, i, r, r.Hz, "Hz")))),
            ],
            fleet.EachResult())),

        // A cross under the status.
        Last("last-20", (pen, fleet, grid) =>
        {
            var statuses = fleet.Select(i => i.Status).Distinct().Order().ToList();
            grid.Table(
                [
                    pen.Code(), pen.Kind(), pen.Model(), pen.Serial(),
                    .. statuses.Select(s => new Column(pen.Words.Statuses(s)[0], (i, _) => i.Status != s ? Cell.Blank
                        : new("x", Pen.Text(Said.Status, i, i.Status.ToString())))),
                    pen.Place(),
                ],
                fleet);
        }),
    ];

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => InventoryShapes.Mics(fleet);

    private static Column Numbered(string header)
    {
        var number = 0;
        return new(header, (_, _) => Count(++number));
    }

    private static Cell Count(int number) => new(number.ToString(CultureInfo.InvariantCulture)) { Typed = number };

    private static Shape Last(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw) =>
        Shape.Text(name, draw) with { Words = Vocabulary.FormerlyLast2 };

    private static Shape LastBook(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) =>
        Shape.Book(name, draw) with { Words = Vocabulary.FormerlyLast2 };
}
