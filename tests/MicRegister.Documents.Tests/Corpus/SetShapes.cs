using System.Globalization;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Lists whose rows stand for several devices, and logs of campaigns.</summary>
internal static class SetShapes
{
    public static IReadOnlyList<Shape> All { get; } =
    [
        Shape.Text("two-devices-a-row", (pen, fleet, grid) =>
        {
            var (mic, amp) = (pen.Words.Singular(Sort.Microphone)[0], pen.Words.Singular(Sort.Preamplifier)[0]);
            var amplifiers = fleet.Where(i => i.Sort == Sort.Preamplifier).ToList();
            Column[] columns =
            [
                new($"{mic} {pen.Words.Headers(Said.Model)[0]}", pen.Model().Write),
                    new($"{mic} {pen.Words.Headers(Said.Serial)[0]}", pen.Serial().Write), pen.Sensitivity(), pen.Day(),
            ];
            Column[] other = [new($"{amp} {pen.Words.Headers(Said.Model)[0]}", pen.Model().Write),
                new($"{amp} {pen.Words.Headers(Said.Serial)[0]}", pen.Serial().Write)];
            grid.Lines.Add(new(LineSort.Header, [.. columns.Concat(other).Select(c => new Cell(c.Header)), new(pen.Head(Said.Place))]));
            foreach (var (i, n) in InventoryShapes.Mics(fleet).Select((i, n) => (i, n)))
            {
                var with = n < amplifiers.Count ? amplifiers[n] : null;
                grid.Lines.Add(new(LineSort.Data,
                [
                    .. columns.Row(i, i.Last).Cells, .. with is null ? [Cell.Blank, Cell.Blank] : other.Row(with).Cells,
                    new(i.Place, with is null ? [Pen.Text(Said.Place, i, i.Place)]
                        : [Pen.Text(Said.Place, i, i.Place), Pen.Text(Said.Place, with, i.Place)]),
                ]));
            }
            grid.Lines.ImplyKind();
        }),

        Shape.Book("devices-side-by-side", (pen, fleet) =>
        {
            var grid = new Grid("1");
            var (left, right) = (InventoryShapes.Mics(fleet).ToList(), fleet.Where(i => i.IsCalibrator).ToList());
            Column[] columns = [new(pen.Words.Headers(Said.Model)[0], pen.Model().Write),
                new(pen.Words.Headers(Said.Serial)[0], pen.Serial().Write)];
            grid.Add(pen.Words.Plural(Sort.Microphone)[0], "", "", pen.Words.Plural(Sort.Calibrator)[0], "");
            grid.Lines.Add(new(LineSort.Header, [.. columns.Header().Cells, Cell.Blank, .. columns.Header().Cells]));
            for (var n = 0; n < left.Count; n++)
                grid.Lines.Add(new(LineSort.Data, n < right.Count
                    ? [.. columns.Row(left[n]).Cells, Cell.Blank, .. columns.Row(right[n]).Cells] : columns.Row(left[n]).Cells));
            grid.Lines.ImplyKind();
            return [grid];
        }),

        // Readings of checks in the field are no calibrations.
        Shape.Text("campaign-log", (pen, fleet, grid) =>
        {
            var mic = $"{pen.Words.Singular(Sort.Microphone)[0]} {pen.Words.Headers(Said.Serial)[0]}";
            grid.Lines.Add(new(LineSort.Header, new[]
            {
                pen.Words.Word("Station"), pen.Words.Word("Placed"), mic, $"{pen.Words.Word("Before")} [dB]",
                    $"{pen.Words.Word("After")} [dB]", pen.Head(Said.Remark),
            }.Select(h => new Cell(h))));
            foreach (var (i, n) in InventoryShapes.Mics(fleet).Select((i, n) => (i, n)))
            {
                var before = pen.Dice.Between(93.8, 94.2, 2);
                grid.Lines.Add(new(LineSort.Data,
                [
                    new("P" + (n + 1).ToString(CultureInfo.InvariantCulture)), new($"{7 + n}:{pen.Dice.From(10, 59)}"),
                        Pen.Number(i) with { IsDoubtful = true },
                    new(pen.Number(before, 2)), new(pen.Number(before + pen.Dice.Between(-0.1, 0.1, 2), 2)), Cell.Blank,
                ]));
            }
        }, needsPerson: true),

        Shape.Text("chains-of-a-campaign", (pen, fleet, grid) =>
        {
            var amplifiers = fleet.Where(i => i.Sort == Sort.Preamplifier).ToList();
            grid.Lines.Add(new(LineSort.Header, new[]
            {
                pen.Words.Word("Station"), pen.Words.Singular(Sort.Microphone)[0], pen.Words.Singular(Sort.Preamplifier)[0],
                    pen.Words.Singular(Sort.Plate)[0],
            }.Select(h => new Cell(h))));
            var plates = fleet.Where(i => i.Sort == Sort.Plate).ToList();
            for (var n = 0; n < 2; n++)
            {
                grid.Lines.Add(new(LineSort.Data,
                [
                    new($"S{n + 1}"), Pen.Number(fleet[n]) with { IsDoubtful = true }, Pen.Number(amplifiers[n]) with { IsDoubtful = true },
                    Pen.Number(plates[n]) with { IsDoubtful = true },
                ]));
            }
        }, needsPerson: true),
    ];
}
