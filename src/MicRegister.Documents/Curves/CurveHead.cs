using System.Text.RegularExpressions;

namespace MicRegister.Documents.Curves;

/// <summary>What stands above each column: one row, with a row of units below it, or rows that name devices or angles above.</summary>
internal static partial class CurveHead
{
    private static readonly char[] Others = ['\t', ';', '|', ','];

    /// <summary>The texts above each column, from the top; empty lists where nothing stands there.</summary>
    public static IReadOnlyList<IReadOnlyList<string>> Of(
        CurveLines lines, int columns, Func<string, IReadOnlyList<string>>? devicesOf = null)
    {
        var rows = new List<string[]>();
        var hasName = false;
        foreach (var line in lines.Head.Reverse())
        {
            if (Rule().IsMatch(line.Text)) continue;
            if (Fitted(line.Text, lines.Separator, columns) is not { } cells) break;
            var isUnits = cells.All(c => c.Length == 0 || HeaderWords.IsUnitAlone(c));
            // Beside two columns "Serial; 1234" is as wide as a header; beside more, a row as wide as the table belongs to its head.
            if (hasName && (columns == 2 || cells.Skip(1).Any(c => c.Length == 0))) break;
            rows.Insert(0, cells);
            hasName |= !isUnits;
        }
        // A header may be written as a comment, right above the figures.
        bool Names(string[] cells) => cells.Count(c => HeaderWords.Of([c], devicesOf).Meaning?.Kind == ColumnKind.Frequency) == 1;
        if (!rows.Exists(Names) && lines.Said.Count > 0 && Fitted(lines.Said[^1], lines.Separator, columns) is { } said
            && Names(said)) rows = [said];
        return [.. Enumerable.Range(0, columns).Select(i => (IReadOnlyList<string>)[.. rows.Select(r => r[i]).Where(t => t.Length > 0)])];
    }

    /// <summary>Lines of the head that name no column, for what they say of the whole.</summary>
    public static IEnumerable<string> Preamble(CurveLines lines, IReadOnlyList<IReadOnlyList<string>> headers)
    {
        var used = headers.SelectMany(h => h).ToHashSet(StringComparer.Ordinal);
        return lines.Said.Concat(lines.Head.Select(h => h.Text)).Where(t => !CurveLines.Cells(t, lines.Separator).All(used.Contains))
            .Concat(lines.Below);
    }

    private static string[]? Fitted(string text, char separator, int columns)
    {
        var own = Trimmed(CurveLines.Cells(text, separator));
        if (own.Length == columns && separator != ' ') return own;
        foreach (var other in Others)
        {
            var cells = Trimmed(CurveLines.Cells(text, other));
            if (other != separator && cells.Length == columns) return cells;
        }
        var wide = Wide().Split(text.Trim());
        if (wide.Length == columns) return wide;
        // Blanks part columns and words alike: units in brackets and what follows "re" belong to the word before.
        var glued = Trimmed([.. Glue().Matches(text).Select(m => m.Value.Trim())]);
        if (glued.Length == columns && separator == ' ') return glued;
        return separator != ' ' && own.Length > 1 && own.Length < columns ? [.. own, .. Enumerable.Repeat("", columns - own.Length)] : null;
    }

    private static string[] Trimmed(string[] cells)
    {
        var last = Array.FindLastIndex(cells, c => c.Length > 0);
        return cells[..(last + 1)];
    }

    [GeneratedRegex(@"\t+| {2,}")]
    private static partial Regex Wide();

    [GeneratedRegex(@"\S+(?:\s*[\[(][^\])]*[\])])*")]
    private static partial Regex Glue();

    [GeneratedRegex(@"^[\s=_+|*;,-]*$")]
    private static partial Regex Rule();
}
