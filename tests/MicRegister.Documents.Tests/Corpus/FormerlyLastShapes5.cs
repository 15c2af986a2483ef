using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Shapes of the fifth time that once counted alone.</summary>
internal static class FormerlyLastShapes5
{
    private static readonly DateOnly Kept = new(2026, 5, 4);

    public static IReadOnlyList<Shape> All { get; } =
    [
        // An airport: what stands at each of its stations, the microphone and its preamplifier side by side under heads of their own.
        LastBook("last-41", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var grid = new Grid(Word(pen, "Stations"));
            grid.Add(Word(pen, "StationsTitle"));
            grid.Blank();
            var (model, serial, amplifierModel, amplifierSerial) = (pen.Model(), pen.Serial(), pen.Model(), pen.Serial());
            Column[] mic = [model, serial, pen.Day(), pen.Sensitivity(), pen.Due()];
            grid.Lines.Add(new(LineSort.Header, new[]
            {
                "", "", pen.Words.Singular(Sort.Microphone)[0], "", "", "", "", pen.Words.Singular(Sort.Preamplifier)[0], "",
            }.Select(t => new Cell(t))));
            grid.Lines.Add(new(LineSort.Header, new[] { Word(pen, "Station"), Word(pen, "Site") }.Concat(mic.Select(c => c.Header))
                .Append(amplifierModel.Header).Append(amplifierSerial.Header).Append(Word(pen, "Fitted")).Select(t => new Cell(t))));
            foreach (var (i, n) in Mics(fleet).Select((i, n) => (i, n)))
            {
                var amplifier = Amplifier(pen, i);
                var fitted = i.Last!.Day.AddDays(pen.Dice.From(5, 30));
                grid.Lines.Add(new Line(LineSort.Data,
                [
                    new($"N{n + 1:00}"), new(pen.Dice.One(["Alder Farm", "Mill Lane", "Hohe Warte", "Quai Sud"])),
                    .. mic.Select(c => c.Write(i, i.Last)), amplifierModel.Write(amplifier, null), amplifierSerial.Write(amplifier, null),
                    new(DayText.Of(fitted, pen.Days, pen.Words)) { Typed = DayText.Number(fitted, false), Shown = Shown.Day },
                ]).Implying([Pen.Text(Said.Kind, i, i.Kind), Pen.Text(Said.Kind, amplifier, amplifier.Kind)]));
            }
            return [grid];
        }),

        // A university's pool, from which its institutes borrow: who to ask, and the result with its day in one cell.
        Last("last-42", (pen, fleet, grid) => grid.Table(
            [
                pen.Code(), pen.KindInAnyWord(), pen.Maker(), pen.Model(), pen.Serial(), pen.Place(),
                Told(Word(pen, "InCharge"), _ => pen.Dice.One(["L. Ohmsen", "P. Brack", "A. Vigneau"])),
                Told(Word(pen, "Phone"), _ => $"-{pen.Dice.From(2100, 2990)}"),
                new(Word(pen, "ResultAndDay"), Pen.Result((i, r) => new(
                    $"{pen.WithUnit(i, r).Text} ({DayText.Of(r.Day, pen.Days, pen.Words)})",
                    [.. pen.WithUnit(i, r).Means, .. pen.DayCell(i, r).Means]))),
                Told(Word(pen, "Booking"), _ => Word(pen, pen.Dice.Once(3) ? "Booked" : "Free")),
                pen.Other(Said.Remark, _ => ""),
            ],
            fleet)),

