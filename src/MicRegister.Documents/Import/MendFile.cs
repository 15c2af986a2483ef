using System.Globalization;
using CsvHelper;
using CsvHelper.Configuration;

namespace MicRegister.Documents.Import;

/// <summary>Writes the rows that were put aside as a table that can be mended and imported: the same columns, and two more.</summary>
public static class MendFile
{
    /// <summary>Writes one table of a report.</summary>
    /// <returns>How many rows; 0 writes nothing.</returns>
    public static int Write(FileReport report, int table, TextWriter to)
    {
        var (header, rows) = (report.Aside[table].Header, report.Aside[table].Rows);
        if (rows.Count == 0) return 0;
        using var csv = new CsvWriter(to, new CsvConfiguration(CultureInfo.InvariantCulture) { NewLine = "\r\n" }, leaveOpen: true);
        var own = header.Row.Cells.Length;
        for (var i = 0; i < own; i++) csv.WriteField(Guarded(HeaderWithUnit(header, i)));
        if (!header.Has(Column.Checked)) csv.WriteField("checked");
        if (!header.Has(Column.Why)) csv.WriteField("why");
        csv.NextRecord();
        foreach (var (row, outcome) in rows)
        {
            for (var i = 0; i < own; i++) csv.WriteField(Guarded(i == header.Places.GetValueOrDefault(Column.Why, -1) ? outcome.Text
                : row.At(i).Shown));
            if (!header.Has(Column.Checked)) csv.WriteField("");
            if (!header.Has(Column.Why)) csv.WriteField(Guarded(outcome.Text));
            csv.NextRecord();
        }
        return rows.Count;
    }

    // A row of units below the header goes with it.
    private static string HeaderWithUnit(TableHeader header, int column)
    {
        var text = header.Row.At(column).Shown;
        return header.Units.GetValueOrDefault(column) is { } unit && MeasuredText.UnitOfHeader(text) is null && text.Length > 0
            ? $"{text} [{unit}]" : text;
    }

    /// <summary>
    /// A text that a spreadsheet would run as a formula gets a quote before it; the import takes it off again. Numbers stay.
    /// </summary>
    public static string Guarded(string text) =>
        text.Length > 0 && text[0] is '=' or '+' or '-' or '@' && !MeasuredText.TryRead(text, out _, out _) && !RowReader.IsAbsent(text)
            ? "'" + text : text;
}
