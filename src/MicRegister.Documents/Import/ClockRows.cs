using MicRegister.Register.Campaigns;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using Own = MicRegister.Documents.Import.DiaryColumns;

namespace MicRegister.Documents.Import;

/// <summary>Takes rows that say what recorders' clocks were set to, and what they showed beside a better clock.</summary>
internal sealed class ClockRows(ImportSession session)
{
    private const int Rank = 23;

    private static readonly Dictionary<string, TimeScale> Scales = new(StringComparer.Ordinal)
    {
        ["utc"] = TimeScale.Utc,
        ["gmt"] = TimeScale.Utc,
        ["z"] = TimeScale.Utc,
        ["gps"] = TimeScale.Gps,
        ["gps time"] = TimeScale.Gps,
        ["gps zeit"] = TimeScale.Gps,
        ["local"] = TimeScale.Local,
        ["local time"] = TimeScale.Local,
        ["site"] = TimeScale.Local,
        ["site time"] = TimeScale.Local,
        ["ortszeit"] = TimeScale.Local,
        ["lokal"] = TimeScale.Local,
        ["heure locale"] = TimeScale.Local,
        ["hora local"] = TimeScale.Local,
        ["ora locale"] = TimeScale.Local,
        ["lokale tijd"] = TimeScale.Local,
    };

    public void Take(CampaignState campaign, List<DiaryRow> rows)
    {
        foreach (var row in rows)
        {
            row.Try(() =>
            {
                var (recorder, said, sort) = (row.Must(Own.Recorder), new List<string>(), RowSort.AlreadyThere);
                var scale = row.Reader.Word(Own.Scale, ScaleOf, ["utc", "gps", "local"]);
                // Both are read before either is stated, so that a row is never half taken.
                var set = scale is { } s ? Set(row, campaign, recorder, s) : null;
                var check = CheckOf(row, campaign, recorder);
                if (set is null && check is null) throw row.MissingOf(Own.Shown);
                if (set is { } setting)
                {
                    said.Add($"set to {scale!.Value.InWords}");
                    if (session.StateAll(setting.Facts)) sort = setting.IsChange ? RowSort.Changed : RowSort.New;
                }
                if (check is not null)
                {
                    said.Add("compared");
                    if (session.StateAll(check) && sort == RowSort.AlreadyThere) sort = RowSort.New;
                }
                row.Became(sort, $"clock of {recorder}: {string.Join(", ", said)}");
            });
        }
    }

    private (IReadOnlyList<Fact> Facts, bool IsChange)? Set(DiaryRow row, CampaignState campaign, string recorder, TimeScale scale)
    {
        var (zone, offsets) = ((string?)null, (IReadOnlyList<ZoneOffset>)[]);
        if (scale == TimeScale.Local)
        {
            zone = row.Reader.Text(Column.Zone) ?? campaign.Plan?.Zone ?? throw row.MissingOf(Column.Zone);
            offsets = zone == campaign.Plan?.Zone ? campaign.Plan.Offsets
                : campaign.Plan is { } plan && ZoneData.Offsets(zone, plan.FirstDay, plan.LastDay) is { } known ? known
                : throw row.Reader.Refused(Column.Zone, "this machine does not know the zone; write an IANA name such as Europe/Lisbon");
        }
        var set = new RecorderClockSet(recorder, scale, zone, offsets);
        var before = EventBook.SetOf(session.Ahead, campaign.Id, recorder);
        if (before is not null && before.Scale == scale && before.Zone == zone && before.Offsets.SequenceEqual(offsets)) return ([], false);
        var time = DiaryTimes.Of(row.Reader, Own.Time, Own.Clock);
        var when = time is null ? Occurred.Unknown
            : time.Clock is null ? Occurred.On(time.Day!.Value)
            : time.At(row.Reader, campaign.Plan?.Offsets ?? []);
        // Without a time of its own, one that says otherwise than the register counts from today on.
        var isChange = before is not null && time is null;
        return (DiaryRow.Decided(EventDecisions.SetClock(
            session.Ahead, isChange ? session.SayingOfChange() : ImportSession.Saying(when, Rank), campaign.Id, set)), isChange);
    }

    private IReadOnlyList<Fact>? CheckOf(DiaryRow row, CampaignState campaign, string recorder)
    {
        if (row.Reader.Text(Own.Shown) is null && row.Reader.Text(Own.True) is null) return null;
        var shown = row.Reader.Text(Own.Shown) is null ? throw row.MissingOf(Own.Shown) : DiaryTimes.Of(row.Reader, Own.Shown)!;
        var actual = row.Reader.Text(Own.True) is null ? throw row.MissingOf(Own.True) : DiaryTimes.Of(row.Reader, Own.True)!;
        if (shown.Day is null || shown.Clock is null || TypedTime.Of(shown.Text) is not { EndsInZ: false } typed)
            throw row.Reader.Refused(Own.Shown, "what the clock showed is wanted, with its day and without a zone");
        var at = actual.At(row.Reader, campaign.Plan?.Offsets ?? []);
        return DiaryRow.Decided(EventDecisions.CheckTime(
            session.Ahead, ImportSession.Saying(at, Rank), campaign.Id,
            new(
                recorder, ShownTime.Text(typed.Ms), at.ToString(), row.Reader.Number(Own.TimeU, "s", 0, 3600),
                row.Reader.Text(Own.Against))));
    }

    private static TimeScale? ScaleOf(string text) =>
        Scales.TryGetValue(Column.Plain(Sheets.FoldedText.Of(text)), out var scale) ? scale : null;
}
