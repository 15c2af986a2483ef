using MicRegister.Documents.Drawings;

namespace MicRegister.Documents.Reports;

/// <summary>A table in pieces: its head, which every page repeats, and its rows.</summary>
internal static class ReportGrid
{
    private const double SizeMm = 2.6;
    private const double LineMm = SizeMm * ReportPiece.LineHeight;
    private const double SideMm = 0.9;
    private const double AboveMm = 0.6;

    /// <summary>Longer words are cut before they take the room of other columns.</summary>
    private const double WordMm = 26;

    /// <summary>The pieces of a table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="mostMm">Greatest height of a piece: a row that is higher goes on in the next piece.</param>
    /// <exception cref="ArgumentException">No column or too many, or a row with more cells than the head.</exception>
    public static IEnumerable<ReportPiece> Pieces(ReportTable table, double mostMm)
    {
        if (table.Head.Count is 0 or > ReportTable.MostColumns) throw new ArgumentException($"Table '{table.Caption}' has {table.Head.Count} columns: allowed are 1 to {ReportTable.MostColumns}.", nameof(table));
        if (table.Rows.Any(r => r.Count > table.Head.Count)) throw new ArgumentException($"Table '{table.Caption}' has a row with more cells than its {table.Head.Count} columns.", nameof(table));
        var widths = Widths(table);
        List<ReportPiece> head = [.. Row(table.Head, widths, Role.Quiet, mostMm, null)];
        // A head as high as this would leave a page to nothing else.
        var repeated = head.Count == 1 && head[0].HeightMm <= mostMm / 2 ? head[0] : null;
        for (var i = 0; i < head.Count; i++) yield return head[i] with { KeepsNext = i < head.Count - 1 || table.Rows.Count > 0 };
        foreach (var row in table.Rows)
        {
            foreach (var piece in Row(row, widths, Role.Ink, mostMm, repeated)) yield return piece;
        }
    }

    private static IEnumerable<ReportPiece> Row(IReadOnlyList<string> row, double[] widths, Role role, double mostMm, ReportPiece? head)
    {
        List<List<string>> cells = [.. row.Select((text, c) => TextWidth.Lines(text, SizeMm, widths[c] - (2 * SideMm)))];
        var lines = cells.Count == 0 ? 1 : Math.Max(1, cells.Max(c => c.Count));
        var most = Math.Max(1, (int)((mostMm - (2 * AboveMm)) / LineMm));
        for (var from = 0; from < lines; from += most)
        {
            var (first, count) = (from, Math.Min(most, lines - from));
            yield return new(0, (count * LineMm) + (2 * AboveMm), false, (shapes, y) => Draw(shapes, y, cells, widths, role, first, count), head);
        }
    }

    private static void Draw(List<Shape> shapes, double y, List<List<string>> cells, double[] widths, Role role, int first, int count)
    {
        var x = ReportPages.MarginMm;
        for (var c = 0; c < cells.Count; x += widths[c], c++)
        {
            for (var i = 0; i < count && first + i < cells[c].Count; i++)
                shapes.Add(new Label(role, x + SideMm, y + AboveMm + (i * LineMm) + SizeMm, cells[c][first + i], -1, SizeMm));
        }
        var bottom = y + (count * LineMm) + (2 * AboveMm);
        shapes.Add(new Line(Role.Grid, [(ReportPages.MarginMm, bottom), (ReportPages.MarginMm + widths.Sum(), bottom)]));
    }

    // As wide as the longest line of each; where that is too much, words have their room first and the rest is shared.
    private static double[] Widths(ReportTable table)
    {
        double[] natural = new double[table.Head.Count], least = new double[table.Head.Count];
        foreach (var row in table.Rows.Prepend(table.Head))
        {
            for (var c = 0; c < row.Count; c++)
            {
                natural[c] = Math.Max(natural[c], (2 * SideMm) + row[c].ReplaceLineEndings("\n").Split('\n').Max(line => TextWidth.Mm(line.Trim(), SizeMm)));
                foreach (var word in row[c].Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries))
                    least[c] = Math.Max(least[c], (2 * SideMm) + Math.Min(WordMm, TextWidth.Mm(word, SizeMm)));
            }
        }
        for (var c = 0; c < least.Length; c++) least[c] = Math.Max(least[c], (2 * SideMm) + SizeMm);
        for (var c = 0; c < least.Length; c++) natural[c] = Math.Max(natural[c], least[c]);
        double all = natural.Sum(), words = least.Sum();
        if (all <= ReportPages.TextWidthMm) return natural;
        if (words >= ReportPages.TextWidthMm) return [.. least.Select(w => w * ReportPages.TextWidthMm / words)];
        var share = (ReportPages.TextWidthMm - words) / (all - words);
        return [.. natural.Zip(least, (n, l) => l + ((n - l) * share))];
    }
}
