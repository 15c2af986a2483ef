using MicRegister.Documents.Import;
using MicRegister.Register;

namespace MicRegister.Documents.Exports;

/// <summary>
/// Takes tables into a register without facts before they leave: what would be asked there is marked as looked at, and what would be
/// refused is left out and named.
/// </summary>
internal static class ImportTrial
{
    // A row that waits for another one is seen when that one is good.
    private const int Rounds = 4;

    /// <summary>Tries tables, as one import in their order.</summary>
    public static void Of(IReadOnlyList<TableDraft> drafts, DateOnly today, LeftBehind left, CancellationToken cancel)
    {
        for (var round = 0; round < Rounds && !IsGood(drafts, today, left, cancel); round++)
        {
            // Once more with what was marked or left out.
        }
    }

    private static bool IsGood(IReadOnlyList<TableDraft> drafts, DateOnly today, LeftBehind left, CancellationToken cancel)
    {
        var session = new ImportSession(Register.Register.Empty(new FactList()), today);
        var isGood = true;
        foreach (var draft in drafts.Where(d => d.Rows.Count > 0))
        {
            using var content = new MemoryStream();
            CsvExport.Write(draft.ToTable([], []), content);
            content.Position = 0;
            var outcomes = session.Take(content, draft.Name + ".csv", ImportMapping.None, cancel: cancel).Outcomes;
            if (outcomes.Count != draft.Rows.Count)
                throw new InvalidOperationException($"{draft.Name}: {draft.Rows.Count} rows were read as {outcomes.Count}.");
            var refused = new HashSet<DraftRow>();
            for (var i = 0; i < outcomes.Count; i++)
            {
                var row = draft.Rows[i];
                if (outcomes[i].Sort == RowSort.Questioned && row[Column.Checked].IsNothing) TableDraft.Check(row);
                else if (outcomes[i].Sort is RowSort.Questioned or RowSort.Refused or RowSort.PassedOver)
                {
                    refused.Add(row);
                    left.Add($"{row.About}: {outcomes[i].Text}");
                }
                else continue;
                isGood = false;
            }
            draft.Rows.RemoveAll(refused.Contains);
        }
        return isGood;
    }
}
