using System.Text.RegularExpressions;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <content>Whether a column that nobody understands can hold what a register keeps, by its cells and by what is still sought.</content>
internal sealed partial class HeaderSettling
{
    private const int WordsOfProse = 3;
    private const int MostOfALot = 3;
    private const double LeastFactor = 1.6;
    private const double MostFactor = 3.5;
    private const double MostUncertainty = 3;

    private static readonly HashSet<double> Frequencies = [31.5, 63, 125, 160, 200, 250, 251.19, 251.2, 315, 400, 500, 630, 800, 1000, 2000,
        4000, 8000, 0.25, 1];

    private static readonly HashSet<double> Sizes = [3.175, 3.2, 6.35, 7, 12.7, 13.2, 23.77, 25.4, 26];

    // Of what is unknown only the cells can tell that it is of no weight: all that they might be stands elsewhere. It is kept as a note.
    private bool HasNoBearing(int i, HeaderReading reading, ColumnProfile profile)
    {
        if (!Names || reading.Kind is not null || reading.Year is not null || reading.Index is not null || reading.FrequencyHz is not null
            || reading.Unit is not null || (reading.Open == "?year" && !header.Has(Column.Day))
            || reading.Open is "?number" or "?two" or "?type" or "?what" or "?calibration-status" or "?check"
            || header.IsTwice(i) || header.Row.At(i).Shown.StartsWith("column ", StringComparison.Ordinal)) return false;
        if (OnlyYesOrNo(i) || profile.IsOfMarks || IsFlag(i) || CountsOnly(profile)) return true;
        if (HoldsWhatIsSought(i)) return false;
        if (profile.Kinds > 0 || profile.Statuses > 0 || profile.Sensitivities > 0 || HoldsUnits(i)) return false;
        if (profile.Mostly(profile.Days)) return header.Has(Column.Day) && (header.Has(Column.Due) || !IsDue(i)) && !SpeaksOfDays(reading);
        if (profile.NearlyAll(profile.Numbers)) return !MayBeNumber(i, profile);
        if (IsProse(i)) return true;
        return profile.Mostly(profile.WithDigits) ? !MayBeCode(i, profile) : !MayBeWord(i, profile);
    }

    // "Day of calib. XY" beside a day of calibration contends with it.
    private bool SpeaksOfDays(HeaderReading reading) => HeaderConcepts.Of(reading.Text).Concepts is var concepts
        && (concepts.Any(c => c is "calibration" or "due" or "next") || (concepts.Contains("date")
            && header.Readings[header.Places[Column.Day]] is { } day && !HeaderConcepts.Of(day.Text).Concepts.Contains("calibration")));

