using MicRegister.Register.Campaigns;
using MicRegister.Register.Deployment;
using MicRegister.Register.Events;
using MicRegister.Register.Facts;
using Own = MicRegister.Documents.Import.DiaryColumns;

namespace MicRegister.Documents.Import;

/// <summary>Takes events, surveys and weather by the readers that the API and the pages take them by.</summary>
internal sealed class ReaderRows(ImportSession session)
{
    private const int Rank = 24;

    private static readonly Dictionary<string, string> Kinds = new(StringComparer.Ordinal)
    {
        ["pass"] = "fly-over",
        ["fly by"] = "fly-over",
        ["uberflug"] = "fly-over",
        ["vorbeiflug"] = "fly-over",
        ["survol"] = "fly-over",
        ["sobrevuelo"] = "fly-over",
        ["sorvolo"] = "fly-over",
        ["overvlucht"] = "fly-over",
        ["standlauf"] = "run",
        ["prufstand"] = "run",
        ["schwebeflug"] = "hover",
        ["stationnaire"] = "hover",
        ["background"] = "ambient",
        ["hintergrund"] = "ambient",
        ["umgebung"] = "ambient",
        ["bruit de fond"] = "ambient",
        ["ruido de fondo"] = "ambient",
        ["rumore di fondo"] = "ambient",
        ["sonstiges"] = "other",
        ["andere"] = "other",
        ["autre"] = "other",
        ["otro"] = "other",
        ["altro"] = "other",
        ["overig"] = "other",
    };

    public void TakeEvents(CampaignState campaign, List<DiaryRow> rows)
    {
        var register = session.Ahead;
        var cells = new Cells(["event", "start", "stop", "kind", "source", "remark", "zone"]);
        foreach (var row in rows)
        {
            row.Try(() =>
            {
                var kind = row.Reader.Text(Own.EventKind) ?? "";
                cells[row.Number] =
                [
                    row.Reader.Text(Own.Event) ?? "", DiaryTimes.Of(row.Reader, Own.Start)?.Stated ?? "", StopOf(row),
                    Kinds.GetValueOrDefault(Column.Plain(Sheets.FoldedText.Of(kind)), kind), row.Reader.Text(Own.Flew) ?? "",
                    RemarkOf(row), row.Reader.Text(Own.TimesIn) ?? "",
                ];
            });
        }
        var table = EventTable.Read(cells.All, campaign.Plan?.Offsets ?? [], isUtc: false);
        foreach (var bad in table.Bad.GroupBy(b => b.Row)) Refuse(rows, bad.Key, [.. bad.Select(b => (b.Field, b.Value, b.Allowed))]);
        foreach (var good in table.Good)
        {
            var row = rows.Find(r => r.Number == good.Row)!;
            row.Try(() =>
            {
                var (e, id) = (good.Happened, EventDecisions.IdOf(campaign.Id, good.Happened.Name));
                var saying = ImportSession.Saying(Occurred.Unknown, Rank);
                var isThere = EventBook.Find(register, id) is { } known && ShownOf(known.StartMs) == e.StartUtc
                    && ShownOf(known.StopMs) == e.StopUtc;
                // What was put right since by a person stands.
                isThere = isThere || (Occurred.TryParse(e.StartUtc, out var start) && register.Knows(FactText.WriteDerived(
                    saying.Stamp with { Occurred = start }, e, [Subject.Event(id), Subject.Campaign(campaign.Id)]).Id)
                    && EventBook.Find(register, id) is not null);
                var isNew = !isThere && session.StateAll(DiaryRow.Decided(EventDecisions.Record(register, saying, campaign.Id, [e])));
                row.Became(isNew ? RowSort.New : RowSort.AlreadyThere, $"event {e.Name}, {e.StartUtc} to {e.StopUtc}");
            });
        }
    }

