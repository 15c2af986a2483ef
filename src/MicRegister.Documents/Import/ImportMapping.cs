using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>
/// What a user says about a file that its headers do not: <c>header = column key [unit]</c>, <c>column key := value for every row</c>,
/// <c>dates := day-first</c> or <c>month-first</c>, <c>epoch := 1904</c>,
/// <c>as-of := 2024-11-30</c>. Blank lines and lines with # are left out.
/// </summary>
public sealed record ImportMapping(
    IReadOnlyDictionary<string, (Column Column, string? Unit)> Headers, IReadOnlyDictionary<Column, string> Constants, DateOrder? Dates, bool Uses1904)
{
    /// <summary>Day as of which the file speaks; null where nobody says.</summary>
    public DateOnly? AsOf { get; init; }

    public static ImportMapping None { get; } = new(new Dictionary<string, (Column, string?)>(), new Dictionary<Column, string>(), null, false);

    /// <summary>Reads a mapping.</summary>
    /// <exception cref="SheetException">A line is no rule, or names a column that does not exist.</exception>
    public static ImportMapping Read(TextReader text, string name)
    {
        var headers = new Dictionary<string, (Column, string?)>();
        var constants = new Dictionary<Column, string>();
        DateOrder? dates = null;
        var uses1904 = false;
        DateOnly? asOf = null;
        var number = 0;
        while (text.ReadLine() is { } line)
        {
            number++;
            if (line.Trim() is not { Length: > 0 } rule || rule[0] == '#') continue;
            if (rule.Split(":=", 2) is [var key, var value])
            {
                switch (key.Trim())
                {
                    case "dates": dates = Order(value.Trim()) ?? throw Wrong(name, number, $"dates := {value.Trim()}; allowed are day-first and month-first"); break;
                    case "as-of":
                        asOf = AsOfDay.Read(value) ?? throw Wrong(name, number, $"as-of := {value.Trim()}; allowed is a day such as 2024-11-30");
                        break;
                    case "epoch": uses1904 = value.Trim() == "1904"; break;
                    default: constants[Find(key, name, number)] = value.Trim(); break;
                }
            }
            else if (rule.Split('=', 2) is [var header, var column])
            {
                headers[Column.Plain(header)] = (Find(column.Split('[')[0], name, number), MeasuredText.UnitOfHeader(column));
            }
            else
            {
                throw Wrong(name, number, $"'{rule}' is no rule; write header = column or column := value");
            }
        }
        return new(headers, constants, dates, uses1904) { AsOf = asOf };
    }

    public static DateOrder? Order(string text) => text switch
    {
        "day-first" => DateOrder.DayFirst,
        "month-first" => DateOrder.MonthFirst,
        _ => null,
    };

    private static Column Find(string key, string name, int line) =>
        Column.OfKey(key.Trim()) ?? throw Wrong(name, line, $"there is no column '{key.Trim()}'; columns lists them all");

    private static SheetException Wrong(string name, int line, string what) => new($"{name}, line {line}: {what}.");
}
