using System.Collections.ObjectModel;
using System.Text.RegularExpressions;
using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>
/// A line outside a table that says one thing of all rows below it, such as <i>Serial no.: 14552</i> or <i>Status | in use</i>.
/// </summary>
/// <param name="Column">What it speaks of.</param>
/// <param name="Text">What it says.</param>
/// <param name="IsLone">Whether label and text stand in one cell.</param>
internal sealed partial record LabelledLine(Column Column, string Text, bool IsLone)
{
    // A bare date above a table is as likely the day on which it was printed.
    private static readonly HashSet<Column> Sayable =
    [
        Column.Kind, Column.Maker, Column.Model, Column.Serial, Column.Place, Column.Status, Column.Laboratory, Column.Certificate,
            Column.Unit,
        Column.CalibrationHz, Column.Pressure, Column.Temperature, Column.Humidity, Column.Method, Column.Factor, Column.Uncertainty,
        Column.Fields[DeviceField.InventoryCode], Column.Fields[DeviceField.SizeMm], Column.Fields[DeviceField.NominalSensitivity],
        Column.Fields[DeviceField.Owner],
    ];

    private const int LongestLabel = 40;
    private const int MostInARow = 12;

    /// <summary>Whether it says which device the rows are of.</summary>
    public bool NamesDevice => Column == Column.Serial || Column == Column.Fields[DeviceField.InventoryCode];

    /// <summary>Reads a row; null where it is no such line.</summary>
    public static LabelledLine? Of(SheetRow row, ImportMapping rules) => AsOfLine.Is(row) ? null : Halves(row) switch
    {
        (var label, var text, var isLone) => Of(label, text, isLone, rules),
        null => null,
    };

    /// <summary>
    /// All that a row says, also where two such lines stand side by side, each label with a colon; empty where it is no such row.
    /// </summary>
    public static IReadOnlyList<LabelledLine> AllOf(SheetRow row, ImportMapping rules)
    {
        if (Of(row, rules) is { } one) return [one];
        var (pairs, lines) = (Pairs(row), new List<LabelledLine>());
        foreach (var (label, text) in pairs)
        {
            if (Of(label, text, false, rules) is { } line) lines.Add(line);
        }
        // "Variant: MK-50", and no model beside it.
        if (lines.Count > 0 && !lines.Exists(l => l.Column == Column.Model)
            && pairs.Find(p => IsVariant(p.Label) && p.Text.Any(char.IsAsciiDigit) && p.Text.Any(char.IsLetter)) is { Text: { } model })
            lines.Add(new(Column.Model, model, false));
        return lines;
    }

    private static bool IsVariant(string label) => HeaderReading.Of(label) is { Kind: null } reading
        && (reading.Open == "?variant" || reading.Column == Column.Fields[DeviceField.Variant]);

    /// <summary>Whether a row is the line of a card, whether or not anybody understands its labels.</summary>
    public static bool IsCard(SheetRow row) => Pairs(row).Count > 0;

    /// <summary>Whether a card, of one line or of several below each other, does not say which device it is of.</summary>
    public static bool HasCardWithoutName(IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        for (var i = 0; i < rows.Count; i++)
        {
            if (!IsCard(rows[i])) continue;
            var isNamed = false;
            for (; i < rows.Count && (IsCard(rows[i]) || Of(rows[i], rules) is not null); i++)
                isNamed |= AllOf(rows[i], rules).Any(l => l.NamesDevice);
            if (!isNamed) return true;
        }
        return false;
    }

    // Two labels or more, each with a colon, and what stands behind them.
    private static List<(string Label, string Text)> Pairs(SheetRow row)
    {
        if (row.Fault is not null || row.Cells.Length < 4 || !row.Cells.Any(c => !c.IsBlank && c.Shown.EndsWith(':'))) return [];
        var filled = row.Cells.Where(c => !c.IsBlank).Take(MostInARow + 1).ToList();
        if (filled.Count is < 3 or > MostInARow || filled.Count % 2 == 1) return [];
        var pairs = filled.Chunk(2).ToList();
        if (!pairs.TrueForAll(p => p[0].Shown.Length <= LongestLabel && p[0].Shown.EndsWith(':') && !p[1].Shown.EndsWith(':'))) return [];
        return [.. pairs.Select(p => (p[0].Shown.Trim(' ', ':'), p[1].Shown))];
    }

