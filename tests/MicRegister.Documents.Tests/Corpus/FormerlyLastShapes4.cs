using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Ten shapes more that no reader was made by for a while.</summary>
internal static class FormerlyLastShapes4
{
    private static readonly DateOnly Kept = new(2026, 4, 20);

    public static IReadOnlyList<Shape> All { get; } =
    [
        // An airport's monitoring group: its microphones, as levels, with the days that are left to each.
        Last("last-31", (pen, fleet, grid) =>
        {
            grid.Add($"{pen.Words.Plural(Sort.Microphone)[0]} – {Word(pen, "AirTitle")}");
            grid.Add($"{Word(pen, "AsOfDay")} {DayText.Of(Kept, pen.Days, pen.Words)}");
            grid.Blank();
            grid.Table(
                [
                    Numbered(Word(pen, "Row")), pen.Code(), pen.Maker(), pen.Model(), pen.Serial(), pen.StatusInAnyWord(), pen.Place(),
                    new($"{pen.Head(Said.Value)} [dB re 1 V/Pa]", Pen.Result(pen.AsLevel)), pen.Uncertainty(), pen.Day(), pen.Due(),
                    new(Word(pen, "DaysLeft"), Pen.Result((_, r) => Count(r.Day.AddYears(1).DayNumber - Kept.DayNumber))),
                    Told(Word(pen, "Spare"), _ => Word(pen, pen.Dice.Once(3) ? "Yes" : "No")),
                ],
                Mics(fleet));
            grid.Lines.ImplyKind();
        }),

        // A hire company's stock, and a sheet of its terms.
        LastBook("last-32", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var stock = new Grid(Word(pen, "Stock"));
            stock.Table(
                [
                    pen.Code(), new(Word(pen, "Barcode"), (i, _) => new($"BC{pen.Dice.From(100_000, 999_999)}")), pen.KindInAnyWord(),
                    pen.Maker(), pen.Model(), pen.Serial(), pen.StatusInAnyWord(), pen.Place(),
                    Money(pen, "DayRate", 9, 24), Money(pen, "WeekRate", 38, 96), Money(pen, "NewValue", 700, 2600),
                    Told(Word(pen, "Accessories"), i => i.IsMicrophone ? Word(pen, "Windscreen") : Word(pen, "CarryCase")),
                    pen.Day(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Certificate(),
                ],
                fleet);
            var terms = new Grid(Word(pen, "Terms"));
            terms.Add(Word(pen, "Term1"));
            terms.Add(Word(pen, "Term2"));
            return [stock, terms];
        }),

        // A university's inventory office: what it asks about any thing that was bought.
        Last("last-33", (pen, fleet, grid) => grid.Table(
            [
                pen.Code(), Told(Word(pen, "SubNo"), _ => "0"), Told(Word(pen, "Class"), _ => "2310"), pen.Kind(), pen.Maker(),
                pen.Model(), pen.Serial(), Told(Word(pen, "AcqDate"), _ => Earlier(pen, 2010, 2021)), Money(pen, "AcqValue", 600, 2900),
                Money(pen, "BookValue", 0, 400), Told(Word(pen, "Life"), _ => "8"),
                Told(Word(pen, "Supplier"), _ => pen.Dice.One(["Brackwerk Handel", "Ohmsen Trading"])),
                Told(Word(pen, "OrderNo"), _ => $"45000{pen.Dice.From(10_000, 99_999)}"),
                Told(pen.Words.Word("Centre"), _ => $"{pen.Dice.From(880_100, 880_190)}"),
                Told(Word(pen, "Holder"), _ => pen.Dice.One(["Inst. 4", "Inst. 7"])), pen.Place(), pen.Status(),
                Told(Word(pen, "Stocktaken"), _ => Earlier(pen, 2023, 2025)),
                Told(Word(pen, "Funding"), _ => pen.Dice.One(["A", "B", "C"])),
            ],
            fleet)),

        // A calibration office's schedule: what is due, month by month.
        Last("last-34", (pen, fleet, grid) =>
        {
            grid.Add(Word(pen, "Schedule"), "", "2026");
            Column[] columns =
            [
                pen.Code(), pen.Kind(), pen.Model(), pen.Serial(), Told(Word(pen, "Section"), _ => pen.Dice.One(["AK", "LM", "VT"])),
                pen.Day(), pen.ValueWithUnit(), Told(pen.Words.Word("Interval"), _ => "12"), pen.Due(),
                Told(Word(pen, "Booked"), _ => Word(pen, pen.Dice.Once(2) ? "Yes" : "No")),
            ];
            grid.Lines.Add(columns.Header());
            foreach (var month in fleet.Where(i => i.Last is not null).OrderBy(i => i.Last!.Day).GroupBy(i => i.Last!.Day.Month))
            {
                grid.Add($"{pen.Words.Months[month.Key - 1]} 2026");
                grid.Rows(columns, month.Select(i => (i, i.Last)));
            }
        }),

        // A technician's own workbook: short heads, a sheet of checks in the field that are no calibrations, and one of things to do.
        LastBook("last-35", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var mics = new Grid(pen.Words.Plural(Sort.Microphone)[0]);
            mics.Table(
                [
                    pen.Serial(), pen.Model(), Size(pen), pen.Day(), new("mV/Pa", Pen.Result(pen.Bare)), pen.Place(),
                    Told("?", _ => pen.Dice.One(["", "", "ok"])),
                ],
                Mics(fleet));
            var calibrators = new Grid(pen.Words.Plural(Sort.Calibrator)[0]);
            calibrators.Table(
                [
                    pen.Serial(), pen.Model(), new("dB", Pen.Result(pen.Bare)), new("Hz", pen.Frequency().Write), pen.Day(),
                    pen.Certificate(),
                ],
                fleet.Where(i => i.IsCalibrator));
            foreach (var sheet in new[] { mics, calibrators }) sheet.Lines.ImplyKind();
            return [mics, calibrators, Checks(pen, Mics(fleet)), ToDo(pen)];
        }),

