using MicRegister.Documents.Sheets;
using MicRegister.Register.Calibration;
using MicRegister.Register.Devices;
using MicRegister.Register.Facts;

namespace MicRegister.Documents.Import;

/// <summary>Takes rows that speak of devices, their calibrations and inspections. A row is taken whole or not at all.</summary>
internal sealed class DeviceRows(ImportSession session)
{
    internal const string Nothing = "nothing";

    private static readonly string[] StatusWords = ["in service", "away", "out of service", "lost", "retired"];

    /// <summary>Takes a row with all devices that it speaks of, or none of them.</summary>
    public RowOutcome TakeAll(RowReader row, string sheet)
    {
        var parts = row.Header.Devices.Where(p => HasDevice(row.Of(p))).Select(p => Prepare(row.Of(p), sheet)).ToList();
        // A row may hold the second device only; without any, the first says what is missing.
        if (parts.Count == 0 || HasDevice(row)) parts.Insert(0, Prepare(row, sheet));
        if (parts.Count == 1) return parts[0].Take();
        var outcomes = parts.Select(p => p.Take()).ToList();
        foreach (var (device, others) in Beside(parts))
        {
            if (session.State(new DeviceNoted(others), Occurred.Unknown, 4, device.Id)) outcomes.Add(new(sheet, row.Row.Number, RowSort.New,
                others));
        }
        var sort = outcomes.Exists(o => o.Sort == RowSort.Changed) ? RowSort.Changed : outcomes.Exists(o => o.Sort == RowSort.New)
            ? RowSort.New
            : outcomes.Exists(o => o.Sort == RowSort.NewerStands) ? RowSort.NewerStands : RowSort.AlreadyThere;
        return new(sheet, row.Row.Number, sort,
            string.Join("; ", outcomes.Select(o => o.Text).Distinct()))
        {
            NewerStands = outcomes.Exists(o => o.NewerStands),
            Changes = [.. outcomes.SelectMany(o => o.Changes)],
            About = outcomes[0].About,
            Beside = [.. outcomes.SelectMany(o => o.Beside)],
            Name = outcomes.Exists(o => o.Name is not null) ? string.Join(" and ", outcomes.Select(o => o.Name).OfType<string>()) : null
        };
    }

    private static bool HasDevice(RowReader row) => row.Text(Column.Serial) is not null
        || row.Text(Column.Fields[DeviceField.InventoryCode]) is not null;

    // What a list keeps in one row stands together; each device says with what.
    private static IEnumerable<(PlannedDevice Device, string Text)> Beside(IReadOnlyList<Prepared> all) =>
        all.Select(p => (p.Device, "Listed together with " + string.Join(", ", all.Where(o => o != p).Select(o => o.Device.Name)) + "."));

    private sealed record Prepared(PlannedDevice Device, Func<RowOutcome> Take);

    private Prepared Prepare(RowReader row, string sheet)
    {
        var isChecked = row.IsChecked;
        var (device, isNew) = Find(row, isChecked);
        var kind = DeviceKind.Find(device.Kind)!;
        var details = DeviceDetails.Details(row, kind, device);
        var place = row.Text(Column.Place);
        // What a cell cannot hold, such as a blank at its end, is no change.
        if (place is not null && device.Place is { } at && CellText.Same(place, at)) place = at;
        foreach (var (key, value) in details.ToList())
        {
            if (device.Details.TryGetValue(key, out var held) && value.Text is { } said && held.Text is { } stands
                && CellText.Same(said, stands)) details[key] = held;
        }
        var status = row.Word(Column.Status, Words.Status, StatusWords);
        var notes = DeviceDetails.Notes(row);
        if (!isChecked && !isNew) DeviceDetails.AskAboutContradictions(row, device, details, place, status, session.Torn);
        var changes = isNew ? [] : DeviceDetails.Changes(device, row, details);
        var newer = isNew ? [] : session.Standing.KeepNewer(row, device, changes, ref place, ref status);
        var certificates = Certificates(row, kind, device, details, isChecked);
        var inspection = InspectionRow.Of(row);

        // Nothing from here on refuses, so that a row is never half taken.
        return new(device, () => Take(row, sheet, new(device, isNew, details, changes, newer, place, status, notes, certificates,
            inspection)));
    }

