using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Lists of several results a device.</summary>
internal static class HistoryShapes
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        Shape.Text("one-row-a-result", (pen, fleet, grid) => grid.Table(
            [pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), pen.ValueWithUnit(), pen.Uncertainty(), pen.Factor(), pen.Laboratory(),
                pen.Certificate()], fleet.EachResult())),

        Shape.Text("serial-day-and-value", (pen, fleet, grid) =>
        {
            grid.Table([pen.Serial(), pen.Model(), pen.Day(), pen.Sensitivity()], Mics(fleet).EachResult());
            grid.Lines.ImplyKind();
        }),

        Shape.Text("years-as-headers", (pen, fleet, grid) =>
        {
            grid.Add($"{pen.Head(Said.Value)} {pen.Words.Plural(Sort.Microphone)[0]}, mV/Pa");
            grid.Table([pen.Model(), pen.Serial(), .. Years(fleet)
                .Select(y => Year(pen, y, y.ToString(CultureInfo.InvariantCulture), false))], Mics(fleet));
            grid.Lines.ImplyKind();
        }),

        Shape.Text("years-spelt-each-otherwise", (pen, fleet, grid) =>
        {
            grid.Table([pen.Kind(), pen.Model(), pen.Serial(), .. Years(fleet).Select(y => Year(pen, y, Spelt(pen, y), false))],
                Mics(fleet));
        }),

        Shape.Text("years-with-units-in-cells", (pen, fleet, grid) => grid.Table(
            [pen.Kind(), pen.Model(), pen.Serial(), .. Years(fleet)
                .Select(y => Year(pen, y, y.ToString(CultureInfo.InvariantCulture), true))], fleet)),

        Shape.Text("pairs-numbered", (pen, fleet, grid) =>
        {
            var (day, value) = (pen.Words.Headers(Said.Day)[0], pen.Words.Headers(Said.Value)[0]);
            grid.Table([pen.Kind(), pen.Model(), pen.Serial(), .. Pairs(pen, n => $"{day} {n}", n => $"{value} {n} [mV/Pa]")], Mics(fleet));
        }),

        Shape.Text("pairs-of-the-same-headers", (pen, fleet, grid) =>
        {
            var (day, value) = (pen.Head(Said.Day), pen.Head(Said.Value, "mV/Pa"));
            grid.Table([pen.Kind(), pen.Model(), pen.Serial(), .. Pairs(pen, _ => day, _ => value)], Mics(fleet));
        }),

        Shape.Text("one-row-a-quantity", (pen, fleet, grid) =>
        {
            grid.Lines.Add(new(LineSort.Header, new[]
            {
                pen.Head(Said.Number), pen.Head(Said.Model), pen.Head(Said.Serial), pen.Head(Said.Day), pen.Head(Said.Quantity),
                    pen.Head(Said.Result),
                pen.Head(Said.Unit),
            }.Select(h => new Cell(h))));
            foreach (var i in Mics(fleet).Take(5))
            {
                foreach (var r in i.Results)
                {
                    Quantity(grid, pen, i, r, pen.Words.Headers(Said.Value)[0], pen.Bare(i, r), "mV/Pa");
                    Quantity(grid, pen, i, r, pen.Words.Headers(Said.U)[0], new(pen.Number(r.U, 2), Pen.Of(Said.U, i, r, r.U, "dB")), "dB");
                    Quantity(grid, pen, i, r, Capacitance(pen), new(pen.Number(17.4 + pen.Dice.Between(0, 2, 1), 1)), "pF");
                    Quantity(grid, pen, i, r, pen.Words.Headers(Said.Pressure)[0], pen.Pressure().Write(i, r), "kPa");
                    Quantity(grid, pen, i, r, pen.Words.Headers(Said.Temperature)[0], pen.Temperature().Write(i, r), "°C");
                }
            }
            grid.Lines.ImplyKind();
        }),

        Shape.Text("result-in-one-cell", (pen, fleet, grid) => grid.Table(
            [
                pen.Kind(), pen.Model(), pen.Serial(), pen.Day(),
                new(pen.Head(Said.Value), Pen.Result((i, r) => new(
                    $"{pen.Value(r)} {r.Unit} ± {pen.Number(r.U, 2)} dB (k=2)", Pen.Of(Said.Value, i, r, r.Value, r.Unit),
                        Pen.Of(Said.U, i, r, r.U, "dB"), Pen.Of(Said.K, i, r, 2, "")))),
            ],
            Mics(fleet).EachResult())),

        // The device stands only in the first of its rows.
        Shape.Book("device-in-first-row-only", (pen, fleet) =>
        {
            var grid = new Grid(pen.Words.Word("History"));
            Column[] columns = [pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), pen.ValueWithUnit(), pen.Laboratory()];
            grid.Lines.Add(columns.Header());
            foreach (var i in fleet.Where(i => i.Results.Count > 0))
            {
                var first = grid.Lines.Count + 1;
                foreach (var (r, n) in i.Results.Select((r, n) => (r, n)))
                {
                    var line = columns.Row(i, r);
                    for (var c = 0; c < 3 && n > 0; c++) line.Cells[c] = Cell.Blank;
                    grid.Lines.Add(line);
                }
                grid.Merges.AddRange(Enumerable.Range(0, 3).Select(c => $"{Tables.Letter(c)}{first}:{Tables.Letter(c)}{grid.Lines.Count}"));
            }
            return [grid];
        }),

        Shape.Text("a-block-a-device", (pen, fleet, grid) =>
        {
            var (serial, day) = (pen.Words.Headers(Said.Serial)[0], pen.Day());
            var value = pen.Sensitivity();
            foreach (var i in Mics(fleet))
            {
                grid.Add($"{pen.Words.Singular(Sort.Microphone)[0]} {i.Model}, {serial} {i.Serial}");
                grid.Lines[^1].Implied.AddRange([Pen.Text(Said.Kind, i, i.Kind), Pen.Text(Said.Model, i, i.Model),
                    Pen.Text(Said.Serial, i, i.Serial)]);
                grid.Table([day, value], i.Results.Select(r => (i, (Calibrated?)r)));
                grid.Blank();
            }
        }),

        Shape.Text("certificates-with-air", (pen, fleet, grid) => grid.Table(
            [
                pen.Certificate(), pen.Laboratory(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Day(), pen.ValueWithUnit(),
                    pen.Uncertainty(tellsFactor: true),
                pen.Frequency(), pen.Pressure(), pen.Temperature(), pen.Humidity(), pen.Due(),
            ],
            fleet.EachResult())),

        Shape.Text("uncertainty-in-percent", (pen, fleet, grid) => grid.Table(
            [
                pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), pen.Sensitivity(),
                new(pen.Head(Said.U) + " (k=2) [%]", Pen.Result((i, r) =>
                {
                    var percent = Math.Round(11.5 * r.U, 1);
                    return new(pen.Number(percent, 1), Pen.Of(Said.U, i, r, percent, "%"), Pen.Of(Said.K, i, r, 2, ""));
                })),
            ],
            Mics(fleet).EachResult())),

        Shape.Text("quantity-mixed-levels", (pen, fleet, grid) => grid.Table(
            [
                pen.Kind(), pen.Model(), pen.Serial(), pen.Day(),
                new("dB", Pen.Result((i, r) => i.IsMicrophone ? pen.AsLevel(i, r) : pen.Bare(i, r))), pen.Laboratory(),
            ],
            fleet.EachResult())),
    ];

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => InventoryShapes.Mics(fleet);

    private static IEnumerable<int> Years(IEnumerable<Instrument> fleet) =>
        fleet.SelectMany(i => i.Results).Select(r => r.Day.Year).Distinct().Order();

    private static Column Year(Pen pen, int year, string header, bool hasUnit) => new(header, (i, _) =>
    {
        if (i.Results.FirstOrDefault(r => r.Day.Year == year) is not { } r) return Cell.Blank;
        var cell = hasUnit ? pen.WithUnit(i, r) : pen.Bare(i, r);
        return cell with { Means = [.. cell.Means, Pen.Text(Said.Year, i, year.ToString(CultureInfo.InvariantCulture), r)] };
    });

    private static string Spelt(Pen pen, int year) => (year % 6) switch
    {
        0 => $"{year} mV/Pa",
        1 => $"{year}, mV/Pa",
        2 => $"{pen.Words.Headers(Said.Value)[^1]} {year} (mV/Pa)",
        3 => $"{year} [mV/Pa]",
        4 => $"mV/Pa {year}",
        _ => $"{pen.Words.Headers(Said.Value)[0]} {year} in mV/Pa",
    };

    private static IEnumerable<Column> Pairs(Pen pen, Func<int, string> day, Func<int, string> value) =>
        Enumerable.Range(1, 4).SelectMany(n => new Column[]
    {
        new(day(n), (i, _) => n <= i.Results.Count ? pen.DayCell(i, i.Results[n - 1]) : Cell.Blank),
        new(value(n), (i, _) => n <= i.Results.Count ? pen.Bare(i, i.Results[n - 1]) : Cell.Blank),
    });

    private static void Quantity(Grid grid, Pen pen, Instrument i, Calibrated r, string quantity, Cell value, string unit) =>
        grid.Lines.Add(new(LineSort.Data,
    [
        new(r.Number, Pen.Text(Said.Number, i, r.Number, r)), new(i.Model, Pen.Text(Said.Model, i, i.Model)), Pen.Number(i),
            pen.DayCell(i, r), new(quantity), value, new(unit),
    ]));

    private static string Capacitance(Pen pen) => pen.Words.Tongue switch
    {
        Tongue.German => "Kapazität",
        Tongue.French => "Capacité",
        Tongue.Spanish => "Capacidad",
        Tongue.Italian => "Capacità",
        Tongue.Dutch => "Capaciteit",
        _ => "Capacitance",
    };
}
