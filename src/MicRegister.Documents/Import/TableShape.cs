using System.Security.Cryptography;
using System.Text;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>By what a file of the same make is known again: the headers of each of its tables, in whatever order.</summary>
public static class TableShape
{
    private const int RowsLookedAt = 100;

    /// <summary>The shapes that the rows of a file may have as headers: a file has a table's shape where that is among them.</summary>
    /// <param name="content">The file; it must allow seeking.</param>
    /// <param name="name">Its name.</param>
    /// <exception cref="SheetException">It cannot be read.</exception>
    public static IReadOnlySet<string> InFile(Stream content, string name)
    {
        content.Position = 0;
        var shapes = new HashSet<string>(StringComparer.Ordinal);
        foreach (var sheet in SheetFile.Open(content, name, SheetLimits.Usual, keepsFaults: true))
        {
            var rows = sheet.Rows.Where(r => !r.IsBlank && r.Fault is null).Take(RowsLookedAt).ToList();
            for (var i = 0; i < rows.Count; i++)
            {
                shapes.Add(Of(sheet.Name, rows[i]));
                if (i + 1 < rows.Count) shapes.Add(Of(sheet.Name, TwoRowHeader.Joined(rows[i], rows[i + 1])));
            }
            if (SidewaysTable.Turned(rows, ImportMapping.None) is [var first, ..]) shapes.Add(Of(sheet.Name, first));
        }
        return shapes;
    }

    /// <summary>The shape of a table: its sheet and its headers without units, accents, punctuation and capitals, each once.</summary>
    internal static string Of(string sheet, SheetRow header)
    {
        var headers = header.Cells.Select(c => c.Shown).Where(t => t.Length > 0)
            .Select(t => Column.Plain(t) is { Length: > 0 } plain ? plain : t.Trim().ToLowerInvariant()).Distinct()
                .Order(StringComparer.Ordinal);
        var text = sheet.Trim().ToLowerInvariant() + "\n" + string.Join('\n', headers);
        return Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
    }
}
