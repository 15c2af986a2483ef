namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Damages of single cells.</summary>
internal static class CellDamages
{
    private static readonly string[] Typos = ["mV/PA", "mv/pa", "mV / Pa", "mV/Pa.", "mV/ Pa"];

    public static IReadOnlyList<Damage> All { get; } =
    [
        new("odd-signs-in-serials", false, OddSigns),
        new("thousands-marks", false, (d, dice) =>
            Each(d, c => c.Says(Said.Hz) && c.Means[0].Value.Number is 1000, c => Text(c, dice.One(Marks(d))))),
        new("value-missing", false, (d, dice) => One(d, dice, c => c.Says(Said.Value), c => new Cell(dice.One(["", "n/a", "-", "?"])))),
        new("value-as-formula", true, (d, dice) => d.IsWorkbook
            && One(d, dice, c => c.Says(Said.Value), c => Doubtful(c) with { IsUnworked = true })),
        new("value-ten-times", true, (d, dice) =>
        {
            var known = Known(d);
            return One(d, dice, c => IsIn(c, "mV/Pa") && known.Contains(c.Means[0].Owner), c => Doubtful(Replaced(c, v => v * 10, d)));
        }),
        new("sign-lost", true, (d, dice) =>
            One(d, dice, c => IsIn(c, "dB re 1 V/Pa") && c.Means[0].Value.Number < 0, c => Doubtful(Replaced(c, v => -v, d)))),
        new("unit-typo", false, (d, dice) =>
            One(d, dice, HasUnit, c => Text(c, c.Text.Replace("mV/Pa", dice.One(Typos), StringComparison.Ordinal)))),
        new("unit-wrong", true, (d, dice) =>
            One(d, dice, HasUnit, c => Doubtful(Text(c, c.Text.Replace("mV/Pa", "V/Pa", StringComparison.Ordinal))))),
        new("other-decimal-mark", false, (d, dice) =>
            One(d, dice, c => c.Says(Said.Value) && c.Text.IndexOfAny(['.', ',']) > 0, c => Text(c, Swapped(c.Text)))),
        new("day-that-never-was", true, (d, dice) =>
            One(d, dice, c => c.Says(Said.Day), c => Doubtful(Text(c, dice.One(["31.02.2024", "2024-13-05", "30.02.2023"]))))),
        new("day-to-come", true, (d, dice) => One(d, dice, c => c.Says(Said.Day), c => Doubtful(Text(c, "2062-03-04")))),
        new("row-twice-with-another-value", true, OtherValue),
    ];

    // Microphones of which the list tells enough to doubt a value: there are two others of the model.
    private static HashSet<Instrument> Known(Draft draft)
    {
        var valued = draft.Data.SelectMany(l => l.Cells).Where(c => IsIn(c, "mV/Pa")).Select(c => c.Means[0].Owner).ToHashSet();
        return [.. valued.Where(i => valued.Count(o => o.Model == i.Model) > 2)];
    }

    private static Cell Text(Cell cell, string text) => cell with { Text = text, Typed = null, Shown = Shown.Plain };

    private static Cell Doubtful(Cell cell) => cell with { IsDoubtful = true };

    private static bool HasUnit(Cell cell) => cell.Says(Said.Value) && cell.Text.Contains("mV/Pa", StringComparison.Ordinal);

    private static bool IsIn(Cell cell, string unit) =>
        cell.Means.Length > 0 && cell.Means[0].What == Said.Value && cell.Means[0].Value.Unit == unit;

    /// <summary>The cell with another number in front.</summary>
    private static Cell Replaced(Cell cell, Func<double, double> change, Draft draft)
    {
        var end = cell.Text.TakeWhile(c => char.IsAsciiDigit(c) || c is '.' or ',' or '-').Count();
        var number = Math.Round(change(cell.Means[0].Value.Number!.Value), 3);
        var text = FormattableString.Invariant($"{number}");
        if (Vocabulary.Of(draft.Tongue).HasDecimalComma) text = text.Replace('.', ',');
        return cell with { Text = text + cell.Text[end..], Typed = cell.Typed is null ? null : number };
    }

    private static string Swapped(string text) => new([.. text.Select(c => c switch { '.' => ',', ',' => '.', _ => c })]);

    private static string[] Marks(Draft draft) =>
        Vocabulary.Of(draft.Tongue).HasDecimalComma ? ["1.000", "1\u00A0000", "1 000"] : ["1,000", "1 000", "1'000"];

    private static bool OddSigns(Draft draft, Dice dice) =>
        Each(draft, c => c.Says(Said.Serial) && c.Means.Length == 1, c => Text(c, dice.Below(6) switch
        {
            0 => c.Text.Replace('-', '\u2011'),
            1 => c.Text[..2] + '\u200B' + c.Text[2..],
            2 => new([.. c.Text.Select(s => char.IsAsciiDigit(s) ? (char)(s - '0' + '\uFF10') : s)]),
            3 => c.Text + '\u00A0',
            4 => c.Text.Insert(1, "\u00AD"),
            _ => c.Text.Replace('-', '–'),
        }));

    // The row again, with a value eight per cent off: nobody can tell from the list which one is right.
    private static bool OtherValue(Draft draft, Dice dice)
    {
        if (Damages.Pick(draft, dice, l => l.Cells.Any(c => c.Says(Said.Serial)) && l.Cells.Any(c => IsIn(c, "mV/Pa"))) is not var (grid,
            at) || grid.Merges.Count > 0) return false;
        var twin = grid.Lines[at].Copy();
        var value = twin.Cells.FindIndex(c => IsIn(c, "mV/Pa"));
        grid.Lines[at].Cells[value] = Doubtful(grid.Lines[at].Cells[value]);
        twin.Cells[value] = Doubtful(Replaced(twin.Cells[value], v => v * 1.08, draft));
        grid.Lines.Insert(at + 1, twin);
        return true;
    }

    private static bool One(Draft draft, Dice dice, Func<Cell, bool> fits, Func<Cell, Cell> change)
    {
        if (Damages.Pick(draft, dice, l => l.Cells.Any(fits)) is not var (grid, at)) return false;
        var cells = grid.Lines[at].Cells;
        var places = Enumerable.Range(0, cells.Count).Where(n => fits(cells[n])).ToList();
        var place = dice.One(places);
        cells[place] = change(cells[place]);
        return true;
    }

    private static bool Each(Draft draft, Func<Cell, bool> fits, Func<Cell, Cell> change)
    {
        var count = 0;
        foreach (var line in draft.Data)
        {
            for (var c = 0; c < line.Cells.Count; c++)
            {
                if (!fits(line.Cells[c])) continue;
                line.Cells[c] = change(line.Cells[c]);
                count++;
            }
        }
        return count > 0;
    }
}
