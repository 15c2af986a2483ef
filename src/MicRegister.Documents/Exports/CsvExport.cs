using System.Buffers;
using System.Text;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Exports;

/// <summary>Writes an export as comma-separated values.</summary>
/// <remarks>
/// RFC 4180, section 2 (rules 1 to 5 seen in two copies, 6 and 7 from memory): CRLF after each row, a header row (of keys), quotes around a
/// cell that needs them, quotes within doubled. UTF-8 without a byte order mark. Nothing but the header and the rows, so that any reader
/// takes the file as it is; what columns mean and where the table came from stands in <see cref="CsvMetadata"/>. A text that a spreadsheet
/// could run as a formula has an apostrophe in front, which <see cref="Plain"/> takes off; numbers never have one. A spreadsheet told to
/// split at semicolons can still begin a cell within a text: no mark within the file prevents that.
/// </remarks>
public static class CsvExport
{
    private const string RowEnd = "\r\n";
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    // Semicolon, bar and tab need no quotes; readers that guess the separator by counting pass over what is quoted.
    private static readonly SearchValues<char> Quoted = SearchValues.Create(",;|\t\"\r\n");

    /// <summary>Writes a table.</summary>
    /// <param name="table">What is written.</param>
    /// <param name="content">Where to; it is left open.</param>
    public static void Write(ExportTable table, Stream content)
    {
        using var writer = new StreamWriter(content, Utf8, leaveOpen: true);
        Row(writer, table.Columns.Select(c => Field(ExportCell.Of(c.Key))));
        foreach (var row in table.Rows) Row(writer, row.Select(Field));
    }

    /// <summary>A text as it was before its beginning was defused; any other text as it stands.</summary>
    public static string Plain(string text) => FormulaGuard.Plain(text);

    private static void Row(StreamWriter writer, IEnumerable<string> fields)
    {
        var row = string.Join(',', fields);
        // In a table of one column a cell with nothing in it would be an empty line, which readers pass over.
        writer.Write(row.Length == 0 ? "\"\"" : row);
        writer.Write(RowEnd);
    }

    private static string Field(ExportCell cell)
    {
        if (cell.Digits is { } digits) return digits;
        var text = FormulaGuard.Guarded(cell.Text ?? "");
        return text.AsSpan().ContainsAny(Quoted) || HasOuterBlank(text) ? $"\"{text.Replace("\"", "\"\"", StringComparison.Ordinal)}\""
            : text;
    }

    // Some readers trim what is not quoted, against section 2.4.
    private static bool HasOuterBlank(string text) => text.Length > 0 && (char.IsWhiteSpace(text[0]) || char.IsWhiteSpace(text[^1]));
}
