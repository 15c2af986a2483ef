using System.Collections.ObjectModel;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>A table as it is understood: its header, what its rows share, and its rows for whoever takes them.</summary>
internal sealed class TableReading
{
    private readonly ImportMapping _rules;
    private readonly IReadOnlyList<SheetRow> _rows;
    private readonly IReadOnlyDictionary<int, string> _dittos;
    private readonly string _sheet;
    private readonly RepeatedHeadings _headings;
    private readonly SectionLines _sections;
    private readonly HashSet<int> _below;
    private readonly IReadOnlySet<int> _parents;
    private readonly HashSet<Column> _ofCard = [];
    private DateHand _hand;
    private readonly DeviceKind? _kind;
    private readonly RowHeading? _firstHeading;
    private readonly HashSet<Column> _firstCard;
    private RowHeading? _heading;
    private readonly IReadOnlyDictionary<Column, string> _above;
    private IReadOnlyDictionary<Column, string> _said = ReadOnlyDictionary<Column, string>.Empty;

    private TableReading(FoundTable found, Sheet sheet, ImportMapping rules, Lazy<KnownNumbers> known)
    {
        var (header, before, rows, _) = found;
        // Each row of a table that left a register is a row.
        var isOwn = TableFinder.LeftARegister(header.Row);
        (rows, _parents) = isOwn ? (rows, new HashSet<int>()) : ParentRows.Of(rows, header);
        (Header, Before, _rows, _sheet, _rules) = (header, before, rows, sheet.Name, rules);
        var cards = before.Concat(rows).Where(LabelledLine.IsCard).ToList();
        var isNamed = cards.Count > 0 || before.Any(r => LabelledLine.AllOf(r, rules).Any(l => l.NamesDevice));
        List<SheetRow> own = [.. rows.Where(r => !_parents.Contains(r.Number))];
        Questions = new HeaderSettling(header, rules, own, sheet.Name, isNamed) { Known = known }.Settle();
        if (cards.Count > 0)
        {
            // A card that does not say which device it is of would give its results to the one before.
            header.AwaitsNames = !header.NamesRows && LabelledLine.HasCardWithoutName([.. before, .. rows], rules);
            Questions = [.. Questions, .. LabelledLine.UnknownOfCards(cards, rules, sheet.Name)];
        }
        rows = _rows = SplitRows.Of(rows, header);
        (_rows, _dittos) = DittoMarks.Of(rows, header, rules);
        rows = _rows;
        Questions = [.. Questions, .. FrequencyUnits.Questions(header, rows, sheet.Name)];
        _headings = RepeatedHeadings.Of(rows, header, rules);
        _below = isOwn ? [] : BelowOf(rows, header);
        _sections = SectionLines.Of([.. rows.Where(r => !_below.Contains(r.Number))], header, rules);
        Questions = [.. Questions, .. _sections.Questions(sheet.Name)];
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
            if (RowHeading.Lone(row) is { } said && LabelledLine.FactorIn(said) is { } factor)
                _said = new Dictionary<Column, string>(_said) { [Column.Factor] = factor };
            else if (LabelledLine.AllOf(row, rules) is { Count: > 0 } lines) Say(lines);
            else if (RowHeading.Lone(row) is { } title && RowHeading.Of(title) is { } heading) _heading = heading;
        }
        // "Microphone channel plan" above results that no recorder channel has says nothing of what stands below.
        if (_heading is { Kind: { } titled, Says.Count: 0 } && !KindEvidence.Of(this).Allows(titled)) _heading = null;
        (_above, _firstHeading, _firstCard) = (_said, _heading, [.. _ofCard]);
        if (before.Count > 0 && RowHeading.Lone(before[^1]) is { } above
            && MeasuredText.UnitOfHeader(above) is { } unit) header.UnitForAll(unit);
        IsOfSensitivities = header.Places.TryGetValue(Column.Value, out var value)
            && MeasuredText.IsOfSensitivity(header.Units.GetValueOrDefault(value))
            || header.Groups.Any(g => g.Places.TryGetValue(Column.Value, out var place)
                && MeasuredText.IsOfSensitivity(header.Units.GetValueOrDefault(place)));
    }

    public TableHeader Header { get; }

    /// <summary>What lines above it say of the day as of which it speaks.</summary>
    public IEnumerable<AsOfLine> AsOfLines => Before.Select(r => AsOfLine.Of(r, _rules.Dates ?? _hand.Order)).OfType<AsOfLine>();

    /// <summary>Rows above the header.</summary>
    public IReadOnlyList<SheetRow> Before { get; }

    /// <summary>What people should know of how its days are read; null where nothing.</summary>
    public string? RemarkOfDays => _hand.Remark(_rules);

    /// <summary>What only a person can say of columns.</summary>
    public IReadOnlyList<ImportQuestion> Questions { get; }

    /// <summary>Whether results are sensitivities by their unit, which only microphones have.</summary>
    public bool IsOfSensitivities { get; }

    public IReadOnlyList<SheetRow> Rows => _rows;

    /// <summary>Finds the tables of a sheet, one below the other; empty where no row is a header.</summary>
    /// <param name="rows">Rows of the sheet.</param>
    /// <param name="sheet">The sheet.</param>
    /// <param name="rules">What people say of it.</param>
    /// <param name="others">Tables of the sheets before it, whose devices it may speak of.</param>
    public static IReadOnlyList<TableReading> Find(IReadOnlyList<SheetRow> rows, Sheet sheet, ImportMapping rules,
        IReadOnlyList<TableReading> others)
    {
        var known = new Lazy<KnownNumbers>(() => KnownNumbers.Of(others));
        return [.. TableFinder.Find(rows, rules).Select(t => new TableReading(t, sheet, rules, known))];
    }

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
            ? Header.IsThing ? ThingText.Of(row.At(place).Shown) : RowHeading.Of(row.At(place).Shown) : null);

    // What cells beside a column say of it, before what headings say.
    private static Dictionary<Column, string> With(IReadOnlyDictionary<Column, string>? beside, Column column, string text) =>
        new(beside ?? ReadOnlyDictionary<Column, string>.Empty) { [column] = text };

    private IReadOnlyDictionary<Column, string>? WithModel(SheetRow row, IReadOnlyDictionary<Column, string>? beside)
    {
        if (!Header.HasModelBesideKind) return beside;
        if (RowHeading.ModelIn(row.At(Header.Places[Column.Kind]).Shown) is not var (model, maker)) return beside;
        var says = With(beside, Column.Model, model);
        return maker is null || Header.Has(Column.Maker) ? says : With(says, Column.Maker, maker);
    }

    private IReadOnlyDictionary<Column, string>? WithState(SheetRow row, IReadOnlyDictionary<Column, string>? beside)
    {
        var marked = Header.StatusMarks.Where(i => !RowReader.IsAbsent(row.At(i).Shown)).ToList();
        // Of two marks in a row nobody knows which one holds; their words together are asked about.
        return marked.Count == 0 ? beside : With(beside, Column.Status, string.Join(" and ", marked.Select(i => Header.Row.At(i).Shown)));
    }

    private IReadOnlyDictionary<Column, string>? WithDate(SheetRow row, IReadOnlyDictionary<Column, string>? beside)
    {
        if (Header.DateParts is not var (day, month, year) || (row.At(day).IsBlank && row.At(year).IsBlank)) return beside;
        string Two(int place) => row.At(place).Shown.PadLeft(2, '0');
        return With(beside, Column.Day, $"{row.At(year).Shown}-{Two(month)}-{Two(day)}");
    }

    private RowReader Reader(SheetRow row, IReadOnlyDictionary<Column, string>? beside, RowHeading? described) => new(Header, row, _rules)
    {
        KindAround = described?.Kind ?? (_heading is null ? _kind : _heading.Kind),
        Heading = _heading is { Kind: null } unknown ? unknown.Text : null,
        Hand = _hand,
        Sheet = _sheet,
        Beside = Both(beside, Both(described?.Says, Both(_heading?.Says, _said))),
    };

    /// <summary>A mark of a row that may stand for the cell above, and what is asked of it; null where there is none.</summary>
    public (string Mark, ImportQuestion Question)? DittoOf(SheetRow row) =>
        _dittos.TryGetValue(row.Number, out var mark) ? (mark, DittoMarks.Question(_sheet)) : null;

    /// <summary>Begins again above its first row.</summary>
    public void Restart()
    {
        (_said, _heading) = (_above, _firstHeading);
        _ofCard.Clear();
        _ofCard.UnionWith(_firstCard);
    }

    /// <summary>A row that nobody can read may have begun a card: what the one before said is not said of the rows below.</summary>
    public void TakeFault() => _said = _ofCard.Count == 0 ? _said : _said.Where(s => !_ofCard.Contains(s.Key)).ToDictionary();

    // Lines that say which device the rows below are of begin a card: what the one before said is not said of this one.
    private void Say(IReadOnlyList<LabelledLine> lines)
    {
        if (lines.Any(l => l.NamesDevice) && _ofCard.Count > 0)
        {
            _said = _said.Where(s => !_ofCard.Contains(s.Key)).ToDictionary();
            _ofCard.Clear();
        }
        if (_ofCard.Count > 0 || lines.Any(l => l.NamesDevice)) _ofCard.UnionWith(lines.Select(l => l.Column).Append(Column.Model));
        _said = lines.Aggregate(_said, (said, line) => line.On(said));
    }

    // Legends and notes stand below the devices, apart from them by a blank line, and hold no results.
    private static HashSet<int> BelowOf(IReadOnlyList<SheetRow> rows, TableHeader header)
    {
        var (below, isApart) = (new HashSet<int>(), false);
        var last = Enumerable.Range(0, rows.Count).LastOrDefault(i => rows[i].Fault is null && SectionLines.RowNames(rows[i], header), -1);
        for (var i = last + 1; last >= 0 && i < rows.Count; i++)
        {
            isApart |= rows[i].Number > rows[i - 1].Number + 1;
            var filled = rows[i].Fault is null ? rows[i].Cells.Where(c => !c.IsBlank).ToList() : [];
            if (isApart && filled.Count is (1 or 2) && filled.TrueForAll(c => c.Day is null && !c.Shown.Any(char.IsAsciiDigit)))
                below.Add(rows[i].Number);
        }
        return below;
    }

    /// <summary>Takes a row that is nothing but a heading for the rows below it.</summary>
    /// <returns>What it is; null where it is no heading.</returns>
    public string? TakeHeading(SheetRow row)
    {
        if (_below.Contains(row.Number)) return "below the table";
        if (_parents.Contains(row.Number)) return "what it says holds for the rows below it";
        if (_sections.Holds(row))
        {
            if (_sections.Says(row) is not { } section) return "a heading that says nothing of the rows below it";
            Say([section]);
            return "a heading: what it says of the rows below it";
        }
        if (LabelledLine.AllOf(row, _rules) is var lines && (lines is [{ IsLone: true }] || lines.Count > 1 || LabelledLine.IsCard(row)))
        {
            Say(lines);
            return "a heading: what it says of the rows below it";
        }
        if (_headings.Says(row) is { } says)
        {
            _said = says.On(_said);
            return "a heading: what it says of the rows below it";
        }
        if (_headings.IsNumbered(row)) return "a heading";
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
}
