using System.Globalization;
using MicRegister.Documents.Import;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Exports;

/// <summary>A table on its way out, with a header that the import knows: columns in order, rows that may leave any of them blank.</summary>
/// <param name="name">Name of its file or sheet.</param>
/// <param name="title">What it is, for people.</param>
/// <param name="left">Where is counted what a cell cannot hold.</param>
internal sealed class TableDraft(string name, string title, LeftBehind left)
{
    private const string Yes = "yes";

    private readonly List<(Column Column, ExportType Type, string Unit, bool IsAlways)> _columns = [];

    public string Name => name;

    public List<DraftRow> Rows { get; private set; } = [];

    /// <summary>Adds a column; one that is not always there is left out where nothing stands in it.</summary>
    public TableDraft Has(Column column, ExportType type = ExportType.Text, string unit = "", bool always = false)
    {
        _columns.Add((column, type, unit, always));
        return this;
    }

    public TableDraft Numbers(string unit, params ReadOnlySpan<Column> columns)
    {
        foreach (var column in columns) Has(column, ExportType.Number, unit);
        return this;
    }

    public DraftRow Row(string about)
    {
        var row = new DraftRow(about, left);
        Rows.Add(row);
        return row;
    }

    /// <summary>
    /// Puts rows in an order that hangs on nothing but what they say, those that say less first; one that stands twice stays once.
    /// </summary>
    /// <param name="by">What comes before that.</param>
    /// <param name="twice">What is counted of those that stand twice.</param>
    public void Sort(IReadOnlyList<Column> by, string twice)
    {
        var sorted = Rows.Select(r => (Row: r, First: by.Select(r.Shown).ToList(), All: r.Line(_columns.Select(c => c.Column)))).ToList();
        sorted.Sort((a, b) =>
        {
            for (var i = 0; i < by.Count; i++)
            {
                if (string.CompareOrdinal(a.First[i], b.First[i]) is not 0 and var order) return order;
            }
            return a.Row.Count != b.Row.Count ? a.Row.Count.CompareTo(b.Row.Count) : string.CompareOrdinal(a.All, b.All);
        });
        Rows = [.. sorted.DistinctBy(s => s.All, StringComparer.Ordinal).Select(s => s.Row)];
        left.Add(twice, sorted.Count - Rows.Count);
    }

    /// <summary>Marks a row as looked at: what the register holds is asked about by nobody.</summary>
    public static void Check(DraftRow row) => row.Text(Column.Why, "as the register holds it").Text(Column.Checked, Yes);

    public ExportTable ToTable(IReadOnlyList<(string Name, string Value)> provenance, IReadOnlyList<string> notes)
    {
        List<(Column Column, ExportType Type, string Unit, bool IsAlways)> all =
            [.. _columns, (Column.Checked, ExportType.Text, "", false), (Column.Why, ExportType.Text, "", false)];
        var shown = all.Where(c => c.IsAlways || Rows.Exists(r => !r[c.Column].IsNothing)).ToList();
        var columns = shown.Select(c => new ExportColumn(c.Column.Key, Label(c.Column), c.Unit, c.Column.Meaning + ".") { Type = c.Type });
        return new(
            title, [.. columns],
            [.. Rows.Select(r => (IReadOnlyList<ExportCell>)[.. shown.Select(c => r[c.Column])])], provenance)
        { Notes = notes };
    }

    private static string Label(Column column) => DeviceField.Find(column.Key)?.Label ?? column.Meaning;
}

/// <summary>A row on its way out.</summary>
/// <param name="about">What it speaks of, for people.</param>
/// <param name="left">Where is counted what a cell cannot hold.</param>
internal sealed class DraftRow(string about, LeftBehind left)
{
    private readonly Dictionary<Column, ExportCell> _cells = [];

    public string About => about;

    /// <summary>How many cells hold something.</summary>
    public int Count => _cells.Count;

    public ExportCell this[Column column] => _cells.GetValueOrDefault(column);

    public string Shown(Column column) => this[column] is var cell ? cell.Digits ?? cell.Text ?? "" : "";

    /// <summary>All of it in one text, which no other row has.</summary>
    public string Line(IEnumerable<Column> columns) =>
        string.Concat(columns.Select(c => Shown(c)).Select(t => t.Length.ToString(CultureInfo.InvariantCulture) + ":" + t));

    public DraftRow Text(Column column, string? text)
    {
        if (string.IsNullOrEmpty(text) || CellText.Trimmed(text) is not { Length: > 0 } trimmed) return this;
        if (CanHold(trimmed)) _cells[column] = ExportCell.Of(trimmed);
        else left.Add($"texts that no cell holds, under {column.Key}");
        return this;
    }

    public DraftRow Number(Column column, double? number, double least = double.MinValue, double greatest = double.MaxValue)
    {
        if (number is not { } n) return this;
        if (n >= least && n <= greatest) _cells[column] = ExportCell.Of(n + 0.0); // no -0
        else left.Add($"numbers that no import takes, under {column.Key}");
        return this;
    }

    public DraftRow Hertz(Column column, double? number, double least, double greatest)
    {
        if (Number(column, number, least, greatest)[column].Number is { } hertz) _cells[column] = ExportCell.OfHertz(hertz);
        return this;
    }

    public DraftRow Day(Column column, DateOnly? day)
    {
        if (day is not { } d) return this;
        if (d.Year is >= 1950 and <= 2200) _cells[column] = ExportCell.Of(day);
        else left.Add($"days that no import takes, under {column.Key}");
        return this;
    }

    public DraftRow YesNo(Column column, bool? said) => Text(column, said is { } s ? s ? "yes" : "no" : null);

    // What the import takes for nothing, or what a workbook cannot store.
    private static bool CanHold(string text)
    {
        if (text.Length > CellText.Most || RowReader.IsAbsent(text) || text == Cell.NoStoredValue) return false;
        for (var i = 0; i < text.Length; i++)
        {
            if (i + 1 < text.Length && char.IsSurrogatePair(text[i], text[i + 1])) i++;
            else if (!System.Xml.XmlConvert.IsXmlChar(text[i])) return false;
        }
        return true;
    }
}