    public void TakeSurveys(DiaryTable table, CampaignState campaign, List<DiaryRow> rows)
    {
        (Column Column, string Name)[] columns =
        [
            (Column.Station, "station"), (Column.Latitude, "latitude"), (Column.Longitude, "longitude"), (Column.Altitude, "altitude"),
            (Column.Height, "height"), (Own.Horizontal, "horizontal"), (Own.Vertical, "vertical"), (Column.Method, "method"),
        ];
        foreach (var twice in rows.Where(r => r.IsOpen).GroupBy(r => r.Reader.Text(Column.Station))
            .Where(g => g.Key is not null && g.Count() > 1))
        {
            // Nobody knows which of them is right.
            foreach (var row in twice)
                row.Became(row.Reader.Questioned(Column.Station,
                    $"it stands in rows {string.Join(", ", twice.Select(r => r.Number))}; leave one"));
        }
        var cells = CellsOf(table, rows, columns, r => r.Remark());
        var read = SurveyTable.Read(cells.All, null);
        if (StoppedBy(table, rows, columns, read.Bad)) return;
        var told = read.Good.Select(s => s.Station).ToHashSet(StringComparer.Ordinal);
        var positions = rows.Count == 0 ? null : new StationPositions(
            [
                .. read.Good.Select(s => StationPositions.Spot.Of(s, campaign.Stations.GetValueOrDefault(s.Station))),
                .. campaign.Stations.Keys.Where(s => !told.Contains(s)).Select(s => StationPositions.Spot.Of(campaign.PlaceOf(s)!.AsBuilt)),
            ],
            told, rows[0].Reader.Mapping, table.Sheet);
        for (var i = 0; i < read.Good.Count; i++)
        {
            var (row, survey) = (rows.Find(r => r.Number == read.Rows[i])!, read.Good[i]);
            row.Try(() =>
            {
                var known = campaign.Surveys.GetValueOrDefault(survey.Station)?.Said;
                if (known is null || (known.LatitudeDeg, known.LongitudeDeg) != (survey.LatitudeDeg, survey.LongitudeDeg))
                {
                    var (latitude, longitude) = positions!.Settle(row.Reader, survey.Station, survey.LatitudeDeg, survey.LongitudeDeg);
                    survey = survey with { LatitudeDeg = latitude, LongitudeDeg = longitude };
                }
                var same = known == survey with { Method = survey.Method.Trim() };
                // A survey bears no day: one that says otherwise than the register counts from today on.
                var saying = known is null ? ImportSession.Saying(Occurred.Unknown, Rank) : session.SayingOfChange();
                var facts = DiaryRow.Decided(CampaignDecisions.Survey(session.Ahead, saying, campaign.Id, [survey]));
                var isNew = !same && session.StateAll(facts);
                row.Became(!isNew ? RowSort.AlreadyThere : known is null ? RowSort.New : RowSort.Changed, $"survey of {survey.Station}");
            });
        }
    }

    public void TakeWeather(DiaryTable table, CampaignState campaign, List<DiaryRow> rows, string file, string sha)
    {
        (Column Column, string Name)[] columns =
        [
            (Own.Wind, "wind"), (Own.Gust, "gust"), (Own.WindFrom, "from"), (Column.Temperature, "temperature"),
            (Column.Humidity, "humidity"), (Column.Pressure, "pressure"),
        ];
        var times = new Dictionary<int, string>();
        foreach (var row in rows)
            row.Try(() => times[row.Number] = DiaryTimes.Of(row.Reader, Own.Time, Own.Clock)?.Stated ?? throw row.MissingOf(Own.Time));
        var cells = CellsOf(table, rows, columns, null, r => times[r.Number]);
        var read = WeatherTable.Read(cells.All, isUtc: false, campaign.Plan?.Offsets ?? []);
        if (StoppedBy(table, rows, columns, read.Bad)) return;
        if (read.Good.Count > 0)
        {
            var logged = new WeatherLogged(file, sha, read.Good, rows[0].Reader.Mapping.Constants.GetValueOrDefault(Column.Note));
            var isThere = WeatherLog.Files(session.Ahead, campaign.Id).Contains(sha);
            var isGood = new DiaryRow(rows[0].Reader);
            var isNew = !isThere && isGood.Try(() => session.StateAll(DiaryRow.Decided(DeploymentDecisions.LogWeather(
                session.Ahead, ImportSession.Saying(Occurred.Unknown, Rank), campaign.Id, logged))));
            foreach (var (row, reading) in read.Rows.Zip(read.Good).Select(z => (rows.Find(r => r.Number == z.First)!, z.Second)))
            {
                if (isGood.Outcome is { } why) row.Became(why.Sort, why.Text);
                else row.Became(isNew ? RowSort.New : RowSort.AlreadyThere, $"weather of {reading.At}");
            }
        }
        foreach (var row in rows.Where(r => r.IsOpen)) row.Became(RowSort.PassedOver, "a gap: nothing was read");
    }

    // Beside an end, what was written as its duration is kept as it stands.
    private static string RemarkOf(DiaryRow row) => row.Reader.Text(Own.Duration) is { } duration && row.Reader.Text(Own.Stop) is not null
        ? string.Join("; ", new[] { row.Remark(), $"{row.Reader.HeaderOf(Own.Duration)}: {duration}" }.OfType<string>())
        : row.Remark() ?? "";

    private static string StopOf(DiaryRow row)
    {
        var stop = DiaryTimes.WithoutDate(row.Reader, Own.Stop)?.Stated;
        return stop ?? (row.Reader.Text(Own.Duration) is null ? "" : EndOf(row));
    }

