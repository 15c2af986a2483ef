using System.Collections.ObjectModel;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>A table as it is understood: its header, what its rows share, and its rows for whoever takes them.</summary>
internal sealed class TableReading
{
    private const int RowsBeforeHeader = 100;
    private const int RowsThatMakeAColumn = 2;

    private readonly ImportMapping _rules;
    private readonly IReadOnlyList<SheetRow> _rows;
    private readonly string _sheet;
    private readonly RepeatedHeadings _headings;
    private DateHand _hand;
    private readonly DeviceKind? _kind;
    private RowHeading? _heading;
    private readonly IReadOnlyDictionary<Column, string> _above;
    private IReadOnlyDictionary<Column, string> _said = ReadOnlyDictionary<Column, string>.Empty;

    private TableReading(TableHeader header, IReadOnlyList<SheetRow> before, IReadOnlyList<SheetRow> rows, Sheet sheet, ImportMapping rules)
    {
        (Header, Before, _rows, _sheet, _rules) = (header, before, rows, sheet.Name, rules);
        var isNamed = before.Any(r => LabelledLine.AllOf(r, rules).Any(l => l.NamesDevice));
        Questions = new HeaderSettling(header, rules, rows, sheet.Name, isNamed).Settle();
        rows = _rows = SplitRows.Of(rows, header);
        _headings = RepeatedHeadings.Of(rows, header, rules);
        if (_headings.Question(sheet.Name) is { } headings) Questions = [.. Questions, headings];
        Questions = [.. Questions, .. LabelledLine.Unknown(before, rules, sheet.Name,
            before.Any(r => LabelledLine.AllOf(r, rules).Count > 0))];
        var days = new[] { Column.Day, Column.Due, Column.Inspected, Column.FirstDay, Column.LastDay };
        var columns = days.Where(header.Has).Select(c => header.Places[c])
            .Concat(header.Groups.SelectMany(g => g.Places.Where(p => days.Contains(p.Key)).Select(p => p.Value))).ToHashSet();
        _hand = DateHand.Of(rows, columns, sheet.Uses1904);
        _kind = header.Kind ?? (sheet.Name.Length > 0 ? Words.Kind(sheet.Name) ?? HeaderReading.KindIn(sheet.Name) : null);
        // The title just above the header, if it speaks of a kind or of a device; and what lines above it say of all rows.
        foreach (var row in before)
        {
            if (LabelledLine.AllOf(row, rules) is { Count: > 0 } lines) _said = lines.Aggregate(_said, (said, line) => line.On(said));
            else if (RowHeading.Lone(row) is { } title && RowHeading.Of(title) is { } heading) _heading = heading;
        }
        _above = _said;
        if (before.Count > 0 && RowHeading.Lone(before[^1]) is { } above
            && MeasuredText.UnitOfHeader(above) is { } unit) header.UnitForAll(unit);
        IsOfSensitivities = header.Places.TryGetValue(Column.Value, out var value)
            && IsSensitivityUnit(header.Units.GetValueOrDefault(value))
            || header.Groups.Any(g => g.Places.TryGetValue(Column.Value, out var place)
                && IsSensitivityUnit(header.Units.GetValueOrDefault(place)));
    }

    public TableHeader Header { get; }

    /// <summary>Rows above the header.</summary>
    public IReadOnlyList<SheetRow> Before { get; }

    /// <summary>What only a person can say of columns.</summary>
    public IReadOnlyList<ImportQuestion> Questions { get; }

    /// <summary>Whether results are sensitivities by their unit, which only microphones have.</summary>
    public bool IsOfSensitivities { get; }

    public IReadOnlyList<SheetRow> Rows => _rows;

