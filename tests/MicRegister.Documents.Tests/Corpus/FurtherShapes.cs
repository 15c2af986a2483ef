using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Lists as a dozen other houses keep them: plans, exports, delivery notes, summaries, cards.</summary>
internal static class FurtherShapes
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        // A plan gives days alone: what was measured stands elsewhere.
        Further("further-01", (pen, fleet, grid) =>
        {
            grid.Add($"{pen.Words.Word("Plan")} 2026");
            grid.Blank();
            grid.Table(
                [
                    Numbered("#"), pen.Code(), pen.Kind(), pen.Model(), pen.Serial(), pen.Day(),
                    new(pen.Words.Word("Interval"), (_, _) => new("12")), pen.Due(),
                    pen.Other(Said.Initials, _ => pen.Dice.One(["TR", "HL", "cb"])),
                ],
                fleet.Where(i => i.Last is not null));
        }),

        // The same result twice, in mV/Pa and as a level.
        Further("further-02", (pen, fleet, grid) =>
        {
            grid.Table(
                [
                    pen.Maker(), pen.Model(), pen.Serial(), pen.Day(), new("M / (mV/Pa)", Pen.Result(pen.Bare)),
                    new("L_M / (dB re 1 V/Pa)", Pen.Result(pen.LevelAgain)), new("U / dB", pen.Uncertainty().Write), pen.Certificate(),
                ],
                Mics(fleet).EachResult());
            grid.Lines.ImplyKind();
        }),

        FurtherBook("further-03", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var row = 1000;
            var grid = new Grid("qryCalibrations");
            grid.Table(
                [
                    new("RecordId", (_, _) => Count(++row)), new("DeviceType", pen.Kind().Write),
                    new("ManufacturerName", pen.Maker().Write), new("ModelName", pen.Model().Write),
                    new("SerialNumber", pen.Serial().Write), new("CalibrationDate", pen.Day().Write),
                    new("SensitivityMvPerPa", Pen.Result(pen.Bare)), new("ExpandedUncertaintyDb", pen.Uncertainty().Write),
                    new("CoverageFactor", pen.Factor().Write), new("CertificateNumber", pen.Certificate().Write),
                    new("ModifiedOn", (_, _) => new("2026-04-30 07:12:55")), new("ModifiedBy", (_, _) => new(pen.Dice.One(["svc", "hl"]))),
                ],
                Mics(fleet).EachResult());
            return [grid];
        }),

        Further("further-04", (pen, fleet, grid) =>
        {
            grid.Add(pen.Words.Plural(Sort.Preamplifier)[0]);
            grid.Table(
                [
                    pen.Maker(), pen.Model(), pen.Serial(), new($"{pen.Words.Word("Gain")} / dB", Pen.Result(pen.Bare)),
                    new("f / Hz", pen.Frequency().Write), new("U / dB", pen.Uncertainty().Write), pen.Day(), pen.Laboratory(),
                    pen.Other(Said.Remark, _ => pen.Dice.One(["", "", "ok", "HL"])),
                ],
                fleet.Where(i => i.Sort == Sort.Preamplifier).EachResult());
            grid.Lines.ImplyKind();
        }),

        // One sheet a year, the days in full.
        FurtherBook("further-05", (pen, fleet) =>
        {
            var sensitivity = pen.Head(Said.Value) + ", mV/Pa";
            Column[] columns =
                [pen.Model(), pen.Serial(), pen.Kind(), pen.Day(), new(sensitivity, Pen.Result(pen.Bare)), pen.Certificate()];
            return [.. Mics(fleet).EachResult().GroupBy(p => p.Item2!.Day.Year).OrderByDescending(g => g.Key).Select(g =>
            {
                var grid = new Grid(g.Key.ToString(CultureInfo.InvariantCulture));
                grid.Table(columns, g);
                return grid;
            })];
        }),

        // What a laboratory sent back, with the day of the parcel above, which is no calibration's.
        Further("further-06", (pen, fleet, grid) =>
        {
            grid.Add($"{pen.Words.Word("Delivery")} {pen.Dice.From(4000, 4999)}", "", DayText.Of(new(2026, 3, 9), pen.Days, pen.Words));
            grid.Add("Hangar 3, D-00000 Nordheim");
            grid.Blank();
            var back = fleet.Where(i => i.Last is not null).Take(11).ToList();
            grid.Table(
                [
                    Numbered(pen.Words.Word("Item")), new(pen.Words.Word("Pieces"), (_, _) => new("1")), pen.Kind(),
                    new($"{pen.Head(Said.Maker)}, {pen.Head(Said.Model)}", (i, _) => new($"{i.Maker}, {i.Model}",
                        Pen.Text(Said.Maker, i, i.Maker), Pen.Text(Said.Model, i, i.Model))),
                    pen.Serial(), pen.Day(), pen.Certificate(),
                ],
                back);
            grid.Add(pen.Words.Word("Total"), back.Count.ToString(CultureInfo.InvariantCulture));
        }),

        // The summary of a laboratory: what holds for all stands above.
        FurtherBook("further-07", (pen, fleet) =>
        {
            var (day, lab) = (new DateOnly(2025, pen.Dice.From(2, 11), pen.Dice.From(13, 28)), Mics(fleet).First().Last!.Laboratory);
            var grid = new Grid("Tab. 1");
            grid.Add(pen.Words.Word("Summary"));
            grid.Blank();
            grid.Add(pen.Head(Said.Lab), lab);
            grid.Add(pen.Head(Said.Day), DayText.Of(day, pen.Days, pen.Words));
            grid.Blank();
            grid.Table(
                [
                    Numbered(pen.Words.Word("Item")), pen.Certificate(), pen.Kind(), pen.Model(), pen.Serial(),
                    new("M [mV/Pa]", Pen.Result(pen.Bare)), new("U (k = 2) [dB]", pen.Uncertainty(tellsFactor: true).Write),
                ],
                Mics(fleet).Select(i => (i, (Calibrated?)(i.Last! with { Day = day, Laboratory = lab }))));
            foreach (var line in grid.Lines.Where(l => l.Sort == LineSort.Data))
            {
                var of = line.Cells.SelectMany(c => c.Means).First(m => m.Of is not null);
                line.Implied.AddRange([Pen.Text(Said.Lab, of.Owner, lab, of.Of),
                    Pen.Text(Said.Day, of.Owner, day.ToString("O", CultureInfo.InvariantCulture), of.Of)]);
            }
            return [grid];
        }),

        // The business has columns of its own, between those that count.
        Further("further-08", (pen, fleet, grid) => grid.Table(
            [
                Numbered(pen.Words.Word("Item")), pen.Other(Said.Bought, i => $"{2008 + i.Serial.Length}"),
                pen.Kind(), pen.Model(), new(pen.Words.Word("Centre"), (_, _) => new($"{pen.Dice.From(4100, 4190)}")), pen.Serial(),
                new(pen.Words.Word("Owner"), (_, _) => new(pen.Dice.One(["Team L3", "Pool", "Dept. 12"]))),
                new($"{pen.Head(Said.Value)}, mV/Pa", Pen.Result(pen.Bare)), new($"{pen.Head(Said.U)}, dB", pen.Uncertainty().Write),
                pen.Day(), pen.Other(Said.Price, _ => pen.Number(pen.Dice.From(700, 3100), 2)),
            ],
            Mics(fleet))),

        // A card a device, as they once stood in a box.
        Further("further-09", (pen, fleet, grid) =>
        {
            Column[] columns =
                [pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Place(), pen.Day(), pen.ValueWithUnit()];
            foreach (var i in fleet.Where(i => i.Last is not null))
            {
                grid.Lines.AddRange(columns.Select(c => new Line(LineSort.Data, [new(c.Header), c.Write(i, i.Last)])));
                grid.Blank();
            }
        }),

        FurtherBook("further-10", (pen, fleet) =>
        {
            var grid = new Grid("Mics");
            Column[] device = [pen.Code(), pen.Kind(), pen.Model(), pen.Serial()];
            Column[] result = [pen.Day() with { Header = pen.Words.Word("Date") }, new("mV/Pa", Pen.Result(pen.Bare)), pen.Certificate()];
            grid.Add(pen.Words.Word("Device"), "", "", "", pen.Words.Word("LastOne"), "", "", pen.Words.Word("PreviousOne"), "", "");
            grid.Merges.AddRange(["A1:D1", "E1:G1", "H1:J1"]);
            grid.Lines.Add(new(LineSort.Header, [.. device.Header().Cells, .. result.Header().Cells, .. result.Header().Cells]));
            grid.Lines.AddRange(Mics(fleet).Select(i => new Line(LineSort.Data,
                [.. device.Row(i).Cells, .. result.Row(i, i.Last).Cells, .. result.Row(i, i.Results[^2]).Cells])));
            return [grid];
        }),

        // Each kind has a sheet and columns of its own.
        FurtherBook("further-11", (pen, fleet) =>
        {
            return
            [
                Sheet(Sort.Microphone, pen.Model(), pen.Serial(), pen.Place(),
                    new($"{pen.Words.Word("Polarisation")} [V]", (i, _) => Count(i.Model[0] == 'M' ? 200 : 0)), pen.Sensitivity(),
                    pen.Day()),
                Sheet(Sort.Preamplifier, pen.Serial(), pen.Model(), new(pen.With(pen.Words.Word("Gain"), "dB"), Pen.Result(pen.Bare)),
                    pen.Day(), pen.Place()),
                Sheet(Sort.Calibrator, pen.Maker(), pen.Model(), pen.Serial(), pen.Level(), pen.Frequency(), pen.Day(), pen.Certificate()),
                Sheet(Sort.Plate, pen.Serial(), pen.Place(), pen.Status()),
            ];

            Grid Sheet(Sort sort, params Column[] columns)
            {
                var grid = new Grid(pen.Words.Plural(sort)[0]);
                grid.Table(columns, fleet.Where(i => i.Sort == sort));
                grid.Lines.ImplyKind();
                return grid;
            }
        }),

        Further("further-12", (pen, fleet, grid) =>
        {
            pen.Days = DayStyle.Iso;
            grid.Table(
                [
                    new("inventory_no", pen.Code().Write), new("category", pen.Kind().Write), new("type", pen.Model().Write),
                    new("serial", pen.Serial().Write), new("location", pen.Place().Write), new("status", pen.Status().Write),
                    new("last_calibration", pen.Day().Write), new("next_calibration", pen.Due().Write),
                    new("sensitivity_level_db_re_1v_per_pa", Pen.Result(pen.AsLevel)), new("certificate", pen.Certificate().Write),
                    new("created_at", (_, _) => new("2019-11-04T09:30:00Z")), new("price_eur", (_, _) => Count(pen.Dice.From(600, 2900))),
                ],
                Mics(fleet));
        }),

        // Heads broken into lines, so that the columns stay narrow.
        Further("further-13", (pen, fleet, grid) => grid.Table(
            [
                Narrow(pen.Code()), Narrow(pen.Kind()), Narrow(pen.Model()), Narrow(pen.Serial()), Narrow(pen.Day()),
                new($"{Narrow(pen.Head(Said.Value))}\n[mV/Pa]", Pen.Result(pen.Bare)),
                new("U\n(k=2)\n[dB]", pen.Uncertainty(tellsFactor: true).Write), Narrow(pen.Laboratory()), Narrow(pen.Due()),
            ],
            Mics(fleet))),

        // A block a room, each with its own header.
        Further("further-14", (pen, fleet, grid) =>
        {
            var place = pen.Head(Said.Place);
            Column[] columns = [pen.KindInAnyWord(), pen.Maker(), pen.Model(), pen.Serial(), pen.Code(), pen.StatusInAnyWord()];
            foreach (var room in fleet.GroupBy(i => i.Place))
            {
                grid.Add($"{place}: {room.Key}");
                grid.Table(columns, room);
                foreach (var (i, line) in room.Zip(grid.Lines.TakeLast(room.Count())))
                    line.Implied.Add(Pen.Text(Said.Place, i, i.Place));
                grid.Blank();
            }
        }),
    ];

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => InventoryShapes.Mics(fleet);

    private static Column Numbered(string header)
    {
        var number = 0;
        return new(header, (_, _) => Count(++number));
    }

    private static Cell Count(int number) => new(number.ToString(CultureInfo.InvariantCulture)) { Typed = number };

    private static Column Narrow(Column column) => column with { Header = Narrow(column.Header) };

    private static string Narrow(string header) => header.Replace(' ', '\n');

    private static Shape Further(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw) =>
        Shape.Text(name, draw) with { Words = Vocabulary.Further };

    private static Shape FurtherBook(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) =>
        Shape.Book(name, draw) with { Words = Vocabulary.Further };
}
