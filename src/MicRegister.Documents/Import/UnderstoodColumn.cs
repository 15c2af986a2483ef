using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>What a column of a table was taken for, for people.</summary>
/// <param name="Sheet">Name of the sheet; empty in a text file.</param>
/// <param name="Header">Its header.</param>
/// <param name="Meaning">What it holds.</param>
/// <param name="Certainty">How that is known.</param>
/// <param name="First">Its first values.</param>
public sealed record UnderstoodColumn(string Sheet, string Header, string Meaning, string Certainty, string First)
{
    private const int ValuesShown = 3;

    /// <summary>Its place in the table, from 0.</summary>
    public int Place { get; internal init; }

    /// <summary>How sure its meaning is.</summary>
    public ColumnCertainty Sort { get; internal init; }

    /// <summary>The line of a legend that says what it holds, for its sheet alone where it has one.</summary>
    /// <param name="meaning">The right side: key of a column, and a unit in brackets where one is said.</param>
    public string RuleOf(string meaning) => (Sheet.Length > 0 ? $"[sheet {Sheet}] " : "") + LegendText.HeaderRule(Header, meaning);

    internal static IEnumerable<UnderstoodColumn> Of(string sheet, TableHeader header, IReadOnlyList<SheetRow> rows)
    {
        for (var i = 0; i < header.Row.Cells.Length; i++)
        {
            if (header.Row.At(i).IsBlank) continue;
            var first = rows.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).Distinct().Take(ValuesShown).ToList();
            var (meaning, certainty, sort) = Of(header, i, first.Count == 0);
            yield return new(sheet, header.Row.At(i).Shown, meaning, certainty, string.Join(", ", first)) { Place = i, Sort = sort };
        }
    }

    private static (string Meaning, string Certainty, ColumnCertainty Sort) Of(TableHeader header, int i, bool isEmpty)
    {
        var unit = header.Units.GetValueOrDefault(i) is { } u ? $" [{u}]" : "";
        // A header that a legend speaks of is not read by itself.
        var isSaid = header.Readings[i] is null;
        if (header.LeftOut.Contains(i)) return ("left out", isSaid ? Said : "of no use here", ColumnCertainty.LeftOut);
        if (header.Noted.Contains(i))
        {
            return isSaid ? ("kept as a note", Said, ColumnCertainty.Said)
                : ("kept as a note", "no column of the register", ColumnCertainty.ByContent);
        }
        if (header.Described == i)
            return ($"kind, {(header.IsThing ? "maker and model" : "model and serial number")} of the device",
                "by what stands below it", ColumnCertainty.ByContent);
        if (header.DateParts is var (day, month, year) && (day == i || month == i || year == i))
            return ("part of the day of calibration", "by its header", ColumnCertainty.Sure);
        if (header.YearPlace == i) return ("year of the result", "by its header", ColumnCertainty.Sure);
        if (header.StatusMarks.Contains(i)) return ("state of use of the devices marked in it", "by its header", ColumnCertainty.Sure);
        if (header.Again.Exists(a => a.Second == i))
            return ("the same result in another unit" + unit, "agrees with the first", ColumnCertainty.ByContent);
        var meant = header.Places.Where(p => p.Value == i).Select(p => p.Key.Meaning)
            .Concat(header.Devices.SelectMany(d => d.Places.Where(p => p.Value == i)
                .Select(p => $"{p.Key.Meaning} of the {d.Kind.Label.ToLowerInvariant()}")))
            .Concat(header.Groups.SelectMany(g => g.Places.Where(p => p.Value == i)
                .Select(p => p.Key.Meaning + (g.Year is { } year ? FormattableString.Invariant($" of {year:yyyy}") : "")))).ToList();
        if (header.HasModelBesideKind && header.Places.TryGetValue(Column.Kind, out var kind)
            && kind == i) meant.Add("the model beside it");
        if (meant.Count > 0) return (string.Join(" and ", meant) + unit, Known(header, i, isSaid), SortOf(header, i, isSaid));
        if (isEmpty) return ("nothing", "nothing stands below it", ColumnCertainty.LeftOut);
        return header.Twice.Contains(header.Row.At(i).Shown)
            ? ("not taken", "its header stands twice", ColumnCertainty.Asked)
            : ("not understood", "asked", ColumnCertainty.Asked);
    }

    private const string Said = "said by the legend";

    private static string Known(TableHeader header, int i, bool isSaid) =>
        header.Guessed.Exists(g => g.Column == i) ? "by likeness"
        : isSaid ? Said
        : header.Readings[i]!.Column is null ? "by what stands below it"
        : "by its header";

    private static ColumnCertainty SortOf(TableHeader header, int i, bool isSaid) =>
        header.Guessed.Exists(g => g.Column == i) ? ColumnCertainty.ByContent
        : isSaid ? ColumnCertainty.Said
        : header.Readings[i]!.Column is null ? ColumnCertainty.ByContent
        : ColumnCertainty.Sure;
}

/// <summary>How sure the meaning of a column is.</summary>
public enum ColumnCertainty
{
    /// <summary>Its header says it.</summary>
    Sure,

    /// <summary>A person said so.</summary>
    Said,

    /// <summary>What stands below it says so, or its header nearly does.</summary>
    ByContent,

    /// <summary>Nobody knows: a person is asked.</summary>
    Asked,

    /// <summary>It is of no use here, or empty.</summary>
    LeftOut,
}
