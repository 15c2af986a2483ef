using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <content>Headers that speak of two things, and two headers that speak of one.</content>
public sealed partial class TableHeader
{
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
        if (_places.ContainsKey(code) || HeaderConcepts.IsOfHouse(text) == HeaderConcepts.IsOfHouse(Row.At(first).Shown)) return false;
        (_places[Column.Serial], _places[code]) = HeaderConcepts.IsOfHouse(text) ? (first, place) : (place, first);
        return true;
    }
}
