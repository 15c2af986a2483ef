using System.Text;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Exports;

/// <summary>
/// Writes what belongs to a table of comma-separated values and has no place in it: what columns mean, and where it came from.
/// </summary>
/// <remarks>
/// W3C, Metadata Vocabulary for Tabular Data (2015; seen in its test suite, numbers of sections from memory): a description of one table,
/// 5.3, with a schema, 5.5, of columns, 5.6; prefixed properties of other vocabularies, 5.8. A column's <c>titles</c> hold its cell of the
/// header row; its <c>name</c> is held to letters, digits, underscores and per cent escapes. A unit is schema:unitText, provenance a list
/// of schema:PropertyValue.
/// </remarks>
public static class CsvMetadata
{
    /// <summary>What its name adds to that of the table.</summary>
    public const string Suffix = "-metadata.json";

    /// <summary>Its media type.</summary>
    public const string MediaType = "application/csvm+json";

    private const string OfApostrophes = "A text that a spreadsheet could run as a formula has an apostrophe in front.";

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Writes the description of a table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="url">Where the comma-separated values are, relative to the description or absolute.</param>
    /// <param name="content">Where to; it is left open.</param>
    public static void Write(ExportTable table, string url, Stream content)
    {
        using var writer = new StreamWriter(content, Utf8, leaveOpen: true);
        writer.Write("{\n\"@context\":[\"http://www.w3.org/ns/csvw\",{\"language\":\"en\"}],\n");
        writer.Write($"\"url\":{JsonExport.Text(url)},\n\"dc:title\":{JsonExport.Text(table.Title)},\n");
        writer.Write("\"tableSchema\":{\"columns\":");
        JsonExport.List(writer, Columns(table));
        writer.Write("},\n\"rdfs:comment\":");
        JsonExport.List(writer, Notes(table).Select(JsonExport.Text));
        writer.Write(",\n\"schema:additionalProperty\":");
        JsonExport.List(writer, table.Provenance.Select(p => JsonExport.Members(
            [("@type", "\"schema:PropertyValue\""), ("schema:name", JsonExport.Text(p.Name)),
                ("schema:value", JsonExport.Text(p.Value))])));
        writer.Write("\n}\n");
    }

    private static IEnumerable<string> Notes(ExportTable table)
    {
        var texts = table.Columns.Select(c => c.Key).Concat(table.Rows.SelectMany(r => r).Select(c => c.Text ?? ""));
        return texts.Any(t => FormulaGuard.Guarded(t) != t) ? [.. table.Notes, OfApostrophes] : table.Notes;
    }

    private static IEnumerable<string> Columns(ExportTable table)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        foreach (var c in table.Columns)
        {
            var name = Name(c.Key);
            while (!names.Add(name)) name += "_";
            List<(string, string)> members =
            [
                ("name", JsonExport.Text(name)), ("titles", JsonExport.Text(FormulaGuard.Guarded(c.Key))),
                ("datatype", JsonExport.Text(Datatype(c.Type))), ("rdfs:label", JsonExport.Text(c.Label)),
                ("dc:description", JsonExport.Text(c.Meaning)),
            ];
            if (c.Unit.Length > 0) members.Add(("schema:unitText", JsonExport.Text(c.Unit)));
            yield return JsonExport.Members(members);
        }
    }

    private static string Datatype(ExportType type) => type switch
    {
        ExportType.Number => "number",
        ExportType.Instant => "dateTime",
        _ => "string",
    };

    // A name must not begin with an underscore.
    private static string Name(string key)
    {
        var name = new StringBuilder();
        foreach (var b in Encoding.UTF8.GetBytes(key))
        {
            if (char.IsAsciiLetterOrDigit((char)b)) name.Append((char)b);
            else if (b is (byte)'-' or (byte)'_') name.Append(name.Length == 0 ? "c_" : "_");
            else name.Append(System.Globalization.CultureInfo.InvariantCulture, $"%{b:X2}");
        }
        return name.ToString();
    }
}