    private sealed record Read(
        PlannedDevice Device, bool IsNew, SortedDictionary<string, FieldValue> Details, SortedDictionary<string, FieldValue> Changes,
        IReadOnlyList<string> Newer, string? Place, DeviceStatus? Status, IReadOnlyList<string> Notes,
        List<(DateOnly Day, CertificateIssued Issued, FactId? Replaces)> Certificates, (DateOnly Day, DeviceInspected Body)? Inspection);

    private RowOutcome Take(RowReader row, string sheet, Read read)
    {
        var (device, isNew, details, changes, newer, place, status, notes, certificates, inspection) = read;
        session.Journal(device, isNew);
        var said = new List<string>();
        var changed = new List<FieldChange>();
        var isChange = false;
        var changedOn = device.IsNew ? null : session.AsOf?.Day;
        var holds = (Action?)null;
        if (isNew)
        {
            foreach (var (key, value) in details) device.Details[key] = value;
            session.Lookup.Add(device);
            session.Standing.Said(device, details.Keys);
            session.State(new DeviceRegistered(device.Kind, device.Maker, device.Model, device.Serial,
                new(device.Details, StringComparer.Ordinal)), Occurred.Unknown, 0, device.Id);
            said.Add("device");
        }
        else if (changes.Count > 0)
        {
            said.AddRange(changes.Select(c => $"{c.Key} {DeviceDetails.Before(device, c.Key)} → {c.Value}"));
            changed.AddRange(changes.Select(c => new FieldChange(
                DeviceField.Find(c.Key)?.Label ?? c.Key, DeviceDetails.Before(device, c.Key), c.Value.ToString())));
            foreach (var (key, value) in changes) DeviceDetails.Set(device, key, value);
            session.Standing.Said(device, changes.Keys);
            isChange = session.State(new DeviceDescribed(new(changes, StringComparer.Ordinal), []), null, 1, device.Id, changedOn);
        }
        if (place is not null && place != device.Place)
        {
            said.Add(device.Place is null ? "place" : $"place {device.Place} → {place}");
            isChange |= device.Place is not null;
            if (!device.IsNew) changed.Add(new(Column.Place.Meaning, device.Place ?? Nothing, place));
            session.State(new DeviceMoved(place), device.IsNew && device.Place is null ? Occurred.Unknown : null, 2, device.Id, changedOn);
            device.Place = place;
            session.Standing.Said(device, [DeviceStatements.Place]);
        }
        if (status is { } s && s != device.Status)
        {
            said.Add(device.IsNew ? "state of use" : $"state of use {device.Status} → {s}");
            isChange |= !device.IsNew;
            if (!device.IsNew) changed.Add(new(Column.Status.Meaning, device.Status.InWords, s.InWords));
            session.State(new DeviceStatusChanged(s, null), device.IsNew ? Occurred.Unknown : null, 3, device.Id, changedOn);
            device.Status = s;
            session.Standing.Said(device, [DeviceStatements.Status]);
        }
        else if (status is not null && !session.Standing.IsStated(device, DeviceStatements.Status))
        {
            // Nothing said so far that it is in service. A list that was taken over before adds nothing: its rows bring nothing else.
            if (device.IsNew) session.State(new DeviceStatusChanged(device.Status, null), Occurred.Unknown, 3, device.Id);
            else if (changedOn is not null)
                holds = () => session.State(new DeviceStatusChanged(device.Status, null), null, 3, device.Id, changedOn);
            session.Standing.Said(device, [DeviceStatements.Status]);
        }
        foreach (var key in details.Keys) Said(key);
        if (place is not null) Said(DeviceStatements.Place);
        if (status is not null) Said(DeviceStatements.Status);
        foreach (var note in notes)
        {
            if (session.State(new DeviceNoted(note), Occurred.Unknown, 4, device.Id)) said.Add("note");
        }
        if (inspection is { } seen && !InspectionRow.IsHeld(device, seen) && session.State(seen.Body, Occurred.On(seen.Day), 5, device.Id))
        {
            device.Inspections.Add(seen);
            said.Add($"inspection of {seen.Day:yyyy-MM-dd}");
        }
        foreach (var (day, issued, replaces) in certificates)
        {
            var before = replaces is null ? null : device.Certificates.Find(c => c.Fact == replaces)?.Issued;
            isChange |= replaces is not null;
            if (session.StateCertificate(device, day, issued, replaces)) said.Add($"result of {day:yyyy-MM-dd}");
            if (before is null) continue;
            changed.Add(new(FormattableString.Invariant($"Result of {day:yyyy-MM-dd}"), InForce(before), InForce(issued)));
        }
        if (said.Count > 0) holds?.Invoke();
        var sort = said.Count > 0 ? (isChange ? RowSort.Changed : RowSort.New)
            : newer.Count > 0 ? RowSort.NewerStands
            : RowSort.AlreadyThere;
        said.AddRange(newer);
        // A replaced result is told twice, as what was said and as a change.
        var beside = changed.Count == 0 ? [] : said.Where(t => !t.Contains('→', StringComparison.Ordinal)
            && !changed.Exists(c => string.Equals(c.Field, t, StringComparison.OrdinalIgnoreCase))).ToList();
        var text = said.Count == 0 ? device.Name : $"{device.Name}: {string.Join(", ", said)}";
        return new(sheet, row.Row.Number, sort, text)
        {
            NewerStands = newer.Count > 0,
            Changes = changed.Count > 0 ? changed : [],
            Beside = beside,
            Name = changed.Count > 0 ? device.Name : null,
            About = DeviceKind.Find(device.Kind)?.Label,
        };

        void Said(string key)
        {
            if (!device.Said.Contains(key)) device.Said.Add(key);
            session.Torn.Says(device.Id, key, row);
        }
    }

