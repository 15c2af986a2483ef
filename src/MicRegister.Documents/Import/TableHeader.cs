using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Which column of a table means what.</summary>
public sealed partial class TableHeader
{
    private readonly Dictionary<Column, int> _places = [];
    private readonly HeaderReading?[] _readings;

    private TableHeader(SheetRow row, ImportMapping mapping)
    {
        Row = row;
        _readings = new HeaderReading?[row.Cells.Length];
        for (var i = 0; i < row.Cells.Length; i++)
        {
            var text = row.Cells[i].Shown;
            if (text.Length == 0) continue;
            var reading = HeaderReading.Of(text);
            Units[i] = reading.Unit;
            if (mapping.OfHeader(text) is var (column, unit))
            {
                Units[i] = unit ?? Units[i];
                if (column.Halves is { } halves)
                {
                    SaidHalves[i] = halves;
                    continue;
                }
                // "Preamplifier S/N" stays one of the preamplifier's where other columns speak of another kind.
                if (reading.Kind is not null && OfAKind(column) && SpeaksOfKinds(row))
                {
                    _readings[i] = reading.Said(column);
                    continue;
                }
                // A year or a number in the header still says which result is meant.
                if ((reading.Year is not null || reading.Index is not null)
                    && ResultGroup.Family.Contains(column)) Place(reading with { Column = column, Kind = null }, i);
                else Place(column, i, text);
            }
            else
            {
                _readings[i] = reading;
            }
        }
        HeaderReading.OfNeighbours(_readings);
        // What is only likely yields to what is said; what it would say twice is settled by the cells.
        for (var i = 0; i < _readings.Length; i++)
        {
            if (_readings[i] is { IsGuess: false } sure) Place(sure, i);
        }
        var contended = Contended();
        for (var i = 0; i < _readings.Length; i++)
        {
            if (_readings[i] is { IsPartly: true, Year: null, Index: null } open && contended.Contains(open.Column)) continue;
            if (_readings[i] is { IsGuess: true } likely && (likely.Column is not { } c || !_places.ContainsKey(c)
                || (ResultGroup.Family.Contains(c) && (!likely.IsPartly || likely.Year is not null || likely.Index is not null))))
                Place(likely, i);
        }
        SetFields(mapping);
    }

    private TableHeader(SheetRow row) => (Row, _readings) = (row, new HeaderReading?[row.Cells.Length]);

    /// <summary>How many columns are understood by their headers alone.</summary>
    public int Known => _places.Count + SaidHalves.Count + Groups.Sum(g => g.Places.Count)
        + _readings.Count(r => r?.Open is not null || r?.Kind is not null);

    /// <summary>Columns that each hold results of their own beside the first: a date and its value, again and again.</summary>
    public List<ResultGroup> Groups { get; } = [];

    /// <summary>Further devices of a row.</summary>
    public List<DevicePart> Devices { get; private set; } = [];

    /// <summary>Columns whose texts are kept as notes, with their headers.</summary>
    public List<int> Noted { get; } = [];

    /// <summary>A column that says in words what a device is, with its serial number; null where there is none.</summary>
    internal int? Described { get; set; }

    /// <summary>Columns of the day, the month and the year of a calibration; null where one column holds all.</summary>
    internal (int Day, int Month, int Year)? DateParts { get; set; }

    /// <summary>Column that holds the year of each result, where no column holds its day.</summary>
    internal int? YearPlace { get; set; }

    /// <summary>Whether the model stands beside the kind, in its column.</summary>
    internal bool HasModelBesideKind { get; set; }

    /// <summary>Columns headed by a state of use, marked in the rows of the devices that are in it.</summary>
    internal List<int> StatusMarks { get; } = [];

    /// <summary>Further columns that hold a result again in another unit: of which column, and where.</summary>
    internal List<(int First, int Second)> Again { get; } = [];

    /// <summary>Columns whose meaning was guessed, with it.</summary>
    public List<(int Column, string Meaning)> Guessed { get; } = [];

