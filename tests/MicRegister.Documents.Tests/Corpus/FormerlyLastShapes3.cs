using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Shapes of the third time that once counted alone, before readers learned by them.</summary>
internal static class FormerlyLastShapes3
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        // A university's laboratory: a sheet a sort of device.
        LastBook("last-21", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var sheets = new[] { Sort.Microphone, Sort.Calibrator, Sort.Preamplifier }
                .Select(s => new Grid(pen.Words.Plural(s)[0])).ToArray();
            sheets[0].Table(
                [
                    pen.Maker(), pen.Model(), pen.Serial(), Size(pen), Nominal(pen),
                    new(pen.With($"{pen.Head(Said.Value)} {Word(pen, "At")}", "mV/Pa"), Pen.Result((i, r) =>
                        new(pen.Value(r), Pen.Of(Said.Value, i, r, r.Value, r.Unit), Pen.Of(Said.Hz, i, r, 250, "Hz"))
                        { Typed = r.Value })),
                    pen.Uncertainty(tellsFactor: true), pen.Day(), pen.Place(),
                    pen.Other(Said.Initials, _ => pen.Dice.One(["HB", "MO", "TS"])),
                ],
                Mics(fleet));
            sheets[1].Table(
                [pen.Maker(), pen.Model(), pen.Serial(), pen.Level(), pen.Frequency(), pen.Day(), pen.Place()],
                fleet.Where(i => i.IsCalibrator));
            sheets[2].Table([pen.Maker(), pen.Model(), pen.Serial(), pen.Place()], fleet.Where(i => i.Sort == Sort.Preamplifier));
            foreach (var sheet in sheets) sheet.Lines.ImplyKind();
            return sheets;
        }),

        // An airport's noise office: a row a monitoring point, with the microphone and the preamplifier that stand there.
        Last("last-22", (pen, fleet, grid) =>
        {
            var columns = new[]
            {
                Numbered(Word(pen, "Point")), pen.Place(), Of(pen, Said.Model, Sort.Microphone), Of(pen, Said.Serial, Sort.Microphone),
                pen.Sensitivity(), pen.Day(), pen.Due(),
            };
            var amplifier = new[] { Of(pen, Said.Model, Sort.Preamplifier), Of(pen, Said.Serial, Sort.Preamplifier) };
            var since = new Column(Word(pen, "Since"), (_, _) => Count(pen.Dice.From(2009, 2021)));
            grid.Add(Word(pen, "AirportTitle"), "", $"{Word(pen, "AsOfDay")}: {DayText.Of(new(2026, 3, 16), pen.Days, pen.Words)}");
            grid.Blank();
            grid.Lines.Add(new(LineSort.Header,
                columns.Take(4).Concat(amplifier).Concat(columns.Skip(4)).Append(since).Select(c => new Cell(c.Header))));
            foreach (var mic in Mics(fleet))
            {
                var other = Amplifier(pen, mic);
                var cells = columns.Select(c => c.Write(mic, mic.Last)).ToList();
                // The place is that of both.
                cells[1] = cells[1] with { Means = [.. cells[1].Means, Pen.Text(Said.Place, other, mic.Place)] };
                cells.InsertRange(4, amplifier.Select(c => c.Write(other, null)));
                cells.Add(since.Write(mic, null));
                grid.Lines.Add(new Line(LineSort.Data, cells).Implying(
                    [Pen.Text(Said.Kind, mic, mic.Kind), Pen.Text(Said.Kind, other, other.Kind)]));
            }
        }),

        // A test centre: a table of its database as it was exported, a row a calibration.
        Last("last-23", (pen, fleet, grid) =>
        {
            pen.Days = DayStyle.Iso;
            Column[] columns =
            [
                pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Certificate(), pen.Laboratory(), pen.Day(),
                new(pen.Head(Said.Result), Pen.Result(pen.Bare)), Unit(pen), pen.Uncertainty(), pen.Factor(), pen.Frequency(),
                pen.Pressure(), pen.Temperature(), pen.Humidity(),
            ];
            grid.Table([.. columns.Select(c => c with { Header = AsField(c.Header) })], fleet.EachResult());
        }),

        // A contractor: what a thing is stands in one cell, in words.
        LastBook("last-24", (pen, fleet) =>
        {
            var grid = new Grid(pen.Words.Word("Inventory"));
            grid.Add(Word(pen, "ContractorTitle"));
            grid.Add($"{Word(pen, "AsOfDay")}: {DayText.Of(new(2026, 1, 12), pen.Days, pen.Words)}");
            grid.Blank();
            grid.Table(
                [
                    Numbered(pen.Words.Word("Item")), pen.Code(),
                    new(Word(pen, "Description"), (i, _) => new($"{pen.Words.Singular(i.Sort)[0]} {i.Model} ({i.Maker})",
                        Pen.Text(Said.Kind, i, i.Kind), Pen.Text(Said.Model, i, i.Model), Pen.Text(Said.Maker, i, i.Maker))),
                    pen.Serial(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Day(), pen.Certificate(), pen.Due(),
                    pen.Other(Said.Remark, _ => ""),
                ],
                fleet);
            grid.Blank();
            grid.Add($"{Word(pen, "CheckedBy")}: HB");
            return [grid];
        }),

        // A rental company: what is there to be lent, and what it costs.
        Last("last-25", (pen, fleet, grid) => grid.Table(
            [
                pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.StatusInAnyWord(), pen.Place(),
                new(Word(pen, "Rate"), (i, _) => new(pen.Number(i.IsMicrophone ? 18.5 : 12, 2))), pen.Day(),
                new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Due(),
            ],
            fleet)),

        // What a laboratory puts into the box with the devices that it sends back.
        Last("last-26", (pen, fleet, grid) =>
        {
            var laboratory = pen.Dice.One(fleet.Where(i => i.Last is not null).ToList()).Last!.Laboratory;
            grid.Add(Word(pen, "DeliveryNote"), $"L-2026-{pen.Dice.From(100, 999)}");
            grid.Add(Word(pen, "Customer"), Word(pen, "CustomerName"));
            grid.Add(pen.Head(Said.Lab), laboratory);
            grid.Add(Word(pen, "Sent"), DayText.Of(new(2026, 2, 2), pen.Days, pen.Words));
            grid.Blank();
            Column[] columns =
            [
                Numbered(pen.Words.Word("Item")), pen.KindInAnyWord(), pen.Maker(), pen.Model(), pen.Serial(), pen.Frequency(),
                new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Uncertainty(tellsFactor: true), pen.Certificate(),
                pen.Day(), pen.Due(),
            ];
            grid.Lines.Add(columns.Header());
            foreach (var i in fleet.Where(i => i.IsMicrophone || i.IsCalibrator))
                grid.Lines.Add(columns.Row(i, i.Last).Implying([Pen.Text(Said.Lab, i, laboratory, i.Last)]));
            grid.Blank();
            grid.Add(Word(pen, "Thanks"));
        }),

        // A small consultancy: one sheet, calibrations side by side, calibrators below the microphones.
        LastBook("last-27", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var grid = new Grid(Word(pen, "Owned"));
            Part(Sort.Microphone, "mV/Pa", Mics(fleet));
            grid.Blank();
            Part(Sort.Calibrator, "dB", fleet.Where(i => i.IsCalibrator));
            grid.Lines.ImplyKind();
            return [grid];

            void Part(Sort sort, string unit, IEnumerable<Instrument> devices)
            {
                grid.Add(pen.Words.Plural(sort)[0]);
                Column[] first = [pen.Code(), pen.Model(), pen.Serial()];
                var each = Enumerable.Range(1, 4).Select(n => $"{Word(pen, "Cal")} {n}")
                    .SelectMany(c => new Cell[] { new($"{c} {Word(pen, "CalDate")}"), new($"{c} [{unit}]") });
                grid.Lines.Add(new(LineSort.Header, first.Select(c => new Cell(c.Header)).Concat(each)));
                grid.Lines.AddRange(devices.Select(i => new Line(LineSort.Data,
                    first.Select(c => c.Write(i, null)).Concat(i.Results.SelectMany(r => new[] { pen.DayCell(i, r), pen.Bare(i, r) })))));
            }
        }),

        // A factory's gauges: a wide table, most of which is of no use to a register.
        Last("last-28", (pen, fleet, grid) => grid.Table(
            [
                pen.Code(), pen.Kind(), pen.Model(), pen.Maker(), pen.Serial(),
                new(Word(pen, "Department"), (_, _) => new(Department(pen))),
                pen.Place(), pen.Other(Said.Initials, _ => pen.Dice.One(["KR", "LW", "PN"])), pen.Status(),
                new(Word(pen, "Months12"), (i, _) => i.Last is null ? Cell.Blank : Count(12)), pen.Day(),
                Limit(pen, "Lower", -1.5), new(pen.Head(Said.Result), Pen.Result(pen.Bare)), Limit(pen, "Upper", 1.5), Unit(pen),
                new(Word(pen, "Verdict"), (_, r) => new(r is null ? "" : Word(pen, "Passed"))), pen.Certificate(), pen.Due(),
            ],
            fleet)),

        // A broadcaster: a sheet of devices, and a log that knows them by their numbers.
        LastBook("last-29", (pen, fleet) =>
        {
            var stock = new Grid(Word(pen, "Stock"));
            stock.Table([pen.Code(), pen.KindInAnyWord(), pen.Maker(), pen.Model(), pen.Serial(), pen.Place(), pen.Status()], fleet);
            var log = new Grid(Word(pen, "Log"));
            log.Table(
                [
                    pen.Day(), pen.Code(), pen.Model(),
                    new(pen.Head(Said.Result), Pen.Result((i, r) => i.IsMicrophone ? pen.AsLevel(i, r) : pen.Bare(i, r))),
                    new(pen.Head(Said.Unit), Pen.Result((i, _) => new(i.IsMicrophone ? "dB re 1 V/Pa" : "dB"))), pen.Laboratory(),
                ],
                fleet.EachResult().OrderBy(p => p.Item2!.Day));
            return [stock, log];
        }),

        // A military range: days without marks, a column for what each sort of device gives.
        Last("last-30", (pen, fleet, grid) =>
        {
            Column Only(Column column, Func<Instrument, bool> of) =>
                column with { Write = (i, r) => of(i) ? column.Write(i, r) : Cell.Blank };

            grid.Add(Word(pen, "Marking"));
            grid.Table(
                [
                    Numbered(Word(pen, "Line")), pen.Kind(), pen.Model(), pen.Serial(), pen.Status(),
                    new(Word(pen, "Custodian"), (_, _) => new(pen.Dice.One(["Sgt. Ohm", "Lt. Brack"]))), pen.Place(),
                    Only(Compact(pen, Said.Day, 0), i => i.IsMicrophone || i.IsCalibrator),
                    Only(pen.Sensitivity(), i => i.IsMicrophone), Only(pen.Level(), i => i.IsCalibrator),
                    Only(pen.Frequency(), i => i.IsMicrophone || i.IsCalibrator),
                    Only(Compact(pen, Said.Due, 1), i => i.IsMicrophone || i.IsCalibrator),
                ],
                fleet);
            grid.Add(Word(pen, "Marking"));
        }),
    ];

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => fleet.Where(i => i.IsMicrophone);

    private static string Word(Pen pen, string key) => Vocabulary.FormerlyLast3(pen.Words.Tongue).Word(key);

    private static Column Numbered(string header)
    {
        var number = 0;
        return new(header, (_, _) => Count(++number));
    }

    private static Cell Count(int number) => new(number.ToString(CultureInfo.InvariantCulture)) { Typed = number };

    private static Column Size(Pen pen) =>
        new(pen.Head(Said.Size), (i, _) => new(i.SizeMm > 10 ? "1/2\"" : "1/4\"", Pen.Of(Said.Size, i, null, i.SizeMm!.Value, "mm")));

    private static Column Nominal(Pen pen) => new(pen.Head(Said.Nominal, "mV/Pa"),
        (i, _) => new(pen.Number(i.Nominal!.Value, i.Nominal % 1 == 0 ? 0 : 1)) { Typed = i.Nominal });

    private static Column Unit(Pen pen) => new(pen.Head(Said.Unit), Pen.Result((_, r) => new(r.Unit)));

    /// <summary>A column of one of two devices in a row: its header says of which.</summary>
    private static Column Of(Pen pen, Said what, Sort sort) => new($"{pen.Head(what)} ({pen.Words.Singular(sort)[0]})",
        (i, _) => what == Said.Serial ? Pen.Number(i) : new(i.Model, Pen.Text(Said.Model, i, i.Model)));

    private static Instrument Amplifier(Pen pen, Instrument mic) => new(mic.Id + "p", Sort.Preamplifier, "Velmora", "VP-2",
        $"{50 + pen.Dice.Below(40)}{mic.Id[1..]}{pen.Dice.From(100, 999)}", "", mic.Status, mic.Place, 12.7, null, []);

    private static string Department(Pen pen) => pen.Dice.One(["QS-3", "QS-4", "NVH"]);

    private static Column Limit(Pen pen, string key, double decibels) => new(Word(pen, key), (i, r) => r is null ? Cell.Blank
        : new(pen.Number(i.IsMicrophone ? i.Nominal!.Value * Math.Pow(10, decibels / 20) : (i.Nominal ?? 0) + decibels, 2)));

    private static Column Compact(Pen pen, Said what, int years) => new($"{pen.Head(what)} ({Word(pen, "Compact")})", Pen.Result((i, r) =>
    {
        var day = r.Day.AddYears(years);
        return new(day.ToString("yyyyMMdd", CultureInfo.InvariantCulture),
            Pen.Text(what, i, day.ToString("O", CultureInfo.InvariantCulture), r));
    }));

    /// <summary>A header as a database spells it: capitals without marks, underscores between words.</summary>
    private static string AsField(string header)
    {
        var plain = header.ToLowerInvariant().Replace("°c", "c", StringComparison.Ordinal).Replace("%", "pct", StringComparison.Ordinal)
            .Replace("ä", "ae", StringComparison.Ordinal).Replace("ö", "oe", StringComparison.Ordinal)
            .Replace("ü", "ue", StringComparison.Ordinal).Replace("ß", "ss", StringComparison.Ordinal);
        var signs = plain
            .Select(c => "áàâéèêëíîïóôúûçñ".IndexOf(c, StringComparison.Ordinal) is var n and >= 0 ? "aaaeeeeiiioouucn"[n] : c)
            .Where(c => c is not ('º' or '°')).Select(c => char.IsAsciiLetterOrDigit(c) ? char.ToUpperInvariant(c) : '_');
        return string.Join('_', string.Concat(signs).Split('_', StringSplitOptions.RemoveEmptyEntries));
    }

    private static Shape Last(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw) =>
        Shape.Text(name, draw) with { Words = Vocabulary.FormerlyLast3 };

    private static Shape LastBook(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) =>
        Shape.Book(name, draw) with { Words = Vocabulary.FormerlyLast3 };
}
