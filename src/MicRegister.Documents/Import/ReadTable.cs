using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>A table of a file as it was read: what each column was taken for, and its first rows.</summary>
/// <param name="Sheet">Name of the sheet; empty in a text file.</param>
/// <param name="Columns">Its columns with a header, from the left.</param>
/// <param name="First">Its first rows as they stand there.</param>
/// <param name="Rows">How many rows stand below the header.</param>
public sealed record ReadTable(
    string Sheet, IReadOnlyList<UnderstoodColumn> Columns, IReadOnlyList<ReadRow> First, int Rows)
{
    private const int RowsShown = 8;

    internal static ReadTable Of(string sheet, TableHeader header, IReadOnlyList<SheetRow> rows) =>
        Of(sheet, [.. UnderstoodColumn.Of(sheet, header, rows)], rows);

    internal static ReadTable Of(string sheet, IReadOnlyList<UnderstoodColumn> columns, IReadOnlyList<SheetRow> rows)
    {
        return new(sheet, columns,
            [.. rows.Take(RowsShown).Select(r => new ReadRow(r.Number, r.Fault, [.. columns.Select(c => r.At(c.Place).Shown)]))],
                rows.Count);
    }
}

/// <summary>A row of a table as it stands there.</summary>
/// <param name="Number">Its number in the file.</param>
/// <param name="Fault">Why it cannot be read; null where it can.</param>
/// <param name="Cells">What stands under each column.</param>
public sealed record ReadRow(int Number, string? Fault, IReadOnlyList<string> Cells);
