using MicRegister.Documents.Sheets;

namespace MicRegister.Documents.Import;

/// <summary>A table of a sheet before it is read: its header, the lines above it, its rows, and how many rows the header takes.</summary>
internal sealed record FoundTable(TableHeader Header, IReadOnlyList<SheetRow> Before, IReadOnlyList<SheetRow> Rows, int Used);

/// <summary>Finds the tables of a sheet, however they lie.</summary>
internal static class TableFinder
{
    private const int RowsBeforeHeader = 100;
    private const int RowsThatMakeAColumn = 2;

    /// <summary>The tables of a sheet, one below the other; empty where no row is a header.</summary>
    public static IReadOnlyList<FoundTable> Find(IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        // Keys of limits and settings, and many a serial, read as headers too: a table that left a register is one, and upright.
        if (rows.Count > 0 && LeftARegister(rows[0])) return [Named(new(TableHeader.Read(rows[0], rules), [], Below(rows, 1), 1), rules)];
        if ((StackedCards.Turned(rows, rules) ?? CrossTable.Turned(rows, rules) ?? SidewaysTable.Turned(rows, rules)) is { } turned)
            return First(turned, rules) is { } aside ? [Named(aside, rules)] : [];
        var found = new List<FoundTable>();
        for (var table = First(rows, rules); table is not null;)
        {
            var next = Next(table, rules);
            var own = table.Rows.Count - (next is null ? 0 : next.Before.Count + next.Used + next.Rows.Count);
            found.Add(Named(table with { Rows = next is null ? table.Rows : [.. table.Rows.Take(own)] }, rules));
            table = next;
        }
        return found;
    }

    /// <summary>Whether a header is that of a table that left a register: what stands below it was looked at before.</summary>
    public static bool LeftARegister(SheetRow header)
    {
        var columns = header.Cells.Where(c => !c.IsBlank).Select(c => Column.OfKey(c.Shown) ?? Column.ByName(c.Shown)).ToList();
        // Only registers have such ids, whatever columns people put beside them; limits and settings are words of other lists too.
        return columns.Contains(Column.DeviceId) || columns.Contains(Column.CampaignId)
            || (columns.Count > 1 && !columns.Contains(null) && (columns.Contains(Column.Limit) || columns.Contains(Column.Setting)));
    }

    private static FoundTable? First(IReadOnlyList<SheetRow> rows, ImportMapping rules)
    {
        var looked = Math.Min(rows.Count, RowsBeforeHeader);
        (int At, TableHeader Header)? likely = null;
        var isNamed = false;
        for (var i = 0; i < looked; i++)
        {
            if (rows[i].Fault is not null) continue;
            var isCard = LabelledLine.IsCard(rows[i]);
            if (LabelledLine.AllOf(rows[i], rules) is var lines && (lines.Count > 0 || isCard))
            {
                isNamed |= isCard || lines.Any(l => l.NamesDevice);
                continue;
            }
            var (header, used) = TwoRowHeader.At(rows, i, rules);
            if (header.Known >= 2 && (header.NamesRows || isNamed && header.HoldsResults)) return new(header, [.. rows.Take(i)],
                Below(rows, i + used), used);
            if (header.Known >= 2 && IsOfWords(rows[i]) && (likely is not { } l || header.Known > l.Header.Known)) likely = (i, header);
        }
        // A header that names nothing to know a row by is asked about, where a table stands below it.
        return likely is var (at, found) && rows.Count > at + 2 ? new(found, [.. rows.Take(at)], Below(rows, at + 1), 1) : null;
    }

    // A row of a device holds numbers; a header holds years and the like at most.
    private static bool IsOfWords(SheetRow row) =>
        row.Cells.Count(c => !c.IsBlank && (c.Day is not null || char.IsAsciiDigit(c.Text![0]) || c.Text[0] == '-')) * 3
            <= row.Cells.Count(c => !c.IsBlank);