        // A rental shop that ships abroad: what customs and insurance ask for.
        Last("last-43", (pen, fleet, grid) => grid.Table(
            [
                Numbered(Word(pen, "Item")), Told(Word(pen, "Quantity"), _ => "1"), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(),
                pen.Code(), pen.StatusInAnyWord(),
                new(Word(pen, "Weight"), (_, _) => Decimal(pen, pen.Dice.Between(0.1, 2.4, 2), 2)),
                Told(Word(pen, "Tariff"), _ => pen.Dice.One(["90278017", "85181000"])),
                Told(Word(pen, "Origin"), _ => pen.Dice.One(["DE", "DK", "US"])),
                new(Word(pen, "Insured"), (_, _) => Decimal(pen, pen.Dice.From(8, 30) * 100, 2)),
                pen.Day(), pen.Certificate(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)),
            ],
            fleet)),

        // A test house: its programme for test equipment, printed as a table, with what was wanted and how far off it was.
        Last("last-44", (pen, fleet, grid) => grid.Table(
            [
                pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Status(), Told(Word(pen, "Interval"), _ => "12"),
                Told(Word(pen, "How"), i => Word(pen, i.Last?.Laboratory == "House lab" ? "Internal" : "External")), pen.Day(), pen.Due(),
                pen.Laboratory(), pen.Certificate(), new(Word(pen, "Target"), Pen.Result((i, _) => Decimal(pen, Target(i), 1))),
                new(pen.Head(Said.Result), Pen.Result(pen.Bare)), new(pen.Head(Said.Unit), Pen.Result((_, r) => new(r.Unit))),
                new($"{Word(pen, "Deviation")} [dB]", Pen.Result((i, r) => Decimal(pen, Off(i, r), 2))),
                new($"{Word(pen, "Tolerance")} [dB]", Pen.Result((i, _) => Decimal(pen, i.IsMicrophone ? 1.5 : 0.4, 1))),
                Told(Word(pen, "Verdict"), i => i.Last is null ? "" : Word(pen, "Pass")),
            ],
            fleet)),

        // A team that travels: a sheet a case, and one that says which case holds how much.
        LastBook("last-45", (pen, fleet) =>
        {
            var contents = new Grid(Word(pen, "Contents"));
            contents.Lines.Add(new(LineSort.Header, [new(Word(pen, "Case")), new(Word(pen, "Pieces"))]));
            var sheets = new List<Grid> { contents };
            foreach (var (part, n) in fleet.Where(i => i.Last is not null).Chunk(5).Select((p, n) => (p, n)))
            {
                var name = $"{Word(pen, "Case")} {n + 1}";
                contents.Add(name, Count(part.Length).Text);
                var sheet = new Grid(name);
                sheet.Add(name);
                Column Only(Column column, bool ofMics) =>
                    column with { Write = (i, r) => i.IsMicrophone == ofMics ? column.Write(i, r) : Cell.Blank };

                sheet.Table(
                    [
                        Numbered(Word(pen, "Slot")), pen.KindInAnyWord(), pen.Model(), pen.Serial(), Only(pen.Sensitivity(), true),
                        Only(pen.Level(), false), pen.Frequency(), pen.Day(), Told(Word(pen, "Packed"), _ => ""),
                    ],
                    part);
                sheets.Add(sheet);
            }
            return sheets;
        }),

        // A laboratory's cards typed into one file: who it is on one line, then a small table of all its calibrations.
        Last("last-46", (pen, fleet, grid) =>
        {
            var (kind, maker, model, serial) = (pen.Kind(), pen.Maker(), pen.Model(), pen.Serial());
            Column[] columns =
                [pen.Day(), pen.ValueWithUnit(), pen.Uncertainty(), pen.Laboratory(), pen.Certificate(), Told(Word(pen, "Sign"), _ => "")];
            foreach (var i in fleet.Where(i => i.Last is not null))
            {
                grid.Lines.Add(new(LineSort.Data, new[] { kind, maker, model, serial }
                    .SelectMany(c => new[] { new(c.Header + ":"), c.Write(i, null) })));
                grid.Lines.Add(columns.Header());
                grid.Rows(columns, i.Results.Select(r => (i, (Calibrated?)r)));
                grid.Blank();
            }
        }),

        // A consultancy of three: maker and type in one cell, the sensitivity in both units, and what the insurer wants to know.
        LastBook("last-47", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var grid = new Grid(Word(pen, "Kit"));
            grid.Table(
                [
                    new(Word(pen, "MakerAndType"),
                        (i, _) => new($"{i.Maker} {i.Model}", Pen.Text(Said.Maker, i, i.Maker), Pen.Text(Said.Model, i, i.Model))),
                    pen.Serial(), pen.Sensitivity(), new($"{Word(pen, "Level")} [dB re 1 V/Pa]", Pen.Result(pen.LevelAgain)), pen.Day(),
                    new(Word(pen, "Paid"), (_, _) => Decimal(pen, pen.Dice.From(500, 1900), 2)),
                    Told(Word(pen, "OnPolicy"), _ => Word(pen, pen.Dice.Once(3) ? "No" : "Yes")), pen.Place(),
                ],
                Mics(fleet));
            grid.Lines.ImplyKind();
            return [grid];
        }),

        // An authority's property book: every thing has a part number too, which is no serial number, and a condition as a letter.
        Last("last-48", (pen, fleet, grid) =>
        {
            grid.Add(Word(pen, "BookTitle"), DayText.Of(Kept, pen.Days, pen.Words));
            grid.Blank();
            grid.Table(
                [
                    Numbered(Word(pen, "Line")), Told(Word(pen, "PartNo"), i => $"6625-12-{100 + i.Model.Length}-{4000 + i.Model[0]}"),
                    pen.Kind(), pen.Model(), pen.Serial(), pen.Code(), Told(Word(pen, "Issue"), _ => Word(pen, "Piece")),
                    Told(Word(pen, "Condition"), _ => pen.Dice.One(["A", "A", "B", "F"])), pen.Place(),
                    Told(Word(pen, "Bought"), i => Count(2006 + i.Serial.Length).Text),
                    Told(Word(pen, "Obliged"), i => Word(pen, i.Last is null ? "No" : "Yes")), pen.Day(), pen.Due(),
                    new($"{pen.Head(Said.Value)} [dB re 1 V/Pa]", Pen.Result((i, r) => i.IsMicrophone ? pen.AsLevel(i, r) : Cell.Blank)),
                    new($"{pen.Head(Said.Level)} [dB]", Pen.Result((i, r) => i.IsCalibrator ? pen.Bare(i, r) : Cell.Blank)),
                ],
                fleet.Where(i => i.Sort != Sort.Preamplifier));
        }),

        // A service's book of all calibrations as they came back: what it was before, what it is now, and how far it moved.
        LastBook("last-49", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var grid = new Grid(Word(pen, "Book"));
            grid.Table(
                [
                    pen.Day(), pen.Code(), pen.Kind(), pen.Model(), pen.Serial(),
                    new(Word(pen, "Before"), (i, r) => Before(i, r) is { } b ? Decimal(pen, b.Value, 2) : new("-")),
                    new(Word(pen, "Now"), Pen.Result(pen.Bare)), new(pen.Head(Said.Unit), Pen.Result((_, r) => new(r.Unit))),
                    new($"{Word(pen, "Moved")} [dB]",
                        (i, r) => Before(i, r) is { } b ? Decimal(pen, r!.Level - b.Level, 2) : new("-")),
                    pen.Uncertainty(tellsFactor: true), pen.Laboratory(), pen.Certificate(),
                ],
                fleet.EachResult().OrderBy(p => p.Item2!.Day));
            return [grid];
        }),

        // A circuit's noise office: what is lent to whom, with three more days that are none of a calibration.
        Last("last-50", (pen, fleet, grid) =>
        {
            Column[] columns =
            [
                pen.KindInAnyWord(), pen.Code(), pen.Model(), pen.Serial(),
                Told(Word(pen, "LentTo"), _ => pen.Dice.One(["Team Nord", "Marshal 4", ""])),
                Told(Word(pen, "OutSince"), _ => Near(pen, -60, -20)), Told(Word(pen, "BackBy"), _ => Near(pen, 5, 40)),
                pen.ValueWithUnit(), pen.Day(), pen.Due(), Told(Word(pen, "LastSeen"), _ => Near(pen, -19, -1)),
            ];
            grid.Lines.Add(columns.Header());
            grid.Rows(columns, fleet.Select(i => (i, i.Last)));
            grid.Blank();
            grid.Add(Word(pen, "Rule"));
        }),
    ];

    private static double Target(Instrument i) => i.Nominal ?? 0;

    private static double Off(Instrument i, Calibrated r) =>
        i.IsMicrophone ? 20 * Math.Log10(r.Value / i.Nominal!.Value) : r.Value - Target(i);

    private static Calibrated? Before(Instrument i, Calibrated? r) => i.Results.TakeWhile(o => o != r).LastOrDefault();

    private static Instrument Amplifier(Pen pen, Instrument mic) => new(mic.Id + "p", Sort.Preamplifier, "Velmora", "VP-2",
        $"{50 + pen.Dice.Below(40)}{mic.Id[1..]}{pen.Dice.From(100, 999)}", "", mic.Status, mic.Place, 12.7, null, []);

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => InventoryShapes.Mics(fleet);

    private static string Word(Pen pen, string key) => Vocabulary.FormerlyLast5(pen.Words.Tongue).Word(key);

    private static string Near(Pen pen, int first, int last) =>
        DayText.Of(Kept.AddDays(pen.Dice.From(first, last)), pen.Days, pen.Words);

    private static Column Numbered(string header)
    {
        var number = 0;
        return new(header, (_, _) => Count(++number));
    }

    private static Cell Count(int number) => new(number.ToString(CultureInfo.InvariantCulture)) { Typed = number };

    private static Cell Decimal(Pen pen, double value, int decimals) =>
        new(pen.Number(value, decimals)) { Typed = Math.Round(value, decimals) };

    /// <summary>A column of which a register knows nothing.</summary>
    private static Column Told(string header, Func<Instrument, string> text) => new(header, (i, _) => new(text(i)));

    private static Shape Last(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw) =>
        Shape.Text(name, draw) with { Words = Vocabulary.FormerlyLast5 };

    private static Shape LastBook(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) =>
        Shape.Book(name, draw) with { Words = Vocabulary.FormerlyLast5 };
}