    private bool MayBeNumber(int i, ColumnProfile profile)
    {
        bool IsOpen(Column column) => !Tells(column);
        var numbers = _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t))
            .Select(t => MeasuredText.TryRead(t, out var n, out _) ? n : double.NaN).ToList();
        return MayBeSerial(i, profile) || (IsOpen(Code) && DiffersAsDevices(i) && !profile.LooksMeasured)
            || (IsOpen(Column.Model) && !profile.LooksMeasured)
            || (IsOpen(Column.Value) && profile.LooksMeasured)
            || (IsOpen(Column.Uncertainty) && header.Has(Column.Value) && profile.Least > 0 && profile.Greatest < MostUncertainty)
            || (IsOpen(Column.Factor) && header.Has(Column.Uncertainty) && profile.Least >= LeastFactor && profile.Greatest <= MostFactor)
            || (IsOpen(Column.CalibrationHz) && numbers.TrueForAll(Frequencies.Contains) && profile.Greatest > 1)
            || (IsOpen(Column.Fields[DeviceField.SizeMm]) && numbers.TrueForAll(Sizes.Contains))
            || (header.Has(Column.Day) && profile.LooksMeasured && (profile is { Least: > 17, Greatest: < 29 } || IsPressure(profile)
                || profile is { Least: > 20, Greatest: < 80 }))
            || (IsOpen(Column.Certificate) && header.Has(Column.Day) && DiffersAsDevices(i) && !profile.LooksMeasured);
    }

    // As many numbers as devices, also where each has several rows.
    private bool MayBeSerial(int i, ColumnProfile profile) => !header.Has(Column.Serial) && (profile.AllDiffer
        || (header.Places.TryGetValue(Code, out var code) && profile.Distinct * 10 >= Profile(code).Distinct * 8));

    private static bool IsPressure(ColumnProfile profile) =>
        profile is { Least: > 85, Greatest: < 108 } or { Least: > 850, Greatest: < 1080 };

    private bool MayBeCode(int i, ColumnProfile profile) =>
        MayBeSerial(i, profile) || (!header.Has(Code) && DiffersAsDevices(i)) || (!Tells(Column.Model) && !DiffersAsDevices(i))
        || (!header.Has(Column.Certificate) && header.Has(Column.Day)
            && profile.Distinct > MostOfALot) || (!header.Has(Column.Place) && !IsTorn(Column.Place, i))
        || (!header.Has(Column.Fields[DeviceField.SizeMm]) && _sample.Any(r => MeasuredText.InchFraction(r.At(i).Shown) is not null));

    private bool MayBeWord(int i, ColumnProfile profile)
    {
        // Names of people, and letters that stand for something in a list that nobody has.
        var texts = _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).ToList();
        if (texts.TrueForAll(t => t.Length == 1 || Person().IsMatch(t))) return false;
        return new[] { Column.Kind, Column.Maker, Column.Model, Column.Place }.Any(c => !Tells(c))
            || (!header.Has(Column.Status) && profile.Distinct <= texts.Count / 2)
            || (!header.Has(Column.Laboratory) && (header.Has(Column.Day) || header.Has(Column.Value)))
            || !header.Has(Column.Serial);
    }

    private bool IsProse(int i)
    {
        var texts = _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).ToList();
        return texts.Count > 0
            && texts.Count(t => t.Split(' ', StringSplitOptions.RemoveEmptyEntries).Length > WordsOfProse) * 2 > texts.Count
            && texts.TrueForAll(t => Words.Status(t) is null && Words.Kind(t) is null);
    }

    private bool HoldsUnits(int i)
    {
        var texts = _sample.Select(r => r.At(i).Shown).Where(t => !RowReader.IsAbsent(t)).ToList();
        return texts.Count > 1 && texts.TrueForAll(t => MeasuredText.Unit(t) is "dB" or "mV/Pa" or "V/Pa" or "dB re 1 V/Pa" or "mV");
    }

    // A column of units tells that results stand beside it.
    private bool HasUnits => header.Has(Column.Unit) || Enumerable.Range(0, header.Readings.Count).Any(HoldsUnits);

    private void SettleCompanies()
    {
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { Open: "?company" } || IsPlaced(i) || Profile(i).Filled == 0) continue;
            var column = !header.Has(Column.Maker) && IsOfMakers(i) ? Column.Maker : null;
            if (column is null && header.Has(Column.Maker) && header.Has(Column.Laboratory)) header.Noted.Add(i);
            else if (column is null) Ask(i, Profile(i), header.Has(Column.Maker) ? Column.Laboratory : Column.Maker);
            else
            {
                header.Settle(i, column, mapping);
                header.Guessed.Add((i, column.Meaning));
            }
        }
    }

    private static Column Code => Column.Fields[DeviceField.InventoryCode];

    // A model has one maker, and was calibrated wherever there was time.
    private bool IsOfMakers(int i)
    {
        if (header.Has(Column.Laboratory) || !(header.Has(Column.Day) || header.Has(Column.Value) || header.Groups.Count > 0)) return true;
        if (!header.Places.TryGetValue(Column.Model, out var model) || Profile(i).Distinct < 2) return false;
        var pairs = _sample.Select(r => (Model: r.At(model).Shown, Name: r.At(i).Shown))
            .Where(p => !RowReader.IsAbsent(p.Model) && !RowReader.IsAbsent(p.Name)).GroupBy(p => p.Model).ToList();
        return pairs.Count(p => p.Count() > 1) >= 2 && pairs.TrueForAll(p => p.Select(o => o.Name).Distinct().Count() == 1);
    }

    // Letters with digits that several devices share, and no version of a program.
    private bool LooksLikeModels(int i) => Profile(i) is { Filled: > 0, HasLetters: true } profile && profile.Mostly(profile.WithDigits)
        && !DiffersAsDevices(i) && !profile.Mostly(profile.Days) && !_sample.Any(r => ProgramVersion().IsMatch(r.At(i).Shown));

    // "Variant: MK-50", and no column of models beside it.
    private void SettleVariant()
    {
        var variant = Column.Fields[DeviceField.Variant];
        if (header.Has(Column.Model) || header.HasModelBesideKind || !header.Places.TryGetValue(variant, out var i)
            || header.Readings[i] is null || !LooksLikeModels(i)) return;
        header.Unsettle(variant, i, mapping);
        header.Settle(i, Column.Model, mapping);
        header.Guessed.Add((i, Column.Model.Meaning));
    }

    [GeneratedRegex(@"^\s*(?:(?:\p{Lu}\.\s?)+(?:-?\p{Lu}\.)?\s?\p{Lu}[\p{L}'-]+|\p{Lu}[\p{L}'-]+,\s*\p{Lu}\.?)\s*$")]
    private static partial Regex Person();

    [GeneratedRegex(@"^\s*(?:[vVrR]\.?\s?)?[0-9]+(?:\.[0-9]+)+[a-z]?\s*$")]
    private static partial Regex ProgramVersion();
}
