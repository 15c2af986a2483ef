using System.Buffers;
using System.Collections.ObjectModel;
using System.Globalization;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>One row under its header: cells by meaning, each refusal naming its cell.</summary>
internal sealed partial class RowReader(TableHeader header, SheetRow row, ImportMapping mapping)
{
    // Columns that results of one row share, where a result has none of its own.
    private static readonly HashSet<Column> Shared = [Column.Unit, Column.Laboratory, Column.Method, Column.Reference,
        Column.CalibrationHz, Column.Factor];

    public TableHeader Header => header;

    /// <summary>Columns of one of several results; null for the first.</summary>
    public ResultGroup? Group { get; private init; }

    /// <summary>Columns of a further device; null for the first.</summary>
    public DevicePart? Part { get; private init; }

    /// <summary>What other rows say for this one, such as the pressure of a certificate that has a row a quantity.</summary>
    public IReadOnlyDictionary<Column, string> Beside { get; init; } = ReadOnlyDictionary<Column, string>.Empty;

    /// <summary>Kind by heading, sheet or units, where the row says none.</summary>
    public DeviceKind? KindAround { get; init; }

    /// <summary>A heading above the row that nobody understands; null where there is none.</summary>
    public string? Heading { get; init; }

    /// <summary>Where days of the table are counted or written by a hand that the columns prove.</summary>
    public DateHand Hand { get; init; } = DateHand.None;

    /// <summary>Name of the sheet.</summary>
    public string Sheet { get; init; } = "";

