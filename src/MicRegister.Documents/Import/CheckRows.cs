using MicRegister.Register.Calibration;
using MicRegister.Register.Campaigns;
using MicRegister.Register.Checks;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;
using Own = MicRegister.Documents.Import.DiaryColumns;

namespace MicRegister.Documents.Import;

/// <summary>Takes rows of checks with a calibrator. What was not read stays unread.</summary>
internal sealed class CheckRows(ImportSession session)
{
    private const int Rank = 22;

    private static readonly Dictionary<string, CheckMoment> Moments = new (CheckMoment Moment, string[] Words)[]
    {
        (CheckMoment.Before, ["before", "pre", "start", "vorher", "vor", "davor", "avant", "antes", "prima", "voor", "vooraf"]),
        (CheckMoment.After, ["after", "post", "end", "nachher", "nach", "danach", "apres", "despues", "dopo", "na", "achteraf"]),
        (CheckMoment.Other, ["other", "between", "bench", "andere", "zwischen", "sonst", "autre", "otro", "altro", "anders"]),
    }.SelectMany(m => m.Words.Select(w => (w, m.Moment))).ToDictionary(m => m.w, m => m.Moment, StringComparer.Ordinal);

    private readonly DiaryDevices _devices = new(session);

    public void Take(DiaryTable table, CampaignState campaign, List<DiaryRow> rows)
    {
        var register = session.Ahead;
        var chains = new CheckedChains(register, campaign);
        var known = CheckBook.OfCampaign(register, campaign.Id).ToLookup(c => c.Check.Station ?? "", StringComparer.Ordinal);
        AskAboutOrder(table, campaign, rows);
        foreach (var row in rows.Where(r => r.IsOpen))
        {
            row.Try(() =>
            {
                // All of a row is decided before any of it is stated.
                var checks = Parts(table, row).Select(p => Decide(p, row, campaign, register, chains, known)).ToList();
                if (checks.Count == 0) throw row.MissingOf(Own.Reading);
                var isNew = false;
                foreach (var (facts, _) in checks) isNew |= session.StateAll(facts);
                row.Became(isNew ? RowSort.New : RowSort.AlreadyThere, string.Join("; ", checks.Select(c => c.Text)));
            });
        }
    }

    // A reading after what was recorded that lies before the one before it: the two are swapped, or a time is a slip.
    private static void AskAboutOrder(DiaryTable table, CampaignState campaign, List<DiaryRow> rows)
    {
        var read = new List<(DiaryRow Row, string Where, CheckMoment Moment, DateOnly Day, Occurred At)>();
        foreach (var row in rows.Where(r => !r.Reader.IsChecked))
        {
            try
            {
                var where = row.Reader.Text(Column.Station) ?? row.Reader.Text(Column.Serial) ?? "";
                foreach (var part in Parts(table, row).Where(p => p.Time is { Clock: not null, Day: not null }))
                    read.Add((row, where, part.Moment, part.Time.Day!.Value, part.Time.At(row.Reader, campaign.Plan?.Offsets ?? [])));
            }
            catch (RowProblem)
            {
                continue; // said when the row is taken
            }
        }
        foreach (var day in read.GroupBy(r => (r.Where, r.Day)))
        {
            var inOrder = day.OrderBy(r => r.At.UnixMilliseconds).ToList();
            var (first, last) = (inOrder[0], inOrder[^1]);
            if (first.Moment == CheckMoment.After && last.Moment == CheckMoment.Before
                && first.At.UnixMilliseconds < last.At.UnixMilliseconds)
            {
                foreach (var row in new[] { first.Row, last.Row }.Distinct()) Ask(row, first.At, last.At);
            }
        }
        foreach (var row in read.GroupBy(r => r.Row).Where(r => r.Key.IsOpen))
        {
            if (row.ToList() is [{ Moment: CheckMoment.Before } before, { Moment: CheckMoment.After } after]
                && after.At.UnixMilliseconds < before.At.UnixMilliseconds) Ask(row.Key, after.At, before.At);
        }

        static void Ask(DiaryRow row, Occurred after, Occurred before) => row.Became(new RowProblem(
            RowSort.Questioned, $"the check after, {after}, lies before the check before, {before}; if it is right, write yes under 'checked'"));
    }

    private static IEnumerable<Part> Parts(DiaryTable table, DiaryRow row)
    {
        var reader = row.Reader;
        foreach (var (column, moment, time) in new[]
        {
            (Own.Before, CheckMoment.Before, Own.TimeBefore), (Own.After, CheckMoment.After, Own.TimeAfter),
        })
        {
            if (reader.Text(column) is null) continue;
            var when = reader.Text(time) is null ? DiaryTimes.Of(reader, Own.Time, Own.Clock) : DiaryTimes.Of(reader, time);
            yield return new(moment, when ?? throw row.MissingOf(time), CheckReading.Of(table, row, column, [reader.PlaceOf(column)]));
        }
        var places = table.Readings.Where(i => !RowReader.IsAbsent(reader.Row.At(i).Shown)).Select(i => (int?)i).ToList();
        if (places.Count == 0 && reader.Text(Own.Deviation) is null) yield break;
        if (reader.Header.Has(Own.Before) && places.Count == 0 && reader.Text(Own.Before) is not null) yield break;
        var stated = reader.Word(Own.Moment, MomentOf, ["before", "after", "other"]) ?? throw MomentMissing(row);
        var at = DiaryTimes.Of(reader, Own.Time, Own.Clock) ?? throw row.MissingOf(Own.Time);
        yield return new(stated, at, places.Count == 0 ? null : CheckReading.Of(table, row, Own.Reading, places));
    }