    /// <summary>Labels in the lines of cards that nobody understands, each asked once for all cards.</summary>
    public static IEnumerable<ImportQuestion> UnknownOfCards(IEnumerable<SheetRow> rows, ImportMapping rules, string sheet)
    {
        var open = rows.SelectMany(Pairs).Where(p => !RowReader.IsAbsent(p.Text) && Of(p.Label, p.Text, false, rules) is null
            && !IsSettled(HeaderReading.Of(p.Label)) && !IsVariant(p.Label) && HeaderReading.Of(p.Label).Open is not ("?told" or "?noted"));
        foreach (var same in open.GroupBy(p => p.Label, StringComparer.OrdinalIgnoreCase))
        {
            var texts = same.Select(p => p.Text).Distinct().ToList();
            var question = Question(same.Key, sheet, $"What does '{same.Key}' say of the device? ({string.Join(", ", texts.Take(3))})",
                [Column.Serial, Column.Kind]);
            question.MayName = texts.Count * 10 >= same.Count() * 9 && texts.TrueForAll(t => t.Any(char.IsAsciiDigit));
            yield return texts.Aggregate(question, (asked, text) => asked.Seen(text));
        }
    }

    // "Instrument: Microphone MK-50" says the model too.
    private string? ModelBeside => Column == Column.Kind ? RowHeading.ModelIn(Text)?.Model : null;

    /// <summary>Label and text of a row that holds nothing else, whether or not the label is understood; null for other rows.</summary>
    public static (string Label, string Text, bool IsLone)? Halves(SheetRow row)
    {
        if (row.Fault is not null) return null;
        var (first, second, filled) = (default(string), default(string), 0);
        foreach (var cell in row.Cells)
        {
            if (cell.IsBlank) continue;
            if (++filled > 2) return null;
            if (filled == 1) first = cell.Shown;
            else second = cell.Shown;
        }
        if (first is null || first.Length > 200) return null;
        if (second is not null && second != first) return first.Length <= LongestLabel ? (first.Trim(' ', ':', '='), second, false) : null;
        return Labelled().Match(first) is { Success: true } m ? (m.Groups[1].Value, m.Groups[2].Value, true) : null;
    }

    /// <summary>Lines of a card whose label nobody understands: what they say would be lost.</summary>
    public static IEnumerable<ImportQuestion> Unknown(IReadOnlyList<SheetRow> before, ImportMapping rules, string sheet, bool isCard)
    {
        foreach (var row in before)
        {
            if (AsOfLine.Is(row) || Halves(row) is not var (label, text, isLone) || Of(row, rules) is not null
                || RowReader.IsAbsent(text)) continue;
            // A title on the left and the number of the form on the right are no label and its text.
            if (!isCard && row.Cells.Length > 2 && !Adjoin(row)) continue;
            // A line of text is a title as a rule; a date is the day of the print.
            if ((isLone && !isCard) || (!isCard && IsDate(text)) || IsSettled(HeaderReading.Of(label))) continue;
            // "Calibration plan | 2026": a year alone is that of the list.
            if (!isCard && text.Length == 4 && text.All(char.IsAsciiDigit)) continue;
            yield return Question(label, sheet, $"What does '{label}' say of the device? ({text})").Seen(text);
        }
    }

    private static bool Adjoin(SheetRow row) =>
        Enumerable.Range(0, row.Cells.Length).Where(i => !row.Cells[i].IsBlank).ToList() is not [var a, var b] || b == a + 1;