    // A row of words only, under which another table begins; the lines just above it belong to it.
    private static FoundTable? Next(FoundTable part, ImportMapping rules)
    {
        for (var i = 1; i < part.Rows.Count; i++)
        {
            var isAgain = HasOtherUnits(part.Header.Row, part.Rows[i]);
            if ((!isAgain && (!LooksLikeHeader(part.Rows[i]) || NamesDevice(part.Rows[i], part.Header)))
                || part.Header.IsRepeatedBy(part.Rows[i]) || LabelledLine.IsCard(part.Rows[i])) continue;
            var from = i;
            while (from > 0 && IsAbove(part.Rows[from - 1], rules)) from--;
            var isNamed = Enumerable.Range(from, i - from).Any(n => LabelledLine.IsCard(part.Rows[n])
                || LabelledLine.AllOf(part.Rows[n], rules).Any(l => l.NamesDevice));
            var (header, used) = TwoRowHeader.At(part.Rows, i, rules);
            if (header.Known < 3 || header.Known * 2 < header.Row.Cells.Count(c => !c.IsBlank)) continue;
            if (header.NamesRows || (isNamed && header.HoldsResults))
                return new(header, [.. part.Rows.Skip(from).Take(i - from)], Below(part.Rows, i + used), used);
        }
        return null;
    }

    // "INV-2001 | Microphone | Room 204" is made of words that headers have too, but a number of a device stands under its header.
    private static bool NamesDevice(SheetRow row, TableHeader header) => TableHeader.Naming.Any(c =>
        header.Places.TryGetValue(c, out var place) && row.At(place).Shown.Any(char.IsAsciiDigit))
        || (header.Places.TryGetValue(Column.Kind, out var kind) && Words.Kind(row.At(kind).Shown) is not null);

    // "Cal. 1 [dB]" below "Cal. 1 [mV/Pa]": the same header with another unit heads another table, however many numbers it holds.
    private static bool HasOtherUnits(SheetRow header, SheetRow row)
    {
        if (row.Fault is not null) return false;
        var (same, filled, others) = (0, 0, 0);
        for (var i = 0; i < row.Cells.Length; i++)
        {
            // One of the two may have room for more results.
            if (row.At(i).IsBlank || header.At(i).IsBlank) continue;
            filled++;
            if (row.At(i).Day is not null) continue;
            var (one, two) = (header.At(i).Shown, row.At(i).Shown);
            if (!string.Equals(MeasuredText.WithoutUnit(one), MeasuredText.WithoutUnit(two), StringComparison.OrdinalIgnoreCase)) continue;
            same++;
            if (one != two) others++;
        }
        return filled >= 3 && others > 0 && same == filled;
    }

    private static bool IsAbove(SheetRow row, ImportMapping rules) => row.Fault is null
        && (LabelledLine.IsCard(row) || LabelledLine.AllOf(row, rules).Count > 0 || RowHeading.Lone(row) is not null);

    // Rows of devices hold numbers or days; this is asked of every row, and must be quick.
    private static bool LooksLikeHeader(SheetRow row)
    {
        if (row.Fault is not null) return false;
        var (filled, withDigits) = (0, 0);
        foreach (var cell in row.Cells)
        {
            if (cell.IsBlank) continue;
            if (cell.Day is not null || char.IsAsciiDigit(cell.Text![0]) || cell.Text[0] == '-') return false;
            filled++;
            // "Cal. 2 [dB]" is a header for all its digits.
            if (cell.Text.AsSpan().ContainsAnyInRange('0', '9')
                && HeaderReading.Of(cell.Text) is not ({ Column: not null, Index: not null }
                    or { Column: not null, Year: not null })) withDigits++;
        }
        return filled >= 3 && withDigits * 2 < filled;
    }

    // A column without a header that holds something must not be lost: it is called by its place, and asked about.
    private static FoundTable Named(FoundTable table, ImportMapping rules)
    {
        var (header, rows) = (table.Header, table.Rows.Take(RowsBeforeHeader).Where(r => r.Fault is null).ToList());
        var width = rows.Select(r => r.Cells.Length).DefaultIfEmpty().Max();
        var cells = header.Row.Cells.Concat(Enumerable.Repeat(default(Cell), Math.Max(0, width - header.Row.Cells.Length))).ToArray();
        var isNamed = false;
        for (var n = 0; n < cells.Length; n++)
        {
            // A footnote or a title has little beside it.
            if (!cells[n].IsBlank) continue;
            if (rows.Count(r => !r.At(n).IsBlank && r.Cells.Count(c => !c.IsBlank) > 2
                && LabelledLine.AllOf(r, rules).Count < 2) < RowsThatMakeAColumn) continue;
            cells[n] = new(FormattableString.Invariant($"column {n + 1}"));
            isNamed = true;
        }
        return isNamed ? table with { Header = TableHeader.Read(header.Row with { Cells = cells }, rules) } : table;
    }

    private static IReadOnlyList<SheetRow> Below(IReadOnlyList<SheetRow> rows, int from) => from == 0 ? rows : [.. rows.Skip(from)];
}
