using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <content>Takes the rows of a table, one by one.</content>
public sealed partial class ImportSession
{
    private RowOutcome Remarked(RowOutcome outcome) =>
        _stated.TakeRemarks() is { } remarks ? outcome with { Text = $"{outcome.Text} ({remarks})" } : outcome;

    private void Take(TableReading table, Sheet sheet, ImportMapping rules, FileReport report, Action tell, CancellationToken cancel)
    {
        report.Begin(sheet.Name, table.Header, table.Rows);
        foreach (var question in table.Questions) report.Ask(question);
        if (table.Header.HoldsNoDevices) report.Notices.Add($"{Where(report.Name, sheet)}: no column names a device; passed over.");
        if (table.RemarkOfDays is { } days) report.Notices.Add($"{Where(report.Name, sheet)}: {days}");
        foreach (var row in table.Before) report.Add(new(sheet.Name, row.Number, RowSort.PassedOver, "before the header"), row);
        var (beside, into) = LongRows.Join(table);
        NamedIds = table.Header.Places.TryGetValue(Column.DeviceId, out var ids)
            ? table.Rows.Select(r => r.At(ids).Shown).ToHashSet(StringComparer.Ordinal) : new HashSet<string>();
        Siblings = SiblingLevels.Of(table, Register);
        IsOfSensitivities = table.IsOfSensitivities;
        Evidence = KindEvidence.Of(table);
        if (RowSubject.SortOf(table.Header) == RowSubject.Station) _campaigns.Begin(table, sheet.Name, rules);
        var isFirst = true;
        // Where nobody knows which of two columns holds the results, no row can be taken.
        var waits = table.Header.Twice.Count > 0 || table.Header.IsContended || WaitsForNames(table, report)
            || table.Questions.Any(q =>
                q.Key.StartsWith("second ", StringComparison.Ordinal) || q.Key.StartsWith("unit ", StringComparison.Ordinal));
        foreach (var row in table.Rows)
        {
            cancel.ThrowIfCancellationRequested();
            if (isFirst && table.Header.TakeUnits(row)) continue;
            isFirst = false;
            if (into.TryGetValue(row.Number, out var result)) report.Add(new(sheet.Name, row.Number, RowSort.PassedOver,
                FormattableString.Invariant($"read with row {result}")), row);
            else if (table.Header.HoldsNoDevices) report.Add(new(sheet.Name, row.Number, RowSort.PassedOver, "it names no device"), row);
            else if (waits) report.Add(new(sheet.Name, row.Number, RowSort.Questioned,
                WaitsForNames(table, report) ? "its devices may stand under a column that is open; the row waits until that is settled"
                : table.Header.Twice.Count > 0 || table.Header.IsContended
                    || table.Questions.Any(q => q.Key.StartsWith("second ", StringComparison.Ordinal))
                    ? "two columns may hold the same; the row waits until that is settled"
                    : "the unit of a column is open; the row waits until that is settled"), row);
            else if (SheetQuestions.OfRow(row, rules, sheet.Name) is var (leftOut, open))
            {
                if (leftOut is not null) report.Add(new(sheet.Name, row.Number, RowSort.PassedOver, leftOut), row);
                else Report(new(sheet.Name, row.Number, open!.Sort, open.Message, null, open.Value), row, open.Question, report);
            }
            else if (table.DittoOf(row) is { } ditto)
                Report(new(sheet.Name, row.Number, RowSort.Questioned, "a mark may stand for the cell above", null, ditto.Mark), row,
                    ditto.Question, report);
            else Report(Remarked(Take(table, row, beside.GetValueOrDefault(row.Number), sheet.Name, out var question)), row, question,
                report);
            if (report.Rows % 1000 == 0) tell();
        }
    }

    // A table that knows its devices by their codes alone, after one in which the column of the codes may be one that nobody understands.
    private static bool WaitsForNames(TableReading table, FileReport report) => table.Header.AwaitsNames
        || (!table.Header.Has(Column.Serial) && table.Header.Has(Column.Fields[DeviceField.InventoryCode]) && report.MayMissNames
            && !table.Questions.Any(q => q.MayName));

    private static void Report(RowOutcome outcome, SheetRow row, ImportQuestion? question, FileReport report)
    {
        if (question is not null) report.Ask(question, outcome.Value);
        report.Add(question is null ? outcome : outcome with { Question = question.Key }, row);
    }

    private RowOutcome Take(TableReading table, SheetRow row, IReadOnlyDictionary<Column, string>? beside, string sheet,
        out ImportQuestion? question)
    {
        question = null;
        if (row.Fault is { } fault)
        {
            table.TakeFault();
            return new(sheet, row.Number, RowSort.Refused, fault, null, row.At(0).Shown);
        }
        if (table.TakeHeading(row) is { } heading) return new(sheet, row.Number, RowSort.PassedOver, heading);
        return Take(table.Reader(row, beside), sheet, out question);
    }

    private RowOutcome Take(RowReader row, string sheet, out ImportQuestion? question)
    {
        question = null;
        if (row.Header.IsRepeatedBy(row.Row)) return Passed(row, sheet, "the header again");
        if (NoRow.Why(row) is { } why) return Passed(row, sheet, why);
        try
        {
            var beyond = row.Row.Cells.Skip(row.Header.Row.Cells.Length).FirstOrDefault(c => !c.IsBlank);
            if (!beyond.IsBlank) throw new RowProblem(RowSort.Refused,
                $"The row has more cells than the header ('{beyond.Shown}'); is a decimal comma taken for a separator?", null,
                beyond.Shown);
            if (Torn.Of(row) is { } torn) throw torn;
            var outcome = RowSubject.SortOf(row.Header) switch
            {
                RowSubject.Limit => _rules.TakeLimit(row, sheet),
                RowSubject.Setting => _rules.TakeSetting(row, sheet),
                RowSubject.Station => _campaigns.TakeStation(row, sheet),
                RowSubject.Campaign => _campaigns.TakeCampaign(row, sheet),
                RowSubject.Kit => _campaigns.TakeKit(row, sheet),
                _ => _devices.TakeAll(row, sheet),
            };
            return outcome with { About = outcome.About ?? RowSubject.Of(row) };
        }
        catch (RowProblem problem)
        {
            question = problem.Question;
            var sort = question is null ? problem.Sort : RowSort.Questioned;
            return new(sheet, row.Row.Number, sort, problem.Message, problem.Header, problem.Value) { About = RowSubject.Of(row) };
        }
        catch (FormatException e)
        {
            return new(sheet, row.Row.Number, RowSort.Refused, e.Message) { About = RowSubject.Of(row) };
        }
    }

    private static RowOutcome Passed(RowReader row, string sheet, string why) => new(sheet, row.Row.Number, RowSort.PassedOver, why);
}
