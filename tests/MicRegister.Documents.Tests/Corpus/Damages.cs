namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Something that happened to a list before it came here.</summary>
/// <param name="Name">What happened.</param>
/// <param name="IsForPerson">Whether what it hit can only be settled by a person: a question or nothing, never a wrong value.</param>
/// <param name="Apply">Does it; false where the draft has no place for it.</param>
internal sealed record Damage(string Name, bool IsForPerson, Func<Draft, Dice, bool> Apply)
{
    public bool TryOn(Draft draft, Dice dice)
    {
        var before = draft.Written.ToHashSet(StringComparer.Ordinal);
        if (!Apply(draft, dice)) return false;
        (draft.Damage, draft.IsForPerson, draft.Touched) = (Name, IsForPerson, [.. draft.Written.Where(l => !before.Contains(l))]);
        return true;
    }
}

/// <summary>All damages: those of the file as a whole here, those of single cells in <see cref="CellDamages"/>.</summary>
internal static class Damages
{
    public static IReadOnlyList<Damage> All { get; } =
    [
        OfText("mark-before", (d, _) => d.Code = TextCode.Utf8WithMark),
        OfText("utf-16", (d, _) => d.Code = TextCode.Utf16),
        OfLetters("windows-1252", TextCode.Windows1252),
        OfLetters("mixed-codes", TextCode.Mixed),
        OfText("separator-hint", (d, _) => d.HasHint = true),
        OfText("tabs", (d, _) => d.Separator = '\t'),
        OfText("other-separator", (d, _) => d.Separator = d.Separator == ',' ? ';' : '|'),
        OfText("trailing-separators", (d, _) => EachLine(d, l => l.Cells.AddRange([Cell.Blank, Cell.Blank, Cell.Blank]))),
        new("stray-quote", false, StrayQuote),
        new("quotes-left-bare", false, (d, _) => !d.IsWorkbook && d.Data
            .Any(l => l.Cells.Any(c => c.Text.Contains('"', StringComparison.Ordinal))) && (d.LeavesQuotes = true)),
        new("short-row", false, ShortRow),
        Always("blank-lines", (d, dice) =>
        {
            foreach (var grid in d.Grids.Where(g => g.Merges.Count == 0))
            {
                for (var n = grid.Lines.Count - 1; n > 1; n--)
                {
                    if (grid.Lines[n].Sort == LineSort.Data && dice.Once(4)) grid.Lines.Insert(n, Line.Of());
                }
            }
        }),
        Always("headers-in-capitals", (d, _) => EachLine(d, l =>
        {
            for (var c = 0; l.Sort == LineSort.Header
                && c < l.Cells.Count; c++) l.Cells[c] = l.Cells[c] with { Text = Capitals(l.Cells[c].Text) };
        })),
        Always("blanks-around", (d, dice) => EachLine(d, l =>
        {
            for (var c = 0; l.Sort == LineSort.Data && c < l.Cells.Count; c++)
                if (l.Cells[c].Text.Length > 0
                    && dice.Once(3)) l.Cells[c] = l.Cells[c] with { Text = dice.One([" {0}", "{0}  ", "{0}\u00A0"]).Replace("{0}",
                    l.Cells[c].Text, StringComparison.Ordinal) };
        })),
        Always("total-row", (d, _) => d.Grids[^1].Lines.Add(Line.Of(Vocabulary.Of(d.Tongue).Word("Total"), "", "19"))),
        new("row-twice", false, (d, dice) =>
        {
            if (Pick(d, dice, l => l.Cells.Any(c => c.Says(Said.Serial))) is not var (grid, at) || grid.Merges.Count > 0) return false;
            grid.Lines.Insert(at + 1, grid.Lines[at].Copy());
            return true;
        }),
        .. CellDamages.All,
    ];

    /// <summary>A line of data of a draft that fits, with its sheet and place; null where there is none.</summary>
    public static (Grid Grid, int At)? Pick(Draft draft, Dice dice, Func<Line, bool> fits)
    {
        var found = draft.Grids.Where(g => !g.IsDoubtful)
            .SelectMany(g => g.Lines.Select((l, n) => (Grid: g, At: n, Line: l)).Where(p => p.Line.Sort == LineSort.Data && fits(p.Line)))
                .ToList();
        return found.Count == 0 ? null : dice.One(found) is var one ? (one.Grid, one.At) : null;
    }

    private static Damage OfText(string name, Action<Draft, Dice> apply) => new(name, false, (d, dice) =>
    {
        if (d.IsWorkbook) return false;
        apply(d, dice);
        return true;
    });

    // Where all letters are ASCII, these codes are the same as UTF-8.
    private static Damage OfLetters(string name, TextCode code) => new(name, false, (d, _) =>
    {
        if (d.IsWorkbook || !d.Written.Any(l => l.Any(c => c is > '\x7f' and < '\x100'))) return false;
        d.Code = code;
        return true;
    });

    private static Damage Always(string name, Action<Draft, Dice> apply) => new(name, false, (d, dice) =>
    {
        apply(d, dice);
        return true;
    });

    private static void EachLine(Draft draft, Action<Line> change)
    {
        foreach (var line in draft.Grids.SelectMany(g => g.Lines)) change(line);
    }

    // A quote that opens and never closes, in a cell that does not matter.
    private static bool StrayQuote(Draft draft, Dice dice)
    {
        if (draft.IsWorkbook || Pick(draft, dice, l => Light(l) >= 0) is not var (grid, at)) return false;
        var cells = grid.Lines[at].Cells;
        var c = Light(grid.Lines[at]);
        cells[c] = new("\"" + cells[c].Text, [.. cells[c].Means.Select(m => m with { Value = Stated.Anything })]);
        draft.LeavesQuotes = true;
        return true;
    }

    private static int Light(Line line) =>
        line.Cells.FindIndex(c => c.Means.Length == 1 && c.Means[0].What is Said.Maker or Said.Place or Said.Lab);

    private static bool ShortRow(Draft draft, Dice dice)
    {
        if (Pick(draft, dice, l => l.Cells.FindLastIndex(c => c.Says(Said.Serial)) is var s and >= 0
            && s < l.Cells.Count - 1) is not var (grid, at) || grid.Merges.Count > 0) return false;
        var cells = grid.Lines[at].Cells;
        var keep = dice.From(cells.FindLastIndex(c => c.Says(Said.Serial)) + 1, cells.Count - 1);
        cells.RemoveRange(keep, cells.Count - keep);
        return true;
    }

    // Units keep their letters, or mV would become MV.
    private static string Capitals(string header)
    {
        var unit = header.IndexOfAny(['[', '(']);
        if (header.Contains("/Pa", StringComparison.Ordinal) && unit < 0) return header;
        return unit < 0 ? header.ToUpperInvariant() : header[..unit].ToUpperInvariant() + header[unit..];
    }
}