    /// <summary>Kind of device that the header says; null where it says none.</summary>
    public DeviceKind? Kind { get; private set; }

    /// <summary>What each header says by itself; null where a legend says it, or nothing stands there.</summary>
    internal IReadOnlyList<HeaderReading?> Readings => _readings;

    /// <summary>Whether two columns claim one meaning, so that no row can be taken before that is settled.</summary>
    internal bool IsContended { get; set; }

    /// <summary>Headers that stand twice: their second columns would be lost.</summary>
    public List<string> Twice { get; } = [];

    /// <summary>Details of devices that the table, or the mapping for every row, holds.</summary>
    public IReadOnlyList<(DeviceField Field, Column Column)> Fields { get; private set; } = [];

    /// <summary>The header row itself.</summary>
    public SheetRow Row { get; }

    /// <summary>Units by column, from the header or the row of units below it.</summary>
    public Dictionary<int, string?> Units { get; } = [];

    public IReadOnlyDictionary<Column, int> Places => _places;

    public bool Has(Column column) => _places.ContainsKey(column);

    /// <summary>Reads a row as a header.</summary>
    /// <returns>Null where it is none: it names nothing to know a row by, or fewer than two columns.</returns>
    public static TableHeader? TryRead(SheetRow row, ImportMapping mapping)
    {
        var header = new TableHeader(row, mapping);
        return header.Known >= 2 && header.NamesRows ? header : null;
    }

    /// <summary>Reads a row as a header, whether or not it names what a row is known by.</summary>
    internal static TableHeader Read(SheetRow row, ImportMapping mapping) => new(row, mapping);

    /// <summary>A header whose columns were settled elsewhere.</summary>
    internal static TableHeader Settled(SheetRow row, IEnumerable<(Column Column, int Place, string? Unit)> places)
    {
        var header = new TableHeader(row);
        foreach (var (column, place, unit) in places)
        {
            header._places.TryAdd(column, place);
            header.Units[place] = unit;
        }
        return header;
    }

    /// <summary>Whether a column says which thing a row speaks of.</summary>
    internal bool NamesRows => Naming.Any(Has) || Devices.Count > 0
        || SaidHalves.Values.Any(h => Naming.Contains(h.First) || Naming.Contains(h.Second))
        || _readings.Any(r => r?.Open == "?two" && HalvesOf(r.Text) is var (a, b) && (a == Column.Serial || b == Column.Serial))
        || _readings.Any(r => r is { Kind: not null }
            && (r.Column == Column.Serial || r.Open is "?number" or "?two" || r.Column == Column.Fields[DeviceField.InventoryCode]));

    /// <summary>Whether it has results or days of them.</summary>
    internal bool HoldsResults => Has(Column.Value) || Has(Column.Day) || Groups.Count > 0;

    /// <summary>Columns of which a table needs one, so that its rows can be told apart.</summary>
    internal static IReadOnlyList<Column> Naming { get; } =
    [
        Column.Serial, Column.DeviceId, Column.Fields[DeviceField.InventoryCode], Column.Station, Column.Campaign, Column.Limit,
        Column.Setting,
    ];

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

    /// <summary>Gives a column its meaning after all, as its cells or a person say.</summary>
    internal void Settle(int place, Column column, ImportMapping mapping)
    {
        Place(column, place, Row.At(place).Shown);
        SetFields(mapping);
    }

    /// <summary>Takes a meaning from a column that its cells contradict.</summary>
    internal void Unsettle(Column column, int place, ImportMapping mapping)
    {
        if (_places.TryGetValue(column, out var at) && at == place) _places.Remove(column);
        SetFields(mapping);
    }

    /// <summary>Gives a column another meaning, as the columns beside it say.</summary>
    internal void Move(Column from, Column to, ImportMapping mapping)
    {
        if (!_places.Remove(from, out var place)) return;
        if (to == Column.Noted) Noted.Add(place);
        else _places[to] = place;
        SetFields(mapping);
    }