    private static bool IsDate(string text) => DateText.TryRead(new Cell(text.Trim()), DateOrder.DayFirst, false, out _) is null
        || DateText.TryRead(new Cell(text.Trim()), DateOrder.MonthFirst, false, out _) is null;

    // "Home location | Hall 2" is only likely, so that it is asked; a day that is only likely may be that of the print.
    private static bool IsSettled(HeaderReading reading) => reading.Open == "?none"
        || (reading.Column is { } column && (!reading.IsGuess || !Sayable.Contains(column)));

    /// <summary>A question of what a label means.</summary>
    public static ImportQuestion Question(string label, string sheet, string text, params Column[] first)
    {
        var likely = new[] { Column.Place, Column.Model, Column.Status, Column.Maker, Column.Laboratory, Column.Noted, Column.LeftOut };
        return new("column " + label.ToLowerInvariant(), sheet, text,
            [.. first.Concat(likely).Select(c => new ImportChoice(c.Meaning, LegendText.HeaderRule(label, c.Key)))])
        { Name = label };
    }

    /// <summary>What a label and a text among the rows say of those below; null where nobody knows.</summary>
    public static LabelledLine? OfSection(string label, string text, ImportMapping rules) => Of(label, text, isLone: true, rules);

    /// <summary>What is said so far, with this.</summary>
    public IReadOnlyDictionary<Column, string> On(IReadOnlyDictionary<Column, string> said) =>
        new ReadOnlyDictionary<Column, string>(ModelBeside is { } model
            ? new Dictionary<Column, string>(said) { [Column] = Text, [Column.Model] = model }
            : new Dictionary<Column, string>(said) { [Column] = Text });

    /// <summary>The factor that a title such as "all uncertainties k=1" states for all rows; null where it states none.</summary>
    public static string? FactorIn(string title) => OfUncertainties().Match(FoldedText.Of(title)) is { Success: true } m
        ? m.Groups[1].Value.Replace(',', '.') : null;

    private static LabelledLine? Of(string label, string text, bool isLone, ImportMapping rules)
    {
        // Two headers of a legend side by side are a header, and say nothing of a thing.
        if (!isLone && rules.OfHeader(text) is not null) return null;
        if (rules.OfHeader(label) is var (said, _)) return new(said, text.Trim(), isLone);
        var reading = HeaderReading.Of(label);
        var column = reading.Open switch
        {
            "?type" => Column.Model,
            "?what" when Words.Kind(text) is not null => Column.Kind,
            "?what" when text.Any(char.IsAsciiDigit) => Column.Model,
            "?room" => Column.Place,
            "?company" => Column.Maker,
            "?performed" => text.Any(char.IsAsciiDigit) ? Column.Day : Column.Laboratory,
            "?situation" => Words.Status(text) is null ? Column.Place : Column.Status,
            _ => reading.Column,
        };
        if (column == Column.Day && !IsDate(text)) return null;
        if (column == Column.Day && !HeaderConcepts.Of(label).Concepts.Contains("calibration")) return null;
        if (column is null || reading.IsGuess || reading.Kind is not null || reading.Year is not null) return null;
        if (column != Column.Day && !Sayable.Contains(column)) return null;
        // "Model | Serial no." is a header, and says nothing of a thing.
        if (!isLone && HeaderReading.Of(text) is { IsGuess: false, Column: not null, Kind: null } header
            && !(column == Column.Kind && Words.Kind(text) is not null)
            && (!text.Any(char.IsAsciiDigit) || header.Unit is not null || (header.Year is not null && !header.IsDay))) return null;
        return new(column, text.Trim(), isLone);
    }

    [GeneratedRegex(@"(?:uncertaint|unsicherheit|incertitude|incertidumbre|incertezz|onzekerhe)[^=]*\bk\s*=\s*([0-9]+(?:[.,][0-9]+)?)\s*\)?\.?\s*$")]
    private static partial Regex OfUncertainties();

    [GeneratedRegex(@"^\s*([^:=]{1,40}?)\s*[:=]\s*(\S.*)$")]
    private static partial Regex Labelled();
}
