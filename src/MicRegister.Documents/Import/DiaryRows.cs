using System.Security.Cryptography;
using System.Text;
using MicRegister.Register.Campaigns;

namespace MicRegister.Documents.Import;

/// <summary>Takes tables that tell what was done outdoors in a campaign, each row by the decision that pages and the API call.</summary>
internal sealed class DiaryRows(ImportSession session)
{
    private readonly DiaryCampaigns _campaigns = new(session);
    private readonly PlacementRows _placements = new(session);
    private readonly CheckRows _checks = new(session);
    private readonly ClockRows _clocks = new(session);
    private readonly ComparisonRows _comparisons = new(session);
    private readonly ReaderRows _readers = new(session);

    /// <summary>Takes a table.</summary>
    /// <param name="table">The table.</param>
    /// <param name="rules">What its headers do not say.</param>
    /// <param name="fileSha">SHA-256 of its file.</param>
    /// <param name="report">Where it is said what became of its rows.</param>
    /// <param name="cancel">Stops between two rows.</param>
    public void Take(DiaryTable table, ImportMapping rules, string fileSha, FileReport report, CancellationToken cancel)
    {
        report.Begin(table);
        foreach (var row in table.Before) report.Add(new(table.Sheet, row.Number, RowSort.PassedOver, "before the header"), row);
        var rows = table.Rows.Select(r => new DiaryRow(table.Reader(r))).ToList();
        foreach (var row in rows)
        {
            cancel.ThrowIfCancellationRequested();
            Sift(row, rules);
        }
        if (_campaigns.Settle([.. rows.Where(r => r.IsOpen)]) is { } notice)
            report.Notices.Add($"{report.Name}{(table.Sheet.Length > 0 ? ", sheet " + table.Sheet : "")}: {notice}");
        var register = session.Ahead;
        foreach (var group in rows.Where(r => r.IsOpen).GroupBy(r => r.Campaign, StringComparer.Ordinal).ToList())
        {
            cancel.ThrowIfCancellationRequested();
            Take(table, register.Campaign(group.Key)!, [.. group], table.Sheet.Length == 0 ? fileSha : ShaOf(table), report);
        }
        if (session.TakeRemarks() is { } remarks) report.Notices.Add($"{report.Name}: some of what it says {remarks}.");
        foreach (var row in rows)
        {
            if (row.Question is { } question) report.Ask(question, row.Outcome!.Value);
            var outcome = row.Outcome ?? throw new InvalidOperationException($"Row {row.Number} of {report.Name} was forgotten.");
            report.Add(row.Question is null ? outcome : outcome with { Question = row.Question.Key }, row.Reader.Row);
        }
    }

    private void Take(DiaryTable table, CampaignState campaign, List<DiaryRow> rows, string sha, FileReport report)
    {
        if (table.Sort == DiarySort.Placements) _placements.Take(campaign, rows);
        else if (table.Sort == DiarySort.Checks) _checks.Take(table, campaign, rows);
        else if (table.Sort == DiarySort.Clocks) _clocks.Take(campaign, rows);
        else if (table.Sort == DiarySort.Comparisons) _comparisons.Take(campaign, rows);
        else if (table.Sort == DiarySort.Events) _readers.TakeEvents(campaign, rows);
        else if (table.Sort == DiarySort.Surveys) _readers.TakeSurveys(table, campaign, rows);
        else _readers.TakeWeather(table, campaign, rows, report.Name, sha);
    }

    private static void Sift(DiaryRow row, ImportMapping rules)
    {
        var cells = row.Reader.Row;
        if (cells.Fault is { } fault) row.Became(new RowProblem(RowSort.Refused, fault, null, cells.At(0).Shown));
        else if (row.Reader.Header.IsRepeatedBy(cells)) row.Became(RowSort.PassedOver, "the header again");
        else if (cells.Cells.Count(c => !c.IsBlank) == 1 && row.Reader.Header.Row.Cells.Count(c => !c.IsBlank) > 2)
            row.Became(RowSort.PassedOver, "a title or a footnote");
        else if (SheetQuestions.OfRow(cells, rules, row.Reader.Sheet) is var (leftOut, open))
        {
            if (leftOut is not null) row.Became(RowSort.PassedOver, leftOut);
            else row.Became(open!);
        }
        else if (cells.Cells.Skip(row.Reader.Header.Row.Cells.Length).FirstOrDefault(c => !c.IsBlank) is { IsBlank: false } beyond)
            row.Became(new RowProblem(
                RowSort.Refused,
                $"The row has more cells than the header ('{beyond.Shown}'); is a decimal comma taken for a separator?", null,
                    beyond.Shown));
    }

    // A workbook has several tables, and a change of another one makes no new table of this.
    private static string ShaOf(DiaryTable table) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(string.Join(
        '\n', table.Rows.Prepend(table.Header.Row).Select(r => string.Join('\t', r.Cells.Select(c => c.Shown)))))));
}