    private static string EndOf(DiaryRow row)
    {
        var unit = FieldTable.Parts(row.Reader.HeaderOf(Own.Duration)).Unit;
        var scale = unit switch { "s" or "sec" or "sek" => 1, "min" => 60, "h" => 3600, _ => 0 };
        if (scale == 0) throw row.Reader.Refused(Own.Duration, "a unit of s, min or h behind its header is wanted");
        var start = DiaryTimes.Of(row.Reader, Own.Start) ?? throw row.MissingOf(Own.Start);
        if (start is not { Day: { } day, Clock: { } clock }
            || !TimeSpan.TryParse(clock.TrimEnd('Z'), System.Globalization.CultureInfo.InvariantCulture, out var at))
            throw row.Reader.Refused(Own.Duration, "a start with its day and time is wanted beside it");
        var seconds = scale * (row.Reader.Number(Own.Duration, "", 0, 86_400) ?? 0);
        var end = day.ToDateTime(TimeOnly.MinValue) + at + TimeSpan.FromSeconds(seconds);
        return FormattableString.Invariant($"{end:yyyy-MM-dd HH:mm:ss.fff}") + (start.Stated.EndsWith('Z') ? "Z" : "");
    }

    private static string ShownOf(long ms) => Occurred.At(DateTimeOffset.FromUnixTimeMilliseconds(ms)).ToString();

    private static Cells CellsOf(
        DiaryTable table, List<DiaryRow> rows, (Column Column, string Name)[] columns, Func<DiaryRow, string?>? remark,
        Func<DiaryRow, string>? time = null)
    {
        List<(Column Column, string Name)> there = [.. columns.Where(c => table.Header.Has(c.Column))];
        List<string> header = [.. there.Select(c => table.UnitOf(c.Column) is { Length: > 0 } unit ? $"{c.Name} [{unit}]" : c.Name)];
        if (time is not null) header.Add("time");
        if (remark is not null) header.Add("remark");
        // What the legend says for every row.
        foreach (var c in columns.Where(c => !table.Header.Has(c.Column) && rows[0].Reader.Mapping.Constants.ContainsKey(c.Column)))
        {
            there.Add(c);
            header.Insert(there.Count - 1, c.Name);
        }
        var cells = new Cells(header);
        foreach (var row in rows.Where(r => r.IsOpen))
        {
            row.Try(() =>
            {
                List<string> texts = [.. there.Select(c => row.Reader.Text(c.Column) ?? "")];
                if (time is not null) texts.Add(time(row));
                if (remark is not null) texts.Add(remark(row) ?? "");
                cells[row.Number] = texts;
            });
        }
        return cells;
    }

    // What is wrong with the header concerns all rows; of a unit it is asked which.
    private static bool StoppedBy(
        DiaryTable table, List<DiaryRow> rows, (Column Column, string Name)[] columns, IReadOnlyList<BadFieldRow> bad)
    {
        foreach (var row in bad.Where(b => b.Row > 1).GroupBy(b => b.Row))
            Refuse(rows, row.Key, [.. row.Select(b => (b.Field, b.Value, b.Allowed))]);
        if (bad.FirstOrDefault(b => b.Row == 1) is not { } wrong) return false;
        var name = wrong.Field.Split(" [")[0];
        var column = columns.FirstOrDefault(c => c.Name == name).Column;
        var header = column is null || !table.Header.Has(column) ? wrong.Field : table.Header.Row.At(table.Header.Places[column]).Shown;
        foreach (var row in rows.Where(r => r.IsOpen))
        {
            row.Became(new RowProblem(RowSort.Refused, $"{header} '{wrong.Value}': allowed is {wrong.Allowed}", header, wrong.Value)
            {
                Question = column is null ? null : new(
                    "column " + header.ToLowerInvariant(), table.Sheet, $"In which unit is '{header}'?",
                    [.. WeatherTable.UnitsOf(name).Select(u => new ImportChoice(u, LegendText.HeaderRule(header, $"{column.Key} [{u}]")))]),
            });
        }
        return true;
    }

    private static void Refuse(List<DiaryRow> rows, int number, IReadOnlyList<(string Field, string Value, string Allowed)> bad)
    {
        // A table without any row says so of a row that is not there.
        if (rows.Find(r => r.Number == number) is not { IsOpen: true } row) return;
        row.Became(new RowProblem(
            RowSort.Refused, string.Join("; ", bad.Select(b => $"{b.Field} '{b.Value}': allowed is {b.Allowed}")), bad[0].Field,
            bad[0].Value));
    }

    /// <summary>Cells by the row's number in its sheet, as readers count them.</summary>
    private sealed class Cells(IReadOnlyList<string> header)
    {
        private readonly List<IReadOnlyList<string>> _rows = [header];

        public IReadOnlyList<IReadOnlyList<string>> All => _rows;

        public IReadOnlyList<string> this[int number]
        {
            set
            {
                while (_rows.Count < number) _rows.Add([]);
                _rows[number - 1] = value;
            }
        }
    }
}
