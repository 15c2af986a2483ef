using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <content>Where a word means two things, what stands below it says which.</content>
internal sealed partial class HeaderSettling
{
    private const int LongestIntervalMonths = 120;

    private static readonly HashSet<Column> MayHoldKinds = [Column.Unit, Column.Quantity, Column.Status, Column.Place, Column.Field,
        Column.Fields[DeviceField.InventoryCode], Column.Fields[DeviceField.Owner], Column.Fields[DeviceField.Material]];

    // Headers of one word that stand for two things, or for one that only some lists mean.
    private bool SettleByKinds(int i, HeaderReading reading, ColumnProfile profile)
    {
        Column? column = null;
        switch (reading.Open)
        {
            case "?tag":
                column = profile.Mostly(profile.Days) ? Column.Day : Column.Fields[DeviceField.InventoryCode];
                break;
            case "?factor" when MeasuredText.IsOfSensitivity(reading.Unit) || profile.NearlyAll(profile.Sensitivities):
                column = Column.Value;
                break;
            case "?factor" when profile is { Least: >= 1, Greatest: <= 4 } && profile.NearlyAll(profile.Numbers):
                column = Column.Factor;
                break;
            // The year of a result has no day beside it; beside one it is that of something else.
            case "?year" when header.Has(Column.Day):
                header.Noted.Add(i);
                return true;
            // Whether a check was a calibration, only a person can say where no other column holds the day or the due day.
            case "?check" when IsOpenDay(reading) && profile.Mostly(profile.Days):
                return false;
            case "?check":
                header.Noted.Add(i);
                return true;
        }
        if (column is null || header.Has(column)) return false;
        header.Settle(i, column, mapping);
        return true;
    }

    private bool IsOpenDay(HeaderReading reading) => HeaderConcepts.Of(reading.Text).Concepts.Any(c => c is "next" or "due")
        ? header.Has(Column.Day) && !header.Has(Column.Due)
        : header.Has(Column.Value) && !header.Has(Column.Day);

