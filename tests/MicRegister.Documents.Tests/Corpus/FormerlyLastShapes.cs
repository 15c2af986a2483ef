using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Shapes that once counted alone, before readers learned by them.</summary>
internal static class FormerlyLastShapes
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        Last("last-01", (pen, fleet, grid) =>
        {
            var number = 0;
            grid.Table(
                [
                    new("#", (_, _) => new((++number).ToString(CultureInfo.InvariantCulture))), new("S / (mV/Pa)", Pen.Result(pen.Bare)),
                        new("U / dB", pen.Uncertainty().Write),
                    pen.Day(), pen.Place(), pen.Kind(), pen.Model(), pen.Serial(),
                ],
                Mics(fleet));
        }),

        LastBook("last-02", (pen, fleet) =>
        {
            var grid = new Grid("1");
            var years = fleet.SelectMany(i => i.Results).Select(r => r.Day.Year).Distinct().Order().ToList();
            Column[] device = [pen.Kind(), pen.Model(), pen.Serial()];
            grid.Add([.. device.Select(c => c.Header), .. years.SelectMany(y => new[] { y.ToString(CultureInfo.InvariantCulture), "" })]);
            grid.Merges.AddRange(years.Select((_, n) => $"{Tables.Letter(3 + 2 * n)}1:{Tables.Letter(4 + 2 * n)}1"));
            grid.Add(["", "", "", .. years.SelectMany(_ => new[] { pen.Words.Headers(Said.Day)[0], "mV/Pa" })]);
            foreach (var i in Mics(fleet))
            {
                grid.Lines.Add(new(LineSort.Data, [.. device.Row(i).Cells, .. years.SelectMany(y =>
                    i.Results.FirstOrDefault(r => r.Day.Year == y) is { } r ? new[] { pen.DayCell(i, r), pen.Bare(i, r) }
                        : [Cell.Blank, Cell.Blank])]));
            }
            return [grid];
        }),

        Last("last-03", (pen, fleet, grid) =>
        {
            grid.Table(
                [
                    pen.Certificate(), pen.Serial(), pen.Model(),
                    new(pen.Head(Said.Day), Pen.Result((i, r) => pen.DayCell(i, r) with { Text = $"{r.Day:O} 00:00:00" })),
                        new(pen.With(pen.Head(Said.Value), "dB re 1V/Pa"), Pen.Result(pen.AsLevel)),
                ],
                Mics(fleet).EachResult());
            grid.Lines.ImplyKind();
        }),

        LastBook("last-04", (pen, fleet) => [.. Mics(fleet).Take(5).Select(i =>
        {
            var grid = new Grid($"{i.Model.Replace('/', '-')} {i.Serial}");
            foreach (var column in new[] { pen.Kind(), pen.Model(), pen.Serial(), pen.Place() })
                grid.Lines.Add(new(LineSort.Other, [new(column.Header + ":"), column.Write(i, null)]));
            grid.Blank();
            grid.Table([pen.Day(), pen.Sensitivity(), pen.Laboratory()], i.Results.Select(r => (i, (Calibrated?)r)));
            return grid;
        })]),

        Last("last-05", (pen, fleet, grid) =>
        {
            Column[] columns = [pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Code()];
            grid.Lines.Add(columns.Header());
            foreach (var group in fleet.GroupBy(i => i.Status))
            {
                grid.Add($"{pen.Head(Said.Status)}: {pen.Words.Statuses(group.Key)[0]}");
                grid.Rows(columns, group.Select(i => (i, (Calibrated?)null)));
                foreach (var (i, line) in group.Zip(grid.Lines.TakeLast(group.Count()))) line.Implied.Add(Pen.Text(Said.Status, i,
                    i.Status.ToString()));
            }
        }),

        Last("last-06", (pen, fleet, grid) => grid.Table(
            [
                pen.Kind(), pen.Model(), pen.Serial(), pen.Day(),
                    new(pen.With(pen.Head(Said.Nominal).Split(' ')[0], "dB"), (i, _) => new(pen.Number(i.Nominal!.Value, 0))),
                new(pen.With(pen.Head(Said.Result), "dB"), Pen.Result(pen.Bare)),
                    new("Δ [dB]", Pen.Result((i, r) => new(pen.Number(r.Value - i.Nominal!.Value, 2)))),
                new("OK?", (_, _) => new("x")), pen.Uncertainty(tellsFactor: true),
            ],
            fleet.Where(i => i.IsCalibrator))),

        Last("last-07", (pen, fleet, grid) => grid.Table(
            [
                new("asset_kind", pen.Kind().Write), new("manufacturer", pen.Maker().Write), new("model_no", pen.Model().Write),
                    new("serial_no", pen.Serial().Write),
                new("cal_date", pen.Day().Write), new("sens_mv_pa", Pen.Result(pen.Bare)), new("u_db", pen.Uncertainty().Write),
                    new("k", pen.Factor().Write), new("cal_lab", pen.Laboratory().Write),
            ],
            Mics(fleet).EachResult())),

        LastBook("last-08", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var grid = new Grid("Export");
            var day = pen.Day();
            grid.Table(
                [
                    pen.Serial(), pen.Kind(), pen.Model(),
                        day with { Write = (i, r) => day.Write(i, r) is { Typed: { } n } cell ? cell with { Typed = n + 0.375 }
                        : Cell.Blank },
                    pen.ValueWithUnit(), pen.Certificate(),
                ],
                fleet.EachResult());
            return [grid];
        }),

        Last("last-09", (pen, fleet, grid) =>
        {
            grid.Add(pen.Words.Word("History"));
            grid.Add($"{pen.Words.Headers(Said.Unit)[0]}: mV/Pa");
            grid.Blank();
            grid.Table(
                [pen.Day(), pen.Kind(), pen.Model(), pen.Serial(), new(pen.Head(Said.Result), Pen.Result(pen.Bare)),
                    pen.Other(Said.Remark, _ => pen.Dice.One(["", "ok", "JD"]))],
                Mics(fleet).EachResult().OrderByDescending(p => p.Item2!.Day));
        }),

        Last("last-10", (pen, fleet, grid) =>
        {
            grid.Add(pen.Words.Plural(Sort.Microphone)[0]);
            grid.Table([pen.Model(), pen.Serial(), pen.Day(), pen.Sensitivity()], Mics(fleet));
            grid.Blank();
            grid.Add(pen.Words.Plural(Sort.Calibrator)[0]);
            grid.Table([pen.Serial(), pen.Maker(), pen.Model(), pen.Place(), pen.Day(), pen.Level()], fleet.Where(i => i.IsCalibrator));
            grid.Lines.ImplyKind();
        }),
    ];

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => InventoryShapes.Mics(fleet);

    private static Shape Last(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw) =>
        Shape.Text(name, draw) with { Words = Vocabulary.FormerlyLast };

    private static Shape LastBook(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) =>
        Shape.Book(name, draw) with { Words = Vocabulary.FormerlyLast };
}
