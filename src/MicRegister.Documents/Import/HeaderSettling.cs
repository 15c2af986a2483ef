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
        SettleDevices();
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { } reading || IsPlaced(i)) continue;
            if (reading.Kind is not null && reading.Column is null && reading.Open is null && IsPlaced(i)) continue;
            SettleOpen(i, reading);
        }
        CheckGuesses();
        CheckSecondValue();
        if (!isNamed && !header.NamesRows && header.Devices.Count == 0) AskWhichNames();
        return _questions;
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
            case "?two" when Separator(i) is { } separator && IsFree(TableHeader.HalvesOf(reading.Text)):
                header.Divide(i, separator, mapping);
                return;
            case "?two" when TableHeader.HalvesOf(reading.Text) is var (a, b) && a != Column.Serial && b != Column.Serial && !header.Has(Column.Model):
                header.Settle(i, Column.Model, mapping);
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

    // A header of unknown words: where nearly all cells name kinds, states of use, or results with their unit, they say what it is.
    private bool SettleByCells(int i, HeaderReading reading, ColumnProfile profile)
    {
        if (reading.Column is not null || reading.Open is not null || profile.Filled < 2) return false;
        var column = profile.NearlyAll(profile.Kinds) ? Column.Kind
            : profile.NearlyAll(profile.Statuses) && profile.DistinctStatuses >= 2 ? Column.Status
            : profile.NearlyAll(profile.Sensitivities) && profile.LooksMeasured ? Column.Value
            : null;
        if (column is null || header.Has(column)) return false;
        header.Settle(i, column, mapping);
        header.Guessed.Add((i, column.Meaning));
        return true;
    }

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
        || header.Noted.Contains(i) || header.LeftOut.Contains(i) || header.AlsoValue == i || header.Twice.Contains(header.Row.At(i).Shown);

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
            var column = reading.Kind is null || (reading.Column is null && reading.Open is null) ? OfPart(i) : reading.Open switch
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

    private static bool IsModelOnly(DevicePart part) => part.Places.ContainsKey(Column.Model);

    // A header that names nothing but a kind: serials differ from row to row, models repeat.
    private Column OfPart(int i) => Profile(i) is { AllDiffer: true } or { Distinct: > 20 } ? Column.Serial : Column.Model;

    // A header with a slip in it counts when the cells agree.
    private void CheckGuesses()
    {
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { IsGuess: true, Column: { } column } || Profile(i) is not { Filled: > 0 } profile) continue;
            var fits = Fits(column, profile);
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

    private static bool Fits(Column column, ColumnProfile profile) =>
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

    private static DeviceField? OfField(Column column) => Column.Fields.FirstOrDefault(f => f.Value == column).Key;

    // Two columns of results, one in mV/Pa and one in dB, have to say the same.
    private void CheckSecondValue()
    {
        if (header.AlsoValue is not { } also) return;
        var unit = header.Units.GetValueOrDefault(header.Places[Column.Value]);
        var other = header.Units.GetValueOrDefault(also);
        if (SecondValue.Disagreeing(rows, header.Places[Column.Value], unit, also, other) is not { } row) return;
        _questions.Add(new ImportQuestion($"second {also}", sheet,
            $"The columns '{header.Row.At(header.Places[Column.Value]).Shown}' and '{header.Row.At(also).Shown}' do not say the same (row {row.Number}: {row.At(header.Places[Column.Value]).Shown} and {row.At(also).Shown}). Which one holds the results?",
        [
            new($"'{header.Row.At(header.Places[Column.Value]).Shown}'; leave the other out",
                LegendText.HeaderRule(header.Row.At(also).Shown, Column.LeftOut.Key)),
            new($"'{header.Row.At(also).Shown}'; leave the first out",
                LegendText.HeaderRule(header.Row.At(header.Places[Column.Value]).Shown, Column.LeftOut.Key)),
        ]).Seen(row.At(also).Shown));
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
