using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>Sheets of workbooks that left a register which say what its columns mean and where its tables came from.</summary>
public static class BesideTables
{
    /// <summary>Name and header of the sheet that says what columns mean.</summary>
    public const string Columns = "columns";

    /// <summary>Name of the sheet that says where tables came from, and what they do not hold.</summary>
    public const string Provenance = "provenance";

    /// <summary>Cells of its header.</summary>
    public static IReadOnlyList<string> ColumnsHeader { get; } = ["key", "label", "unit", "meaning"];

    /// <summary>Cells of the other's header.</summary>
    public static IReadOnlyList<string> ProvenanceHeader { get; } = ["name", "value"];

    internal static bool Holds(string sheet, IReadOnlyList<SheetRow> rows) => rows.Count > 0 && sheet switch
    {
        Columns => Is(rows[0], ColumnsHeader) || Is(rows[0], ["sheet", .. ColumnsHeader]),
        Provenance => Is(rows[0], ProvenanceHeader),
        _ => false,
    };

    private static bool Is(SheetRow row, IReadOnlyList<string> header) => row.Cells.Select(c => c.Shown).SequenceEqual(header);
}
