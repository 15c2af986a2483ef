using MicRegister.Register.Campaigns;
using MicRegister.Register.Facts;
using MicRegister.Register.InPlace;
using Own = MicRegister.Documents.Import.DiaryColumns;

namespace MicRegister.Documents.Import;

/// <summary>Takes rows of chains that were held against each other in place: those of one time and sound are one comparison.</summary>
internal sealed class ComparisonRows(ImportSession session)
{
    private const int Rank = 25;

    public void Take(CampaignState campaign, List<DiaryRow> rows)
    {
        var register = session.Ahead;
        var read = new List<(DiaryRow Row, Occurred At, string Sound, double? Hz, ComparedChain? Chain)>();
        foreach (var row in rows)
        {
            ComparedChain? chain = null;
            (Occurred At, string Sound, double? Hz)? of = null;
            row.Try(() =>
            {
                var time = DiaryTimes.Of(row.Reader, Own.Time, Own.Clock) ?? throw row.MissingOf(Own.Time);
                of = (time.At(row.Reader, campaign.Plan?.Offsets ?? []), row.Must(Own.Sound),
                    row.Reader.Number(Own.SoundHz, "Hz", 0.1, 1e6));
                chain = ComparisonFile.Chain(
                    row.Reader.Text(Column.Station), row.Reader.Text(Own.Level), row.Reader.Text(Own.Expected), out var wrong)
                    ?? throw new RowProblem(RowSort.Refused, wrong!, row.Reader.HeaderOf(Own.Level), row.Reader.Text(Own.Level));
                if (!campaign.Stations.ContainsKey(chain.Station))
                    throw row.Reader.Refused(Column.Station, $"{campaign.Name} has no such station");
            });
            if (of is var (at, sound, hz)) read.Add((row, at, sound, hz, chain));
        }
        foreach (var one in read.GroupBy(r => (r.At, r.Sound, r.Hz)).ToList())
        {
            var open = one.Select(r => r.Row).Where(r => r.IsOpen).ToList();
            if (one.Select(r => r.Row).FirstOrDefault(r => r.IsPutAside) is { } bad)
            {
                foreach (var row in open)
                {
                    row.Became(new RowProblem(RowSort.Questioned, FormattableString.Invariant(
                        $"row {bad.Number} is of the same comparison and cannot be taken; this one waits for it"), null, one.Key.Sound));
                }
                continue;
            }
            var first = open[0];
            var isNew = false;
            var isGood = first.Try(() => isNew = session.StateAll(DiaryRow.Decided(ComparisonBook.Compare(
                register, ImportSession.Saying(Occurred.On(session.Today), Rank), campaign.Id, one.Key.At.ToString(),
                new(
                    one.Key.Sound, one.Key.Hz, [.. one.Select(r => r.Chain!)], first.Reader.Number(Own.LevelU, "dB", 0, 60),
                    first.Remark())))));
            foreach (var row in open.Where(r => r.IsOpen))
            {
                if (isGood) row.Became(isNew ? RowSort.New : RowSort.AlreadyThere, $"comparison of {one.Key.At}");
                else row.Became(new RowProblem(RowSort.Refused, first.Outcome!.Text, null, one.Key.Sound));
            }
        }
    }
}
