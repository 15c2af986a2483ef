using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Serial numbers and codes of the devices that the sheets of a file list so far.</summary>
internal sealed class KnownNumbers
{
    private const int FewestThatTell = 3;

    private readonly HashSet<string> _serials = new(StringComparer.OrdinalIgnoreCase);
    private readonly HashSet<string> _codes = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>Gathers them from tables whose devices are named for certain.</summary>
    public static KnownNumbers Of(IEnumerable<TableReading> tables)
    {
        var known = new KnownNumbers();
        foreach (var table in tables.Where(t => !t.Header.AwaitsNames && !t.Header.IsContended))
        {
            Gather(table, Column.Serial, known._serials);
            Gather(table, Column.Fields[DeviceField.InventoryCode], known._codes);
        }
        return known;
    }

    /// <summary>Whether all numbers of a column are those of devices that are known, by one of two columns.</summary>
    /// <param name="column">The serial number or the inventory code.</param>
    /// <param name="texts">Cells of the column; what says nothing does not count.</param>
    public bool Hold(Column column, IEnumerable<string> texts)
    {
        var numbers = column == Column.Serial ? _serials : _codes;
        if (numbers.Count == 0) return false;
        var own = texts.Where(t => !RowReader.IsAbsent(t)).Distinct(StringComparer.OrdinalIgnoreCase).ToList();
        return own.Count >= FewestThatTell && own.TrueForAll(numbers.Contains);
    }

    private static void Gather(TableReading table, Column column, HashSet<string> into)
    {
        if (!table.Header.Places.TryGetValue(column, out var place) || table.Header.Divided.ContainsKey(place)) return;
        foreach (var row in table.Rows)
        {
            if (row.Fault is null && row.At(place).Shown is var text && !RowReader.IsAbsent(text)) into.Add(text);
        }
    }
}
