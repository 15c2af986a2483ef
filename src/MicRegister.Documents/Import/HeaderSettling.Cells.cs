using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <content>What the cells below a header say, whatever it says itself.</content>
internal sealed partial class HeaderSettling
{
    // "in use | defective | lost", with a cross in one of them.
    private void SettleMarks()
    {
        // "In use" with crosses below it is no column of states.
        if (header.Places.TryGetValue(Column.Status, out var status) && !Profile(status).IsOfMarks) return;
        var marked = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { } r && Words.Status(r.Text) is not null
            && Profile(i) is { Filled: > 0, IsOfMarks: true }).ToList();
        if (marked.Count < 2) return;
        foreach (var i in marked)
        {
            foreach (var column in header.Places.Where(p => p.Value == i).Select(p => p.Key).ToList()) header.Unsettle(column, i, mapping);
            header.StatusMarks.Add(i);
        }
    }

    // Results of devices at their stations, and no campaign: a list of devices, of which each says where it hangs.
    private void SettleStations()
    {
        SettleLocalities();
        if (!header.Has(Column.Station) || header.Has(Column.Campaign) || mapping.Constants.ContainsKey(Column.Campaign)
            || header.Has(Column.Latitude) || header.Has(Column.Longitude) || header.Has(Column.Mount)) return;
        bool Holds(Column column) => header.Has(column) || header.Readings.Any(r => r is { Kind: not null } && r.Column == column);
        if (!(Holds(Column.Value) || Holds(Column.FoundValue))
            || !(Holds(Column.Day) || header.Readings.Any(r => r?.Open == "?performed"))) return;
        header.Move(Column.Station, Column.Noted, mapping);
        // A site beside a station says where that is, and not where the device is kept.
        if (header.Has(Column.Site)) header.Move(Column.Site, Column.Noted, mapping);
    }

    // "Messstelle | Ortslage": a station, and where it lies; alone, each says where a device is.
    private void SettleLocalities()
    {
        var localities = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { Kind: null, Open: "?locality" })
            .ToList();
        if (localities.Count == 0) return;
        var isAtStation = header.Has(Column.Station);
        if (header.Places.TryGetValue(Column.Place, out var place) && header.Readings[place] is { } reading
            && HeaderConcepts.Of(reading.Text).Concepts is ["mess_place"])
        {
            header.Move(Column.Place, Column.Noted, mapping);
            isAtStation = true;
        }
        foreach (var i in localities)
        {
            if (isAtStation || header.Has(Column.Place)) header.Noted.Add(i);
            else header.Settle(i, Column.Place, mapping);
        }
    }

    // A result of before whose day nobody gives is no result of the register.
    private void SettlePrevious()
    {
        foreach (var group in header.Groups.Where(g => g.Index < 0 && !g.Places.ContainsKey(Column.Day)).ToList())
        {
            foreach (var place in group.Places.Values) header.Noted.Add(place);
            header.Groups.Remove(group);
        }
    }

    // A year alone beside each result, and no day.
    private void SettleYears()
    {
        if (header.Has(Column.Day) || !header.Has(Column.Value)) return;
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { Column: null, Year: null } r
                || HeaderConcepts.Of(r.Text).Concepts.Except(["calibration", "last"]).ToList() is not ["year" or "date"] || IsPlaced(i)
                || Profile(i) is not { Filled: > 0, Least: >= 1950, Greatest: <= 2200 } p || p.Numbers < p.Filled) continue;
            header.YearPlace = i;
            _questions.RemoveAll(q => q.Key == "column " + r.Text.ToLowerInvariant());
            return;
        }
    }

    // "Microphone MK-50" under the header of the kinds, and no column of models.
    private void SettleModelBesideKind()
    {
        if (header.Has(Column.Model) || !header.Places.TryGetValue(Column.Kind, out var place)) return;
        var texts = _sample.Select(r => r.At(place).Shown).Where(t => !RowReader.IsAbsent(t)).ToList();
        header.HasModelBesideKind = texts.Count > 0 && texts.Count(t => RowHeading.ModelIn(t) is not null) * 10 >= texts.Count * 9;
    }

    // "Référence" is a model in one language, and in another what a result was measured against.
    private void CheckReference()
    {
        if (!header.Places.TryGetValue(Column.Reference, out var i) || header.Has(Column.Model) || !header.Has(Column.Serial)
            || header.Readings[i] is null || Profile(i).Filled == 0) return;
        header.Unsettle(Column.Reference, i, mapping);
        Ask(i, Profile(i), Column.Model);
    }

    // "Avant" without an "après": found before an adjustment, or what an earlier calibration gave.
    private void CheckFound()
    {
        // "Recalibrar antes de" is no result: a day that nobody understands is asked about.
        foreach (var column in new[] { Column.FoundValue, Column.LeftValue })
        {
            if (!header.Places.TryGetValue(column, out var day) || header.Readings[day] is null
                || !Profile(day).Mostly(Profile(day).Days)) continue;
            header.Unsettle(column, day, mapping);
            Ask(day, Profile(day), IsDue(day) ? Column.Due : null);
        }
        if (!header.Places.TryGetValue(Column.FoundValue, out var i) || header.Has(Column.LeftValue) || !header.Has(Column.Value)
            || header.Readings[i] is not { } reading || HeaderConcepts.Of(reading.Text).Concepts.Contains("adjustment")
            || !HeaderConcepts.Split(reading.Text).Any(w => w is "vor" or "avant" or "antes" or "prima")) return;
        header.Unsettle(Column.FoundValue, i, mapping);
        if (RepeatsBefore(i)) header.Noted.Add(i);
        else Ask(i, Profile(i), Column.FoundValue);
    }

    // Each value is the result of the row before that speaks of the same device: it was stated there.
    private bool RepeatsBefore(int i)
    {
        if (!header.Places.TryGetValue(Column.Serial, out var serial)
            || !header.Places.TryGetValue(Column.Value, out var value)) return false;
        var last = new Dictionary<string, string>(StringComparer.Ordinal);
        var (same, others) = (0, 0);
        foreach (var row in _sample)
        {
            var device = row.At(serial).Shown;
            if (last.TryGetValue(device, out var before) && !RowReader.IsAbsent(row.At(i).Shown))
            {
                if (before == row.At(i).Shown) same++;
                else others++;
            }
            if (!RowReader.IsAbsent(row.At(value).Shown)) last[device] = row.At(value).Shown;
        }
        return same >= FewestThatRepeat && others == 0;
    }

    private const int FewestThatRepeat = 3;

    // "50.12 mV/Pa (2025-03-12)" in nearly all cells, and no column of days.
    private void SettleDayBesideResult()
    {
        if (header.Has(Column.Day) || !header.Places.TryGetValue(Column.Value, out var i) || header.Readings[i] is null
            || header.Divided.ContainsKey(i)) return;
        var texts = _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).ToList();
        if (texts.Count < 2 || texts.Count(t => t.Split(TableHeader.InBrackets) is [var result, var day]
            && MeasuredText.TryRead(result, out _, out _) && DayOf(new(day.TrimEnd(' ', ')'))) is not null) * 10 < texts.Count * 9) return;
        header.Unsettle(Column.Value, i, mapping);
        header.Divide(i, TableHeader.InBrackets, (Column.Value, Column.Day), mapping);
    }

    // Day, month and year in columns of their own.
    private void SettleDateParts()
    {
        int? Of(string concept, double least, double greatest)
        {
            var at = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { Year: null } r
                && HeaderConcepts.Of(r.Text).Concepts is [var only] && only == concept && Profile(i) is { Filled: > 0 } p
                    && p.Numbers == p.Filled
                && p.Least >= least && p.Greatest <= greatest).ToList();
            return at.Count == 1 ? at[0] : null;
        }
        if (Of("date", 1, 31) is { } day && Of("month", 1, 12) is { } month && Of("year", 1950, 2200) is { } year)
        {
            header.Unsettle(Column.Day, day, mapping);
            header.DateParts = (day, month, year);
        }
    }

    // "Mikrofon MK-50 SN 114532" in nearly all cells.
    private bool Describes(int i)
    {
        if (header.Has(Column.Serial) || header.Described is not null) return false;
        var texts = _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).ToList();
        return texts.Count >= 2 && texts.Count(t => RowHeading.Of(t)?.Says.ContainsKey(Column.Serial) == true) * 10 >= texts.Count * 9;
    }

    // A header of unknown words: where nearly all cells name kinds, states of use, or results with their unit, they say what it is.
    private bool SettleByCells(int i, HeaderReading reading, ColumnProfile profile)
    {
        if (Describes(i))
        {
            header.Described = i;
            return true;
        }
        if (reading.Column is not null || reading.Open is not null || profile.Filled < 2) return false;
        if (HalvesOfHeader(reading.Text) is var (first, second) && IsFree((first, second)) && Separator(i) is { } separator)
        {
            header.Divide(i, separator, (first, second), mapping);
            header.Guessed.Add((i, $"{first.Meaning} and {second.Meaning}"));
            return true;
        }
        var column = profile.NearlyAll(profile.Kinds) ? Column.Kind
            : profile.NearlyAll(profile.Days) && IsDue(i) && !OthersMayBeDue(i) ? Column.Due
            : profile.NearlyAll(profile.Statuses) && profile.DistinctStatuses >= 2 ? Column.Status
            : profile.NearlyAll(profile.Results) && profile.Sensitivities > 0 && profile.LooksMeasured ? Column.Value
            : HoldsUnits(i) && header.Has(Column.Value) ? Column.Unit
            : profile.Filled > 1 && _sample.Select(r => r.At(i).Shown).All(IsSize) ? Column.Fields[DeviceField.SizeMm]
            : null;
        if (column is null || header.Has(column)) return false;
        header.Settle(i, column, mapping);
        header.Guessed.Add((i, column.Meaning));
        return true;
    }

    // Days that lie months after those of the calibrations, row by row.
    private bool IsDue(int i)
    {
        if (!header.Places.TryGetValue(Column.Day, out var day) || header.Has(Column.Due)) return false;
        var (later, all) = (0, 0);
        foreach (var row in _sample)
        {
            if (DayOf(row.At(i)) is not { } due || DayOf(row.At(day)) is not { } done) continue;
            all++;
            if (due.DayNumber - done.DayNumber is > 80 and < 4000) later++;
        }
        return all >= 2 && later * 10 >= all * 9;
    }

    // "To be returned by" lies as long after a calibration as the day when it is due.
    private bool OthersMayBeDue(int i) => Enumerable.Range(0, header.Readings.Count).Any(o => o != i && !header.Places.Values.Contains(o)
        && header.Readings[o] is not null && Profile(o) is { Filled: > 0 } p && p.NearlyAll(p.Days) && IsDue(o));

    private static DateOnly? DayOf(Cell cell) => DateText.TryRead(cell, DateOrder.DayFirst, false, out var day) is null ? day
        : DateText.TryRead(cell, DateOrder.MonthFirst, false, out day) is null ? day : null;

    // Whatever a header says: a laboratory, a maker, a place or a state is no day, and a model does not count its rows.
    private void CheckTexts()
    {
        foreach (var (column, i) in header.Places.ToList())
        {
            if (header.Readings[i] is not { } reading || header.Divided.ContainsKey(i)
                || Profile(i) is not { Filled: > 0 } profile) continue;
            var isText = column == Column.Laboratory || column == Column.Maker || column == Column.Place || column == Column.Status
                || column == Column.Kind;
            // "Verwendung: Bezugsnormal" is no state of use: of many cells one at least would say a known one.
            var isOfNoState = column == Column.Status && profile.Statuses == 0 && !profile.IsOfMarks
                && profile is { Filled: >= FewestThatTell, Distinct: > 1 };
            if (!(isText && profile.Mostly(profile.Days)) && !isOfNoState
                && !((column == Column.Model || column == Column.Laboratory || column == Column.Maker)
                && profile.Filled > 2 && profile.CountsRows)) continue;
            header.Unsettle(column, i, mapping);
            Ask(i, profile, isOfNoState ? column : null);
        }
    }

    // A header with a slip in it counts when the cells agree.
    private void CheckGuesses()
    {
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { IsGuess: true, Column: { } column } || Profile(i) is not { Filled: > 0 } profile) continue;
            // Makers and laboratories are names alike: of a word that is half known only the other one's column tells them apart.
            var fits = Fits(column, profile) && !ContradictsUnit(column, header.Units.GetValueOrDefault(i) ?? header.Readings[i]!.Unit)
                && !(column == Column.Laboratory && header.Readings[i]!.IsPartly && !header.Has(Column.Maker))
                && (!header.Readings[i]!.IsPartly || (IsLike(column, profile) && !IsDayOfSomething(column, header.Readings[i]!)));
            if (!IsPlaced(i) || header.Noted.Contains(i) || header.Places.Any(p => p.Value == i && p.Key != column)) continue;
            if (fits)
            {
                header.Guessed.Add((i, column.Meaning));
                continue;
            }
            header.Unsettle(column, i, mapping);
            if (SettleByCells(i, header.Readings[i]! with { Column = null }, profile)) continue;
            if (HasNoBearing(i, header.Readings[i]!, profile)) header.Noted.Add(i);
            else Ask(i, profile, column);
        }
    }

    // "Input range [V]" is neither a place nor a size, whatever words it is like.
    private static bool ContradictsUnit(Column column, string? unit) => unit is "V" or "mV" or "A" or "mA" or "W" or "Hz" or "kHz" or "°C"
        or "kPa" or "hPa" or "%" && (OfField(column) is { } field ? field.Unit != unit : column == Column.Place || column == Column.Maker
            || column == Column.Model || column == Column.Kind || column == Column.Status || column == Column.Laboratory
            || column == Column.Serial || column == Column.Certificate);

    private static bool Fits(Column column, ColumnProfile profile) => !profile.IsOfMarks && FitsCells(column, profile);

    private static bool FitsCells(Column column, ColumnProfile profile) =>
        column == Column.Day || column == Column.Due || column == Column.Inspected ? profile.Mostly(profile.Days)
        : column == Column.Value ? profile.Mostly(profile.Numbers) && profile.LooksMeasured
        : column == Column.Uncertainty ? profile.Mostly(profile.Numbers) && profile.Least >= 0
        : column == Column.Factor ? profile.Mostly(profile.Numbers) && profile is { Least: >= 1, Greatest: <= 4 }
        : column == Column.Pressure || column == Column.Temperature || column == Column.Humidity || column == Column.CalibrationHz
            || column == Column.Fields[DeviceField.IntervalMonths] ? profile.Mostly(profile.Numbers)
        : column == Column.Serial || column == Column.Fields[DeviceField.InventoryCode] ? profile.AllDiffer || profile.Distinct > 20
        : column == Column.Kind ? profile.Mostly(profile.Kinds)
        : column == Column.Status ? profile.Mostly(profile.Statuses)
        : column == Column.Model || column == Column.Maker || column == Column.Place || column == Column.Note
            || column == Column.Laboratory || column == Column.Certificate || column == Column.Method || column == Column.Unit
            || column == Column.Quantity || OfField(column) is { IsNumber: false }
            || (OfField(column) is { IsNumber: true } && profile.Mostly(profile.Numbers));

    // Names of makers and laboratories have no digits, models and certificates have: a word that is not known may have said something else.
    private static bool IsLike(Column column, ColumnProfile profile) =>
        column == Column.Maker || column == Column.Laboratory ? !profile.Mostly(profile.WithDigits)
        : column != Column.Model && column != Column.Certificate || profile.Mostly(profile.WithDigits);

    // "Date of" a word that nobody knows may be that of a purchase.
    private static bool IsDayOfSomething(Column column, HeaderReading reading) => column == Column.Day
        && !HeaderConcepts.Of(reading.Text).Concepts.Contains("calibration");

    private static DeviceField? OfField(Column column) => Column.Fields.FirstOrDefault(f => f.Value == column).Key;
}
