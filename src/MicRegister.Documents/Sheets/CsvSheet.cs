using System.Globalization;
using System.Text;
using CsvHelper;
using CsvHelper.Configuration;

namespace MicRegister.Documents.Sheets;

/// <summary>Text tables after RFC 4180, with comma, semicolon or tab, in UTF-8, UTF-16 or Windows-1252.</summary>
internal static class CsvSheet
{
    private const int Sample = 64 * 1024;
    private static readonly char[] Delimiters = [';', '\t', ','];

    public static Sheet Read(Stream content, string name, SheetLimits limits)
    {
        var encoding = Encodings.Of(content, name);
        content.Position = 0;
        var delimiter = Delimiter(content, encoding);
        content.Position = 0;
        return new("", Rows(content, encoding, delimiter, name, limits));
    }

    private static IEnumerable<SheetRow> Rows(Stream content, Encoding encoding, char delimiter, string name, SheetLimits limits)
    {
        using var reader = new StreamReader(content, encoding, detectEncodingFromByteOrderMarks: true, leaveOpen: true);
        var bad = (string?)null;
        var configuration = new CsvConfiguration(CultureInfo.InvariantCulture)
        {
            Delimiter = delimiter.ToString(),
            HasHeaderRecord = false,
            IgnoreBlankLines = false,
            MaxFieldSize = limits.CellCharacters,
            // 1/2" is how people write a capsule's size: one quote that ends a cell is an inch mark, any other is a broken row.
            BadDataFound = b => bad ??= IsInchMark(b.Field) ? null : b.Field.Length > 40 ? b.Field[..40] + "…" : b.Field,
        };
        using var parser = new CsvParser(reader, configuration, leaveOpen: true);
        var line = 1;
        var rows = 0;
        while (true)
        {
            try
            {
                if (!parser.Read()) yield break;
                // Fields are parsed when they are asked for.
                _ = parser.Record;
            }
            catch (CsvHelperException e)
            {
                throw new SheetException($"{name}, line {line}: a cell has more than {limits.CellCharacters} characters; perhaps a quote is never closed.", e);
            }
            if (bad is not null) throw new SheetException($"{name}, line {line}: a quote stands inside a cell that does not begin with one ({bad}).");
            if (++rows > limits.Rows) throw new SheetException($"{name} has more than {limits.Rows} rows.");
            if (parser.Count > limits.Columns) throw new SheetException($"{name}, line {line}: {parser.Count} columns; at most {limits.Columns} are allowed.");
            var isHint = rows == 1 && parser.Count <= 2 && parser[0].StartsWith("sep=", StringComparison.OrdinalIgnoreCase);
            if (!isHint) yield return new(line, [.. parser.Record!.Select(f => new Cell(Clean(f)))]);
            line = parser.RawRow + 1;
        }
    }

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
    private static string Clean(string field)
    {
        var text = field.Trim(' ', '\u00A0', '\r', '\n');
        return text.Length > 1 && text[0] == '\'' && text[1] is '=' or '+' or '-' or '@' ? text[1..] : text;
    }
}
