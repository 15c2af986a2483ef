using System.Text.RegularExpressions;

namespace MicRegister.Documents.Import;

/// <content>What the rows say against the meaning of a column, whatever its header says.</content>
internal sealed partial class HeaderSettling
{
    private const int FewestTorn = 3;

    // Times of day are no days, and a log of calibrations has no use for them.
    private void SettleTimes()
    {
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { } reading || Profile(i).Filled < 2
                || !Texts(i).TrueForAll(t => TimeOfDay().IsMatch(t))) continue;
            header.NoLongerTwice(i);
            foreach (var column in header.Places.Where(p => p.Value == i).Select(p => p.Key).ToList()) header.Unsettle(column, i, mapping);
            if (reading.Column == Column.Day) GiveDay(i);
            header.Noted.Add(i);
        }
    }

    // The day may have stood second because the time claimed its meaning.
    private void GiveDay(int time)
    {
        var days = Enumerable.Range(0, header.Readings.Count).Where(i => i != time && header.IsTwice(i)
            && header.Readings[i] is { Kind: null } r && r.Column == Column.Day && Profile(i).NearlyAll(Profile(i).Days)).ToList();
        if (days is not [var only] || header.Has(Column.Day)) return;
        header.NoLongerTwice(only);
        header.Settle(only, Column.Day, mapping);
    }

    // "Gerätetyp" above models, and "Prüfmittel" above kinds: the one whose cells are kinds holds them.
    private void SettleKinds()
    {
        var said = header.Places.TryGetValue(Column.Kind, out var at) ? at : -1;
        if (said >= 0 && (header.Readings[said] is null || Profile(said) is not { Kinds: 0, Filled: > 2 })) return;
        var kinds = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { Kind: null, Year: null, Index: null } r
            && (r.Column is null || header.IsTwice(i) || MayHoldKinds.Contains(r.Column)) && i != said && !header.Divided.ContainsKey(i)
            && Profile(i) is { Filled: > 2 } p && p.NearlyAll(p.Kinds) && !HoldsThings(i) && !Describes(i)).ToList();
        if (kinds is not [var only]) return;
        foreach (var column in header.Places.Where(p => p.Value == only).Select(p => p.Key).ToList())
            header.Unsettle(column, only, mapping);
        if (header.Has(Column.Kind))
        {
            header.Unsettle(Column.Kind, said, mapping);
            if (!header.Has(Column.Model) && LooksLikeModels(said)) header.Settle(said, Column.Model, mapping);
            else header.Noted.Add(said);
            header.Guessed.Add((said, header.Has(Column.Model) ? Column.Model.Meaning : Column.Noted.Meaning));
        }
        header.NoLongerTwice(only);
        header.Settle(only, Column.Kind, mapping);
    }

    // "Labnr.: INV-2025" is a number of a device, and names no laboratory.
    private void SettleNumbersOfLaboratory()
    {
        if (!header.Places.TryGetValue(Column.Laboratory, out var i) || header.Readings[i] is null
            || Profile(i) is not { Filled: >= FewestThatTell } profile || !profile.NearlyAll(profile.WithDigits) || !DiffersAsDevices(i)
            || profile.Mostly(profile.Days)) return;
        header.Unsettle(Column.Laboratory, i, mapping);
        if (header.Has(Code)) Ask(i, profile);
        else header.Settle(i, Code, mapping);
        header.Guessed.Add((i, Code.Meaning));
    }

    // "ID: 1171, 1172, 1173" beside the numbers of the house counts the records of a table.
    private void SettleRecordNumbers()
    {
        var claims = Enumerable.Range(0, header.Readings.Count).Where(i => header.Readings[i] is { Kind: null } r && r.Column == Code
            && (header.IsTwice(i) || (header.Places.TryGetValue(Code, out var at) && at == i)
                || _questions.Exists(q => q.Name == header.Row.At(i).Shown)))
            .ToList();
        var counting = claims.Where(i => Profile(i) is { CountsRows: true, Filled: > 2 }).ToList();
        if (counting is not [var records] || claims.Except(counting).ToList() is not [var numbers] || !DiffersAsDevices(numbers)
            || !Profile(numbers).Mostly(Profile(numbers).WithDigits) || Profile(numbers).Mostly(Profile(numbers).Days)) return;
        header.Unsettle(Code, records, mapping);
        foreach (var i in claims)
        {
            header.NoLongerTwice(i);
            _questions.RemoveAll(q => q.Name == header.Row.At(i).Shown);
        }
        header.Noted.Add(records);
        if (!header.Has(Code)) header.Settle(numbers, Code, mapping);
    }

    // Of two columns that claim one meaning, the one whose cells cannot have it has no claim.
    private bool YieldsTo(int i, Column column)
    {
        if (!header.Places.TryGetValue(column, out var first) || header.Readings[first] is null || header.Divided.ContainsKey(first)
            || header.Readings[i] is not { } reading) return false;
        bool IsIt(int place) => Profile(place) is { Filled: > 2 } p && (column == Code ? DiffersAsDevices(place) && p.Mostly(p.WithDigits)
            : column == Column.Day || column == Column.Due ? p.NearlyAll(p.Days) : p.NearlyAll(p.Kinds));
        bool IsNot(int place) => Profile(place) is { Filled: > 2 } p && (column == Code ? p.Distinct * 10 < Numbered(p) * 8
            : column == Column.Day || column == Column.Due ? p.Days == 0 : p.Kinds == 0);
        if (column != Code && column != Column.Day && column != Column.Due && column != Column.Kind) return false;
        var other = IsIt(first) && IsNot(i) ? i : IsIt(i) && IsNot(first) ? first : -1;
        if (other < 0) return false;
        if (other == first)
        {
            header.Unsettle(column, first, mapping);
            header.Settle(i, column, mapping);
        }
        if (HasNoBearing(other, (other == i ? reading : header.Readings[first]!) with { Column = null }, Profile(other)))
            header.Noted.Add(other);
        else Ask(other, Profile(other));
        return true;
    }

    private int Numbered(ColumnProfile profile) =>
        header.Places.TryGetValue(Column.Serial, out var serial) ? Profile(serial).Distinct : profile.Filled;

    // What says another thing in each row of one device is no detail of the device: a folder of certificates, an entry of a book.
    private void CheckOfDevice()
    {
        if (header.Has(Column.Station) || header.Has(Column.Campaign) || header.Devices.Count > 0) return;
        foreach (var column in (Column[])[Column.Place, Code, Column.Maker, Column.Model, Column.Kind])
        {
            if (!header.Places.TryGetValue(column, out var i) || header.Readings[i] is null || header.Divided.ContainsKey(i)
                || !IsTorn(column, i)) continue;
            header.Unsettle(column, i, mapping);
            if (column == Code && Profile(i).CountsRows) header.Noted.Add(i);
            else Ask(i, Profile(i), column);
        }
    }

    private bool IsTorn(Column column, int i)
    {
        if (!header.Places.TryGetValue(Column.Serial, out var serial) || serial == i) return false;
        // Two makers may number alike: devices of one serial number are told apart by their models.
        var model = column != Column.Model && column != Column.Maker && header.Places.TryGetValue(Column.Model, out var at) ? at : serial;
        var devices = _sample.Where(r => !RowReader.IsAbsent(r.At(serial).Shown) && !RowReader.IsAbsent(r.At(i).Shown))
            .GroupBy(r => (r.At(serial).Shown, r.At(model).Shown)).Where(g => g.Count() > 1).ToList();
        var torn = devices.Count(g => g.Select(r => r.At(i).Shown).Distinct(StringComparer.OrdinalIgnoreCase).Count() > 1);
        return torn >= FewestTorn && torn * 2 > devices.Count;
    }

    // Running numbers under words that nobody knows: of the rows, where they begin with one or the devices have numbers already.
    private bool CountsOnly(ColumnProfile profile) => profile is { CountsRows: true, Filled: > 2 } && header.Has(Column.Serial)
        && (profile.Least <= 1 || header.Has(Code) || profile.Distinct * 10 > Profile(header.Places[Column.Serial]).Distinct * 11);

    // 0 and 1 in each cell: a flag of a table.
    private bool IsFlag(int i) => Texts(i) is { Count: > 2 } texts && texts.TrueForAll(t => t is "0" or "1");

    [GeneratedRegex(@"^\s*(?:[01]?[0-9]|2[0-3])[:h][0-5][0-9](?::[0-5][0-9])?\s*(?:h|Uhr|[ap]\.?m\.?)?\s*$", RegexOptions.IgnoreCase)]
    private static partial Regex TimeOfDay();
}
