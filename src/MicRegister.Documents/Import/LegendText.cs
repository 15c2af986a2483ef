using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>Reads the lines of a legend and writes them.</summary>
internal static partial class LegendText
{
    public static ImportMapping Read(TextReader text, string name)
    {
        var file = new Part();
        var sheets = new Dictionary<string, Part>(StringComparer.Ordinal);
        var part = file;
        var number = 0;
        while (text.ReadLine() is { } line)
        {
            number++;
            if (line.Trim() is not { Length: > 0 } rule || rule[0] == '#') continue;
            if (SheetLine().Match(rule) is { Success: true } sheet)
            {
                var key = sheet.Groups[1].Value.Trim().ToLowerInvariant();
                if (!sheets.TryGetValue(key, out var own)) sheets[key] = own = new();
                // With a rule behind it, the line is of that sheet and the next ones are not.
                if (sheet.Groups[2].Value.Trim() is { Length: > 0 } single) Take(single, own, name, number);
                else part = own;
            }
            else
            {
                Take(rule, part, name, number);
            }
        }
        return file.Done() with { Sheets = sheets.ToDictionary(s => s.Key, s => s.Value.Done(), StringComparer.Ordinal) };
    }

    /// <summary>A rule for a header, quoted where it has signs of its own.</summary>
    public static string HeaderRule(string header, string column) => $"{Quoted(header)} = {column}";

    /// <summary>A rule for a word under a column.</summary>
    public static string WordRule(Column column, string word, string meaning) => $"word {column.Key} {Quoted(word)} := {meaning}";

    /// <summary>What a rule is about: of two rules about one thing the later one counts.</summary>
    public static string KeyOf(string rule)
    {
        if (WordLine().Match(rule) is { Success: true } word)
            return $"word {word.Groups[1].Value} {Unquoted(word.Groups[2].Value).Trim().ToLowerInvariant()}";
        if (QuotedHeader().Match(rule) is { Success: true } quoted) return KeyOfHeader(Unquoted(quoted.Groups[1].Value), isExact: true);
        if (rule.Split(":=", 2) is [var key, _]) return "value " + key.Trim();
        return rule.Split('=', 2) is [var header, _] ? KeyOfHeader(header, isExact: false) : rule;
    }

    /// <summary>What a rule for a header is about, with the header in quotes or not.</summary>
    public static string KeyOfHeader(string header, bool isExact) =>
        "header " + (isExact ? ImportMapping.Exactly(header) : Column.Plain(header));

    /// <summary>The sheet that a line names, and the rule behind it, empty where none stands there; null where it names no sheet.</summary>
    public static (string Sheet, string Rule)? SheetOf(string line) => SheetLine().Match(line.Trim()) is { Success: true } match
        ? (match.Groups[1].Value.Trim(), match.Groups[2].Value.Trim())
        : null;

    // Column keys are words of letters and dashes, so a quote can only belong to a header.
    private static string Quoted(string text) =>
        "\"" + text.Replace("\"", "\"\"", StringComparison.Ordinal).Replace('\n', ' ').Replace('\r', ' ') + "\"";

    private static void Take(string rule, Part part, string name, int number)
    {
        if (WordLine().Match(rule) is { Success: true } word)
        {
            part.Meanings[(Find(word.Groups[1].Value, name, number).Key, Unquoted(word.Groups[2].Value).Trim()
                .ToLowerInvariant())] = word.Groups[3].Value.Trim();
            return;
        }
        if (QuotedHeader().Match(rule) is { Success: true } quoted)
        {
            SetHeader(part, ImportMapping.Exactly(Unquoted(quoted.Groups[1].Value)), quoted.Groups[2].Value, name, number);
            return;
        }
        if (rule.Split(":=", 2) is [var key, var value])
        {
            SetConstant(part, key.Trim(), value.Trim(), name, number);
            return;
        }
        if (rule.Split('=', 2) is not [var header, var column]) throw Wrong(name, number,
            $"'{rule}' is no rule; write header = column or column := value");
        SetHeader(part, Column.Plain(header), column, name, number);
    }

    private static void SetHeader(Part part, string header, string column, string name, int number) =>
        part.Headers[header] = (Find(column.Split('[')[0], name, number), MeasuredText.UnitOfHeader(column) ?? OfLogger(column));

    // Units of wind, air and recordings that no certificate has.
    private static string? OfLogger(string column) =>
        FieldTable.Parts(column).Unit is var unit && (unit == "fs" || WeatherTable.IsUnit(unit)) ? unit : null;

    private static void SetConstant(Part part, string key, string value, string name, int number)
    {
        switch (key)
        {
            case "dates":
                part.Dates = ImportMapping.Order(value) ?? throw Wrong(name, number,
                    $"dates := {value}; allowed are day-first and month-first");
                break;
            case "as-of":
                part.AsOf = AsOfDay.Read(value) ?? throw Wrong(name, number, $"as-of := {value}; allowed is a day such as 2024-11-30");
                break;
            case "epoch":
                if (value is not ("1900" or "1904")) throw Wrong(name, number, $"epoch := {value}; allowed are 1900 and 1904");
                part.Uses1904 = value == "1904";
                break;
            default:
                if (!ImportMapping.Settlements.TryGetValue(key, out var allowed)) part.Constants[Find(key, name, number)] = value;
                else if (allowed.Contains(value)) part.Settled[key] = value;
                else throw Wrong(name, number, $"{key} := {value}; allowed are {string.Join(" and ", allowed)}");
                break;
        }
    }

    private static string Unquoted(string text) => text[1..^1].Replace("\"\"", "\"", StringComparison.Ordinal);

    private static Column Find(string key, string name, int line) =>
        Column.OfKey(key.Trim()) ?? throw Wrong(name, line, $"there is no column '{key.Trim()}'; columns lists them all");

    private static SheetException Wrong(string name, int line, string what) => new($"{name}, line {line}: {what}.");

    [GeneratedRegex(@"^\[sheet\s+(.+?)\]\s*(.*)$", RegexOptions.IgnoreCase)]
    private static partial Regex SheetLine();

    [GeneratedRegex(@"^word\s+([\w-]+)\s+(""(?:[^""]|"""")*"")\s*:=\s*(.+)$")]
    private static partial Regex WordLine();

    [GeneratedRegex(@"^(""(?:[^""]|"""")*"")\s*=\s*([^=].*)$")]
    private static partial Regex QuotedHeader();

    private sealed class Part
    {
        public Dictionary<string, (Column Column, string? Unit)> Headers { get; } = new(StringComparer.Ordinal);

        public Dictionary<Column, string> Constants { get; } = [];

        public Dictionary<(string Column, string Word), string> Meanings { get; } = [];

        public Dictionary<string, string> Settled { get; } = new(StringComparer.Ordinal);

        public DateOrder? Dates { get; set; }

        public bool? Uses1904 { get; set; }

        public DateOnly? AsOf { get; set; }

        public ImportMapping Done() => new(Headers, Constants, Dates, Uses1904 ?? false)
        {
            Meanings = Meanings,
            Settled = Settled,
            SaysEpoch = Uses1904 is not null,
            AsOf = AsOf,
        };
    }
}