    private static string InForce(CertificateIssued issued) =>
        issued.Results.Count > 0 ? FormattableString.Invariant($"{issued.Results[^1].Value} {issued.Results[^1].Unit}").TrimEnd() : Nothing;

    private (PlannedDevice Device, bool IsNew) Find(RowReader row, bool isChecked)
    {
        var kind = row.Text(Column.Kind) is { } words
            ? Words.Kind(words) ?? Words.ShortKind(words) ?? throw row.Unknown(Column.Kind, words, DeviceKind.All.Select(k => k.Label))
            : row.KindAround;
        if (kind is not null && row.IsOfAllRows(Column.Kind) && !session.Evidence.Allows(kind))
            throw KindEvidence.Refused(kind, row);
        string? maker = row.Text(Column.Maker), model = row.Text(Column.Model), serial = row.Text(Column.Serial),
            code = row.Text(Column.Fields[DeviceField.InventoryCode]);
        var id = row.Id(Column.DeviceId);
        if (id is not null && session.Lookup.OfId(id) is { } stated) return (OfId(row, stated, kind, maker, model, serial), false);
        // What a register told apart is no slip of a list.
        if (id is null) serial = SerialText.Of(row, serial, isChecked);
        if (serial is null && code is null && id is null)
            throw new RowProblem(
                RowSort.Refused, "A device needs a serial number or an inventory code.", row.HeaderOf(Column.Serial), "");
        if (session.Lookup.Find(kind, maker, model, serial, code, id is null ? null : session.NamedIds) is { } known)
        {
            if (serial is not null && !isChecked && known.Serial is not null) SerialText.AskAboutCapitals(row, serial, known);
            return (known, false);
        }
        if (kind is null && row.Heading is { } heading) throw row.Unknown(Column.Kind, heading, DeviceKind.All.Select(k => k.Label));
        kind ??= session.Lookup.KindOf(model) ?? (session.IsOfSensitivities || SaysSensitivity(row) ? DeviceKind.Microphone : null);
        if (kind is null)
        {
            throw new RowProblem(RowSort.Refused,
                $"No device with {(serial is null ? "inventory code" : "serial number")} '{serial ?? code}' is known, and no kind is given to register it.", row.HeaderOf(Column.Kind), serial ?? code)
            {
                Question = session.Evidence.QuestionOfKind(row.Sheet),
            };
        }
        if (id is not null) return (new(id, kind.Key) { Maker = maker, Model = model, Serial = serial, IsNew = true }, true);
        if (serial is not null && !isChecked && session.Lookup.LooksLike(kind, model, serial) is { } alike)
            throw row.Questioned(Column.Serial,
                $"it looks like {alike.Serial} of {alike.Name}; is it another device? If so, write yes under 'checked'");
        if (serial is not null && !isChecked && session.Lookup.SameSerial(kind, maker, model, serial) is { } twin)
            throw row.Questioned(Column.Serial,
                $"{twin.Name} has that serial as {twin.Maker} {twin.Model}, written another way; is this another device? If so, write yes under 'checked'");
        var own = DeviceIdentity.IdOf(kind.Key, maker, model, serial ?? "code " + code);
        return (new(own, kind.Key) { Maker = maker, Model = model, Serial = serial, IsNew = true }, true);
    }

