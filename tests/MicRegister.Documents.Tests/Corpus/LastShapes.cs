using MicRegister.Register.Devices;
using static MicRegister.Documents.Tests.Corpus.LastColumns;
using static MicRegister.Documents.Tests.Corpus.ListColumns;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Shapes that no reader was made by: they count alone, and tell how it fares with what nobody foresaw.</summary>
internal static class LastShapes
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        // A school of engineering: the calibration outside and the check in the house beside one another, each with a day of its own.
        LastBook("last-61", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            Column[] device = [pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial()];
            Column[] outside =
            [
                Headed(pen, pen.Day(), "On"), new(pen.Head(Said.Result), Pen.Result(pen.Bare)), UnitColumn(pen, r => r.Unit),
                pen.Certificate(), pen.Laboratory(),
            ];
            Column[] inside =
            [
                OtherDay(pen, Word(pen, "On"), 60, 140),
                new(Word(pen, "Found"), Pen.Result((_, _) => Decimal(pen, pen.Dice.Between(-0.1, 0.1, 2), 2))),
                Told(Word(pen, "By"), i => i.Last is null ? "" : pen.Dice.One(["ka", "ka", "WM"])),
            ];
            var grid = new Grid(Word(pen, "SchoolSheet"));
            grid.Add(Word(pen, "SchoolTitle"));
            grid.Blank();
            grid.Lines.Add(new(LineSort.Header, new[]
            {
                Word(pen, "Device"), "", "", "", "", Word(pen, "Outside"), "", "", "", "", Word(pen, "Inside"), "", "",
            }.Select(t => new Cell(t))));
            grid.Merges.AddRange(["A3:E3", "F3:J3", "K3:M3"]);
            grid.Table([.. device, .. outside, .. inside], fleet);
            return [grid];
        }),

        // An airport: each of its monitors with what it is made of; number and site stand once, over merged rows.
        LastBook("last-62", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var (place, kind) = (Headed(pen, pen.Place(), "Site"), Headed(pen, pen.Kind(), "Component"));
            Column[] columns =
            [
                kind, pen.Model(), pen.Serial(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Day(), pen.Due(),
                Remarks(pen, 7),
            ];
            var grid = new Grid(Word(pen, "Monitors"));
            grid.Add($"{Word(pen, "MonitorsTitle")} – {Today(pen)}");
            grid.Blank();
            grid.Lines.Add(new(LineSort.Header, new[] { Word(pen, "Monitor"), place.Header }.Select(t => new Cell(t))
                .Concat(columns.Header().Cells)));
            var (mics, others) = (Mics(fleet).ToList(), fleet.Where(i => i.Sort is Sort.Preamplifier or Sort.Calibrator).ToList());
            foreach (var (site, n) in Word(pen, "Sites").Split(',').Select((s, n) => (s, n)))
            {
                List<Instrument> parts = [mics[n] with { Place = site }];
                if (n < others.Count) parts.Add(others[n] with { Place = site });
                var first = grid.Lines.Count + 1;
                foreach (var i in parts)
                {
                    Cell[] ahead = i == parts[0] ? [new($"{n + 1:00}"), place.Write(i, null)] : [Cell.Blank, Cell.Blank];
                    grid.Lines.Add(new Line(LineSort.Data, [.. ahead, .. columns.Row(i, i.Last).Cells])
                        .Implying([Pen.Text(Said.Place, i, site)]));
                }
                if (parts.Count > 1) grid.Merges.AddRange(new[] { "A", "B" }.Select(c => $"{c}{first}:{c}{grid.Lines.Count}"));
            }
            return [grid];
        }),

        // A rental store: an article is named in one cell, what is out says until when, and plugs are tested for safety on days of theirs.
        Last("last-63", (pen, fleet, grid) =>
        {
            var status = pen.Status();
            grid.Table(
                [
                    Told(Word(pen, "ArticleNo"), i => $"{310 + (int)i.Sort}.{i.Model.Sum(c => c)}"),
                    new(Word(pen, "Article"), (i, _) => new($"{i.Maker} {i.Model}, {pen.Words.Singular(i.Sort)[0]}",
                        Pen.Text(Said.Maker, i, i.Maker), Pen.Text(Said.Model, i, i.Model), Pen.Text(Said.Kind, i, i.Kind))),
                    pen.Code(), pen.Serial(),
                    status with
                    {
                        Write = (i, r) => status.Write(i, r) is var cell && i.Status == DeviceStatus.Away
                            ? cell with { Text = $"{Word(pen, "OutUntil")} {Near(pen, 1, 20)}" } : cell,
                    },
                    new(Word(pen, "Deposit"), (_, _) => Decimal(pen, pen.Dice.From(2, 12) * 50, 2)),
                    Told(Word(pen, "Safety"), i => i.Sort is Sort.Channel or Sort.Preamplifier ? Near(pen, -340, -20) : ""),
                    pen.Day(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Certificate(),
                    Told(Word(pen, "InBox"), i => i.IsMicrophone ? AnyWord(pen, "BoxParts") : ""),
                ],
                fleet);
        }),

        // A maker of vehicle parts: which microphone is on which channel of a test bench; sensitivities in V/Pa, as a recorder wants them.
        Last("last-64", (pen, fleet, grid) =>
        {
            grid.Add($"{Word(pen, "ChannelTitle")} 3");
            grid.Add($"{Word(pen, "Project")}: P-{pen.Dice.From(1100, 1990)}", "", $"{Word(pen, "On")}: {Today(pen)}");
            grid.Blank();
            var points = Word(pen, "Points").Split(',');
            Column[] columns =
            [
                Numbered(Word(pen, "Channel")), new(Word(pen, "Point"), (i, _) => new(points[(i.Id[1] - '1') % points.Length])),
                pen.Model(), pen.Serial(),
                new($"{pen.Head(Said.Value)} [V/Pa]", Pen.Result((i, r) => new(pen.Number(r.Value / 1000, 6),
                    Pen.Of(Said.Value, i, r, Math.Round(r.Value / 1000, 6), "V/Pa")))),
                Told(Word(pen, "Range"), _ => pen.Dice.One(["1", "1", "10"])), pen.Day(), Remarks(pen, 6),
            ];
            grid.Table(columns, Mics(fleet));
            grid.Lines.ImplyKind();
            foreach (var n in new[] { 10, 11, 12 }) grid.Lines.Add(new(LineSort.Data, [Count(n), new(Word(pen, "Free"))]));
        }),

        // A county's noise office: what the law wants to be verified has a year of its own, and each thing a keeper.
        Last("last-65", (pen, fleet, grid) =>
        {
            if (!pen.IsUsual && pen.Words.Tongue is Tongue.English or Tongue.French) pen.Days = DayStyle.LongMonth;
            if (!pen.IsUsual && pen.Words.Tongue is Tongue.Spanish or Tongue.Italian) pen.Days = DayStyle.Dashes;
            grid.Add(Word(pen, "OfficeTitle"), "", "", "", Today(pen));
            grid.Blank();
            grid.Table(
                [
                    Numbered(Word(pen, "No")), pen.KindInAnyWord(), pen.Maker(), pen.Model(), pen.Serial(), pen.Code(), pen.Place(),
                    Told(Word(pen, "Acquired"), _ => $"{pen.Dice.From(2009, 2021)}"),
                    VerifiedUntil(pen) with { Write = (i, r) => i.IsCalibrator ? VerifiedUntil(pen).Write(i, r) : Cell.Blank },
                    pen.Day(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)), pen.Certificate(),
                    Told(Word(pen, "Keeper"), _ => pen.Dice.One(["Ohmsen", "Brack", "Vigneau"])), Told(Word(pen, "Extension"), _ =>
                        $"{pen.Dice.From(310, 399)}"),
                ],
                fleet);
        }),

        // A technician of an anechoic room: the days of each round are the heads, the microphones stand below one another.
        LastBook("last-66", (pen, fleet) =>
        {
            List<DateOnly> rounds = [.. new[] { 2025, 2024, 2023 }.Select(y => new DateOnly(y, pen.Dice.From(2, 4), pen.Dice.From(3, 27)))];
            Column Round(DateOnly day, int back) => new("", (i, _) =>
            {
                if (back >= i.Results.Count) return Cell.Blank;
                var r = i.Results[^(back + 1)] with { Day = day };
                var cell = pen.Bare(i, r);
                return cell with { Means = [.. cell.Means, Pen.Text(Said.Day, i, $"{day:O}", r)] };
            });

            Column[] device = [pen.Serial(), pen.Model(), Size(pen)];
            Column[] columns = [.. device, .. rounds.Select(Round)];
            var grid = new Grid(pen.Words.Plural(Sort.Microphone)[0]);
            grid.Add($"{Word(pen, "RoundsTitle")} [mV/Pa]");
            grid.Lines.Add(new(LineSort.Header, [.. device.Header().Cells, .. rounds.Select(d => Day(pen, d)),
                new(Word(pen, "Drift")), new(Word(pen, "Lives"))]));
            foreach (var i in Mics(fleet))
            {
                grid.Lines.Add(new(LineSort.Data,
                [
                    .. columns.Row(i).Cells, Decimal(pen, i.Results[^1].Level - i.Results[^2].Level, 2),
                    Somewhere(i, pen.Dice.One(["A3", "A3", "B1"])),
                ]));
            }
            grid.Lines.ImplyKind();
            return [grid];
        }),

        // A practice of acoustic consultants: short names, day and laboratory in one cell, the value with its frequency in another.
        Last("last-67", (pen, fleet, grid) =>
        {
            grid.Add(Word(pen, "KitTitle"));
            var numbers = new Dictionary<string, int>();
            grid.Table(
                [
                    Told(Word(pen, "ShortName"), i => Word(pen, "Short" + (i.IsCalibrator ? Sort.Calibrator : i.Sort)) is var name
                        ? $"{name}{numbers[name] = numbers.GetValueOrDefault(name) + 1}" : ""),
                    pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(),
                    new(Word(pen, "DayAndLab"), Pen.Result((i, r) => new($"{DayText.Of(r.Day, pen.Days, pen.Words)}, {r.Laboratory}",
                        [.. pen.DayCell(i, r).Means, Pen.Text(Said.Lab, i, r.Laboratory, r)]))),
                    new(pen.Head(Said.Result), Pen.Result((i, r) => new($"{pen.WithUnit(i, r).Text} ({pen.Number(r.Hz, 0)} Hz)",
                        [.. pen.WithUnit(i, r).Means, Pen.Of(Said.Hz, i, r, r.Hz, "Hz")]))),
                    pen.Due(), new(Word(pen, "Car"), (i, _) => Somewhere(i, pen.Dice.One(["1", "2", "–"]))), Remarks(pen, 5),
                ],
                fleet.Where(i => i.Last is not null));
        }),

        // A works' own calibration service: its order book, with the days on which things came and went.
        Last("last-68", (pen, fleet, grid) =>
        {
            if (pen.Words.Tongue == Tongue.English) pen.Days = DayStyle.Slashes;
            var order = 2140;
            Column before = OtherDay(pen, Word(pen, "Received"), -14, -3), after = OtherDay(pen, Word(pen, "Returned"), 1, 6);
            grid.Table(
                [
                    new(Word(pen, "Order"), (_, _) => new($"KD{++order}")), before, Told(Word(pen, "Customer"), _ =>
                        AnyWord(pen, "Customers")),
                    pen.KindInAnyWord(), pen.Maker(), pen.Model(), pen.Serial(), pen.Day(),
                    new(pen.Head(Said.Result), Pen.Result(pen.Bare)), UnitColumn(pen, r => r.Unit), pen.Uncertainty(), Air(pen),
                    pen.Certificate(), after, Told(Word(pen, "Hours"), _ => pen.Number(pen.Dice.From(2, 7) / 2.0, 1)),
                ],
                fleet.EachResult().OrderBy(p => p.Item2!.Day));
        }),

        // A maker of aircraft parts: calibrations by the laboratory that does them, due in a month; each group adds up what it cost.
        Last("last-69", (pen, fleet, grid) =>
        {
            grid.Add(Word(pen, "OutTitle"));
            Column[] columns =
            [
                pen.Code(), pen.KindInAnyWord(), pen.Model(), pen.Serial(), pen.Day(), new(pen.Head(Said.Result), Pen.Result(pen.WithUnit)),
                pen.Certificate(), DueMonth(pen), new(Word(pen, "Cost"), (_, _) => Decimal(pen, pen.Dice.From(18, 46) * 5, 2)),
                Told(Word(pen, "PurchaseOrder"), _ => pen.Dice.Once(3) ? $"B-{pen.Dice.From(7000, 7999)}" : ""),
            ];
            var lab = pen.Head(Said.Lab);
            grid.Lines.Add(columns.Header());
            foreach (var group in fleet.Where(i => i.Last is not null).GroupBy(i => i.Last!.Laboratory)
                .OrderBy(g => g.Key, StringComparer.Ordinal))
            {
                grid.Add($"{lab}: {group.Key}");
                var cost = 0.0;
                foreach (var i in group)
                {
                    var line = columns.Row(i, i.Last).Implying([Pen.Text(Said.Lab, i, group.Key, i.Last)]);
                    cost += line.Cells[^2].Typed!.Value;
                    grid.Lines.Add(line);
                }
                grid.Lines.Add(new(LineSort.Other,
                    [.. Enumerable.Repeat(Cell.Blank, 7), new(pen.Words.Word("Total")), Decimal(pen, cost, 2)]));
            }
        }),

        // A test house for household goods: what the book is, the list with numbers for states, and who changed what.
        LastBook("last-70", (pen, fleet) =>
        {
            pen.Days = DayStyle.Typed;
            var about = new Grid(Word(pen, "About"));
            foreach (var line in new[] { "AboutTitle", "About1", "About2" }) about.Add(Word(pen, line));
            var list = new Grid(Word(pen, "List"));
            var states = Enum.GetValues<DeviceStatus>();
            var status = pen.Head(Said.Status);
            list.Add(Word(pen, "AboutTitle"));
            list.Add($"{status}: {string.Join(", ", states.Select((s, n) => $"{n + 1} = {pen.Words.Statuses(s)[0]}"))}");
            list.Blank();
            list.Table(
                [
                    pen.Code(), pen.Kind(), pen.Maker(), pen.Model(), pen.Serial(), pen.Place(),
                    new(status, (i, _) => Count(Array.IndexOf(states, i.Status) + 1) with
                    {
                        Means = [Pen.Text(Said.Status, i, i.Status.ToString())],
                    }),
                    pen.Day(), new(pen.Head(Said.Result), Pen.Result((i, r) => i.IsMicrophone ? pen.AsLevel(i, r) : pen.Bare(i, r))),
                    UnitColumn(pen, r => r.Unit == "dB" ? "dB" : "dB re 1 V/Pa"),
                    new(pen.Head(Said.U), Pen.Result((i, r) => new($"± {pen.Number(r.U, 2)} dB (k = 2)",
                        Pen.Of(Said.U, i, r, r.U, "dB"), Pen.Of(Said.K, i, r, 2, "")))),
                    pen.Laboratory(), pen.Due(),
                ],
                fleet);
            var changes = new Grid(Word(pen, "Changes"));
            changes.Lines.Add(new(LineSort.Header, Word(pen, "ChangeHeads").Split(',').Select(h => new Cell(h))));
            for (var n = 0; n < 5; n++)
            {
                changes.Lines.Add(new(LineSort.Data,
                    [Day(pen, Kept.AddDays(20 * n - 100)), new(pen.Dice.One(["R. Ohm", "Vi"])), new(AnyWord(pen, "ChangeTexts"))]));
            }
            return [about, list, changes];
        }),
    ];

    private static IEnumerable<Instrument> Mics(IEnumerable<Instrument> fleet) => InventoryShapes.Mics(fleet);

    private static Shape Last(string name, Action<Pen, IReadOnlyList<Instrument>, Grid> draw) =>
        Shape.Text(name, draw) with { Words = Vocabulary.Last };

    private static Shape LastBook(string name, Func<Pen, IReadOnlyList<Instrument>, IReadOnlyList<Grid>> draw) =>
        Shape.Book(name, draw) with { Words = Vocabulary.Last };
}
