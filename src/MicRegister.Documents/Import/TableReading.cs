using System.Collections.ObjectModel;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>A table as it is understood: its header, what its rows share, and its rows for whoever takes them.</summary>
internal sealed class TableReading
{
    private const int RowsBeforeHeader = 100;

    private readonly ImportMapping _rules;
    private readonly IReadOnlyList<SheetRow> _rows;
    private readonly string _sheet;
    private readonly DateHand _hand;
    private readonly DeviceKind? _kind;
    private RowHeading? _heading;

    private TableReading(TableHeader header, IReadOnlyList<SheetRow> before, IReadOnlyList<SheetRow> rows, Sheet sheet, ImportMapping rules)
    {
        (Header, Before, _rows, _sheet, _rules) = (header, before, rows, sheet.Name, rules);
        Questions = new HeaderSettling(header, rules, rows, sheet.Name).Settle();
        var days = new[] { Column.Day, Column.Due, Column.Inspected, Column.FirstDay, Column.LastDay };
        var columns = days.Where(header.Has).Select(c => header.Places[c])
            .Concat(header.Groups.SelectMany(g => g.Places.Where(p => days.Contains(p.Key)).Select(p => p.Value))).ToHashSet();
        _hand = DateHand.Of(rows, columns, sheet.Uses1904);
        _kind = header.Kind ?? (sheet.Name.Length > 0 ? Words.Kind(sheet.Name) ?? HeaderReading.KindIn(sheet.Name) : null);
        // The title just above the header, if it speaks of a kind or of a device.
        foreach (var row in before)
        {
            if (RowHeading.Lone(row) is { } title && RowHeading.Of(title) is { } heading) _heading = heading;
        }
        if (before.Count > 0 && RowHeading.Lone(before[^1]) is { } above && MeasuredText.UnitOfHeader(above) is { } unit) header.UnitForAll(unit);
        IsOfSensitivities = header.Places.TryGetValue(Column.Value, out var value) && IsSensitivityUnit(header.Units.GetValueOrDefault(value))
            || header.Groups.Any(g => g.Places.TryGetValue(Column.Value, out var place) && IsSensitivityUnit(header.Units.GetValueOrDefault(place)));
    }

    public TableHeader Header { get; }

    /// <summary>Rows above the header.</summary>
    public IReadOnlyList<SheetRow> Before { get; }

    /// <summary>What only a person can say of columns.</summary>
    public IReadOnlyList<ImportQuestion> Questions { get; }

    /// <summary>Whether results are sensitivities by their unit, which only microphones have.</summary>
    public bool IsOfSensitivities { get; }

    public IReadOnlyList<SheetRow> Rows => _rows;

    /// <summary>Finds the table of a sheet; null where no row is a header.</summary>
    public static TableReading? Find(IReadOnlyList<SheetRow> rows, Sheet sheet, ImportMapping rules)
    {
        if (SidewaysTable.Turned(rows, rules) is { } turned) rows = turned;
        var looked = Math.Min(rows.Count, RowsBeforeHeader);
        (int At, TableHeader Header)? likely = null;
        for (var i = 0; i < looked; i++)
        {
            if (rows[i].Fault is not null) continue;
            var (header, used) = At(rows, i, rules);
            if (header.Known >= 2 && header.NamesRows) return new(header, [.. rows.Take(i)], Below(rows, i + used), sheet, rules);
            if (header.Known >= 2 && (likely is not { } l || header.Known > l.Header.Known)) likely = (i, header);
        }
        // A header that names nothing to know a row by is asked about, where a table stands below it.
        return likely is var (at, found) && rows.Count > at + 2
            ? new(found, [.. rows.Take(at)], Below(rows, at + 1), sheet, rules)
            : null;
    }

    /// <summary>All rows with all their results, as they are read before any is taken.</summary>
    public IEnumerable<RowReader> Readers => _rows.Where(r => r.Fault is null).Select(r => Reader(r))
        .SelectMany(r => Header.Groups.Select(r.Of).Prepend(r));