    /// <summary>Finds the tables of a sheet, one below the other; empty where no row is a header.</summary>
    public static IReadOnlyList<TableReading> Find(IReadOnlyList<SheetRow> rows, Sheet sheet, ImportMapping rules)
    {
        // Keys of limits and settings, and many a serial, read as headers too: a table that left a register is one, and upright.
        if (rows.Count > 0 && LeftARegister(rows[0]))
            return [Of(new(TableHeader.Read(rows[0], rules), [], Below(rows, 1), 1), sheet, rules)];
        if ((StackedCards.Turned(rows, rules) ?? CrossTable.Turned(rows, rules)
            ?? SidewaysTable.Turned(rows, rules)) is { } turned) return First(turned, rules) is { } aside ? [Of(aside, sheet, rules)] : [];
        var found = new List<TableReading>();
        for (var part = First(rows, rules); part is not null;)
        {
            var next = Next(part, rules);
            found.Add(Of(next is null ? part : part with { Rows = [.. part.Rows.Take(part.Rows.Count - next.Before.Count - next.Used - next.Rows.Count)] },
                sheet, rules));
            part = next;
        }
        return found;
    }

    private static bool LeftARegister(SheetRow header)
    {
        var columns = header.Cells.Where(c => !c.IsBlank).Select(c => Column.OfKey(c.Shown)).ToList();
        // Only registers have such ids, whatever columns people put beside them; limits and settings are words of other lists too.
        return columns.Contains(Column.DeviceId) || columns.Contains(Column.CampaignId)
            || (columns.Count > 1 && !columns.Contains(null) && (columns.Contains(Column.Limit) || columns.Contains(Column.Setting)));
    }

    private static TableReading Of(Part part, Sheet sheet, ImportMapping rules) =>
        new(Named(part.Header, part.Rows, rules), part.Before, part.Rows, sheet, rules);

    private static Part? First(IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        var looked = Math.Min(rows.Count, RowsBeforeHeader);
        (int At, TableHeader Header)? likely = null;
        var isNamed = false;
        for (var i = 0; i < looked; i++)
        {
            if (rows[i].Fault is not null) continue;
            if (LabelledLine.AllOf(rows[i], rules) is { Count: > 0 } lines)
            {
                isNamed |= lines.Any(l => l.NamesDevice);
                continue;
            }
            var (header, used) = At(rows, i, rules);
            if (header.Known >= 2 && (header.NamesRows || isNamed && header.HoldsResults)) return new(header, [.. rows.Take(i)],
                Below(rows, i + used), used);
            if (header.Known >= 2 && (likely is not { } l || header.Known > l.Header.Known)) likely = (i, header);
        }
        // A header that names nothing to know a row by is asked about, where a table stands below it.
        return likely is var (at, found) && rows.Count > at + 2 ? new(found, [.. rows.Take(at)], Below(rows, at + 1), 1) : null;
    }

    // A row of words only, under which another table begins; the lines just above it belong to it.
    private static Part? Next(Part part, ImportMapping rules)
    {
        for (var i = 1; i < part.Rows.Count; i++)
        {
            if (!LooksLikeHeader(part.Rows[i]) || part.Header.IsRepeatedBy(part.Rows[i])) continue;
            var from = i;
            while (from > 0 && IsAbove(part.Rows[from - 1], rules)) from--;
            var isNamed = Enumerable.Range(from, i - from).Any(n => LabelledLine.AllOf(part.Rows[n], rules).Any(l => l.NamesDevice));
            var (header, used) = At(part.Rows, i, rules);
            if (header.Known < 3 || header.Known * 2 < header.Row.Cells.Count(c => !c.IsBlank)) continue;
            if (header.NamesRows || (isNamed && header.HoldsResults))
                return new(header, [.. part.Rows.Skip(from).Take(i - from)], Below(part.Rows, i + used), used);
        }
        return null;
    }

    private static bool IsAbove(SheetRow row, ImportMapping rules) => row.Fault is null
        && (LabelledLine.AllOf(row, rules).Count > 0 || RowHeading.Lone(row) is not null);

    // Rows of devices hold numbers or days; this is asked of every row, and must be quick.
    private static bool LooksLikeHeader(SheetRow row)
    {
        if (row.Fault is not null) return false;
        var (filled, withDigits) = (0, 0);
        foreach (var cell in row.Cells)
        {
            if (cell.IsBlank) continue;
            if (cell.Day is not null || char.IsAsciiDigit(cell.Text![0]) || cell.Text[0] == '-') return false;
            filled++;
            if (cell.Text.AsSpan().ContainsAnyInRange('0', '9')) withDigits++;
        }
        return filled >= 3 && withDigits * 2 < filled;
    }

