using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>One row under its header: cells by meaning, each refusal naming its cell.</summary>
internal sealed partial class RowReader(TableHeader header, SheetRow row, ImportMapping mapping)
{
    public TableHeader Header => header;

    public SheetRow Row => row;

    public ImportMapping Mapping => mapping;

    /// <summary>The text under a column, or what the mapping says for every row; null where there is none.</summary>
    public string? Text(Column column)
    {
        var text = header.Places.TryGetValue(column, out var place) ? row.At(place).Shown : null;
        if (text is not null && IsAbsent(text)) text = null;
        if (text == Sheets.Cell.NoStoredValue) throw new RowProblem(RowSort.Refused, $"{HeaderOf(column)}: a formula without a stored value; open the workbook in a spreadsheet program, let it calculate, and save it", HeaderOf(column), text);
        text ??= mapping.Constants.GetValueOrDefault(column);
        if (text is { Length: > 2000 }) throw Refused(column, "a text has at most 2000 characters");
        return text;
    }

    /// <summary>A number in a wanted unit; null where there is none.</summary>
    public double? Number(Column column, string unit, double least, double greatest)
    {
        if (Text(column) is not { } text) return null;
        if (unit == "mm" && MeasuredText.InchFraction(text) is { } inch) return MeasuredText.CapsuleSize(inch);
        if (!MeasuredText.TryRead(text, out var value, out var stated)) throw Refused(column, $"it is no number; allowed is {Range(unit, least, greatest)}");
        if (unit == "Hz" && ThousandsMark().IsMatch(text)) throw Refused(column, "it can be a number of thousands or one with three decimals; write 20000 or 20 kHz");
        var number = MeasuredText.Convert(value, stated ?? UnitAbove(column), unit) ?? throw Refused(column, $"its unit does not fit; {unit} is wanted");
        return number >= least && number <= greatest ? number : throw Refused(column, $"allowed is {Range(unit, least, greatest)}");
    }

    /// <summary>A day; null where there is none.</summary>
    public DateOnly? Day(Column column)
    {
        if (Text(column) is null) return null;
        var cell = header.Places.TryGetValue(column, out var place) && !IsAbsent(row.At(place).Shown) ? row.At(place) : new Cell(mapping.Constants[column]);
        var problem = DateText.TryRead(cell, mapping.Dates, mapping.Uses1904, out var day);
        return problem is null ? day : throw new RowProblem(RowSort.Refused, problem, HeaderOf(column), cell.Shown);
    }

    /// <summary>A word of a list; null where there is none.</summary>
    public T? Word<T>(Column column, Func<string, T?> find, IEnumerable<string> allowed)
        where T : struct => Text(column) is { } text ? find(text) ?? throw Refused(column, "allowed are " + string.Join(", ", allowed)) : null;

    /// <summary>Unit that the header, the row of units or the mapping gives a column.</summary>
    public string? UnitAbove(Column column) => header.Places.TryGetValue(column, out var place) ? header.Units.GetValueOrDefault(place) : null;

    /// <summary>k as stated in a header such as "U (k = 2)".</summary>
    public double? FactorAbove(Column column) =>
        header.Places.TryGetValue(column, out var place) && Factor().Match(header.Row.At(place).Shown) is { Success: true } m
            ? double.Parse(m.Groups[1].Value.Replace(',', '.'), CultureInfo.InvariantCulture)
            : null;

    public RowProblem Refused(Column column, string why) => new(RowSort.Refused, $"{HeaderOf(column)} '{Text(column)}': {why}", HeaderOf(column), Text(column));

    public RowProblem Questioned(Column column, string why) => new(RowSort.Questioned, $"{HeaderOf(column)} '{Text(column)}': {why}", HeaderOf(column), Text(column));

    public string HeaderOf(Column column) => header.Places.TryGetValue(column, out var place) ? header.Row.At(place).Shown : column.Meaning;

    /// <summary>Whether a cell says that there is nothing to say.</summary>
    public static bool IsAbsent(string text) => text.Trim() is "" or "-" or "–" or "—" or "?" or "." or "n/a" or "N/A" or "na" or "NA" or "n.a." or "k.A." or "unknown" or "unbekannt";

    private static string Range(string unit, double least, double greatest) => FormattableString.Invariant($"a number from {least} to {greatest} {unit}").TrimEnd();

    [GeneratedRegex(@"^\d{1,3}[.,]\d{3}(?:\s*Hz)?$", RegexOptions.IgnoreCase)]
    private static partial Regex ThousandsMark();

    [GeneratedRegex(@"k\s*=\s*(\d+(?:[.,]\d+)?)", RegexOptions.IgnoreCase)]
    private static partial Regex Factor();
}
