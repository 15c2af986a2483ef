using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Which column of a table means what.</summary>
public sealed partial class TableHeader
{
    private readonly Dictionary<Column, int> _places = [];

    private TableHeader(SheetRow row, ImportMapping mapping)
    {
        Row = row;
        for (var i = 0; i < row.Cells.Length; i++)
        {
            var text = row.Cells[i].Shown;
            if (text.Length == 0) continue;
            Units[i] = MeasuredText.UnitOfHeader(text);
            if (mapping.Headers.TryGetValue(Column.Plain(text), out var mapped))
            {
                Place(mapped.Column, i, text);
                Units[i] ??= mapped.Unit;
            }
            else if ((Column.ByName(text) ?? Column.ByName(MeasuredText.WithoutUnit(text))) is { } column)
            {
                Place(column, i, text);
            }
            else if (Year(text) is { } day)
            {
                Years.Add((i, day));
            }
        }
        Fields = [.. Column.Fields.Where(f => _places.ContainsKey(f.Value) || mapping.Constants.ContainsKey(f.Value)).Select(f => (f.Key, f.Value))];
    }

    /// <summary>Headers that stand twice: their second columns would be lost.</summary>
    public List<string> Twice { get; } = [];

    /// <summary>Details of devices that the table, or the mapping for every row, holds.</summary>
    public IReadOnlyList<(DeviceField Field, Column Column)> Fields { get; }

    /// <summary>The header row itself.</summary>
    public SheetRow Row { get; }

    /// <summary>Units by column, from the header or the row of units below it.</summary>
    public Dictionary<int, string?> Units { get; } = [];

    /// <summary>Columns that each hold the results of a year.</summary>
    public List<(int Column, DateOnly Day)> Years { get; } = [];

    public IReadOnlyDictionary<Column, int> Places => _places;

    public bool Has(Column column) => _places.ContainsKey(column);

    /// <summary>Reads a row as a header.</summary>
    /// <returns>Null where it is none: it names nothing to know a row by, or fewer than two columns.</returns>
    public static TableHeader? TryRead(SheetRow row, ImportMapping mapping)
    {
        var header = new TableHeader(row, mapping);
        var known = header._places.Count + header.Years.Count;
        return known >= 2 && Naming.Any(header.Has) ? header : null;
    }

    /// <summary>Columns of which a table needs one, so that its rows can be told apart.</summary>
    internal static IReadOnlyList<Column> Naming { get; } =
        [Column.Serial, Column.Fields[DeviceField.InventoryCode], Column.Station, Column.Campaign, Column.Limit, Column.Setting];

    /// <summary>Takes a row below the header that holds nothing but units.</summary>
    public bool TakeUnits(SheetRow row)
    {
        var filled = row.Cells.Select((c, i) => (c, i)).Where(p => !p.c.IsBlank).ToList();
        if (filled.Count == 0 || filled.Any(p => MeasuredText.Unit(p.c.Shown) is null)) return false;
        foreach (var (cell, i) in filled) Units[i] = MeasuredText.Unit(cell.Shown);
        return true;
    }

    /// <summary>Whether a row repeats the header, as print-outs do on each page.</summary>
    public bool IsRepeatedBy(SheetRow row)
    {
        var same = 0;
        for (var i = 0; i < Row.Cells.Length; i++)
        {
            if (Row.Cells[i].IsBlank) continue;
            if (!string.Equals(Row.Cells[i].Shown, row.At(i).Shown, StringComparison.OrdinalIgnoreCase)) return false;
            same++;
        }
        return same > 0;
    }

    private void Place(Column column, int place, string text)
    {
        if (!_places.TryAdd(column, place)) Twice.Add(text);
    }

    // "2021", "Sens. 2021 [mV/Pa]", "Cal 2021-03". A bare year stands for its first day, the cautious end.
    private static DateOnly? Year(string header)
    {
        var text = Column.Plain(header);
        if (YearWords().Match(text) is not { Success: true } m) return null;
        var year = int.Parse(m.Groups[1].ValueSpan, CultureInfo.InvariantCulture);
        var month = m.Groups[2].Success ? int.Parse(m.Groups[2].ValueSpan, CultureInfo.InvariantCulture) : 1;
        return month is >= 1 and <= 12 ? new DateOnly(year, month, 1) : null;
    }

    [GeneratedRegex(@"^(?:(?:sens|sensitivity|cal|calibration|level|gain|result|value|empfindlichkeit|kalibrierung) )?((?:19|20)\d\d)(?: (\d{1,2}))?$")]
    private static partial Regex YearWords();
}