    /// <summary>Columns that hold a model and a serial in one cell: what stands between them, and which comes first.</summary>
    internal Dictionary<int, (string Separator, Column First)> Divided { get; } = [];

    internal void Divide(int place, string separator, (Column First, Column Second) halves, ImportMapping mapping)
    {
        Divided[place] = (separator, halves.First);
        (_places[halves.First], _places[halves.Second]) = (place, place);
        SetFields(mapping);
    }

    /// <summary>Gives a unit to the results whose headers have none.</summary>
    internal void UnitForAll(string unit)
    {
        var values = Groups.Where(g => g.Places.ContainsKey(Column.Value)).Select(g => g.Places[Column.Value]);
        foreach (var place in _places.TryGetValue(Column.Value, out var first) ? values.Append(first)
            : values) Units[place] = Units.GetValueOrDefault(place) ?? unit;
    }

    internal void SettleDevices(DeviceKind? kind, List<DevicePart> devices) => (Kind, Devices) = (kind, devices);

    internal void Leave(int place) => LeftOut.Add(place);

    private void SetFields(ImportMapping mapping) =>
        Fields = [.. Column.Fields.Where(f => _places.ContainsKey(f.Value) || mapping.Constants.ContainsKey(f.Value))
            .Select(f => (f.Key, f.Value))];

    private void Place(HeaderReading reading, int place)
    {
        var text = reading.Text;
        if (reading.Column is not { } column) return;
        // What belongs to a kind of device is settled when all headers are known.
        if (reading.Kind is not null && !(reading.Year is not null && column == Column.Value
            && MeasuredText.IsOfSensitivity(reading.Unit))) return;
        if (reading.Year is { } year)
        {
            if (!ResultGroup.Family.Contains(column)) Place(column, place, text);
            else if (!PlaceIn(Group(g => g.Year == year && g.IsDay == reading.IsDay, () => new(year) { IsDay = reading.IsDay }), column,
                place)) Twice.Add(text);
        }
        else if (reading.Index is { } index && ResultGroup.Family.Contains(column))
        {
            if (!Group(g => g.Index == index, () => new(null, index)).Places.TryAdd(column, place)) Twice.Add(text);
        }
        else
        {
            Place(column, place, text);
        }
    }

    // "Calibrated" and "mV/Pa" under one year: the day, and the result. Alone under a year, the first would be the result.
    private bool PlaceIn(ResultGroup group, Column column, int place)
    {
        if (group.Places.TryAdd(column, place)) return true;
        if (column != Column.Value) return false;
        if (Units.GetValueOrDefault(place) is not { } unit)
            return Units.GetValueOrDefault(group.Places[column]) is not null
                && HeaderConcepts.Of(Row.At(place).Shown).Concepts.Contains("calibration") && group.Places.TryAdd(Column.Day, place);
        if (Units.GetValueOrDefault(group.Places[column]) is { } other)
        {
            if (unit != other) Again.Add((group.Places[column], place));
            return unit != other;
        }
        if (!group.Places.TryAdd(Column.Day, group.Places[column])) return false;
        group.Places[column] = place;
        return true;
    }

    private ResultGroup Group(Func<ResultGroup, bool> which, Func<ResultGroup> make)
    {
        if (Groups.Find(g => which(g)) is { } known) return known;
        var made = make();
        Groups.Add(made);
        return made;
    }

    private void Place(Column column, int place, string text)
    {
        if (column == Column.LeftOut) LeftOut.Add(place);
        else if (column == Column.Noted) Noted.Add(place);
        else if (_places.TryAdd(column, place)) return;
        else if (column == Column.Serial && IsBesideSerial(place, text)) return;
        else if (column == Column.Note) Noted.Add(place);
        else if (column == Column.Value && Units.GetValueOrDefault(place) is { } unit && unit != Units.GetValueOrDefault(_places[column])
            && !Again.Exists(a => a.First == _places[column])) Again.Add((_places[column], place));
        else if (!IsRepeated(column, place)) Twice.Add(text);
    }
}