    /// <summary>A row for whoever takes it; what headings and rows beside it say stands with it.</summary>
    public RowReader Reader(SheetRow row, IReadOnlyDictionary<Column, string>? beside = null) => new(Header, row, _rules)
    {
        KindAround = _heading is null ? _kind : _heading.Kind,
        Heading = _heading is { Kind: null } unknown ? unknown.Text : null,
        Hand = _hand,
        Sheet = _sheet,
        Beside = _heading is null || _heading.Says.Count == 0 ? beside ?? ReadOnlyDictionary<Column, string>.Empty : Both(beside, _heading.Says),
    };

    /// <summary>Takes a row that is nothing but a heading for the rows below it.</summary>
    /// <returns>What it is; null where it is no heading.</returns>
    public string? TakeHeading(SheetRow row)
    {
        if (RowHeading.Lone(row) is not { } text || Header.Row.Cells.Count(c => !c.IsBlank) < 2) return null;
        if (RowHeading.Of(_rules.Meaning(Column.Kind, text)) is { } heading)
        {
            _heading = heading;
            return "a heading: what the rows below it are";
        }
        // Among headings of kinds, one that nobody understands ends the one before: its rows are asked about.
        if (_heading?.Kind is null || !RowHeading.MayBeOne(text)) return null;
        _heading = new(null, text, ReadOnlyDictionary<Column, string>.Empty);
        return "a heading that is not understood";
    }

    private static Dictionary<Column, string> Both(IReadOnlyDictionary<Column, string>? own, IReadOnlyDictionary<Column, string> heading)
    {
        var both = new Dictionary<Column, string>(heading);
        foreach (var (column, text) in own ?? ReadOnlyDictionary<Column, string>.Empty) both[column] = text;
        return both;
    }

    // A header may stand in two rows: "Microphone | Microphone | Calibration" above "Type | S/N | Date".
    private static (TableHeader Header, int Used) At(IReadOnlyList<SheetRow> rows, int i, ImportMapping rules)
    {
        var one = TableHeader.Read(rows[i], rules);
        if (i + 1 >= rows.Count || rows[i + 1].Fault is not null || !IsWords(rows[i + 1])) return (one, 1);
        var two = TableHeader.Read(rows[i + 1], rules);
        var joined = TableHeader.Read(Joined(rows[i], rows[i + 1]), rules);
        if (!joined.NamesRows) return (one, 1);
        // A word broken over two rows makes no more columns, but loses its unit or its meaning where the second is left out.
        return joined.Known > Math.Max(one.Known, two.Known) || (joined.Known >= one.Known && two.Known < joined.Known) ? (joined, 2) : (one, 1);
    }

    // Every cell is made of words of headers, or a unit: no row of a device is.
    private static bool IsWords(SheetRow row)
    {
        var filled = row.Cells.Where(c => !c.IsBlank).ToList();
        if (filled.Count < 2 || filled.All(c => MeasuredText.Unit(c.Shown) is not null)) return false;
        return filled.TrueForAll(c => c.Day is null && (MeasuredText.Unit(c.Shown) is not null
            || (HeaderConcepts.Of(MeasuredText.WithoutUnit(c.Shown)) is { Unknown: 0, Concepts.Count: > 0, HasSlip: false }
                && Words.Kind(c.Shown) is null)));
    }

    private static SheetRow Joined(SheetRow above, SheetRow below)
    {
        var cells = new Cell[Math.Max(above.Cells.Length, below.Cells.Length)];
        var last = "";
        for (var i = 0; i < cells.Length; i++)
        {
            // A title over several columns stands in the first of them.
            if (!above.At(i).IsBlank) last = above.At(i).Shown;
            var (top, bottom) = (above.At(i).IsBlank && !below.At(i).IsBlank ? last : above.At(i).Shown, below.At(i).Shown);
            cells[i] = new(bottom.Length == 0 || bottom == top ? top : top.Length == 0 ? bottom : top + " " + bottom);
        }
        return below with { Cells = cells };
    }

    private static IReadOnlyList<SheetRow> Below(IReadOnlyList<SheetRow> rows, int from) => from == 0 ? rows : [.. rows.Skip(from)];

    private static bool IsSensitivityUnit(string? unit) => unit is "mV/Pa" or "V/Pa" or "dB re 1 V/Pa";
}
