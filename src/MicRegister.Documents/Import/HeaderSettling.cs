using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Settles what headers leave open by what stands below them; what that does not settle is asked.</summary>
internal sealed class HeaderSettling(TableHeader header, ImportMapping mapping, IReadOnlyList<SheetRow> rows, string sheet, bool isNamed)
{
    private const int RowsLookedAt = 400;

    private readonly Dictionary<int, ColumnProfile> _profiles = [];
    private readonly List<ImportQuestion> _questions = [];
    private readonly IReadOnlyList<SheetRow> _sample = [.. rows.Take(RowsLookedAt).Where(r => !header.IsRepeatedBy(r))];

    /// <summary>Settles all columns.</summary>
    /// <returns>What only a person can say.</returns>
    public IReadOnlyList<ImportQuestion> Settle()
    {
        // "Gain, dB" is a detail of a preamplifier; beside a day of calibration it is what was measured.
        var gain = Column.Fields[DeviceField.GainDb];
        if (header.Has(gain) && header.Has(Column.Day) && !header.Has(Column.Value)) header.Move(gain, Column.Value, mapping);
        // "Kit" is a column of what goes along with a campaign; in a list of devices it only sorts them.
        if (header.Has(Column.Purpose) && !header.Has(Column.Campaign) && !mapping.Constants.ContainsKey(Column.Campaign) && header.Has(Column.Day))
            header.Move(Column.Purpose, Column.Noted, mapping);
        SettleMarks();
        SettleDateParts();
        SettlePrevious();
        SettleDevices();
        SettleYears();
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { } reading || IsPlaced(i)) continue;
            if (reading.Kind is not null && reading.Column is null && reading.Open is null && IsPlaced(i)) continue;
            SettleOpen(i, reading);
        }
        SettleYears();
        CheckTexts();
        CheckGuesses();
        SettleModelBesideKind();
        CheckSecondValue();
        if (!isNamed && !header.NamesRows && header.Devices.Count == 0 && header.Described is null) AskWhichNames();
        return _questions;
    }

    // "in use | defective | lost", with a cross in one of them.
    private void SettleMarks()
    {
        if (header.Has(Column.Status)) return;
        var marked = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { } r && Words.Status(r.Text) is not null
            && Profile(i) is { Filled: > 0, IsOfMarks: true }).ToList();
        if (marked.Count < 2) return;
        foreach (var i in marked)
        {
            foreach (var column in header.Places.Where(p => p.Value == i).Select(p => p.Key).ToList()) header.Unsettle(column, i, mapping);
            header.StatusMarks.Add(i);
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
            if (header.Readings[i] is not { Column: null, Year: null } r || HeaderConcepts.Of(r.Text).Concepts is not ["year" or "date"] || IsPlaced(i)
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

    // Day, month and year in columns of their own.
    private void SettleDateParts()
    {
        int? Of(string concept, double least, double greatest)
        {
            var at = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { Year: null } r
                && HeaderConcepts.Of(r.Text).Concepts is [var only] && only == concept && Profile(i) is { Filled: > 0 } p && p.Numbers == p.Filled
                && p.Least >= least && p.Greatest <= greatest).ToList();
            return at.Count == 1 ? at[0] : null;
        }
        if (Of("date", 1, 31) is { } day && Of("month", 1, 12) is { } month && Of("year", 1950, 2200) is { } year)
        {
            header.Unsettle(Column.Day, day, mapping);
            header.DateParts = (day, month, year);
        }
    }

    private void SettleOpen(int i, HeaderReading reading)
    {
        var profile = Profile(i);
        switch (reading.Open)
        {
            case "?none":
                header.Leave(i);
                return;
            // A bare dB: levels lie far from 0, uncertainties near it.
            case "?unit" when !header.Has(Column.Value) && profile.Mostly(profile.Numbers)
                && (profile.Least > 20 || profile.Greatest < -10 || (profile.Least < -10 && profile.Greatest > 60)):
                header.Settle(i, Column.Value, mapping);
                return;
            case "?unit" when !header.Has(Column.Uncertainty) && profile.Mostly(profile.Numbers) && profile.Least > 0 && profile.Greatest < 3:
                header.Settle(i, Column.Uncertainty, mapping);
                return;
            case "?performed" when profile.NearlyAll(profile.Days):
                if (IsDue(i)) header.Settle(i, Column.Due, mapping);
                else if (!header.Has(Column.Day)) header.Settle(i, Column.Day, mapping);
                else break;
                return;
            case "?performed" when !profile.Mostly(profile.WithDigits) && !header.Has(Column.Laboratory):
                header.Settle(i, Column.Laboratory, mapping);
                return;
            case "?type" or "?what" or "?number" when profile.CountsRows && (Names || profile.Least <= 1):
                header.Leave(i);
                return;
            case "?type" or "?what" when Describes(i):
                header.Described = i;
                return;
            case "?two" when Separator(i) is { } separator && TableHeader.HalvesOf(reading.Text) is var halves && IsFree(halves):
                header.Divide(i, separator, halves, mapping);
                return;
            case "?two" when TableHeader.HalvesOf(reading.Text) is var (a, b) && a != Column.Serial && b != Column.Serial && !header.Has(Column.Model):
                header.Settle(i, Column.Model, mapping);
                return;
            case "?calibration-status" when profile.NearlyAll(profile.Statuses) && !header.Has(Column.Status):
                header.Settle(i, Column.Status, mapping);
                return;
            case "?calibration-status":
                header.Noted.Add(i);
                return;
            case "?situation" when profile.Mostly(profile.Statuses) && !header.Has(Column.Status):
                header.Settle(i, Column.Status, mapping);
                return;
            case "?situation" when !header.Has(Column.Place):
                header.Settle(i, Column.Place, mapping);
                return;
            case "?derived" when header.Has(Column.Value):
                header.Leave(i);
                return;
            case "?noted" or "?verdict" when profile.NearlyAll(profile.Kinds) && !header.Has(Column.Kind):
                header.Settle(i, Column.Kind, mapping);
                return;
            case "?noted" or "?verdict" when !header.Has(Column.Value) && (profile.NearlyAll(profile.Sensitivities)
                || (profile.LooksMeasured && reading.Unit is "mV/Pa" or "V/Pa" or "dB re 1 V/Pa")):
                header.Settle(i, Column.Value, mapping);
                header.Guessed.Add((i, Column.Value.Meaning));
                return;
            case "?verdict" when profile.NearlyAll(profile.Statuses) && profile.DistinctStatuses >= 2 && !header.Has(Column.Status):
                header.Settle(i, Column.Status, mapping);
                return;
            case "?verdict":
                if (profile.Distinct > 2) break;
                header.Noted.Add(i);
                return;
            case "?noted":
                header.Noted.Add(i);
                return;
            case "?type" or "?what" when profile.Mostly(profile.Kinds) && !header.Has(Column.Kind):
                header.Settle(i, Column.Kind, mapping);
                return;
            case "?type" when !header.Has(Column.Model):
                header.Settle(i, Column.Model, mapping);
                return;
            case "?what" when !header.Has(Column.Model) && profile.Mostly(profile.WithDigits):
                header.Settle(i, Column.Model, mapping);
                return;
            case "?type" or "?what":
                header.Noted.Add(i);
                return;
            case "?room" when header.Has(Column.Place):
                header.Noted.Add(i);
                return;
            case "?room":
                header.Settle(i, Column.Place, mapping);
                return;
            case "?number" when reading.IsGuess:
                break;
            case "?number" when profile is { Filled: 1, Least: 1, Greatest: 1 } && Names:
                header.Leave(i);
                return;
            case "?number" when profile.CountsRows && (Names || profile.Least <= 1):
                header.Leave(i);
                return;
            case "?number" when Names && header.Has(Column.Serial):
                if (header.Has(Column.Fields[DeviceField.InventoryCode]) || !profile.AllDiffer) break;
                header.Settle(i, Column.Fields[DeviceField.InventoryCode], mapping);
                return;
            default: break;
        }
        if (reading.Column is not null && reading.Kind is not null && !header.Has(reading.Column))
        {
            header.Settle(i, reading.Column, mapping);
            return;
        }
        if (SettleByCells(i, reading, profile)) return;
        // A column that holds nothing asks nothing.
        if (profile.Filled > 0) Ask(i, profile);
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
            : profile.NearlyAll(profile.Days) && IsDue(i) ? Column.Due
            : profile.NearlyAll(profile.Statuses) && profile.DistinctStatuses >= 2 ? Column.Status
            : profile.NearlyAll(profile.Sensitivities) && profile.LooksMeasured ? Column.Value
            : null;
        if (column is null || header.Has(column)) return false;
        header.Settle(i, column, mapping);
        header.Guessed.Add((i, column.Meaning));
        return true;
    }

    // "Calibrated / valid until": each half is a header of its own.
    private static (Column First, Column Second)? HalvesOfHeader(string text) =>
        text.Split(['/', '&', '+', ',', ';']) is [var a, var b] && HeaderReading.Of(a.Trim()) is { IsGuess: false, Kind: null, Column: { } first }
            && HeaderReading.Of(b.Trim()) is { IsGuess: false, Kind: null, Column: { } second } && first != second ? (first, second) : null;

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

    private static DateOnly? DayOf(Cell cell) => DateText.TryRead(cell, DateOrder.DayFirst, false, out var day) is null ? day
        : DateText.TryRead(cell, DateOrder.MonthFirst, false, out day) is null ? day : null;

    private bool IsFree((Column First, Column Second) halves) => !header.Has(halves.First) && !header.Has(halves.Second);

    // What stands between the two things of a cell, in nearly all cells.
    private string? Separator(int i)
    {
        var texts = _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).ToList();
        return Array.Find([" / ", " - ", "; ", ", ", " | ", "/", " "], s => texts.Count > 0
            && texts.Count(t => t.Split(s).Length == 2) * 10 >= texts.Count * 9);
    }

    private bool Names => header.Has(Column.Serial) || header.Has(Column.Fields[DeviceField.InventoryCode]) || header.Devices.Count > 0;

    private bool IsPlaced(int i) => header.Places.Values.Contains(i) || header.Groups.Any(g => g.Places.ContainsValue(i))
        || header.Devices.Any(d => d.Places.ContainsValue(i))
        || header.Described == i || header.YearPlace == i || header.StatusMarks.Contains(i) || (header.DateParts is var (d, m, y) && (d == i || m == i || y == i)) || header.Noted.Contains(i) || header.LeftOut.Contains(i) || header.Again.Exists(a => a.Second == i) || header.Twice.Contains(header.Row.At(i).Shown);

    // "Mic S/N" beside "Preamp S/N": a device each. Where only one kind is spoken of, the table is about it.
    private void SettleDevices()
    {
        if (header.Has(Column.Station)) return;
        var parts = new List<DevicePart>();
        for (var i = 0; i < header.Readings.Count; i++)
        {
            var reading = header.Readings[i];
            var kind = reading?.Kind ?? (reading?.Column is { } c ? Column.Parts.FirstOrDefault(p => p.Column == c).Kind : null);
            if (reading is null || kind is null) continue;
            var isBare = reading.Kind is null || (reading.Column is null && reading.Open is null);
            // "Mikrofon" above "MK-50" beside serial numbers: the models of what the table is about.
            if (isBare && parts.Count == 0 && header.Has(Column.Serial) && !header.Has(Column.Model) && IsLoneKind(i))
            {
                header.Settle(i, Column.Model, mapping);
                header.SettleDevices(kind, []);
                return;
            }
            // A blank or a stroke alone may belong to a serial number.
            if (isBare && Separator(i) is { } separator and not " " and not "/")
            {
                var pair = parts.Find(p => p.Kind == kind);
                if (pair is null) parts.Add(pair = new(kind));
                if (pair.Places.TryAdd(Column.Model, i) && pair.Places.TryAdd(Column.Serial, i)) header.Divided[i] = (separator, SerialStandsFirst(i, separator)
                    ? Column.Serial : Column.Model);
                continue;
            }
            var column = isBare ? header.Readings.Any(r => r?.Kind == kind && r.Column == Column.Serial) ? Column.Model : OfPart(i) : reading.Open switch
            {
                "?number" => Column.Serial,
                "?type" or "?what" => Column.Model,
                null => reading.Column,
                _ => null,
            };
            if (column is null || ResultGroup.Family.Contains(column)) continue;
            var part = parts.Find(p => p.Kind == kind);
            if (part is null) parts.Add(part = new(kind));
            if (!part.Places.TryAdd(column, i)) header.Twice.Add(header.Row.At(i).Shown);
        }
        var code = Column.Fields[DeviceField.InventoryCode];
        parts.RemoveAll(p => !p.Places.ContainsKey(Column.Serial) && !p.Places.ContainsKey(code) && p.Places.Count > 0 && !IsModelOnly(p));
        if (parts.Count == 0) return;
        // "Mic ID" beside "S/N": one device, and what kind it is.
        if (header.Has(Column.Serial) && parts is [var sole] && !sole.Places.ContainsKey(Column.Serial) && sole.Places.Keys.All(c => !header.Has(c)))
        {
            foreach (var (column, place) in sole.Places) header.Settle(place, column, mapping);
            header.SettleDevices(sole.Kind, []);
            return;
        }
        if (!header.Has(Column.Serial) && !header.Has(code))
        {
            // The first kind, or the microphones, are what results without a kind of their own belong to.
            var main = parts.Find(p => p.Kind == DeviceKind.Microphone && p.Places.ContainsKey(Column.Serial))
                ?? parts.Find(p => p.Places.ContainsKey(Column.Serial) || p.Places.ContainsKey(code));
            if (main is null) return;
            foreach (var (column, place) in main.Places.Where(p => !header.Has(p.Key))) header.Settle(place, column, mapping);
            parts.Remove(main);
            parts.RemoveAll(p => !p.Places.ContainsKey(Column.Serial) && !p.Places.ContainsKey(code));
            header.SettleDevices(main.Kind, parts);
            return;
        }
        parts.RemoveAll(p => !p.Places.ContainsKey(Column.Serial) && !p.Places.ContainsKey(code));
        header.SettleDevices(null, parts);
    }

    private bool IsLoneKind(int place) => !header.Readings.Where((r, i) => i != place && r?.Kind is not null).Any();

    // Of the two halves, the serial numbers differ more.
    private bool SerialStandsFirst(int i, string separator)
    {
        var halves = _sample.Select(r => r.At(i).Shown.Split(separator)).Where(h => h.Length == 2).ToList();
        return halves.Select(h => h[0]).Distinct().Count() > halves.Select(h => h[1]).Distinct().Count();
    }

    private static bool IsModelOnly(DevicePart part) => part.Places.ContainsKey(Column.Model);

    // A header that names nothing but a kind: serials differ from row to row, models repeat.
    private Column OfPart(int i) => Profile(i) is { AllDiffer: true } or { Distinct: > 20 } ? Column.Serial : Column.Model;

    // Whatever a header says: a laboratory, a maker, a place or a state is no day, and a model does not count its rows.
    private void CheckTexts()
    {
        foreach (var (column, i) in header.Places.ToList())
        {
            if (header.Readings[i] is not { } reading || header.Divided.ContainsKey(i) || Profile(i) is not { Filled: > 0 } profile) continue;
            var isText = column == Column.Laboratory || column == Column.Maker || column == Column.Place || column == Column.Status || column == Column.Kind;
            if (!(isText && profile.Mostly(profile.Days)) && !((column == Column.Model || column == Column.Laboratory || column == Column.Maker)
                && profile.Filled > 2 && profile.CountsRows)) continue;
            header.Unsettle(column, i, mapping);
            Ask(i, profile);
        }
    }

    // A header with a slip in it counts when the cells agree.
    private void CheckGuesses()
    {
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { IsGuess: true, Column: { } column } || Profile(i) is not { Filled: > 0 } profile) continue;
            var fits = Fits(column, profile) && (!header.Readings[i]!.IsPartly || IsLike(column, profile));
            if (!IsPlaced(i)) continue;
            if (fits)
            {
                header.Guessed.Add((i, column.Meaning));
                continue;
            }
            header.Unsettle(column, i, mapping);
            if (!SettleByCells(i, header.Readings[i]! with { Column = null }, profile)) Ask(i, profile, column);
        }
    }

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

    private static DeviceField? OfField(Column column) => Column.Fields.FirstOrDefault(f => f.Value == column).Key;

    // Two columns of results, one in mV/Pa and one in dB, have to say the same.
    private void CheckSecondValue()
    {
        foreach (var (first, also) in header.Again)
        {
            var (unit, other) = (header.Units.GetValueOrDefault(first), header.Units.GetValueOrDefault(also));
            if (SecondValue.Disagreeing(rows, first, unit, also, other) is not { } row) continue;
            var (one, two) = (header.Row.At(first).Shown, header.Row.At(also).Shown);
            _questions.Add(new ImportQuestion($"second {also}", sheet,
                $"The columns '{one}' and '{two}' do not say the same (row {row.Number}: {row.At(first).Shown} and {row.At(also).Shown}). "
                + "Which one holds the results?",
            [
                new($"'{one}'; leave the other out", LegendText.HeaderRule(two, Column.LeftOut.Key)),
                new($"'{two}'; leave the first out", LegendText.HeaderRule(one, Column.LeftOut.Key)),
            ]).Seen(row.At(also).Shown));
        }
    }

    private void AskWhichNames()
    {
        var candidates = Enumerable.Range(0, header.Row.Cells.Length).Where(i => header.Row.At(i).Shown.Length > 0)
            .Select(i => (Place: i, Profile: Profile(i)))
            .Where(p => p.Profile is { Filled: > 0 } && p.Profile.Filled * 10 >= _sample.Count * 8 && !p.Profile.Mostly(p.Profile.Days)
                && !p.Profile.CountsRows)
            .OrderByDescending(p => p.Profile.Distinct).ToList();
        if (candidates.Count == 0) return;
        var question = new ImportQuestion("serial", sheet, "Which column holds the serial numbers?",
            [.. candidates.Take(8).Select(c => new ImportChoice($"'{header.Row.At(c.Place).Shown}' ({c.Profile.Shown})",
                LegendText.HeaderRule(header.Row.At(c.Place).Shown, Column.Serial.Key)))]);
        _questions.Insert(0, question.Seen(null));
        _questions.RemoveAll(q => q.Key.StartsWith("column ", StringComparison.Ordinal));
    }

    private void Ask(int i, ColumnProfile profile, Column? guess = null)
    {
        var text = header.Row.At(i).Shown;
        var choices = new List<ImportChoice>();
        foreach (var column in Likely(profile, guess).Distinct().Take(6)) choices.Add(new(column.Meaning, LegendText.HeaderRule(text, column.Key)));
        choices.Add(new(Column.Noted.Meaning, LegendText.HeaderRule(text, Column.Noted.Key)));
        choices.Add(new(Column.LeftOut.Meaning, LegendText.HeaderRule(text, Column.LeftOut.Key)));
        var question = new ImportQuestion("column " + text.ToLowerInvariant(), sheet, $"What stands under '{text}'? ({profile.Shown})", choices);
        foreach (var example in profile.First) question.Seen(example);
        question.Rows = profile.Filled;
        _questions.Add(question);
    }

    private IEnumerable<Column> Likely(ColumnProfile profile, Column? guess)
    {
        if (guess is not null && !header.Has(guess)) yield return guess;
        if (profile.Mostly(profile.Days))
        {
            foreach (var column in new[] { Column.Day, Column.Due, Column.Inspected }.Where(c => !header.Has(c))) yield return column;
            yield break;
        }
        if (profile.Mostly(profile.Kinds) && !header.Has(Column.Kind)) yield return Column.Kind;
        if (profile.Mostly(profile.Numbers))
        {
            if (!header.Has(Column.Value)) yield return Column.Value;
            if (!header.Has(Column.Uncertainty) && profile.Least > 0 && profile.Greatest < 5) yield return Column.Uncertainty;
        }
        if (!header.Has(Column.Serial) && profile.AllDiffer) yield return Column.Serial;
        foreach (var column in new[] { Column.Fields[DeviceField.InventoryCode], Column.Model, Column.Maker, Column.Place, Column.Status,
            Column.Laboratory, Column.Certificate })
        {
            if (!header.Has(column)) yield return column;
        }
    }

    private ColumnProfile Profile(int column)
    {
        if (!_profiles.TryGetValue(column, out var profile)) _profiles[column] = profile = ColumnProfile.Of(_sample, column);
        return profile;
    }
}
