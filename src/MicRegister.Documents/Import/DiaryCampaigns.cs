using MicRegister.Register.Campaigns;

namespace MicRegister.Documents.Import;

/// <summary>
/// Which campaign rows speak of: as they or the legend say, or the only one whose days hold all times of the table; otherwise it is asked.
/// </summary>
internal sealed class DiaryCampaigns(ImportSession session)
{
    private const int MostChoices = 8;

    private static readonly Column[] Times =
    [
        DiaryColumns.Time, DiaryColumns.TakenIn, DiaryColumns.TimeBefore, DiaryColumns.TimeAfter, DiaryColumns.Start, DiaryColumns.True,
    ];

    /// <summary>Gives each row its campaign, or puts it aside.</summary>
    /// <returns>What people should know of it; null where nothing.</returns>
    public string? Settle(IReadOnlyList<DiaryRow> rows)
    {
        var register = session.Ahead;
        var silent = new List<DiaryRow>();
        foreach (var row in rows)
        {
            row.Try(() =>
            {
                if (row.Reader.Text(Column.Campaign) is not { } name) silent.Add(row);
                else
                {
                    row.Campaign = Find(register, name) ?? throw row.Reader.Refused(
                        Column.Campaign, "no campaign of that name is known; take a table of campaigns over first");
                }
            });
        }
        if (silent.Count == 0) return null;
        var known = register.CampaignIds.Select(id => register.Campaign(id)!).Where(c => c.Plan is not null).ToList();
        var days = silent.SelectMany(TimesOf).ToList();
        var fitting = known.Where(c => days.TrueForAll(t =>
            t.DayAt(c.Plan!.Offsets) is not { } day || (day >= c.Plan.FirstDay && day <= c.Plan.LastDay))).ToList();
        if (fitting is [var only])
        {
            foreach (var row in silent) row.Campaign = only.Id;
            return $"no campaign is named; taken for {only.Name}, the only one that is known"
                + (days.Count > 0 ? " whose days hold all its times." : ".");
        }
        foreach (var row in silent) row.Became(Ask(row, fitting, known));
        return null;
    }

    private static RowProblem Ask(DiaryRow row, List<CampaignState> fitting, List<CampaignState> known)
    {
        if (known.Count == 0)
        {
            return new(
                RowSort.Refused, "no campaign is known; take a table of campaigns over first, or with this one",
                Column.Campaign.Meaning, "");
        }
        var why = fitting.Count == 0 ? "its times lie within the days of none of those that are known" : $"{fitting.Count} fit";
        return new(RowSort.Refused, $"which campaign is it of? The table names none, and {why}", Column.Campaign.Meaning, "")
        {
            Question = new(
                "campaign", row.Reader.Sheet, $"Of which campaign is this table? It names none, and {why}.",
                [.. fitting.Concat(known.Except(fitting)).Take(MostChoices).Select(c => new ImportChoice(
                    FormattableString.Invariant($"{c.Name}, {c.Plan!.FirstDay:yyyy-MM-dd} to {c.Plan.LastDay:yyyy-MM-dd}"),
                    "campaign := " + c.Id))]),
        };
    }

    private static string? Find(Register.Register register, string name) =>
        register.Campaign(name) is { } known ? known.Id
        : register.Campaign(CampaignRows.IdOf(name)) is { } named ? named.Id
        : register.CampaignIds.Where(id => string.Equals(register.Campaign(id)!.Name, name, StringComparison.OrdinalIgnoreCase))
            .ToList() is [var only] ? only
        : null;

    // What cannot be read is said when its row is taken.
    private static List<DiaryTime> TimesOf(DiaryRow row)
    {
        var times = new List<DiaryTime>();
        foreach (var column in Times)
        {
            if (!row.Reader.Header.Has(column) && !(column == DiaryColumns.Time && row.Reader.Header.Has(DiaryColumns.Date))) continue;
            try
            {
                if (DiaryTimes.Of(row.Reader, column, column == DiaryColumns.Time ? DiaryColumns.Clock : null) is { } time) times.Add(time);
            }
            catch (RowProblem)
            {
                continue;
            }
        }
        return times;
    }
}
