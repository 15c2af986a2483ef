using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>A table that tells what was done outdoors, as it is understood: its sort, its columns, its rows.</summary>
internal sealed class DiaryTable
{
    private const int RowsBeforeHeader = 100;
    private const int ChoicesShown = 8;

    // Where one of these stands beside, the table is a list of devices, certificates, stations or limits.
    private static readonly HashSet<Column> Elsewhere =
    [
        Column.Mount, Column.Latitude, Column.Certificate, Column.Laboratory, Column.Due, Column.Inspected, Column.Serial, Column.Value,
        Column.Uncertainty, Column.Limit, Column.Setting, Column.Purpose, Column.Profile, Column.Fields[DeviceField.InventoryCode],
    ];

    private readonly ImportMapping _rules;
    private readonly Dictionary<int, string> _units;

    private DiaryTable(Layout layout, IReadOnlyList<SheetRow> before, IReadOnlyList<SheetRow> rows, Sheet sheet, ImportMapping rules)
    {
        (Sort, Before, Rows, Sheet, _rules, _units, Readings) =
            (layout.Sort, before, rows, sheet.Name, rules, layout.Units, layout.Readings);
        Header = TableHeader.Settled(layout.Row, layout.Places.Select(p => (p.Column, p.Place, MeasuredText.Unit(layout.Units[p.Place]))));
        Header.LeftOut.AddRange(layout.LeftOut);
        Header.Noted.AddRange(layout.Noted);
        Unknown = [.. layout.Unknown.Where(i => rows.Any(r => !r.At(i).IsBlank))];
        var days = layout.Places.Where(p => DiaryTimes.Columns.Contains(p.Column)).Select(p => p.Place).ToHashSet();
        Hand = DateHand.Of(rows, days, sheet.Uses1904);
    }

    public DiarySort Sort { get; }

    public TableHeader Header { get; }

    /// <summary>Rows above the header.</summary>
    public IReadOnlyList<SheetRow> Before { get; }

    public IReadOnlyList<SheetRow> Rows { get; }

    /// <summary>Name of the sheet.</summary>
    public string Sheet { get; }

    /// <summary>Columns of readings, one an insertion.</summary>
    public IReadOnlyList<int> Readings { get; }

    /// <summary>Filled columns that nobody knows.</summary>
    public IReadOnlyList<int> Unknown { get; }

    /// <summary>What people should know of how its days are read; null where nothing.</summary>
    public string? RemarkOfDays => Hand.Remark(_rules);

    private DateHand Hand { get; }

    /// <summary>Finds such a table; null where no row is a header of one.</summary>
    public static DiaryTable? Find(IReadOnlyList<SheetRow> rows, Sheet sheet, ImportMapping rules)
    {
        for (var i = 0; i < Math.Min(rows.Count, RowsBeforeHeader); i++)
        {
            if (rows[i].Fault is not null || rows[i].Cells.Count(c => !c.IsBlank) < 2 || HoldsDays(rows[i])) continue;
            foreach (var sort in DiarySort.All)
            {
                var layout = Layout.Of(rows[i], sort, rules);
                if (layout.Fits(rules)) return new(layout, [.. rows.Take(i)], [.. rows.Skip(i + 1)], sheet, rules);
            }
        }
        return null;
    }

    // Rows below a header hold days and numbers; each sort is tried on every row that is left.
    private static bool HoldsDays(SheetRow row) => row.Cells.Any(c => c.Day is not null || (!c.IsBlank && char.IsAsciiDigit(c.Text![0])));

    /// <summary>A row for whoever takes it.</summary>
    public RowReader Reader(SheetRow row) => new(Header, row, _rules) { Hand = Hand, Sheet = Sheet };

    /// <summary>The unit behind a column's name as it stands there, in small letters; empty where there is none.</summary>
    public string UnitOf(Column column) => Header.Places.TryGetValue(column, out var place) ? _units[place] : "";

    /// <summary>The same of a place.</summary>
    public string UnitAt(int place) => _units[place];

