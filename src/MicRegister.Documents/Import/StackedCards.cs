using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// Devices one below the other, a line a detail or two side by side: <i>Serial no. | 14552</i>, again and again. Titles of forms may stand
/// between them.
/// </summary>
internal static class StackedCards
{
    private const int MostRows = 20_000;
    private const int FewestLabels = 3;

    /// <summary>
    /// The same as a table: labels as its header, a row a card, numbered as the card's first line; null where it is none.
    /// </summary>
    public static IReadOnlyList<SheetRow>? Turned(IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        if (rows.Count is < FewestLabels * 2 or > MostRows) return null;
        var lines = rows.Select(r => (Row: r, Pairs: PairsOf(r))).ToList();
        // Forms with two details a line have titles of their own; a table has more cells a line.
        var titles = lines.Exists(l => l.Pairs.Count > 1) ? lines.Count(l => l.Pairs.Count == 0 && RowHeading.Lone(l.Row) is not null) : 0;
        if (titles * 3 > rows.Count || lines.Count(l => l.Pairs.Count > 0) * 10 < (rows.Count - titles) * 9) return null;
        var labels = new List<string>();
        var cards = new List<(int Number, bool IsHidden, Dictionary<string, Cell> Says)>();
        foreach (var (row, label, cell) in lines.SelectMany(l => l.Pairs.Select(p => (l.Row, p.Label, p.Cell))))
        {
            // The first label begins the next card. Another that stands twice may be a line of a card whose first is lost.
            var isFirst = labels.Count == 0 || string.Equals(label, labels[0], StringComparison.OrdinalIgnoreCase);
            if (cards.Count > 0 && cards[^1].Says.TryGetValue(label, out var known))
            {
                if (known.Shown == cell.Shown && (!isFirst || cards[^1].Says.Count == 1)) continue;
                if (!isFirst) return null;
            }
            if (isFirst) cards.Add((row.Number, row.IsHidden, new(StringComparer.OrdinalIgnoreCase)));
            cards[^1].Says[label] = cell;
            if (!labels.Contains(label, StringComparer.OrdinalIgnoreCase)) labels.Add(label);
        }
        if (cards.Count < 2 || labels.Count < FewestLabels) return null;
        var header = new SheetRow(cards[0].Number, [.. labels.Select(l => new Cell(l))]);
        if (TableHeader.TryRead(header, rules) is null) return null;
        return [header, .. cards.Select(c => new SheetRow(c.Number, [.. labels.Select(l => c.Says.GetValueOrDefault(l))], c.IsHidden))];
    }

    // Labels with what stands behind them: of one pair whatever its label is, of several each with a colon.
    private static List<(string Label, Cell Cell)> PairsOf(SheetRow row)
    {
        var ends = row.Fault is null ? Enumerable.Range(0, row.Cells.Length).Where(i => IsLabel(row.At(i))).ToList() : [];
        if (ends.Count > 1)
        {
            var isWhole = Enumerable.Range(0, row.Cells.Length).All(i => row.At(i).IsBlank || ends.Contains(i) || ends.Contains(i - 1));
            return isWhole ? [.. ends.Select(i => (row.At(i).Shown.Trim(' ', ':'), ends.Contains(i + 1) ? default : row.At(i + 1)))] : [];
        }
        if (LabelledLine.Halves(row) is not var (label, text, isLone) || (!isLone && IsOfResults(label) && IsOfResults(text))) return [];
        return [(label, row.Cells.LastOrDefault(c => !c.IsBlank) is var last && last.Shown == text ? last : new Cell(text))];
    }

    // "Date | Result" heads two columns, and is no date.
    private static bool IsOfResults(string text) => !text.Any(char.IsAsciiDigit)
        && HeaderReading.Of(text) is { IsGuess: false, Column: { } column } && ResultGroup.Family.Contains(column);

    private static bool IsLabel(Cell cell) => !cell.IsBlank && cell.Day is null && cell.Shown is { Length: <= 60 } text
        && text.EndsWith(':') && text.Any(char.IsLetter);
}
