using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;

namespace MicRegister.Documents.Sheets;

/// <summary>Text tables after RFC 4180, with comma, semicolon or tab, in UTF-8, UTF-16 or Windows-1252.</summary>
internal static class CsvSheet
{
    private const int Sample = 64 * 1024;
    private static readonly char[] Delimiters = [';', '\t', '|', ','];

    /// <summary>Reads a table.</summary>
    /// <param name="content">A stream that can seek.</param>
    /// <param name="name">Its name, for messages.</param>
    /// <param name="limits">How much it may hold.</param>
    /// <param name="keepsFaults">Whether a row with a stray quote is given with its fault; otherwise the file is refused.</param>
    public static Sheet Read(Stream content, string name, SheetLimits limits, bool keepsFaults = false)
    {
        var remarks = new List<string>();
        var (encoding, text) = Encodings.Settle(content, name, remarks);
        text.Position = 0;
        var delimiter = Delimiter(text, encoding);
        text.Position = 0;
        return new("", Rows(text, encoding, delimiter, name, limits, keepsFaults)) { Remarks = remarks };
    }

    private static IEnumerable<SheetRow> Rows(
        Stream content, Encoding encoding, char delimiter, string name, SheetLimits limits, bool keepsFaults)
    {
        var count = 0;
        var faulty = 0;
        foreach (var row in Whole(content, encoding, delimiter, name, limits))
        {
            if (row.Fault is { } fault)
            {
                if (!keepsFaults) throw new SheetException($"{name}, line {row.Number}: {fault}");
                faulty = row.Number;
                break;
            }
            if (Checked(row, ++count) is { } good) yield return good;
        }
        if (faulty == 0) yield break;
        content.Position = 0;
        // From the first stray quote on, line by line, so that it costs its own row only.
        using var reader = new StreamReader(content, encoding, detectEncodingFromByteOrderMarks: true, leaveOpen: true);
        foreach (var row in CsvLines.Read(reader, faulty, delimiter, limits))
        {
            if (Checked(row, ++count) is { } good) yield return good;
        }

        SheetRow? Checked(SheetRow row, int rows)
        {
            if (rows > limits.Rows) throw new SheetException($"{name} has more than {limits.Rows} rows.");
            if (row.Cells.Length > limits.Columns)
                throw new SheetException($"{name}, line {row.Number}: {row.Cells.Length} columns; at most {limits.Columns} are allowed.");
            var isHint = rows == 1 && row.Cells.Length <= 2 && row.At(0).Shown.StartsWith("sep=", StringComparison.OrdinalIgnoreCase);
            return isHint ? null : row;
        }
    }

    private static IEnumerable<SheetRow> Whole(Stream content, Encoding encoding, char delimiter, string name, SheetLimits limits)
    {
        using var reader = new StreamReader(content, encoding, detectEncodingFromByteOrderMarks: true, leaveOpen: true);
        var bad = (string?)null;
        using var parser = new CsvParser(reader, Configuration(delimiter, limits, f => bad ??= f), leaveOpen: true);
        var line = 1;
        while (true)
        {
            string[]? cells = null;
            try
            {
                if (!parser.Read()) yield break;
                // Fields are parsed when they are asked for.
                cells = parser.Record;
            }
            catch (CsvHelperException)
            {
                bad = $"a cell has more than {limits.CellCharacters} characters; perhaps a quote is never closed.";
            }
            if (bad is not null)
            {
                yield return new(line, [], Fault: bad);
                yield break;
            }
            yield return new(line, Cells(cells!));
            line = parser.RawRow + 1;
        }
    }

    /// <summary>How a table is split; a quote inside a cell that does not begin with one is told.</summary>
    internal static CsvConfiguration Configuration(char delimiter, SheetLimits limits, Action<string> bad) => new(CultureInfo.InvariantCulture)
    {
        Delimiter = delimiter.ToString(),
        HasHeaderRecord = false,
        IgnoreBlankLines = false,
        MaxFieldSize = limits.CellCharacters,
        // 1/2" is how people write a capsule's size: one quote that ends a cell is an inch mark, any other is a broken row.
        BadDataFound = b =>
        {
            if (!IsInchMark(b.Field))
                bad($"a quote stands inside a cell that does not begin with one ({(b.Field.Length > 40 ? b.Field[..40] + "…" : b.Field)}).");
        },
    };

    internal static Cell[] Cells(IReadOnlyList<string> fields) => [.. fields.Select(f => new Cell(Clean(f)))];

    /// <summary>The separator that most lines of the beginning have in the same number.</summary>
    private static char Delimiter(Stream content, Encoding encoding)
    {
        using var reader = new StreamReader(content, encoding, detectEncodingFromByteOrderMarks: true, leaveOpen: true);
        var buffer = new char[Sample];
        var text = new string(buffer, 0, reader.ReadBlock(buffer));
        if (text.StartsWith("sep=", StringComparison.OrdinalIgnoreCase) && text.Length > 4 && Delimiters.Contains(text[4])) return text[4];
        var best = ',';
        var score = 0;
        foreach (var candidate in Delimiters)
        {
            var counts = new List<int> { 0 };
            var quoted = false;
            foreach (var c in text)
            {
                if (c == '"') quoted = !quoted;
                else if (!quoted && c == candidate) counts[^1]++;
                else if (!quoted && c == '\n') counts.Add(0);
            }
            var usual = counts.Where(n => n > 0).GroupBy(n => n).OrderByDescending(g => g.Count() * g.Key).FirstOrDefault();
            var points = usual is null ? 0 : usual.Count() * usual.Key;
            // A decimal comma stands in cells too; the earlier candidate wins a draw.
            if (points > score) (best, score) = (candidate, points);
        }
        return best;
    }

    private static bool IsInchMark(string field) => field.TrimEnd().IndexOf('"', StringComparison.Ordinal) == field.TrimEnd().Length - 1;

    /// <summary>A cell without outer blanks, and without the one quote that guards a text against being run as a formula.</summary>
    internal static string Clean(string field) => CellText.Trimmed(FormulaGuard.Plain(CellText.Trimmed(field)));
}