    public RowReader Of(ResultGroup group) =>
        new(header, row, mapping)
        {
            Group = group,
            Part = Part,
            Beside = group is { IsDay: true, Year: { } day } ? new Dictionary<Column, string>(Beside)
            { [Column.Day] = day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) } : Beside,
            KindAround = KindAround,
            Heading = Heading,
            Hand = Hand,
            Sheet = Sheet
        };

    public RowReader Of(DevicePart part) =>
        new(header, row, mapping) { Part = part, KindAround = part.Kind, Hand = Hand, Sheet = Sheet };

    /// <summary>Whether the table holds a column for this row, this result, this device.</summary>
    public bool Has(Column column) => PlaceOf(column) is not null;

    public SheetRow Row => row;

    public ImportMapping Mapping => mapping;

    /// <summary>
    /// Whether somebody looked at the row and found it right. Only beside 'why', as in a file to mend: many sheets have a column of their
    /// own that is called so.
    /// </summary>
    public bool IsChecked => header.Has(Column.Why) && Text(Column.Checked) is { } yes && Words.YesNo(yes) == true;

    /// <summary>The text under a column, or what the mapping says for every row; null where there is none.</summary>
    public string? Text(Column column)
    {
        var text = PlaceOf(column) is { } place ? Half(column, place, row.At(place).Shown) : null;
        if (text is not null && IsAbsent(text)) text = null;
        text ??= Beside.GetValueOrDefault(column);
        if (text == Sheets.Cell.NoStoredValue) throw new RowProblem(RowSort.Refused,
            $"{HeaderOf(column)}: a formula without a stored value; open the workbook in a spreadsheet program, let it calculate, and save it", HeaderOf(column), text);
        text ??= Part is null ? mapping.Constants.GetValueOrDefault(column) : null;
        if (text is not null) text = mapping.Meaning(column, text);
        if (text is { Length: > 2000 }) throw Refused(column, "a text has at most 2000 characters");
        return text;
    }

    private string Half(Column column, int place, string text)
    {
        if (header.Divided.Count == 0 || !header.Divided.TryGetValue(place, out var how) || IsAbsent(text)) return text;
        if (how.Separator == TableHeader.BeforeModel && RowHeading.MakerAndModel(text) is var (maker, model))
            return column == Column.Maker ? maker : model;
        return text.Split(how.Separator) is [var first, var second]
            ? column == how.First ? first.Trim()
                : how.Separator == TableHeader.InBrackets ? second.TrimEnd(' ', ')') : second.Trim()
            : throw new RowProblem(RowSort.Refused,
                $"{header.Row.At(place).Shown} '{text}': two things are wanted, with '{how.Separator.Trim()}' between them",
                    header.Row.At(place).Shown, text);
    }

    /// <summary>A number in a wanted unit; null where there is none.</summary>
    public double? Number(Column column, string unit, double least, double greatest)
    {
        if (Text(column) is not { } text) return null;
        if (unit == "mm" && MeasuredText.InchFraction(text) is { } inch) return MeasuredText.CapsuleSize(inch);
        if (!MeasuredText.TryRead(text, out var value, out var stated)) throw Refused(column,
            $"it is no number; allowed is {Range(unit, least, greatest)}");
        if (unit == "Hz" && MayBeOfThousands(text) && !(PlaceOf(column) is { } place && row.At(place).IsNumber))
            throw Refused(column,
            "it can be a number of thousands or one with three decimals; write 20000 or 20 kHz");
        var number = MeasuredText.Convert(value, stated ?? UnitAbove(column), unit)
            ?? throw Refused(column, $"its unit does not fit; {unit} is wanted");
        return number >= least && number <= greatest ? number : throw Refused(column, $"allowed is {Range(unit, least, greatest)}");
    }

    /// <summary>Whether a text is what somebody said of every row, and no cell or heading.</summary>
    public bool IsOfAllRows(Column column) => Part is null && mapping.Constants.ContainsKey(column) && !Beside.ContainsKey(column)
        && (PlaceOf(column) is not { } place || IsAbsent(row.At(place).Shown));

    /// <summary>An id of a register; null where there is none.</summary>
    public string? Id(Column column) => Text(column) is not { } id || IdShape().IsMatch(id)
        ? Text(column)
        : throw Refused(column, "an id has 1 to 60 letters, digits and dashes");

    /// <summary>A day; null where there is none.</summary>
    public DateOnly? Day(Column column)
    {
        if (Text(column) is not { } text) return null;
        var cell = PlaceOf(column) is { } place && !IsAbsent(row.At(place).Shown) && !header.Divided.ContainsKey(place) ? row.At(place)
            : new Cell(text);
        return column == Column.Due && cell.Day is null && MonthNames.ReadMonth(text) is { } month ? DueIn(month, text) : Day(column, cell);
    }

    /// <summary>The day that a cell, or a part of it, states under a column.</summary>
    public DateOnly Day(Column column, Cell cell)
    {
        if (Hand.Question(cell, mapping, HeaderOf(column), Sheet) is { } open)
            throw new RowProblem(RowSort.Questioned, $"{HeaderOf(column)} '{cell.Shown}': {open.Why}", HeaderOf(column),
                cell.Shown)
            { Question = open.Question };
        var problem = DateText.TryRead(cell, mapping.Dates ?? Hand.Order, mapping.Uses1904, out var day);
        return problem is null ? day : throw new RowProblem(RowSort.Refused, $"{HeaderOf(column)}: {problem}", HeaderOf(column),
            cell.Shown);
    }

    /// <summary>First day of the year that stands beside a result without a day; null where none does.</summary>
    public DateOnly? Year() => header.YearPlace is { } place && Part is null && Group is null
        && int.TryParse(row.At(place).Shown, NumberStyles.None, CultureInfo.InvariantCulture, out var year) ? new(year, 1, 1) : null;

    // "May 2026": whether a thing is due at its begin or its end, only a person can say.
    private DateOnly DueIn(DateOnly month, string text) => mapping.Of("due-months") switch
    {
        "begin" => month,
        "end" => month.AddMonths(1).AddDays(-1),
        _ => throw new RowProblem(RowSort.Questioned, $"{HeaderOf(Column.Due)} '{text}': a month and no day", HeaderOf(Column.Due), text)
        {
            Question = new("due-months", Sheet, $"'{text}' under '{HeaderOf(Column.Due)}' is a month. Until when is a device in date?",
            [
                new($"Until the month begins: due on {month:yyyy-MM-dd}", "due-months := begin"),
                new($"Until the month ends: due on {month.AddMonths(1).AddDays(-1):yyyy-MM-dd}", "due-months := end"),
            ]),
        },
    };

    /// <summary>A word of a list; null where there is none.</summary>
    public T? Word<T>(Column column, Func<string, T?> find, IEnumerable<string> allowed)
        where T : struct => Text(column) is { } text ? find(text) ?? throw Unknown(column, text, allowed) : null;

    /// <summary>A word that nobody knows is asked once for all rows that have it.</summary>
    public RowProblem Unknown(Column column, string text, IEnumerable<string> allowed)
    {
        var words = allowed.Select(a => a.ToLowerInvariant()).Distinct().ToList();
        return new(RowSort.Refused, $"{HeaderOf(column)} '{text}': allowed are {string.Join(", ", words)}", HeaderOf(column), text)
        {
            Question = new($"word {column.Key} {text.Trim().ToLowerInvariant()}", Sheet,
                $"What does '{text}' under '{HeaderOf(column)}' mean?",
                [.. words.Select(w => new ImportChoice(w, LegendText.WordRule(column, text, w)))])
            { Name = text.Trim() },
        };
    }

    /// <summary>Unit that the header, the row of units or the mapping gives a column.</summary>
    public string? UnitAbove(Column column) => PlaceOf(column) is { } place ? header.Units.GetValueOrDefault(place) : null;

    // What stands beside no result of its own is of all results of the row.
    private bool IsShared(Column column) =>
        Shared.Contains(column) || (!header.Has(Column.Value) && column != Column.Day && column != Column.Due
            && column != Column.Certificate);

    /// <summary>Where a column stands for this row, this result, this device; null where the table has none.</summary>
    public int? PlaceOf(Column column)
    {
        if (Part is not null) return Part.Places.TryGetValue(column, out var own) ? own : column == Column.Place
            && header.Places.TryGetValue(column, out var both) ? both : null;
        if (Group is not null && ResultGroup.Family.Contains(column))
            return Group.Places.TryGetValue(column, out var result) ? result : IsShared(column)
                && header.Places.TryGetValue(column, out var common) ? common : null;
        if (!header.Places.TryGetValue(column, out var place)) return null;
        // "Sensitivity" of the microphones beside "level" of the calibrators: the one that holds something is the result.
        return column == Column.Value && header.Again.Count > 0 && IsAbsent(row.At(place).Shown)
            && header.Again.Find(a => a.First == place && !IsAbsent(row.At(a.Second).Shown)) is { Second: > 0 } other
            ? other.Second : place;
    }

    /// <summary>k as stated in a header such as "U (k = 2)"; 1 where it says that the uncertainty is a standard one.</summary>
    public double? FactorAbove(Column column) =>
        PlaceOf(column) is { } place && Factor().Match(header.Row.At(place).Shown) is { Success: true } m
            ? double.Parse(m.Groups[1].Value.Replace(',', '.'), CultureInfo.InvariantCulture)
            : column == Column.Uncertainty && PlaceOf(column) is { } at && header.Readings[at] is { IsOneSigma: true } ? 1 : null;

    /// <summary>Frequency that the header of a column names, Hz; null where it names none.</summary>
    public double? FrequencyAbove(Column column) => PlaceOf(column) is { } place ? header.Readings[place]?.FrequencyHz : null;

    public RowProblem Refused(Column column, string why) =>
        new(RowSort.Refused, $"{HeaderOf(column)} '{Text(column)}': {why}", HeaderOf(column), Text(column));

    public RowProblem Questioned(Column column, string why) =>
        new(RowSort.Questioned, $"{HeaderOf(column)} '{Text(column)}': {why}", HeaderOf(column), Text(column));

    public string HeaderOf(Column column) => PlaceOf(column) is { } place ? header.Row.At(place).Shown : column.Meaning;

    /// <summary>Whether a cell says that there is nothing to say.</summary>
    public static bool IsAbsent(string text) => (text.Length <= LongestAbsent && Absent.Contains(text.Trim())) || IsToFillIn(text);

    // Lines of a form to write on.
    private static bool IsToFillIn(string text) => text.Length > 1 && !text.AsSpan().ContainsAnyExcept(Fillers);

    private static readonly SearchValues<char> Fillers = SearchValues.Create("_.-–—… ");

    private const int LongestAbsent = 24;

    private static readonly HashSet<string> Absent = new(
        "|-|–|—|?|.|--|---|/|//|…|...|***|na|n/a|n.a.|n. a.|n/d|n.d.|k.A.|k. A.|n.b.|s/o|s.o.|s. o.|nvt|n.v.t.|n. v. t.|null|unknown|unbekannt|inconnu|desconocido|sconosciuto|onbekend|not applicable|not available|entfällt|keine Angabe|nicht zutreffend|sans objet|non applicable|no aplica|no procede|sin datos|non disponible|non applicabile|niet van toepassing|0000-00-00"
            .Split('|'), StringComparer.OrdinalIgnoreCase);

    /// <summary>Whether a frequency may be one of thousands of Hz or one with three decimals, such as 20,000.</summary>
    public static bool MayBeOfThousands(string text) => ThousandsMark().IsMatch(text);

    private static string Range(string unit, double least, double greatest) =>
        FormattableString.Invariant($"a number from {least} to {greatest} {unit}").TrimEnd();

    [GeneratedRegex(@"^[0-9]{1,3}[.,][0-9]{3}(?:\s*Hz)?$", RegexOptions.IgnoreCase)]
    private static partial Regex ThousandsMark();

    [GeneratedRegex("^[A-Za-z0-9-]{1,60}$")]
    private static partial Regex IdShape();

    [GeneratedRegex(@"k\s*=\s*([0-9]+(?:[.,][0-9]+)?)", RegexOptions.IgnoreCase)]
    private static partial Regex Factor();
}
