using MicRegister.Documents.Sheets;
using MicRegister.Register.Devices;

namespace MicRegister.Documents.Import;

/// <summary>Settles what headers leave open by what stands below them; what that does not settle is asked.</summary>
internal sealed partial class HeaderSettling(TableHeader header, ImportMapping mapping, IReadOnlyList<SheetRow> rows, string sheet,
    bool isNamed)
{
    private const int RowsLookedAt = 400;

    /// <summary>How many rows it takes to see that values differ, as numbers do, or repeat, as models do.</summary>
    private const int FewestThatTell = 6;

    private readonly Dictionary<int, ColumnProfile> _profiles = [];
    private readonly List<ImportQuestion> _questions = [];
    private readonly IReadOnlyList<SheetRow> _sample = [.. rows.Take(RowsLookedAt).Where(r => !header.IsRepeatedBy(r)
        && !LabelledLine.IsCard(r))];

    /// <summary>Numbers of the devices in the sheets before this one.</summary>
    public required Lazy<KnownNumbers> Known { get; init; }

    /// <summary>Settles all columns.</summary>
    /// <returns>What only a person can say.</returns>
    public IReadOnlyList<ImportQuestion> Settle()
    {
        // "Gain, dB" is a detail of a preamplifier; beside a day of calibration it is what was measured.
        var gain = Column.Fields[DeviceField.GainDb];
        if (header.Has(gain) && header.Has(Column.Day) && !header.Has(Column.Value)) header.Move(gain, Column.Value, mapping);
        // "Kit" is a column of what goes along with a campaign; in a list of devices it only sorts them.
        if (header.Has(Column.Purpose) && !header.Has(Column.Campaign) && !mapping.Constants.ContainsKey(Column.Campaign)
            && header.Has(Column.Day))
            header.Move(Column.Purpose, Column.Noted, mapping);
        SettleStations();
        Guess(SettleTimes, SettleKinds, SettleNumbersOfLaboratory);
        SettleMarks();
        Guess(SettleHalves);
        SettleDateParts();
        SettleDayBesideResult();
        SettlePrevious();
        SettleDevices();
        Guess(SettleThings);
        SettleYears();
        for (var i = 0; i < header.Readings.Count; i++)
        {
            if (header.Readings[i] is not { } reading || IsPlaced(i)) continue;
            if (reading.Kind is not null && reading.Column is null && reading.Open is null && IsPlaced(i)) continue;
            SettleOpen(i, reading);
        }
        SettleYears();
        Guess(CheckContents);
        CheckTexts();
        CheckFound();
        CheckReference();
        CheckGuesses();
        Guess(SettleVariant, SettleCompanies);
        SettleModelBesideKind();
        CheckSecondValue();
        Guess(SettleStock, SettleKnown, SettleRecordNumbers);
        AskContended();
        CheckNumbers();
        Guess(CheckParts, CheckOfDevice);
        if (!isNamed && !header.IsContended && !header.NamesRows && header.Devices.Count == 0
            && (header.Described is null || header.IsThing))
            AskWhichNames();
        return _questions;
    }

    // What cells tell of their columns counts in lists of people: a table that left a register says by its keys what it holds.
    private void Guess(params ReadOnlySpan<Action> steps)
    {
        if (TableFinder.LeftARegister(header.Row)) return;
        foreach (var step in steps) step();
    }

    private void SettleOpen(int i, HeaderReading reading)
    {
        var profile = Profile(i);
        switch (reading.Open)
        {
            case "?none":
                header.Leave(i);
                return;
            case "?told":
                header.Noted.Add(i);
                return;
            // Of makers and laboratories the models tell, once they are known.
            case "?company":
                return;
            case "?stock" when header.Has(Column.Model) || header.Has(Column.Serial):
                header.Noted.Add(i);
                return;
            // What a variant is of is its model, where nothing else is one.
            case "?variant" when !header.Has(Column.Model) && LooksLikeModels(i):
                header.Settle(i, Column.Model, mapping);
                header.Guessed.Add((i, Column.Model.Meaning));
                return;
            case "?variant" when header.Has(Column.Model) || profile.NearlyAll(profile.Numbers):
                header.Noted.Add(i);
                return;
            // A bare dB: levels lie far from 0, uncertainties near it.
            case "?unit" when !header.Has(Column.Value) && profile.Mostly(profile.Numbers)
                && (profile.Least > 20 || profile.Greatest < -10 || (profile.Least < -10 && profile.Greatest > 60)):
                header.Settle(i, Column.Value, mapping);
                return;
            case "?unit" when !header.Has(Column.Uncertainty) && profile.Mostly(profile.Numbers) && profile.Least > 0
                && profile.Greatest < 3:
                header.Settle(i, Column.Uncertainty, mapping);
                return;
            case "?tag" or "?year" or "?factor" or "?check" when SettleByKinds(i, reading, profile):
                return;
            case "?performed" when profile.NearlyAll(profile.Days):
                if (IsDue(i) && !OthersMayBeDue(i)) header.Settle(i, Column.Due, mapping);
                else if (!header.Has(Column.Day)) header.Settle(i, Column.Day, mapping);
                else header.Noted.Add(i);
                return;
            case "?performed" when !profile.Mostly(profile.WithDigits) && !header.Has(Column.Laboratory):
                header.Settle(i, Column.Laboratory, mapping);
                return;
            // The laboratory stands elsewhere: who did it there is of no use.
            case "?performed" when !profile.Mostly(profile.WithDigits) && profile.Numbers == 0:
                header.Noted.Add(i);
                return;
            // "Klasse: 2310" in every row is that of an administration.
            case "?type" or "?what" when profile is { Filled: > 3, Distinct: 1 } && profile.Numbers == profile.Filled:
                break;
            case "?type" or "?what" or "?number" when profile.CountsRows && (Names || profile.Least <= 1):
                header.Leave(i);
                return;
            case "?type" or "?what" when Describes(i):
                header.Described = i;
                return;
            case "?two" when Separator(i) is { } separator && TableHeader.HalvesOf(reading.Text) is var halves && IsFree(halves)
                && InOrder(i, separator, halves) is { } order:
                header.Divide(i, separator, order, mapping);
                return;
            case "?two" when TableHeader.HalvesOf(reading.Text) == (Column.Maker, Column.Model) && IsFree((Column.Maker, Column.Model))
                && HoldsMakerAndModel(i):
                header.Divide(i, TableHeader.BeforeModel, (Column.Maker, Column.Model), mapping);
                return;
            case "?two" when TableHeader.HalvesOf(reading.Text) is var (a, b) && a != Column.Serial && b != Column.Serial
                && ((a != Column.Maker && b != Column.Maker) || HoldsOneWord(i)) && !header.Has(Column.Model)
                && Separator(i) is null or " ":
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
            case "?noted" or "?verdict" when !header.Has(Column.Value) && ((profile.NearlyAll(profile.Results) && profile.Sensitivities > 0)
                || (profile.LooksMeasured && (MeasuredText.IsOfSensitivity(reading.Unit) || (reading.Open == "?verdict" && HasUnits)))):
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
            // "Laboratory / accreditation" above names of laboratories.
            case "?noted" when HeaderConcepts.Of(reading.Text).Concepts.Contains("laboratory") && !header.Has(Column.Laboratory)
                && profile.WithDigits == 0 && !OnlyYesOrNo(i):
                header.Settle(i, Column.Laboratory, mapping);
                header.Guessed.Add((i, Column.Laboratory.Meaning));
                return;
            // "Usage" above states of use.
            case "?noted" when profile.NearlyAll(profile.Statuses) && profile.DistinctStatuses >= 2 && !header.Has(Column.Status):
                header.Settle(i, Column.Status, mapping);
                header.Guessed.Add((i, Column.Status.Meaning));
                return;
            case "?noted" when profile.Statuses * 4 > profile.Filled && !profile.IsOfMarks && !OnlyYesOrNo(i) && !header.Has(Column.Status):
                break;
            case "?noted":
                header.Noted.Add(i);
                return;
            case "?type" or "?what" when profile.Mostly(profile.Kinds) && !header.Has(Column.Kind):
                header.Settle(i, Column.Kind, mapping);
                return;
            // Models repeat and hold digits as a rule: what differs in each row is a number, and "external" is how it was calibrated.
            case "?type" when !header.Has(Column.Model) && (DiffersAsDevices(i)
                || (reading.IsGuess && !profile.Mostly(profile.WithDigits)) || OnlyYesOrNo(i)):
                break;
            case "?what" when !header.Has(Column.Model) && DiffersAsDevices(i):
                break;
            case "?type" when !header.Has(Column.Model):
                header.Settle(i, Column.Model, mapping);
                return;
            case "?what" when !header.Has(Column.Model) && profile.Mostly(profile.WithDigits):
                header.Settle(i, Column.Model, mapping);
                return;
            case "?type" or "?what" when reading.IsGuess || profile.Mostly(profile.Days):
                break;
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
            case "?number" when (profile.CountsRows || profile.IsNumbering) && (Names || profile.Least <= 1):
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
        // "Calibrator level [dB]" beside the sensitivity of the microphones.
        if (reading is { Kind: not null, Unit: { } unit } && reading.Column == Column.Value && header.Devices.Count == 0
            && header.Places.TryGetValue(Column.Value, out var first) && header.Units.GetValueOrDefault(first) is { } other && other != unit
            && !header.Again.Exists(a => a.First == first))
        {
            header.Settle(i, Column.Value, mapping);
            return;
        }
        if (SettleByCells(i, reading, profile)) return;
        // A column that holds nothing asks nothing.
        if (profile.Filled == 0) return;
        if (HasNoBearing(i, reading, profile)) header.Noted.Add(i);
        else Ask(i, profile, reading.Kind is null ? reading.Column : null);
    }

    // As many values as there are devices, each with its own: numbers do so, and models do not.
    private bool DiffersAsDevices(int i) => header.Places.TryGetValue(Column.Serial, out var serial)
        ? Profile(i).Distinct >= FewestThatTell && Profile(i).Distinct * 10 >= Profile(serial).Distinct * 9
        : Profile(i) is { AllDiffer: true, Filled: >= FewestThatTell };

    private bool Names => header.Has(Column.Serial) || header.Has(Column.Fields[DeviceField.InventoryCode]) || header.Devices.Count > 0;

    private bool IsPlaced(int i) => header.Places.Values.Contains(i) || header.Groups.Any(g => g.Places.ContainsValue(i))
        || header.Devices.Any(d => d.Places.ContainsValue(i))
        || header.Described == i || header.YearPlace == i || header.StatusMarks.Contains(i)
            || (header.DateParts is var (d, m, y) && (d == i || m == i || y == i)) || header.Noted.Contains(i)
            || header.LeftOut.Contains(i) || header.Again.Exists(a => a.Second == i) || header.Twice.Contains(header.Row.At(i).Shown);

    private ColumnProfile Profile(int column)
    {
        if (!_profiles.TryGetValue(column, out var profile)) _profiles[column] = profile = ColumnProfile.Of(_sample, column);
        return profile;
    }
}
