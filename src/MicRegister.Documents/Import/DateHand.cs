using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>How the days of a table are written, as its columns prove, and what of it only a person can say.</summary>
/// <param name="Order">What slashes mean; null where no column proves it.</param>
/// <param name="CountsFrom1904">Whether the workbook counts days from 1904.</param>
internal sealed record DateHand(DateOrder? Order, bool CountsFrom1904)
{
    /// <summary>Whether its columns prove two orders, so that no other table can settle it.</summary>
    public bool IsTorn { get; private init; }

    /// <summary>The first cell that proves the order, for people; null where none does.</summary>
    public string? Proof { get; private init; }

    /// <summary>A day that only the order makes one; null where there is none.</summary>
    public string? Settled { get; private init; }

    /// <summary>What people should know of days that one cell settles; null where nothing.</summary>
    public string? Remark(ImportMapping mapping) => Order is not { } order || Proof is null || Settled is null || mapping.Dates is not null
        ? null
        : $"days such as {Settled} are read as {(order == DateOrder.DayFirst ? "day/month" : "month/day")}, since {Proof}.";

    public static DateHand None { get; } = new(null, false);

    /// <summary>Looks for a day that can be read one way only: one 14 settles a table, unless another contradicts it.</summary>
    public static DateHand Of(IReadOnlyList<SheetRow> rows, IReadOnlyCollection<int> columns, bool uses1904)
    {
        var (day, month) = (false, false);
        string? proof = null, settled = null;
        foreach (var row in rows)
        {
            foreach (var column in columns)
            {
                if (row.At(column) is not { Day: null, Text: { Length: > 5 } whole } || !char.IsAsciiDigit(whole[0])) continue;
                var text = whole.Split(TableHeader.InBrackets) is [_, var behind] ? behind.TrimEnd(' ', ')') : whole;
                if (DateText.IsIso(text)) continue;
                var proven = DateText.Proven(text);
                day |= proven == DateOrder.DayFirst;
                month |= proven == DateOrder.MonthFirst;
                if (proven is not null) proof ??= $"cell {NameOf(column)}{row.Number} says {text}";
                else if (settled is null && DateText.Both(text) is not null) settled = text;
            }
        }
        return new(day == month ? null : day ? DateOrder.DayFirst : DateOrder.MonthFirst, uses1904)
        {
            IsTorn = day && month,
            Proof = day == month ? null : proof,
            Settled = settled,
        };
    }

    // As spreadsheets name columns.
    private static string NameOf(int column) =>
        column < 26 ? $"{(char)('A' + column)}" : NameOf((column / 26) - 1) + NameOf(column % 26);

    /// <summary>This hand, where other tables of the same file prove one order and it proves none.</summary>
    public DateHand ProvenBy(IEnumerable<DateHand> others) =>
        Order is null && !IsTorn && others.Where(o => o.Order is not null).DistinctBy(o => o.Order).Take(2).ToList() is [var other]
            ? this with { Order = other.Order, Proof = other.Proof + " in another table" } : this;

    /// <summary>What a person has to say before a cell can be taken for a day; null where nothing.</summary>
    public (string Why, ImportQuestion Question)? Question(Cell cell, ImportMapping mapping, string header, string sheet)
    {
        if (cell.IsOfToday)
        {
            return ("a formula gives it that gives another day tomorrow",
                new("today " + header, sheet,
                $"The days under '{header}' are worked out from the day on which the file is opened. Leave them out?",
                [new("Leave the column out", LegendText.HeaderRule(header, Column.LeftOut.Key))]));
        }
        if (cell.Day is { } shown && CountsFrom1904 && !mapping.SaysEpoch)
        {
            return ("the workbook counts days from 1904",
                new("epoch", "", $"The workbook counts its days from 1904, so that '{header}' reads {shown:yyyy-MM-dd}. Is that the day?",
                [new($"Yes, {shown:yyyy-MM-dd}", "epoch := 1904"),
                    new($"No, {shown.AddDays(-1462):yyyy-MM-dd}; it was counted from 1900", "epoch := 1900")]));
        }
        if (cell.Day is not null || cell.Text is not { } text || DateText.IsIso(text)) return null;
        if (DateText.IsDayNumber(text) && mapping.Of("day-numbers") is null && !mapping.SaysEpoch)
        {
            var (from1900, from1904) = (DateText.FromSerial(text, false), DateText.FromSerial(text, true));
            return ("it is a number; it may count days from an epoch",
                new("day-numbers", sheet, $"'{text}' under '{header}' is a number of days. Which day is it?",
                [new($"{from1900:yyyy-MM-dd}, counted from 1900", "day-numbers := 1900"),
                    new($"{from1904:yyyy-MM-dd}, counted from 1904", "day-numbers := 1904")]));
        }
        if (Order is null && mapping.Dates is null && DateText.Both(text) is var (dayFirst, monthFirst))
        {
            return ($"it can be {dayFirst:yyyy-MM-dd} or {monthFirst:yyyy-MM-dd}; say which, day-first or month-first",
                new("dates", sheet, $"Is '{text}' under '{header}' {dayFirst:yyyy-MM-dd} or {monthFirst:yyyy-MM-dd}? No day of the table settles it.",
                [new($"{dayFirst:yyyy-MM-dd}: the day stands first", "dates := day-first"),
                    new($"{monthFirst:yyyy-MM-dd}: the month stands first", "dates := month-first")]));
        }
        return null;
    }
}
