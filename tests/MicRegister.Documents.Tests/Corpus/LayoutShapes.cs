namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Inventories with more on the page than a table.</summary>
internal static class LayoutShapes
{
    private static readonly Sort[] Order = Enum.GetValues<Sort>();

    public static IReadOnlyList<Shape> All { get; } =
    [
        Shape.Text("kinds-as-headings", (pen, fleet, grid) =>
        {
            Column[] columns = [pen.Maker(), pen.Model(), pen.Serial(), pen.Code(), pen.Place(), pen.Day(), pen.ValueWithUnit()];
            grid.Lines.Add(columns.Header());
            foreach (var group in fleet.GroupBy(i => i.Sort))
            {
                grid.Add(pen.Dice.One(pen.Words.Plural(group.Key)));
                grid.Rows(columns, group.Select(i => (i, i.Last)));
            }
            grid.Lines.ImplyKind();
        }),

        // Size and kind in one heading, with blank lines around.
        Shape.Book("headings-with-size", (pen, fleet) =>
        {
            var grid = new Grid(pen.Words.Word("Inventory"));
            Column[] columns = [pen.Model(), pen.Serial(), pen.Place(), pen.Status()];
            grid.Lines.Add(columns.Header());
            foreach (var group in fleet.Where(i => i.IsMicrophone).GroupBy(i => i.SizeMm))
            {
                grid.Blank();
                grid.Add($"{pen.Words.Plural(Sort.Microphone)[0]} 1/{(group.Key > 10 ? 2 : 4)}\"");
                grid.Merges.Add($"A{grid.Lines.Count}:D{grid.Lines.Count}");
                grid.Rows(columns, group.Select(i => (i, (Calibrated?)null)));
                foreach (var line in grid.Lines.TakeLast(group.Count()))
                    line.Implied.AddRange(line.Cells.SelectMany(c => c.Means).Select(m => m.Owner).Distinct()
                        .Select(i => Pen.Of(Said.Size, i, null, i.SizeMm!.Value, "mm")).ToList());
            }
            grid.Lines.ImplyKind();
            return [grid];
        }),

        Shape.Book("kinds-as-sheets", (pen, fleet) => [.. fleet.GroupBy(i => i.Sort).Select(g =>
        {
            var grid = new Grid(pen.Words.Plural(g.Key)[0]);
            grid.Table([pen.Maker(), pen.Model(), pen.Serial(), pen.Code(), pen.Status(), pen.Place()], g);
            grid.Lines.ImplyKind();
            return grid;
        })]),

        Shape.Text("header-in-row-37", (pen, fleet, grid) =>
        {
            string[] address = ["Institut für Schallmessung", "Am Hang 4", "D-00000 Nordheim", "",
                $"Tel. 0000/12345, {pen.Words.Word("Page")} 1", "", pen.Words.Word("Hint")];
            for (var i = 0; i < 36; i++) grid.Add(i < address.Length ? address[i] : i % 5 == 0 ? $"{pen.Words.Word("Inventory")} {i}" : "");
            grid.Table([pen.Kind(), pen.Model(), pen.Serial(), pen.Day(), pen.ValueWithUnit()], fleet);
        }),

        // The old sheet holds slips that were mended since.
        Shape.Book("old-sheet", (pen, fleet) =>
        {
            Column[] columns = [pen.Kind(), pen.Model(), pen.Serial(), pen.Place(), pen.Day(), pen.ValueWithUnit()];
            var now = new Grid("2026");
            now.Table(columns, fleet.Skip(1));
            var old = new Grid(pen.Words.Word("Old")) { IsDoubtful = true };
            old.Lines.Add(columns.Header());
            foreach (var i in fleet.Take(6).Where(i => i.Last is not null))
            {
                var line = columns.Row(i, i.Last! with { Value = Math.Round(i.Last.Value * 0.93, 2) });
                line.Cells[^1] = new(line.Cells[^1].Text);
                line.Cells[3] = new("Attic");
                old.Lines.Add(line);
            }
            return [now, old];
        }),

        // Rows that a filter hides are rows; a hidden sheet of choices is no table of devices.
        Shape.Book("hidden-rows-and-lists", (pen, fleet) =>
        {
            Column[] columns = [pen.Kind(), pen.Model(), pen.Serial(), pen.Status(), pen.Place()];
            var grid = new Grid(pen.Words.Word("Inventory"));
            grid.Lines.Add(columns.Header());
            foreach (var i in fleet) grid.Lines.Add(new(LineSort.Data, columns.Row(i).Cells) { IsHidden = pen.Dice.Once(4) });
            var lists = new Grid(pen.Words.Word("Lists")) { IsHidden = true };
            lists.Add(pen.Head(Said.Model), pen.Head(Said.Status));
            lists.Add("MK-50", pen.Words.Statuses(fleet[0].Status)[0]);
            lists.Add("PF 250", "");
            return [grid, lists];
        }),

        Shape.Book("titles-totals-footnotes", (pen, fleet) =>
        {
            Column[] columns = [pen.Kind(), pen.Model(), pen.Serial(), pen.Code(), pen.Place()];
            var grid = new Grid("A");
            grid.Add($"{pen.Words.Word("Inventory")} 2026");
            grid.Merges.Add("A1:E1");
            grid.Blank();
            grid.Lines.Add(columns.Header());
            foreach (var (i, n) in fleet.Select((i, n) => (i, n)))
            {
                grid.Lines.Add(columns.Row(i));
                if (n % 6 != 5) continue;
                grid.Add($"{pen.Words.Word("Page")} {n / 6 + 1} / 3", "", "", "", "06/2026");
                grid.Lines.Add(columns.Header());
            }
            grid.Add(pen.Words.Word("Total"), "", fleet.Count.ToString(System.Globalization.CultureInfo.InvariantCulture));
            grid.Add("* " + pen.Words.Word("Hint"));
            return [grid];
        }),

        Shape.Book("two-row-header", (pen, fleet) =>
        {
            Column[] columns = [pen.Kind(), pen.Model(), pen.Serial(), pen.Day(),
                new(pen.Head(Said.Value, "mV/Pa"), Pen.Result(pen.Bare)), pen.Laboratory()];
            var grid = new Grid("A");
            grid.Add(pen.Words.Word("Inventory"), "", "", pen.Words.Word("History"), "", "");
            grid.Merges.AddRange(["A1:C1", "D1:F1"]);
            grid.Table(columns, InventoryShapes.Mics(fleet));
            return [grid];
        }),

        // The unit and the last word of each header stand in a second row, as in narrow columns.
        Shape.Text("header-broken-in-two", (pen, fleet, grid) =>
        {
            Column[] columns = [pen.Kind(), pen.Model(), new(pen.Words.Headers(Said.Serial)[0], (i, _) => Pen.Number(i)), pen.Day(),
                new(pen.Head(Said.Value), Pen.Result(pen.Bare))];
            var header = columns.Select(c => c.Header.Split(' ', 2)).ToList();
            grid.Add([.. header.Select(h => h[0])]);
            grid.Add([.. header.Select((h, n) => n == header.Count - 1 ? "[mV/Pa]" : h.Length > 1 ? h[1] : "")]);
            grid.Rows(columns, InventoryShapes.Mics(fleet).Select(i => (i, i.Last)));
        }),

        Shape.Text("one-column-a-device", (pen, fleet, grid) =>
        {
            Column[] columns = [pen.Kind(), pen.Model(), pen.Serial(), pen.Place(), pen.Day(), pen.ValueWithUnit()];
            foreach (var column in columns)
                grid.Lines.Add(new(LineSort.Other, [new(column.Header), .. fleet.Take(6).Select(i => column.Write(i, i.Last))]));
        }, needsPerson: true),
    ];
}
