using System.Text;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Curves;

/// <summary>The text of a curve file as rows of cells: its separator, its comments, its head and its figures.</summary>
/// <param name="Separator">What parts the cells; a blank stands for any run of blanks.</param>
/// <param name="Head">Rows above the figures, with more than one cell.</param>
/// <param name="Said">Comments and lines of text above the figures, without their marks.</param>
/// <param name="Figures">Rows of figures.</param>
/// <param name="After">Lines of text behind the figures.</param>
internal sealed record CurveLines(
    char Separator, IReadOnlyList<(int Row, string Text)> Head, IReadOnlyList<string> Said, IReadOnlyList<SheetRow> Figures,
    IReadOnlyList<(int Row, string Text)> After)
{
    /// <summary>Comments and lines of text below the figures: they name no column, and may speak of the whole.</summary>
    public IReadOnlyList<string> Below { get; init; } = [];

    /// <summary>Begins a file that the program wrote itself.</summary>
    public const string Own = "MicRegister response curve, version 1";

    private const int MostBytes = 8 << 20;
    private const int MostRows = 20_000;
    private const int MostColumns = 500;
    private const int MostCharacters = 100_000;

    // In the order in which a draw is decided; all of them read a draw alike.
    private static readonly char[] Separators = ['\t', ';', '|', ',', ' '];
    private static readonly string[] Marks = ["#", "//", "%", "*", "!"];

    /// <summary>Reads a file.</summary>
    /// <exception cref="SheetException">It is no text, too large, or holds no two columns of figures.</exception>
    public static CurveLines Read(Stream content, string name)
    {
        if (content.Length == 0) throw new SheetException($"{name} is empty.");
        if (content.Length > MostBytes) throw new SheetException($"{name} has {content.Length} bytes; a curve has at most {MostBytes}.");
        Span<byte> start = stackalloc byte[4];
        content.Position = 0;
        var got = content.ReadAtLeast(start, start.Length, throwOnEndOfStream: false);
        if (start[..got].SequenceEqual("PK\u0003\u0004"u8)) throw new SheetException(
            $"{name} is a workbook or an archive; save the curve as CSV.");
        if (start[..got].SequenceEqual("%PDF"u8)) throw new SheetException(
            $"{name} is a PDF; a curve is read from a text table, such as CSV.");
        var encoding = Encodings.Of(content, name);
        content.Position = 0;
        using var reader = new StreamReader(content, encoding, detectEncodingFromByteOrderMarks: true, leaveOpen: true);
        var lines = new List<(int Number, string Text)>();
        for (var number = 1; reader.ReadLine() is { } line; number++)
        {
            if (number > MostRows) throw new SheetException($"{name} has more than {MostRows} rows.");
            if (line.Length > MostCharacters) throw new SheetException($"{name}, row {number}: more than {MostCharacters} characters.");
            if (!string.IsNullOrWhiteSpace(line)) lines.Add((number, line));
        }
        return Parted(lines, name);
    }

    private static CurveLines Parted(List<(int Number, string Text)> lines, string name)
    {
        char? told = null;
        if (lines is [{ Text: var first }, ..]
            && first.Trim('"', ' ', '\r') is ['s' or 'S', 'e' or 'E', 'p' or 'P', '=', var sign]) told = sign;
        if (told is not null) lines.RemoveAt(0);
        var separator = told ?? Separators.MaxBy(s => Parts(lines, s));
        var (head, said) = (new List<(int Row, string Text)>(), new List<string>());
        var (figures, after) = (new List<SheetRow>(), new List<(int Row, string Text)>());
        var below = new List<string>();
        foreach (var (number, text) in lines)
        {
            if (IsComment(text))
            {
                (figures.Count == 0 ? said : below).Add(text.TrimStart(' ', '\t', '#', '/', '%', '*', '!').Trim());
                continue;
            }
            var cells = Cells(text, separator);
            if (cells.Length > MostColumns) throw new SheetException(
                $"{name}, row {number}: {cells.Length} columns; at most {MostColumns} are allowed.");
            if (IsFigures(cells) && !(figures.Count == 0 && IsHeadOfNumbers(cells)))
            {
                if (after.Count > 0) throw new SheetException(
                    $"{name}, row {after[0].Row}: '{Short(after[0].Text)}' stands between rows of figures; a file holds one table.");
                figures.Add(new(number, [.. cells.Select(c => new Cell(c))]));
            }
            else if (figures.Count > 0 && cells.Any(CurveNumber.IsNumber))
            {
                throw NoNumber(name, number, cells, text);
            }
            else if (figures.Count > 0) after.Add((number, text.Trim().Trim('"')));
            else if (text.TrimStart().StartsWith(';') && separator != ';') said.Add(text.Trim().TrimStart(';').Trim());
            else if (cells.Count(c => c.Length > 0) < 2) said.Add(text.Trim().Trim(separator).Trim('"', ' '));
            else head.Add((number, text));
        }
        // A row right above the figures that begins with one is no header: something in it is no figure.
        if (head.Count > 0 && Cells(head[^1].Text, separator) is var last && CurveNumber.IsNumber(last[0])
            && (figures.Count == 0 || figures[0].Cells.Length == last.Length))
        {
            throw NoNumber(name, head[^1].Row, last, head[^1].Text);
        }
        if (figures.Count == 0) throw new SheetException(
            $"{name} holds no point; rows of at least two figures are read, such as frequency and level.");
        // What stands below the table may turn its signs just as well.
        return new(separator, head, said, figures, after) { Below = [.. below, .. after.Select(a => a.Text)] };
    }

    // Rows of figures count most; without any, rows that hold some, so that a message can name the cell that is none.
    private static (int, int) Parts(List<(int Number, string Text)> lines, char separator)
    {
        var (figures, some) = (0, 0);
        foreach (var (_, text) in lines)
        {
            if (IsComment(text) || Cells(text, separator) is not { Length: > 1 } cells) continue;
            if (IsFigures(cells)) figures++;
            else if (cells.Any(CurveNumber.IsNumber)) some++;
        }
        return (figures, some);
    }

    private static SheetException NoNumber(string name, int row, string[] cells, string text)
    {
        var wrong = Array.FindIndex(cells, c => !CurveNumber.IsNumber(c) && !CurveNumber.IsMissing(c));
        return new(wrong < 0
            ? $"{name}, row {row}: '{Short(text.Trim())}' is one figure alone; rows of at least two are read."
            : $"{name}, row {row}, column {wrong + 1}: '{Short(cells[wrong])}': allowed is a number.");
    }

    /// <summary>The cells of a line, without outer blanks and quotes.</summary>
    public static string[] Cells(string line, char separator)
    {
        if (separator == ' ') return line.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries);
        var cells = new List<string>();
        var (cell, isQuoted) = (new StringBuilder(), false);
        foreach (var c in line)
        {
            if (c == '"') isQuoted = !isQuoted;
            else if (c == separator && !isQuoted)
            {
                cells.Add(Clean(cell));
                cell.Clear();
            }
            else cell.Append(c);
        }
        cells.Add(Clean(cell));
        return [.. cells];
    }

    private static string Clean(StringBuilder cell) => cell.ToString().Trim(' ', '\t', '\u00A0', '\u202F', '\uFEFF');

    private static bool IsComment(string line) =>
        Marks.Any(m => line.TrimStart(' ', '\t', '\uFEFF').StartsWith(m, StringComparison.Ordinal));

    // Rows of figures hold nothing else; a row with one figure and a gap counts too.
    private static bool IsFigures(string[] cells) =>
        cells.Length > 1 && cells.Any(CurveNumber.IsNumber) && cells.All(c => CurveNumber.IsNumber(c) || CurveNumber.IsMissing(c));

    // Serial numbers above columns, with an empty corner: no row of a curve lacks its frequency.
    private static bool IsHeadOfNumbers(string[] cells) => cells.Length > 1 && cells[0].Length == 0;

    private static string Short(string text) => text.Length > 40 ? text[..40] + "…" : text;
}