    // "Gemeten" above results, "calibrated at" above laboratories, "fréquence d'étalonnage" above months.
    private void CheckContents()
    {
        foreach (var (column, i) in header.Places.ToList())
        {
            if (header.Readings[i] is not { Kind: null } reading || header.Divided.ContainsKey(i) || header.YearPlace == i
                || Profile(i) is not { Filled: > 0 } profile) continue;
            var (concepts, _, _) = HeaderConcepts.Of(reading.Text);
            if (InsteadOf(column, i, reading, profile, concepts) is not { } instead) continue;
            header.Unsettle(column, i, mapping);
            if (instead == Column.Noted || header.Has(instead)) header.Noted.Add(i);
            else header.Settle(i, instead, mapping);
            header.Guessed.Add((i, instead.Meaning));
        }
        CheckTwice();
        CheckPlace();
        // A year of devices without results is that of something else too.
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { Open: "?year" } year || IsPlaced(i) || header.Has(Column.Value)
                || header.Groups.Count > 0) continue;
            header.Noted.Add(i);
            _questions.RemoveAll(q => q.Key == "column " + year.Text.ToLowerInvariant());
        }
    }

    // "Messstelle: 5" beside a room: where a device is kept is the room, and of the number a person is asked.
    private void CheckPlace()
    {
        var room = Enumerable.Range(0, header.Readings.Count)
            .FirstOrDefault(i => header.Readings[i]?.Open == "?room" && Profile(i) is { Filled: > 0 } p && p.Numbers < p.Filled, -1);
        if (room < 0) return;
        if (header.Places.TryGetValue(Column.Place, out var place))
        {
            if (place == room || header.Readings[place] is null || Profile(place) is not { Filled: > 0 } numbers
                || numbers.Numbers < numbers.Filled) return;
            header.Unsettle(Column.Place, place, mapping);
            Ask(place, numbers);
        }
        header.Noted.Remove(room);
        header.Settle(room, Column.Place, mapping);
    }

    // "Kalibriert am" beside "kalibriert bei": of two columns that claim one meaning, one may hold something else.
    private void CheckTwice()
    {
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { Kind: null, Column: { } column, Year: null, Index: null } reading
                || !header.IsTwice(i)) continue;
            var instead = InsteadOf(column, i, reading, Profile(i), HeaderConcepts.Of(reading.Text).Concepts)
                ?? (header.Has(column) ? null : column);
            if (instead is null) continue;
            header.NoLongerTwice(i);
            if (instead == Column.Noted || header.Has(instead)) header.Noted.Add(i);
            else header.Settle(i, instead, mapping);
            header.Guessed.Add((i, instead.Meaning));
        }
    }

    private Column? InsteadOf(Column column, int i, HeaderReading reading, ColumnProfile profile, IReadOnlyList<string> concepts)
    {
        var isFree = !header.Has(Column.Campaign) && !header.Has(Column.Station);
        if (MayHoldKinds.Contains(column) && profile.Filled > 1 && profile.NearlyAll(profile.Kinds)
            && !Tells(Column.Kind)) return Column.Kind;
        if (column == Column.Day && profile.Days == 0 && !_sample.Select(r => r.At(i).Shown).All(IsSize))
        {
            if (profile.NearlyAll(profile.Numbers) && profile.Least >= 100 && !profile.LooksMeasured && !header.Has(Column.CalibrationHz)
                && _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t))
                    .All(t => MeasuredText.TryRead(t, out var hz, out var u) && u is null or "Hz" && Frequencies.Contains(hz)))
                return Column.CalibrationHz;
            if (profile.NearlyAll(profile.Sensitivities) || (profile.NearlyAll(profile.Numbers) && profile.LooksMeasured))
                return header.Has(Column.Value) ? null : Column.Value;
            return profile.Numbers == 0 && !profile.Mostly(profile.WithDigits) && profile.Statuses == 0 && !header.Has(Column.Laboratory)
                && concepts.Contains("calibration") && !OnlyYesOrNo(i) ? Column.Laboratory : null;
        }
        if (column == Column.CalibrationHz && profile.Mostly(profile.Days)) return IsDue(i) ? Column.Due : header.Has(Column.Day)
            ? Column.Noted : Column.Day;
        // How often: months lie below the frequencies that calibrators and microphones are measured at.
        if (column == Column.CalibrationHz && reading.Unit is null or "months" && concepts.Contains("calibration")
            && profile.NearlyAll(profile.Numbers) && profile is { Least: >= 1, Greatest: <= LongestIntervalMonths })
            return Column.Fields[DeviceField.IntervalMonths];
        if (column == Column.Day && profile.Days == 0 && _sample.Select(r => r.At(i).Shown).All(IsSize))
            return Column.Fields[DeviceField.SizeMm];
        if (column == Column.Maker && profile.Mostly(profile.Days)) return Column.Noted;
        if (column == Column.Quantity && profile.NearlyAll(profile.Numbers)) return Column.Noted;
        // Beside results of several kinds it is what they were measured at: microphones have none of their own.
        if (column == Column.Fields[DeviceField.FrequencyHz] && header.Has(Column.Day) && header.Has(Column.Value)
            && !header.Has(Column.CalibrationHz)) return Column.CalibrationHz;
        if ((column == Column.Status || column == Column.Kind) && profile.NearlyAll(profile.Numbers)) return Column.Noted;
        // "Posizione: 1.3" is where it stands in the list.
        if (column == Column.Place && (profile.IsNumbering || profile is { CountsRows: true, Filled: > 2, Least: 1 })) return Column.Noted;
        // "Afspraak gemaakt: ja" tells of an appointment, and of no maker.
        if ((column == Column.Maker || column == Column.Model || column == Column.Place || column == Column.Laboratory) && OnlyYesOrNo(i)
            && _sample.Any(r => r.At(i).Shown is { Length: > 1 } t && !RowReader.IsAbsent(t)))
            return Column.Noted;
        // "Gerätetyp: MK-50" is a model.
        if (column == Column.Kind && profile is { Kinds: 0, Filled: > 2 } && LooksLikeModels(i) && !Tells(Column.Model))
            return Column.Model;
        if (column == Column.Fields[DeviceField.InventoryCode])
        {
            if (profile.Mostly(profile.Days)) return Column.Noted;
            // Each device may have several rows: what repeats as its number does is no model.
            return header.Places.TryGetValue(Column.Serial, out var serial) && concepts.Any(c => c is "device" or "code" or "id")
                && profile.Filled > 3 && profile.Distinct * 2 <= profile.Filled && profile.Distinct * 2 <= Profile(serial).Distinct
                && profile.HasLetters && !Tells(Column.Model) ? Column.Model : null;
        }
        if (column == Column.Maker && concepts.Contains("description") && profile.Mostly(profile.WithDigits) && !header.Has(Column.Model))
            return Column.Model;
        // A limit of a device, and what it is for: tables of limits and of what goes along name no serial numbers, or use words of their
        // own.
        if (column == Column.Limit && header.Has(Column.Serial)) return Column.Noted;
        if (column == Column.Purpose && isFree && Names && !_sample.Any(r => Words.Purpose(r.At(i).Shown) is not null)) return Column.Noted;
        if (column == Column.Status && profile.Mostly(profile.Days)) return Column.Noted;
        if (column == Column.Site && isFree && Names) return Column.Place;
        return column == Column.Unit && UnitIsNone(i) ? Column.Noted : null;
    }

    // "Unité" of an organisation: no cell is a unit, and the results have theirs elsewhere, or there are none.
    private bool UnitIsNone(int i) => _sample.Select(r => r.At(i).Shown).All(t => RowReader.IsAbsent(t) || MeasuredText.Unit(t) is null)
        && (!header.Places.TryGetValue(Column.Value, out var value) || header.Units.GetValueOrDefault(value) is not null);

    // "Dia." of a diameter, in one of six languages a day.
    private static bool IsSize(string text) => RowReader.IsAbsent(text) || MeasuredText.InchFraction(text) is not null
        || (MeasuredText.TryRead(text, out _, out var unit) && unit is "mm" or "in");

    private bool OnlyYesOrNo(int i) => _sample.Select(r => r.At(i).Shown).All(t => RowReader.IsAbsent(t) || Words.YesNo(t) is not null);
}