    // An id tells the device whatever else is said; what contradicts it is another device, or has to be put right on its page.
    private static PlannedDevice OfId(RowReader row, PlannedDevice known, DeviceKind? kind, string? maker, string? model, string? serial)
    {
        var wrong = kind is not null && kind.Key != known.Kind ? Column.Kind
            : Differ(serial, known.Serial) ? Column.Serial
            : Differ(maker, known.Maker) ? Column.Maker
            : Differ(model, known.Model) ? Column.Model
            : null;
        return wrong is null ? known : throw row.Refused(wrong,
            $"the id is that of {known.Name}{(known.Model is { } m ? " " + m : "")}; leave the id out where another device is meant");
    }

    private static bool Differ(string? said, string? known) => !string.IsNullOrEmpty(said) && !string.IsNullOrEmpty(known)
        && DeviceIdentity.Normal(said) != DeviceIdentity.Normal(known);

    // Only microphones have results in volts for a pascal.
    private static bool SaysSensitivity(RowReader row) =>
        (row.Text(Column.Unit) is { } unit && MeasuredText.IsOfSensitivity(MeasuredText.Unit(unit)))
        || (row.Text(Column.Value) is { } text && MeasuredText.TryRead(text, out _, out var stated)
            && MeasuredText.IsOfSensitivity(stated));

    private List<(DateOnly Day, CertificateIssued Issued, FactId? Replaces)> Certificates(
        RowReader row, DeviceKind kind, PlannedDevice device, SortedDictionary<string, FieldValue> details, bool isChecked)
    {
        var taken = new List<(DateOnly, CertificateIssued, FactId?)>();
        if (row.Year() is { } year) OfYear(row, year, kind, device, details, isChecked, taken);
        else Dated(row, kind, device, details, isChecked, taken);
        if (row.Part is not null) return taken;
        foreach (var group in row.Header.Groups)
        {
            var own = row.Of(group);
            if (group.Year is null || own.Text(Column.Day) is not null) Dated(own, kind, device, details, isChecked, taken);
            else OfYear(own, group.Year.Value, kind, device, details, isChecked, taken);
        }
        return taken;
    }

    private void Dated(
        RowReader row, DeviceKind kind, PlannedDevice device, SortedDictionary<string, FieldValue> details, bool isChecked,
        List<(DateOnly, CertificateIssued, FactId?)> taken)
    {
        if (CalibrationCells.Of(row, kind, isChecked) is not var (day, issued, results)) return;
        session.Torn.Says(device.Id, RivalResults.KeyOf(day, issued, isYear: false), row);
        if (HeldResults.Holds(device, day, issued)) return;
        if (!isChecked)
        {
            if (issued.DueDay < day)
                throw row.Questioned(Column.Due,
                    $"it lies before the day of calibration, {day:yyyy-MM-dd}; if it is right, write yes under 'checked'");
            if (day > session.Today) throw row.Questioned(Column.Day, "it lies in the future; if it is right, write yes under 'checked'");
            foreach (var result in results) CalibrationQuestions.Ask(row, result.Column, device, details, issued.Quantity, result,
                session.Siblings);
        }
        var isYear = issued.Remark == CalibrationCells.YearOnly;
        RivalResults.Against(device, day, issued, results.Count > 0 ? results[^1] : null, isYear, isChecked, row, results.Count > 0
            ? results[^1].Column : Column.Value, taken, session.Torn);
    }

    private void OfYear(
        RowReader row, DateOnly year, DeviceKind kind, PlannedDevice device, SortedDictionary<string, FieldValue> details, bool isChecked,
        List<(DateOnly, CertificateIssued, FactId?)> taken)
    {
        if (row.PlaceOf(Column.Value) is not { } place || row.Text(Column.Value) is not { } text) return;
        var header = row.Header.Row.At(place).Shown;
        var unit = row.UnitAbove(Column.Value) ?? (row.Header.Places.TryGetValue(Column.Value, out var first)
            ? row.Header.Units.GetValueOrDefault(first) : null);
        var (statement, result) = CalibrationCells.OfYear(row, kind, text, unit, header);
        if (!isChecked) CalibrationQuestions.Ask(row, Column.Value, device, details, statement.Quantity, result, session.Siblings, header,
            text);
        session.Torn.Says(device.Id, RivalResults.KeyOf(year, statement, isYear: true), row);
        RivalResults.Against(device, year, statement, result, isYear: true, isChecked, row, Column.Value, taken, session.Torn);
    }
}