    /// <summary>What columns that nobody knows hold, asked one by one.</summary>
    public IEnumerable<ImportQuestion> Questions()
    {
        if (Sort.PassesOver) yield break;
        foreach (var place in Unknown)
        {
            var text = Header.Row.At(place).Shown;
            var choices = Sort.Columns.Select(c => c.Column).Where(c => !Header.Has(c) && c != Column.Checked && c != Column.Why)
                .Take(ChoicesShown).Append(Column.Noted).Append(Column.LeftOut)
                .Select(c => new ImportChoice(
                    c == Column.Noted ? "Kept in the remark, with its header" : c.Meaning, LegendText.HeaderRule(text, c.Key)));
            var question = new ImportQuestion(
                "column " + text.ToLowerInvariant(), Sheet, $"What stands under '{text}' in this table of {Sort.Name}?", [.. choices])
            { Name = text };
            foreach (var example in Rows.Select(r => r.At(place).Shown).Where(t => t.Length > 0)) question.Seen(example);
            yield return question;
        }
    }

    /// <summary>What each column was taken for, for people.</summary>
    public IEnumerable<UnderstoodColumn> Understood()
    {
        for (var i = 0; i < Header.Row.Cells.Length; i++)
        {
            if (Header.Row.At(i).IsBlank) continue;
            var first = Rows.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).Distinct().Take(3);
            var column = Header.Places.FirstOrDefault(p => p.Value == i).Key ?? (Readings.Contains(i) ? DiaryColumns.Reading : null);
            var (meaning, certainty, sort) = Header.LeftOut.Contains(i) ? ("left out", "of no use here", ColumnCertainty.LeftOut)
                : Header.Noted.Contains(i) ? ("kept in the remark", "no column of this table", ColumnCertainty.ByContent)
                : column is null ? Sort.PassesOver ? ("not understood", "passed over", ColumnCertainty.LeftOut)
                    : ("not understood", "asked", ColumnCertainty.Asked)
                : _rules.OfHeader(Header.Row.At(i).Shown) is null ? (column.Meaning, "by its header", ColumnCertainty.Sure)
                : (column.Meaning, "said by the legend", ColumnCertainty.Said);
            yield return new(Sheet, Header.Row.At(i).Shown, meaning, certainty, string.Join(", ", first)) { Place = i, Sort = sort };
        }
    }

    private sealed record Layout(DiarySort Sort, SheetRow Row)
    {
        public List<(Column Column, int Place)> Places { get; } = [];

        public Dictionary<int, string> Units { get; } = [];

        public List<int> Readings { get; } = [];

        public List<int> LeftOut { get; } = [];

        public List<int> Noted { get; } = [];

        public List<int> Unknown { get; } = [];

        public static Layout Of(SheetRow row, DiarySort sort, ImportMapping rules)
        {
            var layout = new Layout(sort, row);
            for (var i = 0; i < row.Cells.Length; i++)
            {
                if (row.At(i).IsBlank) continue;
                var text = row.At(i).Shown;
                var (plain, unit) = FieldTable.Parts(text);
                // "Level dB", without brackets; "Taken in" is no length.
                if (unit.Length == 0 && sort.Named(plain) is null && MeasuredText.UnitOfHeader(text) is { } behind)
                    (plain, unit) = (FieldTable.Parts(MeasuredText.WithoutUnit(text)).Name, behind.ToLowerInvariant());
                layout.Units[i] = unit;
                var said = rules.OfHeader(text);
                if (said?.Unit is { } stated) layout.Units[i] = stated.ToLowerInvariant();
                // Reading 1, Reading 2: one an insertion.
                var named = sort.Named(plain) ?? sort.Named(plain.TrimEnd("0123456789".ToCharArray()));
                layout.Place(i, said?.Column ?? named, said is not null);
            }
            return layout;
        }

        public bool Fits(ImportMapping rules) => Places.Count + Math.Max(0, Readings.Count - 1) >= 2
            && Sort.Fits(c => Places.Exists(p => p.Column == c) || rules.Constants.ContainsKey(c))
            && !Unknown.Exists(i => HeaderReading.Of(Row.At(i).Shown).Column is { } column && Elsewhere.Contains(column)
                && !(Sort.PassesOver && column == Column.Latitude));

        private void Place(int i, Column? column, bool isSaid)
        {
            if (column == Column.LeftOut) LeftOut.Add(i);
            else if (column == Column.Noted) Noted.Add(i);
            else if (column is null || !(isSaid ? Sort.Columns.Any(c => c.Column == column) : true)) Unknown.Add(i);
            else if (!Places.Exists(p => p.Column == column))
            {
                Places.Add((column, i));
                if (column == DiaryColumns.Reading) Readings.Add(i);
            }
            else if (column == DiaryColumns.Reading) Readings.Add(i);
            else Unknown.Add(i);
        }
    }
}