        // One list by rooms: each room is named above what stands in it, and counted below.
        Last("last-36", (pen, fleet, grid) =>
        {
            var place = pen.Head(Said.Place);
            Column[] columns =
                [pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Code(), pen.StatusInAnyWord(), pen.Other(Said.Remark, _ => "")];
            grid.Lines.Add(columns.Header());
            foreach (var room in fleet.GroupBy(i => i.Place).OrderBy(g => g.Key, StringComparer.Ordinal))
            {
                grid.Add(place, room.Key);
                foreach (var i in room) grid.Lines.Add(columns.Row(i).Implying([Pen.Text(Said.Place, i, i.Place)]));
                grid.Add(Word(pen, "Subtotal"), "", room.Count().ToString(CultureInfo.InvariantCulture));
            }
        }),

        // All certificates of the house, in the order in which they came: each has a day of its issue too, which is not the calibration's.
        LastBook("last-37", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var grid = new Grid(Word(pen, "CertRegister"));
            grid.Add(Word(pen, "CertRegister"));
            grid.Table(
                [
                    Numbered(Word(pen, "Row")), pen.Certificate(),
                    new(Word(pen, "IssuedOn"), Pen.Result((i, r) =>
                        pen.DayCell(i, r with { Day = r.Day.AddDays(pen.Dice.From(1, 9)) }) with { Means = [] })),
                    pen.Laboratory(), Told(Word(pen, "OrderNo"), _ => $"A{pen.Dice.From(1000, 9999)}"),
                    pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), new(pen.Head(Said.Result), Pen.Result(pen.Bare)),
                    new(pen.Head(Said.Unit), Pen.Result((_, r) => new(r.Unit))), pen.Uncertainty(), pen.Factor(), pen.Frequency(),
                    pen.Pressure(), pen.Temperature(), pen.Humidity(), new(Word(pen, "Pages"), (_, _) => Count(pen.Dice.From(3, 7))),
                    new(Word(pen, "FileName"), Pen.Result((_, r) => new($"{r.Number}.pdf"))),
                ],
                fleet.EachResult().OrderBy(p => p.Item2!.Day));
            return [grid];
        }),

        // A sheet to be printed: a form a device, two entries side by side.
        LastBook("last-38", (pen, fleet) =>
        {
            var grid = new Grid(Word(pen, "Forms"));
            (Column Left, Column Right)[] pairs =
            [
                (pen.KindInAnyWord(), pen.Code()), (pen.Maker(), pen.Model()), (pen.Serial(), pen.Place()),
                (pen.StatusInAnyWord(), pen.Laboratory()), (pen.Day(), pen.ValueWithUnit()), (pen.Certificate(), pen.Due()),
            ];
            foreach (var (i, n) in fleet.Where(i => i.Last is not null).Select((i, n) => (i, n)))
            {
                grid.Add($"{Word(pen, "Form")} {n + 1}");
                grid.Lines.AddRange(pairs.Select(p => new Line(LineSort.Data,
                    [new(p.Left.Header + ":"), p.Left.Write(i, i.Last), new(p.Right.Header + ":"), p.Right.Write(i, i.Last)])));
                grid.Add($"{Word(pen, "Signature")}:", "________________");
                grid.Blank();
            }
            return [grid];
        }),

        // Four columns a year, the newest year first.
        Last("last-39", (pen, fleet, grid) =>
        {
            var (day, value, u, number) = (pen.Day(), pen.Sensitivity(), pen.Uncertainty(), pen.Certificate());
            Column InYear(Column column, int year) => new($"{year} {column.Header}",
                (i, _) => column.Write(i, i.Results.FirstOrDefault(r => r.Day.Year == year)));

            var years = fleet.SelectMany(i => i.Results).Select(r => r.Day.Year).Distinct().OrderDescending();
            grid.Table(
                [
                    pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(),
                    .. years.SelectMany(y => new[] { day, value, u, number }.Select(c => InYear(c, y))),
                ],
                Mics(fleet));
        }),

        // Sets with their parts below them, then what belongs to no set.
        Last("last-40", (pen, fleet, grid) =>
        {
            List<Instrument> Sorted(params Sort[] sorts) => [.. fleet.Where(i => sorts.Contains(i.Sort))];

            var (mics, amplifiers, plates) = (Sorted(Sort.Microphone), Sorted(Sort.Preamplifier), Sorted(Sort.Plate));
            var calibrators = Sorted(Sort.Calibrator, Sort.Pistonphone);
            List<Instrument[]> sets =
            [
                [mics[0], amplifiers[0], calibrators[0]], [mics[1], amplifiers[1], calibrators[1]], [mics[2], mics[3], plates[0]],
                [mics[4], plates[1], calibrators[2]],
            ];
            var position = "";
            Column[] columns =
            [
                new(Word(pen, "Position"), (_, _) => new(position)), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Code(),
                pen.Day(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Due(),
            ];
            grid.Lines.Add(columns.Header());
            foreach (var (set, s) in sets.Append([.. fleet.Except(sets.SelectMany(s => s))]).Select((set, s) => (set, s)))
            {
                var name = s < sets.Count ? $"{pen.Words.Word("Set")} {s + 1}" : Word(pen, "Loose");
                grid.Add($"{s + 1}", name);
                foreach (var (i, n) in set.Select((i, n) => (i, n)))
                {
                    position = $"{s + 1}.{n + 1}";
                    grid.Lines.Add(columns.Row(i, i.Last));
                }
            }
        }),
    ];

    // The readings of a sound calibrator before and after a day in the field.
    private static Grid Checks(Pen pen, IEnumerable<Instrument> mics)
    {
        var grid = new Grid(Word(pen, "Checks")) { IsDoubtful = true };
        grid.Lines.Add(new(LineSort.Header, new[]
        {
            pen.Words.Word("Date"), pen.Head(Said.Serial), $"{pen.Words.Word("Before")} [dB]", $"{pen.Words.Word("After")} [dB]",
            Word(pen, "Weather"),
        }.Select(h => new Cell(h))));
        foreach (var i in mics.Take(5))
        {
            var (before, day) = (pen.Dice.Between(93.8, 94.2, 1), Kept.AddDays(-pen.Dice.From(1, 40)));
            var after = before + pen.Dice.Between(-0.1, 0.1, 1);
            grid.Lines.Add(new(LineSort.Data,
            [
                new(DayText.Of(day, pen.Days, pen.Words)) { Typed = DayText.Number(day, false), Shown = Shown.Day }, Pen.Number(i),
                new(pen.Number(before, 1)) { Typed = before }, new(pen.Number(after, 1)) { Typed = Math.Round(after, 1) },
                new(Word(pen, pen.Dice.Once(2) ? "Dry" : "Windy")),
            ]));
        }
        return grid;
    }

    private static Grid ToDo(Pen pen)
    {
        var grid = new Grid(Word(pen, "ToDo"));
        foreach (var key in new[] { "ToDo1", "ToDo2", "ToDo3" }) grid.Add("-", Word(pen, key));
        return grid;
    }

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => InventoryShapes.Mics(fleet);

    private static string Word(Pen pen, string key) => Vocabulary.FormerlyLast4(pen.Words.Tongue).Word(key);

    private static Column Numbered(string header)
    {
        var number = 0;
        return new(header, (_, _) => Count(++number));
    }

    private static Cell Count(int number) => new(number.ToString(CultureInfo.InvariantCulture)) { Typed = number };

    /// <summary>A column of which a register knows nothing.</summary>
    private static Column Told(string header, Func<Instrument, string> text) => new(header, (i, _) => new(text(i)));

    private static Column Money(Pen pen, string key, int least, int most) => new(Word(pen, key), (_, _) =>
    {
        var euros = pen.Dice.From(least, most) + 0.5;
        return new(pen.Number(euros, 2)) { Typed = euros };
    });

    private static Column Size(Pen pen) =>
        new(pen.Head(Said.Size), (i, _) => new(i.SizeMm > 10 ? "1/2\"" : "1/4\"", Pen.Of(Said.Size, i, null, i.SizeMm!.Value, "mm")));

    private static string Earlier(Pen pen, int first, int last) =>
        DayText.Of(new(pen.Dice.From(first, last), pen.Dice.From(1, 12), pen.Dice.From(1, 28)), pen.Days, pen.Words);

    private static Shape Last(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw) =>
        Shape.Text(name, draw) with { Words = Vocabulary.FormerlyLast4 };

    private static Shape LastBook(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) =>
        Shape.Book(name, draw) with { Words = Vocabulary.FormerlyLast4 };
}
