using System.Globalization;
using System.Text;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>A table from the site as cells by row, its columns found by their names.</summary>
internal sealed class FieldTable
{
    private static readonly string[] Stems =
    [
        "wind", "gust", "böe", "temp", "humid", "feucht", "pressure", "druck", "latitude", "longitude", "breite", "länge", "height", "höhe",
        "altitude", "elevation", "easting", "northing", "rechtswert", "hochwert", "uncertainty", "unsicherheit", "accuracy", "genauigkeit",
    ];

    private static readonly string[] Others = ["dewpoint", "taupunkt", "battery", "batterie", "logger", "soil", "boden", "chill", "index"];

    private readonly IReadOnlyList<IReadOnlyList<string>> _rows;
    private readonly Dictionary<string, (int Index, string Header, string Unit)> _columns = new(StringComparer.Ordinal);

    /// <param name="rows">Cells by row; the first row names the columns, each with its unit behind it, as in <c>Wind [m/s]</c>.</param>
    /// <param name="names">Names of each column, in small letters without blanks and marks.</param>
    public FieldTable(IReadOnlyList<IReadOnlyList<string>> rows, IReadOnlyList<(string Column, string[] Names)> names)
    {
        _rows = rows;
        foreach (var (header, index) in (rows.Count == 0 ? [] : rows[0]).Select((h, i) => (h.Trim(), i)))
        {
            var (name, unit) = Parts(header);
            var column = names.FirstOrDefault(n => n.Names.Any(x => FoldedText.Of(x) == name)).Column;
            if (column is null)
            {
                // A gust or a height under a name that nobody knows must not be lost: others, such as rain, are left out.
                if (Holds(Stems, name) && !Holds(Others, name))
                    Bad.Add(new(1, header, header, $"one of {string.Join(", ", names.Select(n => n.Column))}, or another name without these words"));
                continue;
            }
            if (!_columns.TryAdd(column, (index, header, unit)))
                Bad.Add(new(1, header, header, $"one column of it; {_columns[column].Header} is another"));
        }
    }

    private static bool Holds(string[] words, string name) =>
        Array.Exists(words, w => name.Contains(FoldedText.Of(w), StringComparison.Ordinal));

    /// <summary>What is wrong, in the order in which it was found.</summary>
    public List<BadFieldRow> Bad { get; } = [];

    /// <summary>Numbers of the rows that hold something, the header being 1.</summary>
    public IEnumerable<int> Numbers => Enumerable.Range(2, Math.Max(0, _rows.Count - 1))
        .Where(n => _rows[n - 1].Any(c => !string.IsNullOrWhiteSpace(c)));

    public bool Has(string column) => _columns.ContainsKey(column);

    /// <summary>Name of a column as the table has it; its own where the table has none.</summary>
    public string HeaderOf(string column) => _columns.TryGetValue(column, out var known) ? known.Header : column;

    /// <summary>Unit behind a column's name in small letters; empty where there is none.</summary>
    public string UnitOf(string column) => _columns.TryGetValue(column, out var known) ? known.Unit : "";

    /// <summary>A cell without the blanks around it; empty where the row or the table has none.</summary>
    public string Text(int row, string column) => _columns.TryGetValue(column, out var known) && known.Index < _rows[row - 1].Count
        ? _rows[row - 1][known.Index].Trim()
        : "";

    /// <summary>A number with a decimal point or comma; null where the cell is empty, or is no number, which is then said.</summary>
    public double? Number(int row, string column)
    {
        var text = Text(row, column);
        if (text.Length == 0 || text is "-" or "–" || text.Equals("nan", StringComparison.OrdinalIgnoreCase)) return null;
        var plain = text.Replace('\u2212', '-');
        // With both signs nobody knows which one groups.
        if (!plain.Contains(',', StringComparison.Ordinal) || !plain.Contains('.', StringComparison.Ordinal))
        {
            plain = plain.Replace(',', '.');
            if (double.TryParse(plain, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number)
                && double.IsFinite(number))
            {
                return number;
            }
        }
        Say(row, column, text, "a number with a decimal point or comma, such as 12.5; nothing where it was not read");
        return null;
    }

    public void Say(int row, string column, string value, string allowed) => Bad.Add(new(row, HeaderOf(column), value, allowed));

    // "Wind speed [m/s]", "Wind speed (m/s)", "Wind speed, m/s"; the name in small letters, without accents, blanks and marks.
    internal static (string Name, string Unit) Parts(string header)
    {
        var at = header.IndexOfAny(['[', '(', ',']);
        var (name, unit) = at < 0 ? (header, "") : (header[..at], header[(at + 1)..].Trim(' ', ']', ')'));
        var plain = new StringBuilder();
        foreach (var c in FoldedText.Of(name))
        {
            if (char.IsLetterOrDigit(c)) plain.Append(c);
        }
        return (plain.ToString(), unit.ToLowerInvariant());
    }
}

/// <summary>What is wrong with a cell of a table from the site.</summary>
/// <param name="Row">Its row, the header being 1.</param>
/// <param name="Field">Column, as the table names it.</param>
/// <param name="Value">What stands there.</param>
/// <param name="Allowed">What may stand there.</param>
public sealed record BadFieldRow(int Row, string Field, string Value, string Allowed)
{
    /// <summary>In a sentence.</summary>
    public string InWords => FormattableString.Invariant($"Row {Row}, {Field} '{Value}': allowed is {Allowed}.");
}