    /// <summary>A table of a sheet before it is read: its header, the lines above it, and how many rows the header takes.</summary>
    private sealed record Part(TableHeader Header, IReadOnlyList<SheetRow> Before, IReadOnlyList<SheetRow> Rows, int Used);

    /// <summary>Lets tables of one file settle the order of each other's dates: one 14 in any of them, unless two contradict.</summary>
    public static void SettleDates(IReadOnlyList<TableReading> tables)
    {
        var hands = tables.Select(t => t._hand).ToList();
        if (hands.Exists(h => h.IsTorn)) return;
        foreach (var table in tables) table._hand = table._hand.ProvenBy(hands);
    }

    /// <summary>All rows with all their results, as they are read before any is taken.</summary>
    public IEnumerable<RowReader> Readers => _rows.Where(r => r.Fault is null).Select(r => Reader(r))
        .SelectMany(r => Header.Groups.Select(r.Of).Prepend(r));

    /// <summary>A row for whoever takes it; what headings and rows beside it say stands with it.</summary>
    public RowReader Reader(SheetRow row, IReadOnlyDictionary<Column, string>? beside = null) =>
        Reader(row, WithState(row, WithModel(row, WithDate(row, beside))), Header.Described is { } place
            ? RowHeading.Of(row.At(place).Shown) : null);

    private IReadOnlyDictionary<Column, string>? WithModel(SheetRow row, IReadOnlyDictionary<Column, string>? beside)
    {
        if (!Header.HasModelBesideKind || RowHeading.ModelIn(row.At(Header.Places[Column.Kind]).Shown) is not var (model,
            maker)) return beside;
        var says = new Dictionary<Column, string>(beside ?? ReadOnlyDictionary<Column, string>.Empty) { [Column.Model] = model };
        if (maker is not null && !Header.Has(Column.Maker)) says[Column.Maker] = maker;
        return says;
    }

    private IReadOnlyDictionary<Column, string>? WithState(SheetRow row, IReadOnlyDictionary<Column, string>? beside)
    {
        if (Header.StatusMarks.Count == 0) return beside;
        var marked = Header.StatusMarks.Where(i => !RowReader.IsAbsent(row.At(i).Shown)).ToList();
        // Of two marks in a row nobody knows which one holds; their words together are asked about.
        return marked.Count == 0 ? beside : new Dictionary<Column, string>(beside ?? ReadOnlyDictionary<Column, string>.Empty)
        {
            [Column.Status] = string.Join(" and ", marked.Select(i => Header.Row.At(i).Shown)),
        };
    }

    private IReadOnlyDictionary<Column, string>? WithDate(SheetRow row, IReadOnlyDictionary<Column, string>? beside) =>
        Header.DateParts is not var (day, month, year) || row.At(day).IsBlank && row.At(year).IsBlank ? beside
        : new Dictionary<Column, string>(beside ?? ReadOnlyDictionary<Column, string>.Empty)
        {
            [Column.Day] = $"{row.At(year).Shown}-{row.At(month).Shown.PadLeft(2, '0')}-{row.At(day).Shown.PadLeft(2, '0')}",
        };

    private RowReader Reader(SheetRow row, IReadOnlyDictionary<Column, string>? beside, RowHeading? described) => new(Header, row, _rules)
    {
        KindAround = described?.Kind ?? (_heading is null ? _kind : _heading.Kind),
        Heading = _heading is { Kind: null } unknown ? unknown.Text : null,
        Hand = _hand,
        Sheet = _sheet,
        Beside = Both(beside, Both(described?.Says, Both(_heading?.Says, _said))),
    };

