using System.Globalization;
using System.Text;

namespace MicRegister.Documents.Exports;

/// <summary>Writes an export as JSON: title, columns, rows as objects by key, what must be known of it, and provenance.</summary>
/// <remarks>
/// RFC 8259 (from memory): texts with quote, backslash and control characters escaped (section 7), numbers in their shortest form that reads
/// back the same (section 6), UTF-8 without a byte order mark (8.1). Written by hand because this project knows no JSON library: facts have
/// one codec, and this is none. Texts are not defused; no spreadsheet runs them. A cell with nothing in it is left out of its row.
/// </remarks>
public static class JsonExport
{
    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes a table.</summary>
    /// <param name="table">What is written.</param>
    /// <param name="content">Where to; it is left open.</param>
    public static void Write(ExportTable table, Stream content)
    {
        using var writer = new StreamWriter(content, Utf8, leaveOpen: true);
        writer.Write("{\n\"title\":" + Text(table.Title) + ",\n\"columns\":");
        List(writer, table.Columns.Select(c => Members([("key", Text(c.Key)), ("label", Text(c.Label)), ("unit", Text(c.Unit)), ("meaning", Text(c.Meaning))])));
        writer.Write(",\n\"rows\":");
        List(writer, table.Rows.Select(r => Members(table.Columns.Zip(r).Where(p => !p.Second.IsNothing).Select(p => (p.First.Key, Value(p.Second))))));
        if (table.Notes.Count > 0)
        {
            writer.Write(",\n\"notes\":");
            List(writer, table.Notes.Select(Text));
        }
        writer.Write(",\n\"provenance\":" + Members(table.Provenance.Select(p => (p.Name, Text(p.Value)))) + "\n}\n");
    }

    // One item on a line, so that two exports can be compared line by line.
    internal static void List(StreamWriter writer, IEnumerable<string> items)
    {
        writer.Write('[');
        var isFirst = true;
        foreach (var item in items)
        {
            writer.Write(isFirst ? "\n" : ",\n");
            writer.Write(item);
            isFirst = false;
        }
        writer.Write(isFirst ? "]" : "\n]");
    }

    internal static string Members(IEnumerable<(string Name, string Value)> members) =>
        "{" + string.Join(',', members.Select(m => Text(m.Name) + ":" + m.Value)) + "}";

    private static string Value(ExportCell cell) => cell.Number is { } number ? number.ToString("R", CultureInfo.InvariantCulture) : Text(cell.Text ?? "");

    internal static string Text(string text)
    {
        var json = new StringBuilder(text.Length + 2).Append('"');
        foreach (var c in text)
        {
            // The angle bracket and the separators U+2028 and U+2029 may stand as they are, but not where a page holds the text in a script.
            if (c is '"' or '\\') json.Append('\\').Append(c);
            else if (char.IsControl(c) || c is '<' or '\u2028' or '\u2029') json.Append(CultureInfo.InvariantCulture, $"\\u{(int)c:x4}");
            else json.Append(c);
        }
        return json.Append('"').ToString();
    }
}
