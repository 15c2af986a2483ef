using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <content>Headers that speak of two things, and two headers that speak of one.</content>
public sealed partial class TableHeader
{
    /// <summary>Whether <see cref="Described"/> says kind, maker and model, and no serial number.</summary>
    internal bool IsThing { get; set; }

    /// <summary>Columns of which a person said which two things each cell holds.</summary>
    internal Dictionary<int, (Column First, Column Second)> SaidHalves { get; } = [];

    /// <summary>Whether a column that is open may be the one that names the devices.</summary>
    internal bool AwaitsNames { get; set; }

    /// <summary>Whether it heads a table of other things, such as a sheet that counts what lies in each case.</summary>
    internal bool HoldsNoDevices { get; set; }

    /// <summary>Columns that are of no use here, and are left out.</summary>
    public List<int> LeftOut { get; } = [];

    /// <summary>How many cells head a column, whatever kinds of devices others name.</summary>
    internal int Headed => _places.Keys.Count(c => !Column.Parts.Any(p => p.Column == c)) + Groups.Sum(g => g.Places.Count)
        + _readings.Count(r => r is { Open: not null, Column: null } || (r?.Kind is not null && r.Column is not null));

    /// <summary>
    /// What the two things of a cell are, in their order: maker, model and serial number, whichever two the header names.
    /// </summary>
    internal static (Column First, Column Second) HalvesOf(string header)
    {
        var parts = HeaderConcepts.Of(header).Concepts.Select(c => c switch
        {
            "serial" or "number" => Column.Serial,
            "maker" => Column.Maker,
            "asset" => Column.Fields[DeviceField.InventoryCode],
            "model" or "type" => Column.Model,
            _ => null,
        }).OfType<Column>().Distinct().ToList();
        return parts.Count == 2 ? (parts[0], parts[1]) : parts is [var one] && one == Column.Serial ? (one, Column.Model)
            : (Column.Model, Column.Serial);
    }

    /// <summary>Whether the header of a place stands there once, and was not taken since another column had claimed its meaning.</summary>
    internal bool IsTwice(int place) => Twice.Contains(Row.At(place).Shown) && Row.Cells.Count(c => c.Shown == Row.At(place).Shown) == 1;

    /// <summary>Takes a column after all that stood twice.</summary>
    internal void NoLongerTwice(int place) => Twice.Remove(Row.At(place).Shown);

    // "Gerätenummer" is a serial number where no other column is one, and the number of the house beside one.
    private bool IsBesideSerial(int place, string text)
    {
        var (code, first) = (Column.Fields[DeviceField.InventoryCode], _places[Column.Serial]);
        if (_places.ContainsKey(code) || HeaderConcepts.IsOfHouse(text) == HeaderConcepts.IsOfHouse(Row.At(first).Shown)
            || _readings[first] is null) return false;
        (_places[Column.Serial], _places[code]) = HeaderConcepts.IsOfHouse(text) ? (first, place) : (place, first);
        return true;
    }

    // "Value before" and "new value": of two headers that each may be it, neither is.
    private HashSet<Column?> Contended() => [.. _readings
        .Where(r => r is { IsPartly: true, Column: not null, Year: null, Index: null, Kind: null })
        .GroupBy(r => r!.Column).Where(g => g.Count() > 1).Select(g => g.Key)];

    /// <summary>In place of a separator: the maker ends where the model begins.</summary>
    internal const string BeforeModel = "\0";

    /// <summary>What parts a result from its day in brackets.</summary>
    internal const string InBrackets = " (";

    private static bool OfAKind(Column column) => ResultGroup.Family.Contains(column) || column == Column.Serial || column == Column.Model
        || column == Column.Maker || column == Column.Fields[DeviceField.InventoryCode];

    private static bool SpeaksOfKinds(SheetRow row) => row.Cells.Where(c => !c.IsBlank).Select(c => HeaderReading.Of(c.Shown).Kind)
        .OfType<DeviceKind>().Distinct().Count() > 1;

    // Date, result, date, result: each pair belongs together, and only where the dates are told apart as often as the results.
    private bool IsRepeated(Column column, int place)
    {
        if (!ResultGroup.Family.Contains(column)) return false;
        var group = Groups.Find(g => g.Index is null && g.Year is null && !g.Places.ContainsKey(column));
        if (group is null)
        {
            var same = Row.Cells.Select((c, i) => (c, i))
                .Where(p => p.i < Row.Cells.Length && p.c.Shown.Length > 0 && HeaderReading.Of(p.c.Shown).Column is { } c
                && (c == Column.Day || c == Column.Value)).Select(p => HeaderReading.Of(p.c.Shown).Column!).ToList();
            if (same.Count(c => c == Column.Day) != same.Count(c => c == Column.Value)) return false;
            Groups.Add(group = new(null));
        }
        group.Places[column] = place;
        return true;
    }
}
