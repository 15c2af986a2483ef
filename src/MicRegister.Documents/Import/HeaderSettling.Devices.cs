using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <content>Which devices the columns of a row speak of.</content>
internal sealed partial class HeaderSettling
{
    // "Mic S/N" beside "Preamp S/N": a device each. Where only one kind is spoken of, the table is about it.
    private void SettleDevices()
    {
        if (header.Has(Column.Station)) return;
        var parts = new List<DevicePart>();
        var results = new List<(DeviceKind Kind, Column Column, int Place)>();
        var variants = new List<(DeviceKind Kind, int Place)>();
        for (var i = 0; i < header.Readings.Count; i++)
        {
            var reading = header.Readings[i];
            var kind = reading?.Kind ?? (reading?.Column is { } c ? Column.Parts.FirstOrDefault(p => p.Column == c).Kind : null);
            if (reading is null || kind is null) continue;
            // "Preamplifier fitted on": a word that is not known may make it anything.
            var isBare = reading.Kind is null || reading.IsBareKind;
            // "Mikrofon" above "MK-50" beside serial numbers: the models of what the table is about.
            if (isBare && parts.Count == 0 && header.Has(Column.Serial) && !header.Has(Column.Model) && !header.Has(Column.Kind)
                && IsLoneKind(i))
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
                if (pair.Places.TryAdd(Column.Model, i) && pair.Places.TryAdd(Column.Serial, i)) header.Divided[i] = (separator,
                    SerialStandsFirst(i, separator)
                    ? Column.Serial : Column.Model);
                continue;
            }
            var column = isBare ? header.Readings.Any(r => r?.Kind == kind && r.Column == Column.Serial) ? Column.Model : OfPart(i)
                : reading.Open switch
                {
                    "?number" => Column.Serial,
                    "?type" or "?what" => Column.Model,
                    null => reading.Column,
                    _ => null,
                };
            if (column == Column.Fields[DeviceField.Variant] || reading.Open == "?variant")
            {
                variants.Add((kind, i));
                continue;
            }
            if (column is null) continue;
            // Channels 1, 2, 3 … of a list that names its devices otherwise are places at a recorder, and days are of a test: no numbers.
            if (column == Column.Serial && header.Has(Column.Serial)
                && (Profile(i) is { CountsRows: true, Filled: >= FewestThatTell } || Profile(i).Mostly(Profile(i).Days)))
            {
                header.Noted.Add(i);
                continue;
            }
            if (ResultGroup.Family.Contains(column))
            {
                results.Add((kind, column, i));
                continue;
            }
            var part = parts.Find(p => p.Kind == kind);
            if (part is null) parts.Add(part = new(kind));
            if (!part.Places.TryAdd(column, i)) header.Twice.Add(header.Row.At(i).Shown);
        }
        foreach (var (of, place) in variants)
        {
            if (parts.Find(p => p.Kind == of) is { } part && LooksLikeModels(place)) part.Places.TryAdd(Column.Model, place);
        }
        var code = Column.Fields[DeviceField.InventoryCode];
        parts.RemoveAll(p => !p.Places.ContainsKey(Column.Serial) && !p.Places.ContainsKey(code) && p.Places.Count > 0 && !IsModelOnly(p));
        if (parts.Count == 0) return;
        // "Mic ID" beside "S/N": one device, and what kind it is.
        if (header.Has(Column.Serial) && parts is [var sole] && !sole.Places.ContainsKey(Column.Serial)
            && sole.Places.Keys.All(c => !header.Has(c)))
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
            SettleResults(parts, results);
            header.SettleDevices(main.Kind, parts);
            return;
        }
        parts.RemoveAll(p => !p.Places.ContainsKey(Column.Serial) && !p.Places.ContainsKey(code));
        SettleResults(parts, results);
        header.SettleDevices(null, parts);
    }

    // "Preamplifier gain" beside "mic sensitivity": each is the result of its own device, and none of the other's.
    private void SettleResults(List<DevicePart> parts, List<(DeviceKind Kind, Column Column, int Place)> results)
    {
        foreach (var part in parts)
        {
            var own = results.Where(r => r.Kind == part.Kind).ToList();
            // A day or a laboratory without a result is worth a note and no more.
            var hasResult = own.Exists(r => r.Column == Column.Value) && own.Exists(r => r.Column == Column.Day);
            foreach (var (_, column, place) in own)
            {
                if (!hasResult) header.Noted.Add(place);
                else if (!part.Places.TryAdd(column, place)) header.Twice.Add(header.Row.At(place).Shown);
            }
        }
    }

    // A number that several devices share is none of theirs; and a number of the house may be no serial number where another column may.
    private void CheckNumbers()
    {
        var code = Column.Fields[DeviceField.InventoryCode];
        if (header.Places.TryGetValue(code, out var own) && header.Readings[own] is not null && !header.Divided.ContainsKey(own)
            && header.Places.TryGetValue(Column.Serial, out var serial) && Profile(own) is { Filled: >= FewestThatTell } codes
            && codes.Distinct * 10 < Profile(serial).Distinct * 9 && codes.Filled * 10 >= Profile(serial).Filled * 9)
        {
            header.Unsettle(code, own, mapping);
            Ask(own, codes);
        }
        // "6625-12-105-4086" numbers a stock; where another column may name the models, it does.
        if (header.Places.TryGetValue(Column.Model, out var model) && header.Readings[model] is not null
            && !header.Divided.ContainsKey(model) && Profile(model) is { Filled: >= FewestThatTell, HasLetters: false } models
            && _questions.Exists(q => q.Key.StartsWith("column ", StringComparison.Ordinal)))
        {
            header.Unsettle(Column.Model, model, mapping);
            Ask(model, models, Column.Model);
        }
        if (header.Places.TryGetValue(code, out var shared) && header.Readings[shared] is not null && !header.Has(Column.Serial)
            && !header.Divided.ContainsKey(shared) && Profile(shared) is { Filled: >= FewestThatTell } all
            && all.Distinct * 10 < all.Filled * 9 && _questions.Exists(q => q.MayName))
        {
            header.Unsettle(code, shared, mapping);
            header.IsContended = true;
            Ask(shared, all, code);
        }
        if (header.Places.TryGetValue(Column.Serial, out var first) && header.Readings[first] is { } reading && !header.Has(code)
            && HeaderConcepts.IsOfHouse(reading.Text) && _questions.Exists(q => q.MayName))
        {
            header.Unsettle(Column.Serial, first, mapping);
            header.IsContended = true;
            Ask(first, Profile(first), code);
        }
    }

    // A stock number stands as the model, and the type beside it is only a note: the one that looks like models is the model.
    private void SettleStock()
    {
        if (!header.Places.TryGetValue(Column.Model, out var model) || header.Readings[model] is null || header.Divided.ContainsKey(model)
            || Profile(model) is not { Filled: >= FewestThatTell, HasLetters: false }) return;
        var types = Enumerable.Range(0, header.Readings.Count).Where(i => i != model && header.Readings[i] is { Kind: null } r
            && (r.Open is "?type" or "?what" or "?variant" || r.Column == Column.Model || r.Column == Column.Fields[DeviceField.Variant]
                || (r.Column == Column.Kind && header.Noted.Contains(i)))
            && LooksLikeModels(i)).ToList();
        if (types is not [var only]) return;
        header.Unsettle(Column.Model, model, mapping);
        header.Noted.Add(model);
        header.Noted.Remove(only);
        header.NoLongerTwice(only);
        if (header.Readings[only]!.Column is { } other) header.Unsettle(other, only, mapping);
        _questions.RemoveAll(q => q.Name == header.Row.At(only).Shown);
        header.Settle(only, Column.Model, mapping);
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
    private Column? OfPart(int i) => Profile(i) is var profile && profile.Mostly(profile.Numbers) && profile.LooksMeasured ? null
        : profile is { AllDiffer: true } or { Distinct: > 20 } ? Column.Serial : Column.Model;
}
