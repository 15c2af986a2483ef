using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>Devices one below the other, a line a detail: <i>Serial no. | 14552</i>, again and again.</summary>
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
        var pairs = rows.Select(r => (Row: r, Halves: LabelledLine.Halves(r))).ToList();
        if (pairs.Count(p => p.Halves is not null) * 10 < rows.Count * 9) return null;
        var labels = new List<string>();
        var cards = new List<(int Number, bool IsHidden, Dictionary<string, Cell> Says)>();
        foreach (var (row, halves) in pairs)
        {
            if (halves is not var (label, text, _)) continue;
            var cell = row.Cells.LastOrDefault(c => !c.IsBlank) is var last && last.Shown == text ? last : new Cell(text);
            // The first label begins the next card. Another that stands twice may be a line of a card whose first is lost.
            var isFirst = labels.Count == 0 || string.Equals(label, labels[0], StringComparison.OrdinalIgnoreCase);
            if (cards.Count > 0 && cards[^1].Says.TryGetValue(label, out var known))
            {
                if (known.Shown == text) continue;
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
}
