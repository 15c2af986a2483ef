using System.Text;

namespace MicRegister.Documents.Tests.Corpus;

/// <summary>Writes a draft as separated text.</summary>
internal static class TextFile
{
    public static byte[] Of(Draft draft)
    {
        var grid = draft.Grids[0];
        var width = grid.Lines.Max(l => l.Cells.Count);
        var lines = grid.Lines.Select(l =>
            string.Join(draft.Separator, Enumerable.Range(0, Width(l, width)).Select(c => Written(draft, l.Cells, c)))).ToList();
        if (draft.HasHint) lines.Insert(0, "sep=" + draft.Separator);
        var text = string.Concat(lines.Select(l => l + "\r\n"));
        return draft.Code switch
        {
            TextCode.Utf8WithMark => [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(text)],
            TextCode.Utf16 => [0xFF, 0xFE, .. Encoding.Unicode.GetBytes(text)],
            TextCode.Windows1252 => Windows1252(text),
            TextCode.Mixed => Mixed(lines),
            _ => Encoding.UTF8.GetBytes(text),
        };
    }

    // A spreadsheet fills a line to the width of the table; a line that is short for a reason stays so.
    private static int Width(Line line, int width) => line.Sort == LineSort.Other ? width : line.Cells.Count;

    private static string Written(Draft draft, List<Cell> cells, int column)
    {
        var text = column < cells.Count ? cells[column].Text : "";
        var isQuoted = text.Contains(draft.Separator, StringComparison.Ordinal) || text.Contains('\n', StringComparison.Ordinal)
            || (text.Contains('"', StringComparison.Ordinal) && !draft.LeavesQuotes);
        return isQuoted ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : text;
    }

    // The last line with a letter beyond ASCII came from a program that knew no UTF-8.
    private static byte[] Mixed(List<string> lines)
    {
        var at = lines.FindLastIndex(l => l.Any(c => c is > '\x7f' and < '\x100'));
        return [.. lines.SelectMany((l, n) => n == at ? Windows1252(l + "\r\n") : Encoding.UTF8.GetBytes(l + "\r\n"))];
    }

    // Of what the corpus writes, the only signs of Windows-1252 that are not those of Latin-1 are the dash and the euro.
    private static byte[] Windows1252(string text) =>
        [.. text.Select(c => c switch { '–' => (byte)0x96, '€' => (byte)0x80, '’' => (byte)0x92, < '\x100' => (byte)c, _ => (byte)'?' })];
}
