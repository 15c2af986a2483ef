using CsvHelper;

namespace MicRegister.Documents.Sheets;

/// <summary>Reads a text table line by line where quotes cannot be trusted: a stray one costs its own row and no other.</summary>
internal static class CsvLines
{
    private const int MostLinesOfARow = 20;

    /// <summary>The rows from a line on; those whose cells cannot be told apart have a fault.</summary>
    public static IEnumerable<SheetRow> Read(TextReader text, int from, char delimiter, SheetLimits limits)
    {
        var lines = new Queue<string>();
        var number = 1;
        for (; number < from && text.ReadLine() is not null; number++)
        {
            // Read already.
        }
        while (Fill(1))
        {
            var (cells, used, fault) = Row(delimiter, limits);
            for (var i = 0; i < used; i++) lines.Dequeue();
            yield return new(number, cells, Fault: fault);
            number += used;
        }

        (Cell[] Cells, int Used, string? Fault) Row(char separator, SheetLimits bounds)
        {
            string? why = null;
            for (var used = 1; used <= MostLinesOfARow && Fill(used); used++)
            {
                var joined = string.Join('\n', lines.Take(used));
                if (Split(joined, separator, bounds, out var bad) is { } cells) return (cells, used, null);
                why ??= bad;
                // An even number of quotes closes what it opened: what is wrong with it no further line puts right.
                if (joined.Count(c => c == '"') % 2 == 0) break;
            }
            var plain = lines.Peek().Split(separator).Select(c => c.Length > bounds.CellCharacters ? c[..bounds.CellCharacters] : c).ToList();
            return (CsvSheet.Cells(plain), 1, why ?? "a quote is opened and never closed.");
        }

        bool Fill(int count)
        {
            while (lines.Count < count)
            {
                if (text.ReadLine() is not { } line) return false;
                lines.Enqueue(line);
            }
            return true;
        }
    }

    private static Cell[]? Split(string row, char delimiter, SheetLimits limits, out string? bad)
    {
        string? found = null;
        bad = null;
        using var parser = new CsvParser(new StringReader(row), CsvSheet.Configuration(delimiter, limits, b => found ??= b));
        try
        {
            if (!parser.Read()) return [];
            var cells = CsvSheet.Cells(parser.Record!);
            if (found is null && !parser.Read()) return cells;
        }
        catch (CsvHelperException)
        {
            found ??= $"a cell has more than {limits.CellCharacters} characters; perhaps a quote is never closed.";
        }
        bad = found;
        return null;
    }
}