    /// <summary>Takes a row that is nothing but a heading for the rows below it.</summary>
    /// <returns>What it is; null where it is no heading.</returns>
    public string? TakeHeading(SheetRow row)
    {
        if (LabelledLine.Of(row, _rules) is { IsLone: true } line)
        {
            _said = line.On(_said);
            return "a heading: what it says of the rows below it";
        }
        if (_headings.Says(row) is { } says)
        {
            _said = says.On(_said);
            return "a heading: what it says of the rows below it";
        }
        // One that is not understood ends what was said before it.
        if (_said.Count > 0 && RowHeading.Lone(row) is { } other && other.Contains(':', StringComparison.Ordinal)) _said = _above;
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

    private static IReadOnlyDictionary<Column, string> Both(
        IReadOnlyDictionary<Column, string>? own, IReadOnlyDictionary<Column, string> around)
    {
        if (own is null || own.Count == 0) return around;
        if (around.Count == 0) return own;
        var both = new Dictionary<Column, string>(around);
        foreach (var (column, text) in own) both[column] = text;
        return both;
    }

    // A header may stand in two rows: "Microphone | Microphone | Calibration" above "Type | S/N | Date".
    private static (TableHeader Header, int Used) At(IReadOnlyList<SheetRow> rows, int i, ImportMapping rules)
    {
        var one = TableHeader.Read(rows[i], rules);
        if (i + 1 >= rows.Count || rows[i + 1].Fault is not null || rows[i].Cells.Count(c => !c.IsBlank) < 2) return (one, 1);
        if (SplitsColumns(rows[i], rows[i + 1])) return (TableHeader.Read(Joined(rows[i], rows[i + 1]), rules), 2);
        if (!IsWords(rows[i + 1])) return (one, 1);
        var two = TableHeader.Read(rows[i + 1], rules);
        var joined = TableHeader.Read(Joined(rows[i], rows[i + 1]), rules);
        if (!joined.NamesRows) return (one, 1);
        // A word broken over two rows makes no more columns, but loses its unit or its meaning where the second is left out.
        return joined.Known > Math.Max(one.Known, two.Known) || (joined.Known >= one.Known && two.Known < joined.Known) ? (joined, 2)
            : (one, 1);
    }

    // "2023" over two columns, and below it "mV/Pa" and "dB": a row of units that tells columns apart which have no header of their own.
    private static bool SplitsColumns(SheetRow above, SheetRow units) =>
        units.Cells.All(c => c.IsBlank || c.Shown == "k" || MeasuredText.Unit(c.Shown) is not null)
            && Enumerable.Range(1, Math.Max(0, units.Cells.Length - 1)).Any(n => !units.At(n).IsBlank && above.At(n).IsBlank);

    // A column without a header that holds something must not be lost: it is called by its place, and asked about.
    private static TableHeader Named(TableHeader header, IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        var width = rows.Take(RowsBeforeHeader).Where(r => r.Fault is null).Select(r => r.Cells.Length).DefaultIfEmpty().Max();
        var cells = header.Row.Cells.Concat(Enumerable.Repeat(default(Cell), Math.Max(0, width - header.Row.Cells.Length))).ToArray();
        var isNamed = false;
        for (var n = 0; n < cells.Length; n++)
        {
            if (!cells[n].IsBlank || rows.Take(RowsBeforeHeader).Count(r => r.Fault is null && !r.At(n).IsBlank
                && r.Cells.Count(c => !c.IsBlank) > 2) < RowsThatMakeAColumn) continue;
            cells[n] = new(FormattableString.Invariant($"column {n + 1}"));
            isNamed = true;
        }
        return isNamed ? TableHeader.Read(header.Row with { Cells = cells }, rules) : header;
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

    internal static SheetRow Joined(SheetRow above, SheetRow below)
    {
        var cells = new Cell[Math.Max(above.Cells.Length, below.Cells.Length)];
        var last = "";
        for (var i = 0; i < cells.Length; i++)
        {
            // A title over several columns stands in the first of them.
            if (!above.At(i).IsBlank) last = above.At(i).Shown;
            var (top, bottom) = (above.At(i).IsBlank && !below.At(i).IsBlank ? last : above.At(i).Shown, below.At(i).Shown);
            cells[i] = new(bottom == "k" ? bottom : bottom.Length == 0 || bottom == top ? top : top.Length == 0 ? bottom : top + " "
                + bottom);
        }
        return below with { Cells = cells };
    }

    private static IReadOnlyList<SheetRow> Below(IReadOnlyList<SheetRow> rows, int from) => from == 0 ? rows : [.. rows.Skip(from)];

    private static bool IsSensitivityUnit(string? unit) => unit is "mV/Pa" or "V/Pa" or "dB re 1 V/Pa";
}
