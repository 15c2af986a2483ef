using System.Globalization;
using static MicRegister.Documents.Tests.Corpus.FormerlyLastColumns6;
using static MicRegister.Documents.Tests.Corpus.ListColumns;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Shapes of the sixth time that once counted alone.</summary>
internal static class FormerlyLastShapes6
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        // A test house: its equipment list is a form of its quality manual. What needs no calibration has a dash and says so.
        Last("last-51", (pen, fleet, grid) =>
        {
            if (pen.Words.Tongue == Tongue.English) pen.Days = DayStyle.Slashes;
            grid.Add(Word(pen, "FormTitle"), "", "", $"{Word(pen, "Form")} F 6.4-02");
            grid.Add($"{Word(pen, "Revision")} 7", "", "", $"{Word(pen, "Approved")}: {DayText.Of(new(2026, 1, 19), pen.Days, pen.Words)}");
            grid.Blank();
            grid.Table(
                [
                    pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Place(), pen.Status(),
                    Told(Word(pen, "Interval"), i => i.Last is null ? "–" : "12"), Or(pen.Day(), "–"),
                    Or(pen.Due(), Word(pen, "NotDue")), Or(pen.Laboratory(), "–"), Or(pen.Certificate(), "–"),
                    new(pen.Head(Said.Result), Or(Pen.Result(pen.WithUnit), "–")), pen.Other(Said.Remark, i => Note(pen, i, 5)),
                ],
                fleet);
        }),

        // A university's acoustics laboratory: a sheet a kind, one for the rest, and who has borrowed what.
        LastBook("last-52", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            Column who = Told(Word(pen, "With"), _ => pen.Dice.One(["", "", "Tilde O.", "Pr. 3"]));
            var (day, place, remark) = (pen.Day(), pen.Place(), pen.Other(Said.Remark, i => Note(pen, i, 3)));
            Column[] device = [pen.Code(), pen.Model(), pen.Maker(), pen.Serial()];
            var mics = Sheet(pen.Words.Plural(Sort.Microphone)[0], Mics(fleet),
                [
                    .. device, Size(pen), pen.Sensitivity(),
                    new($"{Word(pen, "SensLevel")} [dB re 1 V/Pa]", Pen.Result(pen.LevelAgain)), day, place, who, remark,
                ]);
            var calibrators = Sheet(pen.Words.Plural(Sort.Calibrator)[0], fleet.Where(i => i.IsCalibrator),
                [.. device, pen.Level(), pen.Frequency(), day, place, who]);
            var amplifiers = Sheet(pen.Words.Plural(Sort.Preamplifier)[0], fleet.Where(i => i.Sort == Sort.Preamplifier),
                [.. device, Told(Word(pen, "Plug"), _ => Word(pen, "Pins")), place, who]);
            foreach (var sheet in new[] { mics, calibrators, amplifiers }) sheet.Lines.ImplyKind();
            var others = Sheet(Word(pen, "Others"), fleet.Where(i => i.Sort is Sort.Plate or Sort.Channel),
                [device[0], pen.Kind(), device[1], device[3], place, remark]);
            return [mics, calibrators, amplifiers, others, Loans(pen, fleet)];
        }),

        // An acoustics laboratory's register of certificates: the newest first, what was calibrated in one cell, microphones as levels.
        Last("last-53", (pen, fleet, grid) =>
        {
            var number = 412;
            grid.Table(
                [
                    new(Word(pen, "Entry"), (_, _) => Count(--number)), pen.Certificate(), pen.Day(), pen.Laboratory(),
                    new(Word(pen, "Object"), (i, _) => new($"{pen.Words.Singular(i.Sort)[0]} {i.Maker} {i.Model}",
                        Pen.Text(Said.Kind, i, i.Kind), Pen.Text(Said.Maker, i, i.Maker), Pen.Text(Said.Model, i, i.Model))),
                    pen.Serial(), pen.Code(),
                    new(pen.Head(Said.Result), Pen.Result((i, r) => i.IsMicrophone
                        ? pen.AsLevel(i, r) with { Text = $"{pen.AsLevel(i, r).Text} dB re 1 V/Pa", Typed = null } : pen.WithUnit(i, r))),
                    UncertaintyInDecibels(pen, pen.Head(Said.U), tellsFactor: false), pen.Due(),
                    Told(Word(pen, "Reviewed"), _ => pen.Dice.One(["TO", "LB", "av"])),
                    Told(Word(pen, "Filed"), _ => $"{Word(pen, "Folder")} {pen.Dice.From(2, 5)}"),
                ],
                fleet.EachResult().OrderByDescending(p => p.Item2!.Day));
        }),

        // A noise survey team: its log of sensitivities, with the calibrator that was used, the change since the last time and the air.
        Last("last-54", (pen, fleet, grid) =>
        {
            if (pen.Words.Tongue == Tongue.English) pen.Days = DayStyle.MonthFirst;
            grid.Add(Word(pen, "SensLog"));
            grid.Blank();
            grid.Table(
                [
                    pen.Day(), Told(Word(pen, "Time"), _ => $"{pen.Dice.From(8, 16)}:{pen.Dice.From(10, 59)}"), pen.Serial(), pen.Model(),
                    new(Word(pen, "Reference"), Pen.Result((_, r) => new(r.Hz < 500 ? "PF 250" : "CAL-94"))), pen.Frequency(),
                    pen.Sensitivity(), Moved(pen, $"{Word(pen, "Change")} [dB]"),
                    pen.Temperature(), pen.Humidity(), pen.Pressure(), Told(Word(pen, "Operator"), _ => pen.Dice.One(["jb", "mo", "TR"])),
                    pen.Other(Said.Remark, i => Note(pen, i, 8)),
                ],
                Mics(fleet).EachResult().OrderBy(p => p.Item2!.Day));
            grid.Lines.ImplyKind();
        }),

        // An environment office: a table of its office database as it was saved, days with their midnight and four decimals.
        Last("last-55", (pen, fleet, grid) =>
        {
            Column Midnight(Column column) => column with
            {
                Write = (i, r) => column.Write(i, r) is { Text.Length: > 0 } c ? c with { Text = c.Text + " 00:00:00" } : Cell.Blank,
            };

            if (pen.Days == DayStyle.ShortDots) pen.Days = DayStyle.Dots;
            var id = 1170;
            var fields = $"{Word(pen, "Fields")},{Word(pen, "MoreFields")}".Split(',');
            Column[] columns =
            [
                new("ID", (_, _) => Count(++id)), pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Place(), pen.Status(),
                Told(Word(pen, "Obliged"), i => i.Last is null ? "0" : "1"), Midnight(pen.Day()), Midnight(pen.Due()), pen.Certificate(),
                new(pen.Head(Said.Result), Pen.Result((i, r) => pen.Bare(i, r) with { Text = pen.Number(r.Value, 4) })),
                new(pen.Head(Said.Unit), Pen.Result((_, r) => new(r.Unit))), pen.Other(Said.Remark, i => Note(pen, i, 6)),
                Told(Word(pen, "Changed"), _ =>
                    $"{Near(pen, -400, -10)} {pen.Dice.From(10, 15)}:{pen.Dice.From(10, 59)}:{pen.Dice.From(10, 59)}"),
            ];
            grid.Table(pen.IsUsual ? columns : [.. columns.Zip(fields, (c, f) => c with { Header = f })], fleet);
        }),

        // A rental house: a line a product with its rate, and below it each unit that there is of it.
        LastBook("last-56", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var grid = new Grid(Word(pen, "Stock"));
            var (kind, maker, model) = (pen.Kind(), pen.Maker(), pen.Model());
            Column[] units =
            [
                pen.Code(), pen.Serial(), pen.StatusInAnyWord(), pen.Place(), pen.Day(),
                new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Certificate(),
            ];
            string[] product = [Word(pen, "ItemNo"), kind.Header, maker.Header, model.Header, Word(pen, "Pieces"), Word(pen, "Rate")];
            grid.Lines.Add(new(LineSort.Header, product.Concat(units.Select(c => c.Header)).Select(h => new Cell(h))));
            foreach (var (of, n) in fleet.GroupBy(i => i.Model).Select((g, n) => (g.ToList(), n)))
            {
                // What stands of the product holds for each of its units.
                Cell OfAll(Column column) =>
                    column.Write(of[0], null) with { Means = [.. of.SelectMany(i => column.Write(i, null).Means)] };

                grid.Lines.Add(new(LineSort.Data,
                [
                    new($"{10 + n}-{pen.Dice.From(100, 999)}"), OfAll(kind), OfAll(maker), OfAll(model), Count(of.Count),
                    Decimal(pen, pen.Dice.From(8, 24) + 0.5, 2),
                ]));
                grid.Lines.AddRange(of.Select(i => new Line(LineSort.Data,
                    [.. Enumerable.Repeat(Cell.Blank, product.Length), .. units.Select(c => c.Write(i, i.Last))])));
            }
            return [grid];
        }),

        // A technician's round: a sheet a year, microphones above with what they had the year before, calibrators below.
        LastBook("last-57", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var (model, serial, day) = (Short(pen, pen.Model(), "ShortModel"), Short(pen, pen.Serial(), "ShortSerial"),
                Short(pen, pen.Day(), "ShortDay"));
            Column by = Told(Word(pen, "By"), _ => pen.Dice.One(["hb", "hb", "K."]));
            Column[] mics =
            [
                serial, model,
                new($"{Word(pen, "YearBefore")} [mV/Pa]",
                    (i, r) => Before(i, r!) is { } b ? new(pen.Value(b)) { Typed = b.Value } : Cell.Blank),
                new("mV/Pa", Pen.Result(pen.Bare)), Moved(pen, "Δ dB"), day, by,
            ];
            Column[] calibrators = [serial, model, new("dB", Pen.Result(pen.Bare)), new("Hz", pen.Frequency().Write), day, by];
            return [.. fleet.EachResult().GroupBy(p => p.Item2!.Day.Year).OrderByDescending(g => g.Key).Select(year =>
            {
                var grid = new Grid(year.Key.ToString(CultureInfo.InvariantCulture));
                grid.Add($"{Word(pen, "Round")} {year.Key}");
                Part(Sort.Microphone, mics, year.Where(p => p.Item1.IsMicrophone));
                Part(Sort.Calibrator, calibrators, year.Where(p => p.Item1.IsCalibrator));
                grid.Lines.ImplyKind();
                return grid;

                void Part(Sort sort, Column[] columns, IEnumerable<(Instrument, Calibrated?)> rows)
                {
                    if (!rows.Any()) return;
                    grid.Blank();
                    grid.Add(pen.Words.Plural(sort)[0]);
                    grid.Table(columns, rows);
                }
            })];
        }),

        // A works' planner of what is due: twelve narrow months with a cross in one, days but no results.
        Last("last-58", (pen, fleet, grid) =>
        {
            grid.Add($"{Word(pen, "Planner")} 2026");
            grid.Table(
                [
                    pen.Code(), pen.KindInAnyWord(), pen.Model(), pen.Serial(),
                    Told(Word(pen, "Section"), _ => pen.Dice.One(["E2", "E4", "QL"])), pen.Day(),
                    Told(Word(pen, "Interval"), _ => "12"), pen.Due(),
                    .. Enumerable.Range(1, 12).Select(m => new Column(pen.Words.Months[m - 1][..1].ToUpperInvariant(),
                        (i, r) => new(r is { Day: var d } && d.AddYears(1) is { Year: 2026 } due && due.Month == m ? "x" : ""))),
                    Told(Word(pen, "Ordered"), _ => pen.Dice.Once(3) ? Word(pen, "Yes") : ""),
                ],
                fleet.Where(i => i.Last is not null).OrderBy(i => i.Last!.Day));
            grid.Blank();
            grid.Add(Word(pen, "Legend"));
        }),

        // A consultancy of five: an annex of its manual, two things to a cell to keep the page narrow.
        LastBook("last-59", (pen, fleet) =>
        {
            var grid = new Grid(Word(pen, "Annex"));
            grid.Add($"{Word(pen, "Annex")} 4: {Word(pen, "AnnexTitle")}");
            grid.Add($"{Word(pen, "AsOn")} {DayText.Of(Kept, pen.Days, pen.Words)}");
            grid.Blank();
            grid.Table(
                [
                    Numbered(Word(pen, "Entry")), pen.Kind(),
                    new($"{pen.Head(Said.Model)} ({pen.Head(Said.Maker)})", (i, _) => new($"{i.Model} ({i.Maker})",
                        Pen.Text(Said.Model, i, i.Model), Pen.Text(Said.Maker, i, i.Maker))),
                    new($"{pen.Head(Said.Serial)} / {pen.Head(Said.Code)}", (i, _) => new($"{i.Serial} / {i.Code}",
                        Pen.Text(Said.Serial, i, i.Serial), Pen.Text(Said.Code, i, i.Code))),
                    new($"{pen.Head(Said.Number)} ({pen.Head(Said.Day)})", Pen.Result((i, r) => new(
                        $"{r.Number} ({DayText.Of(r.Day, pen.Days, pen.Words)})",
                        [Pen.Text(Said.Number, i, r.Number, r), .. pen.DayCell(i, r).Means]))),
                    new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Due(),
                    Told(Word(pen, "Keeper"), _ => pen.Dice.One(["M. Ohmsen", "I. Brack"])),
                ],
                fleet.Where(i => i.Last is not null));
            return [grid];
        }),

        // A calibration laboratory: its own standards, what each should have, what it has, and the laboratory that it was calibrated at.
        Last("last-60", (pen, fleet, grid) =>
        {
            pen.Days = pen.IsUsual ? pen.Days : DayStyle.LongMonth;
            grid.Add(Word(pen, "Standards"));
            grid.Table(
                [
                    pen.KindInAnyWord(), pen.Maker(), pen.Model(), pen.Serial(),
                    Told(Word(pen, "Nominal"), i => $"{pen.Number(i.Nominal!.Value, i.Nominal % 1 == 0 ? 0 : 1)} {i.Last!.Unit}"),
                    new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), UncertaintyInDecibels(pen, "U (k = 2)", tellsFactor: true),
                    pen.Frequency(), pen.Day(), pen.Due(), pen.Certificate(),
                    pen.IsUsual ? pen.Laboratory() : pen.Laboratory() with { Header = Word(pen, "Traceable") },
                    Moved(pen, $"{Word(pen, "Change")} (dB)"),
                    Told(Word(pen, "Use"), i => Word(pen, i.IsMicrophone && pen.Dice.Once(3) ? "UseReference" : "UseWorking")),
                ],
                fleet.Where(i => i.IsMicrophone || i.IsCalibrator));
        }),
    ];

    /// <summary>Who borrowed what: it names devices by their codes, and says nothing that a register keeps.</summary>
    private static Grid Loans(Pen pen, IReadOnlyList<Instrument> fleet)
    {
        var grid = new Grid(Word(pen, "Loans"));
        grid.Lines.Add(new(LineSort.Header, Word(pen, "LoanHeads").Split(',').Select(h => new Cell(h))));
        foreach (var i in fleet.Where(i => i.IsMicrophone).Take(4))
        {
            var day = Kept.AddDays(-pen.Dice.From(3, 90));
            grid.Lines.Add(new(LineSort.Data,
            [
                new(i.Code), new(pen.Dice.One(["Tilde O.", "Pr. 3", "A. Vigneau"])), Day(pen, day),
                pen.Dice.Once(2) ? Day(pen, day.AddDays(2)) : Cell.Blank,
            ]));
        }
        return grid;
    }

    private static Grid Sheet(string name, IEnumerable<Instrument> devices, Column[] columns)
    {
        var grid = new Grid(name);
        grid.Table(columns, devices);
        return grid;
    }

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => InventoryShapes.Mics(fleet);

    private static Shape Last(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw) =>
        Shape.Text(name, draw) with { Words = Vocabulary.FormerlyLast6 };

    private static Shape LastBook(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) =>
        Shape.Book(name, draw) with { Words = Vocabulary.FormerlyLast6 };
}
