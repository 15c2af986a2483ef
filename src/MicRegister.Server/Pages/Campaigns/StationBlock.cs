using System.Text;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Server.Work;

namespace MicRegister.Server.Pages.Campaigns;

/// <summary>A block of stations as it comes from a spreadsheet or a list.</summary>
/// <param name="Rows">Rows of cells; parts of a chain that stand in columns of their own are one cell.</param>
/// <param name="LeftOut">Headers that mean no column of stations.</param>
/// <param name="Fault">Why its cells cannot be told apart, with the line; null for a good block.</param>
internal sealed record StationBlock(
    IReadOnlyList<IReadOnlyList<(StationCell Cell, string Text)>> Rows, IReadOnlyList<string> LeftOut, string? Fault = null)
{
    /// <summary>A name that several rows have; null where each has its own.</summary>
    public string? Twice => Rows.Select(r => r.FirstOrDefault(c => c.Cell == StationCell.Name).Text).Where(n => n is { Length: > 0 })
        .GroupBy(n => n, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1)?.Key;

    /// <summary>Reads a block: with a row of headers in their order, without one from the given column on.</summary>
    /// <remarks>A blank row within it stays one, so that those below it go where they belong.</remarks>
    public static StationBlock Read(string text, int first)
    {
        List<string[]> rows;
        try
        {
            rows = Split(text, first);
        }
        catch (SheetException e)
        {
            return new([], [], e.Message);
        }
        if (rows.Count == 0) return new([], []);
        var heads = StationCells.Heads(rows[0]);
        List<string> left = heads is null ? [] : [.. rows[0].Where((h, i) => heads[i] is null && h.Length > 0)];
        if (heads is not null) rows.RemoveAt(0);
        return new([.. rows.Select(r => Cells(r, heads, first))], left);
    }

    private static IReadOnlyList<(StationCell Cell, string Text)> Cells(string[] row, IReadOnlyList<StationCell?>? heads, int first)
    {
        // More columns than the sheet has: the parts of the chain stand side by side.
        var meant = row.Select((text, i) => (
            Cell: heads is null ? (StationCell)Math.Min(first + i, (int)StationCell.Chain) : i < heads.Count ? heads[i] : null,
            Text: text));
        return [.. meant.Where(c => c.Cell is not null).GroupBy(c => c.Cell!.Value)
            .Select(g => (g.Key, string.Join(ChainText.Between, g.Select(c => c.Text).Where(t => g.Count() == 1 || t.Length > 0))))];
    }

    private static List<string[]> Split(string text, int first)
    {
        var mark = text.Contains('\t', StringComparison.Ordinal) ? '\t'
            : text.Contains(';', StringComparison.Ordinal) ? ';'
            : IsByCommas(text, first) ? ',' : '\t';
        using var content = new MemoryStream(Encoding.UTF8.GetBytes($"sep={mark}\n{text}"));
        List<string[]> rows = [];
        foreach (var row in SheetFile.Open(content, "The block", SheetLimits.Usual, keepsFaults: true).SelectMany(s => s.Rows))
        {
            // The first line is the one that was put before it.
            if (row.Fault is { } fault)
                throw new SheetException(FormattableString.Invariant($"Line {row.Number - 1} of the block: {fault}"));
            rows.Add([.. row.Cells.Select(c => c.Shown.Trim())]);
        }
        while (rows.Count > 0 && rows[^1].All(c => c.Length == 0)) rows.RemoveAt(rows.Count - 1);
        return rows;
    }

    // A comma may be a decimal one: it parts cells only where headers or as many of them on each line say so.
    private static bool IsByCommas(string text, int first)
    {
        var lines = text.Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        if (lines.Length == 0 || first != (int)StationCell.Name) return false;
        var counts = lines.Select(l => l.Count(c => c == ',')).Distinct().ToList();
        return StationCells.Heads(lines[0].Split(',')) is { Count: > 1 } || counts is [>= 2];
    }
}