    private (IReadOnlyList<Fact> Facts, string Text) Decide(
        Part part, DiaryRow row, CampaignState campaign, Register.Register register, CheckedChains chains,
        ILookup<string, CheckRecord> known)
    {
        var (reader, offsets) = (row.Reader, campaign.Plan?.Offsets ?? []);
        var at = part.Time.Clock is null && part.Time.Day is { } day ? Occurred.On(day) : part.Time.At(reader, offsets);
        var serial = _devices.One(row, Column.Serial, null) ?? _devices.One(row, Column.Parts[0].Column, DeviceKind.Microphone);
        var (station, devices) = chains.At(row, serial, at);
        var calibrator = _devices.One(row, Own.Calibrator, DeviceKind.Calibrator) ?? throw row.MissingOf(Own.Calibrator);
        var saying = ImportSession.Saying(at, Rank);
        if (part.Reading is not { } reading)
        {
            var deviation = reader.Number(Own.Deviation, "dB", -60, 60) ?? throw row.MissingOf(Own.Reading);
            var brief = CheckDecisions.RecordBriefly(register, saying, campaign.Id, devices, new(station, calibrator, deviation));
            return (DiaryRow.Decided(brief),
                $"check {part.Moment.InWords} of {station}: its deviation alone, which no result can rest on");
        }
        var air = new StatedAir(
            reader.Number(Column.Pressure, "kPa", 30, 120), reader.Number(Column.Temperature, "°C", -50, 70),
            reader.Number(Column.Humidity, "%", 0, 100));
        var entry = new CheckEntry
        {
            Campaign = campaign.Id,
            Station = station,
            At = at.ToString(),
            Moment = part.Moment,
            Devices = devices,
            Calibrator = calibrator,
            Adapter = _devices.One(row, Own.CheckAdapter, DeviceKind.Adapter),
            Barometer = _devices.One(row, Own.Barometer, DeviceKind.Barometer),
            Meter = _devices.One(row, Own.Meter, null),
            NominalDb = reader.Number(Own.NominalDb, "dB", 40, 160),
            FrequencyHz = reader.Number(Column.CalibrationHz, "Hz", 0.1, 1e6),
            Air = air == new StatedAir(null, null, null) ? null : air,
            EstimatePressure = air.PressureKPa is null && IsEstimated(row, register.Device(calibrator)!) ? true : null,
            Method = reading.Method,
            Readings = reading.Values,
            Resolution = CheckReading.Resolution(row, reading.Method),
            RangeV = reader.Number(Own.Range, "V", 0.001, 1000),
            Remark = row.Remark(),
        };
        var values = string.Join(", ", reading.Values.Select(v => FormattableString.Invariant($"{v:0.######}")));
        var text = $"check {part.Moment.InWords} of {station}: {values} {CheckWork.Unit(reading.Method)}";
        // A check that was worked out again since, from other certificates, holds the same readings.
        var isThere = known[station].Any(c => c.Occurred == at && c.Check.Moment == part.Moment && c.Check.Method == reading.Method
            && c.Check.Readings.SequenceEqual(reading.Values) && register.EntriesOf(calibrator).Contains(c.Check.Calibrator));
        if (isThere) return ([], text);
        return (DiaryRow.Decided(CheckDecisions.Record(register, saying, [entry], session.Today)), text);
    }

    // The level of some calibrators follows static pressure: without it nobody can tell what it was.
    private static bool IsEstimated(DiaryRow row, DeviceState calibrator)
    {
        if (calibrator.Text(DeviceField.PressureLaw) is not ("adiabatic" or "coefficient")) return false;
        if (row.Reader.Mapping.Of("missing-pressure") == "estimate") return true;
        throw new RowProblem(
            RowSort.Questioned, $"static pressure is missing: the level of {calibrator.Name} follows it", Column.Pressure.Meaning, "")
        {
            Question = new(
                "missing-pressure", row.Reader.Sheet,
                $"Static pressure was not read at checks with {calibrator.Name}, whose level follows it. Estimate it?",
                [new("Yes, from the campaign's altitude; each check says so", "missing-pressure := estimate")]),
        };
    }

    private static RowProblem MomentMissing(DiaryRow row) => new(
        RowSort.Questioned, "whether it was made before or after is missing", Own.Moment.Meaning, "")
    {
        Question = new(
            "moment", row.Reader.Sheet, "Were these checks made before or after what was recorded?",
            [new("Before", "moment := before"), new("After", "moment := after"), new("Neither, or both", "moment := other")]),
    };

    private static CheckMoment? MomentOf(string text) =>
        Moments.TryGetValue(Column.Plain(Sheets.FoldedText.Of(text)), out var moment) ? moment : null;

    private sealed record Part(CheckMoment Moment, DiaryTime Time, CheckReading? Reading);
}
